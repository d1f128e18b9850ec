//! What is wrong, and what is known to be wrong still: a list that only shrinks.

use std::collections::BTreeSet;
use std::fs;

/// The rules, each with its word in `still.txt`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    House,
    Upward,
    Unhoused,
    Circle,
    ReadsPlan,
    Outside,
    Unused,
    Unreadable,
}

/// One thing that is wrong.
#[derive(Clone, Debug)]
pub struct Fault {
    rule: Rule,
    /// The file, or what it is about.
    at: String,
    words: String,
}

impl Fault {
    pub fn new(rule: Rule, at: &str, words: String) -> Fault {
        Fault { rule, at: at.into(), words }
    }

    /// Its line in the list.
    fn entry(&self) -> String {
        format!("{:?} {}", self.rule, self.at)
    }

    pub fn says(&self) -> String {
        format!("{}: {}", self.at, self.words)
    }
}

/// What is not in the list, and what is in it though nothing is wrong there any more.
pub fn unknown(faults: &[Fault], list: &str) -> Vec<String> {
    let known: BTreeSet<&str> = list.lines().filter(|l| !l.is_empty() && !l.starts_with('#')).collect();
    let found: BTreeSet<String> = faults.iter().map(Fault::entry).collect();
    let mut wrong: Vec<String> =
        faults.iter().filter(|f| !known.contains(f.entry().as_str())).map(Fault::says).collect();
    let done = known.iter().filter(|k| !found.contains(**k));
    wrong.extend(
        done.map(|k| format!("done: `{k}`; LOOMWRIGHT_UPDATE=1 cargo test --test house takes it out of the list")),
    );
    wrong
}

/// Hold the faults against the list of this project; `LOOMWRIGHT_UPDATE=1` takes out of it what is done.
#[track_caller]
pub fn none_but_known(faults: &[Fault]) {
    let path = super::root().join("tests/house/still.txt");
    let mut list = fs::read_to_string(&path).unwrap();
    if std::env::var_os("LOOMWRIGHT_UPDATE").is_some() {
        let found: BTreeSet<String> = faults.iter().map(Fault::entry).collect();
        list = list.lines().filter(|l| l.starts_with('#') || found.contains(*l)).map(|l| format!("{l}\n")).collect();
        fs::write(&path, &list).unwrap();
    }
    let wrong = unknown(faults, &list);
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}
