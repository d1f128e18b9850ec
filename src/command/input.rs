//! From where do the plan and the catalogue come?

use super::arguments::Common;
use super::failure::Failure;
use crate::catalogue::{Catalogue, Layer, user_folder};
use crate::plan::{self, LONGEST_FILE, Place, PlanFile, Read, Spot};
use std::io::Read as _;
use std::path::Path;

/// A plan that was read, and what it was read from.
#[derive(Debug)]
pub struct Input {
    /// Name of the file as typed, `standard input`, or that of the example.
    pub name: String,
    /// Its text.
    pub text: String,
    /// What reading gave; without problems.
    pub read: Read,
}

impl Input {
    /// Where a field stands in the text, or the item that lacks it.
    pub fn spot(&self, place: Place) -> Option<Spot> {
        let item = || self.read.items.get(&(place.section, place.index));
        let span = self.read.given.get(&place).or_else(item)?.clone();
        Some(Spot::at(&self.text, span.start))
    }
}

/// The built-in profiles, the user's folder over them, then each folder named.
pub fn catalogue(common: &Common) -> Result<Catalogue, Failure> {
    let own = user_folder().filter(|f| f.is_dir());
    let mut layers = Vec::new();
    for folder in own.iter().chain(&common.profiles) {
        let layer = Layer::from_folder(folder).map_err(|e| {
            let what = format!("cannot read the profiles in {}: {e}", folder.display());
            Failure::new(what, "name a folder that holds profile files such as `loads.toml`")
        })?;
        layers.push(layer);
    }
    Catalogue::with_layers(&layers).map_err(Failure::Catalogue)
}

/// Read a plan: a file, `-` for standard input, the default example when left out.
pub fn plan(path: Option<&Path>, catalogue: &Catalogue) -> Result<Input, Failure> {
    let (name, bytes) = match path {
        None => {
            let example = plan::default_example();
            (format!("example {}", example.name), example.text.as_bytes().to_vec())
        }
        Some(path) if path == Path::new("-") => ("standard input".into(), standard_input()?),
        Some(path) => (path.display().to_string(), file(path)?),
    };
    let read = plan::read_bytes(&bytes, catalogue);
    let text = String::from_utf8(bytes).unwrap_or_default();
    if read.problems.is_empty() {
        Ok(Input { name, text, read })
    } else {
        Err(Failure::Problems { name, text, problems: read.problems })
    }
}

fn standard_input() -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    let most = LONGEST_FILE as u64 + 1;
    std::io::stdin()
        .lock()
        .take(most)
        .read_to_end(&mut bytes)
        .map_err(|e| Failure::new(format!("cannot read standard input: {e}"), "name a plan file, or pipe one in"))?;
    Ok(bytes)
}

fn file(path: &Path) -> Result<Vec<u8>, Failure> {
    PlanFile::open(path).map(|(_, bytes)| bytes).map_err(|e| {
        let help = "name a plan file, - for standard input, or nothing for an example";
        Failure::new(e.to_string(), help)
    })
}
