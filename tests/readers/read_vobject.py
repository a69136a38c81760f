#!/usr/bin/python3
"""Reads a feed with python3-vobject; see README.md."""
import json
import sys

import vobject


def stamp(line):
    return line.value.strftime("%Y-%m-%dT%H:%M:%SZ")


def read(event):
    return {
        "uid": event.uid.value,
        "summary": event.summary.value,
        "description": event.description.value,
        "location": event.location.value,
        "categories": [category for line in event.contents.get("categories", []) for category in line.value],
        "start": event.dtstart.value.isoformat(),
        "end": event.dtend.value.isoformat(),
        "status": event.status.value,
        "sequence": int(event.sequence.value),
        "transparency": event.transp.value,
        "stamp": stamp(event.dtstamp),
        "modified": stamp(event.last_modified),
        "alarms": sorted(-round(alarm.trigger.value.total_seconds() / 60) for alarm in event.contents.get("valarm", [])),
    }


with open(sys.argv[1], encoding="utf-8", newline="") as file:
    calendar = vobject.readOne(file.read())
calendar.validate(raiseException=True)
events = sorted((read(event) for event in calendar.contents.get("vevent", [])), key=lambda event: event["uid"])
json.dump({"name": calendar.contents["x-wr-calname"][0].value, "events": events}, sys.stdout)
