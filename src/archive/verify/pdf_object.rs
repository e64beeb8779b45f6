//! The objects of a PDF (ISO 32000-1, 7.3): bytes at a place -> an object, within bounds.
//!
//! Nesting and the number of objects are limited, since a few bytes can ask for endless ones.

/// Deepest nesting of arrays and dictionaries.
const MAX_DEPTH: usize = 32;
/// Most objects inside one.
const MAX_OBJECTS: usize = 10_000;
/// Longest object in bytes: attachments need dictionaries and short lists alone.
const MAX_SPAN: usize = 64 * 1024;

/// An object, as far as attachments need it.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Object {
    /// A whole number.
    Number(u64),
    /// A name without its slash.
    Name(Vec<u8>),
    /// A string.
    Text(Vec<u8>),
    /// An array.
    Array(Vec<Object>),
    /// A dictionary.
    Dict(Vec<(Vec<u8>, Object)>),
    /// A reference to the object of this number.
    Reference(u64),
    /// Anything else.
    Other,
}

impl Object {
    /// The value of a key of a dictionary.
    pub(super) fn get(&self, key: &str) -> Option<&Object> {
        let Self::Dict(entries) = self else { return None };
        entries.iter().find(|(own, _)| own == key.as_bytes()).map(|(_, value)| value)
    }
}

/// Reads on from a place.
#[derive(Clone, Debug)]
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
    end: usize,
    left: usize,
}

impl<'a> Reader<'a> {
    /// Reads from a place, no further than the longest object; one behind the end reads nothing.
    pub(super) fn at(bytes: &'a [u8], at: usize) -> Self {
        let at = at.min(bytes.len());
        Self { bytes, at, end: at.saturating_add(MAX_SPAN).min(bytes.len()), left: MAX_OBJECTS }
    }

    /// Reads on as far from where it has come to.
    pub(super) fn go_on(&mut self) {
        *self = Self::at(self.bytes, self.at);
    }

    /// What follows in the file, however long.
    pub(super) fn rest_of_file(&self) -> &'a [u8] {
        &self.bytes[self.at..]
    }

    fn rest(&self) -> &'a [u8] {
        &self.bytes[self.at..self.end]
    }

    fn peek(&self) -> Option<u8> {
        self.rest().first().copied()
    }

    /// Steps over white space and comments.
    pub(super) fn skip_space(&mut self) {
        while let Some(byte) = self.peek() {
            if byte == b'%' {
                while self.peek().is_some_and(|byte| !matches!(byte, b'\r' | b'\n')) {
                    self.at += 1;
                }
            } else if is_space(byte) {
                self.at += 1;
            } else {
                return;
            }
        }
    }

    /// Steps over a word if it follows.
    pub(super) fn take(&mut self, word: &str) -> bool {
        self.skip_space();
        let follows = self.rest().starts_with(word.as_bytes());
        if follows {
            self.at += word.len();
        }
        follows
    }

    /// A whole number without a sign.
    pub(super) fn number(&mut self) -> Option<u64> {
        self.skip_space();
        let digits = self.rest().iter().take_while(|byte| byte.is_ascii_digit()).count();
        let number = std::str::from_utf8(&self.rest()[..digits]).ok()?.parse().ok()?;
        self.at += digits;
        Some(number)
    }

    /// The next object; nothing if there is none or it goes beyond all bounds.
    pub(super) fn object(&mut self) -> Option<Object> {
        self.nested(MAX_DEPTH)
    }

    fn nested(&mut self, depth: usize) -> Option<Object> {
        self.left = self.left.checked_sub(1)?;
        let depth = depth.checked_sub(1)?;
        self.skip_space();
        match self.peek()? {
            b'/' => Some(Object::Name(self.name())),
            b'(' => self.text().map(Object::Text),
            b'[' => {
                self.at += 1;
                let mut items = Vec::new();
                while !self.take("]") {
                    items.push(self.nested(depth)?);
                }
                Some(Object::Array(items))
            }
            b'<' if self.rest().starts_with(b"<<") => {
                self.at += 2;
                let mut entries = Vec::new();
                while !self.take(">>") {
                    if self.peek()? != b'/' {
                        return None;
                    }
                    entries.push((self.name(), self.nested(depth)?));
                }
                Some(Object::Dict(entries))
            }
            b'<' => self.hexadecimal().map(Object::Text),
            b'0'..=b'9' => Some(self.number_or_reference()),
            _ => self.word(),
        }
    }

    fn number_or_reference(&mut self) -> Object {
        let Some(number) = self.number() else { return self.word().unwrap_or(Object::Other) };
        if self.peek() == Some(b'.') {
            return self.word().unwrap_or(Object::Other);
        }
        let mut ahead = self.clone();
        let is_reference = ahead.number().is_some() && ahead.take("R");
        if is_reference && ahead.peek().is_none_or(is_end) {
            self.at = ahead.at;
            return Object::Reference(number);
        }
        Object::Number(number)
    }

    /// A keyword or a number of another kind.
    fn word(&mut self) -> Option<Object> {
        let length = self.rest().iter().take_while(|byte| !is_end(**byte)).count();
        self.at += length;
        (length > 0).then_some(Object::Other)
    }

    fn name(&mut self) -> Vec<u8> {
        self.at += 1;
        let length = self.rest().iter().take_while(|byte| !is_end(**byte)).count();
        let mut raw = &self.rest()[..length];
        self.at += length;
        let mut name = Vec::with_capacity(length);
        while let [first, rest @ ..] = raw {
            let code = rest.get(..2).and_then(|code| std::str::from_utf8(code).ok());
            let code = code.and_then(|code| u8::from_str_radix(code, 16).ok());
            match (first, code) {
                (b'#', Some(code)) => {
                    name.push(code);
                    raw = &rest[2..];
                }
                _ => {
                    name.push(*first);
                    raw = rest;
                }
            }
        }
        name
    }

    /// A string in round brackets; of its codes only the brackets' own matter here.
    fn text(&mut self) -> Option<Vec<u8>> {
        let mut text = Vec::new();
        let mut open = 0_usize;
        loop {
            let byte = self.peek()?;
            self.at += 1;
            match byte {
                b'\\' => {
                    text.push(self.peek()?);
                    self.at += 1;
                }
                b'(' => {
                    if open > 0 {
                        text.push(byte);
                    }
                    open += 1;
                }
                b')' => {
                    open -= 1;
                    if open == 0 {
                        return Some(text);
                    }
                    text.push(byte);
                }
                _ => text.push(byte),
            }
        }
    }

    fn hexadecimal(&mut self) -> Option<Vec<u8>> {
        let length = self.rest().iter().position(|byte| *byte == b'>')?;
        let inside = &self.rest()[1..length];
        self.at += length + 1;
        let mut digits: Vec<u8> = inside.iter().copied().filter(|byte| !is_space(*byte)).collect();
        if !digits.len().is_multiple_of(2) {
            digits.push(b'0');
        }
        let pairs = digits.as_chunks::<2>().0.iter();
        pairs
            .map(|pair| {
                std::str::from_utf8(pair).ok().and_then(|pair| u8::from_str_radix(pair, 16).ok())
            })
            .collect()
    }
}

fn is_space(byte: u8) -> bool {
    matches!(byte, 0 | b'\t' | b'\n' | 0x0c | b'\r' | b' ')
}

fn is_end(byte: u8) -> bool {
    is_space(byte) || b"()<>[]{}/%".contains(&byte)
}
