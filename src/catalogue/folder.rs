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
            if path.is_file() && name.ends_with(".toml") && !name.starts_with('.') {
                let text = std::fs::read_to_string(&path)
                    .map_err(|e| io::Error::new(e.kind(), format!("reading {}: {e}", path.display())))?;
                self.files.push((format!("{prefix}{name}"), text));
            }
        }
        Ok(())
    }
}
