//! The register: its chain, torn ends, changed lines, and many writers at once.

use std::fs;
use std::path::Path;

use splitcase::archive::bag::self_check;
use splitcase::archive::register::entry::Event;
use splitcase::archive::register::read::{Flaw, register as read};
use splitcase::archive::register::write::RegisterWriter;
use splitcase::archive::request::Remark;
use splitcase::digest::Digest;

use super::sealing::{Desk, Wish, tree};

const FIRST: &str = "HD-1";
const SECOND: &str = "HD-2";

fn desk_with_two_bags() -> Desk {
    let desk = Desk::new();
    desk.seal(&Wish::new(FIRST)).unwrap();
    desk.seal(&Wish::new(SECOND)).unwrap();
    desk
}

/// Lines of a register with their newlines.
fn lines(desk: &Desk) -> Vec<String> {
    desk.text("archive/register.jsonl").split_inclusive('\n').map(str::to_owned).collect()
}

fn put_register(desk: &Desk, text: impl AsRef<[u8]>) {
    fs::write(desk.path("archive/register.jsonl"), text).unwrap();
}

#[test]
fn each_line_tells_its_bag_and_holds_the_digest_of_the_line_before() {
    let desk = Desk::new();
    let first = desk.seal(&Wish::new(FIRST)).unwrap();
    let mut wish = Wish::new(SECOND);
    wish.keep_until = None;
    let second = desk.seal(&wish).unwrap();
    let one = format!(
        r#"{{"line":1,"event":"sealed","job":"HD-1","version":1,"bag":"HD-1/HD-1-v1","sha256":"{}","time":"2026-11-25T14:05:08Z","keep-until":"2032-11-25","previous":"{}"}}"#,
        first.digest.hex(),
        "0".repeat(64),
    );
    let two = format!(
        r#"{{"line":2,"event":"sealed","job":"HD-2","version":1,"bag":"HD-2/HD-2-v1","sha256":"{}","time":"2026-11-25T14:05:08Z","keep-until":null,"previous":"{}"}}"#,
        second.digest.hex(),
        Digest::of(one.as_bytes()).hex(),
    );
    assert_eq!(lines(&desk), [format!("{one}\n"), format!("{two}\n")]);
    let register = read(&desk.archive()).unwrap();
    assert_eq!(register.flaws, []);
    assert_eq!(register.head(), Some(Digest::of(two.as_bytes())));
    assert_eq!(register.entries.len(), 2);
    assert_eq!(register.entries[1].event, Event::Sealed);
    assert_eq!(register.entries[1].keep_until, None);
}

#[test]
fn an_archive_without_a_register_has_an_empty_one_and_no_archive_is_a_failure() {
    let desk = Desk::new();
    fs::create_dir(desk.archive()).unwrap();
    let register = read(&desk.archive()).unwrap();
    assert_eq!((register.entries.len(), register.head()), (0, None));
    assert!(desk.names("archive").is_empty(), "reading must not write");
    assert!(read(&desk.path("nowhere")).is_err());
}

#[test]
fn a_line_torn_anywhere_is_noticed_mended_and_its_bytes_kept() {
    let desk = desk_with_two_bags();
    let whole_register = desk.read("archive/register.jsonl");
    let good = lines(&desk)[0].clone();
    let last = &whole_register[good.len()..];
    for length in 1..last.len() {
        let torn = &last[..length];
        put_register(&desk, [good.as_bytes(), torn].concat());
        let is_complete = length == last.len() - 1;
        let register = read(&desk.archive()).unwrap();
        assert_eq!(register.flaws, [Flaw::Torn { line: 2, bytes: length, is_complete }]);
        assert_eq!(register.head(), Some(Digest::of(good.trim_end().as_bytes())));

        let registrar = RegisterWriter::open(&desk.archive()).unwrap();
        assert_eq!(registrar.register().flaws, []);
        let mended = registrar.mended().cloned().unwrap();
        if is_complete {
            assert_eq!(mended, Remark::LineCompleted { line: 2 });
            assert_eq!(desk.read("archive/register.jsonl"), whole_register);
        } else {
            let kept_in = "register.torn-1.txt".to_owned();
            assert_eq!(mended, Remark::TornLine { line: 2, kept_in });
            assert_eq!(desk.text("archive/register.jsonl"), good);
            assert_eq!(desk.read("archive/register.torn-1.txt"), torn);
            fs::remove_file(desk.path("archive/register.torn-1.txt")).unwrap();
        }
    }
}

/// A line that does not follow the one before is no torn end of it, though its number is right.
#[test]
fn a_whole_last_line_of_another_register_is_not_completed() {
    let desk = desk_with_two_bags();
    let good = lines(&desk)[0].clone();
    let last = desk.text("archive/register.jsonl")[good.len()..].trim_end().to_owned();
    let at = last.find("\"previous\":\"").unwrap() + "\"previous\":\"".len();
    let digit = if last.as_bytes()[at] == b'0' { "1" } else { "0" };
    let foreign = format!("{}{digit}{}", &last[..at], &last[at + 1..]);
    put_register(&desk, [good.as_bytes(), foreign.as_bytes()].concat());
    let register = read(&desk.archive()).unwrap();
    let torn = Flaw::Torn { line: 2, bytes: foreign.len(), is_complete: false };
    assert_eq!(register.flaws, [torn]);
}

#[test]
fn a_bag_whose_line_was_torn_gets_it_again_from_the_seal_of_any_job() {
    let desk = desk_with_two_bags();
    let all = desk.text("archive/register.jsonl");
    put_register(&desk, &all[..all.len() - 100]);
    let sealed = desk.seal(&Wish::new(FIRST)).unwrap();
    assert!(!sealed.is_new);
    let torn = Remark::TornLine { line: 2, kept_in: "register.torn-1.txt".to_owned() };
    let found = Remark::Registered { bag: "HD-2/HD-2-v1".to_owned() };
    assert_eq!(sealed.remarks, [torn, found]);
    // Byte for byte, as the time is the same here.
    assert_eq!(desk.text("archive/register.jsonl"), all);
}

#[test]
fn torn_bytes_are_never_written_over_earlier_ones() {
    let desk = desk_with_two_bags();
    for expected in 1..=3 {
        let whole = desk.text("archive/register.jsonl");
        put_register(&desk, format!("{whole}{{\"line\":{expected}"));
        desk.seal(&Wish::new(FIRST)).unwrap();
        let kept = desk.text(&format!("archive/register.torn-{expected}.txt"));
        assert_eq!(kept, format!("{{\"line\":{expected}"));
        assert_eq!(desk.text("archive/register.jsonl"), whole);
    }
}

#[test]
fn a_bag_whose_line_was_never_written_is_registered_by_the_next_seal_of_its_job() {
    let desk = desk_with_two_bags();
    let all = lines(&desk);
    put_register(&desk, &all[0]);
    let sealed = desk.seal(&Wish::new(SECOND)).unwrap();
    assert_eq!((sealed.version, sealed.line, sealed.is_new), (1, 2, false));
    assert_eq!(sealed.remarks, [Remark::Registered { bag: "HD-2/HD-2-v1".to_owned() }]);
    assert_eq!(lines(&desk), all);
}

#[test]
fn a_changed_line_is_found_and_nothing_is_added_after_it() {
    let desk = desk_with_two_bags();
    desk.seal(&Wish::new("HD-3")).unwrap();
    let good = lines(&desk);
    let changed = good[1].replace("2032", "2031");
    let no_json = "nonsense\n".to_owned();
    let spaced = good[1].replace("\"line\":2", "\"line\": 2");
    let cases: [(&str, Vec<&String>, u64); 6] = [
        ("changed", vec![&good[0], &changed, &good[2]], 3),
        ("taken out", vec![&good[0], &good[2]], 2),
        ("first taken out", vec![&good[1], &good[2]], 1),
        ("exchanged", vec![&good[1], &good[0], &good[2]], 1),
        ("no line", vec![&good[0], &no_json, &good[2]], 2),
        ("spaced", vec![&good[0], &spaced, &good[2]], 2),
    ];
    for (what, text, line) in cases {
        put_register(&desk, text.into_iter().cloned().collect::<String>());
        let before = tree(&desk.archive());
        let register = read(&desk.archive()).unwrap();
        assert_eq!(register.flaws.first().map(Flaw::line), Some(line), "{what}");
        let failure = desk.seal(&Wish::new("HD-4")).unwrap_err();
        assert_eq!(failure.action, "add to the register", "{what}");
        assert!(failure.cause.starts_with(&format!("line {line} ")), "{what}: {failure}");
        assert_eq!(tree(&desk.archive()), before, "{what}");
    }
    put_register(&desk, good.concat());
    assert!(desk.seal(&Wish::new("HD-4")).unwrap().is_new);
}

#[test]
fn every_changed_byte_before_the_last_line_is_noticed() {
    let desk = desk_with_two_bags();
    let good = desk.read("archive/register.jsonl");
    let last = lines(&desk)[1].len();
    for at in 0..good.len() - last {
        let mut text = good.clone();
        text[at] ^= 1;
        put_register(&desk, &text);
        assert_ne!(read(&desk.archive()).unwrap().flaws, [], "at {at}");
    }
}

/// Every line names a whole bag, and every bag has one line.
fn assert_sound(archive: &Path, jobs: usize) {
    let register = read(archive).unwrap();
    assert_eq!(register.flaws, []);
    assert_eq!(register.entries.len(), jobs);
    for entry in &register.entries {
        let found = self_check::check(&archive.join(&entry.bag)).unwrap();
        assert_eq!(found.digest.hex(), entry.sha256, "{}", entry.bag);
    }
    let left = walkdir::WalkDir::new(archive).into_iter().filter(|entry| {
        entry.as_ref().unwrap().file_name().to_str().unwrap().starts_with(".making-")
    });
    assert_eq!(left.count(), 0);
}

#[test]
fn forty_jobs_sealed_at_once_lose_no_line() {
    let desk = Desk::new();
    let jobs: Vec<String> = (1..=40).map(|number| format!("HD-{number}")).collect();
    std::thread::scope(|scope| {
        for share in jobs.chunks(10) {
            let desk = &desk;
            scope.spawn(move || {
                for job in share {
                    assert!(desk.seal(&Wish::new(job).tar()).unwrap().is_new);
                }
            });
        }
    });
    assert_sound(&desk.archive(), 40);
    let register = read(&desk.archive()).unwrap();
    let mut named: Vec<&str> = register.entries.iter().map(|entry| entry.job.as_str()).collect();
    named.sort_unstable();
    let mut wanted: Vec<&str> = jobs.iter().map(String::as_str).collect();
    wanted.sort_unstable();
    assert_eq!(named, wanted);
}

#[test]
fn one_job_sealed_by_many_at_once_with_the_same_bytes_is_one_version() {
    let desk = Desk::new();
    let new = std::thread::scope(|scope| {
        let seal = || desk.seal(&Wish::new(FIRST).tar()).unwrap().is_new;
        let sealing: Vec<_> = (0..8).map(|_| scope.spawn(seal)).collect();
        sealing.into_iter().map(|one| one.join().unwrap()).filter(|new| *new).count()
    });
    assert_eq!(new, 1);
    assert_sound(&desk.archive(), 1);
    assert_eq!(desk.names("archive/HD-1"), ["HD-1-v1", "HD-1-v1.tar"]);
}

#[test]
fn one_job_sealed_by_many_at_once_with_other_bytes_gets_a_version_each() {
    let desk = Desk::new();
    std::thread::scope(|scope| {
        for number in 0..8 {
            let desk = &desk;
            scope.spawn(move || {
                let mut wish = Wish::new(FIRST).tar();
                wish.in_memory[0].bytes = format!("sheet {number}").into_bytes();
                assert!(desk.seal(&wish).unwrap().is_new);
            });
        }
    });
    assert_sound(&desk.archive(), 8);
    let register = read(&desk.archive()).unwrap();
    let versions: Vec<u32> = register.entries.iter().map(|entry| entry.version).collect();
    assert_eq!(versions, [1, 2, 3, 4, 5, 6, 7, 8]);
}
