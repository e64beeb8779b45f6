//! README and DEVELOPERS.md are true: commands exist, tables come from the code, files are there.

use std::fs;
use std::path::Path;

use clap::CommandFactory;
use splitcase::cli::Arguments;
use splitcase::sheet::blank;
use splitcase::sheet::findings::FindingsSheet;
use splitcase::sheet::profile::Profile;
use splitcase::sheet::reader::Value;
use splitcase::sheet::shape::Shape;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The README with a generated table between two marks.
fn with_table(readme: &str, mark: &str, shape: &Shape, with_papers: bool) -> String {
    let (begin, end) = (format!("<!-- {mark}:begin -->\n"), format!("<!-- {mark}:end -->"));
    let (before, rest) = readme.split_once(&begin).expect("the mark is there");
    let (_, after) = rest.split_once(&end).expect("the mark is there");
    format!("{before}{begin}{}{end}{after}", blank::table(shape, with_papers))
}

#[test]
fn the_tables_of_fields_are_those_of_the_reader() {
    let path = root().join("README.md");
    let readme = fs::read_to_string(&path).unwrap();
    let right = with_table(&readme, "fields", &FindingsSheet::shape(), true);
    let right = with_table(&right, "workshop", &Profile::shape(), false);
    if std::env::var_os("SPLITCASE_BLESS").is_some() {
        fs::write(path, right).unwrap();
    } else {
        assert!(readme == right, "run the tests with SPLITCASE_BLESS=1 and review the README");
    }
}

#[test]
fn every_command_and_option_of_the_readme_exists_and_none_is_left_out() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let commands = Arguments::command();
    for command in commands.get_subcommands().filter(|command| !command.is_hide_set()) {
        assert!(
            readme.contains(&format!("| `splitcase {}", command.get_name())),
            "{}",
            command.get_name()
        );
        for option in command.get_opts() {
            let option = format!("--{}", option.get_long().unwrap());
            assert!(readme.contains(&option), "{option}");
        }
    }
    for line in readme.lines().filter(|line| line.starts_with("splitcase ")) {
        let words = line.split('#').next().unwrap().split_whitespace();
        assert!(Arguments::command().try_get_matches_from(words).is_ok(), "{line}");
    }
}

#[test]
fn the_sheet_of_the_readme_reads_without_a_problem() {
    let readme = fs::read_to_string(root().join("README.md")).unwrap();
    let sheet: String =
        readme.split("```yaml\n").skip(1).map(|part| part.split("```").next().unwrap()).collect();
    let mut problems = splitcase::diagnostic::Problems::default();
    splitcase::sheet::read(
        "README.md",
        sheet.as_bytes(),
        &crate::messages::workshop(),
        &mut problems,
    );
    let problems: Vec<String> = problems.into_sorted().into_iter().map(|one| one.message).collect();
    assert_eq!(problems, Vec::<String>::new());
}

#[test]
fn files_and_folders_that_the_documents_name_are_there() {
    for document in ["README.md", "DEVELOPERS.md"] {
        let text = fs::read_to_string(root().join(document)).unwrap();
        for name in text.split('`').skip(1).step_by(2) {
            let is_path = ["samples/", "tests/", "report-templates/", "benches/"]
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
