//! The document stage: everything known of a job -> the papers as PDF.
//!
//! ```text
//! material ─► facts ─► clauses, sections ─► papers (view) ─► print, press ─► PDF
//!                      (one writer)
//! ```
//!
//! In: [`material::Material`] and a [`press::Press`]; out: PDF bytes. Nothing is written to disk here.

pub mod apart;
mod calendar;
mod care_words;
mod checks;
pub mod clauses;
mod companion;
pub mod edition;
pub mod facts;
mod figure;
pub mod fonts;
pub mod format;
pub mod frame;
mod frames;
pub mod logo;
pub mod manifest;
pub mod material;
mod message;
pub mod noted;
mod numbered;
pub mod order;
pub mod papers;
pub mod pdf;
pub mod press;
mod print;
pub mod problems;
mod refusal;
pub mod ruler;
pub mod sections;
pub mod templates;
pub mod text;
mod trial;
mod typeset;
pub mod units;
pub mod view;
pub mod wording;
pub mod writer;

pub use checks::{check_language, check_letters, check_words};
pub use companion::Companion;
pub use material::{day, print_size};
pub use message::doubts as message_doubts;
pub use print::{Document, check, make, orders, overview, photo_sheet};
pub use refusal::Refusal;
