//! The hands that a job may use for its photos: a number of threads and the run's pixel budget.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use crate::photo::budget::PixelBudget;

/// Threads for the photos of one job, and the budget that all jobs share.
#[derive(Debug, Clone, Copy)]
pub struct Hands<'a> {
    budget: &'a PixelBudget,
    threads: usize,
}

impl<'a> Hands<'a> {
    /// So many threads, at least one, on a shared budget.
    pub fn new(threads: usize, budget: &'a PixelBudget) -> Self {
        Self { budget, threads: threads.max(1) }
    }

    /// The budget of the run.
    pub fn budget(&self) -> &'a PixelBudget {
        self.budget
    }

    /// Does one thing to each item; the answers stand in the order of the items.
    pub fn each<T: Sync, R: Send>(&self, items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
        if self.threads == 1 || items.len() < 2 {
            return items.iter().map(work).collect();
        }
        let next = AtomicUsize::new(0);
        let answers: Vec<Mutex<Option<R>>> = items.iter().map(|_| Mutex::new(None)).collect();
        thread::scope(|scope| {
            for _ in 0..self.threads.min(items.len()) {
                scope.spawn(|| {
                    while let Some((item, answer)) = {
                        let at = next.fetch_add(1, Ordering::Relaxed);
                        items.get(at).zip(answers.get(at))
                    } {
                        let done = work(item);
                        *answer.lock().unwrap_or_else(std::sync::PoisonError::into_inner) =
                            Some(done);
                    }
                });
            }
        });
        // A panic in `work` has unwound through the scope; every answer is there.
        answers
            .into_iter()
            .filter_map(|one| one.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner))
            .collect()
    }
}
