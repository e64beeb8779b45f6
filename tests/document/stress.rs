//! Few and many findings and photos, long names, words that look like markup: every page sets well.

use super::*;

#[test]
fn one_finding_and_forty_no_photo_and_thirty_set_well_on_both_papers() {
    let sizes = [(0, 0, 2), (1, 0, 2), (1, 1, 3), (12, 8, 6), (40, 0, 7), (40, 30, 14), (2, 30, 6)];
    // The larger ones take seconds each, so that the second paper has two of them.
    for (paper, sizes) in [("a4", &sizes[..]), ("us-letter", &[sizes[1], sizes[3]])] {
        for &(n_findings, n_photos, most_pages) in sizes {
            let shop = Workshop::with_profile(&format!("{PROFILE}paper: {paper}\n"));
            let names: Vec<String> = (0..n_photos).map(|n| format!("{n}.jpg")).collect();
            for (n, name) in names.iter().enumerate() {
                let (width, height) = if n % 3 == 0 { (300, 400) } else { (400, 300) };
                shop.file(&format!("jobs/A-1/{name}"), jpeg(width, height, n as u32));
            }
            let share = |n: usize| {
                let photos: Vec<&str> =
                    names.iter().skip(n).step_by(n_findings.max(1)).map(String::as_str).collect();
                format!("photos: [{}]", photos.join(", "))
            };
            let findings: String =
                (0..n_findings).map(|n| finding("rotor-bearing-inner", &share(n))).collect();
            let findings = strip(&findings);
            let text = if n_findings == 0 { closed("A-1") } else { sheet("A-1") + &findings };
            shop.file("jobs/A-1/findings.yaml", text);
            let paper = Paper::of(&shop, "A-1");
            let pages = paper.n_pages();
            assert!(
                (1..=most_pages).contains(&pages),
                "{n_findings} findings, {n_photos} photos: {pages} pages"
            );
            assert_eq!(paper.photos().len(), n_photos);
            let structure = paper.structure();
            assert!(n_photos <= structure.get("Figure").copied().unwrap_or(0), "{structure:?}");
            assert_eq!(structure.get("H1"), Some(&1), "{structure:?}");
        }
    }
}

#[test]
fn names_of_300_letters_and_long_german_words_stay_on_the_page() {
    let long = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft "
        .repeat(4);
    let word = "x".repeat(300);
    for name in [long.trim(), word.as_str()] {
        let shop = Workshop::new();
        let text = sheet("A-1").replace("Nadia Ferrow", name).replace("Kestmar C2", name);
        shop.file(
            "jobs/A-1/findings.yaml",
            text + &strip(&format!(
                "    - {{part: rotor, condition: worn, note: {name}, heading: {name}}}\n"
            )),
        );
        let pages = Paper::of(&shop, "A-1").n_pages();
        assert!((2..=6).contains(&pages), "{pages} pages");
    }
}

#[test]
fn text_that_looks_like_markup_is_printed_as_it_stands() {
    let shop = Workshop::new();
    let nasty = r"'#panic() $x^2$ *b* _i_ @ref <lab> http://a.b // /* {{ job }} {% if %} \ ] ["
        .to_owned()
        + "'";
    let text = sheet("A-1").replace("Nadia Ferrow", &nasty)
        + &strip(&format!(
            "    - {{part: rotor, condition: worn, note: {nasty}, heading: {nasty}}}\n"
        ));
    shop.file("jobs/A-1/findings.yaml", text);
    Paper::of(&shop, "A-1");
}
