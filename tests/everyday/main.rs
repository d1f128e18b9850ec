//! Everyday systems, each a plan file as somebody would write it: whether the cut list, laid out, closes every circuit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod closes;

use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, FindingKind, Severity, design, which_fuses};
use loomwright::plan::{examples, read};

/// The ten plans, and the examples.
const PLANS: [(&str, &str); 10] = [
    ("fridge and light", include_str!("plans/fridge-and-light.toml")),
    ("small van", include_str!("plans/small-van.toml")),
    ("large van with inverter", include_str!("plans/large-van.toml")),
    ("trailer by its plug", include_str!("plans/trailer.toml")),
    ("truck with winch", include_str!("plans/truck-winch.toml")),
    ("solar only", include_str!("plans/solar-only.toml")),
    ("caravan on a relay", include_str!("plans/caravan-relay.toml")),
    ("two boards, front and rear", include_str!("plans/front-and-rear.toml")),
    ("chassis return", include_str!("plans/chassis-return.toml")),
    ("24 leads", include_str!("plans/many-leads.toml")),
];

fn designed(name: &str, text: &str) -> Design {
    let catalogue = Catalogue::embedded().unwrap();
    let read = read(text, &catalogue);
    assert_eq!(read.problems, [], "{name}");
    design(&read.plan, &catalogue)
}

#[test]
fn the_cut_list_of_each_closes_every_circuit() {
    let examples = examples().iter().map(|e| (e.name, e.text));
    for (name, text) in PLANS.into_iter().chain(examples) {
        closes::check(name, &designed(name, text));
    }
}

/// A plan as it is usually built is one that may be built.
#[test]
fn none_of_them_has_a_stop() {
    for (name, text) in PLANS {
        let stops: Vec<String> = designed(name, text)
            .findings
            .into_iter()
            .filter(|f| f.severity == Severity::Stop)
            .map(|f| format!("{}: {}", f.kind.key(), f.text))
            .collect();
        assert!(stops.is_empty(), "{name}: {stops:#?}");
    }
}

/// Where the drop is said to decide a rating, no rule on the device itself forbids the rating below: that one is given
/// in its place and judged.
#[test]
fn the_word_that_decides_a_rating_is_the_rule_that_the_one_below_breaks() {
    let mut tried = 0;
    for (name, text) in PLANS.into_iter().filter(|(name, _)| *name != "24 leads") {
        let design = designed(name, text);
        for which in which_fuses(&design) {
            let fuse = design.runs[which.run].fuses.iter().find(|f| f.far_end == which.far_end).unwrap();
            let Some(down) = which.down.filter(|_| fuse.ruling == "voltage drop") else { continue };
            let broken: Vec<_> = down.broken.iter().map(|f| f.kind.key()).collect();
            let own = ["fuse-surge", "fuse-small", "fuse-selective", "fuse-breaking"];
            assert!(!broken.iter().any(|key| own.contains(key)), "{name}, R{}: {broken:?}", which.run + 1);
            tried += 1;
        }
    }
    assert!(tried > 5, "only {tried} tried");
}

/// Every load of the 12 V side has a lead, a size and a device, and gets the voltage that it needs.
#[test]
fn every_load_has_a_cable_and_a_device_and_gets_its_voltage() {
    for (name, text) in PLANS {
        let design = designed(name, text);
        let site = &design.installation;
        for (n, load) in site.loads.iter().enumerate().filter(|(_, l)| !l.inverter) {
            let at = site.circuits.to_point.get(&load.at).or_else(|| site.circuits.to_feed_point.get(&load.at));
            let run = &design.runs[site.circuits.branches[*at.unwrap()].run];
            assert!(run.size.is_some(), "{name}: {} has no cable", load.name);
            let guarded = |branch: usize| !design.runs[site.circuits.branches[branch].run].fuses.is_empty();
            assert!(
                site.circuits.path_of(*at.unwrap()).into_iter().any(guarded),
                "{name}: nothing guards {}",
                load.name
            );
            assert!(design.loads[n].fits, "{name}: {} gets {:?}", load.name, design.loads[n].voltage);
        }
    }
}

/// The settings that were chosen, given by hand, are found fault with as before. The figures in the words may move by
/// a hair, since a setting that is known bounds the lowest voltage and with it the currents.
#[test]
fn a_cut_off_is_judged_alike_whoever_sets_it() {
    let of_cut_off = |design: &Design| {
        let about = design.findings.iter().filter(|f| f.kind == FindingKind::CutOffLow);
        about.map(|f| f.severity).collect::<Vec<_>>()
    };
    let catalogue = Catalogue::embedded().unwrap();
    let mut low = 0;
    for (name, text) in PLANS {
        let chosen = designed(name, text);
        let mut plan = read(text, &catalogue).plan;
        let out = &chosen.cut_off;
        (plan.cut_off.cut, plan.cut_off.reconnect) = (Some(out.cut), Some(out.reconnect));
        plan.cut_off.delay = Some(out.delay);
        plan.service_battery.capacity = chosen.battery.bank.as_ref().map(|bank| bank.capacity);
        plan.service_battery.in_parallel = chosen.battery.bank.as_ref().map(|bank| bank.blocks);
        let given = design(&plan, &catalogue);
        assert_eq!(of_cut_off(&chosen), of_cut_off(&given), "{name}");
        low += of_cut_off(&chosen).len();
    }
    assert!(low > 0, "no plan is cut below its reserve: nothing was compared");
}
