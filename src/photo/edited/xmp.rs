//! The XMP packet of a photo (ISO 16684-1): UTF-8 XML -> the changes that it lists.
//!
//! One pass without a tree; depth and size are bounded, a document type ends the reading, entities
//! are never resolved. Fields are known by their local names: `History` with its events' `action`,
//! `changed` and `softwareAgent`, as attributes or as elements, and IPTC's `DigitalSourceType`.
//! Whatever else a packet holds, the place among it, is stepped over. A broken packet gives what was
//! read before the break.

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

/// Largest packet that is read, 1 MiB; one segment of a JPEG holds 64 KiB.
const BYTES: usize = 1 << 20;

/// Deepest nesting that is read; an event is seven deep.
const DEPTH: usize = 32;

/// Longest text of a field in bytes.
const VALUE: usize = 200;

/// Actions of ISO 16684-1, `ResourceEvent`, that change the picture. `converted` and `created` do
/// not: a camera's own development says so. `saved` counts unless it changed metadata alone.
const CHANGES: [&str; 4] = ["cropped", "edited", "filtered", "resized"];

/// Terms of IPTC's `digitalsourcetype` for pictures that no camera took as they are. HDR and night
/// shots are `computationalCapture` and do not count.
const COMPOSED: [&str; 5] = [
    "algorithmicMedia",
    "composite",
    "compositeSynthetic",
    "compositeWithTrainedAlgorithmicMedia",
    "trainedAlgorithmicMedia",
];

/// What a packet says.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Packet {
    /// Changes to the picture.
    pub(super) steps: u32,
    /// The program of the last such change.
    pub(super) by: Option<String>,
    /// Its digital source type is one of the composed ones.
    pub(super) is_composed: bool,
}

/// Reads a packet.
pub(super) fn read(bytes: &[u8]) -> Packet {
    let text = String::from_utf8_lossy(bytes.get(..BYTES).unwrap_or(bytes));
    let mut reader = Reader::from_str(text.trim_start_matches('\u{feff}'));
    reader.config_mut().expand_empty_elements = true;
    let mut walk = Walk::default();
    loop {
        match reader.read_event() {
            Ok(Event::Start(start)) if walk.open.len() < DEPTH => walk.open(&start),
            Ok(Event::End(_)) => walk.close(),
            Ok(Event::Text(text)) => walk.text(&text),
            Ok(Event::Start(_) | Event::DocType(_) | Event::Eof) | Err(_) => return walk.packet,
            Ok(_) => {}
        }
    }
}

/// Where the reader is.
#[derive(Default)]
struct Walk {
    /// Local names of the open elements.
    open: Vec<String>,
    /// How many elements were open around `History`.
    history: Option<usize>,
    step: Step,
    value: String,
    packet: Packet,
}

/// One event of the history, while it is read.
#[derive(Default)]
struct Step {
    action: String,
    changed: String,
    agent: String,
}

impl Walk {
    fn open(&mut self, start: &BytesStart<'_>) {
        let name = start.local_name().as_ref().to_owned();
        if name == "History" && self.history.is_none() {
            self.history = Some(self.open.len());
        }
        self.open.push(name);
        self.value.clear();
        for attribute in start.attributes().flatten() {
            let name = attribute.key.local_name().as_ref().to_owned();
            let value: String = attribute.value.chars().take(VALUE).collect();
            // `rdf:resource` on an element is its text.
            match (name.as_str(), self.open.last()) {
                ("resource", Some(element)) => self.field(&element.clone(), &value),
                (name, _) => self.field(name, &value),
            }
        }
    }

    fn text(&mut self, text: &str) {
        let room = VALUE.saturating_sub(self.value.len());
        self.value.extend(text.chars().take(room));
    }

    fn close(&mut self) {
        let value = std::mem::take(&mut self.value);
        let Some(name) = self.open.pop() else { return };
        self.field(&name, value.trim());
        if self.history.is_some() && name == "li" {
            self.end_step();
        }
        if self.history == Some(self.open.len()) {
            self.history = None;
        }
    }

    fn field(&mut self, name: &str, value: &str) {
        if value.is_empty() {
            return;
        }
        match (name, self.history) {
            ("action", Some(_)) => value.clone_into(&mut self.step.action),
            ("changed", Some(_)) => value.clone_into(&mut self.step.changed),
            ("softwareAgent", Some(_)) => value.clone_into(&mut self.step.agent),
            ("DigitalSourceType", _) => {
                let term = value.rsplit('/').next().unwrap_or_default();
                self.packet.is_composed |= COMPOSED.contains(&term);
            }
            _ => {}
        }
    }

    fn end_step(&mut self) {
        let step = std::mem::take(&mut self.step);
        let is_change = CHANGES.contains(&step.action.as_str())
            || step.action == "saved" && step.changed != "/metadata";
        if is_change {
            self.packet.steps = self.packet.steps.saturating_add(1);
            self.packet.by = Some(step.agent).filter(|agent| !agent.is_empty());
        }
    }
}
