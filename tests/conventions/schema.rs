//! A JSON document held against a JSON Schema, in the few keywords that `output.schema.json` uses.
//!
//! Keywords after JSON Schema 2020-12 (core and validation vocabularies); `.ci/outside/schema_check.py`
//! holds the same schema against the reference library. A keyword that is not known here is a failure.

use serde_json::Value;

/// What is wrong with a document, each with its place; nothing if it is as the schema says.
pub fn faults(document: &Value, root: &Value) -> Vec<String> {
    let mut found = Vec::new();
    check(document, root, root, "", &mut found);
    found
}

fn check(value: &Value, schema: &Value, root: &Value, at: &str, found: &mut Vec<String>) {
    let keywords = schema.as_object().unwrap_or_else(|| panic!("{at}: no schema"));
    for (keyword, rule) in keywords {
        let mut wrong = |what: String| found.push(format!("{at}: {what}"));
        match keyword.as_str() {
            "$schema" | "$defs" | "title" | "description" => {}
            "$ref" => {
                let target = rule.as_str().unwrap().strip_prefix('#').unwrap();
                check(value, root.pointer(target).unwrap(), root, at, found);
            }
            "const" if value != rule => wrong(format!("{value} is not {rule}")),
            "enum" if !rule.as_array().unwrap().contains(value) => {
                wrong(format!("{value} is none of {rule}"));
            }
            "type" if !types(rule).any(|name| is_of(value, name)) => {
                wrong(format!("{value} is not of type {rule}"));
            }
            "minimum" if value.as_f64().is_some_and(|value| value < rule.as_f64().unwrap()) => {
                wrong(format!("{value} is below {rule}"));
            }
            "minLength"
                if value
                    .as_str()
                    .is_some_and(|text| (text.chars().count() as u64) < rule.as_u64().unwrap()) =>
            {
                wrong(format!("{value} is shorter than {rule}"));
            }
            "maxItems"
                if value
                    .as_array()
                    .is_some_and(|items| rule.as_u64().unwrap() < items.len() as u64) =>
            {
                wrong(format!("more than {rule} items"));
            }
            "const" | "enum" | "type" | "minimum" | "minLength" | "maxItems" => {}
            "required" => {
                for name in rule.as_array().unwrap() {
                    let name = name.as_str().unwrap();
                    if value.as_object().is_some_and(|object| !object.contains_key(name)) {
                        wrong(format!("`{name}` is missing"));
                    }
                }
            }
            "additionalProperties" => {
                assert_eq!(rule, &Value::Bool(false));
                let known = keywords.get("properties").and_then(Value::as_object).unwrap();
                for name in value.as_object().into_iter().flat_map(serde_json::Map::keys) {
                    if !known.contains_key(name) {
                        wrong(format!("`{name}` is not described"));
                    }
                }
            }
            "properties" => {
                for (name, inner) in rule.as_object().unwrap() {
                    if let Some(value) = value.get(name) {
                        check(value, inner, root, &format!("{at}/{name}"), found);
                    }
                }
            }
            "items" => {
                for (n, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(item, rule, root, &format!("{at}/{n}"), found);
                }
            }
            "anyOf" => {
                let tried = rule.as_array().unwrap().iter().map(|inner| {
                    let mut faults = Vec::new();
                    check(value, inner, root, at, &mut faults);
                    faults
                });
                let tried: Vec<_> = tried.collect();
                if tried.iter().all(|faults| !faults.is_empty()) {
                    let nearest = tried.into_iter().min_by_key(Vec::len).unwrap();
                    wrong(format!("fits no branch: {nearest:?}"));
                }
            }
            other => panic!("this test does not know the keyword `{other}`"),
        }
    }
}

fn types(rule: &Value) -> impl Iterator<Item = &str> {
    let many = rule.as_array().into_iter().flatten().filter_map(Value::as_str);
    rule.as_str().into_iter().chain(many)
}

fn is_of(value: &Value, name: &str) -> bool {
    match name {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "integer" => value.is_i64() || value.is_u64(),
        "number" => value.is_number(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        other => panic!("there is no type `{other}`"),
    }
}
