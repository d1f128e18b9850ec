//! Who thinks in feet reads feet: in tables, in sentences and in drawings; what is measured out in
//! millimetres, reckoned in formulas or read by other programs stays metric.

use crate::plans::{CATALOGUE, all_examples, designed};
use loomwright::papers::{Job, Look, PaperFile, Stamp, bundle};
use loomwright::quantity::UnitSystem;

fn papers(text: &str) -> Vec<PaperFile> {
    let (plan, design) = designed(text);
    let look = Look { system: plan.job.units.system(), ..Look::default() };
    bundle(&Job { plan: &plan, catalogue: &CATALOGUE, design: &design, beside: &[] }, &look, &Stamp::default())
}

fn imperial(text: &str) -> String {
    text.replacen("format = 2\n", "format = 2\nunits = \"imperial\"\n", 1)
}

/// The value before a metric unit, if there is one in a line.
fn metric(line: &str) -> Option<String> {
    let words: Vec<&str> = line.split([' ', '|', '>', '<', '\u{a0}']).filter(|w| !w.is_empty()).collect();
    let number = |w: &str| w.trim_start_matches(['(', '-']).parse::<f64>().is_ok();
    let unit = |w: &str| ["m", "kg", "°C", "Nm"].contains(&w.trim_end_matches([',', '.', ';', ':', ')']));
    words.windows(2).find(|w| number(w[0]) && unit(w[1])).map(|w| w.join(" "))
}

#[test]
fn a_plan_in_feet_has_papers_in_feet() {
    for (name, text) in all_examples() {
        let text = imperial(text);
        assert_eq!(designed(&text).0.job.units.system(), UnitSystem::Us);
        let files = papers(&text);
        let stays = |f: &&PaperFile| ["workings", "marking-out", "label-sheet"].iter().any(|n| f.name.starts_with(n));
        let read = |f: &&PaperFile| f.name.ends_with(".md") || f.name.ends_with(".svg");
        let mut feet = 0;
        for file in files.iter().filter(read).filter(|f| !stays(f)) {
            // A formula, and what the user wrote, stay.
            for line in file.text().lines().filter(|l| !l.contains(" = ")) {
                assert_eq!(metric(line), None, "{name}: {}: {line}", file.name);
                feet += usize::from(line.contains(" ft"));
            }
        }
        assert!(feet > 40, "{name}: {feet} lines with feet");
        let of = |ends: &str, files: &[PaperFile]| -> Vec<String> {
            files.iter().filter(|f| f.name.ends_with(ends)).map(|f| f.text().to_string()).collect()
        };
        let before = papers(&text.replace("units = \"imperial\"\n", ""));
        for same in ["cut-list.csv", "connections.csv", "runs.csv", "tables.json", ".dxf", ".cir"] {
            assert_eq!(of(same, &files), of(same, &before), "{name}: {same} is for programs");
        }
    }
}

/// Cut lengths and torques are those of the metric papers: the foot is 0.3048 m, 1 lbf ft is 1.3558179 Nm (NIST SP
/// 811, appendix B.8).
#[test]
fn the_values_are_the_same() {
    let text = all_examples().next().unwrap().1;
    let (metres, feet) = (papers(text), papers(&imperial(text)));
    let column = |files: &[PaperFile], unit: &str| -> Vec<f64> {
        let list = files.iter().find(|f| f.name == "cut-list.md").unwrap().text().to_string();
        let words: Vec<&str> = list.split_whitespace().collect();
        words.windows(2).filter(|w| w[1] == unit).filter_map(|w| w[0].parse().ok()).collect()
    };
    let (metres, feet) = (column(&metres, "m"), column(&feet, "ft"));
    assert!(metres.len() > 20 && metres.len() == feet.len(), "{} and {}", metres.len(), feet.len());
    for (m, ft) in metres.iter().zip(&feet) {
        assert!((m - ft * 0.3048).abs() < 0.006 * m.max(1.0), "{m} m is not {ft} ft");
    }
}

/// A load that is called by a length keeps its name on every paper.
#[test]
fn a_name_is_no_value() {
    let text = imperial(all_examples().next().unwrap().1).replace("\"work lamps\"", "\"lamp 2 m\"");
    let text = text.replace("\"fridge\"", "\"fridge 1.5 m\"");
    assert!(text.contains("2 m\"") || text.contains("1.5 m\""));
    for file in papers(&text) {
        for wrong in ["lamp 6.6", "lamp 7 ft", "fridge 4.9", "fridge 5 ft"] {
            assert!(!file.text().contains(wrong), "{}: {wrong}", file.name);
        }
    }
}
