//! The fonts of the papers, built in, and which letters they have.

use std::sync::LazyLock;

use include_dir::{Dir, include_dir};
use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Feature, Library, LibraryExt};

static FONT_FILES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/fonts");

/// Library and fonts, which no template changes.
pub(super) struct Type {
    pub(super) library: LazyHash<Library>,
    pub(super) book: LazyHash<FontBook>,
    pub(super) fonts: Vec<Font>,
}

/// Library and fonts, set up once.
pub(super) static TYPE: LazyLock<Type> = LazyLock::new(|| {
    let mut files: Vec<_> = FONT_FILES.dirs().flat_map(Dir::files).collect();
    files.sort_by_key(|file| file.path());
    let fonts: Vec<Font> =
        files.iter().flat_map(|file| Font::iter(Bytes::new(file.contents()))).collect();
    let book = FontBook::from_fonts(&fonts);
    // Heads of rows have a scope of their own by it.
    let features = [Feature::A11yExtras].into_iter().collect();
    let library = Library::builder().with_features(features).build();
    Type { library: LazyHash::new(library), book: LazyHash::new(book), fonts }
});

/// The first character of a text that no font has.
pub fn unprintable(text: &str) -> Option<(usize, char)> {
    text.char_indices().find(|&(_, c)| {
        let is_private = matches!(c, '\u{e000}'..='\u{f8ff}');
        let has_glyph =
            || TYPE.fonts.iter().any(|font| font.info().coverage.contains(u32::from(c)));
        is_private || !(c.is_control() || has_glyph())
    })
}

/// A file's name as paper can show it: what no font has becomes `?`. The manifest holds the name as it is.
pub fn printable(name: &str) -> String {
    let shown = |c: char| {
        let is_lost = c.is_control() || unprintable(c.encode_utf8(&mut [0; 4])).is_some();
        if is_lost { '?' } else { c }
    };
    name.chars().map(shown).collect()
}
