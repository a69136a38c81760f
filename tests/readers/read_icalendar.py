#!/usr/bin/python3
"""Reads a feed with python3-icalendar; see README.md."""
import json
import sys
from datetime import datetime, timezone

from icalendar import Calendar


def categories(value):
    if value is None:
        return []
    return [str(category) for group in (value if isinstance(value, list) else [value]) for category in group.cats]


def minutes_before(alarm):
    return -round(alarm["TRIGGER"].dt.total_seconds() / 60)


def stamp(value):
    return value.dt.strftime("%Y-%m-%dT%H:%M:%SZ")


def local(value):
    return value.dt.replace(tzinfo=None).isoformat() if isinstance(value.dt, datetime) else value.dt.isoformat()


def in_utc(value):
    return value.dt.astimezone(timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ") if isinstance(value.dt, datetime) else None


def read(event):
    return {
        "uid": str(event["UID"]),
        "summary": str(event["SUMMARY"]),
        "description": str(event["DESCRIPTION"]),
        "location": str(event["LOCATION"]),
        "categories": categories(event.get("CATEGORIES")),
        "start": local(event["DTSTART"]),
        "end": local(event["DTEND"]),
        "startUtc": in_utc(event["DTSTART"]),
        "endUtc": in_utc(event["DTEND"]),
        "status": str(event["STATUS"]),
        "sequence": int(event["SEQUENCE"]),
        "transparency": str(event["TRANSP"]),
        "stamp": stamp(event["DTSTAMP"]),
        "modified": stamp(event["LAST-MODIFIED"]),
        "alarms": sorted(minutes_before(alarm) for alarm in event.walk("VALARM")),
    }


with open(sys.argv[1], "rb") as file:
    calendar = Calendar.from_ical(file.read())
bad = [str(error) for part in calendar.walk() for error in part.errors]
if bad:
    sys.exit("\n".join(bad))
events = sorted((read(event) for event in calendar.walk("VEVENT")), key=lambda event: event["uid"])
json.dump({"name": str(calendar["X-WR-CALNAME"]), "events": events}, sys.stdout)
