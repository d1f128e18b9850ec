//! The page of whole designs beside the plan in hand says what `rivals` says.

use crate::run::{err, out, run};
use std::fs;
use std::path::Path;

const PLAN: &str = "tests/everyday/plans/small-van.toml";

/// The columns of the page, cell by cell.
fn page(folder: &Path) -> Vec<Vec<String>> {
    let mut table = csv::Reader::from_path(folder.join("csv/beside.csv")).unwrap();
    let rows: Vec<csv::StringRecord> = table.records().map(|r| r.unwrap()).collect();
    (0..rows[0].len()).map(|n| rows.iter().map(|r| r[n].to_string()).collect()).collect()
}

/// A column's cell by the name of its row.
fn cell<'a>(columns: &'a [Vec<String>], column: usize, row: &str) -> &'a str {
    let row = columns[0].iter().position(|r| r == row).unwrap_or_else(|| panic!("{row} in {:?}", columns[0]));
    &columns[column][row]
}

/// Each number as JSON has it stands in the page's column, for this design and those that nothing beats.
#[test]
fn the_page_has_the_numbers_of_the_rivals() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("papers");
    let written = run(&["papers", PLAN, "--into", into.to_str().unwrap(), "--rivals"]);
    assert_ne!(written.status.code(), Some(2), "{}", err(&written));
    let columns = page(&into);
    let said: serde_json::Value = serde_json::from_str(&out(&run(&["rivals", PLAN, "--json"]))).unwrap();
    let designs = said["designs"].as_array().unwrap();
    let unbeaten = designs.iter().skip(1).filter(|d| d["unbeaten"] == true);
    let shown: Vec<&serde_json::Value> = designs.iter().take(1).chain(unbeaten).take(4).collect();
    assert!(shown.len() > 1);
    assert_eq!(columns.len(), shown.len() + 1);
    for (n, design) in shown.iter().enumerate() {
        let sums = &design["sums"];
        assert_eq!(cell(&columns, n + 1, "Change"), design["words"], "{design}");
        // `12.5 kg` begins with the number, rounded for people.
        for (row, key) in [
            ("Battery mass", "mass_kg"),
            ("Charger", "charger_a"),
            ("Sun", "array_w"),
            ("Copper", "copper_kg"),
            ("Parts", "parts"),
        ] {
            let shown = cell(&columns, n + 1, row);
            let number: f64 = shown.split_whitespace().next().unwrap().parse().unwrap();
            let exact = sums[key].as_f64().unwrap_or_else(|| panic!("{key} in {sums}"));
            assert!((number - exact).abs() <= 0.01 * exact.abs(), "{row}: {shown}, and {exact}");
        }
        let open = format!("{} STOP", sums["stops"]).replacen("0 STOP", "no STOP", usize::from(sums["stops"] == 0));
        assert!(cell(&columns, n + 1, "Findings").starts_with(&open), "{open}");
    }
}

/// The same designs by their numbers: in the report and in the set word for word as `rivals --beside` prints them, and a
/// check of the papers knows which page they have.
#[test]
fn the_report_and_the_set_say_it_alike() {
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("papers");
    let into = into.to_str().unwrap();
    let asked = run(&["rivals", PLAN, "--beside", "1,3"]);
    let table = |text: &str| {
        let from = text.split("Side by side").nth(1).unwrap_or_else(|| panic!("{text}")).to_string();
        let to = from.find("Beaten").and_then(|at| Some(at + from[at..].find("\n\n")?));
        from[..to.unwrap_or(from.len())].trim_end().to_string()
    };
    let printed = table(&out(&asked));
    assert_eq!(table(&out(&run(&["report", PLAN, "--beside", "1,3"]))), printed);
    assert!(!out(&run(&["report", PLAN])).contains("Side by side"));
    run(&["papers", PLAN, "--into", into, "--beside", "1,3"]);
    let sheet = fs::read_to_string(Path::new(into).join("side-by-side.md")).unwrap();
    assert!(fs::read_to_string(Path::new(into).join("contents.md")).unwrap().contains("side-by-side.html"));
    let columns = page(Path::new(into));
    // Markdown marks a name's own signs.
    let sheet = sheet.replace("\\`", "`");
    for cell in columns.iter().flatten().filter(|c| !c.is_empty()) {
        assert!(sheet.contains(cell.as_str()), "{cell}\n{sheet}");
        let words: Vec<&str> = cell.split_whitespace().collect();
        assert!(words.iter().all(|w| printed.contains(w)), "{cell}\n{printed}");
    }
    let check = run(&["papers", PLAN, "--check", into]);
    assert_eq!(check.status.code(), Some(0), "{}", out(&check));
    let wrong = run(&["papers", PLAN, "--into", into, "--replace", "--beside", "1,900"]);
    assert!(err(&wrong).contains("--beside 900"), "{}", err(&wrong));
    // Without the option the page goes again.
    run(&["papers", PLAN, "--into", into, "--replace"]);
    assert!(!Path::new(into).join("side-by-side.md").exists());
}
