//! The one integration binary: a module a stage, fixtures in the folder of the same name.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::disallowed_methods,
    clippy::format_collect,
    clippy::format_push_string,
    clippy::needless_for_each,
    clippy::case_sensitive_file_extension_comparisons,
    reason = "a test that meets the unexpected fails, and it looks at files and clocks to judge"
)]

/// Sealed bags: made, signed, stamped, judged.
mod archive;
/// What follows from a sheet: causes, costs.
mod assessment;
/// Whole runs over many job folders: what is written, skipped, refused, and how it is told.
mod batch;
/// How a job begins: numbers, short sheets, photos from a card.
mod beginning;
/// Sheets that contradict themselves: what the paper says of them all the same.
mod contradictions;
/// What every verb has in common: help, paths, quiet, colours, JSON, order.
mod conventions;
/// Covering messages, the calendar of next checks, the edition for a telephone.
mod covering;
/// The papers: structure, standards, words, sizes.
mod document;
/// The evidence file: photos, values, signs, digests.
mod evidence;
/// Sheets as people first write them: one look shows everything, one round mends it.
mod first_tries;
/// Readers that take whatever bytes they are given.
mod fuzz;
/// Sentences in other languages than English.
mod grammar;
/// Files made to hurt: bounded time, bounded memory, a clear message.
mod hostile;
/// A workshop's own logo, templates and wordings, and what they may cost.
mod house;
/// What is printed, measured in the finished PDFs: letters, ink, a bearing at its natural size.
mod ink;
/// Papers in other languages than English.
mod languages;
/// The house itself: imports run downward, files stay short, no module is forgotten.
mod layering;
/// Photos and units that other jobs have too.
mod likeness;
/// The marking page, and what it saved taken into a sheet.
mod mark;
/// Messages of sheet and profile, each beside its place in a fixture.
mod messages;
/// Every value of a sheet is on the paper, or said to be for the workshop only.
mod nothing_lost;
/// Where papers are written, and what is never written over.
mod output;
/// What is learnt from closed jobs.
mod overview;
/// A sheet's material made by hand, and what the report says of it.
mod paper;
/// Which papers a sheet gives, and the pages of those before the report.
mod papers;
/// Parts: every one has words and a place, and one that no list has is printed by its own name.
mod parts;
/// Photos: bytes in, clean upright JPEG and facts out.
mod photo;
/// Prices that a sheet leaves to the workshop's list.
mod prices;
/// Page 1 read as its customer reads it: forty jobs of all kinds.
mod reading;
/// What README, DEVELOPERS.md and `docs/` say is true.
mod readme;
/// What the return report says.
mod report;
/// What cannot be printed, started or read is said, with the exit code that scripts ask for.
mod said;
/// The samples: every job makes its paper, twice the same bytes.
mod samples;
/// The papers read by somebody who believes nothing.
mod sceptic;
/// Many jobs on many machines.
mod sharing;
/// The samples with smaller photos.
mod small;
/// The list of jobs: states, days, what is needed.
mod standing;
/// Quantities, prices, dates and grid places against published values.
mod values;
/// What the papers of the samples say, as files; a second language made for the test.
mod views;
/// Papers made again whenever something is saved.
mod watching;
/// What is particular to Windows, tried on every system.
mod windows;
/// Every language has every key and every catalogue row its words.
mod wording;
/// Words of the sheet, found by what people say.
mod words;
/// A folder of jobs to run the program on.
mod workshop;
