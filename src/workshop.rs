//! A workshop ready to work: its profile read, its templates set up, its logo at hand. Once a run.

use std::path::Path;

use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::apart::{self, Answer, Task};
use crate::document::press::Press;
use crate::document::templates::Templates;
use crate::document::{self, logo, problems};
use crate::failure::Failure;
use crate::intake::{self, house, shown};
use crate::photo::{self, Format, Kind, PixelBudget};
use crate::sheet::{self, ProfileFile, encoding};

/// A workshop with its press.
pub struct Workshop {
    /// The profile.
    pub profile: ProfileFile,
    /// The profile's bytes.
    pub bytes: Vec<u8>,
    /// The bytes of the price list beside it; none if there is no list.
    pub prices: Vec<u8>,
    /// Templates, wordings and fonts.
    pub press: Press,
    /// The logo: file name and bytes.
    pub logo: Option<(String, Vec<u8>)>,
}

/// Why a workshop cannot work; every job below its profile is refused with it.
pub enum WorkshopRefusal {
    /// Problems in the profile.
    Problems(Vec<Diagnostic>),
    /// Something the machine refused.
    Failure(Failure),
}

impl From<Failure> for WorkshopRefusal {
    fn from(failure: Failure) -> Self {
        Self::Failure(failure)
    }
}

impl Workshop {
    /// Name and bytes of the logo.
    pub fn logo(&self) -> Option<(&str, &[u8])> {
        self.logo.as_ref().map(|(name, bytes)| (name.as_str(), bytes.as_slice()))
    }
}

/// Opens the workshop with the profile at a path; warnings of the profile are dropped with it.
///
/// # Errors
/// Problems in the profile, or in files that it names.
pub fn open(profile: &Path) -> Result<Workshop, WorkshopRefusal> {
    let bytes = intake::read_text_file(profile, "read the workshop profile")?;
    let shown = shown::from_here(profile);
    let mut problems = Problems::default();
    let mut workshop = sheet::read_profile(&shown.display().to_string(), &bytes, &mut problems);
    let prices = house::read_prices(profile)?;
    if let (Some((path, list)), Some(workshop)) = (&prices, &mut workshop) {
        let name = shown::from_here(path).display().to_string();
        sheet::read_prices(&name, list, workshop, &mut problems);
    }
    let prices = prices.map_or_else(Vec::new, |(_, list)| list);
    let Some(workshop) = workshop.filter(|_| !problems.has_errors()) else {
        return Err(WorkshopRefusal::Problems(problems.into_sorted()));
    };
    let templates = templates(&shown, &workshop)?;
    let logo = logo(profile, &workshop)?;
    let press = Press::new(templates)?;
    Ok(Workshop { profile: workshop, bytes, prices, press, logo })
}

/// The templates and wordings: the workshop's own are tried first, in a process of their own.
fn templates(profile: &Path, workshop: &ProfileFile) -> Result<Templates, WorkshopRefusal> {
    let Some(folder) = &workshop.fields.templates else { return Ok(Templates::built_in()) };
    let (mut own, mut problems) = (Vec::new(), Problems::default());
    for (path, shown, bytes) in house::read_templates(profile, &folder.0)? {
        match encoding::decode(&shown, &bytes) {
            Ok(source) => own.push((path, source)),
            Err(problem) => problems.push(problem),
        }
    }
    if problems.has_errors() {
        return Err(WorkshopRefusal::Problems(problems.into_sorted()));
    }
    let templates = Templates::with_house(own);
    // Layouts are run apart for every paper; words are written here, so they are tried first.
    if templates.house().all(|(path, _)| !path.starts_with("wording/")) {
        return Ok(templates);
    }
    match apart::ask(&templates, &Task::Words)? {
        Answer::Done(_) => Ok(templates),
        Answer::Problems(found) => Err(WorkshopRefusal::Problems(found)),
        Answer::RanOut => {
            let place = Place::at(&workshop.source, folder.span.clone());
            Err(WorkshopRefusal::Problems(vec![problems::ran_out(place)]))
        }
    }
}

/// Most bytes of a logo.
const MAX_LOGO: u64 = 2 << 20;
/// Most pixels of a logo: it is set 14 mm high.
const MAX_LOGO_PIXELS: u64 = 4_000_000;

/// The logo, which goes to the papers as it is: whole, of a sensible size, and what its ending says.
fn logo(
    profile: &Path,
    workshop: &ProfileFile,
) -> Result<Option<(String, Vec<u8>)>, WorkshopRefusal> {
    let Some(name) = &workshop.fields.logo else { return Ok(None) };
    let place = Place::at(&workshop.source, name.span.clone());
    let refused =
        |cause: &str| WorkshopRefusal::Problems(vec![problems::logo(place.clone(), cause)]);
    let bytes = house::read_logo(profile, &name.0, MAX_LOGO)?;
    if MAX_LOGO < bytes.len() as u64 {
        return Err(refused("it is larger than 2 MB"));
    }
    let ending = name.0.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
    let is_so = match ending.as_str() {
        "svg" => std::str::from_utf8(&bytes).is_ok_and(|text| text.contains("<svg")),
        "png" => photo::kind_of(&bytes) == Kind::Picture(Format::Png),
        "jpg" | "jpeg" => photo::kind_of(&bytes) == Kind::Picture(Format::Jpeg),
        _ => return Err(refused("its ending is none of svg, png, jpg")),
    };
    if !is_so {
        return Err(refused("its content is not what its ending says"));
    }
    if ending == "svg" {
        if let Some(problem) = logo::tried(&place, &name.0, &bytes)? {
            return Err(WorkshopRefusal::Problems(vec![problem]));
        }
    } else {
        check_picture(&bytes).map_err(|cause| refused(&cause))?;
    }
    Ok(Some((name.0.clone(), bytes)))
}

/// Decodes a logo as a photo is decoded, within the same bounds.
fn check_picture(bytes: &[u8]) -> Result<(), String> {
    let photo = photo::prepare(bytes, document::print_size(), &PixelBudget::default());
    let facts = photo.map_err(|refusal| refusal.to_string())?.facts;
    let pixels = u64::from(facts.width) * u64::from(facts.height);
    if facts.damaged {
        return Err("the file is damaged or cut short".to_owned());
    }
    if MAX_LOGO_PIXELS < pixels {
        let (width, height) = (facts.width, facts.height);
        return Err(format!("it has {width} x {height} pixels; at most 4 million are taken"));
    }
    Ok(())
}
