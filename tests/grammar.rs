//! Sentences in other languages than English: names stand in the case, gender and number that each language asks for.

use crate::languages::{texts, words};
use crate::paper;
use crate::paper::made;
use crate::workshop::PROFILE;

fn said(language: &str, findings: &str, cause: &str) -> String {
    let sheet = format!(
        "job: D-1\nlanguage: {language}\ncustomer: {{name: Jorik Halvensleben}}\nunit: {{kind: mid-drive}}\n\
         arrival: {{date: 2026-03-02}}\nstrip-down:\n  date: 2026-03-04\n  findings:\n{findings}\
         cause: {cause}\nwork: {{labour: 60 min}}\nride: {{error-codes: none}}\noutcome: repaired\n"
    );
    let view = made(PROFILE, &sheet, None).view(&words(language, None));
    let mut found: Vec<String> = Vec::new();
    texts(&view, &mut found);
    paper::plain(&found.join("\n"))
}

/// Findings on a sheet.
fn list(findings: &[&str]) -> String {
    findings.iter().map(|one| format!("    - {{part: {one}, action: replaced}}\n")).collect()
}

/// Standard German: cases after prepositions, articles that melt into them, verbs that agree.
#[test]
fn names_stand_in_the_case_and_number_that_a_german_sentence_asks_for() {
    let ingress = "{main: ingress}";
    let wet = said(
        "de",
        &list(&[
            "crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward]",
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]",
            "main-bearing-non-drive-side, condition: damaged, signs: [moisture-corrosion]",
        ]),
        ingress,
    );
    let lead = "Wasser drang an der Kurbeldichtung auf der Antriebsseite vorbei ein; das Hauptlager \
                auf dieser Seite ist völlig verrostet, und das auf der Gegenseite hatte zu rosten begonnen.";
    assert!(wet.contains(lead), "{wet}");
    let both = said(
        "de",
        &list(&[
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]",
            "main-bearing-non-drive-side, condition: failed, signs: [moisture-corrosion]",
        ]),
        ingress,
    );
    assert!(both.contains("Beide Hauptlager sind völlig verrostet"), "{both}");
    let mechanical = "{main: mechanical}";
    let dry = said(
        "de",
        &list(&[
            "main-bearing-drive-side, condition: worn, signs: [grease-dried-out, glazed-race]",
            "intermediate-gear, condition: worn, signs: [tooth-pitting]",
        ]),
        mechanical,
    );
    let told = "Das Fett im Hauptlager auf der Antriebsseite war hart getrocknet, und die Laufbahn von \
                demselben Lager war matt geworden";
    assert!(dry.contains(told), "{dry}");
    assert!(dry.contains("ie Zähne vom Zwischenrad hatten Grübchen"), "{dry}");
    let own =
        said("de", "    - {part: other, called: Steckscheibe, condition: worn}\n", mechanical);
    assert!(own.contains("Das Teil „Steckscheibe\" war verschlissen"), "{own}");
}

/// Standard French: articles that melt into prepositions or lose their vowel, words that agree in gender and number.
#[test]
fn names_have_the_article_and_the_agreement_that_a_french_sentence_asks_for() {
    let mechanical = "{main: mechanical}";
    let dry = said(
        "fr",
        &list(&[
            "main-bearing-drive-side, condition: worn, signs: [grease-dried-out, glazed-race]",
            "output-gear, condition: worn, signs: [tooth-pitting]",
            "ring-gear, condition: worn, signs: [tooth-rounded]",
        ]),
        mechanical,
    );
    let told = "La graisse avait séché et durci dans le roulement principal côté transmission, et la piste \
                du même roulement était devenue mate";
    assert!(dry.contains(told), "{dry}");
    assert!(dry.contains("es dents de l'engrenage de sortie avaient des piqûres"), "{dry}");
    assert!(dry.contains("es dents de la couronne se sont arrondies"), "{dry}");
    let stuck = |parts: &[&str]| said("fr", &list(parts), mechanical);
    let one = stuck(&["main-bearing-drive-side, condition: failed, signs: [bearing-seized]"]);
    assert!(one.contains("Le roulement principal côté transmission s'était bloqué"), "{one}");
    let two = stuck(&[
        "main-bearing-drive-side, condition: failed, signs: [bearing-seized]",
        "main-bearing-non-drive-side, condition: failed, signs: [bearing-seized]",
    ]);
    assert!(two.contains("Les deux roulements principaux s'étaient bloqués"), "{two}");
    let bush = stuck(&["bush, condition: failed, signs: [bearing-seized]"]);
    assert!(bush.contains("La bague lisse s'était bloquée"), "{bush}");
    let both = stuck(&[
        "crank-seal-drive-side, condition: worn, signs: [seal-lip-damaged]",
        "crank-seal-non-drive-side, condition: worn, signs: [seal-lip-damaged]",
    ]);
    assert!(both.contains("La lèvre des deux joints de manivelle avait un dommage"), "{both}");
    let beside = said(
        "fr",
        &list(&[
            "crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward]",
            "main-bearing-drive-side, condition: failed, signs: [races-worn-deep]",
        ]),
        "{main: ingress}",
    );
    let there = "une traînée de rouille partait du joint de manivelle de ce côté vers l'intérieur";
    assert!(beside.contains(there), "{beside}");
}

/// Standard Dutch: articles by gender, verbs that agree, one form after every preposition.
#[test]
fn names_have_the_article_and_the_verb_that_a_dutch_sentence_asks_for() {
    let wet = said(
        "nl",
        &list(&[
            "crank-seal-drive-side, condition: damaged, signs: [rust-trail-inward]",
            "main-bearing-drive-side, condition: failed, signs: [moisture-corrosion]",
            "main-bearing-non-drive-side, condition: damaged, signs: [moisture-corrosion]",
        ]),
        "{main: ingress}",
    );
    let lead = "Er kwam water binnen langs de crankafdichting aan de aandrijfzijde; het hoofdlager aan die kant \
                is doorgeroest, en dat aan de niet-aandrijfzijde was begonnen te roesten.";
    assert!(wet.contains(lead), "{wet}");
    let mechanical = "{main: mechanical}";
    let stuck = |parts: &[&str]| said("nl", &list(parts), mechanical);
    let one = stuck(&["main-bearing-drive-side, condition: failed, signs: [bearing-seized]"]);
    assert!(one.contains("Het hoofdlager aan de aandrijfzijde zat muurvast"), "{one}");
    let two = stuck(&[
        "main-bearing-drive-side, condition: failed, signs: [bearing-seized]",
        "main-bearing-non-drive-side, condition: failed, signs: [bearing-seized]",
    ]);
    assert!(two.contains("Beide hoofdlagers zaten muurvast"), "{two}");
    let own = said("nl", "    - {part: other, called: Spanring, condition: worn}\n", mechanical);
    assert!(own.contains("Het onderdeel 'Spanring' was versleten"), "{own}");
}

/// Standard Italian: articles by the first letters of a name, prepositions that melt into them, words that agree
/// in gender and number.
#[test]
fn names_have_the_article_and_the_agreement_that_an_italian_sentence_asks_for() {
    let mechanical = "{main: mechanical}";
    let dry = said(
        "it",
        &list(&[
            "main-bearing-drive-side, condition: worn, signs: [grease-dried-out, glazed-race]",
            "output-gear, condition: worn, signs: [tooth-pitting]",
        ]),
        mechanical,
    );
    let told = "Il grasso si era seccato e indurito nel cuscinetto principale lato trasmissione, e la pista \
                dello stesso cuscinetto era diventata opaca";
    assert!(dry.contains(told), "{dry}");
    assert!(dry.contains(" denti dell'ingranaggio di uscita avevano piccoli crateri"), "{dry}");
    let stuck = |parts: &[&str]| said("it", &list(parts), mechanical);
    let bush = stuck(&["bush, condition: failed, signs: [bearing-seized]"]);
    assert!(bush.contains("La boccola si era bloccata"), "{bush}");
    let two = stuck(&[
        "main-bearing-drive-side, condition: failed, signs: [bearing-seized]",
        "main-bearing-non-drive-side, condition: failed, signs: [bearing-seized]",
    ]);
    assert!(two.contains("I due cuscinetti principali si erano bloccati"), "{two}");
    let both = stuck(&[
        "crank-seal-drive-side, condition: worn, signs: [seal-lip-damaged]",
        "crank-seal-non-drive-side, condition: worn, signs: [seal-lip-damaged]",
    ]);
    assert!(
        both.contains("Il labbro delle due guarnizioni del perno pedivelle aveva un danno"),
        "{both}"
    );
    let shim = stuck(&["shim, condition: worn"]);
    assert!(shim.contains("Lo spessore mostrava usura"), "{shim}");
}

/// Standard Spanish: `de` and `a` melt into `el` alone, words that agree in gender and number.
#[test]
fn names_have_the_article_and_the_agreement_that_a_spanish_sentence_asks_for() {
    let mechanical = "{main: mechanical}";
    let dry = said(
        "es",
        &list(&[
            "main-bearing-drive-side, condition: worn, signs: [grease-dried-out, glazed-race]",
            "ring-gear, condition: worn, signs: [tooth-rounded]",
        ]),
        mechanical,
    );
    let told = "La grasa se había secado y endurecido en el rodamiento principal del lado de la cadena, y la \
                pista del mismo rodamiento se había vuelto mate";
    assert!(dry.contains(told), "{dry}");
    assert!(dry.contains("os dientes de la corona dentada se redondearon"), "{dry}");
    let stuck = |parts: &[&str]| said("es", &list(parts), mechanical);
    let two = stuck(&[
        "main-bearing-drive-side, condition: failed, signs: [bearing-seized]",
        "main-bearing-non-drive-side, condition: failed, signs: [bearing-seized]",
    ]);
    assert!(two.contains("Los dos rodamientos principales se habían agarrotado"), "{two}");
    let halves = stuck(&[
        "case-half-drive-side, condition: worn",
        "case-half-non-drive-side, condition: worn",
    ]);
    assert!(halves.contains("Las dos medias carcasas tenían desgaste"), "{halves}");
}
