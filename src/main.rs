//! Hands over to [`loomwright::command`]; nothing else.

use std::process::ExitCode;

fn main() -> ExitCode {
    loomwright::command::main()
}
