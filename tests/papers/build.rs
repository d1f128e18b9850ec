//! The papers as one builds by them: an order that can be followed, a setting for each device, nothing left to guess.

use crate::connections::rows;
use crate::generated_many::plans;
use crate::generated_plan::plan as generated;
use crate::plans::{CATALOGUE, all_examples, designed, tree_plan};
use crate::workshop::{example, papers, says};
use loomwright::engine::{Design, Side, design};
use loomwright::papers::{Job, Look, Stamp, bundle};
use loomwright::plan::Plan;
use std::collections::BTreeSet;

/// A fuse is put in, and its far end measured: it shows a voltage only if all between it and its battery is in by then,
/// and what charges must be in before anything behind the cut-off, which may need charging to close.
fn can_be_followed(plan: &Plan, design: &Design, seed: &str) {
    let job = Job { plan, catalogue: &CATALOGUE, design, beside: &[] };
    let files = bundle(&job, &Look::default(), &Stamp::default())
        .into_iter()
        .map(|f| (f.name.clone(), f.text().to_string()))
        .collect();
    let site = &design.installation;
    let number = |run: usize| site.run_number(run);
    let of_number = |text: &str| (0..site.runs.len()).find(|run| number(*run) == text).unwrap();
    let order: Vec<usize> = rows(&files, "first-power").iter().map(|row| of_number(&row["run"])).collect();
    let fused: BTreeSet<usize> = order.iter().copied().collect();
    let topology = &site.circuits;
    let charging = topology.path_to("charger").unwrap_or_default();
    let branches = || charging.iter().filter_map(|n| topology.branches.get(*n));
    let free = !branches().any(|b| b.behind_cut_off);
    let mut done = BTreeSet::new();
    for run in order {
        let Some(branch) = topology.branch_of(run) else { continue };
        for above in topology.path_of(topology.index_of(run).unwrap()) {
            let above = topology.branches[above].run;
            assert!(
                above == run || !fused.contains(&above) || done.contains(&above),
                "{seed}: {} comes before {}, which feeds it",
                number(run),
                number(above)
            );
        }
        if branch.behind_cut_off && branch.side == Side::Service && free {
            let missing = branches().find(|b| fused.contains(&b.run) && !done.contains(&b.run));
            assert!(missing.is_none(), "{seed}: {} lies behind the cut-off before anything can charge", number(run));
        }
        done.insert(run);
    }
}

/// A few each run; `LOOMWRIGHT_PLANS=300` tries more.
#[test]
fn fuses_go_in_in_an_order_that_can_be_measured() {
    for (name, text) in all_examples() {
        let (plan, design) = designed(text);
        can_be_followed(&plan, &design, name);
    }
    let draws = plans(4);
    for seed in 0..draws {
        let plan = generated(seed, 4 + seed as usize % 9, seed % 3 == 0, &CATALOGUE);
        can_be_followed(&plan, &design(&plan, &CATALOGUE), &format!("plan {seed}"));
    }
}

/// A rested lithium iron phosphate battery shows 13.2 to 13.4 V: behind a cut-off that closes at 13.8 V nothing gets
/// power before the battery has been charged.
#[test]
fn a_cut_off_that_a_rested_battery_cannot_close_is_charged_first() {
    let text = example("bird-ringing-van").replace("reserve = 0.2", "reserve = 0.2\nreconnect_v = 13.8");
    let sheet = papers(&text)["test-sheet.md"].clone();
    says(&sheet, &["closes by itself at 13.80 V or more", "so it cannot close yet", "start the engine", "| Run |"]);
    says(&sheet, &["the charger must stop too", "current out of the service battery", "| engine off, five minutes"]);
    let alone = text.replace("kind = \"dc-dc\"", "kind = \"none\"").replace("array_w = 110", "array_w = 0");
    says(&papers(&alone)["test-sheet.md"], &["put a charger made for this battery on its posts until it closes"]);
}

#[test]
fn every_device_has_its_settings() {
    for (name, text) in all_examples() {
        let (plan, _) = designed(text);
        let settings = rows(&papers(text), "settings");
        let of = |device: &str| settings.iter().filter(|row| row["device"] == device).count();
        assert!(of("cut-off") >= 3 && of("charger") >= 4, "{name}: {settings:?}");
        assert_eq!(of("solar controller") >= 4, plan.solar.array.get() > 0.0, "{name}");
        assert_eq!(of("mains charger") >= 5, plan.mains.current.get() > 0.0, "{name}");
        assert_eq!(of("inverter") >= 1, plan.inverter.rating.get() > 0.0, "{name}");
    }
}

/// A part's torque is its sheet's, so the only number is the carrier's; every stud has its blank.
#[test]
fn the_job_card_has_a_blank_for_each_stud_and_run() {
    for (name, text) in all_examples() {
        let files = papers(text);
        let torques = rows(&files, "torques");
        let studs = rows(&files, "studs").iter().filter(|row| !row["stud"].is_empty()).count();
        assert!(torques.len() == studs && studs > 10, "{name}: {studs}");
        assert!(torques.iter().all(|row| row["sheet"].is_empty() && row["tightened"].is_empty()), "{name}");
        assert_eq!(rows(&files, "as-built-runs").len(), rows(&files, "runs").len(), "{name}");
        assert!(rows(&files, "as-built-devices").len() >= 3, "{name}");
        says(&files["job-card.md"], &["Tools", "Isolate", "trial crimp", "minus first", "first power", "fire crew"]);
    }
}

#[test]
fn mains_voltage_is_handed_over_and_not_designed() {
    let van = papers(example("bird-ringing-van"));
    says(
        &van["hand-over.md"],
        &["Nothing at mains voltage is designed here", "300 W", "neutral", "| From the inverter |"],
    );
    let trailer = papers(example("market-trailer"));
    says(&trailer["hand-over.md"], &["Mains charger", "The inlet", "| From the inlet |"]);
    assert!(!trailer["hand-over.md"].contains("inverter's output"), "there is none");
    assert!(!papers(example("beekeeper-truck")).contains_key("hand-over.md"), "no mains, no inverter");
}

/// Each label has room for its words and a tail that goes once around its cable; no two overlap, all fit onto a sheet
/// that A4 and Letter hold, and every row of the list is there. Diameters: those of the catalogue's conductors.
#[test]
fn labels_to_cut_out_go_around_their_cable() {
    for (name, text) in all_examples() {
        let files = papers(text);
        let sheet = &files["label-sheet.html"];
        let number = |part: &str, key: &str| -> f64 {
            let from = part.split(key).nth(1).unwrap();
            from.split(|c: char| !(c.is_ascii_digit() || c == '.')).next().unwrap().parse().unwrap()
        };
        let mut seen = 0;
        for svg in sheet.split("<svg ").skip(1) {
            let svg = svg.split("</svg>").next().unwrap();
            assert!(
                number(svg, "width=\"") <= 181.0 && number(svg, "height=\"") <= 206.0,
                "{name}: too large to print"
            );
            let mut bottom = 0.0;
            for row in svg.split("<g transform=\"translate(").skip(1) {
                let y = number(row.split(' ').nth(1).map(|_| row).unwrap(), " ");
                // The second dashed line of a label lies at its lower edge.
                let height = number(row.split("class=\"dashed\" d=\"M").nth(2).unwrap(), " ");
                assert!([24.0, 38.0, 62.0].contains(&height) && y + 0.05 >= bottom, "{name}: {height} at {y}");
                bottom = y + height;
                for label in row.split("font-weight=\"bold\"").skip(1) {
                    let head = label.split(['>', '<']).nth(1).unwrap();
                    let size = head.split("  ").nth(1).unwrap().split(',').next().unwrap();
                    let outside = CATALOGUE.conductor(size).unwrap().outside.get();
                    let around = std::f64::consts::PI * outside;
                    assert!(head.contains("FLAG") == (11.0 + around * 1.05 > 62.0), "{name}: {head}");
                    assert!(head.contains("FLAG") || height >= 11.0 + around, "{name}: {head} around {outside} mm");
                    seen += 1;
                }
            }
        }
        assert_eq!(seen, rows(&files, "labels").len(), "{name}");
    }
}

/// Nobody finds an end by half a name: the longest that a plan may have (60 letters) stand on their labels whole.
#[test]
fn long_names_stand_whole_on_their_labels() {
    let name = |n: usize| format!("the place behind the left wheel arch beside the tank no {n:04}");
    let mut text = tree_plan(8, |n| n - 1);
    (3..8).for_each(|n| text = text.replace(&format!("\"place {n}\""), &format!("\"{}\"", name(n))));
    let files = papers(&text);
    let sheet = &files["label-sheet.html"];
    let words: Vec<&str> =
        sheet.split("<text ").skip(1).map(|t| t.split('>').nth(1).unwrap().split('<').next().unwrap()).collect();
    let all = words.join(" ");
    for n in 3..8 {
        assert!(all.contains(&name(n)), "{}: {all}", name(n));
    }
    assert!(words.iter().all(|w| w.chars().count() <= 38), "{words:?}");
}

#[test]
fn what_holds_the_battery_is_bought_too() {
    let files = papers(example("beekeeper-truck"));
    let parts = rows(&files, "parts");
    let count = |group: &str| parts.iter().filter(|row| row["group"] == group).count();
    assert!(count("steel") >= 2 && count("stud") >= 1 && count("notice") >= 1, "{parts:?}");
    // Four studs in the plan: two rows along, two across.
    says(&files["parts-list.md"], &["| stud | stud or bolt M10, class 8.8", "| 4 | single | 4 | ______ | ______ |"]);
}

/// All that the CSV files hold is in one JSON too, under the same names.
#[test]
fn every_table_is_in_the_json() {
    let files = papers(example("market-trailer"));
    let json: serde_json::Value = serde_json::from_str(&files["tables.json"]).unwrap();
    let names = files.keys().filter_map(|name| name.strip_prefix("csv/")?.strip_suffix(".csv"));
    for name in names {
        let (csv, own) = (rows(&files, name), json[name].as_array().unwrap_or_else(|| panic!("no {name}")));
        assert_eq!(own.len(), csv.len(), "{name}");
        for (row, own) in csv.iter().zip(own) {
            assert!(row.keys().all(|key| own.get(key).is_some()), "{name}: {own}");
        }
    }
    for name in ["cut-list", "parts", "labels", "first-power", "connections", "settings", "torques"] {
        assert!(json[name].as_array().is_some_and(|rows| !rows.is_empty()), "{name}");
    }
}
