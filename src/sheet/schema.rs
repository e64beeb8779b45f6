//! Shapes -> JSON Schema (2020-12) of the sheet and the profile, for editors and other programs.

use serde_json::{Map, Value as Json, json};

use super::as_meant;
use super::lexicon::entry::Entry;
use super::reader::INTERNAL;
use super::shape::{Choice, FieldShape, RecordShape, Shape};
use super::spelling::as_word;

/// The schema of one kind of file.
pub fn schema(title: &str, shape: &Shape) -> Json {
    let mut definitions = Map::new();
    let root = of_shape(shape, &mut definitions);
    let mut schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
    });
    if let (Some(schema), Json::Object(root)) = (schema.as_object_mut(), root) {
        schema.extend(root);
        schema.insert("$defs".into(), Json::Object(definitions));
    }
    schema
}

/// Scalars may look like numbers or truth values to an editor, since YAML types them by look.
fn of_shape(shape: &Shape, definitions: &mut Map<String, Json>) -> Json {
    match shape {
        Shape::Text => json!({"type": ["string", "number", "boolean"]}),
        Shape::Form { pattern, example, .. } => {
            json!({"type": "string", "pattern": pattern, "examples": [example.trim_matches('"')]})
        }
        Shape::Integer => json!({"type": "integer", "minimum": 1, "maximum": 999}),
        Shape::Number { least, most, .. } => {
            json!({"type": "number", "minimum": least, "maximum": most})
        }
        Shape::Words { name, words } => {
            let list = || json!({"oneOf": constants(name, words)});
            let name = as_word(name);
            definitions.entry(name.clone()).or_insert_with(list);
            json!({"$ref": format!("#/$defs/{name}")})
        }
        // One value is read as a list of one.
        Shape::List(of) => {
            let item = of_shape(of, definitions);
            json!({"anyOf": [{"type": "array", "items": item}, item]})
        }
        Shape::Record(record) => {
            if !definitions.contains_key(record.name) {
                // Set first, so that a block that holds itself ends.
                definitions.insert(record.name.into(), Json::Null);
                let body = of_record(record, definitions);
                definitions.insert(record.name.into(), body);
            }
            let block = json!({"$ref": format!("#/$defs/{}", record.name)});
            match as_meant::takes_one_word(record.name) {
                true => json!({"anyOf": [block, of_shape(&Shape::Text, definitions)]}),
                false => block,
            }
        }
        Shape::Either(of) => {
            let forms: Vec<Json> = of.iter().map(|one| of_shape(one, definitions)).collect();
            json!({"anyOf": forms})
        }
    }
}

/// Each word with what is said of it, which editors show beside it.
///
/// An editor may take `on` and `no` for truth values, as YAML 1.1 did.
fn constants(kind: &str, words: &[Choice]) -> Vec<Json> {
    let constant = |value: Json, choice: &Choice| {
        let said = Entry::of(kind, choice).description();
        json!({"const": value, "description": said})
    };
    let typed = words.iter().map(|choice| constant(json!(choice.word), choice));
    let truth = words.iter().filter_map(|choice| {
        let value = match choice.word.as_str() {
            "on" | "yes" => true,
            "off" | "no" => false,
            _ => return None,
        };
        Some(constant(json!(value), choice))
    });
    typed.chain(truth).collect()
}

fn of_record(record: &RecordShape, definitions: &mut Map<String, Json>) -> Json {
    let required: Vec<&str> = record
        .fields
        .iter()
        .filter(|field| field.required)
        .map(|field| field.key.as_str())
        .collect();
    let mut properties: Map<String, Json> = record
        .fields
        .iter()
        .map(|field| (field.key.clone(), of_field(field, definitions)))
        .collect();
    properties
        .insert(INTERNAL.into(), json!({"description": "For the workshop alone; never printed."}));
    json!({
        "type": "object",
        "description": record.about,
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

fn of_field(field: &FieldShape, definitions: &mut Map<String, Json>) -> Json {
    let form = of_shape(&field.shape, definitions);
    // An optional field may be left with nothing after its colon.
    let mut form = if field.required { form } else { json!({"anyOf": [form, {"type": "null"}]}) };
    if let Some(form) = form.as_object_mut() {
        form.insert("description".into(), field.about.clone().into());
    }
    form
}
