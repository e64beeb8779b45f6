//! Page 1: the one sentence, the spine of facts, the four short answers, three things to do.

use super::Writer;
use crate::diagnostic::Diagnostic;
use crate::document::format;
use crate::document::view::{AdviceList, Answer, Fact, Paid};
use crate::sheet::findings::InShort;
use crate::sheet::text::Text;
use crate::sheet::vocabulary::Outcome;

impl Writer<'_> {
    /// The technician's own words, else the sentence of the wording.
    fn own_or(&self, own: fn(&InShort) -> &Option<Text>, name: &str) -> Result<String, Diagnostic> {
        match self.fields().in_short.as_ref().and_then(|short| own(short).as_ref()) {
            Some(text) => Ok(text.0.clone()),
            None => self.sentence(name),
        }
    }

    pub(super) fn lead(&self) -> Result<String, Diagnostic> {
        self.own_or(|short| &short.lead, "lead")
    }

    pub(super) fn answers(&self) -> Result<Vec<Answer>, Diagnostic> {
        let texts = [
            ("what-we-found", self.own_or(|short| &short.found, "found")?),
            ("why-it-happened", self.own_or(|short| &short.why, "why")?),
            ("what-we-did", self.own_or(|short| &short.did, "did")?),
            ("how-it-rides", self.own_or(|short| &short.rides, "rides")?),
        ];
        let told = texts.into_iter().filter(|(_, text)| !text.is_empty());
        Ok(told.map(|(key, text)| Answer { question: self.question(key), text }).collect())
    }

    /// The last question is another one where the unit does not ride again.
    fn question(&self, key: &str) -> String {
        let outcome = self.fields().outcome.as_ref().map(|outcome| outcome.value);
        let key = match (key, outcome) {
            ("how-it-rides", Some(Outcome::ReturnedUnrepaired) | None) => "what-comes-next",
            ("what-we-did", Some(Outcome::NoFaultFound)) => "what-we-tried",
            _ => key,
        };
        self.wording.label(key).to_owned()
    }

    pub(super) fn todo(&self) -> Result<Option<AdviceList>, Diagnostic> {
        let mut items = self.wording.advice("todo", &self.facts)?;
        items.truncate(3);
        let heading = self.wording.item("things-to-do", items.len()).to_owned();
        Ok((!items.is_empty()).then_some(AdviceList { heading, items, cautions: Vec::new() }))
    }

    pub(super) fn spine(&self) -> Vec<Vec<Fact>> {
        vec![self.who_and_what(), self.days()]
    }

    fn who_and_what(&self) -> Vec<Fact> {
        let (fields, wording) = (self.fields(), self.wording);
        let label = |key| wording.label(key);
        let unit = &fields.unit;
        let kind = wording.choice("unit-kinds-short", unit.kind.word());
        let model = unit
            .model
            .as_ref()
            .map_or_else(|| format::capitalised(kind), |model| format!("{}, {kind}", model.0));
        let mut facts = vec![
            Fact::strong(label("return-report"), &fields.job.0),
            Fact::plain(label("for"), &fields.customer.name.0),
            Fact::plain(label("drive-unit"), model),
        ];
        facts.extend(unit.serial.as_ref().map(|serial| Fact::mono(label("serial"), &serial.0)));
        let units = self.material.workshop.fields.units.unwrap_or_default();
        let ridden = unit.ridden.as_ref().map(|way| format::distance(&way.0, units, wording));
        facts.extend(ridden.map(|way| Fact::plain(label("ridden"), way)));
        let sent = fields.exchange.as_ref().and_then(|unit| unit.serial.as_ref());
        facts.extend(sent.map(|serial| Fact::mono(label("unit-sent-back"), &serial.0)));
        facts
    }

    fn days(&self) -> Vec<Fact> {
        let (fields, wording) = (self.fields(), self.wording);
        let label = |key| wording.label(key);
        let day = |date: &crate::sheet::reader::Marked<crate::sheet::date::Date>| {
            format::day(date.0, wording)
        };
        let mut facts = vec![Fact::plain(label("came-in"), day(&fields.arrival.date))];
        if let Some(strip) = &fields.strip_down {
            let by = strip.by.as_ref().map(|by| by.0.clone());
            facts.push(Fact { under: by, ..Fact::plain(label("opened"), day(&strip.date)) });
        }
        if let Some(decision) = &fields.decision {
            let chose = wording.choice("option-kinds-short", decision.chose.word());
            let fact = match &decision.date {
                Some(date) => Fact {
                    under: Some(chose.to_owned()),
                    ..Fact::plain(label("you-decided"), day(date))
                },
                None => Fact::plain(label("you-decided"), chose),
            };
            facts.push(fact);
        }
        if let Some((ride, date)) =
            fields.ride.as_ref().and_then(|ride| Some((ride, ride.date.as_ref()?)))
        {
            let units = self.material.workshop.fields.units.unwrap_or_default();
            let under = ride.distance.as_ref().map(|way| format::distance(&way.0, units, wording));
            facts.push(Fact { under, ..Fact::plain(label("test-ride"), day(date)) });
        }
        facts.extend(
            fields.returned.as_ref().map(|date| Fact::plain(label("sent-back"), day(date))),
        );
        facts
    }

    pub(super) fn paid(&self) -> Option<Paid> {
        let bill = self.material.assessment.bill.as_ref()?;
        let money = |amount| format::money(amount, bill.currency, self.wording);
        let mut notes = Vec::new();
        if let Some(tax) = &bill.tax {
            let words = self.wording.label("incl-tax").replace("{tax}", &tax.name);
            notes.push(words.replace("{amount}", &money(tax.amount)));
        }
        notes.extend(self.guarantee());
        let label = self.wording.label(if self.fields().returned.is_some() {
            "total"
        } else {
            "total-so-far"
        });
        Some(Paid { label: label.to_owned(), amount: money(bill.total), notes })
    }

    /// Until when parts and work are guaranteed, in words.
    fn guarantee(&self) -> Option<String> {
        let to = self.facts.guaranteed_to()?;
        Some(self.wording.label("guaranteed-to").replace("{day}", to))
    }
}
