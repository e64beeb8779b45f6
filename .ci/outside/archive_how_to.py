# Whether the pages `how-to-check.txt` work: their lines are run exactly as they are, by `sh`.
#
# usage: archive_how_to.py --job DIR --work DIR BINARY
# in:    a job folder of the samples; a key and an authority for time are made here, in --work
# needs: sh, sha256sum, sed, tr, cut, basename, ssh-keygen, openssl 3
# exit:  0 sound bags pass and broken ones do not, 1 otherwise
import hashlib
import os
import pathlib
import shutil
import subprocess
import sys

from archive_proof import Authority, Program, job_arguments, make_key, must, the_bag
from tally import Tally

PAGE = "how-to-check.txt"


def lines(folder):
    """The lines that the page sets in by four spaces."""
    text = (folder / PAGE).read_text()
    return [line[4:] for line in text.splitlines() if line.startswith("    ")]


def run(folder, script, **env):
    return subprocess.run(["sh", "-c", script], cwd=folder, capture_output=True, text=True,
                          env=os.environ | {"LC_ALL": "C"} | env)


def refusals(folder, **env):
    """What the lines of a page complain of; each line of a bag's page stands for itself."""
    commands = lines(folder)
    # The lines on the register go together, those of a bag one by one.
    together = [("\n".join(commands[:3])), *commands[3:]] if "while" in commands[1] else commands
    said = []
    for command in together:
        result = run(folder, command, **env)
        if result.returncode or "BROKEN" in result.stdout or "FAILED" in result.stdout:
            said.append(f"{command[:60]}: {(result.stdout + result.stderr).strip()[-200:]}")
    return said


def changed(archive, work, name, change):
    copy = work / name
    shutil.copytree(archive, copy)
    change(copy)
    return copy


def main():
    args = job_arguments()
    work, tally = args.work.resolve(), Tally()
    program = Program(args.binary, args.job, work)
    key = make_key(work, "ed25519")
    result, archive = program.seal("archive", key, query=True)
    tally.record("how to", "seal", [] if result.returncode == 0 else [result.stderr.decode()])
    bag = the_bag(archive)
    authority = Authority(work / "authority", "ec")
    reply = authority.reply((bag / "tagmanifest-sha256.txt.tsq").resolve())
    must(args.binary.resolve(), "seal", "--reply", reply, "--archive", archive)
    trust = {"AUTHORITY": str(authority.folder / "root.pem")}

    commands = lines(bag)
    for tool in ("sha256sum", "ssh-keygen", "openssl ts -verify", "register.jsonl"):
        problems = [] if any(tool in one for one in commands) else ["no line uses it"]
        tally.record("page of a bag", tool, problems)
    tally.record("page of a bag", "sound bag", refusals(bag, **trust))
    tally.record("page of an archive", "sound archive", refusals(archive))
    head = run(archive, "\n".join(lines(archive)[:3])).stdout.strip().removeprefix("head: ")
    theirs = must(args.binary.resolve(), "verify", "--archive", archive, "--head").decode()
    tally.record("page of an archive", "head", [] if head and head in theirs else [head, theirs])

    # A second bag names the line of the first.
    again = work / "job"
    shutil.copytree(args.job, again)
    for beside in args.job.resolve().parent.iterdir():
        if beside.is_file():
            shutil.copy(beside, work)
    (again / "later.txt").write_text("a later note\n")
    must(args.binary.resolve(), "seal", again, "--archive", archive)
    second = max(archive.rglob("register-head.txt")).parent
    printed = [run(second, command).stdout.split()[0] for command in lines(second)[-2:]]
    line = (archive / "register.jsonl").read_bytes().split(b"\n")
    at = int((second / "register-head.txt").read_text().split()[1])
    own = hashlib.sha256(line[at - 1]).hexdigest()
    tally.record("page of a bag", "register's head", [] if printed == [own, own] else [str(printed)])
    tally.record("page of an archive", "two bags", refusals(archive))

    def touch(path):
        def change(copy):
            place = copy / path
            data = bytearray(place.read_bytes())
            data[len(data) // 2] ^= 1
            place.write_bytes(bytes(data))
        return change

    inside = bag.relative_to(archive)
    for name, path, page in [
        ("photo", inside / "data/findings.yaml", inside),
        ("lists", inside / "manifest-sha256.txt", inside),
        ("seal", inside / "tagmanifest-sha256.txt", inside),
        ("seal-by-register", inside / "tagmanifest-sha256.txt", pathlib.Path(".")),
        ("stamp", inside.with_name(f"{inside.name}.tsr"), inside),
    ]:
        copy = changed(archive, work, f"broken-{name}", touch(path))
        said = refusals(copy / page, **trust)
        tally.record("broken", name, [] if said else ["no line complains"])

    def cut(copy):
        register = copy / "register.jsonl"
        register.write_text("".join(register.read_text().splitlines(keepends=True)[1:]))
    copy = changed(archive, work, "broken-register", cut)
    tally.record("broken", "register", [] if refusals(copy) else ["no line complains"])
    return tally.close("pages on how to check")


if __name__ == "__main__":
    sys.exit(main())
