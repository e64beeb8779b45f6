//! The pictures on the pages of a PDF: its tree of pages -> every JPEG that they use, with its page.
//!
//! Bounded in pages, pictures and nesting. Other pictures are counted: this program sets photos as
//! JPEG (ISO 32000-1, 7.4.8) and nothing else. Not here: what a picture shows.

use std::collections::BTreeSet;
use std::io::Read;

use flate2::read::ZlibDecoder;

use super::{File, MAX_DEPTH, Object};

/// Most pages, and most pictures on all of them.
const MOST: usize = 2000;

/// Longest picture in bytes.
const MOST_BYTES: u64 = 16 << 20;

/// A picture on a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The first page that it is on, from 1.
    pub page: usize,
    /// Its JPEG file.
    pub jpeg: Vec<u8>,
}

/// The pictures of all pages.
#[derive(Debug, Default)]
pub struct Pictures {
    /// Those that are JPEG, in order of pages.
    pub jpegs: Vec<Picture>,
    /// How many are something else.
    pub others: usize,
}

/// The pictures on the pages of a PDF; nothing if its pages cannot be read or are too many.
pub fn on_pages(pdf: &[u8]) -> Option<Pictures> {
    let file = File::read(pdf)?;
    let catalogue = file.get(&file.trailer, "Root")?;
    let mut walk = Walk {
        file: &file,
        found: Pictures::default(),
        seen: BTreeSet::new(),
        page: 0,
        left: MOST,
    };
    let root = file.get(&catalogue, "Pages")?;
    // A tree of pages without any is none.
    root.get("Kids")?;
    walk.pages(&root, &Object::Other, MAX_DEPTH)?;
    Some(walk.found)
}

/// On the way through the pages.
struct Walk<'a> {
    file: &'a File<'a>,
    found: Pictures,
    /// Objects that were looked at.
    seen: BTreeSet<u64>,
    page: usize,
    left: usize,
}

impl Walk<'_> {
    /// Goes through a branch of the tree of pages; what pages need may stand in a branch above.
    fn pages(&mut self, branch: &Object, above: &Object, depth: usize) -> Option<()> {
        let depth = depth.checked_sub(1)?;
        self.left = self.left.checked_sub(1)?;
        let own = self.file.get(branch, "Resources");
        let resources = own.unwrap_or_else(|| above.clone());
        let Some(kids) = branch.get("Kids") else {
            self.page += 1;
            return self.pictures(&resources, MAX_DEPTH);
        };
        let Object::Array(kids) = self.file.resolved(kids)? else { return None };
        for kid in kids {
            self.pages(&self.file.resolved(&kid)?, &resources, depth)?;
        }
        Some(())
    }

    /// Takes the pictures among resources, and those of drawings among them.
    fn pictures(&mut self, resources: &Object, depth: usize) -> Option<()> {
        let depth = depth.checked_sub(1)?;
        let Some(Object::Dict(entries)) = self.file.get(resources, "XObject") else {
            return Some(());
        };
        for (_, entry) in entries {
            let Object::Reference(number) = entry else { return None };
            if !self.seen.insert(number) {
                continue;
            }
            self.left = self.left.checked_sub(1)?;
            let (head, _) = self.file.numbered(number)?;
            match self.file.get(&head, "Subtype") {
                Some(Object::Name(kind)) if kind == b"Image" => self.picture(number, &head)?,
                _ => {
                    let inner = self.file.get(&head, "Resources").unwrap_or(Object::Other);
                    self.pictures(&inner, depth)?;
                }
            }
        }
        Some(())
    }

    fn picture(&mut self, number: u64, head: &Object) -> Option<()> {
        let filters = match self.file.get(head, "Filter") {
            Some(Object::Array(filters)) => {
                filters.iter().map(|one| self.file.resolved(one)).collect::<Option<Vec<_>>>()?
            }
            Some(one) => vec![one],
            None => Vec::new(),
        };
        let names: Vec<&[u8]> = filters
            .iter()
            .map(|one| if let Object::Name(name) = one { name.as_slice() } else { b"" })
            .collect();
        let (_, raw) = self.file.raw(number).ok()?;
        let jpeg = match names.as_slice() {
            [b"DCTDecode"] => raw.to_vec(),
            [b"FlateDecode", b"DCTDecode"] => {
                let mut bytes = Vec::new();
                ZlibDecoder::new(raw).take(MOST_BYTES + 1).read_to_end(&mut bytes).ok()?;
                bytes
            }
            _ => {
                self.found.others += 1;
                return Some(());
            }
        };
        (jpeg.len() as u64 <= MOST_BYTES).then(|| {
            self.found.jpegs.push(Picture { page: self.page, jpeg });
        })
    }
}
