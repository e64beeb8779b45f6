# Whether the proofs of a sealed bag hold by other people's tools: OpenSSH and OpenSSL.
#
# usage: archive_proof.py --job DIR --work DIR BINARY
# in:    a job folder of the samples; keys and an authority for time are made here, in --work
# needs: ssh-keygen (Debian: openssh-client), openssl 3
# exit:  0 all checks hold, 1 some do not
#
# Signatures of the program must hold for `ssh-keygen`, replies of `openssl ts` for the program, and
# each must be refused after a change. What `openssl ts` refuses to sign is made by `openssl cms`.
import argparse
import hashlib
import os
import pathlib
import shutil
import subprocess
import sys

from tally import Tally

KEYS = {
    "ed25519": ["-t", "ed25519"],
    "ecdsa-256": ["-t", "ecdsa", "-b", "256"],
    "ecdsa-384": ["-t", "ecdsa", "-b", "384"],
    "rsa": ["-t", "rsa", "-b", "3072"],
}
# ssh-key 0.6 cannot read the one ECDSA key in 256 whose secret number is a byte shorter.
ECDSA_TRIES = 8
PASSPHRASE = "twelve ball bearings"
LIST = "tagmanifest-sha256.txt"
TIME = "1.2.840.113549.1.9.16.1.4"

CONFIG = """
[req]
distinguished_name = name
prompt = no
[name]
CN = set on the command line
[root]
basicConstraints = critical, CA:TRUE
keyUsage = critical, keyCertSign, cRLSign
subjectKeyIdentifier = hash
[stamping]
keyUsage = critical, digitalSignature
extendedKeyUsage = critical, timeStamping
subjectKeyIdentifier = hash
authorityKeyIdentifier = keyid
[not-critical]
extendedKeyUsage = timeStamping
[two-purposes]
extendedKeyUsage = critical, timeStamping, codeSigning
[website]
extendedKeyUsage = critical, serverAuth
[tsa]
default_tsa = office
[office]
serial = serial
signer_digest = sha256
default_policy = 1.2.3.4.1
digests = sha256
accuracy = secs:1
tsa_name = yes
ess_cert_id_alg = sha256
[ca]
default_ca = register
[register]
database = index
new_certs_dir = .
rand_serial = yes
unique_subject = no
default_md = sha256
policy = any
[any]
O = optional
CN = supplied
"""


def run(*command, cwd=None, stdin=None, env=None):
    return subprocess.run(
        [str(part) for part in command], cwd=cwd, input=stdin, capture_output=True,
        env=env and os.environ | env)


def must(*command, **more):
    result = run(*command, **more)
    if result.returncode:
        said = (result.stderr or result.stdout).decode(errors="replace").strip()
        raise SystemExit(f"{' '.join(map(str, command[:4]))} … ends with {result.returncode}: {said}")
    return result.stdout


def held(result, what):
    said = (result.stderr + result.stdout).decode(errors="replace").strip()[-500:]
    return [f"{what} ends with {result.returncode}: {said}"] if result.returncode else []


def refused(result, what, code=None):
    """The tool must say no, not merely fail to start or crash."""
    if result.returncode == 0 or result.returncode < 0:
        return [f"{what} ends with {result.returncode}"]
    if code is not None and result.returncode != code:
        said = result.stderr.decode(errors="replace").strip()[-300:]
        return [f"{what} ends with {result.returncode}, not {code}: {said}"]
    return []


def altered(data, place):
    """The bytes with one bit of one of them changed."""
    changed = bytearray(data)
    changed[place] ^= 1
    return bytes(changed)


def job_arguments():
    """JOB, WORK and BINARY of a check on one job; the folder to work in is made anew."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--job", type=pathlib.Path, required=True)
    parser.add_argument("--work", type=pathlib.Path, required=True)
    parser.add_argument("binary", type=pathlib.Path)
    args = parser.parse_args()
    shutil.rmtree(args.work, ignore_errors=True)
    args.work.mkdir(parents=True)
    return args


class Program:
    """The program under test, as a person calls it."""

    def __init__(self, binary, job, work):
        self.binary, self.job, self.work = binary.resolve(), job.resolve(), work

    def seal(self, name, key=None, query=False, env=None):
        """Seals the job into a new archive; gives the result and the archive."""
        archive = self.work / name
        options = ["--key", key] if key else []
        options += ["--stamp-query"] if query else []
        return run(self.binary, "seal", self.job, "--archive", archive, *options, env=env), archive

    def reply(self, archive, reply):
        return run(self.binary, "seal", "--reply", reply, "--archive", archive)

    def verify(self, archive, **options):
        named = [part for name, value in options.items() for part in (f"--{name}", value)]
        return run(self.binary, "verify", archive, *named)


def the_bag(archive):
    lists = sorted(archive.rglob(LIST))
    if len(lists) != 1:
        raise SystemExit(f"{archive}: {len(lists)} bags, one is expected")
    return lists[0].parent


def make_key(folder, name, passphrase=""):
    key = folder / name
    must("ssh-keygen", "-q", *KEYS[name.removesuffix("-locked")], "-N", passphrase,
         "-C", "seal@workshop.example", "-f", key)
    return key


def judged_by_ssh(signature, message, allowed, who="seal@workshop.example"):
    """What `ssh-keygen` says of a signature, with and without a list of signers."""
    return (
        run("ssh-keygen", "-Y", "verify", "-f", allowed, "-I", who, "-n", "splitcase",
            "-s", signature, stdin=message),
        run("ssh-keygen", "-Y", "check-novalidate", "-n", "splitcase", "-s", signature,
            stdin=message),
    )


def check_signatures(tally, program, work):
    keys = {name: make_key(work, name) for name in KEYS}
    for name, key in keys.items():
        for _ in range(ECDSA_TRIES):
            result, archive = program.seal(f"signed-{name}", key)
            unreadable = "ECDSA keys that cannot be read" in result.stderr.decode()
            if result.returncode == 0 or not unreadable:
                break
            for half in (key, key.with_suffix(".pub")):
                half.unlink()
            make_key(work, name)
        tally.record("signature", f"seal with {name}", held(result, "seal"))
        if result.returncode == 0:
            other = keys["rsa" if name == "ed25519" else "ed25519"]
            check_signature(tally, program, work, name, key, other, archive)
    key = make_key(work, "ed25519-locked", PASSPHRASE)
    result, _ = program.seal("without-passphrase", key)
    problems = [] if result.returncode else ["a locked key signs without its passphrase"]
    if "SPLITCASE_KEY_PASSPHRASE" not in result.stderr.decode():
        problems.append("the failure does not say how to give the passphrase")
    tally.record("signature", "locked key without passphrase", problems)
    result, archive = program.seal("passphrase", key, env={"SPLITCASE_KEY_PASSPHRASE": PASSPHRASE})
    tally.record("signature", "locked key with passphrase", held(result, "seal"))
    result = program.verify(archive, signer=key.with_suffix(".pub"))
    tally.record("signature", "locked key, verify", held(result, "verify"))


def check_signature(tally, program, work, name, key, other, archive):
    bag = the_bag(archive)
    message, signature = (bag / LIST).read_bytes(), bag / f"{LIST}.sig"
    public = key.with_name(f"{name}.pub").read_text()
    allowed = work / f"{name}.allowed"
    allowed.write_text(f'seal@workshop.example namespaces="splitcase" {public}')
    foreign = work / f"{name}.foreign"
    foreign.write_text(f"seal@workshop.example {other.with_suffix('.pub').read_text()}")

    judges = ("verify", "check-novalidate")
    for judge, result in zip(judges, judged_by_ssh(signature, message, allowed)):
        tally.record("ssh-keygen", f"{judge} of {name}", held(result, judge))
    for result in judged_by_ssh(signature, altered(message, 0), allowed):
        tally.record("ssh-keygen", f"{name}, altered list", refused(result, "ssh-keygen"))
    result = judged_by_ssh(signature, message, foreign)[0]
    tally.record("ssh-keygen", f"{name}, another key", refused(result, "ssh-keygen"))

    for signers in (key.with_name(f"{name}.pub"), allowed):
        result = program.verify(archive, signer=signers)
        tally.record("signature", f"verify {name} by {signers.name}", held(result, "verify"))
    tally.record("signature", f"verify {name}, another key",
                 refused(program.verify(archive, signer=foreign), "verify", 1))
    good = signature.read_bytes()
    middle = good.index(b"\n", len(good) // 2) - 8
    bad = work / f"{name}.bad"
    bad.write_bytes(altered(good, middle))
    for result in judged_by_ssh(bad, message, allowed):
        tally.record("ssh-keygen", f"{name}, altered signature", refused(result, "ssh-keygen"))
    signature.write_bytes(bad.read_bytes())
    tally.record("signature", f"verify {name}, altered signature",
                 refused(program.verify(archive, signer=allowed), "verify", 1))
    # A signature that the owner made with OpenSSH instead holds as well.
    made = must("ssh-keygen", "-q", "-Y", "sign", "-n", "splitcase", "-f", key, stdin=message)
    signature.write_bytes(made)
    tally.record("signature", f"verify {name}, signed by ssh-keygen",
                 held(program.verify(archive, signer=allowed), "verify"))


class Authority:
    """An authority for time of one kind of key, made for this run."""

    def __init__(self, folder, kind):
        self.folder, self.kind = folder, kind
        folder.mkdir(parents=True)
        (folder / "config").write_text(CONFIG)
        (folder / "serial").write_text("1F\n")
        (folder / "index").write_text("")
        self.openssl("req", "-x509", *self.new_key("root"), "-days", "30", "-extensions", "root",
                     "-out", "root.pem", "-subj", f"/O=Halvard Time Office/CN=Root {kind}")
        self.certify("stamp", "stamping")

    def new_key(self, name):
        kind = ["rsa:2048"] if self.kind == "rsa" else ["ec", "-pkeyopt", "ec_paramgen_curve:P-256"]
        return ["-config", "config", "-newkey", *kind, "-nodes", "-keyout", f"{name}.key"]

    def openssl(self, *command):
        return must("openssl", *command, cwd=self.folder)

    def certify(self, name, purpose, *more):
        """A certificate for a new key; `more` may set its time."""
        self.openssl("req", "-new", *self.new_key(name), "-out", f"{name}.csr",
                     "-subj", f"/O=Halvard Time Office/CN=Stamp {name} {self.kind}")
        self.openssl("ca", "-batch", "-notext", "-config", "config", "-cert", "root.pem",
                     "-keyfile", "root.key", "-in", f"{name}.csr", "-out", f"{name}.pem",
                     "-extfile", "config", "-extensions", purpose, *(more or ("-days", "20")))

    def reply(self, query, name="stamp"):
        """The reply to a query file."""
        self.openssl("ts", "-reply", "-config", "config", "-queryfile", query, "-signer",
                     f"{name}.pem", "-inkey", f"{name}.key", "-out", f"{name}.tsr")
        return self.folder / f"{name}.tsr"

    def forced_reply(self, query, name):
        """A reply with a certificate that `openssl ts` would not use."""
        self.openssl("ts", "-reply", "-in", self.reply(query), "-token_out", "-out", "token")
        self.openssl("cms", "-verify", "-noverify", "-binary", "-inform", "DER", "-in", "token",
                     "-out", "time")
        self.openssl("cms", "-sign", "-binary", "-nodetach", "-econtent_type", TIME, "-cades",
                     "-nosmimecap", "-md", "sha256", "-outform", "DER", "-in", "time", "-signer",
                     f"{name}.pem", "-inkey", f"{name}.key", "-out", "token")
        path = self.folder / f"{name}.tsr"
        path.write_bytes(der(0x30, der(0x30, b"\2\1\0") + (self.folder / "token").read_bytes()))
        return path


def der(tag, content):
    size = len(content)
    length = size.to_bytes((size.bit_length() + 7) // 8 or 1, "big")
    return bytes([tag]) + (length if size < 128 else bytes([0x80 + len(length)]) + length) + content


def check_stamps(tally, program, work):
    result, sealed = program.seal("queried", query=True)
    tally.record("stamp", "seal with a query", held(result, "seal"))
    if result.returncode:
        return
    query = (the_bag(sealed) / f"{LIST}.tsq").resolve()
    message = the_bag(sealed) / LIST
    digest = hashlib.sha256(message.read_bytes()).hexdigest()
    theirs = must("openssl", "ts", "-query", "-sha256", "-no_nonce", "-cert", "-digest", digest)
    tally.record("stamp", "query against that of openssl",
                 [] if query.read_bytes() == theirs else ["the bytes differ"])
    strangers = Authority(work / "authority-strangers", "ec").folder / "root.pem"
    for kind in ("rsa", "ec"):
        authority = Authority(work / f"authority-{kind}", kind)
        check_stamp(tally, program, sealed, authority, query, message, strangers)


def check_stamp(tally, program, sealed, authority, query, message, strangers):
    kind, root = authority.kind, authority.folder / "root.pem"
    name = f"{kind} authority"

    def archive_with(case, reply):
        """A copy of the archive that has the reply; the program may refuse to take it."""
        copy = authority.folder / f"archive-{case}"
        shutil.copytree(sealed, copy)
        return program.reply(copy, reply), copy

    def must_be_refused(case, reply, trusted=root, code=1):
        """A reply that is refused on the way in must not be in the archive."""
        taken, copy = archive_with(case.replace(" ", "-"), reply)
        if taken.returncode:
            problems = refused(taken, "seal --reply")
            if list(copy.rglob("*.tsr")):
                problems.append("it is refused and stored all the same")
            # Put where it would lie, as somebody else could do.
            bag = the_bag(copy)
            shutil.copy(reply, bag.with_name(f"{bag.name}.tsr"))
            problems += refused(program.verify(copy, authority=trusted), "verify", code)
        else:
            problems = refused(program.verify(copy, authority=trusted), "verify", code)
        tally.record("stamp", f"{name}, {case}", problems)

    reply = authority.reply(query)
    for against in (["-queryfile", query], ["-data", message]):
        result = run("openssl", "ts", "-verify", *against, "-in", reply, "-CAfile", root)
        tally.record("openssl ts", f"{name}, {against[0]}", held(result, "openssl ts -verify"))
    taken, archive = archive_with("good", reply)
    tally.record("stamp", f"{name}, reply stored", held(taken, "seal --reply"))
    for case, trusted in {"root": root, "signer": authority.folder / "stamp.pem"}.items():
        result = program.verify(archive, authority=trusted)
        tally.record("stamp", f"{name}, verify by its {case}", held(result, "verify"))
    tally.record("stamp", f"{name}, verify without it", held(program.verify(archive), "verify"))
    tally.record("stamp", f"{name}, another authority",
                 refused(program.verify(archive, authority=strangers), "verify", 1))

    other = authority.folder / "other.tsq"
    authority.openssl("ts", "-query", "-sha256", "-no_nonce", "-cert", "-digest", "ab" * 32,
                      "-out", other)
    authority.certify("another-seal", "stamping")
    must_be_refused("another digest", authority.reply(other, "another-seal"))
    good = reply.read_bytes()
    changed = authority.folder / "changed.tsr"
    for place in (8, len(good) // 4, len(good) // 2, len(good) - 20):
        changed.write_bytes(altered(good, place))
        # Byte 8 is the status, which no signature covers: "granted with changes" cannot be judged.
        must_be_refused(f"byte {place} altered", changed, code=2 if place == 8 else 1)
    changed.write_bytes(good[:-1])
    must_be_refused("cut short", changed)
    authority.certify("expired", "stamping", "-startdate", "20200101000000Z",
                      "-enddate", "20210101000000Z")
    must_be_refused("certificate expired", authority.reply(query, "expired"))
    for purpose in ("not-critical", "two-purposes", "website"):
        authority.certify(purpose, purpose)
        must_be_refused(f"certificate {purpose}", authority.forced_reply(query, purpose))
    authority.certify("forced", "stamping")
    taken, copy = archive_with("forced", authority.forced_reply(query, "forced"))
    tally.record("stamp", f"{name}, the same way with a fit certificate",
                 held(taken, "seal --reply") + held(program.verify(copy, authority=root), "verify"))


def main():
    args = job_arguments()
    work, tally = args.work.resolve(), Tally()
    program = Program(args.binary, args.job, work)
    check_signatures(tally, program, work)
    check_stamps(tally, program, work)
    return tally.close("proofs of sealed bags")


if __name__ == "__main__":
    sys.exit(main())
