//! The shapes of RFC 3161, RFC 5652 and RFC 5035 in DER: bytes <-> structs. Nothing is judged.
//!
//! Where a shape of the crate `cms` would put in order what arrived out of order, ours keeps it.

use cms::signed_data::{EncapsulatedContentInfo, SignerInfo};
use der::asn1::{BitString, Int, ObjectIdentifier, OctetString, SetOfVec};
use der::{
    Any, Decode, DecodeValue, Encode, EncodeValue, FixedTag, Header, Length, Reader, Sequence, Tag,
    Writer,
};
use x509_cert::ext::Extensions;
use x509_cert::ext::pkix::name::GeneralName;

/// An algorithm and its parameters.
pub type Algorithm = x509_cert::spki::AlgorithmIdentifierOwned;

/// id-sha256 (RFC 5754, 2.2).
pub const SHA_256: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.16.840.1.101.3.4.2.1");
/// id-signedData (RFC 5652, 5.1).
pub const SIGNED_DATA: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.7.2");
/// id-ct-TSTInfo (RFC 3161, 2.4.2).
pub const TST_INFO: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.16.1.4");
/// content-type (RFC 5652, 11.1).
pub const CONTENT_TYPE: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.3");
/// message-digest (RFC 5652, 11.2).
pub const MESSAGE_DIGEST: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.4");
/// signing certificate, SHA-1 (RFC 5035, 5.4.1).
pub const SIGNING_V1: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.16.2.12");
/// signing certificate version 2 (RFC 5035, 3; RFC 5816).
pub const SIGNING_V2: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.16.2.47");

/// Reads a value that fills `bytes` and is encoded in the one way that DER allows.
///
/// # Errors
/// The bytes are no such value, more bytes follow it, or it would be written otherwise.
pub fn exact<'a, T: Decode<'a> + Encode>(bytes: &'a [u8]) -> Result<T, String> {
    let value = T::from_der(bytes).map_err(|error| error.to_string())?;
    match value.to_der() {
        Ok(again) if again == bytes => Ok(value),
        Ok(_) => Err("it is not in the one form that DER allows".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}

/// `MessageImprint` (RFC 3161, 2.4.1).
#[derive(Sequence)]
pub struct MessageImprint {
    pub hash_algorithm: Algorithm,
    pub hashed_message: OctetString,
}

/// `TimeStampResp` (RFC 3161, 2.4.2).
#[derive(Sequence)]
pub struct TimeStampResp {
    pub status: PkiStatusInfo,
    pub token: Option<ContentInfo>,
}

/// `PKIStatusInfo` (RFC 3161, 2.4.2).
#[derive(Sequence)]
pub struct PkiStatusInfo {
    pub status: u32,
    pub text: Option<Vec<String>>,
    pub fail_info: Option<BitString>,
}

/// `ContentInfo` (RFC 5652, 3); the content is read by itself.
#[derive(Sequence)]
pub struct ContentInfo {
    pub content_type: ObjectIdentifier,
    #[asn1(context_specific = "0", tag_mode = "EXPLICIT")]
    pub content: Any,
}

/// `SignedData` (RFC 5652, 5.1); certificates and lists keep their order.
#[derive(Sequence)]
pub struct SignedData {
    pub version: u8,
    pub digest_algorithms: SetOfVec<Algorithm>,
    pub content: EncapsulatedContentInfo,
    #[asn1(context_specific = "0", tag_mode = "IMPLICIT", constructed = "true", optional = "true")]
    pub certificates: Option<AsOrdered>,
    #[asn1(context_specific = "1", tag_mode = "IMPLICIT", constructed = "true", optional = "true")]
    pub revocations: Option<AsOrdered>,
    pub signers: SetOfVec<SignerInfo>,
}

/// A SET whose members stay in the order in which they arrived.
///
/// DER would have it sorted; RFC 5652, 10.2.3 does not ask for it, and authorities differ.
pub struct AsOrdered(pub Vec<Any>);

impl FixedTag for AsOrdered {
    const TAG: Tag = Tag::Set;
}

impl<'a> DecodeValue<'a> for AsOrdered {
    fn decode_value<R: Reader<'a>>(reader: &mut R, header: Header) -> der::Result<Self> {
        reader.read_nested(header.length, |reader| {
            let mut members = Vec::new();
            while !reader.is_finished() {
                members.push(Any::decode(reader)?);
            }
            Ok(Self(members))
        })
    }
}

impl EncodeValue for AsOrdered {
    fn value_len(&self) -> der::Result<Length> {
        self.0.iter().try_fold(Length::ZERO, |sum, member| sum + member.encoded_len()?)
    }

    fn encode_value(&self, writer: &mut impl Writer) -> der::Result<()> {
        self.0.iter().try_for_each(|member| member.encode(writer))
    }
}

/// `TSTInfo` (RFC 3161, 2.4.2): what the authority signs.
#[derive(Sequence)]
pub struct TstInfo {
    pub version: u8,
    pub policy: ObjectIdentifier,
    pub message_imprint: MessageImprint,
    pub serial_number: Int,
    /// A `GeneralizedTime`, here with fractions of a second; see `judgement::Moment`.
    pub gen_time: Any,
    pub accuracy: Option<Accuracy>,
    pub ordering: Option<bool>,
    pub nonce: Option<Int>,
    #[asn1(context_specific = "0", tag_mode = "EXPLICIT", optional = "true")]
    pub tsa: Option<GeneralName>,
    #[asn1(context_specific = "1", tag_mode = "IMPLICIT", constructed = "true", optional = "true")]
    pub extensions: Option<Extensions>,
}

/// `Accuracy` (RFC 3161, 2.4.2).
#[derive(Sequence)]
pub struct Accuracy {
    pub seconds: Option<u32>,
    #[asn1(context_specific = "0", tag_mode = "IMPLICIT", optional = "true")]
    pub millis: Option<u16>,
    #[asn1(context_specific = "1", tag_mode = "IMPLICIT", optional = "true")]
    pub micros: Option<u16>,
}

/// `SigningCertificate` (RFC 5035, 5.4.1).
#[derive(Sequence)]
pub struct SigningV1 {
    pub certificates: Vec<CertificateIdV1>,
    pub policies: Option<Any>,
}

/// `ESSCertID` (RFC 5035, 5.4.1): SHA-1.
#[derive(Sequence)]
pub struct CertificateIdV1 {
    pub digest: OctetString,
    pub issuer_serial: Option<IssuerSerial>,
}

/// `SigningCertificateV2` (RFC 5035, 3).
#[derive(Sequence)]
pub struct SigningV2 {
    pub certificates: Vec<CertificateIdV2>,
    pub policies: Option<Any>,
}

/// `ESSCertIDv2` (RFC 5035, 4): SHA-256 if no algorithm is given.
#[derive(Sequence)]
pub struct CertificateIdV2 {
    pub algorithm: Option<Algorithm>,
    pub digest: OctetString,
    pub issuer_serial: Option<IssuerSerial>,
}

/// `IssuerSerial` (RFC 5035, 4).
#[derive(Sequence)]
pub struct IssuerSerial {
    pub issuer: Vec<GeneralName>,
    pub serial: Int,
}
