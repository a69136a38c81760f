// Reads a feed with ical.js; see README.md.
import { readFileSync } from "node:fs";
import ICAL from "ical.js";

// ical.js leaves the text of X- properties escaped until told that they are text (RFC 5545 section 3.8.8.2).
ICAL.design.icalendar.property["x-wr-calname"] = { defaultType: "text" };

const calendar = new ICAL.Component(ICAL.parse(readFileSync(process.argv[2], "utf8")));

// The feed's own time zones and no others.
const zones = new Map(calendar.getAllSubcomponents("vtimezone").map((zone) => [zone.getFirstPropertyValue("tzid"), new ICAL.Timezone(zone)]));

function inUtc(event, name) {
  const line = event.getFirstProperty(name);
  const time = line.getFirstValue();
  if (time.isDate) return null;
  const zone = zones.get(line.getParameter("tzid"));
  if (!zone) throw new Error(`${name} has no time zone in this feed`);
  const { year, month, day, hour, minute, second } = time;
  return new Date(new ICAL.Time({ year, month, day, hour, minute, second, isDate: false }, zone).toUnixTime() * 1000).toISOString().replace(".000", "");
}

function read(event) {
  const value = (name) => event.getFirstPropertyValue(name);
  return {
    uid: value("uid"),
    summary: value("summary"),
    description: value("description"),
    location: value("location"),
    categories: event.getAllProperties("categories").flatMap((line) => line.getValues()),
    start: value("dtstart").toString(),
    end: value("dtend").toString(),
    startUtc: inUtc(event, "dtstart"),
    endUtc: inUtc(event, "dtend"),
    status: value("status"),
    sequence: value("sequence"),
    transparency: value("transp"),
    stamp: value("dtstamp").toString(),
    modified: value("last-modified").toString(),
    alarms: event.getAllSubcomponents("valarm")
      .map((alarm) => -Math.round(alarm.getFirstPropertyValue("trigger").toSeconds() / 60) || 0)
      .sort((one, other) => one - other),
  };
}

const events = calendar.getAllSubcomponents("vevent").map(read).sort((one, other) => (one.uid < other.uid ? -1 : 1));
process.stdout.write(JSON.stringify({ name: calendar.getFirstPropertyValue("x-wr-calname"), events }));
