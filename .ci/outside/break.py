# Makes broken variants of one good PDF, each with one defect, so that checks can be seen to fail.
#
# usage: break.py GOOD.pdf OUT_DIR
# out:   OUT_DIR/<defect>.pdf for each row of DEFECTS
# exit:  0 all made, 1 the PDF lacks what a defect needs (a photo, a table, an attachment)
import io
import pathlib
import sys

import pikepdf
from PIL import Image
from pikepdf import Dictionary, Name

import photo_metadata


class NothingToBreak(Exception):
    """The PDF has none of the parts that a defect is made in."""


def each(document, wanted):
    """All dictionaries and streams of a PDF that a condition holds for; at least one."""
    found = [item for item in document.objects
             if isinstance(item, (pikepdf.Dictionary, pikepdf.Stream)) and wanted(item)]
    if not found:
        raise NothingToBreak()
    return found


def drop_root(key):
    """Takes an entry out of the catalogue."""
    def change(document):
        if key not in document.Root:
            raise NothingToBreak()
        del document.Root[key]
    return change


def drop(kind, value, *keys):
    """Takes entries out of every object in which `kind` is `value`."""
    def change(document):
        for item in each(document, lambda item: item.get(kind) == value
                         and any(key in item for key in keys)):
            for key in keys:
                if key in item:
                    del item[key]
    return change


def blank_alt(document):
    for figure in each(document, lambda item: item.get("/S") == "/Figure" and "/Alt" in item):
        figure.Alt = " "


def first_heading_third(document):
    for heading in each(document, lambda item: item.get("/S") == "/H1"):
        heading.S = Name.H3


def untagged_content(document):
    document.pages[0].contents_add(document.make_stream(b"q 0 0 10 10 re f Q"))


def script(document):
    document.Root.OpenAction = Dictionary(S=Name.JavaScript, JS="app.alert(1)")


def whole_font(document):
    """Names fonts as if they were not cut down to what is used."""
    for font in each(document, lambda item: "+" in str(item.get("/BaseFont", ""))):
        font.BaseFont = Name("/" + str(font.BaseFont).partition("+")[2])


def no_title(document):
    with document.open_metadata(update_docinfo=False) as metadata:
        if "dc:title" not in metadata or "/Title" not in document.docinfo:
            raise NothingToBreak()
        del metadata["dc:title"]
    del document.docinfo["/Title"]


def wrong_language(document):
    document.Root.Lang = "tlh"


def without_attachment(name):
    def change(document):
        if name not in document.attachments:
            raise NothingToBreak()
        del document.attachments[name]
    return change


def photo(change_bytes):
    """Changes the bytes of the first photo."""
    def change(document):
        streams = [s for s in photo_metadata.jpegs(document)
                   if photo_metadata.filters(s) == ["/DCTDecode"]]
        if not streams:
            raise NothingToBreak()
        streams[0].write(change_bytes(streams[0].read_raw_bytes()), filter=Name.DCTDecode)
    return change


def with_segment(payload):
    """A JPEG with one APP1 segment more, right after its start marker."""
    segment = b"\xff\xe1" + (len(payload) + 2).to_bytes(2, "big") + payload
    return photo(lambda jpeg: jpeg[:2] + segment + jpeg[2:])


def gps():
    exif = Image.Exif()
    exif[0x8825] = {1: "N", 2: (48.0, 7.0, 30.0), 3: "E", 4: (11.0, 30.0, 0.0)}
    return exif.tobytes()


def encrypted(data):
    """The same PDF behind an empty password."""
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as document:
        document.save(out, encryption=pikepdf.Encryption(owner="owner", user="", R=6))
    return out.getvalue()


XMP = (b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF "
       b"xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'><rdf:Description rdf:about='' "
       b"xmlns:dc='http://purl.org/dc/elements/1.1/' dc:source='a camera'/></rdf:RDF>"
       b"</x:xmpmeta>")

# Defect -> the checks that must each catch it, and how it is made in an open PDF.
DEFECTS = {
    "figure-without-alt": (["verapdf-ua1", "alt-text"], drop("/S", "/Figure", "/Alt")),
    "figure-with-blank-alt": (["alt-text"], blank_alt),
    "no-language": (["verapdf-ua1", "document-info"], drop_root("/Lang")),
    "wrong-language": (["document-info"], wrong_language),
    "no-title": (["verapdf-ua1", "document-info"], no_title),
    "no-mark-info": (["verapdf-3a", "verapdf-ua1", "document-info"], drop_root("/MarkInfo")),
    "no-structure": (["verapdf-3a", "verapdf-ua1"], drop_root("/StructTreeRoot")),
    "no-xmp": (["verapdf-3a", "verapdf-ua1"], drop_root("/Metadata")),
    "untagged-content": (["verapdf-ua1"], untagged_content),
    "first-heading-third": (["verapdf-ua1"], first_heading_third),
    "script": (["verapdf-3a"], script),
    "header-without-scope": (["header-scope"], drop("/S", "/TH", "/A")),
    "attachment-unrelated": (["verapdf-3a"], drop("/Type", "/Filespec", "/AFRelationship")),
    "attachment-untyped": (["verapdf-3a"], drop("/Type", "/EmbeddedFile", "/Subtype")),
    "no-sheet-attached": (["attachments"], without_attachment("findings.yaml")),
    "no-manifest-attached": (["attachments"], without_attachment("manifest.json")),
    "font-missing": (["verapdf-3a", "verapdf-ua1", "fonts"], drop(
        "/Type", "/FontDescriptor", "/FontFile", "/FontFile2", "/FontFile3")),
    "font-without-unicode": (["verapdf-3a", "verapdf-ua1", "fonts"], drop(
        "/Type", "/Font", "/ToUnicode")),
    "font-whole": (["fonts"], whole_font),
    "photo-cut": (["syntax"], photo(lambda jpeg: jpeg[:len(jpeg) // 3])),
    "photo-with-gps": (["photo-metadata"], with_segment(gps())),
    "photo-with-xmp": (["photo-metadata"], with_segment(XMP)),
}
# The same for defects that are made in the bytes of the file.
BYTE_DEFECTS = {
    "wrong-startxref": (["syntax", "verapdf-3a", "verapdf-ua1"], lambda data: (
        data[:data.rindex(b"startxref")] + b"startxref\n12\n%%EOF\n")),
    "encrypted": (["verapdf-3a"], encrypted),
    "cut-off": (["syntax", "verapdf-3a", "verapdf-ua1"], lambda data: data[:len(data) * 2 // 3]),
}
CAUGHT_BY = {name: checks for name, (checks, _) in (DEFECTS | BYTE_DEFECTS).items()}


def make_all(good, folder):
    """Writes all variants; returns the defects that this PDF has no place for."""
    folder.mkdir(parents=True, exist_ok=True)
    impossible = []
    for name, (_, change) in DEFECTS.items():
        with pikepdf.open(good) as document:
            try:
                change(document)
                document.save(folder / f"{name}.pdf")
            except NothingToBreak:
                impossible.append(name)
    for name, (_, change) in BYTE_DEFECTS.items():
        (folder / f"{name}.pdf").write_bytes(change(good.read_bytes()))
    return impossible


if __name__ == "__main__":
    left = make_all(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]))
    print("\n".join(f"no place in this PDF for: {name}" for name in left))
    sys.exit(1 if left else 0)
