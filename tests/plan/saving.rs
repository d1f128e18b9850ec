//! Saving is atomic, keeps one backup, and notices what others did to the file.

use loomwright::plan::{FileError, PlanFile};
use std::fs;

#[test]
fn saves_keep_the_one_before_as_backup() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.toml");
    let mut file = PlanFile::new(&path);
    for text in ["one", "two", "three"] {
        file.save(text).unwrap();
        assert_eq!(fs::read_to_string(&path).unwrap(), text);
    }
    assert_eq!(fs::read_to_string(folder.path().join("plan.toml.bak")).unwrap(), "two");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2, "nothing else is left behind");
}

#[test]
fn a_change_by_another_program_is_noticed_and_not_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.toml");
    fs::write(&path, "first").unwrap();
    let (mut file, bytes) = PlanFile::open(&path).unwrap();
    assert_eq!(bytes, b"first");
    fs::write(&path, "theirs").unwrap();
    assert!(file.changed_on_disk());
    assert!(matches!(file.save("mine"), Err(FileError::ChangedOnDisk(_))));
    assert_eq!(fs::read_to_string(&path).unwrap(), "theirs");
    file.save_over("mine").unwrap();
    assert_eq!(fs::read_to_string(folder.path().join("plan.toml.bak")).unwrap(), "theirs");
}

#[test]
fn a_file_that_is_not_ours_is_not_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.toml");
    fs::write(&path, "someone's").unwrap();
    assert!(matches!(PlanFile::new(&path).save("mine"), Err(FileError::Exists(_))));
    assert_eq!(fs::read_to_string(&path).unwrap(), "someone's");
}

#[test]
fn a_missing_folder_says_so_and_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut file = PlanFile::new(&folder.path().join("no/such/plan.toml"));
    let said = file.save("text").unwrap_err().to_string();
    assert!(said.contains("no such file or folder") && said.contains("nothing on disk was changed"), "{said}");
}

/// A save that fails half way, because the backup cannot be written, leaves the plan alone.
#[test]
fn a_save_that_fails_half_way_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.toml");
    fs::write(&path, "old").unwrap();
    let (mut file, _) = PlanFile::open(&path).unwrap();
    fs::create_dir(folder.path().join("plan.toml.bak")).unwrap();
    assert!(matches!(file.save("new"), Err(FileError::Write(..))));
    assert_eq!(fs::read_to_string(&path).unwrap(), "old");
}

/// A disk that really is full, where this machine lets a test make one.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mount = |args: &[&str]| std::process::Command::new(args[0]).args(&args[1..]).arg(folder.path()).status();
    let made = mount(&["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs"]).is_ok_and(|s| s.success());
    if !made {
        eprintln!("not checked: this machine does not let a test mount a small disk");
        return;
    }
    let path = folder.path().join("plan.toml");
    fs::write(&path, "old").unwrap();
    let (mut file, _) = PlanFile::open(&path).unwrap();
    let said = file.save(&"x".repeat(200_000)).unwrap_err().to_string();
    let kept = fs::read_to_string(&path).unwrap();
    let left: Vec<_> = fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
    mount(&["umount"]).unwrap();
    assert!(said.contains("the disk is full"), "{said}");
    assert_eq!(kept, "old");
    assert!(left.len() <= 2, "{left:?}");
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_rights_kept() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let (real, link) = (folder.path().join("real.toml"), folder.path().join("link.toml"));
    fs::write(&real, "old").unwrap();
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).unwrap();
    symlink(&real, &link).unwrap();
    let (mut file, _) = PlanFile::open(&link).unwrap();
    file.save("new").unwrap();
    assert!(link.is_symlink());
    assert_eq!(fs::read_to_string(&real).unwrap(), "new");
    assert_eq!(fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o640);
}
