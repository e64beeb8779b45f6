//! Work for a number of items shared among plain threads; the answers are in the order of the items.
//!
//! In: a number of threads, a number of items, the work for one; out: the answers. What the work is, is
//! not here. Jobs are not tasks of a shared rayon pool: those are nested on one stack and overflow it.

use std::any::Any;
use std::panic::{self, AssertUnwindSafe};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

use crate::failure::fault;

/// Stack of a thread in bytes; Typst's deepest nesting needs half a megabyte.
const STACK_BYTES: usize = 8 << 20;

/// What came of one item: its answer, or a panic with its place.
type Answer<R> = Result<R, (Box<dyn Any + Send>, Option<String>)>;

/// Does the work for every number below `n` on `threads` threads, for work that needs no more than that.
///
/// A panic goes on in the caller's thread, with its place.
pub fn map<R: Send>(threads: usize, n: usize, work: impl Fn(usize) -> R + Sync) -> Vec<R> {
    if threads < 2 || n < 2 {
        return (0..n).map(work).collect();
    }
    map_with(threads, n, |_| (), |(), at| work(at))
}

/// Does the work for every number below `n`, each of which sets papers.
///
/// Each thread has a private one-thread pool, in which Typst waits, and after each job the caches lose
/// what is older than one job of every thread: their ages are counted in calls.
pub fn map_jobs<R: Send>(workers: usize, n: usize, work: impl Fn(usize) -> R + Sync) -> Vec<R> {
    let workers = workers.min(n).max(1);
    let pool = |is_caller: bool| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).stack_size(STACK_BYTES);
        if is_caller { pool.use_current_thread() } else { pool }.build().ok()
    };
    map_with(workers, n, pool, |pool, at| {
        let answer = match pool {
            Some(pool) => pool.install(|| work(at)),
            None => work(at),
        };
        comemo::evict(workers);
        answer
    })
}

/// The loop of both: `start` is called once on each thread, with true on the caller's own, if no
/// other could be had.
fn map_with<S, R: Send>(
    threads: usize,
    n: usize,
    start: impl Fn(bool) -> S + Sync,
    work: impl Fn(&S, usize) -> R + Sync,
) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let answers: Vec<Mutex<Option<Answer<R>>>> = (0..n).map(|_| Mutex::new(None)).collect();
    let work_on = |is_caller: bool| {
        let state = start(is_caller);
        while let Some((at, answer)) = {
            let at = next.fetch_add(1, Ordering::Relaxed);
            answers.get(at).map(|answer| (at, answer))
        } {
            let done = panic::catch_unwind(AssertUnwindSafe(|| work(&state, at)));
            let done = done.map_err(|cause| (cause, fault::take()));
            *answer.lock().unwrap_or_else(PoisonError::into_inner) = Some(done);
        }
    };
    let n_started = thread::scope(|scope| {
        // A machine that is short of threads works with those it has.
        let spawn = |_: &usize| {
            let thread = thread::Builder::new().stack_size(STACK_BYTES);
            thread.spawn_scoped(scope, || work_on(false)).is_ok()
        };
        (0..threads.min(n)).take_while(spawn).count()
    });
    if n_started == 0 {
        work_on(true);
    }
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
