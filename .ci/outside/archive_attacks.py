# Attacks on a sealed archive by somebody who can write to it, and what `verify` must say of each.
#
# usage: archive_attacks.py --job DIR --work DIR BINARY
# in:    a job folder of the samples; keys and an authority for time are made here, in --work
# needs: ssh-keygen, openssl 3, pdftotext, sh, sed, tr, sha256sum
# exit:  0 each attack is seen, or said to be beyond what can be seen from inside; 1 otherwise
#
# The forger here knows the form of bag and register and redoes every digest that depends on a change.
import hashlib
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import zlib

from archive_proof import Authority, held, job_arguments, make_key, must
from tally import Tally

SECONDS = 60


def sha256(data):
    return hashlib.sha256(data).hexdigest()


class Attacks:
    def __init__(self, binary, job, work):
        self.binary, self.job, self.work, self.tally = binary.resolve(), job.resolve(), work, Tally()
        self.sealed = work / "honest"
        must(self.binary, "seal", self.job, "--archive", self.sealed, "--for-owner",
             "--receipts", work / "receipts")
        self.name = next(path.name for path in self.sealed.iterdir()
                         if path.is_dir() and not path.name.endswith("-owner"))
        self.paper = work / "customer.pdf"
        shutil.copy(self.report(self.sealed), self.paper)
        self.head = json.loads(must(self.binary, "verify", self.sealed, "--head", "--format",
                                    "json"))["results"][0]["digest"]

    def bag(self, archive):
        return archive / self.name / f"{self.name}-v1"

    def report(self, archive):
        return self.bag(archive) / "data/papers/return-report.pdf"

    def copy(self, case):
        copy = self.work / case.replace(" ", "-")
        shutil.copytree(self.sealed, copy)
        return copy

    def verify(self, path, *options):
        return subprocess.run([self.binary, "verify", path, *options], capture_output=True,
                              text=True, errors="replace", stdin=subprocess.DEVNULL,
                              timeout=SECONDS)

    def says(self, case, path, code, *words, options=(), first=False):
        """The exit code of `verify` and words of its answer, in its first lines if `first`."""
        result = self.verify(path, *options)
        text = result.stdout + result.stderr
        looked = text.split("\n\n")[0] if first else text
        problems = [] if result.returncode == code else [
            f"exit code {result.returncode}, not {code}: {text[-600:]}"]
        problems += [f"it does not say {word!r}: {looked[:900]}" for word in words
                     if word not in looked]
        self.tally.record("attack", case, problems, "see what `verify` says of it")

    # What the forger does.

    def redo(self, archive, register=True):
        """Every list of the bag anew, then its line of the register and all after it."""
        bag = self.bag(archive)
        files = sorted(path for path in (bag / "data").rglob("*") if path.is_file())
        lines = [f"{sha256(path.read_bytes())}  {path.relative_to(bag).as_posix()}\n"
                 for path in files]
        lines.sort(key=lambda line: line.split("  ", 1)[1].encode())
        (bag / "manifest-sha256.txt").write_text("".join(lines))
        info = (bag / "bag-info.txt").read_text()
        size = sum(path.stat().st_size for path in files)
        info = re.sub(r"Payload-Oxum: .*", f"Payload-Oxum: {size}.{len(files)}", info)
        (bag / "bag-info.txt").write_text(info)
        tags = (bag / "tagmanifest-sha256.txt").read_text().split("\n")[:-1]
        tags = [f"{sha256((bag / line.split('  ')[1]).read_bytes())}  {line.split('  ')[1]}\n"
                for line in tags]
        (bag / "tagmanifest-sha256.txt").write_text("".join(tags))
        if register:
            digest = sha256("".join(tags).encode())
            self.rechain(archive, lambda entry: entry["bag"].endswith("-v1")
                         and not entry["job"].endswith("-owner") and entry.update(sha256=digest))

    def rechain(self, archive, change):
        """Lines of the register changed, numbered and chained anew."""
        previous, lines = "0" * 64, []
        for line in (archive / "register.jsonl").read_text().splitlines():
            entry = json.loads(line)
            change(entry)
            entry.update(line=len(lines) + 1, previous=previous)
            lines.append(json.dumps(entry, separators=(",", ":"), ensure_ascii=False))
            previous = sha256(lines[-1].encode())
        (archive / "register.jsonl").write_text("".join(f"{line}\n" for line in lines))

    def without_copy(self, archive):
        """The owner's copy gone, whose bag holds the head before it."""
        shutil.rmtree(archive / f"{self.name}-owner")
        lines = (archive / "register.jsonl").read_text().splitlines()
        (archive / "register.jsonl").write_text(lines[0] + "\n")

    def swap_photo(self, archive):
        photo = next(path for path in sorted((self.bag(archive) / "data/originals").iterdir())
                     if path.suffix == ".jpg")
        photo.write_bytes(photo.read_bytes() + b"\0")

    # The attacks.

    def on_photos(self):
        forged = self.copy("photo swapped")
        self.swap_photo(forged)
        self.redo(forged)
        self.says("photo swapped, all lists redone", forged, 1, "lists another")
        self.says("the honest paper against it", self.paper, 1, options=["--against", forged])
        for report in self.report(forged).parent.glob("*.pdf"):
            report.write_bytes(report.read_bytes().replace(b"/EmbeddedFiles", b"/EmbeddedFilez")
                               .replace(b"/AF", b"/AZ"))
        self.without_copy(forged)
        self.redo(forged)
        self.says("and the paper's attachment taken out", forged, 0, "agrees with itself",
                  "nothing outside this folder vouches for it", "nothing is known of what",
                  first=True)
        self.says("the same, with the head that was noted", forged, 1,
                  options=["--known-head", self.head])
        self.says("the same, with the paper that the customer has", self.paper, 1,
                  options=["--against", forged])

    def on_papers(self):
        forged = self.copy("picture swapped")
        report = self.report(forged)
        data = bytearray(report.read_bytes())
        # A few bytes of entropy-coded data in the middle of the longest JPEG of the pages.
        starts = [match.start() for match in re.finditer(rb"\xff\xd8\xff", bytes(data))]
        ends = [bytes(data).find(b"endstream", start) for start in starts]
        start, end = max(zip(starts, ends), key=lambda pair: pair[1] - pair[0])
        data[(start + end) // 2] ^= 0x10
        report.write_bytes(bytes(data))
        self.redo(forged)
        self.says("a page's picture changed, the bag of the owner's copy left", forged, 1,
                  "does not hold the digest of line 1")
        self.without_copy(forged)
        self.says("a page's picture changed and sealed anew", self.bag(forged), 1,
                  "making it again")
        self.says("the same in a whole archive", forged, 0, "could show something else",
                  first=True)

        issued = self.work / "issued"
        must(self.binary, "render", self.job, "--out", issued)
        paper = issued / self.name / "return-report.pdf"
        paper.write_bytes(bytes(data))
        result = subprocess.run([self.binary, "seal", self.job, "--papers", issued, "--archive",
                                 self.work / "papers"], capture_output=True, text=True)
        self.tally.record("attack", "a changed paper given to `seal --papers`",
                          [] if result.returncode == 1 and "changed after it was made" in
                          result.stderr + result.stdout else [result.stderr + result.stdout])

        forged = self.copy("sheet in the paper")
        report = self.report(forged)
        changed = self.with_other_sheet(report.read_bytes())
        problems = [] if changed else ["no attached sheet was found in the paper"]
        self.tally.record("attack", "a sheet to change", problems)
        if changed:
            report.write_bytes(changed)
            self.redo(forged)
            self.says("the sheet inside a paper changed", forged, 1, "it was changed")

    @staticmethod
    def with_other_sheet(pdf):
        """The PDF with a line of its attached sheet changed, packed into the same room."""
        for match in re.finditer(rb"stream\r?\n", pdf):
            end = pdf.find(b"endstream", match.end())
            packed = pdf[match.end():end]
            try:
                text = zlib.decompressobj().decompress(packed)
            except zlib.error:
                continue
            if b"\njob: " not in text[:400]:
                continue
            room = len(packed.rstrip(b"\r\n"))
            # A line of words, made all one letter: it stays a sheet and packs smaller.
            for line in re.finditer(rb"[A-Za-z ,.]{30,}", text):
                new = zlib.compress(text[:line.start()] + b"e" * len(line[0]) + text[line.end():], 9)
                if len(new) <= room:
                    return (pdf[:match.end()] + new + b"\0" * (room - len(new))
                            + pdf[match.end() + room:])
        return None

    def on_the_register(self):
        forged = self.copy("bag redone alone")
        self.swap_photo(forged)
        self.redo(forged, register=False)
        self.says("bag redone, register left, bag alone", self.bag(forged), 1, "its seal is not")
        for case, time in {"back-dated": "2001-01-01T08:00:00Z", "no time": "yesterday",
                           "in the future": "2040-01-01T08:00:00Z"}.items():
            forged = self.copy(f"time {case}")
            self.rechain(forged, lambda entry, time=time: entry.update(time=time))
            self.says(f"times of the register, {case}", forged, 1, "is dated")
        forged = self.copy("times decreasing")
        times = iter(["2026-11-02T08:00:00Z", "2026-11-01T08:00:00Z"])
        self.rechain(forged, lambda entry: entry.update(time=next(times)))
        self.says("times of the register, decreasing", forged, 1, "before the line before it")
        for digits, code in {8: 2, 31: 2, 32: 0}.items():
            self.says(f"a noted head cut to {digits} digits", self.sealed, code,
                      options=["--known-head", self.head[:digits]])
        forged = self.copy("clock at 2040")
        self.rechain(forged, lambda entry: entry.update(time="2040-01-01T08:00:00Z"))
        shutil.rmtree(self.bag(forged))
        self.says("a clock put forward, a bag deleted", forged, 1, "missing")
        forged = self.copy("last line cut")
        lines = (forged / "register.jsonl").read_text().splitlines()
        (forged / "register.jsonl").write_text("".join(f"{line}\n" for line in lines[:-1]))
        self.says("the last line cut", forged, 1, "no line of the register names this bag")
        self.says("the last line cut, the head noted", forged, 1,
                  options=["--known-head", self.head])
        forged = self.copy("endless register")
        with open(forged / "register.jsonl", "ab") as register:
            register.write(b"\n" * (50 << 20))
        self.says("a register of 50 MB of line ends", forged, 2, "longer than")
        forged = self.copy("pipe")
        (forged / "register.jsonl").unlink()
        os.mkfifo(forged / "register.jsonl")
        self.says("a pipe in the register's place", forged, 1, "not a plain file")
        result = subprocess.run([self.binary, "seal", self.job, "--archive", forged],
                                capture_output=True, timeout=SECONDS)
        self.tally.record("attack", "sealing into it", [] if result.returncode else ["it sealed"])

    def on_history(self):
        """What the workshop itself may do later: it is said, and it cannot be hidden from a head."""
        archive = self.copy("changed after return")
        job = self.work / "jobs" / self.job.name
        shutil.copytree(self.job.parent, job.parent)
        sheet = job / "findings.yaml"
        sheet.write_text(sheet.read_text() + "# changed later\n")
        result = subprocess.run([self.binary, "seal", job, "--archive", archive],
                                capture_output=True, text=True)
        said = result.stdout + result.stderr
        self.tally.record("attack", "a sheet changed after the return",
                          [] if "it replaces" in said and "findings.yaml" in said else [said])
        text = must("pdftotext", "-layout", self.paper, "-").decode()
        feet = re.findall(rf"{re.escape(self.name)} · ((?:[0-9a-f]{{4}} ?){{5,}})", text)
        self.tally.record("attack", "digits in the foot of a page: 80 bits at least",
                          [] if feet else ["no foot has 20 digits"])

    def on_earlier_visits(self):
        """What a report tells of an earlier visit rests on a file that no photo bears out."""
        jobs = self.work / "visits"
        first, second = jobs / "first", jobs / "second"
        jobs.mkdir()
        shutil.copy(self.job.parent / "workshop.yaml", jobs)
        unit = "unit: {kind: mid-drive, model: Kestmar C2, serial: KC2-0012345}\n"
        for folder, job, day, back in [(first, "VISIT-1", "2025-04-28", "2025-05-02"),
                                       (second, "VISIT-2", "2026-03-02", "2026-03-11")]:
            folder.mkdir()
            (folder / "findings.yaml").write_text(
                f"job: {job}\ncustomer: {{name: Nadia Ferrow}}\n{unit}arrival: {{date: {day}}}\n"
                f"outcome: no-fault-found\nreturned: {back}\n")
        archive = jobs / "archive"
        must(self.binary, "seal", second, "--archive", archive)
        bag = archive / "VISIT-2/VISIT-2-v1"
        self.says("a report that tells of an earlier visit", bag, 0, "lists these `earlier-visits")
        visits = bag / "data/earlier-visits.json"
        visits.write_text(visits.read_text().replace("2025-05-02", "2025-11-02"))
        name, self.name = self.name, "VISIT-2"
        self.redo(archive)
        self.name = name
        self.says("earlier visits swapped, all lists redone", archive, 1, "earlier-visits.json",
                  "than the one there")

    def on_heads(self):
        """One signature and one stamp of the head, judged by OpenSSH and OpenSSL as well."""
        archive, key = self.copy("noted head"), make_key(self.work, "ed25519")
        must(self.binary, "head", archive, "--key", key, "--stamp-query")
        lines = len((archive / "register.jsonl").read_text().splitlines())
        head = archive / f"register.head-{lines}.txt"
        allowed = self.work / "allowed"
        allowed.write_text(f"seal@workshop.example {key.with_suffix('.pub').read_text()}")
        checked = subprocess.run(
            ["ssh-keygen", "-Y", "verify", "-f", allowed, "-I", "seal@workshop.example", "-n",
             "splitcase", "-s", f"{head}.sig"], input=head.read_bytes(), capture_output=True)
        self.tally.record("ssh-keygen", "the signed head", held(checked, "ssh-keygen"))
        authority = Authority(self.work / "authority", "ec")
        reply = authority.reply(pathlib.Path(f"{head}.tsq").resolve())
        root = authority.folder / "root.pem"
        checked = subprocess.run(["openssl", "ts", "-verify", "-data", head, "-in", reply,
                                  "-CAfile", root], capture_output=True)
        self.tally.record("openssl ts", "the stamped head", held(checked, "openssl ts"))
        must(self.binary, "seal", "--reply", reply, "--archive", archive)
        for options in (["--signer", allowed], ["--authority", root]):
            self.says(f"a head with {options[0]}", archive, 0, "vouched for", "up to line",
                      options=options, first=True)
        expired = self.work / "expired"
        expired.write_text(allowed.read_text().replace(" ", ' valid-before="20200101" ', 1))
        self.says("a signer whose time is over", archive, 1, options=["--signer", expired])
        self.rechain(archive, lambda entry: entry.update(time="2026-10-01T08:00:00Z"))
        self.says("the register redone after its head was signed", archive, 1,
                  "does not hold the digest", options=["--signer", allowed])

    def on_receipts(self):
        """The page that the customer keeps: its own lines, run by `sh`, give its digests."""
        page = next((self.work / "receipts").rglob("receipt-*.txt"))
        text = page.read_text()
        commands = [line[4:] for line in text.splitlines() if re.match("    s[a-z]", line)]
        flat = text.replace(" ", "")
        for command in commands[1:]:
            out = subprocess.run(["sh", "-c", command], cwd=self.sealed, capture_output=True,
                                 text=True).stdout
            self.tally.record("receipt", command, [] if out[:64] in flat and len(out) > 64
                              else [f"{out!r} is not on the page"])
        noted = commands[0].split()[-1]
        self.says("the head of the receipt", self.sealed, 0, "vouched for",
                  options=["--known-head", noted], first=True)

    def on_redaction(self):
        archive = self.copy("redacted")
        photo = next(path.name for path in sorted((self.bag(archive) / "data/originals").iterdir())
                     if path.suffix == ".jpg")
        kept = (self.bag(archive) / "data/originals" / photo).read_bytes()
        must(self.binary, "redact", self.name, photo, "--archive", archive, "--because",
             "a number plate is in it")
        self.says("a photo taken out for a reason", archive, 0, "was taken out", first=True)
        self.says("the same, with the head from before", archive, 0,
                  options=["--known-head", self.head])
        (self.bag(archive) / "data/originals" / photo).write_bytes(kept)
        self.says("a photo that came back", archive, 1, "it is there")


def main():
    args = job_arguments()
    attacks = Attacks(args.binary, args.job, args.work.resolve())
    attacks.on_photos()
    attacks.on_papers()
    attacks.on_the_register()
    attacks.on_history()
    attacks.on_earlier_visits()
    attacks.on_heads()
    attacks.on_receipts()
    attacks.on_redaction()
    return attacks.tally.close("attacks on sealed archives")


if __name__ == "__main__":
    sys.exit(main())
