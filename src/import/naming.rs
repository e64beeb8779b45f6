//! Names of copies: the job's number and a number of their own, short enough to be typed.

use crate::photo::Format;

/// The names that a job folder has still to give.
#[derive(Debug)]
pub(super) struct Names {
    start: String,
    last: u64,
}

impl Names {
    /// The names of a job beside the files that it has, whatever their endings and letters.
    pub(super) fn new<'a>(number: &str, there: impl Iterator<Item = &'a str>) -> Self {
        let start = format!("{number}-");
        let own = start.to_lowercase();
        let last = there.filter_map(|name| {
            let name = name.to_lowercase();
            let rest = name.strip_prefix(&own)?;
            let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
            rest[..digits].parse::<u64>().ok()
        });
        Self { last: last.max().unwrap_or(0), start }
    }

    /// The next name: `HD-2614-07.jpg`.
    pub(super) fn next(&mut self, format: Format) -> String {
        self.last = self.last.saturating_add(1);
        format!("{}{:02}.{}", self.start, self.last, ending(format))
    }
}

fn ending(format: Format) -> &'static str {
    match format {
        Format::Jpeg => "jpg",
        Format::Png => "png",
        Format::WebP => "webp",
        Format::Tiff => "tif",
        Format::Bmp => "bmp",
        Format::Heic => "heic",
    }
}
