//! Work on a workshop's own templates, wordings and drawings in a process of its own, within bounds of
//! time and memory: Typst cannot be interrupted, and what it cannot allocate ends its process.
//!
//! In: a [`Task`]; out: what the child answers, or that it ran out. Both ends of the pipe are here; the
//! child is this program with the hidden command `apart`. Nothing is read from or written to disk.

use std::io::{Read, Write};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use typst::foundations::Bytes;

use super::frames;
use super::order::Order;
use super::press::Press;
use super::problems;
use super::refusal::Refusal;
use super::templates::Templates;
use super::trial;
use crate::diagnostic::source::{Source, SourceText};
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::failure::Failure;

/// Hidden command by which this program serves one task.
pub const COMMAND: &str = "apart";
/// Longest that a task may take, in seconds by the clock on the wall; a long report takes one.
const SECONDS: u64 = 15;
/// Longest that a task may take, in seconds of a processor.
#[cfg(unix)]
const PROCESSOR_SECONDS: u64 = 10;
/// Most memory that a task may ask for, in bytes; a long report takes a tenth.
#[cfg(unix)]
const MEMORY: u64 = 2 << 30;

/// What the child is to do.
pub enum Task<'a> {
    /// Set a paper.
    Print(&'a Order),
    /// Write every sentence of every language about a job made for it.
    Words,
}

/// What came of a task.
pub enum Answer {
    /// The paper; empty for [`Task::Words`].
    Done(Vec<u8>),
    /// Problems in templates or wordings.
    Problems(Vec<Diagnostic>),
    /// The bounds of time or memory did not do.
    RanOut,
}

/// A problem on its way through the pipe: the place is a text by its name, with bytes in it.
#[derive(Serialize, Deserialize)]
struct Sent {
    is_error: bool,
    code: String,
    message: String,
    name: String,
    range: Option<(usize, usize)>,
    hints: Vec<String>,
}

/// Has a task done by a child.
///
/// # Errors
/// No process can be started, or the child is not this program.
pub fn ask(templates: &Templates, task: &Task<'_>) -> Result<Answer, Failure> {
    let action = "start a process for the workshop's own templates";
    let program = std::env::current_exe().map_err(|error| Failure::new(action, error))?;
    let mut child = Command::new(program)
        .arg(COMMAND)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(|error| Failure::new(action, error))?;
    if let Some(mut pipe) = child.stdin.take() {
        // A child that has ended early is judged by its answer.
        let _ = pipe.write_all(&request(templates, task));
    }
    let output = child.wait_with_output().map_err(|error| Failure::new(action, error))?;
    match (output.status.code(), frames::read(&output.stdout)) {
        (Some(0), Some(frames)) => Ok(answer(templates, &frames)),
        (Some(_), _) => Err(Failure::new(
            "set a paper with the workshop's own templates",
            "a fault in splitcase",
        )
        .hint("please report it with the templates")),
        (None, _) => Ok(Answer::RanOut),
    }
}

fn request(templates: &Templates, task: &Task<'_>) -> Vec<u8> {
    let mut out = Vec::new();
    for (path, source) in templates.house() {
        let text = format!("{}\n{}", source.name(), source.text());
        frames::add(&mut out, &format!("house {path}"), text.as_bytes());
    }
    match task {
        Task::Words => frames::add(&mut out, "words", b""),
        Task::Print(order) => {
            frames::add(&mut out, "paper", order.paper.as_bytes());
            frames::add(&mut out, "ident", order.ident.as_bytes());
            frames::add(&mut out, "day", order.day.to_string().as_bytes());
            for (path, bytes) in &order.files {
                frames::add(&mut out, &format!("file {path}"), bytes);
            }
        }
    }
    out
}

fn answer(templates: &Templates, frames: &[(String, Vec<u8>)]) -> Answer {
    let mut problems = Vec::new();
    for (name, bytes) in frames {
        match name.as_str() {
            "done" => return Answer::Done(bytes.clone()),
            _ => problems
                .extend(serde_json::from_slice(bytes).ok().map(|sent| placed(templates, sent))),
        }
    }
    Answer::Problems(problems)
}

/// A problem in the parent's own copy of the text.
fn placed(templates: &Templates, sent: Sent) -> Diagnostic {
    let source = templates.iter().find(|(_, source)| source.name() == sent.name);
    let source: Source =
        source.map_or_else(|| SourceText::named(&sent.name), |(_, source)| source.clone());
    let place = match sent.range {
        Some((start, end)) if end <= source.text().len() => Place::at(&source, start..end),
        _ => Place::whole(&source),
    };
    let mut problem = problems::from_apart(place, &sent.code, &sent.message, sent.hints);
    if !sent.is_error {
        problem.severity = Severity::Warning;
    }
    problem
}

/// The child's side: reads a task, does it within bounds, writes its answer.
///
/// # Errors
/// The pipe cannot be read or written, or what came is not a task.
pub fn serve(mut input: impl Read, mut output: impl Write) -> Result<(), Failure> {
    let failed = |error: &dyn std::fmt::Display| Failure::new("work apart", error);
    bound();
    let mut request = Vec::new();
    input.read_to_end(&mut request).map_err(|error| failed(&error))?;
    let frames = frames::read(&request).ok_or_else(|| failed(&"this is not a task"))?;
    let mut out = Vec::new();
    match work(&frames) {
        Ok(pdf) => frames::add(&mut out, "done", &pdf),
        Err(Refusal::Failure(failure)) => return Err(failure),
        Err(Refusal::Problems(problems)) => {
            for problem in &problems {
                let sent = serde_json::to_vec(&sent(problem)).map_err(|error| failed(&error))?;
                frames::add(&mut out, "problem", &sent);
            }
        }
    }
    output.write_all(&out).and_then(|()| output.flush()).map_err(|error| failed(&error))
}

fn work(frames: &[(String, Vec<u8>)]) -> Result<Vec<u8>, Refusal> {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let mut house = Vec::new();
    let mut files = Vec::new();
    let (mut paper, mut ident, mut day) = (None, String::new(), NaiveDate::default());
    for (name, bytes) in frames {
        match name.split_once(' ').unwrap_or((name, "")) {
            ("house", path) => {
                let whole = text(bytes);
                let (shown, text) = whole.split_once('\n').unwrap_or_default();
                house.push((path.to_owned(), SourceText::new(shown, text)));
            }
            ("file", path) => files.push((path.to_owned(), Bytes::new(bytes.clone()))),
            ("paper", _) => paper = Some(text(bytes)),
            ("ident", _) => ident = text(bytes),
            ("day", _) => day = text(bytes).parse().unwrap_or_default(),
            _ => {}
        }
    }
    let press = Press::new(Templates::with_house(house))?;
    let Some(paper) = paper else { return trial::words(&press).map(|()| Vec::new()) };
    Order { paper, files, ident, day }.print(&press)
}

fn sent(problem: &Diagnostic) -> Sent {
    Sent {
        is_error: problem.severity == Severity::Error,
        code: problem.code.to_owned(),
        message: problem.message.clone(),
        name: problem.place.source.name().to_owned(),
        range: problem.place.range.as_ref().map(|range| (range.start, range.end)),
        hints: problem.hints.clone(),
    }
}

/// Sets the bounds of this process: whatever goes beyond them ends it.
fn bound() {
    #[cfg(unix)]
    {
        use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
        for (what, most) in [(Resource::As, MEMORY), (Resource::Cpu, PROCESSOR_SECONDS)] {
            let now = getrlimit(what);
            let least = [now.current, now.maximum].into_iter().flatten().fold(most, u64::min);
            // If the system refuses, the clock below still ends it.
            let _ = setrlimit(what, Rlimit { current: Some(least), maximum: now.maximum });
        }
    }
    let _ = thread::Builder::new().spawn(|| {
        thread::sleep(Duration::from_secs(SECONDS));
        std::process::abort();
    });
}
