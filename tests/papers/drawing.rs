//! The connection drawing shows every wire, device and load of the connection table, and can be read where it is printed.

use crate::connections::rows;
use crate::generated_many::plans;
use crate::generated_plan::plan as generated;
use crate::plans::{CATALOGUE, all_examples, designed};
use loomwright::engine::{Design, design};
use loomwright::papers::{Job, Look, Stamp, bundle};
use loomwright::plan::Plan;
use std::collections::BTreeMap;

fn number(part: &str, key: &str) -> f64 {
    let from = part.split(key).nth(1).unwrap();
    from.split(|c: char| !(c.is_ascii_digit() || c == '.')).next().unwrap().parse().unwrap()
}

/// All words of a drawing, plain; with the width that squeezed ones got.
fn words(svg: &str) -> Vec<(String, Option<f64>)> {
    let plain =
        |text: &str| text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&");
    let one = |part: &str| {
        let (head, text) = part.split_once('>').unwrap();
        let squeezed = head.contains("textLength").then(|| number(head, "textLength=\""));
        (plain(text.split("</text>").next().unwrap()), squeezed)
    };
    svg.split("<text ").skip(1).map(one).collect()
}

fn drawn(plan: &Plan, design: &Design, name: &str) {
    let job = Job { plan, catalogue: &CATALOGUE, design, beside: &[] };
    let files: BTreeMap<String, String> = bundle(&job, &Look::default(), &Stamp::default())
        .into_iter()
        .map(|f| (f.name.clone(), f.text().to_string()))
        .collect();
    let sheet = |n: usize| files.get(&format!("connection-drawing-{n}.svg"));
    let sheets: Vec<&String> = (1..).map_while(sheet).collect();
    let all: Vec<Vec<(String, Option<f64>)>> = sheets.iter().map(|svg| words(svg)).collect();
    let said: Vec<&str> = all.iter().flatten().map(|w| w.0.as_str()).collect();
    for row in rows(&files, "connections").iter().filter(|r| r["wire"] != "enable") {
        let (plus, minus) =
            (format!("{} {}", row["wire"], row["colour"]), format!("{} {},", row["wire"], row["colour"]));
        assert!(said.iter().any(|w| *w == plus || w.starts_with(&minus)), "{name}: {} is not drawn", row["wire"]);
    }
    let device = |row: &BTreeMap<String, String>| row["joins"] == "closes" && row["joint"].starts_with('F');
    for row in rows(&files, "joints").iter().filter(|r| device(r) && !r["what"].starts_with("none")) {
        let rating = row["what"].split(',').next().unwrap();
        let fuse =
            said.iter().position(|w| **w == row["joint"]).unwrap_or_else(|| panic!("{name}: no {}", row["joint"]));
        assert!(said[fuse + 1].starts_with(&format!("{rating} (")), "{name}: {} is {}", row["joint"], said[fuse + 1]);
    }
    for (n, (svg, words)) in sheets.iter().zip(&all).enumerate() {
        let [width, height] = ["width=\"", "height=\""].map(|key| number(svg, key));
        // The overview has a test of its own.
        let overview = svg.contains("Wiring diagram");
        assert!(overview || width <= 180.5 && height <= 228.0, "{name}: sheet {} is {width} by {height}", n + 1);
        for (text, squeezed) in words {
            let letters = text.chars().count() as f64;
            assert!(squeezed.is_none_or(|w| w / letters > 0.62), "{name}: `{text}` is squeezed into {squeezed:?} mm");
            if let Some(to) = text.strip_prefix("→ sheet ") {
                let to: usize = to.parse().unwrap();
                assert!(to != n + 1 && to <= sheets.len(), "{name}: sheet {} sends to {to}", n + 1);
                // The place that is left is there again, its name in bold.
                let other = sheets[to - 1];
                let names = svg.split("font-weight=\"bold\">").skip(1).map(|p| p.split("</text>").next().unwrap());
                assert!(names.into_iter().any(|p| other.contains(&format!("bold\">{p}<"))), "{name}: to {to}");
            }
        }
    }
}

/// What opens the minus alone is drawn and listed there; a caution says that the plus is the better place.
#[test]
fn what_opens_the_minus_sits_in_it() {
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n[cut_off]\nin_minus = true\n\
                [main_switch]\nrating_a = 100\nat = \"service battery\"\nin_minus = true\n\
                [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
                [[run]]\nfrom = \"cut-off\"\nto = \"lamp\"\nlength_m = 3\nfuse_in_minus = true\n\
                [[run]]\nfrom = \"cut-off\"\nto = \"pump\"\nlength_m = 2\n\
                [[load]]\nname = \"lamp\"\nat = \"lamp\"\npower_w = 20\nduty = { hours_a_day = 2 }\n\
                [[load]]\nname = \"pump\"\nat = \"pump\"\npower_w = 40\nduty = { hours_a_day = 0.5 }\n";
    let (plan, design) = designed(text);
    drawn(&plan, &design, "in the minus");
    let job = Job { plan: &plan, catalogue: &CATALOGUE, design: &design, beside: &[] };
    let files: BTreeMap<String, String> = bundle(&job, &Look::default(), &Stamp::default())
        .into_iter()
        .map(|f| (f.name.clone(), f.text().to_string()))
        .collect();
    let joints = rows(&files, "joints");
    let ends = |joint: &str| {
        let row = joints.iter().find(|r| r["joint"] == joint).unwrap_or_else(|| panic!("no {joint}"));
        [row["from"].clone(), row["to"].clone()]
    };
    assert_eq!(ends("cut-off"), ["cut-off IN minus", "cut-off OUT minus"]);
    assert_eq!(ends("main switch"), ["service battery minus", "main switch OUT minus"]);
    assert_eq!(ends("F2"), ["F2 IN minus", "F2 OUT minus"]);
    let wires = rows(&files, "connections");
    let from_to = |wire: &str| {
        let row = wires.iter().find(|r| r["wire"] == wire).unwrap_or_else(|| panic!("no {wire}"));
        [row["from"].as_str(), row["to"].as_str()].join(" > ")
    };
    // The minus walked from the lamp back to the battery, and the plus without a device in it.
    assert_eq!(from_to("R2 – 2"), "F2 OUT minus > lamp minus");
    assert_eq!(from_to("R2 – 1"), "cut-off OUT minus > F2 IN minus");
    assert_eq!(from_to("R1 –"), "main switch OUT minus > cut-off IN minus");
    assert_eq!(from_to("R2 +"), "cut-off plus > lamp plus");
    assert_eq!(from_to("R3 –"), "cut-off OUT minus > pump minus");
}

/// A few each run; `LOOMWRIGHT_PLANS=300` tries more.
#[test]
fn the_connection_drawing_shows_every_wire_and_fuse() {
    for (name, text) in all_examples() {
        let (plan, design) = designed(text);
        drawn(&plan, &design, name);
    }
    let draws = plans(4);
    for seed in 100..100 + draws {
        let plan = generated(seed, 4 + seed as usize % 9, seed % 3 == 0, &CATALOGUE);
        drawn(&plan, &design(&plan, &CATALOGUE), &format!("plan {seed}"));
    }
}
