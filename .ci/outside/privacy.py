# Puts a place and a serial number into a photo, seals its job, and looks where they come out.
#
# usage: privacy.py --job FOLDER --work DIR BINARY
# in:    a sample job below its workshop.yaml; `BINARY seal JOB --archive DIR --for-owner`
# out:   the customer's PDF and the owner's copy tell neither, in no file; the bag keeps both whole
# needs: exiftool
import argparse
import json
import pathlib
import shutil
import subprocess
import sys

import photo_metadata
from tally import Tally

SERIAL = "SN-4711-0815"
LATITUDE = "54.512345"
# Groups that speak of a place or of one camera.
PLACE = ("GPS", "XMP-exif")


def marked(job, work):
    """A copy of the job whose JPEGs, PNGs and WebPs all tell a place and a camera."""
    shop = work / "shop"
    copy = shop / job.name
    shutil.copytree(job, copy)
    shutil.copy(job.parent / "workshop.yaml", shop)
    photos = sorted(path for path in copy.iterdir() if path.suffix in (".jpg", ".png"))
    subprocess.run(
        ["exiftool", "-q", "-overwrite_original", f"-GPSLatitude={LATITUDE}", "-GPSLatitudeRef=N",
         "-GPSLongitude=4.0123", "-GPSLongitudeRef=E", f"-SerialNumber={SERIAL}",
         f"-XMP-exif:GPSLatitude={LATITUDE}", f"-Comment=taken at {LATITUDE}", *photos], check=True)
    # A second picture behind the end of the first, as phones keep previews and films.
    with photos[0].open("ab") as file:
        file.write(photos[1].read_bytes())
    return copy


def told(folder):
    """Names of tags with a place or a serial number, by file."""
    read = subprocess.run(["exiftool", "-json", "-G1", "-a", "-r", folder], capture_output=True)
    found = []
    for picture in json.loads(read.stdout or "[]"):
        name = pathlib.Path(picture.pop("SourceFile")).name
        for tag, value in picture.items():
            if tag.startswith(PLACE) or SERIAL in str(value) or LATITUDE[:5] in str(value):
                found.append(f"{name} tells {tag}")
    return found


def raw(folder, words):
    """Files below a folder that hold one of the words as bytes."""
    return [f"{path.name} holds `{word}`" for path in sorted(folder.rglob("*")) if path.is_file()
            for word in words if word.encode() in path.read_bytes()]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--job", type=pathlib.Path, required=True)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("binary", type=pathlib.Path)
    given = parser.parse_args()
    shutil.rmtree(given.work, ignore_errors=True)
    given.work.mkdir(parents=True)
    tally = Tally()
    job = marked(given.job.resolve(), given.work.resolve())
    archive = given.work.resolve() / "archive"
    sealed = subprocess.run([given.binary, "seal", job, "--archive", archive, "--for-owner"],
                            capture_output=True, text=True)
    tally.record("privacy", "seal", [] if sealed.returncode == 0 else [sealed.stderr[-400:]])
    number = job.name.upper()
    bag = archive / number / f"{number}-v1"
    owner = archive / f"{number}-owner" / f"{number}-owner-v1"
    tally.record("privacy", "the job", [] if told(job) else ["nothing to take out: a blind check"])
    kept = [path.name for path in job.iterdir() if path.suffix in (".jpg", ".png")
            and path.read_bytes() != (bag / "data/originals" / path.name).read_bytes()]
    tally.record("privacy", "the bag keeps originals whole", kept)
    says = "places where they were taken included" in (bag / "bag-info.txt").read_text()
    tally.record("privacy", "the bag says so", [] if says else ["bag-info.txt does not say so"])
    tally.record("privacy", "the owner's photos", told(owner / "data/photos"))
    tally.record("privacy", "the owner's files",
                 raw(owner, [SERIAL, LATITUDE[:5], str(given.work.resolve())]))
    for paper in sorted((bag / "data/papers").glob("*.pdf")):
        tally.record("privacy", f"pictures of {paper.name}", photo_metadata.told(paper, None))
        tally.record("privacy", f"{paper.name} itself", told(paper))
    tracks = [path.name for path in owner.rglob("*.gpx")]
    tally.record("privacy", "the track", tracks)
    return tally.close("privacy")


if __name__ == "__main__":
    sys.exit(main())
