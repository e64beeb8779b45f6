# Asks a detector of languages what the papers are written in, Babel (Unicode CLDR) how their days are written, and
# Pyphen (the hyphenation dictionaries of LibreOffice) whether each word may be broken where it is: none of them
# knows anything of ours.
#
# usage: languages.py --samples DIR REPORTS
#        REPORTS holds a folder for each job number
# needs: poppler-utils, langdetect, babel, pyphen
# exit:  0 every paper is in the language of its sheet and a wrong one would be seen, 1 not so
import argparse
import datetime
import pathlib
import re
import subprocess
import sys

import babel.dates
import langdetect
import pyphen

import sheets
from tally import Tally

ADVICE = "look at report-templates/wording and src/document/wording"
# Where a sheet names no region, the one that its language's wordings name.
REGIONS = {"en": "en_GB", "de": "de_DE", "fr": "fr_FR", "nl": "nl_NL", "it": "it_IT", "es": "es_ES"}


def language_of(sheet):
    return str(sheet.get("language", "en"))


def locale_of(sheet):
    tag = language_of(sheet)
    return tag.replace("-", "_") if "-" in tag else REGIONS[tag]


# A word that runs on in the next line: typesetters write a soft hyphen for what is no letter of the word.
BROKEN = re.compile("(\\w+)\u00ad\n(\\w+)")


def lines_of(pdf):
    run = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, check=True, text=True)
    return run.stdout


def joined(lines):
    return " ".join(lines.replace("\u00ad\n", "").split())


def detected(text, language):
    langdetect.DetectorFactory.seed = 0
    found = langdetect.detect(text)
    return [] if found == language else [f"it reads as `{found}`, not as `{language}`"]


def breaks(lines, sheet):
    """Every word is broken where the dictionary of its language allows it."""
    dictionary = pyphen.Pyphen(lang=REGIONS[language_of(sheet).split("-")[0]])
    return [f"`{before}-{after}` is no break of that word"
            for before, after in BROKEN.findall(lines)
            if len(before) not in dictionary.positions((before + after).lower())]


def days(text, sheet):
    """The day on which the unit came in stands on its arrival note, as CLDR writes it."""
    day = datetime.date.fromisoformat(str(sheet["arrival"]["date"]))
    printed = babel.dates.format_date(day, "long", locale=locale_of(sheet))
    return [] if " ".join(printed.split()) in text else [f"it does not say {printed}"]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--samples", type=pathlib.Path, required=True)
    parser.add_argument("reports", type=pathlib.Path)
    args = parser.parse_args()
    tally, by_job = Tally(), sheets.load(args.samples)
    languages, n_breaks = set(), 0
    for pdf in sorted(args.reports.glob("*/*.pdf")):
        sheet, lines = by_job[pdf.parent.name], lines_of(pdf)
        language, text = language_of(sheet).split("-")[0], joined(lines)
        problems = detected(text, language) + (breaks(lines, sheet) if language != "en" else [])
        n_breaks += len(BROKEN.findall(lines))
        if pdf.name.startswith("arrival-note"):
            problems += days(text, sheet)
        tally.record("language", pdf, problems, ADVICE)
        other = "de" if language != "de" else "fr"
        if language not in languages and not detected(text, other):
            tally.record("language", pdf, [f"it passes for `{other}` as well"], "mend the check")
        languages.add(language)
    if not breaks("Haust\u00ad\nür", {"language": "de"}):
        tally.record("language", args.reports, ["a wrong break passes"], "mend the check")
    if not n_breaks:
        tally.record("language", args.reports, ["no word is broken: nothing was checked"], ADVICE)
    if languages <= {"en"}:
        tally.record("language", args.reports, ["no paper is in another language than English"], ADVICE)
    return tally.close("papers whose language another tool knows")


if __name__ == "__main__":
    sys.exit(main())
