# What other tools have against sealed archives: bags, tars, the register.
#
# in:  folders of bags and archives, tars beside them; `bagit`, GNU tar and Python's tarfile judge
# out: lists of problems in words, empty where all is well
import collections
import hashlib
import json
import re
import shutil
import subprocess
import tarfile

import bagit

LISTS = ("manifest-sha256.txt", "tagmanifest-sha256.txt")


def run(arguments, **more):
    return subprocess.run(arguments, capture_output=True, text=True, errors="replace",
                          stdin=subprocess.DEVNULL, timeout=600, **more)


def ran_well(result):
    said = (result.stderr or result.stdout).strip()[:300]
    return [] if result.returncode == 0 else [f"exit code {result.returncode}: {said}"]


def sha256(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def tree(folder, skip=()):
    """Path -> digest of every file below a folder; folders count too."""
    return {
        path.relative_to(folder).as_posix(): sha256(path) if path.is_file() else "folder"
        for path in folder.rglob("*") if path.name not in skip
    } if folder.exists() else {}


def differing(one, other):
    return sorted(path for path in one.keys() | other.keys() if one.get(path) != other.get(path))


def listed(bag, name):
    """Path -> digest of a manifest, read by RFC 8493: `%25`, `%0D` and `%0A` are codes."""
    codes = {"%25": "%", "%0D": "\r", "%0A": "\n"}
    lines = (bag / name).read_bytes().decode().split("\n")[:-1]
    pairs = [re.fullmatch(r"([0-9a-f]{64})  (.+)", line).groups() for line in lines]
    decoded = [(re.sub("%25|%0D|%0A", lambda code: codes[code[0]], path), digest)
               for digest, path in pairs]
    if decoded != sorted(decoded, key=lambda pair: pair[0].encode()):
        raise ValueError(f"{name} is not in order")
    return dict(decoded)


def bag_problems(bag):
    """What `bagit` and a reading by the letter of RFC 8493 have against a bag."""
    problems = []
    try:
        payload, tags = (listed(bag, name) for name in LISTS)
        there = {path for path, digest in tree(bag).items() if digest != "folder"}
        if {path for path in there if path.startswith("data/")} != payload.keys():
            problems.append("its manifest names other files than it holds")
        if tags.keys() != {"bagit.txt", "bag-info.txt", "manifest-sha256.txt",
                           "how-to-check.txt", "register-head.txt"}:
            problems.append("its list of tag files names others")
        problems += [f"{path!r} is not as listed" for path, digest in (payload | tags).items()
                     if path not in there or sha256(bag / path) != digest]
    except (OSError, ValueError, AttributeError) as cause:
        return [f"cannot be read: {cause}"]
    # That reader does not know the code of `%`: it looks for files named `%25`.
    if not any("%" in path for path in payload):
        try:
            bagit.Bag(str(bag)).validate()
        except bagit.BagError as cause:
            problems.append(f"bagit: {str(cause)[:200]}")
    return problems


def archive_problems(archive):
    """What is wrong with the register, its bags and whatever else stands in a bag's place."""
    problems, previous, named = [], "0" * 64, collections.Counter()
    text = b""
    if (archive / "register.jsonl").exists():
        text = (archive / "register.jsonl").read_bytes()
    # A line without its end is not registered yet: the next seal must mend it.
    for number, line in enumerate(text.split(b"\n")[:-1], 1):
        try:
            entry = json.loads(line)
            if (entry["line"], entry["previous"]) != (number, previous):
                problems.append(f"line {number} of the register does not follow")
            named[entry["bag"]] += 1
            if sha256(archive / entry["bag"] / LISTS[1]) != entry["sha256"]:
                problems.append(f"{entry['bag']} has another digest than its line says")
        except (OSError, ValueError, KeyError) as cause:
            problems.append(f"line {number} of the register: {cause!r}")
        previous = hashlib.sha256(line).hexdigest()
    problems += [f"{bag} is named {times} times" for bag, times in named.items() if times > 1]
    for bag in sorted({archive / bag for bag in named} | bags_of(archive)):
        problems += [f"{bag.name}: {problem}" for problem in bag_problems(bag)]
        if bag.with_name(f"{bag.name}.tar").exists():
            problems += tar_problems(bag, bag.with_name(f"{bag.name}.tar"))
    return problems


def unfinished(archive):
    """What a seal that ended must not leave: places of making, bags without a line, torn ends."""
    text = (archive / "register.jsonl").read_text(encoding="utf-8")
    named = {json.loads(line)["bag"] for line in text.splitlines()}
    return [f"{path.name} was left" for path in archive.glob("*/.making-*")] + [
        f"{bag.name} has no line" for bag in bags_of(archive)
        if bag.relative_to(archive).as_posix() not in named
    ] + (["the register's last line has no end"] if text and not text.endswith("\n") else [])


def bags_of(archive):
    return {path for path in archive.glob("*/*-v*") if path.is_dir()}


def tar_problems(bag, path):
    """Whether GNU tar and Python's tarfile unpack exactly the bag, under one folder of its name."""
    problems = []
    tops = run(["tar", "-tf", path])
    problems += ran_well(tops)
    if any(not line.startswith(f"{bag.name}/") for line in tops.stdout.splitlines()):
        problems.append(f"{path.name}: something lies beside its one folder")
    wanted = tree(bag)
    for tool in ("gnu", "python"):
        out = path.parent / f".unpacked-{tool}"
        shutil.rmtree(out, ignore_errors=True)
        out.mkdir()
        try:
            if tool == "gnu":
                unpacked = run(["tar", "-xf", path, "-C", out])
                problems += ran_well(unpacked)
                problems += [f"tar says: {unpacked.stderr[:200]}"] if unpacked.stderr else []
            else:
                with tarfile.open(path) as archive:
                    problems += [
                        f"{member.name}: says something of this machine" for member in archive
                        if (member.uid, member.gid, member.uname, member.gname) != (0, 0, "", "")
                        or member.mode != (0o755 if member.isdir() else 0o644)
                    ]
                    archive.extractall(out, filter="data")
            problems += [f"{path.name}: {tool}: {name!r} differs"
                         for name in differing(tree(out / bag.name), wanted)]
        except (OSError, tarfile.TarError) as cause:
            problems.append(f"{path.name}: {tool}: {cause}")
        shutil.rmtree(out)
    return problems
