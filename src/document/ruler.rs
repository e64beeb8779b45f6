//! How wide a text is and how many lines it takes, counted letter by letter before anything is set, so
//! that no page is set twice to find out.
//!
//! In: a text, a voice of the papers, a size; out: points and lines. Which sizes there are is the
//! layouts' (`report-templates/shared/voice.typ`). Kerning is left out, so a line may be a hair shorter.

use std::sync::LazyLock;

use typst::layout::{Abs, Ratio};
use typst::text::{FontInstance, FontStretch, FontStyle, FontVariant, FontVariations, FontWeight};

use super::fonts;

/// A voice of the papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    /// What is said to a person.
    Serif,
    /// The same in strong letters.
    Strong,
    /// Facts.
    Sans,
}

/// Letters whose widths are looked up once: Latin, Greek and Cyrillic.
const KNOWN: usize = 0x530;
/// A letter beyond those, as a share of the size.
const OTHER: f64 = 0.6;
/// The facts are set so narrow, as a share of the usual width.
const NARROW: f64 = 0.85;

/// Widths of letters as shares of the size.
struct Widths {
    serif: Vec<f64>,
    strong: Vec<f64>,
    sans: Vec<f64>,
}

static WIDTHS: LazyLock<Widths> = LazyLock::new(|| Widths {
    serif: widths("Source Serif 4", FontWeight::REGULAR, 1.0),
    strong: widths("Source Serif 4", FontWeight::SEMIBOLD, 1.0),
    sans: widths("IBM Plex Sans", FontWeight::REGULAR, NARROW),
});

fn widths(family: &str, weight: FontWeight, stretch: f64) -> Vec<f64> {
    let stretch = FontStretch::from_ratio(Ratio::new(stretch));
    let variant = FontVariant::new(FontStyle::Normal, weight, stretch);
    let book = &fonts::TYPE.book;
    let font = book.select(&family.to_lowercase(), variant);
    let font = font.and_then(|index| fonts::TYPE.fonts.get(index)).cloned();
    let font =
        font.map(|font| font.instantiate(variant, Abs::pt(10.0), &FontVariations::default()));
    let of = |code| font.as_ref().and_then(|font| of_letter(font, code)).unwrap_or(OTHER);
    (0..KNOWN).map(of).collect()
}

fn of_letter(font: &FontInstance, code: usize) -> Option<f64> {
    let letter = u32::try_from(code).ok().and_then(char::from_u32)?;
    let glyph = font.ttf().glyph_index(letter)?;
    font.x_advance(glyph.0).map(typst::layout::Em::get)
}

/// Width of a text on one line, in points.
pub fn width(text: &str, voice: Voice, size: f64) -> f64 {
    let table = match voice {
        Voice::Serif => &WIDTHS.serif,
        Voice::Strong => &WIDTHS.strong,
        Voice::Sans => &WIDTHS.sans,
    };
    let of = |letter: char| {
        let at = usize::try_from(u32::from(letter)).unwrap_or(KNOWN);
        table.get(at).copied().unwrap_or(OTHER)
    };
    size * text.chars().map(of).sum::<f64>()
}

/// How many lines a text takes in a column of a width in points; none if it is empty. A word that is
/// longer than a line is broken in it.
pub fn lines(text: &str, voice: Voice, size: f64, column: f64) -> usize {
    let space = width(" ", voice, size);
    let (mut lines, mut used) = (0_usize, f64::INFINITY);
    for word in text.split([' ', '\n']).filter(|word| !word.is_empty()) {
        let mut rest = width(word, voice, size);
        if used + space + rest <= column {
            used += space + rest;
            continue;
        }
        lines += 1;
        while column < rest {
            lines += 1;
            rest -= column;
        }
        used = rest;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::{Voice, lines, width};

    #[test]
    fn strong_letters_are_wider_and_facts_narrower() {
        let text = "Water got past the drive-side seal";
        let serif = width(text, Voice::Serif, 10.0);
        assert!(serif < width(text, Voice::Strong, 10.0));
        assert!(width(text, Voice::Sans, 10.0) < serif);
        assert!((2.0 * serif - width(text, Voice::Serif, 20.0)).abs() < 1e-9);
        assert!((140.0..180.0).contains(&serif), "{serif}");
    }

    #[test]
    fn lines_are_broken_between_words_and_in_a_word_that_is_longer() {
        assert_eq!(lines("", Voice::Serif, 10.0, 100.0), 0);
        assert_eq!(lines("one", Voice::Serif, 10.0, 100.0), 1);
        let text = "one two three four five six seven";
        let whole = width(text, Voice::Serif, 10.0);
        assert_eq!(lines(text, Voice::Serif, 10.0, whole + 0.1), 1);
        assert_eq!(lines(text, Voice::Serif, 10.0, whole - 0.1), 2);
        assert!((5..=7).contains(&lines(&"x".repeat(100), Voice::Serif, 10.0, 100.0)));
    }
}
