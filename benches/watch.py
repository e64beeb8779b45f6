#!/usr/bin/env python3
"""Measures how long `render --watch` takes from a saved sheet to a new paper, by the wall.

In: a release binary and a sample; out: a line for each save, and the longest. Standard library only.

usage: python3 benches/watch.py SPLITCASE [SAMPLE]
"""

import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SAMPLES = Path(__file__).resolve().parent.parent / "samples"
ROUNDS = 8


def waited(is_so, seconds=20):
    started = time.perf_counter()
    while not is_so():
        if time.perf_counter() - started > seconds:
            sys.exit("no paper came")
        time.sleep(0.005)
    return time.perf_counter() - started


def main():
    binary, sample = os.path.abspath(sys.argv[1]), (sys.argv[2:] or ["hd-2614"])[0]
    with tempfile.TemporaryDirectory() as folder:
        jobs, out = Path(folder) / "jobs", Path(folder) / "out"
        shutil.copytree(SAMPLES, jobs)
        sheet = jobs / sample / "findings.yaml"
        text = sheet.read_text()
        watch = subprocess.Popen(
            [binary, "render", "--watch", sheet.parent, "--out", out], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        paper = out / sample.upper() / "return-report.pdf"
        print(f"first paper: {waited(paper.exists):.2f} s")
        time.sleep(2)
        took = []
        for at in range(ROUNDS):
            before = paper.stat().st_mtime_ns
            sheet.write_text(re.sub(r"labour: \S+", f"labour: {100 + at}", text, count=1))
            took.append(waited(lambda: paper.stat().st_mtime_ns != before))
            print(f"save {at + 1}: {took[-1]:.2f} s")
            # Saves at different moments between two looks.
            time.sleep(1.3 + 0.17 * at)
        print(f"longest: {max(took):.2f} s (aim 1 s)")
        watch.send_signal(signal.SIGINT)
        watch.wait()


if __name__ == "__main__":
    main()
