//! A bag in one text file: `== PATH` begins a file, `{sha256 PATH}` stands for a digest.
//!
//! ```text
//! == bagit.txt
//! BagIt-Version: 1.0
//! Tag-File-Character-Encoding: UTF-8
//! == data/a.txt
//! oil on the seal
//! == manifest-sha256.txt
//! {sha256 data/a.txt}  data/a.txt
//! == folder data/empty
//! == link data/b.txt -> ../../elsewhere
//! == says
//! not intact
//! ```
//!
//! In bodies and paths `\r`, `\n`, `\\`, `\u(FEFF)` are signs; a `\` at the end of a line takes the
//! line's end away.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The heading of the part that holds what is said of the bag.
pub const SAYS: &str = "== says\n";

/// A bag that was read from its description.
#[derive(Default)]
pub struct Described {
    bodies: BTreeMap<String, String>,
    folders: Vec<String>,
    links: Vec<(String, String)>,
}

impl Described {
    /// Reads a description up to the part on what is said of it.
    pub fn read(text: &str) -> Self {
        let mut bag = Self::default();
        let text = text.split(SAYS).next().unwrap();
        let text = text.strip_prefix("== ").expect("a bag begins with `== PATH`");
        for part in text.split("\n== ") {
            let (head, body) = part.split_once('\n').unwrap_or((part, ""));
            let body = if body.is_empty() || body.ends_with('\n') {
                body.to_owned()
            } else {
                format!("{body}\n")
            };
            if let Some(folder) = head.strip_prefix("folder ") {
                bag.folders.push(signs(folder));
            } else if let Some(link) = head.strip_prefix("link ") {
                let (path, target) = link.split_once(" -> ").unwrap();
                bag.links.push((signs(path), signs(target)));
            } else {
                bag.bodies.insert(signs(head), body);
            }
        }
        bag
    }

    /// The bytes of a file, digests put in.
    pub fn bytes(&self, path: &str) -> Vec<u8> {
        let body =
            self.bodies.get(path).unwrap_or_else(|| panic!("no `{path}` to take a digest of"));
        let mut text = String::new();
        let mut rest = body.as_str();
        while let Some((before, after)) = rest.split_once('{') {
            let (what, after) = after.split_once('}').unwrap();
            text.push_str(before);
            match what.split_once(' ') {
                Some((algorithm, path)) => {
                    text.push_str(&digest(algorithm, &self.bytes(&signs(path))));
                }
                None => text.extend(["{", what, "}"]),
            }
            rest = after;
        }
        text.push_str(rest);
        signs(&text).into_bytes()
    }

    /// Every file by path.
    pub fn files(&self) -> BTreeMap<String, Vec<u8>> {
        self.bodies.keys().map(|path| (path.clone(), self.bytes(path))).collect()
    }

    /// Writes the bag into a new folder.
    pub fn write(&self, folder: &Path) {
        for (path, bytes) in self.files() {
            let place = folder.join(path);
            fs::create_dir_all(place.parent().unwrap()).unwrap();
            fs::write(place, bytes).unwrap();
        }
        for path in &self.folders {
            fs::create_dir_all(folder.join(path)).unwrap();
        }
        #[cfg(unix)]
        for (path, target) in &self.links {
            std::os::unix::fs::symlink(target, folder.join(path)).unwrap();
        }
    }
}

/// Takes the signs of a description out of a text.
fn signs(text: &str) -> String {
    let text = text.replace("\\\n", "").replace("\\\\", "\u{1}");
    let text = text.replace("\\r", "\r").replace("\\n", "\n").replace('\u{1}', "\\");
    let mut out = String::new();
    let mut rest = text.as_str();
    while let Some((before, after)) = rest.split_once("\\u(") {
        let (code, after) = after.split_once(')').unwrap();
        out.push_str(before);
        out.push(char::from_u32(u32::from_str_radix(code, 16).unwrap()).unwrap());
        rest = after;
    }
    out + rest
}

fn digest(algorithm: &str, bytes: &[u8]) -> String {
    fn hex(bytes: &[u8]) -> String {
        bytes.iter().map(|byte| format!("{byte:02x}")).collect()
    }
    match algorithm {
        "md5" => hex(&<md5::Md5 as md5::Digest>::digest(bytes)),
        "sha1" => hex(&<sha1::Sha1 as sha1::Digest>::digest(bytes)),
        "sha224" => hex(&<sha2::Sha224 as sha2::Digest>::digest(bytes)),
        "sha256" => hex(&<sha2::Sha256 as sha2::Digest>::digest(bytes)),
        "sha384" => hex(&<sha2::Sha384 as sha2::Digest>::digest(bytes)),
        "sha512" => hex(&<sha2::Sha512 as sha2::Digest>::digest(bytes)),
        _ => panic!("no digest `{algorithm}`"),
    }
}

/// A bag as the sealing makes it: two originals, sheet and profile, every tag file sealed.
pub fn sealed_like() -> Described {
    Described::read(include_str!("../bags/good.txt"))
}
