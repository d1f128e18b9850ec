//! Laws of budget, battery, charger and cut-off, on generated plan files.

use crate::generated_text::text;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, design};
use loomwright::plan::{Plan, field_at, read};

fn each(seeds: std::ops::Range<u64>, often: u32, mut look: impl FnMut(u64, &Plan, &Design, &Catalogue)) {
    let catalogue = Catalogue::embedded().unwrap();
    for seed in seeds {
        let text = text(seed, often, &catalogue);
        let read = read(&text, &catalogue);
        assert!(read.problems.is_empty(), "seed {seed}: {:?}\n{text}", read.problems);
        look(seed, &read.plan, &design(&read.plan, &catalogue), &catalogue);
    }
}

/// Whatever the reader accepts, no number is NaN or infinite, in results, workings and findings.
#[test]
fn every_number_is_finite() {
    for often in [10, 50, 100] {
        each(0..150, often, |seed, _, design, catalogue| {
            let words = format!("{:?} {:?} {:?} {:?}", design.budget, design.battery, design.charger, design.cut_off);
            assert!(!words.contains("NaN") && !words.contains("inf"), "seed {seed}, {often} %: {words}");
            for (topic, working) in design.workings.iter() {
                for figure in working.inputs.iter().map(|i| i.value).chain([working.result]) {
                    assert!(figure.value.is_finite(), "seed {seed}, {often} %: {topic:?} {working:?}");
                }
            }
            for finding in &design.findings {
                assert!(!finding.remedies.is_empty() && !finding.rule.is_empty(), "seed {seed}: {finding:?}");
                assert!(!finding.text.contains('–'), "seed {seed}: {finding:?}");
                for (place, value) in finding.remedies.iter().filter_map(|r| r.edit.as_ref()) {
                    let field = field_at(*place).unwrap_or_else(|| panic!("seed {seed}: {finding:?}"));
                    if let Some(value) = value {
                        let accepted = field.accept(value.clone(), catalogue);
                        assert!(accepted.is_ok(), "seed {seed}: {finding:?}: {accepted:?}");
                    }
                }
            }
        });
    }
}

/// Day and night, driving and parked, and the loads with the standing draws, each make up the whole.
#[test]
fn the_budget_adds_up() {
    each(1000..1200, 40, |seed, _, design, _| {
        let b = &design.budget;
        let whole = b.charge.get();
        let near = |parts: f64, what: &str| {
            assert!((parts - whole).abs() <= 1e-9 * whole.abs().max(1.0), "seed {seed}, {what}: {parts} of {whole}");
        };
        near((b.by_day + b.by_night).get(), "day and night");
        near((b.driving + b.parked).get(), "driving and parked");
        let loads: f64 = b.loads.iter().map(|l| l.charge.get()).sum();
        near(loads + b.standing.get() + b.inverter_idle.get(), "loads and standing draws");
        assert!(b.surge >= b.peak && b.light.get() >= 0.0 && b.usual.get() >= 0.0, "seed {seed}");
        assert!(b.standing_day <= b.charge, "seed {seed}");
    });
}

/// No criterion asks for more than is needed, and the bank that is chosen has at least that.
#[test]
fn the_biggest_criterion_rules() {
    each(2000..2200, 25, |seed, plan, design, _| {
        let battery = &design.battery;
        for criterion in &battery.criteria {
            assert!(criterion.needed <= battery.needed, "seed {seed}: {criterion:?}");
        }
        if let (Some(bank), None) = (&battery.bank, plan.service_battery.capacity) {
            assert!(bank.capacity.get() >= battery.needed.get() - 1e-6, "seed {seed}: {bank:?}");
        }
        let cut_off = &design.cut_off;
        if let (None, None, Some(usual)) = (plan.cut_off.cut, plan.cut_off.reserve, cut_off.at_currents.get(1)) {
            let at_once = usual.trips_at.map_or(0.0, |s| s.get());
            let within = cut_off.cut < plan.cut_off.highest_setting;
            assert!(!within || at_once >= cut_off.reserve.get() - 1e-6, "seed {seed}: {cut_off:?}");
        }
    });
}
