//! Landmarks of many photos in order of their forms, so that a like one is found without comparing all.
//!
//! A form's 84 bits are cut into five keys of 16. Two forms of one spot that differ in a twelfth of
//! their bits have a key in common in two of three cases, and a photo has fifty spots.

use super::fitting::{self, Pair};
use super::look::{Candidate, Look};
use crate::assessment::plausibility::{ALIKE_PERMILLE, LEAST_SLOPES};
use crate::photo::{Fit, Landmark, PLACES};

/// Keys of a form.
const KEYS: usize = 5;

/// Values of a key.
const VALUES: usize = 1 << 16;

/// Most landmarks of one key that are looked at: what many spots have in common says nothing.
const MOST_ALIKE: usize = 1024;

/// Most of 84 pairs in which two forms of one spot differ.
const MOST_UNLIKE: u32 = 20;

/// Most candidates of one photo.
pub const MOST_CANDIDATES: usize = 8;

/// Known photos, ready to be searched.
pub struct Table<'a> {
    looks: &'a [Look],
    /// Photo and landmark of each spot.
    spots: Vec<(u32, u32)>,
    /// For each key where the spots of each value begin, and the spots in that order.
    keys: Vec<(Vec<u32>, Vec<u32>)>,
}

fn key(landmark: &Landmark, at: usize) -> usize {
    (landmark.form[at / 2] >> (16 * (at % 2))) as usize & (VALUES - 1)
}

impl<'a> Table<'a> {
    /// The table of known photos.
    pub fn of(looks: &'a [Look]) -> Self {
        let mut spots = Vec::new();
        for (photo, look) in looks.iter().enumerate() {
            spots.extend((0..look.landmarks.len()).map(|at| (photo as u32, at as u32)));
        }
        let landmark = |&(photo, at): &(u32, u32)| &looks[photo as usize].landmarks[at as usize];
        let keys = (0..KEYS).map(|of| {
            let mut begins = vec![0_u32; VALUES + 1];
            for spot in &spots {
                begins[key(landmark(spot), of) + 1] += 1;
            }
            for value in 0..VALUES {
                begins[value + 1] += begins[value];
            }
            let mut free = begins.clone();
            let mut order = vec![0_u32; spots.len()];
            for (at, spot) in spots.iter().enumerate() {
                let place = &mut free[key(landmark(spot), of)];
                order[*place as usize] = at as u32;
                *place += 1;
            }
            (begins, order)
        });
        let keys = keys.collect();
        Self { looks, spots, keys }
    }

    /// The known photos that may show the same picture as this one, the likeliest first; among
    /// those that `is_other` says yes to.
    pub fn candidates(&self, look: &Look, is_other: &dyn Fn(usize) -> bool) -> Vec<Candidate> {
        let mut found = Vec::new();
        for mirrored in [false, true] {
            found.extend(self.by_landmarks(look, mirrored, is_other));
            found.extend(self.by_whole(look, mirrored, is_other));
        }
        found.sort_by_key(|one: &Candidate| (usize::MAX - one.landmarks, one.known));
        let mut best: Vec<Candidate> = Vec::new();
        for one in found {
            let is_new = best.iter().all(|other| other.known != one.known);
            if is_new && best.len() < MOST_CANDIDATES {
                best.push(one);
            }
        }
        best
    }

    /// Photos of which many landmarks are found again in one arrangement.
    fn by_landmarks(
        &self,
        look: &Look,
        mirrored: bool,
        is_other: &dyn Fn(usize) -> bool,
    ) -> Vec<Candidate> {
        let width = (u32::from(look.width) * PLACES / 1000) as u16;
        let own = look.landmarks.iter().chain(&look.between).map(|own| match mirrored {
            true => own.mirrored(width),
            false => *own,
        });
        let own: Vec<Landmark> = own.collect();
        let mut pairs: Vec<(u32, Pair)> = Vec::new();
        for (at, landmark) in own.iter().enumerate() {
            for (of, (begins, order)) in self.keys.iter().enumerate() {
                let value = key(landmark, of);
                let (from, to) = (begins[value] as usize, begins[value + 1] as usize);
                if MOST_ALIKE < to - from {
                    continue;
                }
                for spot in &order[from..to] {
                    let (photo, other) = self.spots[*spot as usize];
                    let known = &self.looks[photo as usize].landmarks[other as usize];
                    let unlike = landmark.unlike(known);
                    if unlike <= MOST_UNLIKE {
                        let pair = Pair { unlike, own: at as u32, known: other };
                        pairs.push((photo, pair));
                    }
                }
            }
        }
        pairs.sort_unstable();
        pairs.dedup();
        let groups = pairs.chunk_by(|one, other| one.0 == other.0);
        let found = groups.filter_map(|group| {
            let known = group[0].0 as usize;
            let pairs: Vec<Pair> = group.iter().map(|one| one.1).collect();
            let of = || fitting::fit(&own, &self.looks[known].landmarks, &pairs);
            let (fit, landmarks) =
                (fitting::LEAST <= pairs.len() && is_other(known)).then(of).flatten()?;
            let fit = if mirrored { fit.of_mirrored(f64::from(look.width) / 1000.0) } else { fit };
            Some(Candidate { known, fit, mirrored, landmarks })
        });
        found.collect()
    }

    /// Photos that look alike as a whole, however few landmarks they have.
    fn by_whole(
        &self,
        look: &Look,
        mirrored: bool,
        is_other: &dyn Fn(usize) -> bool,
    ) -> Vec<Candidate> {
        let own = if mirrored { look.fingerprint.mirrored() } else { look.fingerprint };
        let fit = match mirrored {
            true => Fit::SAME.of_mirrored(f64::from(look.width) / 1000.0),
            false => Fit::SAME,
        };
        let looks = self.looks.iter().enumerate().filter(|(_, known)| {
            let likeness = own.likeness(&known.fingerprint);
            likeness.unlike_permille(LEAST_SLOPES).is_some_and(|unlike| unlike < ALIKE_PERMILLE)
        });
        looks
            .filter(|(known, _)| is_other(*known))
            .map(|(known, _)| Candidate { known, fit, mirrored, landmarks: 0 })
            .collect()
    }
}
