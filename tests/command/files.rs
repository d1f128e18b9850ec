//! What is named on the command line and is no plan, no folder of profiles or no place to write to: refused at once, in words.

use crate::paper_folder::files as all_of;
use crate::run::{err, out, program, run};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Run, and give up on a program that waits for what never comes.
#[track_caller]
fn at_once(arguments: &[&str]) -> (Option<i32>, String) {
    let mut child =
        program(arguments).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
    let start = Instant::now();
    while child.try_wait().unwrap().is_none() {
        if start.elapsed() > Duration::from_secs(10) {
            child.kill().unwrap();
            panic!("{arguments:?} waits");
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    let output = child.wait_with_output().unwrap();
    let said = err(&output);
    (output.status.code(), said.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn named(path: &Path) -> &str {
    path.to_str().unwrap()
}

#[cfg(unix)]
#[test]
fn what_is_no_file_is_refused_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let (pipe, link, large) = (folder.path().join("pipe"), folder.path().join("link"), folder.path().join("large"));
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    std::os::unix::fs::symlink("nowhere", &link).unwrap();
    fs::File::create(&large).unwrap().set_len(50_000_000_000).unwrap();
    for (path, words) in [
        (pipe.as_path(), "it is a pipe"),
        (&link, "it is a link to something that is not there"),
        (&large, "a plan has at most"),
        (folder.path(), "it is a folder"),
        (Path::new("/dev/zero"), "it is a device"),
    ] {
        for arguments in [["check", named(path)].as_slice(), &["check", "--readings", named(path)]] {
            let (status, said) = at_once(arguments);
            assert!(status == Some(2) && said.contains(words), "{arguments:?}: {said}");
        }
    }
}

/// A folder of profiles that holds none is a slip in its name; one with something that cannot be read hides rows.
#[cfg(unix)]
#[test]
fn profiles_that_give_nothing_are_an_error() {
    let folder = tempfile::tempdir().unwrap();
    let profiles = named(folder.path());
    let refused = |words: &str| {
        let (status, said) = at_once(&["check", "--profiles", profiles]);
        assert!(status == Some(2) && said.contains(words), "{said}");
    };
    refused("holds no profile");
    fs::write(folder.path().join("loads.txt"), "").unwrap();
    refused("holds no profile");
    let loads = folder.path().join("loads.toml");
    std::os::unix::fs::symlink("nowhere", &loads).unwrap();
    refused("loads.toml");
    fs::remove_file(&loads).unwrap();
    assert!(Command::new("mkfifo").arg(&loads).status().unwrap().success());
    refused("loads.toml");
    fs::remove_file(&loads).unwrap();
    fs::File::create(&loads).unwrap().set_len(50_000_000_000).unwrap();
    refused("loads.toml");
    fs::write(&loads, [0xff, 0xfe]).unwrap();
    refused("loads.toml");
    let (status, said) = at_once(&["check", "--profiles", ""]);
    assert!(status == Some(2) && said.contains("profiles"), "{said}");
}

/// Standard output on a full disk is told; the papers that were there stay whole.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_and_keeps_the_papers() {
    let output = program(&["report"]).stdout(fs::File::create("/dev/full").unwrap()).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).contains("the disk is full"), "{}", err(&output));
    let folder = tempfile::tempdir().unwrap();
    let mount = |args: &[&str]| Command::new(args[0]).args(&args[1..]).arg(folder.path()).status();
    if !mount(&["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs"]).is_ok_and(|s| s.success()) {
        eprintln!("not checked: this machine does not let a test mount a small disk");
        return;
    }
    let into = folder.path().join("papers");
    let first = run(&["papers", "--into", named(&into)]);
    let old = all_of(&into);
    let room = fs::File::create(folder.path().join("filler"));
    let _ = std::io::copy(&mut std::io::repeat(0), &mut room.unwrap());
    let again = run(&["papers", "--into", named(&into), "--replace"]);
    let kept = all_of(&into);
    mount(&["umount"]).unwrap();
    assert_eq!(first.status.code(), Some(0), "{}", err(&first));
    assert_eq!(again.status.code(), Some(2), "{}", out(&again));
    let said = err(&again).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("the disk is full"), "{said}");
    assert!(!old.is_empty() && kept == old, "the old papers were not left as they were");
}
