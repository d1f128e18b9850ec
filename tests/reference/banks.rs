//! What the first device at a bank's posts breaks, against ABYC E-11's rules for banks, on whole designs.

use crate::catalogue::shipped;
use crate::check::{Data, check_at_least, independent};
use crate::program::{Design, design};
use loomwright::plan::read;

crate::tests![main_devices_break_what_e_11_asks, large_banks_take_the_highest_breaking];

fn data() -> Data {
    Data::new(include_str!("data/banks.toml"))
}

/// A bank of so many blocks with one lamp behind 3 m of cable.
fn bank(chemistry: &str, ah: f64, blocks: u32) -> Design {
    let text = format!(
        r#"format = 1
service_battery = {{ chemistry = "{chemistry}", capacity_ah = {ah}, in_parallel = {blocks} }}
charger = {{ kind = "none" }}
load = [{{ name = "lamp", at = "panel", power_w = 20, duty = {{ hours_a_day = 4 }} }}]
run = [{{ from = "service battery", to = "panel", length_m = 3 }}]
"#
    );
    let read = read(&text, &shipped());
    assert!(read.problems.is_empty(), "{:?}", read.problems);
    design(&read.plan, &shipped())
}

/// Table V-A by the battery's cranking amperes: of a block that can crank at all the smallest row at least.
fn main_devices_break_what_e_11_asks() {
    let data = data();
    let table = data.table("abyc_e11_breakers");
    let least = table.numbers("main_a")[0];
    for (chemistry, ah) in [
        ("flooded", 35.0),
        ("flooded", 100.0),
        ("agm", 35.0),
        ("agm", 100.0),
        ("gel", 40.0),
        ("gel", 100.0),
        ("lithium-iron-phosphate", 50.0),
        ("lithium-iron-phosphate", 200.0),
    ] {
        let fuse = &bank(chemistry, ah, 1).runs[0].fuses[0];
        let what = format!("{ah} Ah of {chemistry}: A that the main device breaks");
        check_at_least(independent(table.source()), &what, least, fuse.breaking.get());
    }
}

/// Above 500 Ah, where the bank's short-circuit current is above 10 kA, 20 kA at 125 V are asked; a handbook takes
/// one such link for each bank of up to 1,000 Ah.
fn large_banks_take_the_highest_breaking() {
    let data = data();
    let (rule, handbook) = (data.table("abyc_e11_main"), data.table("class_t_banks"));
    for (chemistry, ah, blocks) in [("flooded", 600.0, 3), ("agm", 600.0, 3), ("lithium-iron-phosphate", 800.0, 2)] {
        let design = bank(chemistry, ah, blocks);
        let fuse = &design.runs[0].fuses[0];
        assert!(ah > rule.number("table_up_to_ah") && fuse.prospective.get() > rule.number("beyond_if_rated_over_a"));
        let what = format!("{ah} Ah of {chemistry}: A that the main device breaks");
        check_at_least(independent(rule.source()), &what, rule.number("beyond_breaking_a"), fuse.breaking.get());
        check_at_least(independent(handbook.source()), &what, handbook.number("breaking_a"), fuse.breaking.get());
        let found = design.findings.iter().any(|f| f.kind.key() == "block-fuses");
        assert!(found, "{ah} Ah of {chemistry} in {blocks} blocks, {}", data.table("abyc_e11_2025").source());
    }
}
