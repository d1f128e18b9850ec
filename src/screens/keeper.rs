//! Safe against crashes and second copies: a recovery file that follows every edit, and a lock.
//!
//! Each open plan has a slot in the state folder: a lock file that the system
//! frees however the program ends, and beside it the text as edited so far. A
//! slot whose lock is free was left when the program ended badly; one whose
//! lock is held is another copy at work.

use crate::plan::{keep_rights, read_file, reason};
use std::fs::{self, File, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// The slot of this copy of the program; without a folder it does nothing.
#[derive(Debug, Default)]
pub struct Keeper {
    folder: Option<PathBuf>,
    slot: Option<Slot>,
    /// A text that the user is being asked about.
    pub offered: Option<LeftOver>,
    /// The user knows that the text cannot be kept for now.
    pub told: bool,
}

#[derive(Debug)]
struct Slot {
    /// The plan's own file, whose rights the kept text has.
    plan: Option<PathBuf>,
    lock_path: PathBuf,
    text_path: PathBuf,
    /// Held as long as it lives.
    _lock: File,
}

/// What was found about a plan when it was opened.
#[derive(Debug, Default)]
pub struct Found {
    /// Another copy of the program has it open.
    pub open_elsewhere: bool,
    /// A text left when the program ended badly, the newest.
    pub left_over: Option<LeftOver>,
    /// Why no recovery file can be kept.
    pub unkept: Option<String>,
}

/// A text left when the program ended badly.
#[derive(Clone, Debug)]
pub struct LeftOver {
    /// The text.
    pub text: String,
    /// When it was last kept.
    pub at: SystemTime,
    files: Vec<PathBuf>,
}

impl LeftOver {
    /// It is not needed any more.
    pub fn forget(&self) {
        for file in &self.files {
            // A file that is gone already is as good.
            let _ = fs::remove_file(file);
        }
    }
}

impl Keeper {
    /// Keep in this folder.
    pub fn new(folder: Option<PathBuf>) -> Keeper {
        Keeper { folder, slot: None, offered: None, told: false }
    }

    /// The folder in which texts are kept.
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    /// Take a slot for a plan, and say what else is known of it. Without a
    /// folder, or where it cannot be written, nothing is kept.
    pub fn open(&mut self, plan: Option<&Path>) -> Found {
        self.close();
        let Some(folder) = self.folder.clone() else { return Found::default() };
        let name = name_of(plan);
        let mut found = Found::default();
        let slot = fs::create_dir_all(&folder).and_then(|()| {
            found = look(&folder, &name, plan.is_some());
            Slot::take(&folder, &name, plan)
        });
        match slot {
            Ok(slot) => self.slot = Some(slot),
            Err(e) => found.unkept = Some(reason(&e)),
        }
        found
    }

    /// Keep a text, or nothing when all is saved.
    ///
    /// # Errors
    /// It could not be written.
    pub fn keep(&mut self, text: Option<&str>) -> io::Result<()> {
        let Some(slot) = &self.slot else { return Ok(()) };
        match text {
            // Written beside and moved, so that a crash leaves the earlier text or the new one.
            Some(text) => {
                let beside = slot.text_path.with_extension("part");
                let mut file = private(&beside)?;
                if let Some(plan) = slot.plan.as_deref().filter(|p| p.exists()) {
                    keep_rights(&file, plan)?;
                }
                file.write_all(text.as_bytes())?;
                fs::rename(&beside, &slot.text_path)
            }
            None => match fs::remove_file(&slot.text_path) {
                Err(e) if e.kind() != io::ErrorKind::NotFound => Err(e),
                _ => Ok(()),
            },
        }
    }

    /// The program ended well: nothing to recover.
    pub fn close(&mut self) {
        if let Some(slot) = self.slot.take() {
            let _ = fs::remove_file(&slot.text_path);
            let _ = fs::remove_file(&slot.lock_path);
        }
    }

    /// The program ends with unsaved work: leave the text for the next time.
    pub fn leave(&mut self) {
        self.slot = None;
    }
}

/// A new file that only the own user may read.
pub(super) fn private(path: &Path) -> io::Result<File> {
    let mut options = File::options();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}

impl Slot {
    fn take(folder: &Path, name: &str, plan: Option<&Path>) -> io::Result<Slot> {
        for n in 0..1000 {
            let stem = format!("{name}.{}-{n}", std::process::id());
            let lock_path = folder.join(format!("{stem}.lock"));
            let lock = match File::create_new(&lock_path) {
                Ok(lock) => lock,
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists => continue,
                Err(e) => return Err(e),
            };
            if lock.try_lock().is_ok() {
                let text_path = folder.join(format!("{stem}.toml"));
                return Ok(Slot { plan: plan.map(Path::to_path_buf), lock_path, text_path, _lock: lock });
            }
        }
        Err(io::Error::other("no free slot"))
    }
}

/// Other slots of the same plan.
fn look(folder: &Path, name: &str, named: bool) -> Found {
    let mut found = Found::default();
    let mut newest = None;
    let Ok(entries) = fs::read_dir(folder) else { return found };
    for path in entries.flatten().map(|e| e.path()) {
        let file = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if !file.starts_with(&format!("{name}.")) || !file.ends_with(".lock") {
            continue;
        }
        // Whatever else bears such a name, a pipe above all, might never be opened.
        if !path.is_file() {
            continue;
        }
        let Ok(lock) = File::open(&path) else { continue };
        match lock.try_lock() {
            Err(TryLockError::WouldBlock) => found.open_elsewhere |= named,
            Err(TryLockError::Error(_)) => {}
            Ok(()) => match left_over(&path) {
                Some((time, left)) if newest.is_none_or(|t| time > t) => {
                    newest = Some(time);
                    found.left_over = Some(left);
                }
                Some(_) => {}
                None => drop(fs::remove_file(&path)),
            },
        }
    }
    found
}

fn left_over(lock: &Path) -> Option<(SystemTime, LeftOver)> {
    let text_path = lock.with_extension("toml");
    let time = fs::metadata(&text_path).and_then(|m| m.modified()).ok()?;
    let text = String::from_utf8(read_file(&text_path).ok()?).ok()?;
    Some((time, LeftOver { text, at: time, files: vec![text_path, lock.to_path_buf()] }))
}

/// A file name for a plan: its own name and a short sum of its whole path.
pub(super) fn name_of(plan: Option<&Path>) -> String {
    let Some(plan) = plan else { return "new-plan".into() };
    let whole = fs::canonicalize(plan).unwrap_or_else(|_| plan.to_path_buf());
    // FNV-1a, 64 bit: the same in every version of the program.
    let sum = whole
        .as_os_str()
        .as_encoded_bytes()
        .iter()
        .fold(0xcbf2_9ce4_8422_2325_u64, |sum, byte| (sum ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
    let stem: String = plan
        .file_stem()
        .unwrap_or_default()
        .to_string_lossy()
        .chars()
        .filter(|c| c.is_ascii_alphanumeric() || *c == '-')
        .take(40)
        .collect();
    format!("{stem}-{sum:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leaves_the_text_after_a_crash_and_nothing_after_a_good_end() {
        let folder = tempfile::tempdir().unwrap();
        let kept = folder.path().join("state");
        let state = Some(kept.clone());
        let plan = folder.path().join("plan.toml");
        let mut crashed = Keeper::new(state.clone());
        assert!(crashed.open(Some(&plan)).left_over.is_none());
        crashed.keep(Some("edited")).unwrap();
        let mut second = Keeper::new(state.clone());
        let found = second.open(Some(&plan));
        assert!(found.open_elsewhere && found.left_over.is_none());
        second.close();
        crashed.leave();
        let mut next = Keeper::new(state.clone());
        let found = next.open(Some(&plan));
        assert!(!found.open_elsewhere);
        let left = found.left_over.unwrap();
        assert_eq!(left.text, "edited");
        left.forget();
        next.keep(Some("more")).unwrap();
        next.keep(None).unwrap();
        next.close();
        assert_eq!(fs::read_dir(kept).unwrap().count(), 0);
    }

    /// The text that is kept is as private as its plan; that of a plan without a file is the user's own.
    #[cfg(unix)]
    #[test]
    fn what_is_kept_has_the_rights_of_the_plan() {
        use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
        let folder = tempfile::tempdir().unwrap();
        let kept = folder.path().join("state");
        let plan = folder.path().join("plan.toml");
        fs::write(&plan, "format = 2").unwrap();
        let other = chown(&plan, Some(1234), Some(2345)).is_ok();
        for (of, mode) in [(Some(plan.as_path()), 0o640), (Some(&plan), 0o600), (None, 0o600)] {
            fs::set_permissions(&plan, fs::Permissions::from_mode(mode)).unwrap();
            let mut keeper = Keeper::new(Some(kept.clone()));
            keeper.open(of);
            keeper.keep(Some("edited")).unwrap();
            let mut text = fs::read_dir(&kept).unwrap().map(|e| e.unwrap().path());
            let text = text.find(|p| p.extension().is_some_and(|e| e == "toml")).unwrap();
            let rights = fs::metadata(&text).unwrap();
            assert_eq!(rights.mode() & 0o777, mode);
            assert!(of.is_none() || !other || (rights.uid(), rights.gid()) == (1234, 2345));
            keeper.close();
        }
    }

    /// A pipe among the kept texts, put there by whoever, holds nobody up.
    #[cfg(unix)]
    #[test]
    fn a_pipe_among_the_kept_texts_holds_nobody_up() {
        let folder = tempfile::tempdir().unwrap();
        let state = folder.path().to_path_buf();
        for name in ["new-plan.1-0.lock", "new-plan.2-0.toml"] {
            assert!(std::process::Command::new("mkfifo").arg(state.join(name)).status().unwrap().success());
        }
        fs::write(state.join("new-plan.2-0.lock"), "").unwrap();
        assert!(Keeper::new(Some(state)).open(None).left_over.is_none());
    }

    #[test]
    fn without_a_folder_nothing_happens() {
        let mut keeper = Keeper::new(None);
        assert!(keeper.open(None).left_over.is_none());
        assert!(keeper.keep(Some("x")).is_ok());
    }
}
