//! Where the user's own profiles are, and reading such a folder.
//!
//! The only file of the catalogue that touches the disk.

use super::load::Layer;
use etcetera::BaseStrategy;
use std::io;
use std::path::{Path, PathBuf};

/// Folder of the user's profiles: `loomwright/profiles` in the configuration
/// folder (`$XDG_CONFIG_HOME` or `~/.config`). `None` without a home folder.
/// It need not exist.
pub fn user_folder() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    Some(base.config_dir().join("loomwright").join("profiles"))
}

impl Layer {
    /// All `*.toml` files of a folder and its subfolders (one level down), by
    /// name. `plans/` and hidden files are left out.
    ///
    /// # Errors
    /// The folder or a file in it cannot be read, or a file is not UTF-8.
    pub fn from_folder(folder: &Path) -> io::Result<Layer> {
        let mut layer = Layer { origin: folder.display().to_string(), files: Vec::new() };
        layer.take_files(folder, "")?;
        for entry in std::fs::read_dir(folder)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.path().is_dir() && name != "plans" && !name.starts_with('.') {
                layer.take_files(&entry.path(), &format!("{name}/"))?;
            }
        }
        layer.files.sort();
        Ok(layer)
    }

    fn take_files(&mut self, folder: &Path, prefix: &str) -> io::Result<()> {
        for entry in std::fs::read_dir(folder)? {
            let path = entry?.path();
            let name = path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
            if name.ends_with(".toml") && !name.starts_with('.') && !path.is_dir() {
                let text = read(&path).map_err(|e| io::Error::other(format!("reading {}: {e}", path.display())))?;
                self.files.push((format!("{prefix}{name}"), text));
            }
        }
        Ok(())
    }
}

/// The text of a profile. What is no file, or far too large to be one, is refused before it is
/// read: a pipe might never end.
fn read(path: &Path) -> io::Result<String> {
    let found = std::fs::metadata(path)?;
    match found.len() {
        _ if !found.is_file() => Err(io::Error::other("it is no file")),
        bytes if bytes > LONGEST => Err(io::Error::other("it is too large to be a profile")),
        _ => std::fs::read_to_string(path),
    }
}

/// Bytes of the largest profile that is read; the largest of ours has a hundredth of it.
const LONGEST: u64 = 2_000_000;
