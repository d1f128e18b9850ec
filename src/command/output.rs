//! Where do results and messages go, and with which colours?
//!
//! Results to standard output, everything else to standard error. A reader
//! that has closed the pipe (`| head`) has had enough: that is no error.

use super::arguments::{Color, Common, Form};
use super::failure::Failure;
use crate::papers::{Document, json_text, plain};
use crate::plan::{reason, write_whole};
use anstream::AutoStream;
use anyhow::anyhow;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

/// Write results; a closed pipe is a quiet success.
///
/// # Errors
/// Standard output cannot be written (a full disk).
pub fn result(text: &str, color: Color) -> anyhow::Result<()> {
    let mut out = AutoStream::new(io::stdout().lock(), choice(color, io::stdout().is_terminal()));
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(e) if e.kind() != io::ErrorKind::BrokenPipe => Err(anyhow!("cannot write the result: {}", reason(&e))),
        _ => Ok(()),
    }
}

/// Write results as JSON.
///
/// # Errors
/// Standard output cannot be written.
pub fn json(value: &serde_json::Value, color: Color) -> anyhow::Result<()> {
    result(&json_text(value), color)
}

/// Whether a name means standard input or output.
pub fn is_dash(path: &Path) -> bool {
    path == Path::new("-")
}

/// Write a plan whole into a file, or as it is to standard output where the name is `-`; then the words about it, which
/// go where they are not in the plan's way.
///
/// # Errors
/// It cannot be written.
pub fn plan(into: &Path, text: &str, option: &str, words: &str, color: Color) -> Result<(), Failure> {
    let dash = is_dash(into);
    let written = if dash { to_standard_output(text) } else { write_whole(into, text.as_bytes()) };
    written.map_err(|e| {
        let what = format!("cannot write {}: {}", into.display(), reason(&e));
        Failure::new(what, format!("name a file you may write with {option}"))
    })?;
    if dash {
        message(words, color);
        return Ok(());
    }
    Ok(result(words, color)?)
}

/// A closed pipe is a quiet success.
fn to_standard_output(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(e) if e.kind() != io::ErrorKind::BrokenPipe => Err(e),
        _ => Ok(()),
    }
}

/// Write an answer as it was asked for: JSON, or a paper as text.
///
/// # Errors
/// Standard output cannot be written.
pub fn answer(
    form: Form,
    common: &Common,
    value: impl FnOnce() -> serde_json::Value,
    paper: impl FnOnce() -> Document,
) -> anyhow::Result<()> {
    if form.json { json(&value(), common.color) } else { result(&plain(&paper(), &common.look()), common.color) }
}

/// Write a message for the user to standard error. Where that is not possible
/// there is nobody left to tell.
pub fn message(text: &str, color: Color) {
    let mut err = AutoStream::new(io::stderr().lock(), choice(color, io::stderr().is_terminal()));
    let _ = err.write_all(text.as_bytes());
}

fn choice(color: Color, terminal: bool) -> anstream::ColorChoice {
    match color {
        Color::Always => anstream::ColorChoice::AlwaysAnsi,
        Color::Never => anstream::ColorChoice::Never,
        // NO_COLOR counts when it is set and not empty, as its authors ask.
        Color::Auto if std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty()) => anstream::ColorChoice::Never,
        Color::Auto if std::env::var_os("TERM").is_some_and(|v| v == "dumb") => anstream::ColorChoice::Never,
        Color::Auto if terminal => anstream::ColorChoice::Always,
        Color::Auto => anstream::ColorChoice::Never,
    }
}
