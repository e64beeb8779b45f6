//! A sheet's material made by hand, and what the return report says of it: without a folder or a run.

use serde_json::Value;
use splitcase::assessment::{self, Assessment};
use splitcase::diagnostic::Problems;
use splitcase::digest::Digest;
use splitcase::document::material::Material;
use splitcase::document::papers::asked::Asked;
use splitcase::document::papers::choice::Choice;
use splitcase::document::papers::written::written;
use splitcase::document::papers::{evidence_file, return_report};
use splitcase::document::sections::{bench, options, ride};
use splitcase::document::templates::Templates;
use splitcase::document::wording::Wording;
use splitcase::document::writer::Writer;
use splitcase::overview;
use splitcase::overview::case::Case;
use splitcase::overview::learned::{self, Overview};
use splitcase::photo::{self, NamedPhoto, PixelBudget};
use splitcase::sheet::vocabulary::CauseKind;
use splitcase::sheet::{self, ProfileFile, Sheet};

/// A sheet with all that its report is made from.
pub struct Made {
    pub sheet: Sheet,
    pub workshop: ProfileFile,
    pub assessment: Assessment,
    photos: Vec<NamedPhoto>,
}

/// Reads and weighs a sheet that must be whole; warnings are let pass.
pub fn made(profile: &str, text: &str, track: Option<&[u8]>) -> Made {
    let mut problems = Problems::default();
    let workshop = sheet::read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    made_in(workshop, text, track, problems)
}

/// The same in a workshop whose profile was read before.
pub fn made_in(
    workshop: ProfileFile,
    text: &str,
    track: Option<&[u8]>,
    mut problems: Problems,
) -> Made {
    let made = weighed(workshop, text, track, &mut problems);
    let errors = problems.has_errors();
    let messages: Vec<String> = problems.into_sorted().into_iter().map(|one| one.message).collect();
    assert!(!errors, "{messages:?}\n{text}");
    made
}

/// The same of a sheet that `check` would refuse, such as one without its work.
pub fn made_of_faulty(profile: &str, text: &str, track: Option<&[u8]>) -> Made {
    let mut problems = Problems::default();
    let workshop = sheet::read_profile("workshop.yaml", profile.as_bytes(), &mut problems).unwrap();
    weighed(workshop, text, track, &mut problems)
}

fn weighed(
    workshop: ProfileFile,
    text: &str,
    track: Option<&[u8]>,
    problems: &mut Problems,
) -> Made {
    let sheet = sheet::read("findings.yaml", text.as_bytes(), &workshop, problems).unwrap();
    let assessment = assessment::assess(&sheet, &workshop, track, problems);
    Made { sheet, workshop, assessment, photos: Vec::new() }
}

impl Made {
    /// The same picture for every photo that the sheet names.
    pub fn with_photos(mut self) -> Self {
        let mut bytes = std::io::Cursor::new(Vec::new());
        image::RgbImage::from_pixel(64, 48, image::Rgb([90, 70, 50]))
            .write_to(&mut bytes, image::ImageFormat::Jpeg)
            .unwrap();
        let jpeg = bytes.into_inner();
        let budget = PixelBudget::of(1 << 27);
        let named = |used: &sheet::photo_use::PhotoUse| NamedPhoto {
            name: used.file.0.clone(),
            photo: photo::prepare(&jpeg, splitcase::document::print_size(), &budget).unwrap(),
        };
        self.photos = self.sheet.fields.photo_uses().map(named).collect();
        self
    }

    fn material(&self) -> Material<'_> {
        Material {
            sheet: &self.sheet,
            workshop: &self.workshop,
            photos: &self.photos,
            assessment: &self.assessment,
            manifest: "",
            issued: "",
            digest: Digest::of(b""),
            logo: None,
        }
    }

    /// The views of every paper that can be made of it, by the name of the paper.
    pub fn views(&self, wording: &Wording) -> Vec<(&'static str, Value)> {
        self.views_of(&Choice::All, wording)
    }

    /// The views of these papers.
    pub fn views_of(&self, choice: &Choice, wording: &Wording) -> Vec<(&'static str, Value)> {
        let written = written(&self.material(), wording, &Asked::from(choice.clone()));
        let Ok(written) = written else { panic!("a paper of {}", self.sheet.fields.job.0) };
        // Read as YAML, which keeps every digit of a number.
        let view = |data: &[u8]| serde_yaml::from_slice(data).unwrap();
        written.into_iter().map(|one| (one.paper.name, view(&one.data))).collect()
    }

    /// The covering message of every paper that can be made of it, as text.
    pub fn messages(&self, wording: &Wording) -> Vec<(&'static str, String)> {
        let asked = Asked { message: true, ..Asked::from(Choice::All) };
        let Ok(written) = written(&self.material(), wording, &asked) else {
            panic!("a message of {}", self.sheet.fields.job.0)
        };
        written.into_iter().map(|one| (one.paper.name, one.letter.unwrap().text())).collect()
    }

    /// What an overview says of it and as many more cases like it, with the given causes.
    pub fn overview(&self, causes: &[CauseKind], wording: &Wording) -> Value {
        let own = Case::of(&self.sheet, &self.workshop).expect("the job is closed");
        let case = |cause: &CauseKind| Case { cause: Some(*cause), ..own.clone() };
        let learned = learned::learn(causes.iter().map(case).collect(), 1, 2, None);
        self.overview_of(&learned, wording)
    }

    /// What its workshop is told of what was learnt.
    pub fn overview_of(&self, learned: &Overview, wording: &Wording) -> Value {
        let view = overview::paper::view(learned, &self.material().cover(), wording);
        serde_json::to_value(view).unwrap()
    }

    /// The view of its evidence file.
    pub fn evidence_file(&self, wording: &Wording) -> Value {
        let material = self.material();
        let view = evidence_file::view(&Writer::new(&material, wording));
        let Ok(view) = view else { panic!("the file of {} is written", self.sheet.fields.job.0) };
        serde_json::to_value(view).unwrap()
    }

    /// The view of its return report, as the templates get it, and beside it the readings and options
    /// that other papers print whole.
    pub fn view(&self, wording: &Wording) -> Value {
        let material = self.material();
        let view = return_report::view(&Writer::new(&material, wording));
        let Ok(view) = view else { panic!("the report of {} is written", self.sheet.fields.job.0) };
        let mut view = serde_json::to_value(view).unwrap();
        let writer = Writer::new(&material, wording);
        let others = serde_json::json!({
            "every-reading": bench::bench(&writer),
            "every-reading-of-the-ride": ride::readings(&writer),
            "options": options::options(&writer),
        });
        view.as_object_mut().unwrap().extend(others.as_object().unwrap().clone());
        view
    }
}

/// The English words.
pub fn english() -> Wording {
    Wording::read(&Templates::built_in(), "en", None)
        .unwrap_or_else(|_| panic!("the words are in order"))
}

/// A text with the signs of a keyboard in the place of those that print has.
pub fn plain(text: &str) -> String {
    let text = text.replace(['\u{a0}', '\u{202f}'], " ").replace(['\u{200b}', '\u{2063}'], "");
    text.replace(['’', '‘'], "'").replace(['“', '”'], "\"")
}
