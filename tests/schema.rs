//! The printed JSON Schema, judged by a reference library (the `jsonschema` crate, draft 2020-12).

use std::fs;
use std::path::Path;

use serde_json::Value as Json;

fn as_json(yaml: &str) -> Json {
    let value: serde_yaml::Value = serde_yaml::from_str(yaml).unwrap();
    serde_json::to_value(value).unwrap()
}

fn errors(schema: &Json, instance: &Json) -> Vec<String> {
    let validator = jsonschema::draft202012::new(schema).unwrap();
    validator.iter_errors(instance).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

#[test]
fn both_schemas_are_themselves_valid() {
    for schema in [splitcase::start::findings_schema(), splitcase::start::workshop_schema()] {
        assert!(jsonschema::draft202012::meta::is_valid(&schema));
    }
}

#[test]
fn every_sample_fits_its_schema() {
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let profile = fs::read_to_string(samples.join("workshop.yaml")).unwrap();
    assert_eq!(errors(&splitcase::start::workshop_schema(), &as_json(&profile)), Vec::<String>::new());
    let schema = splitcase::start::findings_schema();
    let mut n_sheets = 0;
    for entry in fs::read_dir(samples).unwrap() {
        let sheet = entry.unwrap().path().join("findings.yaml");
        if let Ok(text) = fs::read_to_string(&sheet) {
            assert_eq!(errors(&schema, &as_json(&text)), Vec::<String>::new(), "{sheet:?}");
            n_sheets += 1;
        }
    }
    assert!(6 <= n_sheets);
}

#[test]
fn what_the_reader_refuses_the_schema_refuses_too() {
    let good = "job: HD-1\ncustomer: {name: N}\nunit: {kind: hub}\narrival: {date: 2026-03-02}\n";
    let schema = splitcase::start::findings_schema();
    assert_eq!(errors(&schema, &as_json(good)), Vec::<String>::new());
    for (right, wrong) in [
        ("job: HD-1", "job: HD 1"),
        ("customer:", "custommer:"),
        ("name: N", "nam: N"),
        ("kind: hub", "kind: hubb"),
        ("2026-03-02", "2 March"),
        ("2026-03-02}", "2026-03-02, water: 40}"),
        ("2026-03-02}", "2026-03-02, water: 40 mm}"),
        ("2026-03-02}", "2026-03-02, photos: [{marks: []}]}"),
    ] {
        let sheet = good.replace(right, wrong);
        assert_ne!(sheet, good);
        assert_ne!(errors(&schema, &as_json(&sheet)), Vec::<String>::new(), "{sheet}");
    }
}

#[test]
fn internal_remarks_may_stand_in_every_block() {
    let sheet = "job: HD-1\ninternal: {cost: [1, 2]}\ncustomer: {name: N, internal: x}\nunit: {kind: hub, internal: x}\narrival: {date: 2026-03-02, internal: x}\n";
    assert_eq!(errors(&splitcase::start::findings_schema(), &as_json(sheet)), Vec::<String>::new());
}
