//! Named pieces of bytes in one stream, for the pipe between this program and its child.
//!
//! Each piece is the length of its name, its name, the length of its bytes, its bytes; lengths are eight
//! bytes, the highest first. What a piece means is not here.

/// Adds a piece to a stream.
pub fn add(stream: &mut Vec<u8>, name: &str, bytes: &[u8]) {
    for part in [name.as_bytes(), bytes] {
        stream.extend((part.len() as u64).to_be_bytes());
        stream.extend(part);
    }
}

/// Every piece of a stream with its name; `None` if it is cut short.
pub fn read(mut stream: &[u8]) -> Option<Vec<(String, Vec<u8>)>> {
    let mut part = || -> Option<&[u8]> {
        let (length, rest) = stream.split_first_chunk::<8>()?;
        let length = usize::try_from(u64::from_be_bytes(*length)).ok()?;
        let (bytes, rest) = rest.split_at_checked(length)?;
        stream = rest;
        Some(bytes)
    };
    let mut pieces = Vec::new();
    while let Some(name) = part() {
        let name = String::from_utf8(name.to_vec()).ok()?;
        pieces.push((name, part()?.to_vec()));
    }
    stream.is_empty().then_some(pieces)
}

#[cfg(test)]
mod tests {
    use super::{add, read};

    #[test]
    fn a_stream_reads_back_and_one_that_is_cut_short_does_not() {
        let mut stream = Vec::new();
        add(&mut stream, "a", b"");
        add(&mut stream, "file /b", &[0, 255, 7]);
        let pieces = vec![("a".to_owned(), vec![]), ("file /b".to_owned(), vec![0, 255, 7])];
        assert_eq!(read(&stream), Some(pieces));
        assert_eq!(read(&stream[..stream.len() - 1]), None);
        assert_eq!(read(&[255; 16]), None);
    }
}
