//! A plan on disk: open, save atomically with one backup, notice when another program changed it.

use super::former::format_of;
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
    /// The file is not there any more: removed, or its drive is gone.
    Vanished(PathBuf),
    /// The file exists and was not opened by us.
    Exists(PathBuf),
    /// The file has so many bytes that it is no plan.
    TooLarge(PathBuf, u64),
    /// A folder, a pipe, a device …: reading it might never end, and it must not be written over.
    NotAFile(PathBuf, &'static str),
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
            FileError::NotAFile(path, kind) => write!(f, "cannot read {}: it is {kind}", path.display()),
            FileError::TooLarge(path, bytes) => write!(
                f,
                "{} has {:.1} MB, which is no plan; a plan has at most {:.0} MB, is this the right file?",
                path.display(),
                *bytes as f64 / 1e6,
                LONGEST_FILE as f64 / 1e6
            ),
            FileError::Vanished(path) => {
                write!(f, "{} is gone: it was removed, or its drive is not there any more", path.display())
            }
            FileError::Exists(path) => write!(f, "{} exists already", path.display()),
        }
    }
}

impl std::error::Error for FileError {}

/// Why the system refuses, in words.
pub fn reason(e: &io::Error) -> String {
    match e.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".into(),
        io::ErrorKind::PermissionDenied => "you have no permission there".into(),
        io::ErrorKind::StorageFull => "the disk is full".into(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk is read-only".into(),
        io::ErrorKind::IsADirectory => "it is a folder".into(),
        _ => e.to_string(),
    }
}

/// Whether there is anything of this name, be it a link to nothing.
pub fn is_there(path: &Path) -> bool {
    path.symlink_metadata().is_ok()
}

/// All bytes of a file that is no larger than a plan may be. What is no file is refused at once,
/// before anything waits for what a pipe or a device might give.
pub fn read_file(path: &Path) -> Result<Vec<u8>, FileError> {
    let failed = |e| FileError::Read(path.into(), e);
    if let Some(kind) = other_than_file(path) {
        return Err(FileError::NotAFile(path.into(), kind));
    }
    let size = fs::metadata(path).map_err(failed)?.len();
    if size > LONGEST_FILE as u64 {
        return Err(FileError::TooLarge(path.into(), size));
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(failed)?;
    file.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes).map_err(failed)?;
    Ok(bytes)
}

/// What is there, when it is neither a file nor nothing.
fn other_than_file(path: &Path) -> Option<&'static str> {
    let found = match fs::metadata(path) {
        Ok(found) => found.file_type(),
        Err(_) if path.is_symlink() && !path.exists() => return Some("a link to something that is not there"),
        Err(_) => return None,
    };
    match found {
        kind if kind.is_file() => None,
        kind if kind.is_dir() => Some("a folder"),
        kind => Some(special(kind)),
    }
}

#[cfg(unix)]
fn special(kind: fs::FileType) -> &'static str {
    use std::os::unix::fs::FileTypeExt;
    match kind {
        kind if kind.is_fifo() => "a pipe",
        kind if kind.is_socket() => "a socket",
        _ => "a device",
    }
}

#[cfg(not(unix))]
fn special(_: fs::FileType) -> &'static str {
    "a device"
}

/// Write a file beside its place and put it there in one step: a crash or a full disk leaves
/// the old file or the new one, never half of one.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    write_like(path, bytes, None)
}

fn write_like(path: &Path, bytes: &[u8], like: Option<&Path>) -> io::Result<()> {
    let mut file = AtomicWriteFile::open(path)?;
    if let Some(like) = like {
        keep_rights(&file, like)?;
    }
    file.write_all(bytes)?;
    file.sync_all()?;
    file.commit()
}

/// Give a file the mode and owner of another, so that a copy is no less private than what it is
/// a copy of. Where the owner cannot be given, only the own user may read the copy.
#[cfg(unix)]
pub fn keep_rights(file: &fs::File, like: &Path) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, fchown};
    let (wanted, own) = (fs::metadata(like)?, file.metadata()?);
    let same = (wanted.uid(), wanted.gid()) == (own.uid(), own.gid());
    let given = same || fchown(file, Some(wanted.uid()), Some(wanted.gid())).is_ok();
    let mode = wanted.mode() & if given { 0o777 } else { 0o700 };
    file.set_permissions(fs::Permissions::from_mode(mode))
}

/// Elsewhere a file has the rights of its folder.
#[cfg(not(unix))]
pub fn keep_rights(_: &fs::File, _: &Path) -> io::Result<()> {
    Ok(())
}

impl PlanFile {
    /// Open a file and give its bytes, at most a little more than a plan may have.
    pub fn open(path: &Path) -> Result<(PlanFile, Vec<u8>), FileError> {
        let bytes = read_file(path)?;
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
        match (&self.on_disk, read_file(&self.path)) {
            (Some(known), Ok(now)) => *known != now,
            (Some(_), Err(FileError::TooLarge(..))) => true,
            _ => false,
        }
    }

    /// Save, unless another program changed the file, it is gone, or it exists and is not ours.
    pub fn save(&mut self, text: &str) -> Result<(), FileError> {
        self.refuse_other_than_file()?;
        match (&self.on_disk, is_there(&self.path)) {
            (Some(_), false) => return Err(FileError::Vanished(self.path.clone())),
            (None, true) => return Err(FileError::Exists(self.path.clone())),
            _ if self.changed_on_disk() => return Err(FileError::ChangedOnDisk(self.path.clone())),
            _ => {}
        }
        self.save_over(text)
    }

    /// Save whatever is there. What was there is kept as `NAME.bak`, as private as the plan; the last text of an
    /// earlier format as `NAME.format-1`, which no later save touches.
    ///
    /// The new text is written beside the file and put in its place in one
    /// step, so a crash leaves the old or the new plan, never half of one.
    pub fn save_over(&mut self, text: &str) -> Result<(), FileError> {
        self.refuse_other_than_file()?;
        let failed = |e| FileError::Write(self.path.clone(), e);
        // A link is followed: replacing it by a file would cut it from its target.
        let target = fs::canonicalize(&self.path).unwrap_or_else(|_| self.path.clone());
        // A file that may not be written must not be replaced through its folder either.
        if target.exists() {
            fs::OpenOptions::new().append(true).open(&target).map_err(failed)?;
            let old = fs::read(&target).map_err(failed)?;
            let backup = backup_path(&target);
            if let Some(kind) = other_than_file(&backup) {
                let name = backup.file_name().unwrap_or_default().display().to_string();
                return Err(failed(io::Error::other(format!("its backup {name} is {kind}"))));
            }
            if old != text.as_bytes() {
                write_like(&backup, &old, Some(&target)).map_err(failed)?;
                if let Some(kept) = former_path(&target, &old, text).filter(|p| !is_there(p)) {
                    write_like(&kept, &old, Some(&target)).map_err(failed)?;
                }
            }
        }
        write_whole(&target, text.as_bytes()).map_err(failed)?;
        self.on_disk = Some(text.as_bytes().to_vec());
        Ok(())
    }

    fn refuse_other_than_file(&self) -> Result<(), FileError> {
        match other_than_file(&self.path) {
            Some(kind) => Err(FileError::Write(self.path.clone(), io::Error::other(format!("it is {kind}")))),
            None => Ok(()),
        }
    }
}

/// `plan.toml` has its backup in `plan.toml.bak`.
fn backup_path(path: &Path) -> PathBuf {
    beside(path, ".bak")
}

/// Where a text of an earlier format is kept when one of a later format takes its place.
fn former_path(path: &Path, old: &[u8], new: &str) -> Option<PathBuf> {
    let (old, new) = (format_of(old)?, format_of(new.as_bytes())?);
    (old < new).then(|| beside(path, &format!(".format-{old}")))
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.file_name().unwrap_or_default().to_os_string();
    name.push(ending);
    path.with_file_name(name)
}
