# Checks that photos come out upright, whatever way the camera was held.
#
# usage: orientation.py --photos DIR --work DIR [--workshop FILE] BINARY
# in:    18 photos, Landscape_0.jpg to Portrait_8.jpg: two scenes, each stored in every direction
#        that EXIF knows (0: no direction given)
# out:   WORK/ORIENT-1, a job with all of them in one finding, and the papers that BINARY makes
# needs: pdfimages
# exit:  0 all photos in the PDF show their scene upright, 1 some do not
import argparse
import pathlib
import shutil
import sys

import numpy
from PIL import Image, ImageOps

import photo_job
from tally import Tally

SCENES = ("Landscape", "Portrait")
# Mean difference in grey levels. Turned by eye and by program, copies of a scene differ by less
# than 1; a scene turned or mirrored the wrong way differs from the upright one by 35 and more.
ALIKE = 8
GRID = 48

SHEET = """\
job: ORIENT-1
customer:
  name: Orientation Check
unit:
  kind: mid-drive
  model: Check M1
arrival:
  date: 2026-03-02
strip-down:
  date: 2026-03-04
  findings:
    - part: main-bearing-drive-side
      condition: worn
      note: Photos taken with the camera held in every way.
      photos: [{photos}]
"""


def grey(picture):
    """A picture as a small grey grid, whatever its size."""
    small = picture.convert("L").resize((GRID, GRID), Image.Resampling.BOX)
    return numpy.asarray(small, dtype=float)


def scene_of(picture, upright):
    """The scene that a picture shows upright, or None."""
    for scene, reference in upright.items():
        wide = picture.width > picture.height
        if wide == (reference.width > reference.height):
            if abs(grey(picture) - grey(reference)).mean() < ALIKE:
                return scene
    return None


def make_job(args, names):
    job = photo_job.new_job(args.work, "ORIENT-1", args.workshop)
    for name in names:
        shutil.copyfile(args.photos / name, job / name)
    (job / "findings.yaml").write_text(SHEET.replace("{photos}", ", ".join(names)))
    return job


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--photos", type=pathlib.Path, required=True)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("--workshop", type=pathlib.Path)
    parser.add_argument("binary", type=pathlib.Path)
    args = parser.parse_args()
    tally = Tally()
    names = [f"{scene}_{number}.jpg" for scene in SCENES for number in range(9)]
    upright = {scene: ImageOps.exif_transpose(Image.open(args.photos / f"{scene}_1.jpg"))
               for scene in SCENES}

    # The check can fail: a photo that nobody turned is not taken for an upright one.
    for name in names:
        with Image.open(args.photos / name) as stored:
            rotated = stored.getexif().get(0x0112, 1) > 1
            found = scene_of(stored, upright)
        tally.record("orientation", f"{name} as stored", [] if (found is None) == rotated else [
            "taken for upright" if rotated else "not taken for upright"],
            "ALIKE in orientation.py no longer tells the photos apart")

    job = make_job(args, names)
    pictures, problems = photo_job.printed(args.binary, job, args.work / "reports")
    tally.record("orientation", args.work, problems,
                 "run `render` on that folder by hand; SHEET in orientation.py is its sheet")
    scenes = {name: scene_of(picture, upright) for name, picture in pictures}
    for name, scene in scenes.items():
        tally.record("orientation", name, [] if scene else ["shows no scene upright"],
                     f"compare it in {args.work} with {SCENES[0]}_1.jpg and {SCENES[1]}_1.jpg")
    for scene in SCENES if pictures else ():
        count = list(scenes.values()).count(scene)
        tally.record("orientation", args.work, [] if count >= 9 else [
            f"{count} upright pictures of {scene}, not 9"],
            "each photo of the sheet must be in a paper, uncropped")
    return tally.close("photos held in every way")


if __name__ == "__main__":
    sys.exit(main())
