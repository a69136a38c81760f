#!/usr/bin/python3
"""Reads a feed with python3-vobject; see README.md."""
import json
import sys
from datetime import datetime, timezone

import vobject


def stamp(line):
    return line.value.strftime("%Y-%m-%dT%H:%M:%SZ")


def local(line):
    return line.value.replace(tzinfo=None).isoformat() if isinstance(line.value, datetime) else line.value.isoformat()


def in_utc(line):
    return line.value.astimezone(timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ") if isinstance(line.value, datetime) else None


def read(event):
    return {
        "uid": event.uid.value,
        "summary": event.summary.value,
        "description": event.description.value,
        "location": event.location.value,
        "categories": [category for line in event.contents.get("categories", []) for category in line.value],
        "start": local(event.dtstart),
        "end": local(event.dtend),
        "startUtc": in_utc(event.dtstart),
        "endUtc": in_utc(event.dtend),
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
