/* Reads a feed with libical and checks it against libical's table of restrictions; see README.md. */
#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void text(const char *key, const char *value, const char *after)
{
    printf("\"%s\":\"", key);
    for (const unsigned char *at = (const unsigned char *)(value ? value : ""); *at; at++) {
        if (*at == '"' || *at == '\\')
            printf("\\%c", *at);
        else if (*at < 0x20)
            printf("\\u%04x", *at);
        else
            putchar(*at);
    }
    printf("\"%s", after);
}

/* A day, or a local time with the instant that the feed's own time zone makes of it. */
static void moment(const char *key, struct icaltimetype time)
{
    if (time.is_date) {
        printf("\"%s\":\"%04d-%02d-%02d\",\"%sUtc\":null,", key, time.year, time.month, time.day, key);
        return;
    }
    if (!time.zone || !icaltimezone_get_component((icaltimezone *)time.zone)) {
        fprintf(stderr, "%s has no time zone in this feed\n", key);
        exit(1);
    }
    struct icaltimetype utc = icaltime_convert_to_zone(time, icaltimezone_get_utc_timezone());
    printf("\"%s\":\"%04d-%02d-%02dT%02d:%02d:%02d\",", key, time.year, time.month, time.day, time.hour, time.minute, time.second);
    printf("\"%sUtc\":\"%04d-%02d-%02dT%02d:%02d:%02dZ\",", key, utc.year, utc.month, utc.day, utc.hour, utc.minute, utc.second);
}

static void stamp(const char *key, struct icaltimetype time)
{
    if (!icaltime_is_utc(time)) {
        fprintf(stderr, "%s is not in UTC\n", key);
        exit(1);
    }
    printf("\"%s\":\"%04d-%02d-%02dT%02d:%02d:%02dZ\",", key, time.year, time.month, time.day, time.hour, time.minute, time.second);
}

static void list(icalcomponent *event, const char *key, icalproperty_kind kind)
{
    const char *comma = "";
    printf("\"%s\":[", key);
    for (icalproperty *line = icalcomponent_get_first_property(event, kind); line; line = icalcomponent_get_next_property(event, kind)) {
        printf("%s\"%s\"", comma, icalproperty_get_categories(line));
        comma = ",";
    }
    printf("],");
}

static int ascending(const void *one, const void *other)
{
    return *(const int *)one - *(const int *)other;
}

static void alarms(icalcomponent *event)
{
    int minutes[16], count = 0;
    for (icalcomponent *alarm = icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT); alarm && count < 16;
         alarm = icalcomponent_get_next_component(event, ICAL_VALARM_COMPONENT)) {
        struct icaltriggertype trigger = icalproperty_get_trigger(icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY));
        minutes[count++] = -icaldurationtype_as_int(trigger.duration) / 60;
    }
    qsort(minutes, count, sizeof *minutes, ascending);
    printf("\"alarms\":[");
    for (int at = 0; at < count; at++)
        printf("%s%d", at ? "," : "", minutes[at]);
    printf("]");
}

static struct icaltimetype modified(icalcomponent *event)
{
    return icalproperty_get_lastmodified(icalcomponent_get_first_property(event, ICAL_LASTMODIFIED_PROPERTY));
}

static const char *transparency(icalcomponent *event)
{
    icalproperty *line = icalcomponent_get_first_property(event, ICAL_TRANSP_PROPERTY);
    return icalproperty_get_value_as_string(line);
}

static int by_uid(const void *one, const void *other)
{
    return strcmp(icalcomponent_get_uid(*(icalcomponent *const *)one), icalcomponent_get_uid(*(icalcomponent *const *)other));
}

static const char *name(icalcomponent *calendar)
{
    for (icalproperty *line = icalcomponent_get_first_property(calendar, ICAL_X_PROPERTY); line;
         line = icalcomponent_get_next_property(calendar, ICAL_X_PROPERTY)) {
        if (strcmp(icalproperty_get_x_name(line), "X-WR-CALNAME") == 0)
            return icalvalue_get_x(icalproperty_get_value(line)) ? icalvalue_get_x(icalproperty_get_value(line)) : icalproperty_get_x(line);
    }
    return "";
}

static char *whole(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) {
        perror(path);
        exit(1);
    }
    fseek(file, 0, SEEK_END);
    long size = ftell(file);
    rewind(file);
    char *bytes = calloc(1, (size_t)size + 1);
    if (fread(bytes, 1, (size_t)size, file) != (size_t)size)
        exit(1);
    fclose(file);
    return bytes;
}

int main(int count, char **arguments)
{
    if (count != 2)
        return 2;
    icalcomponent *calendar = icalparser_parse_string(whole(arguments[1]));
    if (!calendar || icalcomponent_count_errors(calendar) > 0 || !icalrestriction_check(calendar)) {
        fprintf(stderr, "libical finds faults:\n%s\n", calendar ? icalcomponent_as_ical_string(calendar) : "no calendar");
        return 1;
    }
    int events = icalcomponent_count_components(calendar, ICAL_VEVENT_COMPONENT), at = 0;
    icalcomponent **sorted = calloc((size_t)events + 1, sizeof *sorted);
    for (icalcomponent *event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT); event;
         event = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT))
        sorted[at++] = event;
    qsort(sorted, (size_t)events, sizeof *sorted, by_uid);
    printf("{");
    text("name", name(calendar), ",\"events\":[");
    for (at = 0; at < events; at++) {
        icalcomponent *event = sorted[at];
        printf(at ? ",{" : "{");
        text("uid", icalcomponent_get_uid(event), ",");
        text("summary", icalcomponent_get_summary(event), ",");
        text("description", icalcomponent_get_description(event), ",");
        text("location", icalcomponent_get_location(event), ",");
        list(event, "categories", ICAL_CATEGORIES_PROPERTY);
        moment("start", icalcomponent_get_dtstart(event));
        moment("end", icalcomponent_get_dtend(event));
        text("status", icalproperty_status_to_string(icalcomponent_get_status(event)), ",");
        printf("\"sequence\":%d,", icalcomponent_get_sequence(event));
        text("transparency", transparency(event), ",");
        stamp("stamp", icalcomponent_get_dtstamp(event));
        stamp("modified", modified(event));
        alarms(event);
        printf("}");
    }
    printf("]}");
    return 0;
}
