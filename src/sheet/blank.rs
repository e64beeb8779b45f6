//! Shapes -> a commented sheet to fill in.

use std::fmt::Write;

use super::shape::{FieldShape, RecordShape, Shape};

/// A sheet to fill in: needed fields are ready to fill in, all others are comments with an example.
///
/// The first line points an editor to the schema file, so that it offers fields and words.
pub fn blank(schema_file: &str, shape: &Shape) -> String {
    let mut text = format!("# yaml-language-server: $schema={schema_file}\n");
    if let Shape::Record(record) = shape {
        let _ = writeln!(text, "# {}", record.about);
        text.push_str(
            "# Take the `# ` off the lines that you need. `internal:` is never printed.\n\n",
        );
        write_fields(record, "", false, &mut text);
    }
    text
}

fn write_fields(record: &RecordShape, indent: &str, is_comment: bool, text: &mut String) {
    for field in &record.fields {
        write_field(field, indent, is_comment || !field.required, text);
    }
}

fn write_field(field: &FieldShape, indent: &str, is_comment: bool, text: &mut String) {
    let off = if is_comment { "# " } else { "" };
    let about = field.about.trim_end_matches('.');
    match field.shape.record() {
        // A block without an example of its own is written out field by field.
        Some(record) if field.example.is_empty() => {
            let _ = writeln!(text, "{off}{indent}{}: # {about}", field.key);
            let is_list = matches!(field.shape, Shape::List(_));
            let mut inner = String::new();
            write_fields(
                record,
                &format!("{indent}{}", if is_list { "    " } else { "  " }),
                is_comment,
                &mut inner,
            );
            if is_list {
                let first = format!("{off}{indent}    ");
                inner = inner.replacen(&first, &format!("{off}{indent}  - "), 1);
            }
            text.push_str(&inner);
        }
        _ => {
            // What is needed is left empty, so that no example is taken for the truth.
            let (example, needed) = match is_comment {
                true => (field.example, String::new()),
                false => ("", format!(" (needed, such as {})", field.example)),
            };
            let line = format!("{off}{indent}{}: {example}", field.key);
            let _ = writeln!(text, "{line:<56} # {about}{}{needed}", words(&field.shape));
        }
    }
    if indent.is_empty() {
        text.push('\n');
    }
}

/// The choices of a field, if there are few enough to show.
fn words(shape: &Shape) -> String {
    match shape {
        Shape::Words { words, .. } if words.len() < 10 => {
            let words: Vec<&str> = words.iter().map(|one| one.word.as_str()).collect();
            format!(": {}", words.join(", "))
        }
        Shape::List(of) => words(of),
        _ => String::new(),
    }
}
