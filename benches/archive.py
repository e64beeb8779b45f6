#!/usr/bin/env python3
"""Measures sealing and verifying against `sha256sum` of the same bytes, and files that are too large.

In: a release binary; out: one table, each figure beside what is aimed at. Needs Python's standard
library and coreutils. Works in a folder that is removed at the end; 4 GB of disk.

usage: python3 benches/archive.py SPLITCASE [--bags N] [--work FOLDER]

Ratios are of processor time, the least of three rounds each, the two turn and turn about; papers are
made before and given by `--papers`, so that sealing is all that is timed.
"""

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SHEET = """job: {job}
customer: {{name: Orla Venning}}
unit: {{kind: mid-drive, model: Kestmar C2}}
arrival: {{date: 2026-03-02}}
strip-down:
  date: 2026-03-04
  findings:
    - {{part: output-gear, condition: worn, signs: [tooth-pitting], action: replaced}}
cause: {{main: mechanical}}
work: {{labour: 60 min}}
returned: 2026-03-11
outcome: repaired
"""


def timed(command, cwd):
    """Seconds of processor, seconds by the wall, peak memory in MB, exit code and what was said."""
    started = time.perf_counter()
    child = subprocess.Popen(command, cwd=cwd, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    said = child.stdout.read()
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    wall = time.perf_counter() - started
    return used.ru_utime + used.ru_stime, wall, used.ru_maxrss / 1024, child.returncode, said.decode()


def beside_sha256sum(command, files, cwd, rounds=3):
    """Least processor time of a command, which is given the round, to that of `sha256sum` of the files."""
    own, other, last = [], [], None
    for at in range(rounds):
        last = timed(command(at), cwd)
        if last[3] != 0:
            sys.exit(f"{command(at)} ended with {last[3]}: {last[4]}")
        own.append(last[0])
        other.append(timed(["xargs", "-0", "-a", files, "sha256sum"], cwd)[0])
    return min(own) / min(other), min(own), last


def listed(folder, to):
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    to.write_bytes(b"\0".join(str(path).encode() for path in files))


def job(folder, name, sizes):
    """A job whose folder holds files of random bytes."""
    own = folder / name
    own.mkdir(parents=True)
    (own / "findings.yaml").write_text(SHEET.format(job=name))
    for at, size in enumerate(sizes):
        # In pieces: what this process holds counts among what its children are said to have held.
        with open(own / f"log-{at:04}.bin", "wb") as file:
            for piece in range(0, size, 1_000_000):
                file.write(os.urandom(min(1_000_000, size - piece)))
    return own


def sealing(binary, work, sizes):
    jobs = work / f"jobs-{len(sizes)}"
    own = job(jobs, "S-1", sizes)
    run([binary, "render", str(own), "--out", str(work / "papers"), "-q"], work)
    listed(own, work / "files")
    # Every round has an archive of its own: where files were just deleted, the disk is slow to give new ones.
    command = lambda at: [
        binary, "seal", str(own), "--archive", str(work / f"archive-{len(sizes)}-{at}"),
        "--papers", str(work / "papers"), "-q",
    ]
    return beside_sha256sum(command, str(work / "files"), work)


def run(command, cwd):
    done = subprocess.run(command, cwd=cwd, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{command} ended with {done.returncode}: {done.stdout}{done.stderr}")


def verifying(binary, work, bags):
    jobs, archive = work / "many", work / "bags"
    for n in range(bags):
        job(jobs, f"V-{n:04}", [200_000])
    run([binary, "render", str(jobs), "--out", str(work / "many-papers"), "-q"], work)
    run([binary, "seal", str(jobs), "--archive", str(archive), "--papers", str(work / "many-papers"), "-q"], work)
    listed(archive, work / "files")
    return beside_sha256sum(lambda _: [binary, "verify", str(archive)], str(work / "files"), work)


def too_large(binary, work):
    """What a register and a PDF of 50 MB cost: peak memory in MB, seconds by the wall, the end."""
    archive = work / "large"
    small = job(work / "few", "L-1", [1000])
    run([binary, "seal", str(small), "--archive", str(archive), "-q"], work)
    register = archive / "register.jsonl"
    kept = register.read_bytes()
    for what, head, piece in (
        ("register of 50 MB, newlines", b"", b"\n" * 1000),
        ("register of 50 MB, its own lines again and again", b"", kept),
        ("register of 50 MB, one line", b"{", b"[" * 1000),
    ):
        filled(register, head, piece)
        yield what, timed([binary, "verify", str(archive)], work)
    register.write_bytes(kept)
    paper = next((archive / "L-1").rglob("return-report.pdf")).read_bytes()
    for what, head, piece in (
        ("PDF of 50 MB, zeros after its end", paper, b"\0" * 1000),
        ("PDF of 50 MB, objects without end", b"%PDF-1.7\n", b"1 0 obj<</AF[1 0 R]>>endobj\n"),
    ):
        filled(work / "large.pdf", head, piece)
        yield what, timed([binary, "verify", str(work / "large.pdf")], work)


def filled(path, head, piece, size=50_000_000):
    with open(path, "wb") as file:
        file.write(head)
        for _ in range(size // len(piece)):
            file.write(piece)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("binary")
    parser.add_argument("--bags", type=int, default=2000)
    parser.add_argument("--work", type=Path)
    given = parser.parse_args()
    binary = os.path.abspath(given.binary)
    with tempfile.TemporaryDirectory(dir=given.work) as folder:
        work = Path(folder)
        (work / "workshop.yaml").write_text("name: Hollowmere Drive Works\ncurrency: GBP\nrates: {hour: £44.00}\n")
        print("| measured | figure | aim |\n| --- | --- | --- |")
        for what, sizes in (
            ("sealing one file of 400 MB to `sha256sum`", [400_000_000]),
            ("sealing forty files of 10 MB to `sha256sum`", [10_000_000] * 40),
            ("sealing 1000 files of 200 kB to `sha256sum`", [200_000] * 1000),
        ):
            ratio, own, _ = sealing(binary, work, sizes)
            print(f"| {what} | {ratio:.2f} ({own:.2f} s) | 1.5 |", flush=True)
        ratio, own, last = verifying(binary, work, given.bags)
        print(f"| verifying {given.bags} bags of 200 kB to `sha256sum` of the same files | {ratio:.2f} ({own:.2f} s, {last[1]:.2f} by the wall) | 1.0 |", flush=True)
        for what, (_, wall, peak, code, _) in too_large(binary, work):
            print(f"| {what} | {peak:.0f} MB, {wall:.2f} s, exit {code} | 100 MB, 5 s |", flush=True)


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    main()
