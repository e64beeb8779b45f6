//! What the templates see: the contract between Rust and Typst, all texts final. Which of these pieces a
//! paper has is said in `papers`.
//!
//! Templates read this as `/job/data.json`. Fields are added, never silently renamed.

pub mod assessed;
pub mod care;
pub mod costs;
pub mod fact;
pub mod letter;
pub mod noted;
pub mod record;

use serde::Serialize;

use fact::Fact;

/// A photo with its words and marks.
#[derive(Clone, Debug, Serialize)]
pub struct PhotoView {
    /// Virtual file.
    pub file: String,
    /// Pixels of the print copy, or of what is shown of it.
    pub width: u32,
    /// Pixels of the print copy, or of what is shown of it.
    pub height: u32,
    /// The part of the photo that is shown; left out if that is all of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<Cut>,
    /// A bar of a known length; left out if none is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bar: Option<ScaleBar>,
    /// Number in the evidence list.
    pub number: String,
    /// Strong words before the caption.
    pub lead: Option<String>,
    /// One line under the photo.
    pub caption: String,
    /// Alternative text (PDF/UA-1, 7.3).
    pub alt: String,
    /// Drawings over it.
    pub marks: Vec<MarkView>,
}

/// A part of a photo, in fractions of its upright width (`x`, `width`) and height (`y`, `height`).
#[derive(Clone, Debug, Serialize)]
#[allow(missing_docs, reason = "the head of the struct says it all")]
pub struct Cut {
    pub x: f64,
    pub y: f64,
    pub width: f64,
    pub height: f64,
}

/// A bar that is as long as its words say, in the plane of the measured length.
#[derive(Clone, Debug, Serialize)]
pub struct ScaleBar {
    /// Its length in widths of what is shown.
    pub share: f64,
    /// `10 mm`.
    pub text: String,
}

/// A drawing over a photo, in fractions of its upright width (`x`, `size`) and height (`y`).
#[derive(Clone, Debug, Serialize)]
#[allow(missing_docs, reason = "the head of the struct says it all")]
pub struct MarkView {
    pub kind: &'static str,
    pub x: f64,
    pub y: f64,
    pub x2: Option<f64>,
    pub y2: Option<f64>,
    pub size: Option<f64>,
    pub text: Option<String>,
    /// How wide the text is on one line of 8 points, in points.
    pub wide: f64,
}

/// The strongest pair of photos.
#[derive(Debug, Serialize)]
pub struct Pair {
    /// As found.
    pub before: PhotoView,
    /// As left.
    pub after: Option<PhotoView>,
}

/// A short answer on page 1.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// The question.
    pub question: String,
    /// The answer.
    pub text: String,
}

/// A day in the life of a unit.
#[derive(Debug, Serialize)]
pub struct LifeDay {
    /// What happened and when.
    pub fact: Fact,
    /// True if the unit was with us.
    pub here: bool,
}

/// A thing to do: what in strong letters, then more.
#[derive(Debug, PartialEq, Serialize)]
pub struct Advice {
    /// What to do.
    pub what: String,
    /// How or why.
    pub more: String,
}

/// A list of things to do.
#[derive(Debug, Serialize)]
pub struct AdviceList {
    /// Its heading.
    pub heading: String,
    /// Its things.
    pub items: Vec<Advice>,
}

/// One part with what was seen on it; how the unit came has no condition.
#[derive(Debug, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FindingView {
    /// Plain name of the part.
    pub part: String,
    /// Condition, as the sheet's word.
    pub condition: &'static str,
    /// Condition, as printed.
    pub condition_word: String,
    /// What was done, as printed.
    pub action_word: Option<String>,
    /// Facts of the spine.
    pub facts: Vec<Fact>,
    /// Its bearing at natural size, if its designation tells it.
    pub natural: Option<Natural>,
    /// The speaking heading.
    pub heading: String,
    /// True if the heading says more than part and condition.
    pub tells_more: bool,
    /// Paragraphs.
    pub text: Vec<String>,
    /// Which photos show it.
    pub reference: Option<String>,
    /// Photos as found.
    pub photos: Vec<PhotoView>,
    /// Photos as left.
    pub photos_after: Vec<PhotoView>,
}

/// A bearing to be drawn as large as it is, in millimetres.
#[derive(Debug, Serialize)]
pub struct Natural {
    /// Bore.
    pub bore: u32,
    /// Outside diameter.
    pub outside: u32,
    /// What it is and how to check the print.
    pub caption: String,
    /// The drawing in words.
    pub alt: String,
}

/// A part's name beside the drawing of the unit, at the end of a line from its place.
#[derive(Debug, Serialize)]
pub struct MapName {
    /// The part, by its name in the sheet.
    pub part: &'static str,
    /// Its plain name, with its condition if it is harmed.
    pub text: String,
    /// Millimetres from the left of the drawing as its places are written down.
    pub x: f64,
    /// Millimetres from the top of the drawing as its places are written down.
    pub y: f64,
    /// `left` or `right` of the drawing.
    pub side: &'static str,
    /// Middle of the name in millimetres from the top, on paper.
    pub at: f64,
    /// True if the part is sound.
    pub whole: bool,
}

/// The unit as a section.
#[derive(Debug, Serialize)]
pub struct UnitMap {
    /// `mid-drive`, `hub` (neither gears nor a magnet ring drawn), `hub-geared` or `hub-direct`.
    pub kind: &'static str,
    /// Its label.
    pub heading: String,
    /// Names of the parts.
    pub names: Vec<MapName>,
    /// Where the water came in, in millimetres from the left and the top; none if not known.
    pub water: Option<[f64; 2]>,
    /// What the marks mean.
    pub caption: String,
    /// The drawing in words.
    pub alt: String,
}

/// The amount on page 1.
#[derive(Debug, Serialize)]
pub struct Paid {
    /// `Paid`, `To pay`, `Nothing to pay`.
    pub label: String,
    /// The amount.
    pub amount: String,
    /// When and how, tax, guarantee.
    pub notes: Vec<String>,
}

/// A line under a table of costs.
#[derive(Debug, Serialize)]
pub struct Total {
    /// What it is.
    pub label: String,
    /// The amount.
    pub amount: String,
    /// True for the amount to pay.
    pub strong: bool,
}

/// Work, parts and costs.
#[derive(Debug, Serialize)]
pub struct WorkView {
    /// The speaking heading.
    pub heading: String,
    /// Paragraphs.
    pub text: Vec<String>,
    /// Heads of the table.
    pub columns: Vec<String>,
    /// Rows of the table.
    pub rows: Vec<Vec<String>>,
    /// The same rows in as few words as a narrow column needs, with what leads to the total; empty if they are many.
    pub items: Vec<BillItem>,
    /// Lines under the table.
    pub totals: Vec<Total>,
    /// Terms and remarks.
    pub notes: Vec<String>,
}

/// A row of a small bill.
#[derive(Debug, Serialize)]
pub struct BillItem {
    /// What, how much of it and at which price each.
    pub label: String,
    /// The amount, as printed.
    pub amount: String,
}

/// A label with a value in fixed-width letters.
#[derive(Debug, Serialize)]
pub struct Digest {
    /// What it is a digest of.
    pub label: String,
    /// Hexadecimal digits in groups.
    pub value: String,
}

/// A QR code as rows of `0` and `1`.
#[derive(Debug, Serialize)]
pub struct Qr {
    /// One string a row, one character a module.
    pub modules: Vec<String>,
    /// Alternative text (PDF/UA-1, 7.3).
    pub alt: String,
    /// What it is, printed beside it.
    pub caption: String,
}

/// What the report rests on, in short: the way from paper back to the archive.
#[derive(Debug, Serialize)]
pub struct Proof {
    /// The heading.
    pub heading: String,
    /// What is kept and attached.
    pub text: String,
    /// Digest of the job's inputs.
    pub digest: Digest,
    /// The digest as a code.
    pub qr: Option<Qr>,
}

/// The list of photos with what proves them.
#[derive(Debug, Serialize)]
pub struct Evidence {
    /// The speaking heading.
    pub heading: String,
    /// Paragraphs.
    pub text: Vec<String>,
    /// Heads of the table.
    pub columns: Vec<String>,
    /// Rows of the table.
    pub rows: Vec<Vec<String>>,
    /// Digest of the job's inputs.
    pub digest: Digest,
    /// The way from paper back to the archive.
    pub qr: Option<Qr>,
}

/// A file that the PDF carries.
#[derive(Debug, Serialize)]
pub struct Attached {
    /// Virtual file.
    pub file: String,
    /// Name in the PDF.
    pub name: String,
    /// Media type.
    pub mime: &'static str,
    /// Relationship of PDF/A-3: `source`, `data`, `supplement`.
    pub relationship: &'static str,
    /// What it is.
    pub description: String,
}

/// A picture file with its words.
#[derive(Debug, Serialize)]
pub struct Logo {
    /// Virtual file.
    pub file: String,
    /// Alternative text (PDF/UA-1, 7.3).
    pub alt: String,
}

/// The sender.
#[derive(Debug, Serialize)]
pub struct Sender {
    /// Name of the workshop.
    pub name: String,
    /// Address lines.
    pub address: Vec<String>,
    /// Telephone, mail.
    pub contact: Vec<String>,
    /// Its logo.
    pub logo: Option<Logo>,
}

/// The line at the foot of every page.
#[derive(Debug, Serialize)]
pub struct Foot {
    /// Left.
    pub left: String,
    /// Middle.
    pub middle: String,
}

/// What every paper has: paper size, language, sender, foot, files.
#[derive(Debug, Serialize)]
pub struct Frame {
    /// `a4` or `us-letter`.
    pub paper: &'static str,
    /// Language of the text.
    pub lang: String,
    /// Region of the language.
    pub region: Option<String>,
    /// Accent colour.
    pub accent: String,
    /// Title of the document.
    pub title: String,
    /// Author of the document.
    pub author: String,
    /// Fixed labels that templates use.
    pub words: serde_json::Value,
    /// The sender.
    pub workshop: Sender,
    /// The foot.
    pub foot: Foot,
    /// Files that the PDF carries.
    pub attachments: Vec<Attached>,
}
