//! What the workshop's papers say, word for word where a hand follows it.

use crate::plans::{CATALOGUE, all_examples, designed};
use loomwright::catalogue::{Catalogue, Layer, line_words};
use loomwright::engine::{cut_list, design, parts_list};
use loomwright::papers::{Job, Look, Stamp, bundle};
use std::collections::BTreeMap;

/// All Markdown and CSV papers of a plan by name.
pub fn papers(text: &str) -> BTreeMap<String, String> {
    let (plan, design) = designed(text);
    let job = Job { plan: &plan, catalogue: &CATALOGUE, design: &design, beside: &[] };
    bundle(&job, &Look::default(), &Stamp::default())
        .into_iter()
        .map(|f| (f.name.clone(), f.text().to_string()))
        .collect()
}

pub fn example(name: &str) -> &'static str {
    all_examples().find(|e| e.0 == name).map(|e| e.1).unwrap_or_else(|| panic!("no example {name}"))
}

#[track_caller]
pub fn says(paper: &str, words: &[&str]) {
    let mut rest = paper;
    for word in words {
        let Some(at) = rest.find(word) else { panic!("`{word}` is not there, or not in this order:\n{paper}") };
        rest = &rest[at + word.len()..];
    }
}

#[test]
fn negatives_go_back_on_before_the_first_fuse_and_the_inverter_comes_last() {
    let papers = papers(example("bird-ringing-van"));
    let sheet = &papers["test-sheet.md"];
    says(
        sheet,
        &[
            "negatives are off",
            "## 3 First power",
            "All fuses are still out",
            "negative back on the service battery",
            "negative back on the starter battery",
            "Put in the fuses one at a time",
            "21 W lamp",
            "uncover the solar array",
            "charger, output terminal",
            "as the service battery",
            "| R6 |",
            "## 4",
        ],
    );
    says(sheet, &["| R1 |", "charger, input terminal", "as the starter battery"]);
    let power = sheet.split("## 3 First power").nth(1).unwrap_or_default();
    let order: Vec<usize> = ["| R3 |", "| R7 |", "| R6 |"].iter().filter_map(|r| power.find(r)).collect();
    assert!(order.is_sorted(), "R6 feeds the inverter: last of the fuses, {order:?}");
}

#[test]
fn what_is_measured_has_a_blank_and_a_current_that_can_be_had() {
    let papers = papers(example("bird-ringing-van"));
    let sheet = &papers["test-sheet.md"];
    says(sheet, &["## 5", "| the cut-off opens at | 12.90 V | ______ |", "rises to 14.20 V | ______ |"]);
    // 110 W into a 12 V battery: 110 / 12 = 9.17 A at the most; the fuse of 30 A would let more through.
    says(sheet, &["## 4", "service battery – solar controller | 9.17 A |"]);
    says(sheet, &["the inverter and what is plugged into it are off", "all loads, without the inverter"]);
}

#[test]
fn the_card_names_only_ways_to_charge_that_are_there_and_the_plug() {
    let bees = papers(example("beekeeper-truck"));
    let card = &bees["owner-card.md"];
    says(card, &["Charge it: drive.", "Charge it within days", "At the very outside within"]);
    assert!(!card.contains("sun") && !card.contains("mains"), "{card}");
    let trailer = papers(example("market-trailer"));
    let card = &trailer["owner-card.md"];
    says(card, &["Pull the trailer's plug", "negative off the service battery", "drive, or plug in the mains charger"]);
    says(card, &["Charge it within days", "days: what stays connected"]);
    assert!(!card.contains(" d:") && card.contains("**Capacity:** 180 Ah\n"), "{card}");
}

/// 33 CFR 183.455: 7 in and 40 in, which are 0.1778 m and 1.016 m.
#[test]
fn limits_are_rounded_down() {
    let trailer = papers(example("market-trailer"));
    says(&trailer["cut-list.md"], &["| 0.17 m | service battery |"]);
    let all: String = all_examples().map(|(_, text)| papers(text)["report.md"].clone()).collect();
    assert!(all.contains("1.01 m") || all.contains("0.177 m"), "a distance is shown");
    for rounded_up in ["battery | 1.02 m |", "cut-off | 1.02 m |", "0.178 m"] {
        assert!(!all.contains(rounded_up), "{rounded_up}: a distance is rounded up");
    }
}

#[test]
fn a_fuse_on_a_stud_has_no_lead_and_a_plug_has_pins() {
    let trailer = papers(example("market-trailer"));
    let cuts = &trailer["cut-list.md"];
    says(cuts, &["| R1 + |", "fuse on starter battery | M8 | trailer plug", "30 A |"]);
    assert_eq!(cuts.matches("| R1 ").count(), 2, "positive and negative: {cuts}");
    says(cuts, &["| trailer plug | pin |"]);
    says(&trailer["parts-list.md"], &["| pin | pin of the plug's own make for 16 mm²"]);
}

#[test]
fn the_enable_wire_is_cut_bought_and_labelled() {
    let trailer = papers(example("market-trailer"));
    // By hand: the feed is 5.0 m + 2.5 m; 7.5 × 1.05 + 0.2 = 8.075 → 8.1 m.
    says(&trailer["cut-list.md"], &["| enable | third colour | 1 mm² | 8.1 m | engine-running signal |", "3 A"]);
    says(&trailer["cut-list.md"], &["not sized by this program"]);
    says(&trailer["parts-list.md"], &["enable wire", "8.1 m", "3 A fuse-link with holder, for the enable wire"]);
    says(&trailer["labels.md"], &["| enable | engine-running signal | charger | 1 mm², fuse 3 A |"]);
    let relay = example("market-trailer").replace("kind = \"dc-dc\"", "kind = \"dc-dc\"\nenable_signal = false");
    assert!(!papers(&relay)["cut-list.md"].contains("enable"), "none is planned");
}

/// A fuse that does not exist is said to be missing on every list, not left out.
#[test]
fn where_no_fuse_fits_every_list_says_so() {
    let text = example("beekeeper-truck").replace(
        "[[run]]",
        "[[run]]\nname = \"thin\"\nfrom = \"service battery\"\nto = \"beacon\"\nlength_m = 6\nsize_mm2 = 0.5\n[[run]]",
    );
    let text = text.replacen("[[load]]", "[[load]]\nname = \"beacon\"\nat = \"beacon\"\npower_w = 200\n[[load]]", 1);
    let papers = papers(&text);
    for (paper, words) in [
        ("cut-list.md", "none fits: see findings"),
        ("parts-list.md", "none fits, see findings"),
        ("test-sheet.md", "none fits: see findings"),
        ("owner-card.md", "none fits: see findings"),
        ("labels.md", "none fits: see findings"),
    ] {
        assert!(papers[paper].contains(words), "{paper}: {}", papers[paper]);
    }
}

#[test]
fn sheets_have_a_place_for_the_date_and_lugs_are_sold_as_they_are() {
    for (name, text) in all_examples() {
        let papers = papers(text);
        for paper in ["report.md", "cut-list.md", "parts-list.md", "labels.md", "owner-card.md"] {
            assert!(papers[paper].contains("Date / revision"), "{name}: {paper}");
        }
        assert!(papers["test-sheet.md"].contains("Date, by whom"), "{name}");
    }
    let bees = papers(example("beekeeper-truck"));
    says(&bees["parts-list.md"], &["ring lug for 6 mm² and stud M6", "pack of 10", "for 50 mm²", "| single | 8 |"]);
    says(&bees["report.md"], &["critical loss allowed, ordinary loss allowed, tolerant loss allowed"]);
    says(&bees["report.md"], &["Every chemistry for this job", " years |"]);
}

#[test]
fn loads_behind_the_inverter_are_not_left_out_of_the_voltages() {
    let van = papers(example("bird-ringing-van"));
    says(&van["report.md"], &["## Voltage at the loads", "| laptop |", "through the inverter |", "## Cut-off"]);
}

#[test]
fn one_is_one_and_not_ones() {
    let one = "format = 2\n[service_battery]\nchemistry = \"agm\"\n[[load]]\nname = \"lamp\"\nat = \"panel\"\npower_w = 5\n\
               duty = { hours_a_day = 1 }\n[[run]]\nfrom = \"service battery\"\nto = \"panel\"\nlength_m = 1\n";
    let papers = papers(one);
    says(&papers["report.md"], &["1 run, 1 m one way"]);
    for (name, paper) in &papers {
        let wrong = ["1 runs", "1 blocks", "1 cautions", "1 notes", "1 days", "1 times", "(s)"];
        for word in wrong {
            let ones =
                paper.match_indices(word).filter(|(at, _)| !paper[..*at].ends_with(|c: char| c.is_ascii_digit()));
            assert_eq!(ones.count(), 0, "{name} says `{word}`: {paper}");
        }
    }
}

/// UL 486A, held for a minute, as a terminal maker's specification prints it: 8 AWG (8.37 mm²) 90 lb, 4 AWG (21.2 mm²)
/// 140 lb; a pound-force is 4.448 N (NIST SP 811). 10 mm² lies between 8 and 6 AWG, 25 mm² between 4 and 2 AWG.
#[test]
fn a_trial_crimp_of_each_size_has_its_pull() {
    let cuts = papers(example("bird-ringing-van"))["cut-list.md"].clone();
    let pull = |size: &str| -> f64 {
        let row =
            cuts.lines().find(|l| l.starts_with(&format!("| {size} |"))).unwrap_or_else(|| panic!("{size}: {cuts}"));
        row.split('|').nth(2).unwrap().trim().split(' ').next().unwrap().parse().unwrap()
    };
    for (size, pounds) in [("10 mm²", 90.0), ("25 mm²", 140.0)] {
        assert!((pull(size) / (pounds * 4.448) - 1.0).abs() < 0.005, "{size}: {}", pull(size));
    }
}

/// Each line of a parts list may be priced by its own words, as far as they are no names of the plan.
#[test]
fn every_line_may_be_priced_by_its_words() {
    let folders = ["profiles/plans", "tests/everyday/plans"];
    let files = folders.iter().flat_map(|f| std::fs::read_dir(f).unwrap()).map(|e| e.unwrap().path());
    let mut texts: Vec<String> = files.map(|p| std::fs::read_to_string(p).unwrap()).collect();
    texts.extend((0..30).map(crate::generated_everything::everything));
    let mut lines = std::collections::BTreeSet::new();
    for text in &texts {
        let plan = loomwright::plan::read(text, &CATALOGUE).plan;
        let boards = plan.boards.iter().map(|b| &b.name).chain(plan.plugs.iter().map(|p| &p.name));
        let points = plan.runs.iter().flat_map(|r| [&r.from, &r.to]).chain(plan.loads.iter().map(|l| &l.at));
        let names: Vec<String> = boards.chain(points).flat_map(|name| line_words(name)).collect();
        let design = design(&plan, &CATALOGUE);
        for part in parts_list(&design, &cut_list(&design).cuts) {
            let line = format!("{} {}", part.group, part.what);
            let words: Vec<String> = line_words(&line).filter(|w| !names.contains(w)).collect();
            lines.insert(words.join(" "));
        }
    }
    assert!(lines.len() > 100);
    let rows: String = lines.iter().map(|l| format!("[[price]]\npart = {l:?}\neach = 1\n")).collect();
    let layer = Layer { origin: "own".into(), files: vec![("prices.toml".into(), rows)] };
    if let Err(refused) = Catalogue::with_layers(&[layer]) {
        panic!("{}", refused.iter().map(|e| format!("{e}\n")).collect::<String>());
    }
}

/// By hand: each line that the price names costs its packs times it, and the sum is that of these lines.
#[test]
fn the_users_prices_fill_the_parts_list() {
    let priced = format!("{}\n[[price]]\npart = \"notice\"\neach = 4.5\n", example("market-trailer"));
    let papers = papers(&priced);
    let mut reader = csv::Reader::from_reader(papers["csv/parts.csv"].as_bytes());
    let heads: Vec<String> = reader.headers().unwrap().iter().map(String::from).collect();
    let column = |name: &str| heads.iter().position(|h| h == name).unwrap_or_else(|| panic!("{name} in {heads:?}"));
    let (group, packs, sum) = (column("group"), column("packs"), column("sum"));
    let mut all = 0.0;
    for row in reader.records().map(|r| r.unwrap()) {
        let packs: f64 = row[packs].parse().unwrap();
        match &row[group] {
            "notice" => {
                assert_eq!(row[sum].parse::<f64>().unwrap(), packs * 4.5, "{row:?}");
                all += packs * 4.5;
            }
            _ => assert!(row[sum].is_empty(), "{row:?}"),
        }
    }
    assert!(all > 0.0);
    says(
        &papers["parts-list.md"],
        &["all that has a price", &format!("**{}**", loomwright::quantity::Money::new(all)), "without one"],
    );
    let without = self::papers(example("market-trailer"))["parts-list.md"].clone();
    assert!(!without.contains("all that has a price"), "{without}");
}
