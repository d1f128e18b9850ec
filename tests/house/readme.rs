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

/// Every command line in the text: between backticks, which may break a line, or a line of a block of its own.
fn commands(text: &str) -> Vec<Vec<String>> {
    let spans = text.split("```").enumerate().flat_map(|(n, part)| -> Vec<&str> {
        match n % 2 {
            0 => part.split('`').skip(1).step_by(2).collect(),
            _ => part.lines().map(|line| line.trim_start_matches("$ ")).collect(),
        }
    });
    let words = spans.map(|span| span.split_whitespace().map(String::from).collect::<Vec<_>>());
    words.filter(|words| words.first().is_some_and(|w| w == "loomwright") && words.len() > 1).collect()
}

/// What is typed as it stands there is understood, in the order of the text, in a folder with a plan, a log and a list.
#[test]
fn each_command_of_the_readme_runs() {
    let text = std::fs::read_to_string(super::root().join("README.md")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let logs = super::root().join("tests/reference/data/logs");
    std::fs::copy(super::root().join("profiles/plans/bird-ringing-van.toml"), folder.path().join("van.toml")).unwrap();
    std::fs::copy(logs.join("lead.csv"), folder.path().join("week.csv")).unwrap();
    let run = |words: &[String]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_loomwright"));
        command.args(words).current_dir(folder.path()).env("XDG_CONFIG_HOME", folder.path().join("config"));
        let output = command.stdin(std::process::Stdio::null()).output().unwrap();
        (output.status.code(), String::from_utf8(output.stderr).unwrap())
    };
    let loads = ["table", "loads", "van.toml"].map(String::from);
    let listed =
        Command::new(env!("CARGO_BIN_EXE_loomwright")).args(&loads).current_dir(folder.path()).output().unwrap();
    std::fs::write(folder.path().join("loads.csv"), listed.stdout).unwrap();
    let commands = commands(&text);
    assert!(commands.len() > 12, "{commands:?}");
    for words in commands {
        // A key stands for one that the reader has; status 1 is an answer: something must not be built.
        if words.iter().any(|w| w == "KEY") {
            continue;
        }
        // Quotes and a density's commas are for the shell and the program as they stand.
        let (status, said) = run(&words[1..]);
        assert!(matches!(status, Some(0 | 1)), "{}: {said}", words.join(" "));
    }
}

/// Each option that the text names is one of some command.
#[test]
fn each_option_of_the_readme_is_known() {
    let text = std::fs::read_to_string(super::root().join("README.md")).unwrap();
    let help = |words: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_loomwright")).args(words).output().unwrap();
        String::from_utf8(output.stdout).unwrap()
    };
    let listed = help(&["man", "--list"]);
    let known: String = listed.lines().map(|command| help(&[command, "--help"])).collect();
    let ours = text.split("```").step_by(2).flat_map(|part| part.split('`').skip(1).step_by(2));
    // What stands behind cargo is cargo's.
    let ours =
        ours.filter(|span| !span.starts_with("cargo ") && !span.starts_with("CARGO") && !span.contains(" cargo "));
    let options = ours.flat_map(str::split_whitespace).filter(|word| word.starts_with("--"));
    let unknown: Vec<&str> =
        options.filter(|o| !known.contains(&format!("{o} ")) && !known.contains(&format!("{o}\n"))).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
}
