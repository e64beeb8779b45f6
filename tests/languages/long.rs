//! A made-up language of long, accented words: every paper sets, stays on its page and writes over nothing.

use std::fs;

use splitcase::document::templates::Templates;

use crate::ink::content::{Kind, Mark, marks};
use crate::small;
use crate::workshop::run_in;

/// Text outside braces with accents on its vowels, and a third longer: every third vowel is doubled.
fn long(text: &str) -> String {
    let (mut depth, mut vowels) = (0_i32, 0);
    let mut out = String::new();
    for letter in text.chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        let accented = match letter {
            _ if depth != 0 => None,
            'a' => Some('â'),
            'e' => Some('ê'),
            'i' => Some('ï'),
            'o' => Some('ø'),
            'u' => Some('ü'),
            _ => None,
        };
        out.push(accented.unwrap_or(letter));
        vowels += usize::from(accented.is_some());
        if accented.is_some() && vowels % 3 != 1 {
            out.extend(accented);
        }
    }
    out
}

fn all_long(value: &mut serde_yaml::Value) {
    match value {
        serde_yaml::Value::String(text) => *text = long(text),
        serde_yaml::Value::Sequence(items) => items.iter_mut().for_each(all_long),
        serde_yaml::Value::Mapping(fields) => fields.values_mut().for_each(all_long),
        _ => {}
    }
}

/// Lines of a page that begin in the same place, or so near that one is written over the other.
fn on_top_of_each_other(all: &[Mark]) -> Vec<(usize, [f64; 4])> {
    let lines: Vec<(&Mark, f64)> = all
        .iter()
        .filter_map(|mark| match mark.kind {
            Kind::Letters(size) => Some((mark, size)),
            _ => None,
        })
        .collect();
    let mut found = Vec::new();
    for (at, (one, size)) in lines.iter().enumerate() {
        let near = |other: &Mark| {
            let (dx, dy) = (one.place[0] - other.place[0], one.place[1] - other.place[1]);
            one.page == other.page && dx.abs() < 1.0 && dy.abs() < 0.6 * size
        };
        if lines[..at].iter().any(|(other, _)| near(other)) {
            found.push((one.page, one.place));
        }
    }
    found
}

#[test]
fn long_and_accented_words_stay_on_their_page_and_are_written_over_nothing() {
    let shop = tempfile::tempdir().unwrap();
    let profile = fs::read_to_string(small::samples().join("workshop.yaml")).unwrap();
    let profile = profile.replace("language: en", "language: xx\ntemplates: t");
    fs::write(shop.path().join("workshop.yaml"), profile).unwrap();
    fs::copy(small::samples().join("parts.yaml"), shop.path().join("parts.yaml")).unwrap();
    fs::create_dir_all(shop.path().join("t/wording/xx")).unwrap();
    let built_in = Templates::built_in();
    for (path, source) in built_in.iter().filter(|(path, _)| path.starts_with("wording/en/")) {
        let mut words: serde_yaml::Value = serde_yaml::from_str(source.text()).unwrap();
        if !path.ends_with("grammar.yaml") {
            all_long(&mut words);
        }
        let place = path.replacen("wording/en/", "t/wording/xx/", 1);
        fs::write(shop.path().join(place), serde_yaml::to_string(&words).unwrap()).unwrap();
    }
    let jobs = [("hd-2611", 4), ("hd-2614", 6), ("hd-2623", 4), ("hd-2630", 2), ("hd-2631", 3)];
    for (job, _) in jobs {
        let folder = shop.path().join(job);
        fs::create_dir(&folder).unwrap();
        for file in fs::read_dir(small::samples().join(job)).unwrap().map(|file| file.unwrap()) {
            fs::copy(file.path(), folder.join(file.file_name())).unwrap();
        }
    }
    let run = run_in(shop.path(), &["render", ".", "--out", "out"]);
    assert!(!run.err.contains("error["), "{}", run.err);
    let mut n_papers = 0;
    for (job, most) in jobs {
        for file in fs::read_dir(shop.path().join("out").join(job.to_uppercase())).unwrap() {
            let path = file.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.extension().is_none_or(|ending| ending != "pdf") {
                continue;
            }
            n_papers += 1;
            let pdf = fs::read(&path).unwrap();
            let pages = hayro_syntax::Pdf::new(pdf.clone()).unwrap().pages().len();
            assert!(name == "evidence-file.pdf" || pages <= most, "{job} {name}: {pages} pages");
            let all = marks(&pdf);
            let over = on_top_of_each_other(&all);
            assert!(over.is_empty(), "{job} {name}: {over:?}");
            let twice = [all.clone(), all.clone()].concat();
            assert!(!on_top_of_each_other(&twice).is_empty(), "the check sees nothing");
            let letters = all.iter().filter(|mark| matches!(mark.kind, Kind::Letters(_)));
            for mark in letters {
                let [x, y, ..] = mark.place;
                // A4 in points.
                let is_on_page = (14.0..570.0).contains(&x) && (14.0..828.0).contains(&y);
                assert!(
                    is_on_page,
                    "{job} {name}: letters at {x:.0}, {y:.0} of page {}",
                    mark.page
                );
            }
        }
    }
    assert!(6 <= n_papers, "{n_papers}");
}
