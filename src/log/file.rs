//! What did a logger's file come to, read from its first row to its last?

use crate::engine::{Collected, Collector, Expected};
use crate::log::layout::{LARGEST_HEAD, Layout};
use crate::log::rows::Rows;
use std::fs::File;
use std::io::{BufReader, Read};
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
    let mut bytes = Vec::new();
    File::open(path)?.take(LARGEST_HEAD as u64).read_to_end(&mut bytes)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
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
    let mut collector = Collector::new(known);
    let mut rows = Rows::new(BufReader::with_capacity(1 << 16, File::open(path)?), &layout)?;
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
