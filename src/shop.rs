//! A workshop ready to work: its profile read, its templates set up, its logo at hand. Once a run.

use std::path::{Path, PathBuf};

use crate::diagnostic::{Diagnostic, Place, Problems};
use crate::document::press::Press;
use crate::document::problems;
use crate::document::templates::Templates;
use crate::failure::Failure;
use crate::intake;
use crate::sheet::{self, Workshop};

/// A workshop with its press.
pub struct Shop {
    /// The profile.
    pub workshop: Workshop,
    /// The profile's bytes.
    pub bytes: Vec<u8>,
    /// Templates, wordings and fonts.
    pub press: Press,
    /// The logo: file name and bytes.
    pub logo: Option<(String, Vec<u8>)>,
}

/// Why a workshop cannot work; every job below its profile is refused with it.
pub enum ShopRefusal {
    /// Problems in the profile.
    Problems(Vec<Diagnostic>),
    /// Something the machine refused.
    Failure(Failure),
}

impl From<Failure> for ShopRefusal {
    fn from(failure: Failure) -> Self {
        Self::Failure(failure)
    }
}

/// Opens the workshop whose profile lies at a path; warnings of the profile are dropped with it.
///
/// # Errors
/// Problems in the profile, or files that it names and that cannot be read.
pub fn open(profile: &Path) -> Result<Shop, ShopRefusal> {
    let bytes = intake::read_text_file(profile, "read the workshop profile")?;
    let shown = shown_path(profile);
    let mut problems = Problems::default();
    let workshop = sheet::read_profile(&shown.display().to_string(), &bytes, &mut problems);
    let Some(workshop) = workshop.filter(|_| !problems.has_errors()) else {
        return Err(ShopRefusal::Problems(problems.into_sorted()));
    };
    let fields = &workshop.fields;
    let templates = match &fields.templates {
        Some(folder) => Templates::with_house(intake::read_templates(&shown, &folder.0)?),
        None => Templates::built_in(),
    };
    let logo = match &fields.logo {
        Some(name) => Some((name.0.clone(), intake::read_beside(profile, &name.0)?)),
        None => None,
    };
    if let (Some((_, bytes)), Some(name)) = (&logo, &fields.logo) {
        check_logo(&name.0, bytes).map_err(|cause| {
            let place = Place::at(&workshop.source, name.span.clone());
            ShopRefusal::Problems(vec![problems::logo(place, cause)])
        })?;
    }
    let press = Press::new(templates)?;
    Ok(Shop { workshop, bytes, press, logo })
}

/// A logo goes to the papers as it is, so it must be what its ending says and of a sensible size.
fn check_logo(name: &str, bytes: &[u8]) -> Result<(), &'static str> {
    let ending = name.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
    let is_so = match ending.as_str() {
        "svg" => std::str::from_utf8(bytes).is_ok_and(|text| text.contains("<svg")),
        "png" => bytes.starts_with(b"\x89PNG"),
        "jpg" | "jpeg" => bytes.starts_with(b"\xff\xd8\xff"),
        _ => return Err("its ending is none of svg, png, jpg"),
    };
    match is_so {
        true if bytes.len() <= 2 << 20 => Ok(()),
        true => Err("it is larger than 2 MB"),
        false => Err("its content is not what its ending says"),
    }
}

/// The path from where the program was started, where it lies below.
fn shown_path(path: &Path) -> PathBuf {
    let here = std::env::current_dir().ok().and_then(|here| here.canonicalize().ok());
    let below = here.and_then(|here| path.strip_prefix(here).ok().map(Path::to_owned));
    below.unwrap_or_else(|| path.to_owned())
}
