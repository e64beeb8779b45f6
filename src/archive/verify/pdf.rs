//! A PDF -> the bytes of its attached `manifest.json`, as a reader of the PDF would find it.
//!
//! Only the way from the end of the file over its tables to the attachment is read, as this program
//! writes it and as signing programs go on with it (ISO 32000-1, 7.5). Everything is bounded, and
//! nothing unpacks to more than a limit. The pictures on its pages are `pictures`.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Read;

use flate2::read::ZlibDecoder;

use super::pdf_object::{Object, Reader};

pub(super) mod pictures;

/// Longest PDF that is opened, in bytes.
pub(super) const MAX_PDF: u64 = 64 << 20;
/// Longest attachment in bytes.
const MAX_ATTACHED: u64 = 4 << 20;
/// Most entries in all tables together.
const MAX_ENTRIES: usize = 1_000_000;
/// Most parts that a file may have been made of, one after the other.
const MAX_PARTS: usize = 64;
/// Deepest tree of names, and longest chain of references.
const MAX_DEPTH: usize = 16;
/// Most attachments and branches that are looked through.
const MAX_BRANCHES: usize = 1000;
/// The attachment that says what a paper was made from.
const MANIFEST: &str = "manifest.json";
/// The attached findings sheet.
pub(super) const SHEET: &str = "findings.yaml";

const BROKEN: NoManifest = NoManifest::Unreadable("its structure is not one that is read here");

/// Why there is no manifest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoManifest {
    /// The PDF cannot be read.
    Unreadable(&'static str),
    /// It carries no file of that name.
    NotCarried,
}

impl NoManifest {
    /// In words.
    pub(super) fn cause(&self) -> &'static str {
        match self {
            Self::Unreadable(cause) => cause,
            Self::NotCarried => "it carries no `manifest.json`",
        }
    }
}

/// The attached manifest.
///
/// # Errors
/// The PDF cannot be read, or carries none.
pub(super) fn manifest(pdf: &[u8]) -> Result<Vec<u8>, NoManifest> {
    attached(pdf, MANIFEST)
}

/// An attached file by its name.
///
/// # Errors
/// The PDF cannot be read, or carries none of that name.
pub(super) fn attached(pdf: &[u8], name: &str) -> Result<Vec<u8>, NoManifest> {
    if !pdf[..pdf.len().min(1024)].windows(5).any(|part| part == b"%PDF-") {
        return Err(NoManifest::Unreadable("it is not a PDF"));
    }
    let file = File::read(pdf).ok_or(BROKEN)?;
    let catalogue = file.get(&file.trailer, "Root").ok_or(BROKEN)?;
    if file.trailer.get("Encrypt").is_some() {
        return Err(NoManifest::Unreadable("it is locked by a password"));
    }
    let spec = file.attachment(&catalogue, name).ok_or(NoManifest::NotCarried)?;
    let held = file.get(&spec, "EF").ok_or(NoManifest::NotCarried)?;
    let place = ["UF", "F"].iter().find_map(|key| match held.get(key) {
        Some(Object::Reference(number)) => Some(*number),
        _ => None,
    });
    file.stream(place.ok_or(NoManifest::NotCarried)?)
}

/// A PDF and the places of its objects.
struct File<'a> {
    bytes: &'a [u8],
    places: BTreeMap<u64, usize>,
    /// How many entries the tables had so far.
    entries: usize,
    trailer: Object,
}

impl<'a> File<'a> {
    /// Reads the tables from the last one back; what a later part says goes before.
    fn read(bytes: &'a [u8]) -> Option<Self> {
        const WORD: &[u8] = b"startxref";
        let end = bytes.len().saturating_sub(2048);
        let at = bytes[end..].windows(WORD.len()).rposition(|part| part == WORD)?;
        let mut next = Reader::at(bytes, end + at + WORD.len()).number();
        let mut file = Self { bytes, places: BTreeMap::new(), entries: 0, trailer: Object::Other };
        let mut seen = BTreeSet::new();
        while let Some(at) = next {
            if !seen.insert(at) || seen.len() > MAX_PARTS {
                return None;
            }
            let trailer = file.table(usize::try_from(at).ok()?)?;
            next = match trailer.get("Prev") {
                Some(Object::Number(at)) => Some(*at),
                _ => None,
            };
            if file.trailer == Object::Other {
                file.trailer = trailer;
            }
        }
        Some(file)
    }

    /// Reads one table, and the trailer behind it.
    fn table(&mut self, at: usize) -> Option<Object> {
        let mut reader = Reader::at(self.bytes, at);
        if !reader.take("xref") {
            return None;
        }
        while !reader.take("trailer") {
            reader.go_on();
            let (first, count) = (reader.number()?, reader.number()?);
            for number in (first..).take(usize::try_from(count).ok()?) {
                reader.go_on();
                let (place, _generation) = (reader.number()?, reader.number()?);
                let is_used = reader.take("n");
                if !is_used && !reader.take("f") || self.entries > MAX_ENTRIES {
                    return None;
                }
                self.entries += 1;
                // A free place hides what an earlier table says of the number.
                let place = if is_used { usize::try_from(place).ok()? } else { usize::MAX };
                self.places.entry(number).or_insert(place);
            }
        }
        reader.go_on();
        reader.object()
    }

    /// An object by its number, and a reader behind it.
    fn numbered(&self, number: u64) -> Option<(Object, Reader<'a>)> {
        let mut reader = Reader::at(self.bytes, *self.places.get(&number)?);
        let is_it = reader.number()? == number && reader.number().is_some() && reader.take("obj");
        let object = reader.object().filter(|_| is_it)?;
        Some((object, reader))
    }

    /// The object itself, or what it refers to.
    fn resolved(&self, object: &Object) -> Option<Object> {
        let mut object = object.clone();
        for _ in 0..MAX_DEPTH {
            match object {
                Object::Reference(number) => object = self.numbered(number)?.0,
                _ => return Some(object),
            }
        }
        None
    }

    /// The value of a key, resolved.
    fn get(&self, dict: &Object, key: &str) -> Option<Object> {
        self.resolved(dict.get(key)?)
    }

    /// The specification of the attachment: among the associated files, else by the tree of names.
    fn attachment(&self, catalogue: &Object, name: &str) -> Option<Object> {
        let mut left = MAX_BRANCHES;
        let files = self.get(catalogue, "AF").unwrap_or(Object::Other);
        self.named(&files, name, &mut left).or_else(|| {
            let tree = self.get(&self.get(catalogue, "Names")?, "EmbeddedFiles")?;
            self.in_tree(&tree, name, MAX_DEPTH, &mut left)
        })
    }

    /// The first specification of an array that bears the name.
    fn named(&self, list: &Object, wanted: &str, left: &mut usize) -> Option<Object> {
        let Object::Array(items) = list else { return None };
        for item in items {
            *left = left.checked_sub(1)?;
            let Some(spec) = self.resolved(item) else { continue };
            let is_named = ["UF", "F"].iter().any(|key| {
                matches!(self.get(&spec, key), Some(Object::Text(name)) if plain(&name) == wanted.as_bytes())
            });
            if is_named {
                return Some(spec);
            }
        }
        None
    }

    fn in_tree(
        &self,
        tree: &Object,
        wanted: &str,
        depth: usize,
        left: &mut usize,
    ) -> Option<Object> {
        let depth = depth.checked_sub(1)?;
        if let Some(found) =
            self.get(tree, "Names").and_then(|list| self.named(&list, wanted, left))
        {
            return Some(found);
        }
        let Object::Array(kids) = self.get(tree, "Kids")? else { return None };
        for kid in kids {
            *left = left.checked_sub(1)?;
            let found = self.resolved(&kid).and_then(|kid| self.in_tree(&kid, wanted, depth, left));
            if found.is_some() {
                return found;
            }
        }
        None
    }

    /// The bytes of a stream, unpacked, of bounded length.
    fn stream(&self, number: u64) -> Result<Vec<u8>, NoManifest> {
        let (head, raw) = self.raw(number)?;
        let mut bytes = Vec::new();
        let most = MAX_ATTACHED + 1;
        let read = match self.packing(&head) {
            Packing::None => raw.take(most).read_to_end(&mut bytes),
            Packing::Deflate => ZlibDecoder::new(raw).take(most).read_to_end(&mut bytes),
            Packing::Other => {
                return Err(NoManifest::Unreadable(
                    "its `manifest.json` is packed in an unknown way",
                ));
            }
        };
        match read {
            Ok(length) if (length as u64) < most => Ok(bytes),
            Ok(_) => Err(NoManifest::Unreadable("its `manifest.json` is too long")),
            Err(_) => Err(NoManifest::Unreadable("its `manifest.json` is packed wrongly")),
        }
    }

    /// The head of a stream and its bytes as they are packed.
    fn raw(&self, number: u64) -> Result<(Object, &'a [u8]), NoManifest> {
        let (head, mut reader) = self.numbered(number).ok_or(BROKEN)?;
        let (true, Some(Object::Number(length))) =
            (reader.take("stream"), self.get(&head, "Length"))
        else {
            return Err(BROKEN);
        };
        let body = reader.rest_of_file();
        let body = body.strip_prefix(b"\r\n").or_else(|| body.strip_prefix(b"\n")).ok_or(BROKEN)?;
        let raw =
            usize::try_from(length).ok().and_then(|length| body.get(..length)).ok_or(BROKEN)?;
        Ok((head, raw))
    }

    fn packing(&self, head: &Object) -> Packing {
        let filter = match self.get(head, "Filter") {
            None if head.get("Filter").is_none() => return Packing::None,
            Some(Object::Array(filters)) => match filters.as_slice() {
                [] => return Packing::None,
                [one] => self.resolved(one),
                _ => None,
            },
            filter => filter,
        };
        let is_deflate = matches!(filter, Some(Object::Name(name)) if name == b"FlateDecode");
        if is_deflate && head.get("DecodeParms").is_none() {
            Packing::Deflate
        } else {
            Packing::Other
        }
    }
}

/// How a stream is packed.
enum Packing {
    None,
    Deflate,
    Other,
}

/// A file name in single bytes: those of UTF-16 text without their zeros.
fn plain(name: &[u8]) -> Vec<u8> {
    match name {
        [0xfe, 0xff, rest @ ..] => rest.iter().copied().filter(|byte| *byte != 0).collect(),
        _ => name.to_vec(),
    }
}
