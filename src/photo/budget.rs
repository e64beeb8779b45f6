//! A semaphore counted in pixels: small photos flow, large ones wait, memory stays bounded.
//!
//! One budget serves the whole run. Not here: how much a photo weighs (source).

use std::sync::{Condvar, Mutex, PoisonError};

/// The pixels that all workers of a run share.
#[derive(Debug)]
pub struct PixelBudget {
    whole: u64,
    free: Mutex<u64>,
    returned: Condvar,
}

impl Default for PixelBudget {
    fn default() -> Self {
        Self::of(Self::WHOLE)
    }
}

impl PixelBudget {
    /// Weighted pixels that may be in work at once in a run: 128 million, about 0.6 GB.
    pub const WHOLE: u64 = 128_000_000;

    /// A budget of `whole` weighted pixels; a weight of one is about five bytes.
    pub fn of(whole: u64) -> Self {
        Self { whole, free: Mutex::new(whole), returned: Condvar::new() }
    }

    /// Waits until `weight` weighted pixels are free and takes them. A weight above the whole
    /// budget waits until it is alone.
    pub fn wait_for(&self, weight: u64) -> Permit<'_> {
        let weight = weight.min(self.whole);
        let free = self.free.lock().unwrap_or_else(PoisonError::into_inner);
        let mut free = self
            .returned
            .wait_while(free, |free| *free < weight)
            .unwrap_or_else(PoisonError::into_inner);
        *free -= weight;
        Permit { budget: self, weight }
    }

    /// Weighted pixels that nobody holds now.
    pub fn free(&self) -> u64 {
        *self.free.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A share of the budget, given back when dropped, also while a panic unwinds.
#[derive(Debug)]
pub struct Permit<'a> {
    budget: &'a PixelBudget,
    weight: u64,
}

impl Drop for Permit<'_> {
    fn drop(&mut self) {
        *self.budget.free.lock().unwrap_or_else(PoisonError::into_inner) += self.weight;
        self.budget.returned.notify_all();
    }
}
