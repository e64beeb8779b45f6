//! README, DEVELOPERS.md and `docs/` are true: commands and files exist, examples read, tables come
//! from the code.

mod tables;

use std::fs;
use std::path::Path;

use clap::CommandFactory;
use splitcase::cli::Arguments;
use splitcase::diagnostic::Problems;
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::prices::PriceList;
use splitcase::sheet::profile::Profile;
use splitcase::sheet::reader::Value;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The documents of the project by their paths, the changelog aside.
fn documents() -> Vec<(String, String)> {
    let mut names = vec!["README.md".to_owned(), "DEVELOPERS.md".to_owned()];
    for entry in fs::read_dir(root().join("docs")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if name.ends_with(".md") {
            names.push(format!("docs/{name}"));
        }
    }
    names.sort();
    let read = |name: String| {
        let text = fs::read_to_string(root().join(&name)).unwrap();
        (name, text)
    };
    names.into_iter().map(read).collect()
}

fn document(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap()
}

/// A document with a generated table between the two marks of its name.
fn with_table(text: &str, mark: &str, table: &str) -> String {
    let (begin, end) = (format!("<!-- {mark}:begin -->\n"), format!("<!-- {mark}:end -->"));
    let (before, rest) = text.split_once(&begin).expect("the mark is there");
    let (_, after) = rest.split_once(&end).expect("the mark is there");
    format!("{before}{begin}{table}{end}{after}")
}

/// The blocks of a document between fences of a language.
fn fenced<'a>(text: &'a str, language: &str) -> Vec<&'a str> {
    let parts = text.split(&format!("```{language}\n")).skip(1).collect::<Vec<_>>();
    parts.into_iter().map(|part| part.split("```").next().unwrap()).collect()
}

#[test]
fn the_tables_of_the_documents_are_those_of_the_program() {
    let tables = [
        ("docs/fields.md", "fields", tables::fields(&FindingsSheet::shape(), true)),
        ("docs/workshop.md", "workshop", tables::fields(&Profile::shape(), false)),
        ("docs/workshop.md", "prices", tables::fields(&PriceList::shape(), false)),
        ("docs/words.md", "parts", tables::parts()),
        ("docs/words.md", "signs", tables::signs()),
        ("docs/words.md", "choices", tables::choices()),
        ("docs/words.md", "units", tables::units()),
        ("docs/messages.md", "messages", tables::messages(&crate::layering::sources())),
    ];
    for (name, mark, table) in tables {
        let text = document(name);
        let right = with_table(&text, mark, &table);
        if std::env::var_os("SPLITCASE_BLESS").is_some() {
            fs::write(root().join(name), right).unwrap();
        } else {
            assert!(text == right, "run the tests with SPLITCASE_BLESS=1 and review {name}");
        }
    }
}

#[test]
fn the_readme_is_one_page() {
    let lines = document("README.md").lines().count();
    assert!(lines <= 100, "{lines} lines");
}

#[test]
fn every_command_and_option_is_documented() {
    let commands = document("docs/commands.md");
    let all: String = documents().into_iter().map(|(_, text)| text).collect();
    for command in Arguments::command().get_subcommands().filter(|one| !one.is_hide_set()) {
        let name = command.get_name();
        assert!(commands.contains(&format!("| `splitcase {name}")), "{name}");
        for option in command.get_opts() {
            let option = format!("--{}", option.get_long().unwrap());
            assert!(all.contains(&option), "{option}");
        }
    }
}

#[test]
fn every_command_line_of_the_documents_can_be_run() {
    let mut n_lines = 0;
    for (name, text) in documents() {
        for line in fenced(&text, "sh").into_iter().flat_map(str::lines) {
            if line.starts_with("splitcase ") {
                n_lines += 1;
                let words = line.split('#').next().unwrap().split_whitespace();
                let parsed = Arguments::command().try_get_matches_from(words);
                assert!(parsed.is_ok(), "{name}: {line}");
            }
        }
    }
    assert!(8 < n_lines, "{n_lines}");
}

/// The messages of a findings sheet.
fn problems(sheet: &str) -> Vec<String> {
    let mut problems = Problems::default();
    let workshop = crate::messages::workshop();
    splitcase::sheet::read("findings.yaml", sheet.as_bytes(), &workshop, &mut problems);
    problems.into_sorted().into_iter().map(|one| one.message).collect()
}

#[test]
fn every_example_of_a_sheet_or_a_profile_reads_without_a_problem() {
    let (mut n_sheets, mut n_profiles) = (0, 0);
    for (name, text) in documents() {
        for block in fenced(&text, "yaml") {
            let found = if block.starts_with("job:") {
                n_sheets += 1;
                problems(block)
            } else {
                n_profiles += 1;
                let mut problems = Problems::default();
                if block.starts_with("parts:") {
                    let mut workshop = crate::messages::workshop();
                    let list = block.as_bytes();
                    splitcase::sheet::read_prices("parts.yaml", list, &mut workshop, &mut problems);
                } else {
                    splitcase::sheet::read_profile(
                        "workshop.yaml",
                        block.as_bytes(),
                        &mut problems,
                    );
                }
                problems.into_sorted().into_iter().map(|one| one.message).collect()
            };
            assert_eq!(found, Vec::<String>::new(), "{name}: {block}");
        }
    }
    assert!(1 < n_sheets && 0 < n_profiles);
}

/// Each row of the ten rules has one line that reads and one that is refused or warned of.
#[test]
fn the_ten_rules_for_a_sheet_are_as_the_reader_takes_them() {
    let text = document("docs/sheet.md");
    let rows: Vec<Vec<&str>> = text
        .lines()
        .filter(|line| line.starts_with("| ") && line.as_bytes()[2].is_ascii_digit())
        .map(|line| line.split(" | ").collect())
        .collect();
    assert_eq!(rows.len(), 10);
    for row in rows {
        let sheet = |cell: &str| {
            let lines = cell.split('⏎').map(|line| line.trim().trim_end_matches(" |"));
            let lines: String =
                lines.map(|line| format!("  {}\n", line.trim_matches('`'))).collect();
            format!(
                "job: HD-1\ncustomer: {{name: Ansel Brook}}\nunit: {{kind: hub}}\n\
                 arrival:\n  date: 2026-03-02\n{lines}"
            )
        };
        let [rule, right, wrong] = row.as_slice() else { panic!("{row:?}") };
        assert_eq!(problems(&sheet(right)), Vec::<String>::new(), "{rule}");
        assert_ne!(problems(&sheet(wrong)), Vec::<String>::new(), "{rule}");
    }
}

#[test]
fn every_message_that_the_documents_explain_has_its_code() {
    let known = tables::messages(&crate::layering::sources());
    let stages =
        ["sheet/", "photo/", "cause/", "cost/", "ride/", "bench/", "template/", "profile/"];
    let mut n_codes = 0;
    for (name, text) in documents() {
        for word in text.split('`').skip(1).step_by(2) {
            let is_code = stages.iter().any(|stage| word.starts_with(stage))
                && !word.contains(['.', ' ', '*'])
                && !word.ends_with('/')
                && name != "DEVELOPERS.md";
            if is_code {
                n_codes += 1;
                assert!(known.contains(&format!("| `{word}` |")), "{name}: {word}");
            }
        }
    }
    assert!(100 < n_codes, "{n_codes}");
}

#[test]
fn every_link_of_the_documents_leads_somewhere() {
    for (name, text) in documents() {
        let folder = root().join(&name);
        for target in text.split("](").skip(1).filter_map(|part| part.split(')').next()) {
            if target.starts_with("http") {
                continue;
            }
            let (file, heading) = target.split_once('#').unwrap_or((target, ""));
            let path = if file.is_empty() { folder.clone() } else { folder.with_file_name(file) };
            assert!(path.exists(), "{name} links to {target}");
            let is_there = heading.is_empty()
                || fs::read_to_string(&path).unwrap().lines().any(|line| {
                    line.starts_with('#')
                        && line.trim_matches(['#', ' ']).to_lowercase().replace(' ', "-") == heading
                });
            assert!(is_there, "{name} links to {target}");
        }
    }
    let starts = document("README.md") + &document("DEVELOPERS.md");
    for (name, _) in documents() {
        assert!(name == "README.md" || starts.contains(&format!("]({name})")), "{name}");
    }
}

#[test]
fn every_test_that_the_list_of_mutants_names_is_there() {
    let mut tests = String::new();
    let mut folders = vec![root().join("tests")];
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                tests += &fs::read_to_string(path).unwrap();
            }
        }
    }
    let mut n_names = 0;
    for name in document("docs/mutants.md").split('`').skip(1).step_by(2) {
        if let Some((_, last)) = name.rsplit_once("::") {
            n_names += 1;
            let is_there = [format!("fn {last}("), format!("mod {last};")]
                .iter()
                .any(|defined| tests.contains(defined));
            assert!(is_there, "there is no test `{name}`");
        }
    }
    assert!(20 < n_names, "{n_names}");
}

#[test]
fn files_and_folders_that_the_documents_name_are_there() {
    for (document, text) in documents() {
        for name in text.split('`').skip(1).step_by(2) {
            let is_path = ["samples/", "tests/", "report-templates/", "benches/", "docs/"]
                .iter()
                .any(|start| name.starts_with(start));
            if is_path
                && !name.contains(['*', ' '])
                && !name.contains("NAME")
                && !name.contains("LANGUAGE")
            {
                assert!(root().join(name).exists(), "{document} names `{name}`");
            }
        }
        for name in text
            .lines()
            .filter_map(|line| line.strip_prefix("| `"))
            .filter_map(|row| row.split('`').next())
        {
            if name.ends_with(".rs") {
                assert!(root().join("src").join(name).exists(), "{document} names `{name}`");
            }
        }
    }
}
