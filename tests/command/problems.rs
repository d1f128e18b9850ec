//! A folder of bad plans, each with the words it must get.
//!
//! `tests/problems/NAME.toml` is checked; what it must get stands in `NAME.txt`:
//! the exit status, then all of standard error for a plan that cannot be read,
//! or the findings that must be among those shown. The wording is reviewed like
//! code; `LOOMWRIGHT_UPDATE=1 cargo test --test command problems` writes anew
//! those of plans that cannot be read.

use crate::run::{err, out, run, run_with};
use std::path::Path;

fn said(output: &std::process::Output) -> String {
    format!("status {}\n{}{}", output.status.code().unwrap(), err(output), out(output))
}

/// Each part of `expected`, divided by blank lines, must be said; all of it and nothing else when nothing was read.
#[track_caller]
fn compare(expected: &Path, said: &str) {
    let unread = said.starts_with("status 2");
    if unread && std::env::var_os("LOOMWRIGHT_UPDATE").is_some() {
        std::fs::write(expected, said).unwrap();
    }
    let wanted = std::fs::read_to_string(expected).unwrap_or_default();
    if unread {
        assert_eq!(said, wanted, "{} says otherwise", expected.display());
    } else {
        assert!(wanted.starts_with("status 1\n\nSTOP"), "{} holds no finding", expected.display());
        for part in wanted.split("\n\n") {
            assert!(said.contains(part.trim_end()), "{}: not said:\n{part}\nbut\n{said}", expected.display());
        }
    }
}

#[test]
fn every_bad_plan_gets_its_message() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/problems");
    let mut seen = 0;
    for entry in std::fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "toml") {
            let name = path.file_name().unwrap().to_str().unwrap();
            let before = std::fs::read(&path).unwrap();
            let output = run(&["check", "--no-notes", &format!("tests/problems/{name}")]);
            compare(&path.with_extension("txt"), &said(&output));
            assert_eq!(std::fs::read(&path).unwrap(), before, "{name} was changed");
            assert!(output.status.code() == Some(1) || output.status.code() == Some(2));
            for line in said(&output).lines() {
                assert!(unicode_width::UnicodeWidthStr::width(line) <= 80, "{name}: too wide: {line}");
                assert!(!line.contains(['\u{1b}', '\u{202e}']), "{name}: a control character came through");
            }
            seen += 1;
        }
    }
    assert!(seen >= 15, "only {seen} bad plans");
}

/// What cannot be kept as a text file is made here.
#[test]
fn files_that_are_no_text() {
    let refused = |bytes: &[u8], words: &str| {
        let output = run_with(&["check", "-"], bytes);
        assert_eq!(output.status.code(), Some(2));
        assert!(err(&output).contains(words), "{}", err(&output));
        assert!(out(&output).is_empty());
    };
    refused(b"", "the file is empty");
    refused(&[0xff, 0xd8, 0xff, 0xe0, 0, 16, b'J', b'F'], "not text");
    refused(b"format = 2\n\0", "not text");
    refused(&vec![b'#'; 10_000_000], "which is no plan");
    let folder = run(&["check", "tests"]);
    assert!(err(&folder).contains("it is a folder"), "{}", err(&folder));
    let none = run(&["check", "tests/no-such-plan.toml"]);
    assert!(err(&none).contains("there is no such file"), "{}", err(&none));
}
