//! How do papers get into a folder: all of them, or none?
//!
//! They are written beside their places first, so a full disk is met before anything that
//! was there is touched. Then the old ones are moved aside and the new ones into their
//! places; if that fails midway, it is taken back. What a manifest of ours lists and is no
//! longer written goes; anything else in the folder stays.

use super::failure::Failure;
use crate::papers::{Job, Look, MANIFEST, Manifest, PaperFile, Stamp, bundle, checksum};
use crate::plan::{reason, write_whole};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Where the new papers wait, and where the old ones go until all is done.
const COMING: &str = ".loomwright-new";
const GOING: &str = ".loomwright-old";

/// Why papers are not written.
pub(super) enum Refused {
    /// Nothing is lost by a slip in the folder's name: this file is there already.
    Exists(PathBuf),
    /// Anything else.
    Failed(Failure),
}

impl From<Failure> for Refused {
    fn from(failure: Failure) -> Refused {
        Refused::Failed(failure)
    }
}

impl From<Refused> for Failure {
    fn from(refused: Refused) -> Failure {
        match refused {
            Refused::Exists(there) => Failure::new(
                format!("{} exists already", there.display()),
                "name another folder with --into, or add --replace to write over the papers in this one",
            ),
            Refused::Failed(failure) => failure,
        }
    }
}

/// What was done to the folder.
pub(super) struct Filed {
    /// Files written.
    pub names: Vec<String>,
    /// Papers of an earlier set that are not written any more, but were changed by hand: they stay.
    pub kept: Vec<String>,
}

/// Write all papers into a folder. Without `replace` nothing that is there is written over.
pub(super) fn into_folder(
    job: &Job<'_>,
    look: &Look,
    stamp: &Stamp,
    folder: &Path,
    replace: bool,
) -> Result<Filed, Refused> {
    refuse_a_file(folder)?;
    let mut files = bundle(job, look, stamp);
    let list = Manifest::of(&files, stamp, look, &job.beside.iter().map(|b| b.0).collect::<Vec<_>>()).text();
    files.push(PaperFile { name: MANIFEST.into(), content: list.into_bytes() });
    let there = |name: &str| Some(folder.join(name)).filter(|p| fs::symlink_metadata(p).is_ok());
    let first = files.iter().find_map(|f| there(&f.name));
    if let Some(there) = first.filter(|_| !replace) {
        return Err(Refused::Exists(there));
    }
    if let Some(path) = files.iter().filter_map(|f| there(&f.name)).find(|p| p.is_dir()) {
        let what = format!("{} is a folder, and a paper has that name", path.display());
        return Err(Failure::new(what, "name another folder with --into").into());
    }
    let (stale, kept) = stale(folder, &files);
    let new_folder = !folder.exists();
    swap(folder, &files, &stale).map_err(|(path, e)| {
        if new_folder {
            // Only if it is empty.
            let _ = fs::remove_dir(folder);
        }
        let what = format!("cannot write {}: {}; nothing was changed", path.display(), reason(&e));
        Failure::new(what, "name a folder you may write into with --into, and see that the disk has room")
    })?;
    Ok(Filed { names: files.into_iter().map(|f| f.name).collect(), kept })
}

/// A folder cannot be made where a file of that name is, nor within one.
fn refuse_a_file(folder: &Path) -> Result<(), Failure> {
    match folder.ancestors().find(|p| p.exists()).filter(|p| !p.is_dir()) {
        Some(file) => Err(Failure::new(
            format!("{} is a file, and the papers need a folder", file.display()),
            "name a folder, such as van-papers; it is made when it is not there",
        )),
        None => Ok(()),
    }
}

/// The manifest in a folder, if there is one of ours.
pub(super) fn manifest(folder: &Path) -> Option<Manifest> {
    Manifest::read(&fs::read_to_string(folder.join(MANIFEST)).ok()?)
}

/// Papers of an earlier set that are written no more: those as they were, and those changed by hand.
fn stale(folder: &Path, files: &[PaperFile]) -> (Vec<String>, Vec<String>) {
    let listed = manifest(folder).map_or_else(Vec::new, |m| m.files);
    let gone = |name: &str| files.iter().all(|f| f.name != name) && folder.join(name).is_file();
    let old = listed.into_iter().filter(|(name, _)| gone(name));
    let ours = |(name, sum): &(String, String)| fs::read(folder.join(name)).is_ok_and(|t| checksum(t) == *sum);
    let (stale, kept): (Vec<_>, Vec<_>) = old.partition(ours);
    let names = |list: Vec<(String, String)>| list.into_iter().map(|(name, _)| name).collect();
    (names(stale), names(kept))
}

/// What went wrong, and with which path.
type Trouble = (PathBuf, io::Error);

fn swap(folder: &Path, files: &[PaperFile], stale: &[String]) -> Result<(), Trouble> {
    let (coming, going) = (folder.join(COMING), folder.join(GOING));
    // Left behind by a run that was cut off.
    let clear = || [&coming, &going].into_iter().for_each(|f| drop(fs::remove_dir_all(f)));
    clear();
    let mut moved = Vec::new();
    let done = write_all(&coming, files)
        .map_err(|(path, e)| (folder.join(path.strip_prefix(&coming).unwrap_or(&path)), e))
        .and_then(|()| {
            for name in stale.iter().chain(files.iter().map(|f| &f.name)) {
                let place = folder.join(name);
                if fs::symlink_metadata(&place).is_ok() {
                    shift(&place, &going.join(name), &mut moved)?;
                }
            }
            files.iter().try_for_each(|f| shift(&coming.join(&f.name), &folder.join(&f.name), &mut moved))
        });
    if done.is_err() {
        // What cannot be moved back stays aside, where it can be found.
        let back = moved.iter().rev().all(|(from, to)| fs::rename(to, from).is_ok());
        if !back {
            let _ = fs::remove_dir_all(&coming);
            return done;
        }
    }
    clear();
    done
}

fn write_all(into: &Path, files: &[PaperFile]) -> Result<(), Trouble> {
    files.iter().try_for_each(|file| {
        let path = into.join(&file.name);
        let made = path.parent().map_or(Ok(()), fs::create_dir_all);
        made.and_then(|()| write_whole(&path, &file.content)).map_err(|e| (path, e))
    })
}

/// Move a file, and note it.
fn shift(from: &Path, to: &Path, moved: &mut Vec<(PathBuf, PathBuf)>) -> Result<(), Trouble> {
    let made = to.parent().map_or(Ok(()), fs::create_dir_all);
    made.and_then(|()| fs::rename(from, to)).map_err(|e| (to.to_path_buf(), e))?;
    moved.push((from.into(), to.into()));
    Ok(())
}
