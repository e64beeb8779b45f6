//! The workers: plain threads, each with a private one-thread pool and caches of one job's age.
//!
//! The same arrangement as in `batch.rs`, where it is a private part of a run.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

const STACK_BYTES: usize = 8 << 20;

/// Does the work for every number below `n`; the answers stand in the order of the numbers.
pub fn share<R: Send>(workers: usize, n: usize, work: impl Fn(usize) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let one_worker = || {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).stack_size(STACK_BYTES);
        let pool = pool.build().unwrap();
        let mut answers = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            if n <= at {
                break answers;
            }
            answers.push((at, pool.install(|| work(at))));
            comemo::evict(workers);
        }
    };
    let mut answers: Vec<(usize, R)> = thread::scope(|scope| {
        let threads: Vec<_> = (0..workers).map(|_| scope.spawn(one_worker)).collect();
        threads.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    });
    answers.sort_by_key(|&(at, _)| at);
    answers.into_iter().map(|(_, answer)| answer).collect()
}
