"""read_back.py KIND - what an independent reader makes of a calendar (ics), a table (csv) or a drawing (svg) on standard
input: one line an event, a row, or a class of shapes. Leaves with 1 if it cannot be read."""
import collections
import csv
import io
import sys
import xml.etree.ElementTree


def calendar(data):
    import icalendar

    lines = data.split(b"\r\n")
    assert lines[-1] == b"" and all(len(line) <= 75 and b"\n" not in line for line in lines), "a line too long or bare"
    for event in icalendar.Calendar.from_ical(data).walk("VEVENT"):
        start, end = event.decoded("dtstart"), event.decoded("dtend")
        assert start.tzinfo is None and event["UID"] and event.decoded("dtstamp"), "not a floating event"
        yield f"{start:%Y-%m-%d %H:%M} {end:%Y-%m-%d %H:%M} {event['SUMMARY']}"
        for line in event["DESCRIPTION"].split("\n"):
            yield "  " + line


def table(data):
    rows = list(csv.reader(io.StringIO(data.decode("utf-8"), newline=""), strict=True))
    assert len({len(row) for row in rows}) == 1, "rows of different lengths"
    return ("|".join(row) for row in rows)


def drawing(data):
    shapes = collections.Counter()
    texts = []
    for element in xml.etree.ElementTree.fromstring(data).iter():
        shapes[element.tag.split("}")[1] + " " + element.get("class", "")] += 1
        if element.tag.endswith("}text"):
            texts.append(element.text or "")
    return [f"{shape}: {count}" for shape, count in sorted(shapes.items())] + texts


readers = {"ics": calendar, "csv": table, "svg": drawing}
try:
    sys.stdout.write("".join(line + "\n" for line in readers[sys.argv[1]](sys.stdin.buffer.read())))
except (AssertionError, ValueError, csv.Error, xml.etree.ElementTree.ParseError) as error:
    print("unreadable:", error)
    sys.exit(1)
