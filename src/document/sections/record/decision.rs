//! What the owner decided, as facts: the choice, the day, how it was answered, deposit, agreed overrun.

use crate::document::format;
use crate::document::sections::record::words::word;
use crate::document::text;
use crate::document::view::fact::Fact;
use crate::document::view::noted::NotedGroup;
use crate::document::writer::Writer;

/// The decision; `None` before there is one.
pub fn decision(writer: &Writer<'_>) -> Option<NotedGroup> {
    let decision = writer.fields().decision.as_ref()?;
    let wording = writer.wording;
    let money = |amount| format::money(amount, writer.material.workshop.fields.currency, wording);
    let fact = |key, value: String| Fact::plain(word(writer, key), value);
    let chosen = wording.choice("option-kinds", decision.option.word());
    let mut facts = vec![fact("decided", text::capitalised(chosen))];
    facts.extend(decision.date.as_ref().map(|on| fact("decided-on", format::day(on.0, wording))));
    let via = decision.via.map(|via| wording.choice("answered-by", via.word()));
    facts.extend(via.map(|via| fact("answered", via.to_owned())));
    let deposit = decision.deposit.as_ref();
    facts.extend(deposit.map(|paid| fact("deposit", money(paid.value.amount))));
    facts.extend(decision.overrun.as_ref().map(|overrun| {
        let most = overrun.up_to.as_ref().map(|most| money(most.value.amount));
        let via = overrun.via.map(|via| wording.choice("answered-by", via.word()).to_owned());
        let note = overrun.note.as_ref().map(|note| note.0.clone());
        let day = Some(format::day(overrun.agreed.0, wording));
        let parts: Vec<String> = [most, day, via, note].into_iter().flatten().collect();
        fact("overrun", parts.join(", "))
    }));
    Some(NotedGroup { heading: word(writer, "decision").to_owned(), facts })
}
