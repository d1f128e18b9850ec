//! Loads and runs go out to a spreadsheet and come back as they were; what is changed there is changed, and no more.

use crate::generated_plan::plan as generated;
use crate::run::{err, out, run};
use loomwright::catalogue::Catalogue;
use loomwright::plan::{Plan, Section, SheetStyle, examples, from_sheet, read, to_sheet};
use std::fs;

const EMPTY: &str = "format = 2\n[service_battery]\nchemistry = \"agm\"\n";

fn styles() -> [SheetStyle; 4] {
    let style = |n: usize| SheetStyle { every_column: n % 2 == 1, decimal_comma: n / 2 == 1 };
    std::array::from_fn(style)
}

#[test]
fn a_list_comes_back_byte_for_byte() {
    let catalogue = Catalogue::embedded().unwrap();
    for example in examples() {
        let plan = read(example.text, &catalogue).plan;
        for section in [Section::Load, Section::Run] {
            for style in styles() {
                let sheet = to_sheet(&plan, section, style);
                let back = from_sheet(example.text, section, &sheet, &catalogue).unwrap();
                assert_eq!(back, example.text, "{} {style:?}: {sheet}", example.name);
            }
        }
    }
}

/// Into a plan that has none, so that every row is made from its cells alone.
#[test]
fn every_load_and_run_is_made_again_from_its_row() {
    let catalogue = Catalogue::embedded().unwrap();
    let own = examples().iter().map(|e| read(e.text, &catalogue).plan);
    let plans = own.chain((0..30).map(|seed| generated(seed, 3 + seed as usize % 12, false, &catalogue)));
    for plan in plans {
        for style in styles() {
            let loads = from_sheet(EMPTY, Section::Load, &to_sheet(&plan, Section::Load, style), &catalogue).unwrap();
            let both = from_sheet(&loads, Section::Run, &to_sheet(&plan, Section::Run, style), &catalogue).unwrap();
            let back = read(&both, &catalogue);
            assert_eq!(back.problems, [], "{style:?}\n{both}");
            for section in [Section::Load, Section::Run] {
                let [was, is] = [&plan, &back.plan].map(|plan| cells(plan, section));
                assert_eq!(was.len(), is.len(), "{both}");
                for (was, is) in was.iter().zip(&is) {
                    // Nine digits behind the point are kept in a plan.
                    let near = |(a, b): (f64, f64)| (a - b).abs() <= 1e-9 * (1.0 + a.abs());
                    let alike = was.parse().ok().zip(is.parse().ok()).is_some_and(near);
                    assert!(was == is || alike, "{style:?}: `{was}` came back as `{is}`\n{both}");
                }
            }
        }
    }
}

fn cells(plan: &Plan, section: Section) -> Vec<String> {
    let sheet = to_sheet(plan, section, SheetStyle { every_column: true, ..SheetStyle::default() });
    let mut reader = csv::Reader::from_reader(sheet.as_bytes());
    reader.records().flat_map(|row| row.unwrap().iter().map(String::from).collect::<Vec<_>>()).collect()
}

#[test]
fn only_what_was_changed_is_edited() {
    let catalogue = Catalogue::embedded().unwrap();
    let text = examples()[0].text;
    let plan = read(text, &catalogue).plan;
    let sheet = to_sheet(&plan, Section::Load, SheetStyle { decimal_comma: true, ..SheetStyle::default() });
    let mut lines: Vec<String> = sheet.lines().map(String::from).collect();
    let power = lines[0].split(';').position(|head| head == "power_w").unwrap();
    let mut cells: Vec<&str> = lines[1].split(';').collect();
    cells[power] = "33,5";
    let changed = cells.join(";");
    let gone = lines.len() - 1;
    lines[1] = changed;
    lines.remove(gone);
    let back = from_sheet(text, Section::Load, &format!("\u{feff}{}\n;;;\n", lines.join("\r\n")), &catalogue).unwrap();
    let now = read(&back, &catalogue).plan;
    assert_eq!(now.loads[0].power.unwrap().get(), 33.5);
    assert_eq!(now.loads.len() + 1, plan.loads.len());
    assert_eq!(now.loads[1..], plan.loads[1..now.loads.len()]);
    assert_eq!(now.runs, plan.runs);
    // Comments are no part of a list's rows.
    let comments = |text: &str| text.lines().filter(|l| l.trim_start().starts_with('#')).count();
    assert!(comments(&back) + 2 >= comments(text), "{back}");
}

/// Marks stand for what is hidden in a name; a row that comes back with them leaves the name as it is.
#[test]
fn a_mark_for_a_hidden_sign_changes_no_name() {
    let catalogue = Catalogue::embedded().unwrap();
    let load = |name: &str| format!("[[load]]\nname = \"{name}\"\npower_w = 5\nat = \"panel\"\n");
    let text = format!("{EMPTY}{}{}", load("fr\\u202eidge"), load("lamp"));
    let plan = read(&text, &catalogue).plan;
    let sheet = to_sheet(&plan, Section::Load, SheetStyle::default());
    assert!(sheet.contains("fr\u{fffd}idge,"), "{sheet}");
    assert_eq!(from_sheet(&text, Section::Load, &sheet, &catalogue).unwrap(), text);
    let other = from_sheet(&text, Section::Load, &sheet.replace("lamp", "lamps"), &catalogue).unwrap();
    assert_eq!(other, text.replace("lamp", "lamps"));
}

#[test]
fn what_is_wrong_in_a_sheet_is_told_all_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let (sheet, to) = (folder.path().join("loads.csv"), folder.path().join("new.toml"));
    let told = |text: &str| {
        fs::write(&sheet, text).unwrap();
        let [from, to] = [&sheet, &to].map(|p| p.to_str().unwrap().to_string());
        let output = run(&["table", "loads", "--from", &from, "--to", &to]);
        assert_eq!(output.status.code(), Some(2), "{}", out(&output));
        err(&output).split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let said = told("name,at,powr_w\nlamp,panel,5\n");
    assert!(said.contains("column `powr_w` is not known; did you mean `power_w`?"), "{said}");
    let said = told("name,at,power_w\n,panel,5\nlamp,panel,lots\n");
    assert!(said.contains("line 2, name") && said.contains("line 3, power_w"), "{said}");
    assert!(!to.exists(), "nothing is written");
}

#[test]
fn a_spreadsheet_is_written_as_it_is_asked_for() {
    let plain = out(&run(&["table", "runs"]));
    assert!(plain.starts_with("from,to,length_m") || plain.contains(",length_m"), "{plain}");
    let comma = out(&run(&["table", "runs", "--decimal-comma", "--bom", "--every-column"]));
    assert!(comma.starts_with('\u{feff}') && comma.lines().next().unwrap().contains(";length_m;"), "{comma}");
    assert!(comma.lines().skip(1).any(|l| l.contains(';') && l.contains(',')), "{comma}");
}
