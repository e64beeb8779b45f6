//! Arguments in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    splitcase::failure::fault::install_hook();
    ExitCode::from(splitcase::run_from(std::env::args_os()))
}
