# Asks a detector of languages what the papers are written in, and Babel (Unicode CLDR) how their days are
# written: neither knows anything of ours.
#
# usage: languages.py --samples DIR REPORTS
#        REPORTS holds a folder for each job number
# needs: poppler-utils, langdetect, babel
# exit:  0 every paper is in the language of its sheet and a wrong one would be seen, 1 not so
import argparse
import datetime
import pathlib
import subprocess
import sys

import babel.dates
import langdetect

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


def text_of(pdf):
    run = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, check=True, text=True)
    return " ".join(run.stdout.replace("\u00ad\n", "").split())


def detected(text, language):
    langdetect.DetectorFactory.seed = 0
    found = langdetect.detect(text)
    return [] if found == language else [f"it reads as `{found}`, not as `{language}`"]


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
    languages = set()
    for pdf in sorted(args.reports.glob("*/*.pdf")):
        sheet, text = by_job[pdf.parent.name], text_of(pdf)
        language = language_of(sheet).split("-")[0]
        problems = detected(text, language)
        if pdf.name.startswith("arrival-note"):
            problems += days(text, sheet)
        tally.record("language", pdf, problems, ADVICE)
        other = "de" if language != "de" else "fr"
        if language not in languages and not detected(text, other):
            tally.record("language", pdf, [f"it passes for `{other}` as well"], "mend the check")
        languages.add(language)
    if len(languages) < 2:
        tally.record("language", args.reports, ["no paper is in another language than English"], ADVICE)
    return tally.close("papers whose language another tool knows")


if __name__ == "__main__":
    sys.exit(main())
