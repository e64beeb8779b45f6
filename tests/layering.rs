//! The house: arrows and circles of imports, length of files, heads of files, the disk at the two ends only.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Stages from the ground up; a file imports only from its own stage and those before it.
const STAGES: &[&str] = &[
    "diagnostic",
    "failure",
    "console",
    "digest",
    "workers",
    "spreadsheet",
    "sheet",
    "photo",
    "assessment",
    "document",
    "archive",
    "intake",
    "output",
    "workshop",
    "album",
    "marking",
    "neighbours",
    "job",
    "sealing",
    "remaking",
    "batch",
    "import",
    "standing",
    "overview",
    "scaffold",
    "cli",
    "commands",
    "lib",
    "main",
];

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, ending));
        } else if path.extension().is_some_and(|own| own == ending) {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

pub fn sources() -> Vec<(String, String)> {
    let src = root().join("src");
    let named = |path: PathBuf| {
        let name = path.strip_prefix(&src).unwrap().to_str().unwrap().to_owned();
        (name, fs::read_to_string(path).unwrap())
    };
    files(&src, "rs").into_iter().map(named).collect()
}

fn stage(file: &str) -> usize {
    let first = file.split(['/', '.']).next().unwrap();
    STAGES.iter().position(|stage| *stage == first).unwrap_or_else(|| panic!("{file} has no stage"))
}

#[test]
fn imports_run_downward_only() {
    let files = sources();
    for (file, imported) in imports(&files) {
        for target in imported {
            assert!(stage(&target) <= stage(&file), "{file} imports upward from {target}");
        }
    }
}

#[test]
fn an_import_through_the_parent_is_seen_as_well() {
    let file = |name: &str, text: &str| (name.to_owned(), text.to_owned());
    let files = [
        file("sheet/price.rs", "fn f() -> super::super::photo::Digest { photo::none() }"),
        file("photo.rs", "mod digest;\npub use digest::Digest;"),
        file("photo/digest.rs", "// use crate::job;\nuse super::{kind::{self, Kind}, budget};"),
        file("photo/kind.rs", ""),
        file("photo/budget.rs", "const A: &str = \"crate::job\";"),
        file("sheet.rs", "mod price;"),
    ];
    let found = imports(&files);
    let of = |file: &str| found[file].iter().map(String::as_str).collect::<Vec<_>>();
    assert_eq!(of("sheet/price.rs"), ["photo.rs"]);
    assert_eq!(of("photo.rs"), ["photo/digest.rs"]);
    assert_eq!(of("photo/digest.rs"), ["photo/budget.rs", "photo/kind.rs"]);
    assert_eq!(of("photo/budget.rs"), [""; 0]);
    assert_eq!(circles(&found), [["photo.rs"; 0]; 0]);
    let round = [
        file("photo.rs", "mod kind;\nuse kind::Kind;"),
        file("photo/kind.rs", "use super::Photo;"),
    ];
    assert_eq!(circles(&imports(&round)), [["photo.rs", "photo/kind.rs"]]);
}

#[test]
fn no_files_import_each_other_in_a_circle() {
    let all = imports(&sources());
    let found = circles(&all);
    assert!(found.is_empty(), "these files import each other: {found:#?}");
}

/// What each file imports of the others, by `use` or by a path in its text.
fn imports(files: &[(String, String)]) -> BTreeMap<String, BTreeSet<String>> {
    let modules: BTreeMap<Vec<&str>, &str> = files
        .iter()
        .map(|(name, _)| {
            let path = name.trim_end_matches(".rs");
            (if path == "lib" { Vec::new() } else { path.split('/').collect() }, name.as_str())
        })
        .collect();
    let found = modules.iter().map(|(own, name)| {
        let (_, text) = files.iter().find(|(file, _)| file == name).unwrap();
        let targets = paths(&plain(text)).into_iter();
        let targets = targets.filter_map(|path| resolved(&path, own, &modules));
        ((*name).to_owned(), targets.filter(|to| to != name).map(str::to_owned).collect())
    });
    found.collect()
}

/// A source without comments, texts and the tests inside it.
fn plain(text: &str) -> String {
    let text = text.split("#[cfg(test)]").next().unwrap();
    let is_comment = |line: &&str| line.trim_start().starts_with("//");
    let lines = text.lines().filter(|line| !is_comment(line));
    let lines = lines.map(|line| line.split(" //").next().unwrap());
    let text = lines.collect::<Vec<_>>().join("\n").replace("\\\"", "").replace("'\"'", "");
    // Who may see a name is no import.
    let text = text.replace("(in crate::", "(");
    text.split('"').step_by(2).collect::<Vec<_>>().join("\"\"")
}

/// Every path of a source, those of a `use` with its braces opened.
fn paths(text: &str) -> Vec<Vec<String>> {
    let mut paths = Vec::new();
    let mut rest = text.to_owned();
    while let Some((before, after)) = rest.split_once("use ") {
        let is_use = before.chars().last().is_none_or(char::is_whitespace);
        let (tree, after) = if is_use { after.split_once(';').unwrap() } else { ("", after) };
        opened(tree, &[], &mut paths);
        in_text(before, &mut paths);
        rest = after.to_owned();
    }
    in_text(&rest, &mut paths);
    paths
}

fn opened(tree: &str, before: &[String], paths: &mut Vec<Vec<String>>) {
    let (head, list) = match tree.split_once('{') {
        Some((head, list)) => (head, Some(list.trim().trim_end_matches('}'))),
        None => (tree.split(" as ").next().unwrap(), None),
    };
    let mut path = before.to_vec();
    path.extend(
        head.split("::").map(|step| step.trim().to_owned()).filter(|step| !step.is_empty()),
    );
    let Some(_) = list else { return paths.push(path) };
    let list = &tree[tree.find('{').unwrap() + 1..tree.rfind('}').unwrap()];
    let (mut depth, mut start) = (0, 0);
    for (at, letter) in list.char_indices().chain([(list.len(), ',')]) {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                if !list[start..at].trim().is_empty() {
                    opened(&list[start..at], &path, paths);
                }
                start = at + 1;
            }
            _ => {}
        }
    }
}

fn in_text(text: &str, paths: &mut Vec<Vec<String>>) {
    let is_of_path = |c: char| c.is_alphanumeric() || matches!(c, '_' | ':' | '$');
    for path in text.split(|c| !is_of_path(c)).filter(|word| word.contains("::")) {
        paths.push(path.split("::").map(str::to_owned).collect());
    }
}

/// The file that a path of the module `own` leads to.
fn resolved<'a>(
    path: &[String],
    own: &[&str],
    modules: &BTreeMap<Vec<&str>, &'a str>,
) -> Option<&'a str> {
    let mut steps = path.iter().map(String::as_str).peekable();
    let mut at: Vec<&str> = own.to_vec();
    match steps.peek()? {
        &"crate" => {
            steps.next();
            at.clear();
        }
        &("super" | "self") => {
            while let Some(step) = steps.next_if(|step| matches!(*step, "super" | "self")) {
                if step == "super" {
                    at.pop();
                }
            }
        }
        first => {
            let child = [own, &[first]].concat();
            modules.get(&child)?;
        }
    }
    for step in steps {
        let next = [at.as_slice(), &[step]].concat();
        if !modules.contains_key(&next) {
            break;
        }
        at = next;
    }
    modules.get(&at).copied()
}

/// Groups of files that reach each other.
fn circles(imports: &BTreeMap<String, BTreeSet<String>>) -> Vec<Vec<&str>> {
    let reached = |from: &str| {
        let mut seen: BTreeSet<&str> = BTreeSet::new();
        let mut open: Vec<&str> = imports[from].iter().map(String::as_str).collect();
        while let Some(file) = open.pop() {
            if seen.insert(file) {
                open.extend(imports[file].iter().map(String::as_str));
            }
        }
        seen
    };
    let reached: BTreeMap<&str, BTreeSet<&str>> =
        imports.keys().map(|file| (file.as_str(), reached(file))).collect();
    let mut found: Vec<Vec<&str>> = Vec::new();
    for (file, far) in &reached {
        let group: Vec<&str> =
            far.iter().copied().filter(|other| reached[other].contains(file)).collect();
        if 1 < group.len() && !found.contains(&group) {
            found.push(group);
        }
    }
    found
}

/// A name that only tests use is a figure that nobody reads: it is printed, used or taken out.
#[test]
fn no_public_function_or_constant_is_there_for_tests_alone() {
    let is_letter = |c: char| c.is_alphanumeric() || c == '_';
    let (mut uses, mut public) = (BTreeMap::<String, usize>::new(), Vec::new());
    for (file, text) in sources() {
        let text = plain(&text);
        // What is only passed on by `use` is not used yet.
        let (mut body, mut after_use) = (Vec::new(), false);
        for part in text.split("use ") {
            let kept =
                if after_use { part.split_once(';').map_or("", |(_, rest)| rest) } else { part };
            body.push(kept);
            after_use = part.chars().last().is_none_or(char::is_whitespace);
        }
        for words in body.iter().map(|part| part.split(|c| !is_letter(c))) {
            let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
            for (at, word) in words.iter().enumerate() {
                *uses.entry((*word).to_owned()).or_default() += 1;
                let before = |back: usize| at.checked_sub(back).map_or("", |at| words[at]);
                let is_defined = matches!(before(1), "fn" | "const" | "static" | "type");
                if is_defined && (before(2) == "pub" || (before(2), before(3)) == ("const", "pub"))
                {
                    public.push((file.clone(), (*word).to_owned()));
                }
            }
        }
    }
    assert!(500 < public.len(), "only {} public names were found", public.len());
    let unused: Vec<_> = public.iter().filter(|(_, name)| uses[name] == 1).collect();
    assert!(unused.is_empty(), "no code of the program uses {unused:#?}");
}

#[test]
fn no_file_is_longer_than_400_lines_and_the_median_is_below_150() {
    let mut lengths: Vec<usize> = Vec::new();
    for (file, text) in sources() {
        let lines = text.lines().count();
        assert!(lines <= 400, "{file} has {lines} lines");
        lengths.push(lines);
    }
    for folder in ["tests", "benches", "samples/painter"] {
        for path in files(&root().join(folder), "rs") {
            let lines = fs::read_to_string(&path).unwrap().lines().count();
            assert!(lines <= 400, "{path:?} has {lines} lines");
        }
    }
    lengths.sort_unstable();
    assert!(lengths[lengths.len() / 2] < 150, "median {}", lengths[lengths.len() / 2]);
}

#[test]
fn every_file_says_what_it_is_for() {
    for (file, text) in sources() {
        assert!(text.starts_with("//! "), "{file} has no head");
    }
    for path in files(&root().join("tests"), "rs") {
        assert!(fs::read_to_string(&path).unwrap().starts_with("//! "), "{path:?} has no head");
    }
}

#[test]
fn only_the_ends_and_the_archive_touch_the_disk_and_nothing_below_reads_the_clock() {
    let disk = ["intake.rs", "output.rs", "output/file.rs"];
    for (file, text) in sources() {
        let is_end = ["archive/", "intake/"].iter().any(|end| file.starts_with(end));
        if !disk.contains(&file.as_str()) && !is_end {
            for word in ["std::fs", "fs::read", "fs::write", "File::open"] {
                assert!(!text.contains(word), "{file} touches the disk: {word}");
            }
        }
        // Only what is typed reads a clock: the time of a seal, and what is due today.
        for word in ["SystemTime", "Instant::now", "Utc::now", "Local::now"] {
            let is_free = file != "commands/clock.rs" && text.contains(word);
            assert!(!is_free, "{file} reads the clock: {word}");
        }
        for word in ["use super::*", "prelude::*", "println!(", "todo!(", "unimplemented!("] {
            assert!(!text.contains(word), "{file} holds {word}");
        }
    }
}

#[test]
fn no_module_or_fixture_is_forgotten() {
    let main = fs::read_to_string(root().join("tests/main.rs")).unwrap();
    for path in files(&root().join("tests"), "rs") {
        let name = path.file_stem().unwrap().to_str().unwrap();
        let is_module = path.parent().unwrap().ends_with("tests") && name != "main";
        assert!(!is_module || main.contains(&format!("mod {name};")), "tests/{name}.rs is not run");
    }
}

#[test]
fn every_code_of_a_message_is_used_by_one_stage_alone() {
    let mut owners: BTreeMap<String, String> = BTreeMap::new();
    for (file, text) in sources()
        .into_iter()
        .filter(|(file, _)| file.ends_with("problems.rs") || file.contains("/problems/"))
    {
        for part in text.split('"').skip(1).step_by(2) {
            let is_code = part.split_once('/').is_some_and(|(stage, what)| {
                [stage, what]
                    .iter()
                    .all(|word| word.chars().all(|c| c.is_ascii_lowercase() || c == '-'))
            });
            if is_code {
                let owner = owners.entry(part.to_owned()).or_insert_with(|| file.clone());
                let same_photo = part.starts_with("photo/") || part.starts_with("sheet/");
                assert!(*owner == file || same_photo, "{part} is worded in {owner} and {file}");
            }
        }
    }
}

/// What Typst answers from the pages that it has set already sets every page a second time.
#[test]
fn no_layout_asks_for_what_is_known_only_when_all_pages_are_set() {
    let asks = ["counter(", "here()", "locate(", "query(", "state(", "outline("];
    for path in files(&root().join("report-templates"), "typ") {
        let text = fs::read_to_string(&path).unwrap();
        let asked: Vec<_> = asks.iter().filter(|ask| text.contains(**ask)).collect();
        assert!(asked.is_empty(), "{}: {asked:?}", path.display());
    }
}
