# Judges the bags of the Library of Congress's conformance suite with `splitcase verify`.
#
# usage: archive_verify.py [--bags DIR] BINARY
# in:    the suite, by default `bagit-conformance` in the folder that SPLITCASE_DATA names: a folder
#        for each version, and in those `valid`, `invalid`, `warning`, `linux-only`
# out:   one check for each bag of version 1.0; bags of older versions are counted in one line, and
#        those judged otherwise are named (the suite has bags whose files not every disk can hold)
# exit:  0 every bag of version 1.0 is judged as the suite says, or there is no suite; 1 otherwise
import argparse
import os
import pathlib
import subprocess
import sys

from tally import Tally

DECISIVE = "v1.0"
# What the folders of the suite say of the bags in them, as exit codes of `verify`.
EXPECTED = {"valid": 0, "warning": 0, "invalid": 1, "linux-only": 1}
MOST_SECONDS = 60


def judged(binary, bag):
    """The exit code for a bag and what was printed; a bag that takes too long has none."""
    try:
        run = subprocess.run([binary, "verify", bag], capture_output=True, text=True,
                             encoding="utf-8", stdin=subprocess.DEVNULL, timeout=MOST_SECONDS)
    except subprocess.TimeoutExpired:
        return None, f"no answer within {MOST_SECONDS} s"
    return run.returncode, run.stdout + run.stderr


def bags(folder):
    """(version, kind, bag) of all bags of the suite in order."""
    for kind in sorted(folder.glob("v*/*")):
        if kind.name in EXPECTED:
            for bag in sorted(kind.iterdir()):
                if bag.is_dir():
                    yield kind.parent.name, kind.name, bag


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--bags", type=pathlib.Path,
                        default=pathlib.Path(os.environ.get("SPLITCASE_DATA") or ".",
                                             "bagit-conformance"))
    parser.add_argument("binary", type=pathlib.Path)
    args = parser.parse_args()
    if not args.bags.is_dir():
        print(f"left out: there is no folder {args.bags}")
        return 0
    tally = Tally()
    seen, older, alike = set(), 0, 0
    for version, kind, bag in bags(args.bags):
        code, told = judged(args.binary, bag)
        is_alike = code == EXPECTED[kind]
        name = f"{version}/{kind}/{bag.name}"
        if version == DECISIVE:
            seen.add(kind)
            problems = [] if is_alike else [f"exit code {code}, not {EXPECTED[kind]}: {told}"]
            tally.record("bag", name, problems, "the suite and `verify` disagree on this bag")
        else:
            older += 1
            alike += is_alike
            if not is_alike:
                print(f"otherwise than the suite: {name}: exit code {code}")
    if older:
        print(f"older versions: {alike} of {older} bags judged as the suite says")
    lacking = [f"no bag of {DECISIVE} in {kind}" for kind in ("valid", "invalid") if kind not in seen]
    tally.record("suite", args.bags, lacking, "the folder is not the conformance suite")
    return tally.close("bags of the conformance suite")


if __name__ == "__main__":
    sys.exit(main())
