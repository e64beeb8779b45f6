//! The page: one HTML file that holds everything it needs and may load nothing.
//!
//! In: its data; out: HTML. What the page does is the scripts beside this file.

use super::page_data::{self, PageOf};
use super::script_safe;
use crate::failure::Failure;

/// Name of the file.
pub const FILE_NAME: &str = "marking-page.html";

const HTML: &str = include_str!("page/page.html");
const STYLE: &str = include_str!("page/page.css");
/// The scripts, in the order in which they need each other.
const SCRIPTS: &[&str] = &[
    include_str!("page/state.js"),
    include_str!("page/grid.js"),
    include_str!("page/marks.js"),
    include_str!("page/lines.js"),
    include_str!("page/drawing.js"),
    include_str!("page/stage.js"),
    include_str!("page/findings.js"),
    include_str!("page/panels.js"),
    include_str!("page/start.js"),
];

/// Writes the page of a job.
///
/// # Errors
/// Its data cannot be written.
pub fn page(of: &PageOf<'_>) -> Result<Vec<u8>, Failure> {
    let script = format!("\"use strict\";\n(() => {{\n{}}})();\n", SCRIPTS.join("\n"));
    let data = script_safe::json(&page_data::data(of))?;
    let policy = format!(
        "default-src 'none'; img-src data:; style-src {}; script-src {}; base-uri 'none'; \
         form-action 'none'",
        script_safe::policy_source(STYLE),
        script_safe::policy_source(&script)
    );
    let title = match of.job {
        Some(job) => script_safe::text(&format!("Marks and findings of job {job}")),
        None => "Marks and findings".to_owned(),
    };
    let filled = [
        ("{policy}", policy.as_str()),
        ("{title}", &title),
        ("{style}", STYLE),
        ("{data}", &data),
        ("{script}", &script),
    ];
    let mut page =
        String::with_capacity(HTML.len() + data.len() + script.len() + STYLE.len() + 512);
    let mut rest = HTML;
    // The names are in this order in the page, so nothing that was filled in is looked through again.
    for (name, text) in filled {
        let (before, after) = rest.split_once(name).unwrap_or((rest, ""));
        page.push_str(before);
        page.push_str(text);
        rest = after;
    }
    page.push_str(rest);
    Ok(page.into_bytes())
}
