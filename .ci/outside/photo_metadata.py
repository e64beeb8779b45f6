# Looks for what a picture in a PDF tells of its origin: EXIF, GPS, XMP, comments.
#
# in:  a PDF
# out: a problem for each JPEG stream that carries anything but how it is stored
# needs: exiftool
import json
import pathlib
import subprocess
import tempfile

import pikepdf

# Groups of exiftool that say how a picture is stored; any other group speaks of its origin.
STORAGE = ("ExifTool", "System", "File", "Composite", "JFIF", "Adobe")


def told(pdf, sheet):
    """No picture in the file tells where, when or with what it was taken."""
    with tempfile.TemporaryDirectory() as folder:
        count = save_jpegs(pdf, folder)
        if not count:
            return []
        read = subprocess.run(["exiftool", "-json", "-G1", "-a", folder], capture_output=True)
        pictures = json.loads(read.stdout or "[]")
    problems = [] if len(pictures) == count else [f"exiftool reads {len(pictures)} of {count}"]
    for picture in pictures:
        number = pathlib.Path(picture.pop("SourceFile")).stem
        tags = sorted(filter(is_told, picture))
        if tags:
            problems.append(f"the picture in object {number} carries {', '.join(tags)}")
    return problems


def is_told(tag):
    group, _, name = tag.partition(":")
    harmless = group in STORAGE or group.startswith("ICC")
    return not harmless or name in ("Comment", "Error")


def jpegs(document):
    """The image streams of an open PDF that hold a JPEG."""
    return [item for item in document.objects
            if isinstance(item, pikepdf.Stream) and item.get("/Subtype") == "/Image"
            and filters(item)[-1:] == ["/DCTDecode"]]


def filters(stream):
    value = stream.get("/Filter", [])
    return [str(name) for name in (value if isinstance(value, pikepdf.Array) else [value])]


def save_jpegs(pdf, folder):
    """Writes each JPEG as it is in the file, named by its object number; returns how many."""
    with pikepdf.open(pdf) as document:
        streams = jpegs(document)
        for stream in streams:
            number, outer = stream.objgen[0], filters(stream)[:-1]
            if outer:  # something is wrapped around the JPEG: undo that alone
                stream.Filter = pikepdf.Array([pikepdf.Name(name) for name in outer])
                del stream["/DecodeParms"]
            data = stream.read_bytes() if outer else stream.read_raw_bytes()
            pathlib.Path(folder, f"{number}.jpg").write_bytes(data)
        return len(streams)
