//! The record of a job for the workshop and an assessor: what was done by whom, part by part, sign by
//! sign, photo by photo, and what all of it was made from.
//!
//! In: a [`Writer`](crate::document::writer::Writer); out: tables and plates of words. Readings are in
//! [`super::bench::record`].

pub mod chronicle;
pub mod decision;
pub mod digests;
pub mod parts;
pub mod plates;
pub mod signs;
pub mod visits;
pub mod words;
