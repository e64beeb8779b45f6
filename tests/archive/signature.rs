//! Signatures: ours against `ssh-keygen`'s, judged good, altered, by others, and keys that cannot sign.
//!
//! The keys in `keys` were made once by OpenSSH 9.2 for these tests and sign nothing else:
//! `ssh-keygen -t … -C seal@workshop.example`; `locked` is `ed25519` after `ssh-keygen -p -a 4`.
//! `ed25519` is the secret key of RFC 8032, 7.1, TEST 1 in a key file. The signatures over `message`
//! are by `ssh-keygen -Y sign -n splitcase`; `other-purpose.sig` has `-n file`, `sha256.sig` has
//! `-O hashalg=sha256`.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::trust::ssh::judgement::{Standing, Verdict};
use splitcase::archive::trust::ssh::{check, open_to_others, sign};
use splitcase::failure::Failure;

const MESSAGE: &[u8] = include_bytes!("keys/message");
const KINDS: [&str; 4] = ["ed25519", "p256", "p384", "rsa"];
const PASSPHRASE: &str = "twelve ball bearings";

fn keys() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/archive/keys")
}

fn key(name: &str) -> PathBuf {
    keys().join(name)
}

fn bytes(name: &str) -> Vec<u8> {
    fs::read(key(name)).unwrap()
}

fn public(kind: &str) -> String {
    fs::read_to_string(key(&format!("{kind}.pub"))).unwrap()
}

/// The failure of signing with a file of this content.
fn refused(content: &[u8]) -> Failure {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("key");
    fs::write(&path, content).unwrap();
    sign(&path, None, MESSAGE).unwrap_err()
}

fn says(failure: &Failure, cause: &str, hint: &str) {
    let (own, advice) = (failure.to_string(), failure.hint.as_deref().unwrap_or_default());
    assert!(own.starts_with("could not ") && own.contains(cause), "{own}");
    assert!(advice.contains(hint), "{advice}");
}

#[test]
fn the_secret_key_of_rfc_8032_signs_as_ssh_keygen_does() {
    // RFC 8032, 7.1, TEST 1: seed and public key, as they must stand in the file.
    let seed = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
    let public = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";
    let file = ssh_key::PrivateKey::from_openssh(bytes("ed25519")).unwrap();
    let pair = file.key_data().ed25519().unwrap();
    let hex = |bytes: &[u8]| bytes.iter().map(|byte| format!("{byte:02x}")).collect::<String>();
    assert_eq!(hex(&pair.private.to_bytes()), seed);
    assert_eq!(hex(&pair.public.0), public);

    let ours = sign(&key("ed25519"), None, MESSAGE).unwrap();
    assert_eq!(ours, bytes("ed25519.sig"));
}

#[test]
fn rsa_signs_as_ssh_keygen_does() {
    assert_eq!(sign(&key("rsa"), None, MESSAGE).unwrap(), bytes("rsa.sig"));
}

#[test]
fn every_kind_signs_twice_the_same_and_is_good() {
    for kind in KINDS {
        let first = sign(&key(kind), None, MESSAGE).unwrap();
        assert_eq!(first, sign(&key(kind), None, MESSAGE).unwrap(), "{kind}");
        let judgement = check(MESSAGE, &first, Some(&public(kind)));
        assert!(judgement.is_good(), "{kind}: {:?}", judgement.flaws());
        assert!(matches!(judgement.standing, Standing::Allowed { .. }), "{kind}");
    }
}

#[test]
fn signatures_of_ssh_keygen_are_good() {
    for name in KINDS.into_iter().chain(["sha256"]) {
        let judgement = check(MESSAGE, &bytes(&format!("{name}.sig")), None);
        assert!(judgement.is_good(), "{name}: {:?}", judgement.flaws());
    }
    // The fingerprint is the one that `ssh-keygen -l -f ed25519.pub` shows.
    let judgement = check(MESSAGE, &bytes("ed25519.sig"), None);
    let said = "the seal was signed by the key \
                SHA256:bbXpuKG6zhzdmnxq256TlqzFBzRl2f6OOg722cYNbU8 (ssh-ed25519)";
    assert_eq!(judgement.shown(), [said]);
    assert!(judgement.not_shown()[0].contains("must be known from elsewhere"));
}

#[test]
fn no_byte_of_a_signature_can_be_changed_unseen() {
    for kind in KINDS {
        let good = sign(&key(kind), None, MESSAGE).unwrap();
        for place in 0..good.len() {
            for flip in [0x01, 0x20, 0x80] {
                let mut altered = good.clone();
                altered[place] ^= flip;
                let judgement = check(MESSAGE, &altered, None);
                assert!(!judgement.is_good(), "{kind}, byte {place}, {flip:#x}");
            }
        }
        for length in 0..good.len() {
            assert!(!check(MESSAGE, &good[..length], None).is_good(), "{kind}, cut at {length}");
        }
        assert!(!check(MESSAGE, &[&good[..], b"\n"].concat(), None).is_good(), "{kind}");
    }
}

#[test]
fn another_message_is_refused() {
    for kind in KINDS {
        let judgement = check(b"another list\n", &bytes(&format!("{kind}.sig")), None);
        assert_eq!(judgement.verdict, Verdict::Bad, "{kind}");
        assert!(judgement.shown().is_empty() && judgement.not_shown().is_empty());
    }
}

#[test]
fn a_signature_for_another_purpose_is_refused() {
    let judgement = check(MESSAGE, &bytes("other-purpose.sig"), Some(&public("ed25519")));
    assert_eq!(judgement.verdict, Verdict::OtherNamespace("file".to_owned()));
    assert!(!judgement.is_good() && judgement.shown().is_empty());
}

#[test]
fn a_kind_of_key_that_is_not_checked_is_told() {
    let judgement = check(MESSAGE, &bytes("p521.sig"), None);
    assert_eq!(judgement.verdict, Verdict::Unsupported("ecdsa-sha2-nistp521".to_owned()));
    assert!(!judgement.is_good());
}

#[test]
fn no_signature_at_all_is_told() {
    for file in [&b""[..], b"good", &[0xff; 40], &vec![b'A'; 100_000]] {
        let judgement = check(MESSAGE, file, Some(&public("rsa")));
        assert!(matches!(judgement.verdict, Verdict::Malformed(_)));
        assert!(!judgement.is_good() && judgement.shown().is_empty());
    }
}

#[test]
fn only_an_accepted_key_is_good() {
    let signature = bytes("ed25519.sig");
    let own = public("ed25519");
    let bare = own.trim_end();
    let allowed = |list: &str| check(MESSAGE, &signature, Some(list));
    let name = |list: &str| match allowed(list).standing {
        Standing::Allowed { name, .. } => name.unwrap(),
        other => panic!("{list}: {other:?}"),
    };
    assert_eq!(name(&own), "seal@workshop.example");
    assert_eq!(name(&format!("# ours\r\n\r\nworkshop {bare}\r\n")), "workshop");
    assert_eq!(
        name(&format!("{}w,\"a b\" namespaces=\"file,split*\" {bare}", public("rsa"))),
        "w,\"a b"
    );
    let dated = format!("w namespaces=\"splitcase\",valid-before=\"20300101\" {bare}");
    assert!(allowed(&dated).is_good());
    assert!(allowed(&dated).not_shown()[0].contains("valid-before 20300101"));

    let others = [
        public("rsa"),
        format!("w cert-authority {bare}"),
        format!("w namespaces=\"file\" {bare}"),
        format!("w namespaces=\"*,!splitcase\" {bare}"),
    ];
    for list in others {
        let judgement = allowed(&list);
        assert!(matches!(judgement.standing, Standing::NotAllowed(_)), "{list}");
        assert!(!judgement.is_good() && !judgement.could_not_check(), "{list}");
    }
    for list in ["", "# nobody\n", "w nothing\n", "ssh-ed25519 AAAA!\n"] {
        let judgement = allowed(list);
        assert!(judgement.could_not_check() && !judgement.is_good(), "{list}");
    }
}

#[test]
fn a_locked_key_needs_its_passphrase() {
    let locked = key("locked");
    says(
        &sign(&locked, None, MESSAGE).unwrap_err(),
        "it is locked with a passphrase",
        "`SPLITCASE_KEY_PASSPHRASE`",
    );
    says(
        &sign(&locked, Some("eleven"), MESSAGE).unwrap_err(),
        "the passphrase does not open it",
        "check the value",
    );
    assert_eq!(sign(&locked, Some(PASSPHRASE), MESSAGE).unwrap(), bytes("ed25519.sig"));
    // A key without a passphrase signs whatever is set.
    assert!(sign(&key("rsa"), Some(PASSPHRASE), MESSAGE).is_ok());
}

#[test]
fn files_that_cannot_sign_say_what_to_do() {
    let missing = sign(&key("no-such-key"), None, MESSAGE).unwrap_err();
    says(&missing, "there is no such file", "private key");
    for kind in KINDS {
        says(&refused(public(kind).as_bytes()), "public half", "private half");
    }
    says(&refused(b"PuTTY-User-Key-File-3: ssh-ed25519\n"), "PPK", "puttygen");
    for start in ["RSA PRIVATE KEY", "EC PRIVATE KEY", "PRIVATE KEY", "ENCRYPTED PRIVATE KEY"] {
        let file = format!("-----BEGIN {start}-----\nAAAA\n");
        says(&refused(file.as_bytes()), "older form", "`ssh-keygen -p -f KEY`");
    }
    says(&refused(&bytes("p521")), "ecdsa-sha2-nistp521", "ed25519");
    says(&refused(b""), "empty", "backup");
    says(&refused(b"job: HD-2614\n"), "not a private key", "OpenSSH");
    says(&refused(&[0xff; 100]), "not text", "OpenSSH");
    says(&refused(&vec![b'a'; 70_000]), "too long", "OpenSSH");
    assert!(sign(&keys(), None, MESSAGE).is_err(), "a folder is not a key");
}

#[test]
fn a_damaged_key_never_signs_wrongly() {
    for kind in KINDS {
        let good = bytes(kind);
        for place in (0..good.len()).step_by(7) {
            let mut altered = good.clone();
            altered[place] ^= 0x01;
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("key");
            fs::write(&path, &altered).unwrap();
            if let Ok(signature) = sign(&path, None, MESSAGE) {
                assert!(check(MESSAGE, &signature, None).is_good(), "{kind}, byte {place}");
            }
        }
    }
}

#[cfg(unix)]
#[test]
fn a_key_file_that_others_may_read_is_remarked() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("key");
    fs::write(&path, bytes("ed25519")).unwrap();
    let with_mode = |mode| {
        fs::set_permissions(&path, fs::Permissions::from_mode(mode)).unwrap();
        open_to_others(&path)
    };
    assert_eq!(with_mode(0o600), None);
    let remark = with_mode(0o644).unwrap();
    assert!(remark.contains("mode 644") && remark.contains("chmod 600"), "{remark}");
    assert_eq!(open_to_others(&folder.path().join("none")), None);
}
