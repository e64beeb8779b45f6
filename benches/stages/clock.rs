//! Two clocks at once: the wall's, and the processor time of the thread that did the work.
//!
//! Processor time is what a busy machine disturbs least. Linux tells it in nanoseconds; elsewhere the
//! wall's clock stands in for it.

use std::fs;
use std::ops::AddAssign;
use std::thread;
use std::time::{Duration, Instant};

/// What a piece of work took.
#[derive(Clone, Copy, Default)]
pub struct Spent {
    /// Time of this thread on a processor.
    pub processor: Duration,
    /// Time on the wall.
    pub wall: Duration,
}

impl AddAssign for Spent {
    fn add_assign(&mut self, other: Self) {
        self.processor += other.processor;
        self.wall += other.wall;
    }
}

/// Does the work and tells what it took.
pub fn timed<R>(work: impl FnOnce() -> R) -> (R, Spent) {
    let (before, start) = (thread_time(), Instant::now());
    let result = work();
    let (after, wall) = (thread_time(), start.elapsed());
    let processor =
        after.zip(before).map_or(wall, |(after, before)| after.checked_sub(before).unwrap());
    (result, Spent { processor, wall })
}

/// Processor time of this thread since it began.
fn thread_time() -> Option<Duration> {
    // A running thread's time is booked when it lets go of the processor.
    thread::yield_now();
    let line = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    line.split(' ').next()?.parse().ok().map(Duration::from_nanos)
}

/// Milliseconds.
pub fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}
