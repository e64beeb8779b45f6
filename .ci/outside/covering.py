# Reads covering messages with Python's email package and calendars with the icalendar library, and holds
# both against the sheet, the papers and each other.
#
# usage: covering.py --samples DIR REPORTS
#        REPORTS holds a folder for each job number, rendered with `--message --edition phone`
# needs: poppler-utils, pikepdf, icalendar, babel, langdetect
# exit:  0 all checks hold and each of them sees what is broken on purpose, 1 not so
import argparse
import datetime
import email
import email.policy
import email.utils
import hashlib
import html.parser
import pathlib
import subprocess
import sys

import babel.dates
import icalendar
import pikepdf

import languages
import sheets
from tally import Tally

CALENDAR = "next-checks.ics"
TYPES = {".pdf": "application/pdf", ".ics": "text/calendar"}
ADVICE = "look at src/document/message and src/document/calendar.rs"


class Words(html.parser.HTMLParser):
    """The text of a page, and every tag that could fetch or run something."""

    def __init__(self):
        super().__init__()
        self.text, self.active, self.inside = [], [], []

    def handle_starttag(self, tag, attrs):
        self.inside.append(tag)
        fetching = [name for name, _ in attrs if name in ("src", "href", "style", "onload")]
        if tag in ("script", "style", "img", "link", "iframe", "form") or fetching:
            self.active.append(tag)

    def handle_endtag(self, tag):
        if tag in self.inside:
            self.inside.remove(tag)

    def handle_data(self, data):
        if "body" in self.inside:
            self.text.append(data)


def words(text):
    return " ".join(text.split())


def message(raw, folder, sheet):
    """A message is whole, is from the workshop to the owner, and carries the very papers."""
    found = email.message_from_bytes(raw, policy=email.policy.default)
    problems = [f"{part.get_content_type()}: {defect!r}"
                for part in found.walk() for defect in part.defects]
    head = raw.split(b"\r\n\r\n", 1)[0]
    if b"\n" in raw.replace(b"\r\n", b""):
        problems.append("a line does not end with CR and LF")
    for name in ("From", "Date", "Message-ID", "Subject", "MIME-Version"):
        count = head.lower().count(b"\n" + name.lower().encode() + b":") + head.lower().startswith(
            name.lower().encode() + b":")
        if count != 1:
            problems.append(f"there are {count} headers `{name}`")
    if found["Bcc"] or found["Cc"]:
        problems.append("it has a further recipient")
    to = [address for _, address in email.utils.getaddresses([str(found.get("To", ""))])]
    wanted = [] if "evidence-file" in str(found["Message-ID"]) else [sheet["customer"]["contact"]]
    if [one for one in to if one] != wanted:
        problems.append(f"it goes to {to}, not to {wanted}")
    try:
        email.utils.parsedate_to_datetime(str(found["Date"]))
    except ValueError as cause:
        problems.append(f"its date cannot be read: {cause}")
    plain, page = found.get_body(("plain",)), found.get_body(("html",))
    if plain is None or page is None:
        return problems + ["it lacks its text or its HTML"]
    text, shown = words(plain.get_content()), Words()
    shown.feed(page.get_content())
    if shown.active:
        problems.append(f"its HTML holds {shown.active}")
    if words(" ".join(shown.text)) != text:
        problems.append("text and HTML say different things")
    if wanted and sheet["customer"]["name"] not in text:
        problems.append("it does not name the owner")
    attached = {}
    for part in found.iter_attachments():
        name = part.get_filename() or ""
        attached[name] = part.get_content_type()
        # The job's number stands before the name that the file has beside it.
        own = folder / name.removeprefix(f"{sheet['job']}-")
        content = part.get_payload(decode=True)
        if not own.is_file():
            problems.append(f"`{name}` lies not beside it")
        elif hashlib.sha256(content).digest() != hashlib.sha256(own.read_bytes()).digest():
            problems.append(f"`{name}` is another file than the one beside it")
        if attached[name] != TYPES.get(own.suffix):
            problems.append(f"`{name}` says that it is {attached[name]}")
    if not any(name.endswith(".pdf") for name in attached):
        problems.append("no paper is attached")
    return problems


def calendar(raw, report, locale):
    """A calendar is well-formed, its days stand in the report, and the report carries it."""
    problems = []
    if b"\n" in raw.replace(b"\r\n", b""):
        problems.append("a line does not end with CR and LF")
    problems += [f"a line has {len(line)} octets" for line in raw.split(b"\r\n") if len(line) > 75]
    try:
        found = icalendar.Calendar.from_ical(raw)
    except ValueError as cause:
        return problems + [f"it cannot be read: {cause}"]
    events = found.walk("VEVENT")
    problems += [f"the calendar has no {name}" for name in ("VERSION", "PRODID") if name not in found]
    problems += [] if events else ["it holds no day"]
    text = words(subprocess.run(["pdftotext", "-raw", report, "-"], capture_output=True,
                                check=True, text=True).stdout) if report else None
    uids = [str(event.get("UID", "")) for event in events]
    if len(set(uids)) != len(uids) or not all(uids):
        problems.append(f"its identities are not one for each day: {uids}")
    for event in events:
        problems += [f"{name} has an error: {cause}" for name, cause in event.errors]
        lacking = [name for name in ("UID", "DTSTAMP", "DTSTART", "SUMMARY") if name not in event]
        if lacking:
            problems.append(f"a day lacks {lacking}")
            continue
        start, stamp = event["DTSTART"].dt, event["DTSTAMP"].dt
        if isinstance(start, datetime.datetime) or "DTEND" in event:
            problems.append(f"{event['SUMMARY']} is not a whole day")
        if stamp.utcoffset() != datetime.timedelta(0):
            problems.append(f"{event['SUMMARY']}: its stamp is not in UTC")
        printed = words(babel.dates.format_date(start, "long", locale=locale))
        if text is not None and printed not in text:
            problems.append(f"{event['SUMMARY']}: the report does not say {printed}")
    if report:
        with pikepdf.open(report) as document:
            carried = document.attachments.get(CALENDAR)
            if carried is None or carried.get_file().read_bytes() != raw:
                problems.append("the report does not carry the same calendar")
    return problems


# What is broken on purpose: name, what becomes of a good file, and whether it is a message.
BROKEN = [
    ("no date", lambda raw: raw.replace(b"\r\nDate:", b"\r\nUpdate:", 1), True),
    ("a second recipient", lambda raw: raw.replace(b"\r\nDate:", b"\r\nBcc: a@b.example\r\nDate:", 1), True),
    ("a lost boundary", lambda raw: raw.replace(b'boundary="=_mixed', b'boundary="=_mixxd', 1), True),
    ("a changed paper", lambda raw: raw.replace(b"\r\nJVBERi", b"\r\nJVBERj", 1), True),
    ("other words as HTML", lambda raw: raw.replace(b"<p>Dear", b"<p>Dearest", 1), True),
    ("a picture that is fetched", lambda raw: raw.replace(b"<p>Kind", b"<img src=3D\"x\"><p>Kind", 1), True),
    ("bare line feeds", lambda raw: raw.replace(b"\r\n", b"\n"), True),
    ("a long line", lambda raw: raw.replace(b"\r\n ", b"", 3), False),
    ("one identity twice", lambda raw: same_uids(raw), False),
    ("another day", lambda raw: raw.replace(b"VALUE=DATE:20", b"VALUE=DATE:19", 1), False),
    ("a stamp without zone", lambda raw: raw.replace(b"T120000Z", b"T120000"), False),
    ("no end", lambda raw: raw.replace(b"END:VEVENT", b"", 1), False),
]


def same_uids(raw):
    lines = raw.split(b"\r\n")
    uids = [line for line in lines if line.startswith(b"UID:")]
    return b"\r\n".join(uids[0] if line.startswith(b"UID:") else line for line in lines)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--samples", type=pathlib.Path, required=True)
    parser.add_argument("reports", type=pathlib.Path)
    args = parser.parse_args()
    tally, by_job = Tally(), sheets.load(args.samples)
    good = {}
    for path in sorted(args.reports.glob("*/*-message.eml")):
        sheet = by_job[path.parent.name]
        problems = message(path.read_bytes(), path.parent, sheet)
        tally.record("message", path, problems, ADVICE)
        if not problems and path.name.startswith("return-report"):
            good.setdefault(True, (path, lambda raw, p=path, s=sheet: message(raw, p.parent, s)))
    for path in sorted(args.reports.glob(f"*/{CALENDAR}")):
        report = path.with_name("return-report.pdf")
        locale = languages.locale_of(by_job[path.parent.name])
        problems = calendar(path.read_bytes(), report, locale)
        tally.record("calendar", path, problems, ADVICE)
        if not problems:
            good.setdefault(False, (path, lambda raw, r=report, l=locale: calendar(raw, r, l)))
    for name, broken, is_message in BROKEN:
        if is_message not in good:
            tally.record("covering", name, ["there is nothing whole to break"], ADVICE)
            continue
        path, check = good[is_message]
        raw = path.read_bytes()
        caught = broken(raw) != raw and check(broken(raw))
        print(f"{name}: {'; '.join(caught[:2]) if caught else 'not caught'}")
        tally.record("covering", name, [] if caught else ["is not caught"],
                     "the check does not see this defect any more: mend the check")
    return tally.close("messages and calendars judged by other tools")


if __name__ == "__main__":
    sys.exit(main())
