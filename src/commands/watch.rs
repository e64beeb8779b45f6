//! `render --watch`: papers made again whenever a sheet, a photo or the profile is saved.
//!
//! In: a request and the console; out: how it ended, once somebody ends it. Files are asked for their state
//! a few times a second: that needs no library, is the same on every system and works on network shares,
//! and an editor's way of saving makes no difference. Fonts, templates and layouts stay in memory.

mod round;

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::flag;

use super::clock;
use crate::batch::request::Request;
use crate::batch::workshops::Workshops;
use crate::console::{Console, RunOutcome};
use crate::failure::Failure;
use crate::intake::watched::Look;
use round::Rounds;

/// Time between two looks; a look that takes long makes it longer.
const PAUSE: Duration = Duration::from_millis(150);
/// How much of the time goes into looking, at most: one part of this many.
const SHARE: u32 = 4;
/// How often a state that keeps changing is waited for.
const MOST_WAITS: usize = 20;

/// Makes papers until it is told to stop by Ctrl-C.
///
/// # Errors
/// What kept the first round from starting.
pub(super) fn run(request: Request, console: &Console) -> Result<RunOutcome, Failure> {
    let stop = stop_flag()?;
    let paths = request.folders.clone();
    let look = || Look::at(&paths, request.out.as_deref());
    let mut seen = look();
    let mut workshops = Workshops::default();
    let mut rounds = Rounds::new(console);
    rounds.run(&workshops, &request, paths.clone())?;
    let jobs =
        if seen.n_jobs() == 1 { "1 job".to_owned() } else { format!("{} jobs", seen.n_jobs()) };
    console.remark(&format!(
        "\nwatching {jobs}; save a sheet and its papers are made, Ctrl-C ends it"
    ))?;
    while let Some(now) = next(&look, &seen, &stop) {
        if now.has_other_houses(&seen) {
            workshops = Workshops::default();
        }
        let changed: Vec<PathBuf> = now.changed_since(&seen);
        seen = now;
        if !changed.is_empty()
            && let Err(failure) = rounds.run(&workshops, &request, changed)
        {
            console.fail("", &failure);
        }
    }
    console.remark("ended; the papers are as they were last made")?;
    Ok(RunOutcome::AllGood)
}

/// Set by Ctrl-C or the system: the round that goes on is finished, its files are whole. A second Ctrl-C
/// ends the program at once.
fn stop_flag() -> Result<Arc<AtomicBool>, Failure> {
    let stop = Arc::new(AtomicBool::new(false));
    for signal in [SIGINT, SIGTERM] {
        flag::register_conditional_shutdown(signal, 130, Arc::clone(&stop))
            .and_then(|_| flag::register(signal, Arc::clone(&stop)))
            .map_err(|error| Failure::new("listen for Ctrl-C", error))?;
    }
    Ok(stop)
}

/// Waits for a state that is other than the one seen and has settled; `None` if it is to end.
fn next(look: &dyn Fn() -> Look, seen: &Look, stop: &AtomicBool) -> Option<Look> {
    let mut before = seen.clone();
    let mut n_waits = 0;
    loop {
        let started = clock::stopwatch();
        let mut now = look();
        now.remember(seen);
        let pause = PAUSE.max(started.elapsed() * (SHARE - 1));
        // What differs between two looks is still being written.
        if now != *seen && (now == before || MOST_WAITS < n_waits) {
            return Some(now);
        }
        n_waits = if now == *seen { 0 } else { n_waits + 1 };
        before = now;
        if is_told(stop, pause) {
            return None;
        }
    }
}

/// Sleeps, but not past the moment at which it is told to stop.
fn is_told(stop: &AtomicBool, pause: Duration) -> bool {
    let slice = Duration::from_millis(50);
    let mut left = pause;
    while !left.is_zero() && !stop.load(Ordering::Relaxed) {
        thread::sleep(left.min(slice));
        left = left.saturating_sub(slice);
    }
    stop.load(Ordering::Relaxed)
}
