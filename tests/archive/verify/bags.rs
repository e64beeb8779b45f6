//! Every bag of `bags/` is judged as its file says. `SPLITCASE_BLESS=1` writes anew what is said;
//! review that as a diff.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::verify::judgement::{Against, Judgement, Outcome};
use splitcase::archive::verify::verify;

use super::described::{Described, SAYS};

fn descriptions() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/archive/bags");
    let mut paths: Vec<PathBuf> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
}

/// What is said of a bag, with the folder that it happens to lie in left out.
fn said(judged: &Judgement, place: &Path) -> String {
    let text = judged.text(Path::new("bag"));
    text.replace(&format!("{}/", place.display()), "").replace(&place.display().to_string(), "bag")
}

#[test]
fn every_bag_is_judged_in_the_words_of_its_file() {
    let bless = std::env::var_os("SPLITCASE_BLESS").is_some();
    let mut wrong = Vec::new();
    for path in descriptions() {
        let expected = fs::read_to_string(&path).unwrap();
        let plain = expected.split(SAYS).next().unwrap();
        let place = tempfile::tempdir().unwrap();
        let bag = place.path().join("bag");
        Described::read(plain).write(&bag);
        let judged = verify(&bag, &Against::default());
        let found = format!("{plain}{SAYS}{}", said(&judged, &bag));
        if bless {
            fs::write(&path, &found).unwrap();
        } else if found != expected {
            wrong.push(format!("--- {} says now:\n{found}", path.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn only_bags_called_good_agree_with_themselves() {
    for path in descriptions() {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let place = tempfile::tempdir().unwrap();
        let bag = place.path().join("bag");
        Described::read(&fs::read_to_string(&path).unwrap()).write(&bag);
        let ending = verify(&bag, &Against::default()).outcome();
        let wanted = match name.split('-').next().unwrap() {
            "good" => Outcome::AgreesWithItself,
            "unknown" => Outcome::CannotBeJudged,
            _ => Outcome::DoesNotAgree,
        };
        assert_eq!(ending, wanted, "{name}");
    }
}

#[test]
fn verifying_writes_nothing() {
    let place = tempfile::tempdir().unwrap();
    super::described::sealed_like().write(place.path());
    let state = || -> Vec<(PathBuf, std::time::SystemTime, u64)> {
        let entries = walkdir::WalkDir::new(place.path()).sort_by_file_name().into_iter();
        entries
            .map(|entry| entry.unwrap())
            .map(|entry| {
                let state = entry.metadata().unwrap();
                (entry.into_path(), state.modified().unwrap(), state.len())
            })
            .collect()
    };
    let before = state();
    verify(place.path(), &Against::default());
    assert_eq!(state(), before);
}

#[test]
fn what_is_not_there_or_nothing_of_ours_could_not_be_checked() {
    let place = tempfile::tempdir().unwrap();
    let code = |path: &Path| verify(path, &Against::default()).outcome().code();
    assert_eq!(code(&place.path().join("gone")), 2);
    assert_eq!(code(place.path()), 2, "an empty folder");
    let photo = place.path().join("photo.jpg");
    fs::write(&photo, b"\xff\xd8\xff").unwrap();
    assert_eq!(code(&photo), 2);
    assert_eq!(code(Path::new("/dev/null")), 2);
}

#[cfg(unix)]
#[test]
fn a_pipe_in_a_bag_is_told_of_and_never_opened() {
    let place = tempfile::tempdir().unwrap();
    super::described::sealed_like().write(place.path());
    // A socket, like a pipe, is neither file nor folder, and is made without other programs.
    let socket = place.path().join("data/socket");
    let _held = std::os::unix::net::UnixListener::bind(&socket).unwrap();
    let judged = verify(place.path(), &Against::default());
    assert_eq!(judged.outcome(), Outcome::DoesNotAgree);
    assert!(judged.flaws.iter().any(|flaw| flaw.place == "data/socket"), "{:?}", judged.flaws);
}

#[test]
fn scripts_get_the_same_as_one_object() {
    let place = tempfile::tempdir().unwrap();
    super::described::sealed_like().write(place.path());
    fs::write(place.path().join("data/findings.yaml"), "job: HD-2641\n").unwrap();
    let judged = verify(place.path(), &Against::default());
    let told = judged.as_json(Path::new("bag"));
    assert_eq!((&told["path"], &told["word"]), (&"bag".into(), &"does-not-agree".into()));
    let problems = judged.problems_as_json(Path::new("bag"));
    assert_eq!((problems.len(), &problems[0]["subject"]), (1, &"bag".into()));
    assert_eq!(problems[0]["code"], "archive/changed");
    assert_eq!(problems[0]["file"], "data/findings.yaml");
    let count = |key: &str| told[key].as_array().unwrap().len();
    let not_shown = count("not-shown") + count("not-seen-from-inside");
    assert_eq!(not_shown, judged.not_shown.len());
}
