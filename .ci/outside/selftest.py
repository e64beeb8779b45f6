# Shows that each outside check fails when it should.
#
# usage: selftest.py --samples DIR --tools DIR --work DIR PDF...
# in:    finished PDFs of the samples; the first that has room for every defect is broken
# exit:  0 each defect is caught by the checks that answer for it, and no check is without one
import argparse
import copy
import importlib
import pathlib
import sys

import pdf_checks
import sheets
from tally import Tally

# `break` is a word of the language, so the module cannot be named in an import line.
breaking = importlib.import_module("break")

ADVICE = "the check does not see this defect any more: mend the check before you trust it"


def choose(pdfs, work):
    """Breaks the first PDF with room for every defect; returns it, or None and what is lacking."""
    least = None
    for pdf in sorted(pdfs, key=lambda pdf: pdf.stem != "return-report"):
        lacking = breaking.make_all(pdf, work / pdf.parent.name)
        if not lacking:
            return pdf, []
        if least is None or len(lacking) < len(least):
            least = lacking
    return None, [f"no PDF of the samples has a place for: {', '.join(least)}"]


def verdicts(pdfs, sheet, names, tools):
    """(PDF, check) -> problems, for PDFs and the checks named for each."""
    found = {(pdf, f"verapdf-{flavour}"): problems
             for (pdf, flavour), problems in pdf_checks.verapdf(pdfs, tools).items()}
    for pdf in pdfs:
        for check in pdf_checks.CHECKS:
            if check.name in names[pdf]:
                found[pdf, check.name] = pdf_checks.held(check, pdf, sheet)
    return found


def defects_are_caught(tally, good, sheet, folder, tools):
    paths = {folder / f"{name}.pdf": name for name in breaking.CAUGHT_BY}
    names = {path: breaking.CAUGHT_BY[name] for path, name in paths.items()}
    names[good] = {name for caught_by in breaking.CAUGHT_BY.values() for name in caught_by}
    found = verdicts(list(names), sheet, names, tools)
    for check in sorted(names[good]):
        tally.record("selftest", f"{check} on {good}, unbroken", found[good, check],
                     "the PDF must be good before it is broken")
    for path, name in paths.items():
        for check in names[path]:
            caught = found[path, check]
            print(f"{name}, {check}: {'; '.join(caught[:2]) or 'not caught'}")
            tally.record("selftest", f"{path}", [] if caught else [f"{check} holds"], ADVICE)


def missing_text_is_seen(tally, good, sheet, by_job):
    """A PDF against its sheet with one text changed, and against each other job's sheet."""
    for label, text in sheets.expected(sheet, good.stem):
        caught = sheets.missing(good, changed(sheet, text))
        seen = any(label in problem for problem in caught)
        tally.record("selftest", f"sheet-text on {good}",
                     [] if seen else [f"does not miss another {label}"], ADVICE)
    for text in sheets.values(sheet, "unit.serial")[:1]:
        for other in (sheet | {"internal": text}, {**sheet, "customer": {**sheet["customer"], "contact": text}}):
            seen = any("workshop alone" in problem for problem in sheets.missing(good, other))
            tally.record("selftest", f"sheet-text on {good}",
                         [] if seen else ["does not see what is for the workshop alone"], ADVICE)
    for job, other in by_job.items():
        if other is not sheet:
            tally.record("selftest", f"sheet-text on {good} against job {job}",
                         [] if sheets.missing(good, other) else ["holds"], ADVICE)
    tally.record("selftest", "sheet-text without a sheet",
                 [] if sheets.missing(good, None) else ["holds"], ADVICE)


def changed(node, text):
    """The sheet with each scalar `text` made another."""
    if isinstance(node, dict):
        return {key: changed(value, text) for key, value in node.items()}
    if isinstance(node, list):
        return [changed(value, text) for value in node]
    return text + " Qx7" if node == text else copy.copy(node)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--samples", type=pathlib.Path, required=True)
    parser.add_argument("--tools", type=pathlib.Path, required=True)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("pdfs", nargs="+", type=pathlib.Path)
    args = parser.parse_args()
    tally, by_job = Tally(), sheets.load(args.samples)

    answered = {name for names in breaking.CAUGHT_BY.values() for name in names} | {"sheet-text"}
    every = {check.name for check in pdf_checks.CHECKS} | {
        f"verapdf-{flavour}" for flavour in pdf_checks.FLAVOURS}
    tally.record("selftest", "break.py", [f"no defect for {name}" for name in every - answered],
                 "add a row to DEFECTS")

    good, lacking = choose(args.pdfs, args.work)
    tally.record("selftest", args.samples, lacking,
                 "let one sample have a photo, a table and a heading in its report")
    if good:
        sheet = by_job.get(good.parent.name)
        defects_are_caught(tally, good, sheet, args.work / good.parent.name, args.tools)
        if sheet:
            missing_text_is_seen(tally, good, sheet, by_job)
    return tally.close("selftest of the outside checks")


if __name__ == "__main__":
    sys.exit(main())
