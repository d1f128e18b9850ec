//! The connection drawing shows every wire, device and load of the connection table, and can be read where it is printed.

use crate::connections::rows;
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
    let job = Job { plan, catalogue: &CATALOGUE, design };
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

/// A few each run; `LOOMWRIGHT_PLANS=300` tries more.
#[test]
fn the_connection_drawing_shows_every_wire_and_fuse() {
    for (name, text) in all_examples() {
        let (plan, design) = designed(text);
        drawn(&plan, &design, name);
    }
    let draws = std::env::var("LOOMWRIGHT_PLANS").ok().and_then(|n| n.parse().ok()).unwrap_or(4);
    for seed in 100..100 + draws {
        let plan = generated(seed, 4 + seed as usize % 9, seed % 3 == 0, &CATALOGUE);
        drawn(&plan, &design(&plan, &CATALOGUE), &format!("plan {seed}"));
    }
}
