//! Files made to hurt a reader: each ends in a clear message, quickly, without much memory.

use std::time::{Duration, Instant};

use splitcase::diagnostic::{Diagnostic, Problems};
use splitcase::sheet;

use crate::messages::workshop;

fn read(bytes: &[u8]) -> Vec<Diagnostic> {
    let mut problems = Problems::default();
    let start = Instant::now();
    sheet::read("findings.yaml", bytes, &workshop(), &mut problems);
    // A bound, not a measurement: the slowest of these takes milliseconds.
    assert!(start.elapsed() < Duration::from_secs(10), "took {:?}", start.elapsed());
    problems.into_sorted()
}

fn code_of(bytes: &[u8]) -> &'static str {
    let problems = read(bytes);
    problems.first().unwrap_or_else(|| panic!("no problem was found")).code
}

#[test]
fn a_bomb_of_aliases_is_refused_at_its_first_anchor() {
    let mut bomb = String::from("a: &a [x, x, x, x, x, x, x, x, x, x]\n");
    for level in 0..10 {
        let (from, to) = ((b'a' + level) as char, (b'b' + level) as char);
        bomb += &format!("{to}: &{to} [{}]\n", vec![format!("*{from}"); 10].join(", "));
    }
    assert_eq!(code_of(bomb.as_bytes()), "sheet/anchor");
}

#[test]
fn a_quadratic_bomb_of_aliases_is_refused_at_its_first_anchor() {
    let long = "x".repeat(20_000);
    let bomb = format!("a: &a {long}\nb: [{}]\n", vec!["*a"; 20_000].join(","));
    assert_eq!(code_of(bomb.as_bytes()), "sheet/anchor");
}

#[test]
fn deep_nesting_is_refused_by_depth_or_by_syntax() {
    for open in ["[", "{a: ", "- ", "? "] {
        let deep = open.repeat(50_000);
        let code = code_of(format!("job: {deep}").as_bytes());
        assert!(["sheet/too-deep", "sheet/not-yaml"].contains(&code), "{open:?} gives {code}");
        let code = code_of(deep.as_bytes());
        assert!(["sheet/too-deep", "sheet/not-yaml"].contains(&code), "{open:?} gives {code}");
    }
}

#[test]
fn deep_indentation_is_refused_by_depth() {
    let deep: String = (0..600).map(|level| format!("{}a:\n", " ".repeat(level))).collect();
    assert_eq!(code_of(deep.as_bytes()), "sheet/too-deep");
}

#[test]
fn a_scalar_of_100_megabytes_is_refused_by_length() {
    assert_eq!(code_of(&vec![b'a'; 100 << 20]), "sheet/too-long");
}

#[test]
fn too_many_values_are_refused_by_number() {
    let many: String = (0..100_000).map(|n| format!("k{n}: 1\n")).collect();
    let code = code_of(many.as_bytes());
    assert_eq!(code, "sheet/too-long");
}

#[test]
fn other_encodings_say_how_to_save_the_file() {
    let utf16: Vec<u8> = "\u{feff}job: HD-1".encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(code_of(&utf16), "sheet/encoding");
    let problems = read(b"job: HD-1\ncustomer: {name: J\xfcrgen}\n");
    assert_eq!(problems[0].code, "sheet/encoding");
    assert_eq!(problems[0].message, "line 2 holds bytes that are not UTF-8 text");
    assert!(problems[0].hints[0].contains("UTF-8"));
}

#[test]
fn control_characters_are_named_at_their_place() {
    let problems = read(b"job: HD-1\ncustomer: {name: a\0b}\n");
    assert_eq!(problems[0].code, "sheet/control-character");
    assert_eq!(problems[0].message, "a control character (U+0000) is here");
    let range = problems[0].place.range.clone().unwrap();
    assert_eq!(problems[0].place.source.line_column(range.start), (2, 19));
}

#[test]
fn an_empty_file_and_a_file_of_comments_say_that_there_is_no_field() {
    for text in ["", "\n\n", "# nothing yet\n", "just text", "- a\n- b\n"] {
        assert_eq!(code_of(text.as_bytes()), "sheet/empty", "{text:?}");
    }
}

#[test]
fn a_byte_order_mark_and_windows_line_ends_change_nothing() {
    let plain = "job: HD-1\ncustomer: {name: Jürgen}\nunit: {kind: hub}\narrival: {date: 2026-03-02, water: 40}\n";
    let place = |text: &str| {
        let problems = read(text.as_bytes());
        assert_eq!(problems.len(), 1, "{problems:?}");
        let range = problems[0].place.range.clone().unwrap();
        problems[0].place.source.line_column(range.start)
    };
    assert_eq!(place(plain), (4, 36));
    assert_eq!(place(&format!("\u{feff}{plain}")), (4, 36));
    assert_eq!(place(&plain.replace('\n', "\r\n")), (4, 36));
}

#[test]
fn no_mutation_of_a_sheet_makes_the_reader_panic_or_hang() {
    let sheet = include_bytes!("../samples/hd-2614/findings.yaml");
    // A fixed sequence of numbers (Numerical Recipes' LCG constants) stands in for chance.
    let mut state = 7u32;
    let mut next = |below: usize| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 8) as usize % below
    };
    let pieces: [&[u8]; 12] =
        [b"[", b"{", b": ", b"- ", b"&a ", b"*a", b"\t", b"'", b"\"", b"|", b"\xff", b"#"];
    for _ in 0..400 {
        let mut bytes = sheet.to_vec();
        for _ in 0..=next(4) {
            let at = next(bytes.len());
            match next(3) {
                0 => bytes.truncate(at + 1),
                1 => {
                    bytes.splice(at..at, pieces[next(pieces.len())].iter().copied());
                }
                _ => bytes[at] = bytes[at].wrapping_add(1 + next(255) as u8),
            }
        }
        read(&bytes);
    }
}
