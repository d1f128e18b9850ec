//! A plan on disk: open, save atomically with one backup, notice when another program changed it.

use super::read::LONGEST_FILE;
use atomic_write_file::AtomicWriteFile;
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// A plan file and what it held when it was last read or written.
#[derive(Clone, Debug)]
pub struct PlanFile {
    path: PathBuf,
    on_disk: Option<Vec<u8>>,
}

/// Why a file could not be opened or saved. Nothing on disk was changed.
#[derive(Debug)]
pub enum FileError {
    /// The file could not be read.
    Read(PathBuf, io::Error),
    /// The file could not be written.
    Write(PathBuf, io::Error),
    /// Another program changed the file since it was read.
    ChangedOnDisk(PathBuf),
    /// The file exists and was not opened by us.
    Exists(PathBuf),
    /// The file has so many bytes that it is no plan.
    TooLarge(PathBuf, u64),
}

impl std::fmt::Display for FileError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            FileError::Read(path, e) => write!(f, "cannot read {}: {}", path.display(), reason(e)),
            FileError::Write(path, e) => write!(
                f,
                "cannot save {}: {}; nothing on disk was changed; choose another name or folder",
                path.display(),
                reason(e)
            ),
            FileError::ChangedOnDisk(path) => {
                write!(f, "{} was changed by another program since it was read", path.display())
            }
            FileError::TooLarge(path, bytes) => write!(
                f,
                "{} has {:.1} MB, which is no plan; a plan has at most {:.0} MB, is this the right file?",
                path.display(),
                *bytes as f64 / 1e6,
                LONGEST_FILE as f64 / 1e6
            ),
            FileError::Exists(path) => write!(f, "{} exists already", path.display()),
        }
    }
}

impl std::error::Error for FileError {}

fn reason(e: &io::Error) -> String {
    match e.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".into(),
        io::ErrorKind::PermissionDenied => "you have no permission there".into(),
        io::ErrorKind::StorageFull => "the disk is full".into(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".into(),
        io::ErrorKind::IsADirectory => "it is a folder".into(),
        _ => e.to_string(),
    }
}

impl PlanFile {
    /// Open a file and give its bytes, at most a little more than a plan may have.
    pub fn open(path: &Path) -> Result<(PlanFile, Vec<u8>), FileError> {
        let failed = |e| FileError::Read(path.into(), e);
        let size = fs::metadata(path).map_err(failed)?.len();
        if size > LONGEST_FILE as u64 {
            return Err(FileError::TooLarge(path.into(), size));
        }
        let bytes = read_some(path).map_err(failed)?;
        Ok((PlanFile { path: path.into(), on_disk: Some(bytes.clone()) }, bytes))
    }

    /// A file that is to be made; nothing is written yet.
    pub fn new(path: &Path) -> PlanFile {
        PlanFile { path: path.into(), on_disk: None }
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Whether another program changed it since it was read or written here.
    pub fn changed_on_disk(&self) -> bool {
        match (&self.on_disk, read_some(&self.path)) {
            (Some(known), Ok(now)) => *known != now,
            _ => false,
        }
    }

    /// Save, unless another program changed the file or it exists and is not ours.
    pub fn save(&mut self, text: &str) -> Result<(), FileError> {
        if self.changed_on_disk() {
            return Err(FileError::ChangedOnDisk(self.path.clone()));
        }
        if self.on_disk.is_none() && self.path.exists() {
            return Err(FileError::Exists(self.path.clone()));
        }
        self.save_over(text)
    }

    /// Save whatever is there. What was there is kept as `NAME.bak`.
    ///
    /// The new text is written beside the file and put in its place in one
    /// step, so a crash leaves the old or the new plan, never half of one.
    pub fn save_over(&mut self, text: &str) -> Result<(), FileError> {
        let failed = |e| FileError::Write(self.path.clone(), e);
        // A link is followed: replacing it by a file would cut it from its target.
        let target = fs::canonicalize(&self.path).unwrap_or_else(|_| self.path.clone());
        // A file that may not be written must not be replaced through its folder either.
        if target.exists() {
            fs::OpenOptions::new().append(true).open(&target).map_err(failed)?;
            let old = fs::read(&target).map_err(failed)?;
            if old != text.as_bytes() {
                write_atomically(&backup_path(&target), &old).map_err(failed)?;
            }
        }
        write_atomically(&target, text.as_bytes()).map_err(failed)?;
        self.on_disk = Some(text.as_bytes().to_vec());
        Ok(())
    }
}

/// `plan.toml` has its backup in `plan.toml.bak`.
fn backup_path(path: &Path) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_os_string();
    name.push(".bak");
    path.with_file_name(name)
}

fn write_atomically(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = AtomicWriteFile::open(path)?;
    file.write_all(bytes)?;
    file.sync_all()?;
    file.commit()
}

fn read_some(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}
