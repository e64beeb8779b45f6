//! The hands that a job may use for its photos: a number of threads and the run's pixel budget.

use std::any::Any;
use std::panic::{self, AssertUnwindSafe};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use crate::failure::fault;
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
        let answers: Vec<Mutex<Option<Answer<R>>>> =
            items.iter().map(|_| Mutex::new(None)).collect();
        let work_on = || {
            while let Some((item, answer)) = {
                let at = next.fetch_add(1, Ordering::Relaxed);
                items.get(at).zip(answers.get(at))
            } {
                // A panic is caught here and goes on in the caller's thread, with its place.
                let done = panic::catch_unwind(AssertUnwindSafe(|| work(item)));
                let done = done.map_err(|cause| (cause, fault::take()));
                *answer.lock().unwrap_or_else(PoisonError::into_inner) = Some(done);
            }
        };
        thread::scope(|scope| {
            for _ in 1..self.threads.min(items.len()) {
                // A machine that is short of threads works with those it has.
                if thread::Builder::new().spawn_scoped(scope, work_on).is_err() {
                    break;
                }
            }
            work_on();
        });
        let answers = answers.into_iter();
        answers
            .filter_map(|one| one.into_inner().unwrap_or_else(PoisonError::into_inner))
            .map(|answer| {
                answer.unwrap_or_else(|(cause, place)| {
                    fault::keep(place);
                    panic::resume_unwind(cause)
                })
            })
            .collect()
    }
}

/// What came of one item: its answer, or a panic with its place.
type Answer<R> = Result<R, (Box<dyn Any + Send>, Option<String>)>;
