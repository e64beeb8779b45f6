//! A search among 10,000 photos: reading what is kept of them, the table, ten photos of a job.

use std::time::Instant;

use splitcase::assessment::recognition::{Look, Stored, Table};
use splitcase::digest::Digest;

/// Photos that are known.
const KNOWN: usize = 10_000;
/// Photos of the job that is held against them.
const OWN: usize = 10;

/// Makes 10,000 photos of the given ones, each other in a third of its forms' bits and in all places,
/// and prints what a job's photos cost among them.
pub fn search(looks: &[Look]) {
    if looks.is_empty() {
        return;
    }
    let mut state = 1_u32;
    let mut chance = move || {
        // A linear congruential generator; the figures are those of Numerical Recipes.
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        state >> 12
    };
    let mut stored = Stored::default();
    for n in 0..KNOWN {
        let mut look = looks[n % looks.len()].clone();
        look.sha256 = Digest::of(&n.to_le_bytes());
        for landmark in &mut look.landmarks {
            (landmark.x, landmark.y) = ((chance() % 16_384) as u16, (chance() % 12_288) as u16);
            for bit in 0..84 {
                if chance() % 3 == 0 {
                    landmark.form[bit / 32] ^= 1 << (bit % 32);
                }
            }
        }
        for word in look.fingerprint.falls.iter_mut().chain(&mut look.fingerprint.rises) {
            *word ^= u64::from(chance()) << 40 | u64::from(chance()) << 20 | u64::from(chance());
        }
        stored.looks.insert(look.sha256, look);
    }
    let bytes = stored.bytes();
    let start = Instant::now();
    let read = Stored::read(&bytes).unwrap();
    let known: Vec<Look> = read.looks.into_values().collect();
    let read = start.elapsed();
    let table = Table::of(&known);
    let built = start.elapsed();
    let found: usize =
        (0..OWN).map(|at| table.candidates(&looks[at % looks.len()], &|_| true).len()).sum();
    let searched = start.elapsed();
    println!(
        "{OWN} photos among {KNOWN}: read {} MB {read:.0?}, table {:.0?}, search {:.0?}; {found} \
         candidates; all {searched:.0?}",
        bytes.len() >> 20,
        built.saturating_sub(read),
        searched.saturating_sub(built),
    );
}
