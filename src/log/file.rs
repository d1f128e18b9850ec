//! What did a logger's file come to, read from its first row to its last?

use crate::engine::{Collected, Collector, Expected};
use crate::log::layout::{LARGEST_HEAD, Layout};
use crate::log::rows::Rows;
use std::fs::File;
use std::io::{BufReader, Cursor, Read};
use std::path::Path;

/// Rows between two looks at whether to go on.
const LOOK: u64 = 20_000;

/// A file that was read.
#[derive(Clone, Debug)]
pub struct Logged {
    /// How it is written.
    pub layout: Layout,
    /// What a logger saw.
    pub collected: Collected,
    /// What of it does not count, a sentence each.
    pub left_out: Vec<String>,
}

/// The beginning of a file, by which it is recognised.
///
/// # Errors
/// It cannot be read.
pub fn head(path: &Path) -> std::io::Result<String> {
    Ok(beginning(&mut File::open(path)?)?.0)
}

/// The beginning of what can be read only once, and all of it from there on.
///
/// # Errors
/// It cannot be read.
pub fn head_of(mut source: impl Read) -> std::io::Result<(String, impl Read)> {
    let (head, bytes) = beginning(&mut source)?;
    Ok((head, Cursor::new(bytes).chain(source)))
}

fn beginning(source: &mut impl Read) -> std::io::Result<(String, Vec<u8>)> {
    let mut bytes = Vec::new();
    source.take(LARGEST_HEAD as u64).read_to_end(&mut bytes)?;
    Ok((String::from_utf8_lossy(&bytes).into_owned(), bytes))
}

/// All of it. `go_on` hears how many rows were read and says whether to; nothing comes of what was stopped.
///
/// # Errors
/// It cannot be read.
pub fn read(
    path: &Path,
    layout: Layout,
    known: Expected,
    go_on: &dyn Fn(u64) -> bool,
) -> std::io::Result<Option<Logged>> {
    read_from(File::open(path)?, layout, known, go_on)
}

/// The same of what is open already, at its beginning.
///
/// # Errors
/// It cannot be read.
pub fn read_from(
    source: impl Read,
    layout: Layout,
    known: Expected,
    go_on: &dyn Fn(u64) -> bool,
) -> std::io::Result<Option<Logged>> {
    let mut collector = Collector::new(known);
    let mut rows = Rows::new(BufReader::with_capacity(1 << 16, source), &layout)?;
    let mut next = LOOK;
    while let Some(sample) = rows.next() {
        collector.push(&sample);
        if rows.left_out.rows >= next {
            next = rows.left_out.rows + LOOK;
            if !go_on(rows.left_out.rows) {
                return Ok(None);
            }
        }
    }
    let mut left_out = rows.left_out.words();
    if rows.broken() {
        left_out.push(format!("the file cannot be read beyond row {}", rows.left_out.rows));
    }
    drop(rows);
    let collected = collector.finish(layout.out);
    Ok(Some(Logged { layout, collected, left_out }))
}

impl Logged {
    /// How it was read, for confirmation: label and words.
    pub fn read_as(&self) -> Vec<(&'static str, String)> {
        let mut words = self.layout.words();
        words.push(("Current", way(self.layout.out, self.collected.out).into()));
        words
    }
}

fn way(said: Option<bool>, found: Option<bool>) -> &'static str {
    match (said, found) {
        (Some(true), _) => "positive flows out of the battery, as said or as its head says",
        (Some(false), _) => "positive flows into the battery, as said or as its head says",
        (None, Some(true)) => "positive flows out of the battery: the voltage falls as it grows",
        (None, Some(false)) => "positive flows into the battery: the voltage rises as it grows",
        (None, None) => "nothing tells which way it flows; taken as out of the battery (--positive in for the other)",
    }
}
