//! What did the plan say when it was saved before? The last versions of a plan, each with its time.

use super::keeper::{name_of, private};
use crate::plan::{keep_rights, read_file};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

/// Versions kept of each plan.
const KEPT: usize = 48;

/// A version as it was saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Version {
    /// When.
    pub at: SystemTime,
    /// What it said.
    pub text: String,
}

/// Where the versions of a plan lie.
fn folder_of(state: &Path, plan: &Path) -> PathBuf {
    state.join("saved").join(name_of(Some(plan)))
}

/// The files of versions with their times, newest first.
fn files(folder: &Path) -> Vec<(u64, PathBuf)> {
    let paths = fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path());
    let timed = |path: PathBuf| Some((path.file_stem()?.to_str()?.parse().ok()?, path));
    let mut all: Vec<(u64, PathBuf)> = paths.filter(|p| p.is_file()).filter_map(timed).collect();
    all.sort_by(|a, b| b.cmp(a));
    all
}

/// Keep a version that was just saved; the oldest beyond the number kept go.
///
/// # Errors
/// It could not be written; the plan itself is saved all the same.
pub fn keep(state: &Path, plan: &Path, text: &str, at: SystemTime) -> io::Result<()> {
    let folder = folder_of(state, plan);
    fs::create_dir_all(&folder)?;
    let all = files(&folder);
    let newest = all.first().map(|(time, path)| (*time, fs::read_to_string(path).unwrap_or_default()));
    if newest.as_ref().is_some_and(|(_, newest)| newest == text) {
        return Ok(());
    }
    let now = at.duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default().as_millis() as u64;
    // Of two within a moment, or after the clock was set back, the later is still the newer.
    let name = newest.map_or(now, |(time, _)| now.max(time + 1));
    let mut file = private(&folder.join(format!("{name}.toml")))?;
    keep_rights(&file, plan)?;
    file.write_all(text.as_bytes())?;
    for (_, old) in all.into_iter().skip(KEPT - 1) {
        let _ = fs::remove_file(old);
    }
    Ok(())
}

/// The versions of a plan that can be read, newest first.
pub fn versions(state: &Path, plan: &Path) -> Vec<Version> {
    let version = |(millis, path): (u64, PathBuf)| {
        let text = String::from_utf8(read_file(&path).ok()?).ok()?;
        Some(Version { at: SystemTime::UNIX_EPOCH + Duration::from_millis(millis), text })
    };
    files(&folder_of(state, plan)).into_iter().filter_map(version).collect()
}

/// How long ago, in words.
pub fn ago(at: SystemTime, now: SystemTime) -> String {
    let minutes = now.duration_since(at).unwrap_or_default().as_secs() / 60;
    match minutes {
        0 => "just now".into(),
        1..60 => format!("{minutes} min ago"),
        60..2880 => format!("{} h {} min ago", minutes / 60, minutes % 60),
        _ => format!("{} days ago", minutes / 1440),
    }
}

/// The lines that only one of two texts has, those of the first and those of the second.
pub fn apart<'a>(one: &'a str, other: &'a str) -> (Vec<&'a str>, Vec<&'a str>) {
    let only = |these: &'a str, others: &'a str| {
        let mut left: Vec<&str> = others.lines().map(str::trim).collect();
        left.sort_unstable();
        let lines = these.lines().map(str::trim).filter(|line| !line.is_empty());
        let own = lines.filter(|line| match left.binary_search(line) {
            Ok(at) => {
                left.remove(at);
                false
            }
            Err(_) => true,
        });
        own.collect()
    };
    (only(one, other), only(other, one))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_kept_newest_first_and_the_oldest_go() {
        let folder = tempfile::tempdir().unwrap();
        let plan = folder.path().join("van.toml");
        fs::write(&plan, "").unwrap();
        let state = folder.path().join("state");
        let moment = |n: u64| SystemTime::UNIX_EPOCH + Duration::from_secs(1000 + n);
        for n in 0..60 {
            keep(&state, &plan, &format!("length = {n}"), moment(n)).unwrap();
            keep(&state, &plan, &format!("length = {n}"), moment(n)).unwrap();
        }
        let all = versions(&state, &plan);
        assert_eq!((all.len(), all[0].text.as_str(), all[47].text.as_str()), (KEPT, "length = 59", "length = 12"));
        // The clock was set back.
        keep(&state, &plan, "later", moment(0)).unwrap();
        assert_eq!(versions(&state, &plan)[0].text, "later");
        assert!(versions(&state, &folder.path().join("other.toml")).is_empty());
    }

    #[test]
    fn what_differs_is_told_by_lines() {
        let (one, other) = apart("a = 1\nb = 2\nb = 2\n\nc = 3", "a = 1\nb = 2\nc = 4");
        assert_eq!((one, other), (vec!["b = 2", "c = 3"], vec!["c = 4"]));
    }

    #[test]
    fn times_are_told_in_words() {
        let now = SystemTime::UNIX_EPOCH + Duration::from_secs(10_000_000);
        let before = |seconds| ago(now - Duration::from_secs(seconds), now);
        assert_eq!(before(20), "just now");
        assert_eq!(before(300), "5 min ago");
        assert_eq!(before(3 * 3600 + 120), "3 h 2 min ago");
        assert_eq!(before(9 * 86_400), "9 days ago");
    }
}
