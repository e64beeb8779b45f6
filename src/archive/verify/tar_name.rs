//! Entries of a tar that only say something of the next one: long names and pax records.

use std::io::{self, Read};

use ::tar::EntryType;

/// Longest such entry in bytes; a path of any disk is far shorter.
const MAX_BYTES: u64 = 64 * 1024;

/// What was said of the next entry.
#[derive(Debug, Default)]
pub(super) struct Extension {
    /// Its name.
    pub name: Option<Vec<u8>>,
    /// Its length in bytes, for files above 8 GiB.
    pub size: Option<u64>,
}

impl Extension {
    /// True where nothing was said.
    pub(super) fn is_empty(&self) -> bool {
        self.name.is_none() && self.size.is_none()
    }
}

/// True for entries that only say something of the next.
pub(super) fn is_extension(kind: EntryType) -> bool {
    kind.is_gnu_longname()
        || kind.is_gnu_longlink()
        || kind.is_pax_local_extensions()
        || kind.is_pax_global_extensions()
}

/// Reads such an entry, in addition to what others before it said.
///
/// # Errors
/// Outside: reading fails. Inside: what is wrong with the entry.
pub(super) fn read(
    kind: EntryType,
    size: u64,
    from: impl Read,
    mut said: Extension,
) -> io::Result<Result<Extension, String>> {
    if size > MAX_BYTES {
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
                                return Ok(Err("a length in a pax record is no number".to_owned()));
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
