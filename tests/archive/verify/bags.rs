//! Every bag of `bags/` is judged as its file says. `SPLITCASE_BLESS=1` writes anew what is said;
//! review that as a diff.

use std::fs;
use std::path::{Path, PathBuf};

use splitcase::archive::bag::declaration::{self, Encoding};
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

/// RFC 8493, 2.1.1, and the names of the IANA registry: which encodings of tag files are known, in any case.
#[test]
fn a_declaration_names_an_encoding_that_is_known_or_not_or_no_name_at_all() {
    let declared = |name: &str| {
        let text = format!("BagIt-Version: 1.0\nTag-File-Character-Encoding: {name}\n");
        let (declaration, flaws) = declaration::read(text.as_bytes());
        (declaration.encoding, flaws.len())
    };
    for (name, encoding) in [
        ("UTF-8", Encoding::Utf8),
        ("utf-8", Encoding::Utf8),
        ("US-ASCII", Encoding::Ascii),
        ("ISO-8859-1", Encoding::Latin1),
        ("UTF-16", Encoding::Utf16),
        ("UTF-16BE", Encoding::Utf16Be),
        ("UTF-16LE", Encoding::Utf16Le),
    ] {
        assert_eq!(declared(name), (Some(encoding), 0), "{name}");
    }
    assert_eq!(declared("KOI8-R"), (None, 0));
    // No name of an encoding at all: a flaw of the declaration, which is read as UTF-8 then.
    for name in ["UTF 8", "", "UTF-8 "] {
        assert_eq!(declared(name), (Some(Encoding::Utf8), 1), "{name:?}");
    }
}

/// A folder is an archive by its register or by the bags of a job, not by having folders.
#[test]
fn a_folder_whose_folders_hold_no_bag_is_nothing_that_can_be_verified() {
    let place = tempfile::tempdir().unwrap();
    let job = place.path().join("HD-2614");
    fs::create_dir(&job).unwrap();
    for name in ["notes.txt", "HD-2614-v1.tsr"] {
        fs::write(job.join(name), "not a bag").unwrap();
        let judged = verify(place.path(), &Against::default());
        assert_eq!(judged.outcome(), Outcome::CannotBeJudged, "{judged:#?}");
        assert!(judged.could_not[0].cause.starts_with("it is not a bag"), "{judged:#?}");
    }
}
