//! A folder of papers: all or none are written, stale ones of ours go, whatever else is there stays, and a check tells
//! whether they are still those of the plan.

use crate::run::{err, out, run};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

fn named(path: &Path) -> &str {
    path.to_str().unwrap()
}

/// Every file below a folder with its text; of a PDF what is text in it.
pub fn files(folder: &Path) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().to_string();
        if path.is_dir() {
            all.extend(files(&path).into_iter().map(|(below, text)| (format!("{name}/{below}"), text)));
        } else {
            all.insert(name, String::from_utf8_lossy(&fs::read(path).unwrap()).into());
        }
    }
    all
}

/// What `papers --check` says, and its status.
fn checked(plan: &str, into: &Path) -> (Option<i32>, String) {
    let output = run(&["papers", plan, "--check", named(into)]);
    let said = format!("{} {}", out(&output), err(&output));
    (output.status.code(), said.split_whitespace().collect::<Vec<_>>().join(" "))
}

#[test]
fn stale_papers_go_and_whatever_else_is_there_stays() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("papers");
    assert_eq!(run(&["papers", "--into", named(&into)]).status.code(), Some(0));
    let first = files(&into);
    assert!(first.keys().all(|name| !name.contains(".loomwright")), "{:?}", first.keys());
    // As an earlier version would have left them: two drawings that are written no more, one of them drawn over.
    let manifest = into.join("manifest.txt");
    let sum = first["manifest.txt"].lines().find_map(|l| l.strip_suffix(" owner-card.md")).unwrap();
    let listed = format!("{}{sum} drawing-8.svg\n{sum} drawing-9.svg\n", first["manifest.txt"]);
    fs::write(&manifest, listed).unwrap();
    fs::write(into.join("drawing-8.svg"), &first["owner-card.md"]).unwrap();
    fs::write(into.join("drawing-9.svg"), "with a pen").unwrap();
    fs::write(into.join("my notes.md"), "mine").unwrap();
    let again = run(&["papers", "--into", named(&into), "--replace"]);
    assert_eq!(again.status.code(), Some(0), "{}", err(&again));
    assert!(err(&again).contains("drawing-9.svg"), "{}", err(&again));
    let mut expected = first;
    expected.insert("drawing-9.svg".into(), "with a pen".into());
    expected.insert("my notes.md".into(), "mine".into());
    assert_eq!(files(&into), expected);
}

/// What stands in the way is found before a paper that was there is touched.
#[test]
fn where_one_paper_cannot_be_written_none_is() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("papers");
    fs::create_dir_all(into.join("workings.html/inside")).unwrap();
    fs::write(into.join("report.html"), "old").unwrap();
    let refused = run(&["papers", "--into", named(&into), "--replace"]);
    assert_eq!(refused.status.code(), Some(2), "{}", out(&refused));
    assert_eq!(files(&into), BTreeMap::from([("report.html".to_string(), "old".to_string())]));
}

#[test]
fn a_check_tells_papers_that_are_of_the_plan_from_those_that_are_not() {
    let folder = tempfile::tempdir().unwrap();
    let (plan, into) = (folder.path().join("van.toml"), folder.path().join("papers"));
    let text = include_str!("../../profiles/plans/beekeeper-truck.toml");
    fs::write(&plan, text).unwrap();
    assert_eq!(checked(named(&plan), &into).0, Some(2));
    assert_eq!(run(&["papers", named(&plan), named(&into)]).status.code(), Some(0));
    let before = files(&into);
    let (status, said) = checked(named(&plan), &into);
    assert!(status == Some(0) && said.contains("checksum"), "{said}");
    fs::write(into.join("cut-list.md"), "two metres more").unwrap();
    fs::remove_file(into.join("labels.html")).unwrap();
    let (status, said) = checked(named(&plan), &into);
    assert_eq!(status, Some(1), "{said}");
    assert!(said.contains("cut-list.md was changed by hand") && said.contains("labels.html is missing"), "{said}");
    fs::write(into.join("cut-list.md"), &before["cut-list.md"]).unwrap();
    fs::write(into.join("labels.html"), &before["labels.html"]).unwrap();
    fs::write(&plan, format!("{text}# one word more\n")).unwrap();
    let (status, said) = checked(named(&plan), &into);
    assert!(status == Some(1) && said.contains("of another text of the plan"), "{said}");
    assert_eq!(files(&into), before, "a check changes nothing");
}

/// The units of tables and the way of CSV are the reader's; a check knows them from the manifest.
#[test]
fn papers_speak_the_readers_units_and_spreadsheet() {
    let folder = tempfile::tempdir().unwrap();
    let (plan, into) = (folder.path().join("van.toml"), folder.path().join("papers"));
    fs::write(&plan, include_str!("../../profiles/plans/market-trailer.toml")).unwrap();
    let asked = ["papers", named(&plan), named(&into), "--units", "imperial", "--decimal-comma", "--bom"];
    let output = run(&asked);
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let written = files(&into);
    // The enable wire: 8.1 m; a foot is 0.3048 m (NIST SP 811).
    assert!(written["cut-list.md"].contains("| 26.6 ft |"), "{}", written["cut-list.md"]);
    let csv = &written["csv/cut-list.csv"];
    assert!(csv.starts_with('\u{feff}') && csv.contains(";cut_m;") && csv.contains(";8,1;"), "{csv}");
    assert!(csv.contains(";red;") && !csv.contains("'+"), "{csv}");
    assert_eq!(checked(named(&plan), &into).0, Some(0));
}
