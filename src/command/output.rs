//! Where do results and messages go, and with which colours?
//!
//! Results to standard output, everything else to standard error. A reader
//! that has closed the pipe (`| head`) has had enough: that is no error.

use super::arguments::{Color, Common, Form};
use crate::papers::{Document, json_text, plain};
use crate::plan::reason;
use anstream::AutoStream;
use anyhow::anyhow;
use std::io::{self, IsTerminal, Write};

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
