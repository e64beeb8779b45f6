//! Time stamps: replies of an authority, good, altered, cut, foreign, unfit.
//!
//! The files in `stamps` were made once by OpenSSL 3.0 with invented names. Certificates: `openssl
//! req -x509` and `openssl x509 -req` (`old`: `openssl ca -startdate -enddate`), for 100 years;
//! query: `openssl ts -query -sha256 -no_nonce -cert -digest …`; replies: `openssl ts -reply`, with
//! `-chain` where more than the signer's certificate is in it. What that refuses to make (PSS,
//! signer by key number, unfit purposes) is the same `TSTInfo` signed by `openssl cms -sign -cades`
//! and wrapped with status 0. All are over the SHA-256 of `keys/message`.

use splitcase::archive::trust::rfc3161::judgement::{Anchor, Flaw, StampJudgement, Uncovered};
use splitcase::archive::trust::rfc3161::{check_reply, query};
use splitcase::digest::Digest;

const CA: &[u8] = include_bytes!("stamps/ca.pem");
const CA_EC: &[u8] = include_bytes!("stamps/ca-ec.pem");
const CA_OTHER: &[u8] = include_bytes!("stamps/ca-other.pem");
const CA_TWIN: &[u8] = include_bytes!("stamps/ca-twin.pem");
const SIGNER: &[u8] = include_bytes!("stamps/signer.pem");
const QUERY: &[u8] = include_bytes!("stamps/query.tsq");
const RSA: &[u8] = include_bytes!("stamps/rsa.tsr");
const EC: &[u8] = include_bytes!("stamps/ec.tsr");
const DEEP: &[u8] = include_bytes!("stamps/deep.tsr");
const BARE: &[u8] = include_bytes!("stamps/bare.tsr");
const FINE: &[u8] = include_bytes!("stamps/fine.tsr");
const SHA_1_NAME: &[u8] = include_bytes!("stamps/sha1-name.tsr");
const P384: &[u8] = include_bytes!("stamps/p384.tsr");
const PSS: &[u8] = include_bytes!("stamps/pss.tsr");
const CMS_PSS: &[u8] = include_bytes!("stamps/cms-pss.tsr");
const CMS_KEYID: &[u8] = include_bytes!("stamps/cms-keyid.tsr");
const OLD: &[u8] = include_bytes!("stamps/old.tsr");
const REFUSED: &[u8] = include_bytes!("stamps/refused.tsr");
const BY_LEAF: &[u8] = include_bytes!("stamps/by-leaf.tsr");
const UNFIT: [&[u8]; 3] = [
    include_bytes!("stamps/soft.tsr"),
    include_bytes!("stamps/two.tsr"),
    include_bytes!("stamps/web.tsr"),
];

/// The time in `fine.tsr`, as `openssl ts -reply -text` shows it.
const FINE_TIME: &str = "2026-11-25T14:26:42.212Z";

/// Every good reply and the certificate that its signer descends from.
const GOOD: [(&[u8], &[u8]); 10] = [
    (RSA, CA),
    (EC, CA_EC),
    (DEEP, CA_EC),
    (BARE, SIGNER),
    (FINE, CA_EC),
    (SHA_1_NAME, CA_EC),
    (P384, CA_EC),
    (PSS, CA),
    (CMS_PSS, CA),
    (CMS_KEYID, CA_EC),
];

fn digest() -> Digest {
    Digest::of(include_bytes!("keys/message"))
}

fn judged(reply: &[u8], authority: &[u8]) -> StampJudgement {
    check_reply(reply, &digest(), Some(authority))
}

fn is_refused(judgement: &StampJudgement) -> bool {
    !judgement.is_good() && !judgement.flaws().is_empty() && judgement.shown().is_empty()
}

/// A DER value with its tag and length (X.690, 8.1).
fn der(tag: u8, content: &[u8]) -> Vec<u8> {
    let length = content.len();
    let mut bytes = match length {
        0..128 => vec![tag, length as u8],
        128..256 => vec![tag, 0x81, length as u8],
        _ => vec![tag, 0x82, (length >> 8) as u8, length as u8],
    };
    bytes.extend(content);
    bytes
}

/// The reply's token under another status part. In all fixtures it begins after nine bytes.
fn with_status(reply: &[u8], status: &[u8]) -> Vec<u8> {
    assert_eq!(reply[4..9], [0x30, 3, 2, 1, 0], "status 0 and nothing else");
    der(0x30, &[status, &reply[9..]].concat())
}

/// A generator of bytes that are always the same (xorshift, Marsaglia 2003).
struct Bytes(u64);

impl Bytes {
    fn next(&mut self) -> u8 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 32) as u8
    }
}

#[test]
fn the_query_is_byte_for_byte_what_openssl_makes() {
    assert_eq!(query(&digest()), QUERY);
}

#[test]
fn good_replies_hold_against_their_authority() {
    for (at, (reply, authority)) in GOOD.iter().enumerate() {
        let judgement = judged(reply, authority);
        assert!(judgement.is_good(), "{at}: {:?}", judgement.flaws());
        assert!(matches!(judgement.anchor, Anchor::Anchored(_)), "{at}");
        assert!(judgement.uncovered.is_empty(), "{at}: {:?}", judgement.uncovered);
        assert_eq!(judgement.shown().len(), 3, "{at}");
    }
}

#[test]
fn what_the_stamp_says_is_read() {
    let judgement = judged(FINE, CA_EC);
    let stamp = judgement.stamp.as_ref().unwrap();
    assert_eq!(stamp.time.to_string(), FINE_TIME);
    assert_eq!(stamp.accuracy, Some(1_500_100));
    assert_eq!(stamp.policy, "1.2.3.4.1");
    assert_eq!(stamp.authority, "CN=Halvard Stamp E,O=Halvard Time Office");
    let root = "CN=Halvard Root E,O=Halvard Time Office";
    assert_eq!(judgement.anchor, Anchor::Anchored(root.to_owned()));
    let first = &judgement.shown()[0];
    assert!(first.contains(&format!("{FINE_TIME} (to within 1.5001 s)")), "{first}");
}

#[test]
fn without_a_certificate_the_reply_holds_by_itself_and_says_what_is_open() {
    for reply in [RSA, EC, DEEP] {
        let judgement = check_reply(reply, &digest(), None);
        assert!(judgement.is_good(), "{:?}", judgement.flaws());
        assert_eq!(judgement.anchor, Anchor::NotAsked);
        assert!(judgement.not_shown()[0].contains("`--authority`"));
        assert!(judgement.shown().iter().all(|said| !said.contains("vouched for")));
    }
    // The certificate in between is told, since the one above it is not at hand.
    let middle = "CN=Halvard Middle,O=Halvard Time Office".to_owned();
    let judgement = check_reply(DEEP, &digest(), None);
    assert_eq!(judgement.uncovered, [Uncovered::Certificate(middle)]);
    assert_eq!(check_reply(BARE, &digest(), None).flaws, [Flaw::NoSigner]);
}

#[test]
fn the_certificate_may_be_the_signers_or_one_of_several_in_a_file() {
    assert!(judged(RSA, SIGNER).is_good());
    let chain = [CA_OTHER, b"\nthe stamp's own:\n", SIGNER, CA].concat();
    for reply in [RSA, BARE, PSS] {
        assert!(judged(reply, &chain).is_good(), "{:?}", judged(reply, &chain).flaws());
    }
    let crlf = std::str::from_utf8(CA).unwrap().replace('\n', "\r\n");
    assert!(judged(RSA, crlf.as_bytes()).is_good());
}

#[test]
fn a_certificate_that_cannot_be_read_is_told_as_such() {
    let cut = &CA[..CA.len() / 2];
    for file in [&b""[..], b"no certificate", cut, &[0x30, 0x82, 1], &[0xff, 0xfe]] {
        let judgement = judged(RSA, file);
        assert!(judgement.could_not_check() && is_refused(&judgement), "{file:?}");
    }
}

#[test]
fn another_digest_is_refused() {
    let judgement = check_reply(RSA, &Digest::of(b"another seal"), Some(CA));
    assert_eq!(judgement.flaws, [Flaw::OtherDigest(digest().hex())]);
    assert!(is_refused(&judgement));
}

#[test]
fn another_authority_is_refused_even_one_of_the_same_name() {
    for authority in [CA_OTHER, CA_TWIN] {
        let judgement = judged(EC, authority);
        assert_eq!(judgement.flaws, [Flaw::NotAnchored]);
        assert!(is_refused(&judgement));
    }
    assert_eq!(judged(RSA, CA_EC).flaws, [Flaw::NotAnchored]);
}

#[test]
fn a_refusal_of_the_authority_is_told_in_its_words() {
    let flaws = judged(REFUSED, CA_EC).flaws();
    assert_eq!(flaws.len(), 1);
    assert!(flaws[0].contains("status 2"), "{flaws:?}");
    assert!(flaws[0].contains("Message digest algorithm is not supported"), "{flaws:?}");
}

#[test]
fn unfit_certificates_are_refused() {
    let old = judged(OLD, CA_EC);
    assert!(is_refused(&old));
    assert!(old.flaws()[0].contains("it held from 2020-01-01T00:00:00Z to 2021-01-01T00:00:00Z"));
    let reasons = ["not marked as critical", "for other purposes", "for other purposes"];
    for (reply, reason) in UNFIT.into_iter().zip(reasons) {
        for authority in [Some(CA_EC), None] {
            let judgement = check_reply(reply, &digest(), authority);
            assert!(is_refused(&judgement));
            assert!(judgement.flaws()[0].contains(reason), "{:?}", judgement.flaws());
        }
    }
}

#[test]
fn a_signer_that_issues_certificates_is_no_authority() {
    let judgement = judged(BY_LEAF, CA_EC);
    assert!(is_refused(&judgement));
    let name = "CN=Halvard Stamp E,O=Halvard Time Office".to_owned();
    assert!(
        judgement.flaws.contains(&Flaw::Issuer(name, "it may not issue certificates".to_owned()))
    );
}

#[test]
fn a_reply_cut_at_any_length_is_refused() {
    for (reply, authority) in GOOD {
        for length in 0..reply.len() {
            assert!(is_refused(&judged(&reply[..length], authority)), "{length}");
        }
    }
}

#[test]
fn no_byte_can_be_changed_unseen() {
    let mut bytes = Bytes(2614);
    for (at, (reply, authority)) in GOOD.iter().enumerate() {
        // Every byte of the first, which has most parts; elliptic curves are slow without optimising.
        let all: Vec<usize> = (0..reply.len()).collect();
        let some = (0..24).map(|_| usize::from(bytes.next()) * 256 + usize::from(bytes.next()));
        let some: Vec<usize> = some.map(|place| place % reply.len()).collect();
        for place in if at == 0 { all } else { some } {
            let mut altered = reply.to_vec();
            altered[place] ^= bytes.next().max(1);
            assert!(is_refused(&judged(&altered, authority)), "reply {at}, byte {place}");
        }
    }
}

#[test]
fn without_a_certificate_a_changed_byte_is_seen_or_told_as_uncovered() {
    // Only the issuer's name in a root that the reply carries can be changed so: it then looks like
    // one whose issuer is not at hand. Bit 1 or 32 of each byte in turn.
    let mut uncovered = Vec::new();
    for place in 0..RSA.len() {
        let mut altered = RSA.to_vec();
        altered[place] ^= if place % 2 == 0 { 0x01 } else { 0x20 };
        let judgement = check_reply(&altered, &digest(), None);
        if judgement.is_good() {
            assert!(matches!(judgement.uncovered[..], [Uncovered::Certificate(_)]), "{place}");
            uncovered.push(place);
        }
    }
    // `openssl asn1parse`: the issuer of the root is at 1166 to 1222.
    assert!(!uncovered.is_empty() && uncovered.iter().all(|at| (1166..1223).contains(at)));
}

#[test]
fn any_bytes_are_refused_without_harm() {
    let mut bytes = Bytes(40);
    for length in 0..600 {
        let mut noise: Vec<u8> = (0..length).map(|_| bytes.next()).collect();
        assert!(is_refused(&judged(&noise, CA)));
        noise.splice(..0, RSA[..length.min(60)].iter().copied());
        assert!(is_refused(&judged(&noise, CA)));
    }
    assert!(is_refused(&judged(&vec![0x30; 300_000], CA)));
    // Values in values without end.
    let nested = (0..2_000).fold(Vec::new(), |inside: Vec<u8>, _| der(0x30, &inside));
    assert!(is_refused(&judged(&nested, CA)));
}

#[test]
fn bytes_after_the_reply_and_other_forms_of_it_are_refused() {
    assert!(is_refused(&judged(&[RSA, &[0]].concat(), CA)));
    // The same length in a longer form, which BER allows and DER does not.
    let longer = [&[0x30, 0x83, 0][..], &RSA[2..]].concat();
    assert!(is_refused(&judged(&longer, CA)));
    let longer = with_status(RSA, &[0x30, 4, 2, 2, 0, 0]);
    assert!(is_refused(&judged(&longer, CA)));
}

#[test]
fn the_order_of_the_certificates_makes_no_difference() {
    // Both stand at fixed places in this reply; the root then comes before the signer.
    let (signer, root) = (&RSA[228..1116], &RSA[1116..1952]);
    let swapped = [&RSA[..228], root, signer, &RSA[1952..]].concat();
    assert_ne!(swapped, RSA);
    assert!(judged(&swapped, CA).is_good(), "{:?}", judged(&swapped, CA).flaws());
}

#[test]
fn words_beside_the_status_are_told_as_uncovered() {
    let text = der(0x30, &der(0x0c, b"Operation Okay"));
    let reply = with_status(RSA, &der(0x30, &[&[2, 1, 0][..], &text].concat()));
    let judgement = judged(&reply, CA);
    assert!(judgement.is_good(), "{:?}", judgement.flaws());
    assert_eq!(judgement.uncovered, [Uncovered::StatusText]);
    assert!(judgement.not_shown().last().unwrap().contains("under no signature"));
}

#[test]
fn a_status_that_does_not_go_with_a_stamp_is_refused() {
    let with_changes = with_status(RSA, &[0x30, 3, 2, 1, 1]);
    let refused_at_once = with_status(RSA, &[0x30, 7, 2, 1, 0, 3, 2, 5, 0x20]);
    let no_stamp = der(0x30, &RSA[4..9]);
    // Another policy than the query left open is how an authority may answer: not judged, not wrong.
    let changed = judged(&with_changes, CA);
    assert!(matches!(changed.flaws[..], [Flaw::Unsupported(_)]) && changed.wrong().is_empty());
    for reply in [refused_at_once, no_stamp] {
        assert!(matches!(judged(&reply, CA).flaws[..], [Flaw::Unfit(_)]));
    }
}
