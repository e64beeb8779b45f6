#!/usr/bin/env python3
"""Measures whole runs of splitcase: speed, stages, memory, second runs, cold starts, the photo step.

In: the samples; out: two tables, the second against what is aimed at. Needs cargo and Python's
standard library; `vipsthumbnail` (Debian: libvips-tools) for the comparison of the photo step.

usage: python3 benches/measure.py [--quick] [--samples FOLDER]

Times are processor time (user and system) unless they are said to be by the wall: it is what other
programs on the machine disturb least. Comparisons are made within one run, turn and turn about.
Jobs are the samples in turn, each with a number of its own; their photos are hard links, so the disk
holds each photo once, and after the first look the page cache has it.
"""

import argparse
import itertools
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
WORKERS = 2
# Pixels along the longer edge of a print copy: 137 mm at 220 dpi (`print_size` in src/document.rs).
PRINT_EDGE = 1187


class Spent(NamedTuple):
    """What a process took."""

    wall: float  # seconds
    cpu: float  # seconds, user and system
    peak: float  # MB resident


def run(*command, env=None):
    """Runs a command that must succeed."""
    start = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, env=env)
    _, status, usage = os.wait4(process.pid, 0)
    wall = time.perf_counter() - start
    if status != 0:
        sys.exit(f"failed: {' '.join(map(str, command))}")
    return Spent(wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)


def build():
    """Builds program and stages with the release profile; returns the two paths."""
    command = ["cargo", "bench", "--no-run", "--bench", "stages", "--message-format", "json"]
    done = subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, text=True, check=True)
    messages = map(json.loads, done.stdout.splitlines())
    made = {m["target"]["name"]: m["executable"] for m in messages if m.get("executable")}
    return made["splitcase"], made["stages"]


def jobs_in(samples):
    """The job folders of the samples, those with few photos first."""
    return sorted((path.parent for path in samples.glob("*/findings.yaml")), key=weight)


def weight(job):
    """Bytes of a job's photos."""
    return sum(path.stat().st_size for path in job.iterdir() if path.suffix != ".yaml")


def make_jobs(samples, folder, n):
    """Makes `n` jobs from the samples below a folder, each with a number of its own."""
    folder.mkdir()
    shutil.copy(samples / "workshop.yaml", folder)
    shutil.copy(samples / "parts.yaml", folder)
    for number, sample in zip(range(n), itertools.cycle(jobs_in(samples))):
        job = folder / f"{number:04}-{sample.name}"
        job.mkdir()
        sheet = (sample / "findings.yaml").read_text()
        sheet = re.sub(r"^job: (\S+)", rf"job: \1-{number:04}", sheet, count=1, flags=re.M)
        (job / "findings.yaml").write_text(sheet)
        for photo in sample.iterdir():
            if photo.suffix != ".yaml":
                link_or_copy(photo, job / photo.name)
    return folder


def link_or_copy(photo, to):
    """A hard link where the disk allows one."""
    try:
        os.link(photo, to)
    except OSError:
        shutil.copy2(photo, to)


class Tools(NamedTuple):
    """The two programs and a folder to work in."""

    splitcase: str
    stages: str
    work: Path

    def render(self, jobs, out):
        """Makes the papers of every job below a folder."""
        return run(self.splitcase, "render", jobs, "--out", out, "--workers", str(WORKERS))

    def table(self, *words):
        """A table that `stages` prints, as rows of a name and numbers; its head is left out."""
        printed = subprocess.run([self.stages, *words], stdout=subprocess.PIPE, text=True, check=True)
        rows = [re.split(r"\s{2,}", line.strip()) for line in printed.stdout.splitlines()]
        return {name: [float(number) for number in numbers] for name, *numbers in rows[1:]}


class Batch(NamedTuple):
    """A run over many jobs."""

    n: int
    first: Spent
    again: Spent
    stages: dict  # milliseconds a job by stage

    @property
    def cpu_per_job(self):
        """Milliseconds a job."""
        return self.first.cpu / self.n * 1000


def measure_batch(tools, samples, n):
    """Renders `n` jobs, renders them again, and times their stages."""
    jobs = make_jobs(samples, tools.work / f"jobs-{n}", n)
    out = tools.work / f"out-{n}"
    first = tools.render(jobs, out)
    again = sorted((tools.render(jobs, out) for _ in range(3)), key=lambda spent: spent.wall)[1]
    table = tools.table("run", jobs, str(WORKERS))
    shutil.rmtree(jobs)
    shutil.rmtree(out)
    return Batch(n, first, again, {stage: processor for stage, (processor, _) in table.items()})


def print_batches(batches):
    """The first table."""
    stages = list(batches[0].stages)
    head = ["jobs", "jobs a second", *stages, "the rest", "all", "of photos alone", "peak MB", "again s"]
    print(f"Whole runs on {WORKERS} workers; stages in milliseconds a job")
    print("  ".join(head))
    for batch in batches:
        all_stages = sum(batch.stages.values())
        row = [
            f"{batch.n}",
            f"{batch.n / batch.first.wall:.1f}",
            *(f"{batch.stages[stage]:.1f}" for stage in stages),
            f"{batch.cpu_per_job - all_stages:.1f}",
            f"{batch.cpu_per_job:.1f}",
            f"{batch.cpu_per_job / batch.stages['photos']:.2f}",
            f"{batch.first.peak:.0f}",
            f"{batch.again.wall:.2f}",
        ]
        print("  ".join(cell.rjust(len(name)) for cell, name in zip(row, head)))


def cold_start(tools, samples):
    """Wall seconds of a new process for the smallest job: the median of ten."""
    jobs = tools.work / "small"
    jobs.mkdir()
    shutil.copy(samples / "workshop.yaml", jobs)
    shutil.copy(samples / "parts.yaml", jobs)
    shutil.copytree(jobs_in(samples)[0], jobs / "job")
    return median(tools.render(jobs, tools.work / f"small-out-{i}").wall for i in range(10))


class Report(NamedTuple):
    """Layout and export of a warm report, on one worker."""

    photos: float
    pages: float
    passes: float  # how often its pages are set
    calls: float  # of template code
    layout: float  # milliseconds
    export: float
    a_page: float


def reports(tools, samples):
    """The warm reports of the samples by their job."""
    table = tools.table("warm", make_jobs(samples, tools.work / "warm", len(jobs_in(samples))))
    return {job: Report(*row) for job, row in table.items() if len(row) == len(Report._fields)}


def largest_photo(tools, samples):
    """The JPEG of the samples that has the most pixels, and how many million it has."""
    sizes = tools.table("photos", *samples.glob("*/*.jpg"))
    megapixels = {photo: width * height / 1e6 for photo, (width, height) in sizes.items()}
    photo = max(megapixels, key=megapixels.get)
    return Path(photo), megapixels[photo]


def photo_step(tools, photo, copies=6, rounds=5):
    """Processor seconds of the photo step for one photo: ours and those of libvips.

    Both programs take one photo, and then `copies` more in one process; the difference leaves the
    start out. libvips works on one thread, which costs it the least processor time, and meets each
    copy under a name of its own, so that it cannot answer from its cache.
    """
    files = [tools.work / f"{photo.stem}-copy-{i}.jpg" for i in range(copies + 1)]
    for file in files:
        link_or_copy(photo, file)
    made = tools.work / "vips"
    made.mkdir(exist_ok=True)
    size = f"{PRINT_EDGE}x{PRINT_EDGE}"
    vips = ["vipsthumbnail", "-s", size, "--export-profile", "srgb", "-o", f"{made}/%s.jpg[Q=85,strip]"]
    one_thread = {**os.environ, "VIPS_CONCURRENCY": "1"}
    ours, theirs = [], []
    for _ in range(rounds):
        for times, command in (ours, [tools.stages, "photos"]), (theirs, vips):
            alone, together = (run(*command, *some, env=one_thread).cpu for some in (files[:1], files))
            times.append((together - alone) / copies)
    for file in files:
        file.unlink()
    return median(ours), median(theirs)


class Figure(NamedTuple):
    """A figure with what is aimed at."""

    name: str
    value: float
    most: bool  # True where the aim is the most that it may be, False where it is the least
    aim: float
    unit: str = ""

    def __str__(self):
        word = "at most" if self.most else "at least"
        is_met = self.value <= self.aim if self.most else self.aim <= self.value
        aim = f"{word} {self.aim:g} {self.unit}"
        return f"{self.name:58}  {self.value:8.2f}  {aim:16}  {'met' if is_met else 'missed'}"


def photo_figures(tools, samples):
    """The photo step beside libvips."""
    if not shutil.which("vipsthumbnail"):
        print("no `vipsthumbnail` here: the photo step is not compared")
        return
    large, megapixels = largest_photo(tools, samples)
    larger = tools.work / "larger.jpg"
    run(tools.stages, "enlarge", large, larger)
    for photo, size, aim in (large, megapixels, 0.7), (larger, 48, 1.0):
        ours, theirs = photo_step(tools, photo)
        name = f"photo step, {size:.0f} MP, {ours * 1000:.0f} ms to libvips' {theirs * 1000:.0f} ms"
        yield Figure(name, ours / theirs, True, aim)


def figures(tools, samples, batches):
    """Everything that has an aim."""
    by_n, last = {batch.n: batch for batch in batches}, batches[-1]
    warm = reports(tools, samples).values()
    # Two workers that have a core each make two reports in the time of one.
    six = max(one.layout + one.export for one in warm if one.photos == 6) / 2
    yield Figure("layout and export of six photos, 2 workers", six, True, 20, "ms")
    yield Figure("layout and export of a page, 1 worker", max(one.a_page for one in warm), True, 10, "ms")
    yield Figure("how often the pages of a report are set", max(one.passes for one in warm), True, 1)
    press = last.stages["layout and export"] / last.stages["photos"]
    yield Figure("layout and export, to the photos", press, True, 1)
    yield from photo_figures(tools, samples)
    if 1000 in by_n:
        growth = by_n[1000].first.peak / by_n[100].first.peak
        yield Figure("memory of 1000 jobs, to that of 100", growth, True, 1.3)
    faster = last.first.wall / last.again.wall
    yield Figure(f"a second run of {last.n} jobs, times faster by the wall", faster, False, 50)
    yield Figure("one small job from a cold start, by the wall", cold_start(tools, samples), True, 0.5, "s")


def main():
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--quick", action="store_true", help="ten jobs only")
    parser.add_argument("--samples", type=Path, default=ROOT / "samples", help="folder of jobs")
    arguments = parser.parse_args()
    samples = arguments.samples.resolve()
    splitcase, stages = build()
    with tempfile.TemporaryDirectory(dir=Path(splitcase).parent) as work:
        tools = Tools(splitcase, stages, Path(work))
        sizes = [10] if arguments.quick else [10, 100, 1000]
        batches = [measure_batch(tools, samples, n) for n in sizes]
        print_batches(batches)
        print()
        for figure in figures(tools, samples, batches):
            print(figure, flush=True)


if __name__ == "__main__":
    main()
