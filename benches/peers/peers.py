#!/usr/bin/env python3
"""Times one report beside general typesetters that set the same words and photos.

In: a built splitcase and the samples; out: a table of wall and processor time of whole processes, the least
of several rounds taken turn about. A peer that is not installed is left out and named.

usage: python3 benches/peers/peers.py SPLITCASE [--rounds N]

Needs poppler-utils (`pdftotext`, `pdfinfo`) and of the peers whichever are there: `typst`, WeasyPrint,
ReportLab and Pillow in this Python; pdflatex; chromium. All get the same six photos at print size, so that
nobody's decoding of large photos is measured; the words are those of our own report, in its order. The peers
print them in one plain column with the photos under captions: they have less to lay out than the report.
"""

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
SAMPLES = HERE.parent.parent / "samples"
JOB = "hd-2614"
PHOTOS = 6
PRINT_EDGE = 1187  # pixels along the longer edge of a print copy (`print_size` in src/document.rs)


def spent(command, folder):
    """Wall and processor seconds of a process that must succeed."""
    start = time.perf_counter()
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    process = subprocess.Popen(command, cwd=folder, **quiet)
    _, status, usage = os.wait4(process.pid, 0)
    wall = time.perf_counter() - start
    if status != 0:
        raise RuntimeError(f"exit status {status}")
    return wall, usage.ru_utime + usage.ru_stime


def make_job(folder):
    """The sample with its first six photos at print size and without a ride's track."""
    from PIL import Image, ImageOps

    job = folder / "jobs" / JOB
    job.mkdir(parents=True)
    for name in ("workshop.yaml", "parts.yaml"):
        shutil.copy(SAMPLES / name, job.parent)
    sheet = (SAMPLES / JOB / "findings.yaml").read_text()
    sheet = re.sub(r",?\s*track: ride\.gpx", "", sheet)
    named = list(dict.fromkeys(re.findall(r"[\w-]+\.(?:jpg|png)", sheet)))
    for extra in named[PHOTOS:]:
        sheet = re.sub(rf",?\s*photos(-after)?: \[(\{{file: )?{re.escape(extra)}[^\n]*?\]", "", sheet)
    kept = [name for name in named if name in sheet]
    for name in kept:
        photo = ImageOps.exif_transpose(Image.open(SAMPLES / JOB / name)).convert("RGB")
        photo.thumbnail((PRINT_EDGE, PRINT_EDGE))
        photo.save(job / name, quality=82)
    (job / "findings.yaml").write_text(sheet)
    return job, kept


def words_of(pdf):
    """The paragraphs of a report."""
    text = subprocess.run(["pdftotext", pdf, "-"], capture_output=True, text=True, check=True).stdout
    blocks = [" ".join(block.split()) for block in re.split(r"\n\s*\n", text)]
    return [block for block in blocks if block]


def n_pages(pdf):
    """Pages of a PDF, and whether it is tagged."""
    told = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    pages = int(re.search(r"^Pages:\s+(\d+)", told, re.M)[1])
    return pages, bool(re.search(r"^Tagged:\s+yes", told, re.M))


def markup_escape(text):
    """Text for HTML."""
    return text.replace("&", "&amp;").replace("<", "&lt;")


def pieces(content):
    """Every paragraph after the heading, with the photo under it or none."""
    words, photos = content["words"][1:], content["photos"]
    step = max(1, len(content["words"]) // len(photos))
    for at, text in enumerate(words):
        place, rest = divmod(at, step)
        yield text, photos[place] if rest == 0 and place < len(photos) else None


def page_of(content):
    """The content as HTML: a heading, paragraphs, the photos among them."""
    parts = ["<!doctype html><html lang=en-GB><meta charset=utf-8><title>Report</title>"]
    parts.append("<style>@page{size:A4;margin:18mm}body{font:9.5pt/1.35 serif}h1{font-size:17pt}")
    parts.append("figure{margin:3mm 0;width:80mm}img{width:80mm}figcaption{font-size:8.4pt}</style>")
    parts.append(f"<h1>{markup_escape(content['words'][0])}</h1>")
    for text, photo in pieces(content):
        parts.append(f"<p>{markup_escape(text)}</p>")
        if photo:
            parts.append(f"<figure><img src='{photo}' alt='Photo'><figcaption>{photo}</figcaption></figure>")
    return "".join(parts)


def tex_of(content):
    """The content as LaTeX."""
    def escape(text):
        text = re.sub(r"([#$%&_{}])", r"\\\1", text.replace("\\", "/"))
        return re.sub(r"[^\x20-\x7e£°–—’‘“”µ±×]", " ", text).replace("~", "-").replace("^", " ")

    parts = [r"\documentclass[a4paper,10pt]{article}\usepackage[margin=18mm]{geometry}"]
    parts.append(r"\usepackage[utf8]{inputenc}\usepackage[T1]{fontenc}\usepackage{textcomp,graphicx}")
    parts.append(r"\begin{document}\raggedbottom\sloppy\section*{" + escape(content["words"][0]) + "}")
    for text, photo in pieces(content):
        parts.append(escape(text) + "\n\n")
        if photo:
            parts.append(r"\noindent\includegraphics[width=80mm]{" + photo + "}\n\n")
    return "\n".join([*parts, r"\end{document}"])


def typst_of(content):
    """The content as Typst markup, every text as a string."""
    parts = ['#set document(title: "Report")', '#set page(margin: 18mm)', '#set text(9.5pt, lang: "en")']
    parts.append(f"#heading({json.dumps(content['words'][0], ensure_ascii=False)})")
    for text, photo in pieces(content):
        parts.append(f"#par({json.dumps(text, ensure_ascii=False)})")
        if photo:
            parts.append(f'#figure(image("{photo}", width: 80mm, alt: "Photo"), caption: "{photo}")')
    return "\n".join(parts)


REPORTLAB = """
import json
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.platypus import Image, Paragraph, SimpleDocTemplate
content = json.load(open("content.json"))
styles, story = getSampleStyleSheet(), []
text = lambda words: words.replace("&", "&amp;").replace("<", "&lt;")
story.append(Paragraph(text(content["words"][0]), styles["Title"]))
step = max(1, len(content["words"]) // len(content["photos"]))
for at, words in enumerate(content["words"][1:]):
    story.append(Paragraph(text(words), styles["BodyText"]))
    if at % step == 0 and at // step < len(content["photos"]):
        photo = content["photos"][at // step]
        wide, tall = ImageReader(photo).getSize()
        story.append(Image(photo, 80 * mm, 80 * mm * tall / wide))
        story.append(Paragraph(photo, styles["Italic"]))
SimpleDocTemplate("out.pdf", pagesize=A4, margin=18 * mm).build(story)
"""

WEASYPRINT = "import weasyprint; weasyprint.HTML('page.html').write_pdf('out.pdf', pdf_variant='pdf/ua-1')"
TYPST = "import typst; typst.compile('page.typ', output='out.pdf', pdf_standards=['ua-1'])"
CHROMIUM = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"]


def peers(folder, python):
    """Name, what it conforms to, and the command of every peer."""
    profile = f"--user-data-dir={folder / 'chromium'}"
    printed = [*CHROMIUM, profile, "--no-pdf-header-footer", "--print-to-pdf=out.pdf", "page.html"]
    return [
        ("typst, one process a paper", "UA-1", [python, "-c", TYPST]),
        ("WeasyPrint", "UA-1", [python, "-c", WEASYPRINT]),
        ("ReportLab", "none", [python, "-c", REPORTLAB]),
        ("pdfLaTeX, one run", "none", ["pdflatex", "-interaction=batchmode", "-jobname=out", "page.tex"]),
        ("Chromium", "tagged", ["chromium", *printed]),
    ]


def least(a, b):
    """The smaller of wall and processor time each."""
    return tuple(map(min, a, b))


def main():
    """Prints the table."""
    ask = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    ask.add_argument("splitcase", type=Path)
    ask.add_argument("--rounds", type=int, default=7)
    asked = ask.parse_args()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        job, photos = make_job(folder)
        splitcase = asked.splitcase.resolve()
        paper = folder / "ours" / JOB.upper() / "return-report.pdf"
        ours = [splitcase, "render", job, "--out", folder / "ours", "--force", "--paper", "return-report"]
        spent(ours, folder)
        content = {"words": words_of(paper), "photos": photos}
        for photo in photos:
            shutil.copy(job / photo, folder)
        (folder / "content.json").write_text(json.dumps(content))
        (folder / "page.html").write_text(page_of(content))
        (folder / "page.tex").write_text(tex_of(content))
        (folder / "page.typ").write_text(typst_of(content))
        rows = [("splitcase, one process a job", "A-3a and UA-1", ours, paper)]
        rows += [(*row, folder / "out.pdf") for row in peers(folder, sys.executable)]
        best, facts = {}, {}
        for _ in range(asked.rounds):
            for title, _, command, made in rows:
                if best.get(title, ()) is None:
                    continue
                try:
                    took = spent(command, folder)
                except (OSError, RuntimeError) as error:
                    best[title] = None
                    print(f"left out: {title}: {error}", file=sys.stderr)
                    continue
                best[title] = least(best.get(title, took), took)
                facts[title] = n_pages(made)
        base = best[rows[0][0]][0]
        print(f"{'typesetter':30} {'conforms to':14} {'pages':>5} {'tagged':>6} {'wall ms':>8} {'cpu ms':>7} {'to ours':>7}")
        for title, standard, _, _ in rows:
            if best[title] is not None:
                (wall, cpu), (pages, tagged) = best[title], facts[title]
                mark = "yes" if tagged else "no"
                print(f"{title:30} {standard:14} {pages:5} {mark:>6} {wall * 1e3:8.0f} {cpu * 1e3:7.0f} {wall / base:7.1f}")


if __name__ == "__main__":
    main()
