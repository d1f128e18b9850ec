//! The README tells the truth: its examples are what the program prints.

use std::process::Command;

/// The lines printed for a command line of the README.
fn printed(line: &str) -> String {
    let words = line.split_whitespace().skip(1);
    let out = Command::new(env!("CARGO_BIN_EXE_loomwright")).args(words).env("NO_COLOR", "1").output().unwrap();
    String::from_utf8(out.stdout).unwrap()
}

/// Each block that begins with `$ loomwright …` holds what that command prints.
/// `LOOMWRIGHT_WRITE_README=1` writes it there instead.
#[test]
fn examples_in_the_readme_are_real() {
    let path = super::root().join("README.md");
    let text = std::fs::read_to_string(&path).unwrap();
    let mut new = String::new();
    let mut lines = text.lines();
    let mut examples = 0;
    while let Some(line) = lines.next() {
        new.push_str(line);
        new.push('\n');
        if let Some(command) = line.strip_prefix("$ ") {
            examples += 1;
            new.push_str(printed(command).trim_end());
            new.push('\n');
            for old in lines.by_ref() {
                if old.starts_with("```") {
                    new.push_str(old);
                    new.push('\n');
                    break;
                }
            }
        }
    }
    assert!(examples >= 2, "the everyday uses are shown with real output");
    if std::env::var_os("LOOMWRIGHT_WRITE_README").is_some() {
        std::fs::write(&path, &new).unwrap();
    } else {
        assert!(text == new, "README examples are out of date: LOOMWRIGHT_WRITE_README=1 cargo test --test house");
    }
}

/// Pictures and files that the README points at exist.
#[test]
fn what_the_readme_points_at_is_there() {
    let text = std::fs::read_to_string(super::root().join("README.md")).unwrap();
    let targets = text.split("](").skip(1).filter_map(|t| t.split(')').next()).filter(|t| !t.starts_with("http"));
    for target in targets {
        assert!(super::root().join(target).exists(), "README points at {target}, which is not there");
    }
    for picture in std::fs::read_dir(super::root().join("screenshots")).unwrap() {
        let name = picture.unwrap().file_name().into_string().unwrap();
        assert!(text.contains(&format!("](screenshots/{name})")), "README does not show screenshots/{name}");
    }
    let first = text.lines().find(|l| !l.starts_with('#') && !l.is_empty()).unwrap_or_default();
    assert!(first.starts_with("Loomwright sizes a 12-volt"), "the README opens with the job");
}
