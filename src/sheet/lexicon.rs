//! Finding words of the sheet by what people say: plain words, the trade's, everyday and foreign ones.
//!
//! In: a text as typed; out: the words of the sheet that come nearest, each with what it means and what
//! the customer reads. `everyday.yaml` is the dictionary. One index serves `splitcase words`, "did you
//! mean" and the descriptions in the schema. English only on the answering side; nothing is printed here.

pub mod all;
pub mod entry;
pub mod everyday;
pub mod fold;
pub mod index;
pub mod near;
pub mod query;
pub mod readings;
