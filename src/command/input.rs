//! From where do the plan and the catalogue come?

use super::arguments::Common;
use super::failure::Failure;
use crate::catalogue::{Catalogue, Layer, user_folder};
use crate::plan::{self, LONGEST_FILE, Place, Read, Spot, is_there, read_file, reason};
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
    let help = "name a folder that holds profile files such as `loads.toml`";
    let own = user_folder().filter(|f| is_there(f));
    let mut layers = Vec::new();
    for folder in own.iter().chain(&common.profiles) {
        let layer = Layer::from_folder(folder).map_err(|e| {
            let what = format!("cannot read the profiles in {}: {}", folder.display(), reason(&e));
            Failure::new(what, help)
        })?;
        // The user's own folder may be empty; one that was named is named for what it holds.
        if layer.files.is_empty() && common.profiles.contains(folder) {
            return Err(Failure::new(format!("{} holds no profile", folder.display()), help));
        }
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

/// All that comes in on standard input, as far as a plan may go.
pub fn standard_input() -> Result<Vec<u8>, Failure> {
    let mut bytes = Vec::new();
    let most = LONGEST_FILE as u64 + 1;
    std::io::stdin()
        .lock()
        .take(most)
        .read_to_end(&mut bytes)
        .map_err(|e| Failure::new(format!("cannot read standard input: {e}"), "name a file, or pipe one in"))?;
    Ok(bytes)
}

fn file(path: &Path) -> Result<Vec<u8>, Failure> {
    read_file(path).map_err(|e| {
        let help = "name a plan file, - for standard input, or nothing for an example";
        Failure::new(e.to_string(), help)
    })
}
