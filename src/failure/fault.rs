//! Where a panic of ours happened: the hook keeps its place, whoever catches the panic reports it.
//!
//! In: a panic; out: its file and line, and its words. Nothing is printed here, since a hook that
//! prints would write over the progress bar.

use std::any::Any;
use std::cell::RefCell;
use std::panic;

thread_local! {
    /// File and line of the last panic of this thread.
    static PLACE: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Sets the hook that keeps the place of every panic; once, at the start of the program.
pub fn install_hook() {
    panic::set_hook(Box::new(|info| {
        keep(info.location().map(|place| format!("{}:{}", place.file(), place.line())));
    }));
}

/// Takes the place of this thread's last panic, if the hook has kept one.
pub fn take() -> Option<String> {
    PLACE.with_borrow_mut(Option::take)
}

/// Keeps a place for this thread: one that another thread has caught is handed on by this.
pub fn keep(place: Option<String>) {
    PLACE.with_borrow_mut(|kept| *kept = place);
}

/// True for a place in this program's own source: paths of other crates and of the standard library
/// do not start with `src`.
pub fn is_own(place: &str) -> bool {
    place.starts_with("src/") || place.starts_with("src\\")
}

/// The words of a caught panic, with its place if it is known.
pub fn words(cause: &(dyn Any + Send)) -> String {
    let words = cause.downcast_ref::<String>().map(String::as_str);
    let words = words.or_else(|| cause.downcast_ref::<&str>().copied()).unwrap_or("no words");
    match take() {
        Some(place) => format!("{words} (at {place})"),
        None => words.to_owned(),
    }
}
