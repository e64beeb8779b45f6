# Findings sheets, and whether a PDF says what its sheet says.
#
# in:  a folder with samples, a PDF in a folder named after its job number
# out: sheets by job number; for a PDF the words of its sheet that it does not hold
#
# A PDF's text is what a screen reader gets: marks of artifacts (running heads, page numbers) are
# left out, so that a note may run over a page's end. Line breaks, hyphens at line ends, soft
# hyphens and the shape of quotation marks make no difference.
import pathlib
import re
import subprocess
import tempfile
import unicodedata

import pikepdf
import yaml

# What a paper must say: label -> paths in the sheet, `*` for each item of a list.
EVERY_PAPER = {
    "job number": ["job"],
    "customer's name": ["customer.name"],
    "model": ["unit.model"],
}
RETURN_REPORT = EVERY_PAPER | {
    "serial number": ["unit.serial"],
    "finding's note": ["strip-down.findings.*.note"],
    "designation": [
        "strip-down.findings.*.bearing",
        "strip-down.findings.*.designation",
        "work.parts.*.what",
    ],
}

EVIDENCE_FILE = RETURN_REPORT | {
    "who opened it": ["strip-down.by"],
    "who did the work": ["work.by"],
    "packing": ["arrival.packing"],
    "photo's file": [
        "arrival.photos.*",
        "arrival.photos.*.file",
        "strip-down.findings.*.photos.*",
        "strip-down.findings.*.photos.*.file",
        "strip-down.findings.*.photos-after.*",
    ],
    "words of a mark": ["strip-down.findings.*.photos.*.marks.*.text"],
    "words under a photo": ["arrival.photos.*.caption", "strip-down.findings.*.photos.*.caption"],
    "part of an option": ["options.*.parts.*.what"],
}
ARRIVAL_NOTE = EVERY_PAPER | {
    "serial number": ["unit.serial"],
    "packing": ["arrival.packing"],
    "complaint": ["arrival.complaint"],
    "words under a photo": ["arrival.photos.*.caption"],
}
OPTIONS_LETTER = EVERY_PAPER | {
    "serial number": ["unit.serial"],
    "complaint": ["arrival.complaint"],
    "part of an option": ["options.*.parts.*.what"],
    "what an option leaves": ["options.*.remaining"],
}
TABLES = {
    "arrival-note": ARRIVAL_NOTE,
    "options-letter": OPTIONS_LETTER,
    "return-report": RETURN_REPORT,
    "evidence-file": EVIDENCE_FILE,
}
# What no paper may say: how the customer is reached, and every remark for the workshop alone.
CONTACT, INTERNAL = "customer.contact", "internal"

# Stands for a hyphen at the end of a line, which may be the word's own or the line breaker's.
LINE_END_HYPHEN = "\ue000"
QUOTES = str.maketrans("\u2018\u2019\u201c\u201d", "''\"\"")


def load(samples):
    """All sheets below a folder by job number; every scalar stays the text that it is."""
    sheets = {}
    for path in sorted(pathlib.Path(samples).rglob("findings.yaml")):
        sheet = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        job = sheet["job"]
        if job in sheets:
            raise SystemExit(f"{path}: job {job} is there twice: give each sample its own number")
        sheet.setdefault("language", workshop_language(path.parent))
        sheets[job] = sheet
    return sheets


def workshop_language(folder):
    """The language of the workshop profile above a job folder, else English."""
    for above in folder.resolve().parents:
        profile = above / "workshop.yaml"
        if profile.is_file():
            text = profile.read_text(encoding="utf-8")
            return yaml.load(text, Loader=yaml.BaseLoader).get("language", "en")
    return "en"


def values(node, path):
    """The texts at a dotted path of a sheet."""
    head, _, rest = path.partition(".")
    if head == "*":
        found = node if isinstance(node, list) else []
    else:
        found = [node[head]] if isinstance(node, dict) and head in node else []
    if rest:
        return [text for item in found for text in values(item, rest)]
    return [text for text in found if isinstance(text, str) and text.strip()]


def expected(sheet, paper):
    """(label, text) of all that a paper must say."""
    table = TABLES.get(paper.removesuffix("-phone"), EVERY_PAPER)
    return [
        (label, text)
        for label, paths in table.items()
        for path in paths
        for text in values(sheet, path)
    ]


def unused(all_sheets):
    """Labels that no sheet has a text for: then nothing is looked for under them."""
    found = {label for sheet in all_sheets for label, _ in expected(sheet, "evidence-file")}
    return [f"no sheet has a {label}" for label in EVIDENCE_FILE if label not in found]


def internal(node):
    """Every remark of a sheet that is for the workshop alone."""
    if isinstance(node, dict):
        own = [text for key, text in node.items() if key == INTERNAL and isinstance(text, str)]
        return own + [text for value in node.values() for text in internal(value)]
    return [text for item in node for text in internal(item)] if isinstance(node, list) else []


def missing(pdf, sheet):
    """What the sheet says and the PDF does not, as problems."""
    if sheet is None:
        return ["no sheet in the samples has its folder's name as job number"]
    wanted = expected(sheet, pdf.stem)
    absent = [f"the sheet has no {label}" for label in EVERY_PAPER.keys() - dict(wanted).keys()]
    texts = texts_of(pdf)
    told = [text for text in values(sheet, CONTACT) + internal(sheet)
            if any(pattern(text).search(held) for held in texts)]
    return sorted(absent) + [
        f"the {label} is not in its text: {text!r}"
        for label, text in wanted
        if not any(pattern(text).search(held) for held in texts)
    ] + [f"it tells what is for the workshop alone: {text!r}" for text in told]


def texts_of(pdf):
    """The PDF's text without artifacts, in order of reading and in order of writing."""
    with tempfile.TemporaryDirectory() as folder:
        bare = f"{folder}/bare.pdf"
        with pikepdf.open(pdf) as document:
            for page in document.pages:
                page.Contents = document.make_stream(without_artifacts(page))
            document.save(bare)
        return [
            squeezed(subprocess.run(
                ["pdftotext", "-enc", "UTF-8", *order, bare, "-"],
                capture_output=True, check=True, text=True, encoding="utf-8",
            ).stdout)
            for order in ([], ["-raw"])
        ]


def without_artifacts(page):
    """A page's content, with nothing shown as text inside an artifact."""
    kept, depth = [], 0
    for instruction in pikepdf.parse_content_stream(page):
        operator = str(instruction.operator)
        if operator in ("BMC", "BDC"):
            if depth or str(instruction.operands[0]) == "/Artifact":
                depth += 1
        elif operator == "EMC":
            depth = max(depth - 1, 0)
        if not (depth and operator in ("Tj", "TJ", "'", '"')):
            kept.append(instruction)
    return pikepdf.unparse_content_stream(kept)


def squeezed(text):
    """Text without white space and soft hyphens; hyphens at line ends become a mark."""
    text = unicodedata.normalize("NFKC", text).translate(QUOTES)
    text = re.sub(r"[-\u2010]\s*[\n\f]", LINE_END_HYPHEN, text)
    return re.sub(r"[\s\u00ad\u200b]", "", text)


def pattern(text):
    """Finds a sheet's text in squeezed text; a line may begin it with a capital."""
    letters = re.sub(r"[\s\u00ad\u200b]", "", unicodedata.normalize("NFKC", text))
    return re.compile(f"{LINE_END_HYPHEN}?".join(
        f"[-\u2010{LINE_END_HYPHEN}]" if letter in "-\u2010" else re.escape(letter)
        for letter in letters.translate(QUOTES)
    ), re.IGNORECASE)
