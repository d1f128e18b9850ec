//! Which files in a folder are papers of ours, and what were they made from?
//!
//! The manifest stands beside the papers. By it a later writing knows which stale papers it
//! may take away, and a check knows which were changed or made from an older plan.

use super::bundle::PaperFile;
use super::plain::{Look, PageSize};
use super::stamp::{Stamp, VERSION, checksum};
use crate::quantity::UnitSystem;

/// Name of its file.
pub const MANIFEST: &str = "manifest.txt";
/// First line: nothing else is taken for a manifest.
const FIRST: &str = "loomwright papers, list of files 1";

/// What a manifest says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Manifest {
    /// Version of the program that wrote.
    pub version: String,
    /// What the papers are made from.
    pub stamp: Stamp,
    /// How they look.
    pub look: Look,
    /// Numbers of the rivals that stand side by side on a page.
    pub beside: Vec<usize>,
    /// Name and checksum of each.
    pub files: Vec<(String, String)>,
}

impl Manifest {
    /// Of papers about to be written.
    pub fn of(files: &[PaperFile], stamp: &Stamp, look: &Look, beside: &[usize]) -> Manifest {
        let files = files.iter().map(|f| (f.name.clone(), checksum(&f.content))).collect();
        Manifest { version: VERSION.into(), stamp: stamp.clone(), look: look.clone(), beside: beside.to_vec(), files }
    }

    /// As its file.
    pub fn text(&self) -> String {
        let mut out = format!("{FIRST}\nversion {}\nplan {}\n", self.version, self.stamp.checksum);
        if let Some(day) = &self.stamp.dated {
            out.push_str(&format!("dated {day}\n"));
        }
        if !self.beside.is_empty() {
            let numbers: Vec<String> = self.beside.iter().map(usize::to_string).collect();
            out.push_str(&format!("beside {}\n", numbers.join(",")));
        }
        let imperial = self.look.system == UnitSystem::Us;
        for (word, is) in [
            ("ascii", self.look.ascii),
            ("imperial", imperial),
            ("decimal-comma", self.look.decimal_comma),
            ("bom", self.look.bom),
            ("letter", self.look.page == PageSize::Letter),
        ] {
            if is {
                out.push_str(&format!("{word} yes\n"));
            }
        }
        self.files.iter().for_each(|(name, sum)| out.push_str(&format!("{sum} {name}\n")));
        out
    }

    /// Read one; `None` for anything that we did not write.
    pub fn read(text: &str) -> Option<Manifest> {
        let mut lines = text.lines();
        lines.next().filter(|l| *l == FIRST)?;
        let (look, beside, files) = (Look::default(), Vec::new(), Vec::new());
        let mut out = Manifest { version: String::new(), stamp: Stamp::default(), look, beside, files };
        for line in lines {
            let (key, value) = line.split_once(' ')?;
            match key {
                "version" => out.version = value.into(),
                "plan" => out.stamp.checksum = value.into(),
                "dated" => out.stamp.dated = Some(value.into()),
                "beside" => out.beside = value.split(',').map(|n| n.parse().ok()).collect::<Option<_>>()?,
                "ascii" => out.look.ascii = true,
                "imperial" => out.look.system = UnitSystem::Us,
                "decimal-comma" => out.look.decimal_comma = true,
                "bom" => out.look.bom = true,
                "letter" => out.look.page = PageSize::Letter,
                sum if is_within(value) => out.files.push((value.into(), sum.into())),
                _ => return None,
            }
        }
        Some(out)
    }

    /// Checksum of a file of this name, if it is listed.
    pub fn sum_of(&self, name: &str) -> Option<&str> {
        self.files.iter().find(|(n, _)| n == name).map(|(_, sum)| sum.as_str())
    }
}

/// A name that stays within the folder: a list that was tampered with removes nothing elsewhere.
fn is_within(name: &str) -> bool {
    !name.is_empty()
        && name.split('/').all(|part| !part.is_empty() && part != "." && part != ".." && !part.contains('\\'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_manifest_is_read_back() {
        let files = [PaperFile { name: "csv/parts.csv".into(), content: b"a".to_vec() }];
        let look = Look {
            ascii: true,
            system: UnitSystem::Us,
            decimal_comma: true,
            bom: true,
            page: PageSize::Letter,
            ..Look::default()
        };
        let manifest = Manifest::of(&files, &Stamp::of("plan", Some("2026-11-26".into())), &look, &[1, 3]);
        assert_eq!(Manifest::read(&manifest.text()), Some(manifest));
    }

    #[test]
    fn a_list_that_reaches_out_of_the_folder_is_none() {
        for name in ["../van.toml", "/etc/hosts", "csv/../../x", "", "a\\..\\b"] {
            assert_eq!(Manifest::read(&format!("{FIRST}\n0123 {name}\n")), None, "{name}");
        }
        assert_eq!(Manifest::read("my own notes\n0123 report.html\n"), None);
    }
}
