//! From where do the plan and the catalogue come?

use super::arguments::Common;
use super::failure::Failure;
use crate::catalogue::{Catalogue, Layer, user_folder};
use crate::papers::Stamp;
use crate::plan::{self, LONGEST_FILE, Lines, Place, Read, Spot, is_there, read_file, reason};
use std::io::Read as _;
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

/// A plan that was read, and what it was read from.
#[derive(Debug)]
pub struct Input {
    /// Name of the file as typed, `standard input`, or that of the example.
    pub name: String,
    /// Its text.
    pub text: String,
    /// Day on which the file was changed last, by UTC; `None` where there is no file.
    pub dated: Option<String>,
    /// What reading gave; without problems.
    pub read: Read,
}

impl Input {
    /// What papers of it are made from.
    pub fn stamp(&self) -> Stamp {
        Stamp::of(&self.text, self.dated.clone())
    }

    /// Where a field stands in the text, or the item that lacks it.
    pub fn spot(&self, place: Place) -> Option<Spot> {
        let item = || self.read.items.get(&(place.section, place.index));
        let span = self.read.given.get(&place).or_else(item)?.clone();
        Some(Lines::of(&self.text).spot(span.start))
    }
}

/// The built-in profiles, the user's folder over them, then each folder named.
pub fn catalogue(common: &Common) -> Result<Catalogue, Failure> {
    Catalogue::with_layers(&layers(common)?).map_err(Failure::Catalogue)
}

/// The user's folder of profiles, then each folder named.
pub fn layers(common: &Common) -> Result<Vec<Layer>, Failure> {
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
    Ok(layers)
}

/// Read a plan: a file, `-` for standard input, the default example when left out.
pub fn plan(path: Option<&Path>, catalogue: &Catalogue) -> Result<Input, Failure> {
    let mut dated = None;
    let (name, bytes) = match path {
        None => {
            let example = plan::default_example();
            (format!("example {}", example.name), example.text.as_bytes().to_vec())
        }
        Some(path) if path == Path::new("-") => ("standard input".into(), standard_input()?),
        Some(path) => {
            let bytes = file(path)?;
            dated = std::fs::metadata(path).and_then(|m| m.modified()).ok().map(day);
            (path.display().to_string(), bytes)
        }
    };
    let read = plan::read_bytes(&bytes, catalogue);
    let text = String::from_utf8(bytes).unwrap_or_default();
    if read.problems.is_empty() {
        Ok(Input { name, text, dated, read })
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

/// The day of a moment by UTC, `2026-11-26`; before 1970 the first day of it.
fn day(moment: SystemTime) -> String {
    let days = moment.duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs() / 86_400);
    // Years that begin in March, so that a leap day is the last of its year; 400 of them have 146,097 days.
    let since_march = days + 719_468;
    let (era, of_era) = (since_march / 146_097, since_march % 146_097);
    let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let month = (5 * of_year + 2) / 153;
    let day = of_year - (153 * month + 2) / 5 + 1;
    let (month, next) = if month < 10 { (month + 3, 0) } else { (month - 9, 1) };
    format!("{:04}-{month:02}-{day:02}", year + 400 * era + next)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    /// Seconds of POSIX time as `date -u -d DAY +%s` (GNU coreutils) gives them.
    #[test]
    fn a_moment_has_its_day() {
        for (seconds, written) in [
            (0, "1970-01-01"),
            (951_782_400, "2000-02-29"),
            (951_868_799, "2000-02-29"),
            (1_709_164_800, "2024-02-29"),
            (1_735_603_200, "2024-12-31"),
            (4_107_542_400, "2100-03-01"),
            (4_107_542_399, "2100-02-28"),
        ] {
            assert_eq!(day(UNIX_EPOCH + Duration::from_secs(seconds)), written);
        }
    }
}
