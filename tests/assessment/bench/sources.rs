//! Sources: every one has its row, and no paper reads where a figure was remembered.

use std::fs;
use std::path::Path;

use splitcase::assessment::sources::{SOURCES, SourceId, SourceRow, Standing};

/// Everything that the bench's rules are written in.
fn rules() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/assessment/bench");
    let folders = [root.clone(), root.join("ride_limits"), root.join("bearing")];
    let files = folders.iter().flat_map(|folder| fs::read_dir(folder).unwrap());
    let paths = files.map(|entry| entry.unwrap().path()).filter(|path| path.is_file());
    paths.map(|path| fs::read_to_string(path).unwrap()).collect()
}

#[test]
fn every_source_is_cited_and_nothing_rests_on_one_that_was_not_read() {
    let rules = rules();
    for source in SourceId::ALL {
        assert!(rules.contains(&format!("SourceId::{source:?}")), "{source:?} is cited nowhere");
        assert_eq!(source.row().unwrap().standing, Standing::Read, "{source:?}");
    }
}

#[test]
fn every_source_has_one_row_and_every_row_a_source() {
    assert_eq!(SOURCES.len(), SourceId::ALL.len());
    for source in SourceId::ALL {
        let row = source.row().unwrap_or_else(|| panic!("{source:?}"));
        assert!(!row.citation.trim().is_empty() && !row.on.trim().is_empty(), "{source:?}");
    }
}

#[test]
fn a_citation_says_its_edition_and_nothing_of_how_it_was_learned() {
    for row in SOURCES.iter() {
        let words =
            ["memory", "second hand", "told", "catalogue", "council", "http", "www", ".co.uk"];
        for word in words {
            assert!(!row.citation.to_lowercase().contains(word), "{}", row.citation);
        }
        let year = row.edition.get(..4).unwrap_or("");
        assert!(row.citation.contains(year), "{}", row.citation);
    }
}

#[test]
fn a_misspelt_source_does_not_load() {
    let row = |id: &str| format!("[{{id: {id}, citation: x, edition: '', standing: read, on: x}}]");
    assert!(serde_yaml::from_str::<Vec<SourceRow>>(&row("iso-286-2")).is_ok());
    assert!(serde_yaml::from_str::<Vec<SourceRow>>(&row("iso-286-3")).is_err());
}
