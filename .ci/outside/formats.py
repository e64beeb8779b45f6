# Checks that WebP and TIFF photos of every kind come out upright, as Pillow turns them.
#
# usage: formats.py --work DIR [--workshop FILE] BINARY
# in:    nothing: Pillow writes one scene in each of the eight orientations of EXIF as WebP (lossy,
#        lossless, with and without `Exif\0\0` before its block) and as TIFF (colour, grey, palette;
#        plain, LZW, PackBits and Deflate)
# out:   WORK/FORMATS-1, a job with all of them, and the papers that BINARY makes
# needs: pdfimages
# exit:  0 every picture in the PDF has the size and the scene of ImageOps.exif_transpose, 1 some do not
import argparse
import io
import pathlib
import struct
import sys

import numpy
from PIL import Image, ImageOps

import photo_job
from tally import Tally

ORIENTATION = 0x0112
WIDE, HIGH = 192, 128
# Mean difference in grey levels: JPEG and a palette stay far below, any wrong turn is far above.
ALIKE = 12

SHEET = """\
job: FORMATS-1
customer: {{name: Orientation Check}}
unit: {{kind: mid-drive, model: Check M1}}
arrival: {{date: 2026-03-02}}
strip-down:
  date: 2026-03-04
  findings:
{findings}"""
FINDING = "    - {{part: other, called: kind {number}, condition: sound, photos: [{photos}]}}\n"


def scene():
    """A scene whose four quarters and whose middle differ, so that no turn of it looks alike."""
    grey = numpy.zeros((HIGH, WIDE), dtype=float)
    for (row, column), level in {(0, 0): 20, (0, 1): 100, (1, 0): 170, (1, 1): 245}.items():
        rows = slice(row * HIGH // 2, (row + 1) * HIGH // 2)
        columns = slice(column * WIDE // 2, (column + 1) * WIDE // 2)
        grey[rows, columns] = level
    grey[HIGH // 8:HIGH // 4, WIDE // 8:WIDE // 2] = 245
    tinted = numpy.stack([grey, grey * 0.9, grey * 0.8], axis=-1)
    return Image.fromarray(tinted.astype("uint8"), "RGB")


def stored(orientation):
    """The scene as a camera stores it when held so that `orientation` applies, by Pillow's turns."""
    undo = {
        1: None,
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]
    return scene() if undo is None else scene().transpose(undo)


def webp(picture, orientation, prefix, **options):
    """A WebP file whose EXIF chunk starts with `prefix` before the TIFF header."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    block = exif.tobytes()
    block = prefix + block.removeprefix(b"Exif\0\0")
    file = io.BytesIO()
    picture.save(file, "WEBP", **options)
    plain = file.getvalue()
    chunks = plain[12:]
    head = struct.pack("<I", 0x08) + struct.pack("<I", picture.width - 1)[:3] \
        + struct.pack("<I", picture.height - 1)[:3]
    body = b"WEBP" + chunk(b"VP8X", head) + chunks + chunk(b"EXIF", block)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def chunk(name, data):
    return name + struct.pack("<I", len(data)) + data + b"\0" * (len(data) % 2)


def tiff(picture, orientation, mode, compression):
    file = io.BytesIO()
    converted = picture.convert(mode) if mode != "P" else picture.quantize(64)
    converted.save(file, "TIFF", compression=compression, tiffinfo={ORIENTATION: orientation})
    return file.getvalue()


def kinds():
    """Every kind as its name, with a function that makes its file for an orientation."""
    for prefix, name in ((b"", "bare"), (b"Exif\0\0", "headed")):
        for lossless in (False, True):
            way = "lossless" if lossless else "lossy"
            yield f"webp-{way}-{name}", lambda at, prefix=prefix, lossless=lossless: webp(
                stored(at), at, prefix, lossless=lossless, quality=90)
    for mode in ("RGB", "L", "P"):
        for compression in (None, "tiff_lzw", "packbits", "tiff_adobe_deflate"):
            way = (compression or "plain").removeprefix("tiff_")
            yield f"tiff-{mode.lower()}-{way}", lambda at, mode=mode, compression=compression: tiff(
                stored(at), at, mode, compression)


def grey(picture):
    small = picture.convert("L").resize((48, 32), Image.Resampling.BOX)
    return numpy.asarray(small, dtype=float)


def make_job(args):
    job = photo_job.new_job(args.work, "FORMATS-1", args.workshop)
    findings, expected = "", {}
    for number, (kind, make) in enumerate(kinds()):
        names = []
        for orientation in range(1, 9):
            name = f"{kind}-{orientation}.{kind.split('-')[0]}"
            bytes_of = make(orientation)
            (job / name).write_bytes(bytes_of)
            expected[name] = ImageOps.exif_transpose(Image.open(io.BytesIO(bytes_of)))
            names.append(name)
        findings += FINDING.format(number=number, photos=", ".join(names))
    (job / "findings.yaml").write_text(SHEET.format(findings=findings))
    return job, expected


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("--workshop", type=pathlib.Path)
    parser.add_argument("binary", type=pathlib.Path)
    args = parser.parse_args()
    tally = Tally()
    upright = grey(scene())

    # The check can fail: a scene that nobody turned is not taken for the upright one.
    for orientation in range(2, 9):
        there = stored(orientation)
        is_alike = there.size == (WIDE, HIGH) and abs(grey(there) - upright).mean() < ALIKE
        tally.record("formats", f"scene as stored {orientation}",
                     ["taken for upright"] if is_alike else [],
                     "ALIKE in formats.py no longer tells the turns apart")

    job, expected = make_job(args)
    # Pillow itself must turn each file upright, else it judges nothing.
    for name, picture in expected.items():
        problems = []
        if picture.size != (WIDE, HIGH):
            problems.append(f"Pillow makes it {picture.size}")
        elif abs(grey(picture) - upright).mean() >= ALIKE:
            problems.append("Pillow shows another scene")
        tally.record("formats", f"{name} by Pillow", problems, "see how formats.py writes the file")

    pictures, problems = photo_job.printed(args.binary, job, args.work / "reports")
    tally.record("formats", job, problems,
                 "run `render` on that folder by hand; SHEET in formats.py is its sheet")
    # All files hold one upright scene, so the order in the PDF does not matter; their number does.
    if not problems:
        tally.record("formats", job, [] if len(pictures) >= len(expected) else [
            f"{len(pictures)} pictures of {len(expected)} are printed"],
            "each photo of the sheet must be in the paper")
    for name, picture in pictures:
        problems = []
        if picture.width * HIGH != picture.height * WIDE:
            problems.append(f"has {picture.size}, Pillow {(WIDE, HIGH)}")
        elif abs(grey(picture) - upright).mean() >= ALIKE:
            problems.append("shows another scene than Pillow's")
        tally.record("formats", f"{name} of the paper", problems,
                     f"compare it in {args.work} with the files of the job")
    return tally.close("photos of every kind held in every way")


if __name__ == "__main__":
    sys.exit(main())
