//! Covering messages, read by the sceptic: of the unit they say what the table licenses and the one
//! sentence of page 1, and everything else in them speaks of what is attached.

use splitcase::document::clauses::Slot;
use splitcase::document::templates::Templates;

use super::facts::Reading;
use super::papers::{OPTIONS, as_arrived, as_offered};
use super::{Count, PROFILE, TABLE, case, licensed, sheets};
use crate::paper;

/// The places that only messages have.
pub const SLOTS: [Slot; 4] = [
    Slot::MessageArrivalNote,
    Slot::MessageOptionsLetter,
    Slot::MessageReturnReport,
    Slot::MessageEvidenceFile,
];

/// One sheet in this many is taken.
const STEP: usize = 9;

#[test]
fn a_covering_message_says_of_the_unit_only_what_its_paper_may_say() {
    let wording = paper::english();
    let templates = Templates::built_in();
    let text = templates.get("wording/en/message.yaml").unwrap().text();
    let words: serde_yaml::Value = serde_yaml::from_str(text).unwrap();
    let fixed = |key: &str| words["message"][key].as_str().unwrap().to_owned();
    let (greeting, to_nobody) = (fixed("greeting"), fixed("greeting-nobody"));
    let fixed = ["calendar", "questions", "regards"].map(fixed);
    let (mut said, mut count) = (Count::new(), 0);
    for (name, text) in sheets::all().iter().step_by(STEP) {
        let text = match text.contains("options:") {
            true => text.clone(),
            false => format!("{text}{OPTIONS}"),
        };
        for (paper, message) in paper::made(PROFILE, &text, None).messages(&wording) {
            let (slot, then) = match paper {
                "arrival-note" => (SLOTS[0], as_arrived(&text)),
                "options-letter" => (SLOTS[1], as_offered(&text)),
                "return-report" => (SLOTS[2], text.clone()),
                _ => (SLOTS[3], text.clone()),
            };
            let case = case(name, &then, &wording);
            let reading = Reading::of(&then, &case.assessment, &wording);
            let right = licensed(slot, &reading, &case, &wording, &mut said);
            let lead = case.view["lead"].as_str().unwrap();
            let mut paragraphs: Vec<&str> = message.trim_end().split("\n\n").collect();
            assert_eq!(paragraphs.pop(), Some("Hollowmere Drive Works"), "{name}, {paper}");
            let owner = &case.sheet.fields.customer.name.0;
            let greetings = [greeting.replace("{name}", owner), to_nobody.clone()];
            assert!(greetings.iter().any(|one| one == paragraphs[0]), "{name}: {}", paragraphs[0]);
            assert_eq!(paragraphs[1], right, "{name}, {paper}");
            for one in &paragraphs[2..] {
                let is_fixed = fixed.iter().any(|fixed| fixed == one);
                let is_lead = paper == "return-report" && *one == lead;
                let is_amount = paper == "return-report" && one.contains(": £");
                let is_day = paper == "options-letter" && one.starts_with("Prices hold until");
                assert!(is_fixed || is_lead || is_amount || is_day, "{name}, {paper}: {one}");
                count += 1;
            }
        }
    }
    let clauses = SLOTS.iter().flat_map(|slot| &TABLE[slot]);
    let clauses = clauses.flat_map(splitcase::document::clauses::Entry::clauses);
    let unsaid: Vec<&str> =
        clauses.map(|clause| clause.say.as_str()).filter(|key| !said.contains_key(*key)).collect();
    assert_eq!(unsaid, Vec::<&str>::new());
    assert!(500 < count, "only {count} paragraphs");
}
