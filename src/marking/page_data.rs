//! What the page knows: photos, marks and findings of a job, and the words to choose from.
//!
//! In: the sheet as far as it can be read, the photos, the words of a language; out: data as the
//! page's scripts read it.

use serde::Serialize;

use super::places::{self, PhotoList};
use super::script_safe;
use crate::document::text::capitalised;
use crate::document::wording::Wording;
use crate::photo::NamedPhoto;
use crate::sheet::Sheet;
use crate::sheet::catalogue::{PARTS, SIGNS};
use crate::sheet::photo_use::{Mark, MarkKind};
use crate::sheet::vocabulary::{Action, Condition};

/// What a page is made from.
pub struct PageOf<'a> {
    /// Number of the job, if the sheet has one.
    pub job: Option<&'a str>,
    /// The sheet, where it can be read at all.
    pub sheet: Option<&'a Sheet>,
    /// The photos of the folder.
    pub photos: &'a [NamedPhoto],
    /// Words for parts, signs and states.
    pub wording: &'a Wording,
    /// True if numbers carry a decimal comma.
    pub decimal_comma: bool,
}

#[derive(Serialize)]
pub struct Data<'a> {
    job: Option<&'a str>,
    comma: bool,
    /// True if the sheet has a strip-down.
    opened: bool,
    /// The blocks outside of the strip-down that can have photos.
    blocks: Vec<&'static str>,
    photos: Vec<Picture<'a>>,
    uses: Vec<UseData>,
    findings: Vec<FindingData>,
    parts: Vec<PartData>,
    conditions: Vec<Word<'a>>,
    actions: Vec<Word<'a>>,
    signs: Vec<SignData<'a>>,
}

#[derive(Serialize)]
struct Picture<'a> {
    file: &'a str,
    width: u32,
    height: u32,
    src: String,
}

#[derive(Serialize)]
struct UseData {
    photo: usize,
    list: &'static str,
    finding: Option<usize>,
    part: String,
    marks: Option<Vec<MarkData>>,
}

#[derive(Serialize)]
struct MarkData {
    kind: &'static str,
    places: Vec<String>,
    size: f64,
    number: String,
    unit: &'static str,
    text: String,
}

#[derive(Serialize)]
struct FindingData {
    part: String,
    words: String,
    condition: String,
}

#[derive(Serialize)]
struct Word<'a> {
    name: &'static str,
    words: &'a str,
}

#[derive(Serialize)]
struct PartData {
    name: &'static str,
    words: String,
    group: &'static str,
}

#[derive(Serialize)]
struct SignData<'a> {
    name: &'static str,
    words: &'a str,
    trade: &'a str,
    on: Vec<&'static str>,
}

/// The data of a page.
pub fn data<'a>(of: &PageOf<'a>) -> Data<'a> {
    let wording = of.wording;
    let kind = of.sheet.map(|sheet| sheet.fields.unit.kind);
    let has = |block: &str| of.sheet.is_some_and(|sheet| sheet.tree.get(block).is_some());
    let parts = PARTS.iter().filter(|row| kind.is_none_or(|kind| row.is_of(kind)));
    let findings = of.sheet.map(|sheet| places::findings(&sheet.tree)).unwrap_or_default();
    Data {
        job: of.job,
        comma: of.decimal_comma,
        opened: has("strip-down"),
        blocks: ["arrival", "exchange"].into_iter().filter(|block| has(block)).collect(),
        photos: of.photos.iter().map(picture).collect(),
        uses: of.sheet.map(|sheet| uses(sheet, of)).unwrap_or_default(),
        findings: findings
            .into_iter()
            .map(|own| FindingData {
                words: own.called.unwrap_or_else(|| wording.part(&own.part, "plain").to_owned()),
                part: own.part,
                condition: own.condition,
            })
            .collect(),
        parts: parts
            .map(|row| PartData {
                name: &row.part,
                words: capitalised(wording.part(&row.part, "plain")),
                group: row.group.word(),
            })
            .collect(),
        conditions: Condition::ALL
            .iter()
            .map(|one| Word { name: one.word(), words: wording.choice("conditions", one.word()) })
            .collect(),
        actions: Action::ALL
            .iter()
            .map(|one| Word { name: one.word(), words: wording.choice("actions", one.word()) })
            .collect(),
        signs: SIGNS
            .iter()
            .map(|row| SignData {
                name: &row.sign,
                words: wording.sign(&row.sign, "plain"),
                trade: wording.sign(&row.sign, "trade"),
                on: row.on.iter().map(|place| place.word()).collect(),
            })
            .collect(),
    }
}

fn picture(named: &NamedPhoto) -> Picture<'_> {
    let photo = &named.photo;
    let src = format!("data:image/jpeg;base64,{}", script_safe::base64(&photo.jpeg));
    Picture { file: &named.name, width: photo.width, height: photo.height, src }
}

/// The places of the sheet that name a photo of the folder.
fn uses(sheet: &Sheet, of: &PageOf<'_>) -> Vec<UseData> {
    let findings = places::findings(&sheet.tree);
    let all = places::uses(sheet, of.decimal_comma).into_iter();
    all.filter_map(|used| {
        let file = used.file?;
        let photo = of.photos.iter().position(|photo| photo.name == file)?;
        let own = used.finding.and_then(|at| findings.get(at));
        let marks = used.marks.map(|marks| marks.iter().map(|one| mark(one, of)).collect());
        Some(UseData {
            photo,
            list: PhotoList::word(used.list),
            finding: used.finding.map(|at| at + 1),
            part: own.map(|finding| finding.part.clone()).unwrap_or_default(),
            marks,
        })
    })
    .collect()
}

fn mark(mark: &Mark, of: &PageOf<'_>) -> MarkData {
    let text = mark.text.as_ref().map(|text| text.0.clone()).unwrap_or_default();
    let one = |kind, places: &[&dyn std::fmt::Display]| MarkData {
        kind,
        places: places.iter().map(ToString::to_string).collect(),
        size: 2.0,
        number: String::new(),
        unit: "mm",
        text: text.clone(),
    };
    match &mark.kind {
        MarkKind::Ring(at, size) => MarkData { size: *size, ..one("ring", &[at]) },
        MarkKind::Arrow(tip, tail) => one("arrow", &[tip, tail]),
        MarkKind::Box(at, to) => one("box", &[at, to]),
        MarkKind::Label(at) => one("label", &[at]),
        MarkKind::Length(at, to, length) => {
            let number = length.number.to_string();
            let number = if of.decimal_comma { number.replace('.', ",") } else { number };
            let unit = length.unit.spellings[0];
            MarkData { number, unit, ..one("length", &[at, to]) }
        }
    }
}
