//! Runs the program as a shell would, away from the user's own profiles.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A folder without profiles.
pub fn empty_folder() -> PathBuf {
    let folder = std::env::temp_dir().join("loomwright-test-without-profiles");
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// The program with arguments, in the project's folder.
pub fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_loomwright"));
    command
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("XDG_CONFIG_HOME", empty_folder())
        .env_remove("NO_COLOR")
        .env("TERM", "xterm");
    command
}

/// What it says and with which status it ends.
pub fn run(arguments: &[&str]) -> Output {
    program(arguments).stdin(Stdio::null()).output().unwrap()
}

/// The same with something on standard input.
pub fn run_with(arguments: &[&str], input: &[u8]) -> Output {
    let mut child =
        program(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    // The program may refuse a long input before it has read all of it.
    let _ = child.stdin.take().unwrap().write_all(input);
    child.wait_with_output().unwrap()
}

pub fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

pub fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// The example plans by path.
pub fn example_paths() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles/plans");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.sort();
    paths
}
