# Checks the marking page: marks put by mouse, touch and keys come out in the PDF where they were put.
#
# usage: marking.py --work DIR --node DIR [--workshop FILE] BINARY
# in:    nothing: the photos are made here, each of one colour of its own, half of them stored on their side
# out:   WORK/job with sheet and photos, WORK/saved with what the page saved and pictures of it, WORK/reports
# needs: chromium, node, NODE/node_modules with playwright-core and axe-core, pdftoppm
# exit:  0 all marks are found and the page is in order, 1 not
import argparse
import itertools
import json
import pathlib
import subprocess
import sys

import numpy
from PIL import Image

import photo_job
from tally import Tally

WAYS = ("mouse", "touch", "keys")
DPI = 220
# Most that a mark may be off, as a share of the photo's width.
OFF = 0.01
HOSTILE = ['"><img src=x onerror=alert(1)>.jpg', "<script>alert(1)<script>'.jpg", "<!-- ü.jpg"]

SHEET = """\
job: MARK-1 # the number stays
customer: {name: Marking Check}
unit: {kind: mid-drive, model: Check M1}
arrival:
  date: 2026-03-02
strip-down:
  date: 2026-03-04
  findings:
    # every photo of the check
    - part: main-bearing-drive-side
      condition: worn
      note: Photos with marks.
      photos: [PHOTOS]
outcome: returned-unrepaired
"""

# Where marks are put: fractions of the upright photo, first end and second.
PLACES = {
    "ring": [(0.412, 0.537), (0.412 + 2.5 / 24, 0.537)],
    "arrow": [(0.331, 0.352), (0.677, 0.723)],
    "box": [(0.203, 0.281), (0.584, 0.655)],
    "label": [(0.446, 0.611)],
    "length": [(0.153, 0.318), (0.829, 0.547)],
}
FINDING = {
    "part": "crank-seal-drive-side", "condition": "damaged", "note": 'Lip folded: see "mark"',
    "signs": [{"sought": "rust trail", "name": "rust-trail-inward"}], "action": "replaced",
}


def colours():
    """Pale colours, far from each other, from white and from grey."""
    levels = (130, 170, 210, 250)
    return [colour for colour in itertools.product(levels, repeat=3) if max(colour) - min(colour) >= 40]


def by_keys(place):
    """The middle of the part of 108 by 81 that a place is in: keys go by those."""
    return ((int(place[0] * 108) + 0.5) / 108, (int(place[1] * 81) + 0.5) / 81)


def make_photo(path, colour, turned):
    # Stored on its side (EXIF orientation 6: the right of the file is the top's other edge) or upright.
    picture = Image.new("RGB", (1600, 1200), colour)
    exif = Image.Exif()
    if turned:
        exif[0x0112] = 6
    picture.save(path, quality=95, exif=exif)


def make_job(args):
    job = photo_job.new_job(args.work, "MARK-1", args.workshop)
    marks, names, used = [], [], iter(colours())
    for way, kind, turned in itertools.product(WAYS, PLACES, (False, True)):
        name, colour = f"{way}-{kind}-{'turned' if turned else 'upright'}.jpg", next(used)
        make_photo(job / name, colour, turned)
        places = [by_keys(place) for place in PLACES[kind]] if way == "keys" else PLACES[kind]
        marks.append({"photo": name, "kind": kind, "way": way, "at": places, "colour": colour,
                      **({"text": "i"} if kind == "label" else {}),
                      **({"number": "12.5"} if kind == "length" else {})})
        names.append(name)
    # A ring at C3 is (2.5 / 12, 2.5 / 9); dragged by its line, it goes by the same way.
    start = (2.5 / 12, 2.5 / 9)
    goal = (start[0] + 0.4, start[1] + 0.3)
    move = {"photo": "moved.jpg", "kind": "ring", "way": "moved", "colour": next(used), "from": start, "to": goal,
            "at": [goal, (goal[0] + 1 / 12, goal[1])]}
    make_photo(job / "moved.jpg", move["colour"], False)
    names.append("{file: moved.jpg, marks: [{ring: C3}]}")
    for name in HOSTILE + ["new.jpg"]:
        make_photo(job / name, next(used), False)
    (job / "findings.yaml").write_text(SHEET.replace("PHOTOS", ", ".join(names)))
    return job, marks, move


def run(args, *words):
    return subprocess.run([args.binary, *words], capture_output=True, text=True, stdin=subprocess.DEVNULL)


def pages(pdf, work):
    subprocess.run(["pdftoppm", "-r", str(DPI), "-png", pdf, work / "page"], check=True)
    for path in sorted(work.glob("page-*.png")):
        yield numpy.asarray(Image.open(path).convert("RGB"), dtype=int)


def rectangle(page, colour):
    """Left, top, right, bottom of the photo of a colour on a page, or None."""
    is_photo = (abs(page - numpy.array(colour)) <= 10).all(axis=2)
    rows, columns = (numpy.flatnonzero(is_photo.sum(axis=axis) > 60) for axis in (1, 0))
    if len(rows) < 60 or len(columns) < 60:
        return None
    return columns[0], rows[0], columns[-1] + 1, rows[-1] + 1


def blobs(dark):
    """Boxes (left, top, right, bottom) of dark pixels that touch each other."""
    todo = {(int(y), int(x)) for y, x in zip(*numpy.nonzero(dark))}
    while todo:
        edge, blob = [todo.pop()], []
        while edge:
            y, x = edge.pop()
            blob.append((y, x))
            for beside in itertools.product((y - 1, y, y + 1), (x - 1, x, x + 1)):
                if beside in todo:
                    todo.remove(beside)
                    edge.append(beside)
        ys, xs = zip(*blob)
        yield min(xs), min(ys), max(xs) + 1, max(ys) + 1


def expected(mark, w, h):
    """The box that a mark's ink fills on a photo of `w` by `h` pixels."""
    (ax, ay), *rest = mark["at"]
    if mark["kind"] == "label":
        return ax * w, ay * h, ax * w, ay * h
    (bx, by) = rest[0]
    if mark["kind"] == "ring":
        radius = (bx - ax) * w if mark["way"] != "keys" else 2.5 / 24 * w
        return ax * w - radius, ay * h - radius, ax * w + radius, ay * h + radius
    return min(ax, bx) * w, min(ay, by) * h, max(ax, bx) * w, max(ay, by) * h


def off(mark, page, photo):
    """How far a mark is from where it was put, as a share of the photo's width."""
    left, top, right, bottom = photo
    dark = page[top:bottom, left:right].sum(axis=2) < 250
    w, h = right - left, bottom - top
    wanted = expected(mark, w, h)
    found = list(blobs(dark))
    if not found:
        return None
    if mark["kind"] == "label":  # words are dark too: the dot is the blob in its place
        middles = [((x0 + x1) / 2, (y0 + y1) / 2) for x0, y0, x1, y1 in found]
        return min(((x - wanted[0]) ** 2 + (y - wanted[1]) ** 2) ** 0.5 for x, y in middles) / w
    largest = max(found, key=lambda box: (box[2] - box[0]) + (box[3] - box[1]))
    if mark["kind"] == "length":  # its end strokes stand out on both sides: the middle is compared
        middle = [abs(largest[at] + largest[at + 2] - wanted[at] - wanted[at + 2]) / 2 for at in (0, 1)]
        length = abs((largest[2] - largest[0]) - (wanted[2] - wanted[0])) / 2
        return max((middle[0] ** 2 + middle[1] ** 2) ** 0.5, length - 6 / 72 * DPI) / w
    # Half a line's width lies outside of the place on every side.
    sides = [(a - b) / w for a, b in zip(largest, wanted)]
    return max(((sides[0] + sides[2]) ** 2 + (sides[1] + sides[3]) ** 2) ** 0.5 / 2,
               abs(sides[2] - sides[0]) / 2 - 1 / 72 * DPI / w, abs(sides[3] - sides[1]) / 2 - 1 / 72 * DPI / w)


def look_for(tally, marks, pdf, work):
    places = {mark["photo"]: None for mark in marks}
    for page in pages(pdf, work):
        for mark in marks:
            photo = rectangle(page, mark["colour"])
            if photo:
                places[mark["photo"]] = (photo, off(mark, page, photo), off({**mark, "at": [
                    (x + 0.03, y) for x, y in mark["at"]]}, page, photo))
    for mark in marks:
        found = places[mark["photo"]]
        if found is None:
            tally.record("marks in the PDF", mark["photo"], ["the photo is on no page"])
            continue
        (left, top, right, bottom), far, farther = found
        problems = [] if far is not None and far <= OFF else [f"off by {far} of the width"]
        wide = right - left > bottom - top
        if wide == ("turned" in mark["photo"]):
            problems.append("the photo does not lie as it should")
        # The check can fail: a place three hundredths beside is not taken for the right one.
        if farther is not None and farther <= OFF:
            problems.append("a wrong place would pass too")
        tally.record("marks in the PDF", mark["photo"], problems)
    return [found[1] for found in places.values() if found and found[1] is not None]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("--node", type=pathlib.Path, required=True)
    parser.add_argument("--workshop", type=pathlib.Path)
    parser.add_argument("binary", type=lambda path: pathlib.Path(path).resolve())
    args = parser.parse_args()
    tally = Tally()
    job, marks, move = make_job(args)
    saved = (args.work / "saved").resolve()
    saved.mkdir()
    made = run(args, "mark", job)
    tally.record("the page is made", job, [] if made.returncode == 0 else [made.stdout + made.stderr])
    finding = {**FINDING, "photo": "new.jpg"}
    orders = {"page": str((job / "marking-page.html").resolve()), "hostile": HOSTILE, "out": str(saved),
              "marks": marks, "move": move, "finding": finding}
    (saved / "orders.json").write_text(json.dumps(orders))
    done = subprocess.run(["node", pathlib.Path(__file__).resolve().parent / "marking.mjs", saved / "orders.json"],
                          cwd=args.node, capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=1200)
    told = json.loads(done.stdout)["problems"] if done.stdout else [["browser", "page", [done.stderr[-2000:]]]]
    for check, subject, problems in told:
        tally.record(check, subject, problems, f"pictures of the page are in {saved}")

    before = (job / "findings.yaml").read_text().splitlines()
    for way in WAYS:
        took = run(args, "mark", job, "--take", saved / f"{way}.yaml")
        tally.record("what was saved is taken", way, [] if took.returncode == 0 else [took.stdout + took.stderr])
    sheet = (job / "findings.yaml").read_text()
    lost = [line for line in before if "photos:" not in line and line not in sheet.splitlines()]
    tally.record("the sheet keeps its lines", job, [f"lost: {line}" for line in lost])
    for line in ("- part: crank-seal-drive-side", "signs: [rust-trail-inward]", "photos: [new.jpg]",
                 'note: "Lip folded: see \\"mark\\""'):
        tally.record("the finding is in the sheet", line, [] if line in sheet else ["it is not there"])

    rendered = run(args, "render", job, "--out", args.work / "reports")
    tally.record("the report is made", job, [] if rendered.returncode == 0 else [rendered.stdout + rendered.stderr])
    pdf = args.work / "reports" / "MARK-1" / "return-report.pdf"
    tally.record("there is a report", pdf, [] if pdf.is_file() else ["it is not there"])
    if pdf.is_file():
        offs = look_for(tally, [*marks, move], pdf, args.work)
        print(f"largest distance of a mark from its place: {max(offs, default=1):.2%} of the width")
        text = subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True).stdout
        tally.record("the finding is in the report", pdf, [] if "Lip folded" in text else ["not there"])
    return tally.close("marking page")


if __name__ == "__main__":
    sys.exit(main())
