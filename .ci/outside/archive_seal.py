# Seals made-up jobs and lets other tools judge the bags, tars and the register; kills the program
# while it seals, and fills its disk.
#
# usage: archive_seal.py --work DIR BINARY
# in:    `BINARY seal JOB... --archive DIR [--tar]`, GNU tar; DIR is made anew. The full disk is a
#        small one in memory where this machine lets one be mounted, else a limit on file sizes
# exit:  0 all hold, 1 otherwise; a check that cannot tell a broken archive does not hold
import argparse
import json
import logging
import os
import pathlib
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time

from sealed import (
    LISTS, archive_problems, bag_problems, bags_of, differing, ran_well, run, tar_problems, tree,
    unfinished,
)
from tally import Tally

KILLS = 50
SEED = 2614
AT_ONCE = 40
PROFILE = """name: Hollowmere Drive Works
address: [4 Cooper's Slip, Wexcombe]
currency: GBP
tax: {name: VAT, rate: 20 %, prices: including, rounding: by-invoice}
rates: {hour: £44.00}
guarantee: {months: 12, terms: Parts and work.}
"""
SHEET = """job: NUMBER
customer: {name: Nadia Ferrow}
unit: {kind: mid-drive, model: Kestmar C2}
arrival: {date: 2026-03-02}
"""


# What of a bag depends on which bags were sealed before it; jobs are sealed side by side.
OF_HISTORY = ("register-head.txt", "tagmanifest-sha256.txt", ".tar")


def make_job(shop, number, files):
    """A job folder with the least sheet and further files; the value is its path."""
    job = shop / "jobs" / number
    for name, content in files.items():
        path = job / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    job.mkdir(parents=True, exist_ok=True)
    (shop / "workshop.yaml").write_text(PROFILE, encoding="utf-8")
    (job / "findings.yaml").write_text(SHEET.replace("NUMBER", number), encoding="utf-8")
    return job


def command(binary, jobs, archive, tar=False):
    return [binary, "seal", *jobs, "--archive", archive, *(["--tar"] if tar else [])]


def check_the_checks(tally, archive, work):
    """Breaks a sound archive in every way that the checks must tell."""
    def rewrite(path, change):
        path.write_bytes(change(path.read_bytes()))

    def flip(content):
        return content[:len(content) // 2] + bytes([content[len(content) // 2] ^ 1]) \
            + content[len(content) // 2 + 1:]

    bag = max(bags_of(archive), key=lambda bag: len(tree(bag))).relative_to(archive)
    payload = bag / "data/originals"
    photo = min(path for path in (archive / payload).iterdir() if path.is_file())
    photo = payload / photo.name
    tar = f"{bag}.tar"
    breakages = {
        "a photo is changed": lambda a: rewrite(a / photo, flip),
        "a photo is missing": lambda a: (a / photo).unlink(),
        "a photo is cut short": lambda a: rewrite(a / photo, lambda content: content[:-1]),
        "a file is added": lambda a: (a / payload / "added").touch(),
        "the manifest is changed": lambda a: rewrite(a / bag / LISTS[0], flip),
        "the manifest is missing": lambda a: (a / bag / LISTS[0]).unlink(),
        "the list of tag files is cut": lambda a: rewrite(
            a / bag / LISTS[1], lambda content: content[content.index(b"\n") + 1:]),
        "the description is changed": lambda a: rewrite(a / bag / "bag-info.txt", flip),
        "the bag is gone": lambda a: shutil.rmtree(a / bag),
        "a half bag stands there": lambda a: shutil.copytree(
            a / payload, a / bag.parent / f"{bag.parent.name}-v77/data/originals"),
        "the tar is changed": lambda a: rewrite(a / tar, flip),
        "the tar is cut short": lambda a: rewrite(
            a / tar, lambda content: content[:len(content) // 2]),
        "a line is missing": lambda a: rewrite(
            a / "register.jsonl", lambda content: content[content.index(b"\n") + 1:]),
        "a line is changed": lambda a: rewrite(
            a / "register.jsonl", lambda content: content.replace(b"v1", b"v2", 1)),
    }
    for what, break_it in breakages.items():
        broken = work / "broken"
        shutil.copytree(archive, broken)
        break_it(broken)
        tally.record("broken archive", what,
                     [] if archive_problems(broken) else ["the checks did not notice"],
                     "a check that takes a broken archive proves nothing")
        shutil.rmtree(broken)


def check_bags(tally, binary, shop, work):
    """Bags and tars of three jobs, twice; the value is their archive."""
    rng = random.Random(SEED)
    names = {"plain": ["bearing.jpg", "strip-down/cage.jpg", "naïve Ωμέγα.jpg"],
             "odd": ["100%.jpg", "50%25.jpg", "a b.jpg", "quote'\".jpg"],
             # Names with line breaks are left out and named, so no bag of ours holds one.
             "long": [f"{'d' * 99}/{'l' * 180}.jpg"]}
    jobs = [make_job(shop, f"HD-{kind}", {name: rng.randbytes(70_000) for name in paths})
            for kind, paths in names.items()]
    archives = work / "archive", work / "again"
    for archive in archives:
        tally.record("seal", archive.name, ran_well(run(command(binary, jobs, archive, True))),
                     "sealing sound jobs must succeed")
    bags = bags_of(archives[0])
    tally.record("seal", "bags", [] if len(bags) == len(jobs) else [f"there are {len(bags)}"])
    for bag in sorted(bags):
        tally.record("bag", bag.name, bag_problems(bag), "`bagit` must take every bag")
        tally.record("tar", bag.name, tar_problems(bag, bag.with_name(f"{bag.name}.tar")),
                     "GNU tar and Python must unpack the bag itself")
        held = tree(bag / "data/originals")
        job = shop / "jobs" / bag.parent.name
        # A name with a line break could forge a line of a message: it is left out.
        sealable = {name: digest for name, digest in tree(job).items()
                    if name != "findings.yaml" and name.isprintable()}
        tally.record("originals", bag.name, [
            f"{name!r} is not as in the job folder" for name, digest in sealable.items()
            if held.get(name) != digest])
        tally.record("left out", bag.name, [
            f"{name!r} is sealed under a name that was never there" for name in held
            if name not in sealable])
    same = [tree(archive, {"register.jsonl"}) for archive in archives]
    tally.record("same bytes", "two archives",
                 [f"{name!r} differs" for name in differing(*same)
                  if not name.endswith(OF_HISTORY)],
                 "the same job must give the same bag, but for the register's head before it")
    before = same[0]
    tally.record("unchanged", "sealed again",
                 ran_well(run(command(binary, jobs, archives[0], True)))
                 + [f"{name!r} differs" for name in
                    differing(tree(archives[0], {"register.jsonl"}), before)]
                 + archive_problems(archives[0]) + unfinished(archives[0]))
    return archives[0]


def check_at_once(tally, binary, shop, work):
    """Two processes seal forty jobs into one archive."""
    jobs = [make_job(shop, f"AO-{number}", {"a.jpg": str(number).encode()})
            for number in range(AT_ONCE)]
    archive = work / "at-once"
    running = [subprocess.Popen(command(binary, share, archive), stdin=subprocess.DEVNULL,
                                stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
               for share in (jobs[::2], jobs[1::2])]
    problems = []
    for process in running:
        _, said = process.communicate(timeout=600)
        problems += [said[:300]] if process.returncode else []
    lines = (archive / "register.jsonl").read_text(encoding="utf-8").splitlines()
    named = {json.loads(line)["job"] for line in lines}
    problems += [f"{job.name} has no line" for job in jobs if job.name not in named]
    tally.record("two at once", f"{AT_ONCE} jobs",
                 problems + archive_problems(archive) + unfinished(archive),
                 "no line may be lost when two seal into one archive")


def check_kills(tally, binary, shop, work):
    """Kills the program at moments spread over a seal, and seals again."""
    rng = random.Random(SEED)
    films = {f"film-{number}.mp4": rng.randbytes(2_000_000) for number in range(9)}
    job = make_job(shop, "KI-1", films)
    first = work / "kill-first"
    problems = ran_well(run(command(binary, [job], first, True)))
    (job / "film-5.mp4").write_bytes(rng.randbytes(2_000_000))
    rehearsal = work / "rehearsal"
    shutil.copytree(first, rehearsal)
    begun = time.monotonic()
    problems += ran_well(run(command(binary, [job], rehearsal, True)))
    lasts = time.monotonic() - begun
    tally.record("kill", "rehearsal", problems + archive_problems(rehearsal))
    kept = tree(first / "KI-1" / "KI-1-v1")
    killed = halves = 0
    for number in range(KILLS):
        archive = work / "killed"
        shutil.copytree(first, archive)
        # One part of the seal after the other, at a random moment in each.
        moment = lasts * (number + rng.random()) / KILLS
        process = subprocess.Popen(command(binary, [job], archive, True), stdin=subprocess.DEVNULL,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            process.wait(moment)
        except subprocess.TimeoutExpired:
            process.send_signal(signal.SIGKILL)
        killed += process.wait() == -signal.SIGKILL
        halves += any(archive.glob("*/.making-*"))
        problems = [f"after the kill: {problem}" for problem in archive_problems(archive)]
        problems += ran_well(run(command(binary, [job], archive, True)))
        problems += archive_problems(archive) + unfinished(archive)
        if tree(archive / "KI-1" / "KI-1-v1") != kept:
            problems.append("version 1 is not what it was")
        if sorted(bag.name for bag in bags_of(archive)) != ["KI-1-v1", "KI-1-v2"]:
            problems.append("there are other bags than versions 1 and 2")
        if tree(archive, {"register.jsonl"}) != tree(rehearsal, {"register.jsonl"}):
            problems.append("it is not what an undisturbed seal makes")
        tally.record("kill", f"after {moment * 1000:.0f} ms of {lasts * 1000:.0f} ms", problems,
                     "a kill must leave the old archive or the new one, and the next seal succeed")
        shutil.rmtree(archive)
    print(f"killed {killed} of {KILLS}, of them {halves} with a half-made bag")
    tally.record("kill", "moments", [] if halves >= KILLS // 8 else ["few kills met a half bag"],
                 "too few kills came while the bag was made; spread them over a longer seal")


def full_disk(work):
    """(folder of a small disk, how to take it away); nothing where none can be mounted."""
    disk = work / "small-disk"
    disk.mkdir()
    mounted = run(["mount", "-t", "tmpfs", "-o", "size=32m", "tmpfs", disk]) \
        if shutil.which("mount") else None
    return disk if mounted and mounted.returncode == 0 else None


def check_full(tally, binary, shop, work):
    """Seals with less and less room: a clear error, and the archive as before."""
    rng = random.Random(SEED)
    small = make_job(shop, "FU-1", {"a.jpg": rng.randbytes(5_000)})
    large = make_job(shop, "FU-2", {f"{number}.jpg": rng.randbytes(50_000) for number in range(20)})
    disk = full_disk(work)
    if disk is None:
        print("no disk can be mounted here: the disk is not full, files are limited in size")
    try:
        steps = [0, 1, 2, 4, 8, 16, 24, 32, 64, 128, 256, 320, 450, 500] if disk else [40, 800, 1100]
        refused = 0
        for room in steps:
            archive = (disk or work / f"limited-{room}") / "archive"
            problems = ran_well(run(command(binary, [small], archive)))
            before = tree(archive)
            if disk:
                fill(disk, room * 4096)
                result = run(command(binary, [large], archive, True))
                (disk / "filler").unlink()
            else:
                result = run(command(binary, [large], archive, True),
                             preexec_fn=lambda: limit(room * 1024))
            if result.returncode == 0:
                problems += unfinished(archive)
            else:
                refused += 1
                if not re.search("No space left|File too large", result.stderr):
                    problems.append(f"the error does not say why: {result.stderr[:300]!r}")
                problems += [f"{name!r} is not as before" for name in
                             differing(tree(archive), before)]
            problems += archive_problems(archive)
            problems += ran_well(run(command(binary, [large], archive)))
            problems += archive_problems(archive) + unfinished(archive)
            tally.record("full disk", f"room for {room} pages", problems,
                         "a full disk must give a clear error and leave the archive as it was")
            shutil.rmtree(archive)
        tally.record("full disk", "all", [] if refused >= len(steps) // 2 else
                     [f"only {refused} of {len(steps)} were refused"])
        if disk:
            check_full_register(tally, binary, shop, disk)
    finally:
        if disk:
            run(["umount", disk])


def check_full_register(tally, binary, shop, disk):
    """Fills a disk so that the bag has room and its line, which begins a new page, has none."""
    archive, page, refused = disk / "archive", os.sysconf("SC_PAGE_SIZE"), 0
    jobs = [make_job(shop, f"FR-{number:02}", {}) for number in range(40)]
    problems = []
    while not problems:
        problems = ran_well(run(command(binary, [jobs.pop()], archive)))
        size = (archive / "register.jsonl").stat().st_size
        if -size % page < size / len(bags_of(archive)):
            break
    before = tree(archive)
    bag = max(bags_of(archive))
    pages = sum(-(-path.stat().st_size // page) for path in bag.rglob("*") if path.is_file())
    for room in range(max(pages - 3, 0), pages + 8):
        fill(disk, room * page)
        result = run(command(binary, [jobs[-1]], archive))
        (disk / "filler").unlink()
        if result.returncode == 0:
            break
        refused += "add to the register" in result.stderr
        problems += [f"{name!r} is not as before" for name in differing(tree(archive), before)]
    problems += ran_well(run(command(binary, [jobs[-1]], archive)))
    problems += archive_problems(archive) + unfinished(archive)
    problems += [] if refused else ["no room was found at which only the line has none"]
    tally.record("full disk", "the register", problems,
                 "a bag whose line has no room must be taken back, and the register be as it was")


def fill(disk, room):
    """Leaves room for this many bytes."""
    with open(disk / "filler", "wb", buffering=0) as filler:
        state = os.statvfs(disk)
        filler.write(bytes(max(state.f_bavail * state.f_frsize - room, 0)))


def limit(size):
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("binary", type=pathlib.Path)
    args = parser.parse_args()
    # What it says of each file is said here by the tally.
    logging.getLogger("bagit").setLevel(logging.CRITICAL)
    shutil.rmtree(args.work, ignore_errors=True)
    shop = args.work / "shop"
    shop.mkdir(parents=True)
    binary = args.binary.resolve()
    tally = Tally()
    archive = check_bags(tally, binary, shop, args.work)
    if tally.failed == 0:
        check_the_checks(tally, archive, args.work)
    check_at_once(tally, binary, shop, args.work)
    check_kills(tally, binary, shop, args.work)
    check_full(tally, binary, shop, args.work)
    return tally.close("sealed archives")


if __name__ == "__main__":
    sys.exit(main())
