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

/// A disk that became read-only under an open plan.
#[cfg(target_os = "linux")]
#[test]
fn a_read_only_disk_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mount = |args: &[&str]| std::process::Command::new(args[0]).args(&args[1..]).arg(folder.path()).status();
    if !mount(&["mount", "-t", "tmpfs", "tmpfs"]).is_ok_and(|s| s.success()) {
        eprintln!("not checked: this machine does not let a test mount a disk");
        return;
    }
    let path = folder.path().join("plan.toml");
    fs::write(&path, "old").unwrap();
    let (mut file, _) = PlanFile::open(&path).unwrap();
    mount(&["mount", "-o", "remount,ro"]).unwrap();
    let said = file.save("new").unwrap_err().to_string();
    let elsewhere = PlanFile::new(&folder.path().join("other.toml")).save("new").unwrap_err().to_string();
    let kept = fs::read_to_string(&path).unwrap();
    mount(&["umount"]).unwrap();
    assert!(
        said.contains("the disk is read-only") && elsewhere.contains("the disk is read-only"),
        "{said} {elsewhere}"
    );
    assert_eq!(kept, "old");
}

/// The place of the plan may be gone, as a network drive that vanished: writing to the empty folder
/// below it would hide the plan instead of saving it.
#[test]
fn a_file_that_vanished_is_not_silently_written_anew() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("plan.toml");
    fs::write(&path, "old").unwrap();
    let (mut file, _) = PlanFile::open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    assert!(matches!(file.save("new"), Err(FileError::Vanished(_))));
    assert!(!path.exists());
    file.save_over("new").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "new");
}

/// The backup of a private plan is as private, whatever was there before.
#[cfg(unix)]
#[test]
fn the_backup_keeps_mode_and_owner_of_the_plan() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
    let folder = tempfile::tempdir().unwrap();
    let (path, backup) = (folder.path().join("plan.toml"), folder.path().join("plan.toml.bak"));
    fs::write(&path, "one").unwrap();
    fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
    let other = chown(&path, Some(1234), Some(2345)).is_ok();
    let (mut file, _) = PlanFile::open(&path).unwrap();
    for text in ["two", "three"] {
        file.save(text).unwrap();
        for made in [&path, &backup] {
            let kept = fs::metadata(made).unwrap();
            assert_eq!(kept.mode() & 0o777, 0o600, "{}", made.display());
            assert!(!other || (kept.uid(), kept.gid()) == (1234, 2345), "{}", made.display());
        }
        fs::set_permissions(&backup, fs::Permissions::from_mode(0o644)).unwrap();
    }
}

/// Folders, pipes, devices, sockets and links to nothing are refused at once, when opened and when saved over, beside the plan too.
#[cfg(unix)]
#[test]
fn what_is_no_file_is_refused_at_once() {
    use std::os::unix::fs::{FileTypeExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let pipe = |name: &str| {
        let made = std::process::Command::new("mkfifo").arg(at(name)).status();
        assert!(made.is_ok_and(|s| s.success()));
    };
    pipe("pipe.toml");
    fs::create_dir(at("folder.toml")).unwrap();
    symlink(at("nowhere"), at("link.toml")).unwrap();
    let _socket = std::os::unix::net::UnixListener::bind(at("socket.toml")).unwrap();
    // A device of the test's own: should it be written over after all, the machine keeps its own.
    let device = std::process::Command::new("mknod").arg(at("device.toml")).args(["c", "1", "5"]).status();
    let device = device.is_ok_and(|s| s.success());
    for (name, words) in [
        ("pipe.toml", "it is a pipe"),
        ("folder.toml", "it is a folder"),
        ("link.toml", "it is a link to something that is not there"),
        ("socket.toml", "it is a socket"),
        ("device.toml", "it is a device"),
    ] {
        if name == "device.toml" && !device {
            continue;
        }
        let said = PlanFile::open(&at(name)).unwrap_err().to_string();
        assert!(said.contains(words), "{said}");
        for save in [PlanFile::save, PlanFile::save_over] {
            let said = save(&mut PlanFile::new(&at(name)), "new").unwrap_err().to_string();
            assert!(said.contains(words), "{said}");
        }
    }
    assert!(at("link.toml").is_symlink());
    fs::write(at("plan.toml"), "old").unwrap();
    pipe("plan.toml.bak");
    let (mut file, _) = PlanFile::open(&at("plan.toml")).unwrap();
    let said = file.save("new").unwrap_err().to_string();
    assert!(said.contains("plan.toml.bak is a pipe"), "{said}");
    assert_eq!(fs::read_to_string(at("plan.toml")).unwrap(), "old");
    // What was a file when it was opened may be something else now.
    fs::remove_file(at("plan.toml")).unwrap();
    pipe("plan.toml");
    assert!(file.save("new").is_err());
    assert!(fs::metadata(at("plan.toml")).unwrap().file_type().is_fifo());
}
