# Checks finished PDFs with tools that know nothing of this program.
#
# usage: pdf_checks.py --samples DIR --tools DIR PDF...
#        A PDF lies in a folder named after its job number; the sheet with that `job:` is looked
#        up below the samples.
# needs: qpdf, poppler-utils, exiftool, and what verapdf.sh needs
# exit:  0 all checks hold, 1 some do not
#
# Each check takes a PDF and its sheet and returns problems; selftest.py shows that each can fail.
import argparse
import pathlib
import subprocess
import sys
from typing import Callable, NamedTuple

import pikepdf

import photo_metadata
import sheets
from tally import Tally

FLAVOURS = ("3a", "ua1")
VERA_ADVICE = "look the clause up in the veraPDF rules (3a: PDF/A-3, ua1: PDF/UA-1)"
ATTACHED = ("findings.yaml", "manifest.json")


def run(*command):
    return subprocess.run(command, capture_output=True, text=True, errors="replace")


def syntax(pdf, sheet):
    """qpdf reads the file and decodes every stream, photos too, which veraPDF does not."""
    result = run("qpdf", "--check", pdf)
    said = [line for line in (result.stdout + result.stderr).splitlines()
            if "WARNING" in line or "ERROR" in line]
    return [f"qpdf ends with {result.returncode}", *said[:5]] if result.returncode else []


def attachments(pdf, sheet):
    """The customer can take the sheet and the manifest out of the file."""
    listed = run("pdfdetach", "-list", pdf).stdout.splitlines()
    names = {line.partition(": ")[2].strip() for line in listed}
    return [f"`{name}` is not attached" for name in ATTACHED if name not in names]


def fonts(pdf, sheet):
    """Every font is embedded, cut down to what is used, and maps back to Unicode."""
    result = run("pdffonts", pdf)
    rows = [line.split() for line in result.stdout.splitlines()[2:]]
    if not rows:
        return [f"pdffonts finds no font: {result.stderr.strip()}"]
    # Counted from the right, for a font's type has spaces: emb sub uni object generation.
    return [f"font `{row[0]}`: {what} is no"
            for row in rows
            for what, value in zip(("embedded", "subset", "unicode"), row[-5:-2])
            if value != "yes"]


def document_info(pdf, sheet):
    """The file says that it is tagged, what it is called and what language it is in."""
    lines = (line.partition(":") for line in run("pdfinfo", pdf).stdout.splitlines())
    info = {key.strip(): value.strip() for key, _, value in lines}
    problems = [] if info.get("Tagged") == "yes" else ["pdfinfo does not say Tagged: yes"]
    problems += [] if info.get("Title") else ["pdfinfo shows no Title"]
    with pikepdf.open(pdf) as document:
        language = str(document.Root.get("/Lang", "")).lower()
    wanted = str((sheet or {}).get("language", "")).lower()
    if not language:
        problems.append("the catalogue has no /Lang")
    elif wanted and language.split("-")[0] != wanted.split("-")[0]:
        problems.append(f"/Lang is `{language}`, but the sheet's language is `{wanted}`")
    return problems


def alt_text(pdf, sheet):
    """Every figure has words for who cannot see it."""
    return [f"figure {number} has no alternative text"
            for number, figure in enumerate(elements(pdf, "/Figure"), 1)
            if not str(figure.get("/Alt", "")).strip()]


def header_scope(pdf, sheet):
    """Every header cell says whether it heads a row or a column: no validator looks at this."""
    def scoped(cell):
        attributes = cell.get("/A", [])
        listed = attributes if isinstance(attributes, pikepdf.Array) else [attributes]
        return any(isinstance(item, pikepdf.Dictionary)
                   and str(item.get("/Scope", "")) in ("/Row", "/Column", "/Both")
                   for item in listed)
    return [f"header cell {number} has no Scope"
            for number, cell in enumerate(elements(pdf, "/TH"), 1) if not scoped(cell)]


def elements(pdf, kind):
    """All structure elements of one standard type, in the order of the tree."""
    with pikepdf.open(pdf) as document:
        root = document.Root.get("/StructTreeRoot", pikepdf.Dictionary())
        roles, waiting, seen = root.get("/RoleMap", {}), [root.get("/K")], set()
        while waiting:
            item = waiting.pop()
            if isinstance(item, pikepdf.Array):
                waiting.extend(reversed(list(item)))
            elif isinstance(item, pikepdf.Dictionary):
                if item.is_indirect:
                    if item.objgen in seen:
                        continue
                    seen.add(item.objgen)
                role = item.get("/S")
                if role is not None and str(roles.get(str(role), role)) == kind:
                    yield item
                waiting.append(item.get("/K"))


class Check(NamedTuple):
    name: str
    problems: Callable
    advice: str


CHECKS = [
    Check("syntax", syntax, "`qpdf --check FILE`; a cut photo shows here and nowhere else"),
    Check("attachments", attachments, "`pdfdetach -list FILE` must show both files"),
    Check("fonts", fonts, "`pdffonts FILE`: emb, sub and uni must all be yes"),
    Check("document-info", document_info, "set title and language in the paper's template"),
    Check("alt-text", alt_text, "give the figure an `alt` in its template"),
    Check("header-scope", header_scope, "use `table.header` or a header cell with its scope"),
    Check("photo-metadata", photo_metadata.told, "hand only pictures encoded anew to the template"),
    Check("sheet-text", sheets.missing, "print it in the template, or correct the tables on top "
          "of sheets.py if the sheet's field names have changed"),
]


def held(check, pdf, sheet):
    """A check's problems; a PDF that a tool cannot read at all is one of them."""
    try:
        return check.problems(pdf, sheet)
    except (pikepdf.PdfError, subprocess.CalledProcessError, ValueError) as cause:
        return [f"cannot be read: {cause}"]


def due(by_job, pdfs):
    """Each job has the paper of its stage: an outcome a report, open options a letter, else a note."""
    written = {(pdf.parent.name, pdf.stem) for pdf in pdfs}
    problems = []
    for job, sheet in by_job.items():
        if sheet.get("outcome"):
            paper = "return-report"
        elif sheet.get("options"):
            paper = "options-letter"
        else:
            paper = "arrival-note"
        if (job, paper) not in written:
            problems.append(f"job {job} has no {paper}.pdf")
    return problems


def verapdf(pdfs, tools):
    """(PDF, flavour) -> problems; one run of the validator for all."""
    script = pathlib.Path(__file__).with_name("verapdf.sh")
    result = run("bash", script, tools, ",".join(FLAVOURS), *pdfs)
    found, current = {}, None
    for line in result.stdout.splitlines():
        word, _, rest = line.partition(" ")
        if word in ("PASS", "FAIL", "ERROR"):
            flavour, _, name = rest.partition(" ")
            current = found[name, flavour] = [] if word == "PASS" else [f"{word} by veraPDF"]
        elif current is not None:
            current.append(line.strip())
    silent = [f"veraPDF gave no verdict (exit {result.returncode}): {result.stderr.strip()}"]
    return {(pdf, flavour): found.get((str(pdf), flavour), silent)
            for pdf in pdfs for flavour in FLAVOURS}


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--samples", type=pathlib.Path, required=True)
    parser.add_argument("--tools", type=pathlib.Path, required=True)
    parser.add_argument("pdfs", nargs="+", type=pathlib.Path)
    args = parser.parse_args()
    tally, by_job = Tally(), sheets.load(args.samples)
    for (pdf, flavour), problems in verapdf(args.pdfs, args.tools).items():
        tally.record(f"verapdf-{flavour}", pdf, problems, VERA_ADVICE)
    for pdf in args.pdfs:
        sheet = by_job.get(pdf.parent.name)
        for check in CHECKS:
            tally.record(check.name, pdf, held(check, pdf, sheet), check.advice)
    tally.record("due-papers", args.samples, due(by_job, args.pdfs),
                 "`render` must write OUT/<job number>/<paper>.pdf")
    tally.record("sheet-fields", args.samples, sheets.unused(by_job.values()),
                 "correct the tables on top of sheets.py, or add it to a sample")
    return tally.close(f"outside checks on {len(args.pdfs)} PDFs")


if __name__ == "__main__":
    sys.exit(main())
