//! Arguments in, exit code out.

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    // A fault of ours is told with its job; the default hook would print over the progress bar.
    std::panic::set_hook(Box::new(|_| {}));
    ExitCode::from(splitcase::run(splitcase::cli::Arguments::parse()))
}
