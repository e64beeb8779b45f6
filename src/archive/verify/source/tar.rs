//! A tar as a source of files: its headers are read once, its contents where they are.
//!
//! Nothing is unpacked. Whatever two programs could unpack in two ways is a flaw: links, sparse
//! files, two entries of one name, several top folders, bytes that belong to no entry. The crate
//! `tar` reads single headers here; its walk over entries would step wrongly over a length that
//! is in a pax record, and takes what is damaged for the end.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, ErrorKind, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};

use ::tar::{EntryType, Header};

use super::{Kind, Source};
use crate::archive::bag::names;
use crate::archive::problems::{self, Flaw};
use crate::failure::Failure;

/// A tar is made of blocks of this many bytes.
const BLOCK: usize = 512;
/// Longest run of empty blocks at the end; writers fill up to 20 blocks, some to a megabyte.
const MAX_END: u64 = 4 << 20;

/// A tar and where its entries are.
pub struct Tar {
    path: PathBuf,
    items: BTreeMap<String, Kind>,
    starts: BTreeMap<String, u64>,
    flaws: Vec<Flaw>,
}

impl Tar {
    /// Reads the headers.
    ///
    /// # Errors
    /// The file cannot be read, or it has too many entries.
    pub fn list(path: &Path) -> Result<Self, Failure> {
        let failed = |error: io::Error| Failure::on("read the tar", path, error);
        // A link that the person named is followed, as everywhere; what it leads to must be a file.
        let mut file = super::open_file(&path.canonicalize().map_err(failed)?).map_err(failed)?;
        let length = file.metadata().map_err(failed)?.len();
        let mut tar = Self {
            path: path.to_owned(),
            items: BTreeMap::new(),
            starts: BTreeMap::new(),
            flaws: Vec::new(),
        };
        let mut walk = Walk { at: 0, length, top: None, next: Extension::default() };
        loop {
            super::bounded(path, tar.items.len() + tar.flaws.len())?;
            let step = tar.step(&mut file, &mut walk).map_err(failed)?;
            if step.is_none() {
                return Ok(tar);
            }
        }
    }

    fn flaw(&mut self, name: &str, message: impl Into<String>) {
        self.flaws.push(problems::tar(name, message));
    }

    /// Reads one header and steps over its content; nothing at the end.
    fn step(&mut self, file: &mut File, walk: &mut Walk) -> io::Result<Option<()>> {
        let Some(block) = walk.block(file)? else {
            self.flaw("", "it is cut short: the mark of its end is missing");
            return Ok(None);
        };
        if block.iter().all(|byte| *byte == 0) {
            if !walk.next.is_empty() {
                self.flaw("", "a name at its end belongs to no entry");
            }
            if !walk.ends_empty(file)? {
                self.flaw(
                    "",
                    "there are bytes behind the mark of its end, or the mark is not whole",
                );
            }
            return Ok(None);
        }
        let header = Header::from_byte_slice(&block);
        if !is_sound(header) {
            self.flaw("", format!("the header at byte {} is damaged", walk.at - BLOCK as u64));
            return Ok(None);
        }
        let extension = std::mem::take(&mut walk.next);
        let size = extension.size.map_or_else(|| header.entry_size(), Ok);
        let start = walk.at;
        let padded = |size: u64| size.checked_next_multiple_of(BLOCK as u64)?.checked_add(start);
        let end = size.as_ref().ok().and_then(|size| padded(*size));
        let (Ok(size), Some(end)) = (size, end.filter(|end| *end <= walk.length)) else {
            self.flaw("", format!("the entry at byte {start} says that it goes on behind the end"));
            return Ok(None);
        };
        let kind = header.entry_type();
        if is_extension(kind) {
            let read = read_extension(kind, size, &mut *file, extension)?;
            match read {
                Ok(next) => walk.next = next,
                Err(message) => self.flaw("", message),
            }
        } else {
            self.enter(header, kind, extension.name, (start, size), walk);
        }
        if !walk.pads_empty(file, start + size, end)? {
            self.flaw(
                "",
                format!("the entry at byte {start} is filled up with other bytes than zeros"),
            );
        }
        walk.go(file, end)?;
        Ok(Some(()))
    }

    /// Puts an entry on the list, by its name below the one top folder.
    fn enter(
        &mut self,
        header: &Header,
        kind: EntryType,
        long_name: Option<Vec<u8>>,
        (start, size): (u64, u64),
        walk: &mut Walk,
    ) {
        let raw = long_name.unwrap_or_else(|| header.path_bytes().into_owned());
        let shown = String::from_utf8_lossy(&raw).into_owned();
        let Ok(name) = String::from_utf8(raw) else {
            self.flaws.push(problems::name_is_no_text(&shown));
            return;
        };
        let plain = name.strip_prefix("./").unwrap_or(&name);
        let plain = if kind.is_dir() { plain.strip_suffix('/').unwrap_or(plain) } else { plain };
        // `tar cf x.tar ./bag` begins with an entry for the folder that it was called in.
        if kind.is_dir() && matches!(plain, "" | ".") {
            return;
        }
        if let Some(what) = names::danger(plain) {
            self.flaw(&shown, format!("{what}; nothing there was opened"));
            return;
        }
        let (top, below) = plain.split_once('/').unwrap_or((plain, ""));
        if *walk.top.get_or_insert_with(|| top.to_owned()) != *top {
            self.flaw(&shown, "it is beside the one top folder that the tar of a bag has");
            return;
        }
        if below.is_empty() {
            if !kind.is_dir() {
                self.flaw(&shown, "it is in the place of the bag's folder");
            }
            return;
        }
        let kind = match kind {
            EntryType::Regular | EntryType::Continuous => Kind::File(size),
            EntryType::Directory if size == 0 => Kind::Folder,
            EntryType::Symlink | EntryType::Link => {
                self.flaws.push(problems::link(below));
                Kind::Other
            }
            EntryType::GNUSparse => {
                self.flaw(below, "a sparse file, which programs unpack differently");
                Kind::Other
            }
            _ => {
                self.flaws.push(problems::device(below));
                Kind::Other
            }
        };
        if self.items.insert(below.to_owned(), kind).is_some() {
            self.flaw(below, "it is in the tar twice, and which one counts is not known");
        }
        self.starts.insert(below.to_owned(), start);
    }
}

/// Where the reading of a tar has come to.
struct Walk {
    at: u64,
    length: u64,
    top: Option<String>,
    next: Extension,
}

impl Walk {
    /// The next block; nothing if the file ends before one.
    fn block(&mut self, file: &mut File) -> io::Result<Option<[u8; BLOCK]>> {
        let mut block = [0; BLOCK];
        match file.read_exact(&mut block) {
            Ok(()) => {
                self.at += BLOCK as u64;
                Ok(Some(block))
            }
            Err(error) if error.kind() == ErrorKind::UnexpectedEof => Ok(None),
            Err(error) => Err(error),
        }
    }

    fn go(&mut self, file: &mut File, to: u64) -> io::Result<()> {
        self.at = file.seek(SeekFrom::Start(to))?;
        Ok(())
    }

    /// True if a second empty block and nothing else but zeros follows.
    fn ends_empty(&mut self, file: &mut File) -> io::Result<bool> {
        let rest = self.length - self.at;
        let is_whole = rest >= BLOCK as u64 && rest.is_multiple_of(BLOCK as u64) && rest <= MAX_END;
        Ok(is_whole && only_zeros(file.take(rest))?)
    }

    fn pads_empty(&mut self, file: &mut File, from: u64, to: u64) -> io::Result<bool> {
        self.go(file, from)?;
        only_zeros(file.take(to - from))
    }
}

fn only_zeros(from: impl Read) -> io::Result<bool> {
    for byte in io::BufReader::with_capacity(BLOCK, from).bytes() {
        if byte? != 0 {
            return Ok(false);
        }
    }
    Ok(true)
}

/// True if a header's own sum fits and is written in one of the usual ways.
fn is_sound(header: &Header) -> bool {
    let bytes = header.as_bytes();
    let sum: u32 = bytes
        .iter()
        .enumerate()
        .map(|(at, byte)| if (148..156).contains(&at) { 32 } else { u32::from(*byte) })
        .sum();
    let written = &bytes[148..156];
    [format!("{sum:06o}\0 "), format!("{sum:07o}\0"), format!("{sum:06o} \0")]
        .iter()
        .any(|usual| usual.as_bytes() == written)
}

impl Source for Tar {
    fn path(&self) -> &Path {
        &self.path
    }

    fn items(&self) -> &BTreeMap<String, Kind> {
        &self.items
    }

    fn flaws(&self) -> &[Flaw] {
        &self.flaws
    }

    fn open(&self, name: &str) -> io::Result<Box<dyn Read + '_>> {
        let (Some(Kind::File(size)), Some(start)) = (self.items.get(name), self.starts.get(name))
        else {
            return Err(ErrorKind::NotFound.into());
        };
        let mut file = super::open_file(&self.path.canonicalize()?)?;
        file.seek(SeekFrom::Start(*start))?;
        Ok(Box::new(file.take(*size)))
    }
}

// Entries that only say something of the next one.

/// Longest such entry in bytes; a path of any disk is far shorter.
const MAX_EXTENSION: u64 = 64 * 1024;

/// What was said of the next entry.
#[derive(Debug, Default)]
struct Extension {
    /// Its name.
    pub name: Option<Vec<u8>>,
    /// Its length in bytes, for files above 8 GiB.
    pub size: Option<u64>,
}

impl Extension {
    /// True if nothing was said.
    fn is_empty(&self) -> bool {
        self.name.is_none() && self.size.is_none()
    }
}

/// True for entries that only say something of the next.
fn is_extension(kind: EntryType) -> bool {
    kind.is_gnu_longname()
        || kind.is_gnu_longlink()
        || kind.is_pax_local_extensions()
        || kind.is_pax_global_extensions()
}

/// Reads such an entry, in addition to what others before it said.
///
/// # Errors
/// Outside: reading fails. Inside: what is wrong with the entry.
fn read_extension(
    kind: EntryType,
    size: u64,
    from: impl Read,
    mut said: Extension,
) -> io::Result<Result<Extension, String>> {
    if size > MAX_EXTENSION {
        return Ok(Err("an entry for a long name is longer than any name".to_owned()));
    }
    let mut bytes = Vec::new();
    from.take(size).read_to_end(&mut bytes)?;
    if kind.is_gnu_longname() {
        if bytes.last() == Some(&0) {
            bytes.pop();
        }
        if said.name.replace(bytes).is_some() {
            return Ok(Err("an entry has two long names".to_owned()));
        }
    } else if kind.is_pax_local_extensions() || kind.is_pax_global_extensions() {
        let is_global = kind.is_pax_global_extensions();
        match records(&bytes) {
            Some(records) => {
                for (key, value) in records {
                    match key {
                        b"path" | b"size" if is_global => {
                            return Ok(Err("it names all entries alike".to_owned()));
                        }
                        b"path" => said.name = Some(value.to_vec()),
                        b"size" => {
                            let text = std::str::from_utf8(value).ok();
                            said.size = text.and_then(|text| text.parse().ok());
                            if said.size.is_none() {
                                return Ok(Err(
                                    "a length in a pax record is not a number".to_owned()
                                ));
                            }
                        }
                        _ if key.starts_with(b"GNU.sparse") => {
                            let message =
                                "it holds a sparse file, which programs unpack differently";
                            return Ok(Err(message.to_owned()));
                        }
                        _ => {}
                    }
                }
            }
            None => return Ok(Err("a pax record is damaged".to_owned())),
        }
    }
    Ok(Ok(said))
}

/// The records of a pax entry: `LENGTH KEY=VALUE\n` each, the length counting all of it.
fn records(mut bytes: &[u8]) -> Option<Vec<(&[u8], &[u8])>> {
    let mut found = Vec::new();
    while !bytes.is_empty() {
        let space = bytes.iter().position(|byte| *byte == b' ')?;
        let length: usize = std::str::from_utf8(&bytes[..space]).ok()?.parse().ok()?;
        let record = bytes.get(space + 1..length)?.strip_suffix(b"\n")?;
        let equals = record.iter().position(|byte| *byte == b'=')?;
        found.push((&record[..equals], &record[equals + 1..]));
        bytes = &bytes[length..];
    }
    Some(found)
}
