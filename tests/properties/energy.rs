//! Laws of budget, battery, charger and cut-off, on generated plan files.

use crate::generated_many::plans;
use crate::generated_text::text;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, Edit, EnduranceError, Notes, Span, design, endurance};
use loomwright::plan::{CutOffBy, Plan, default_example, field_at, read};
use loomwright::quantity::{Share, Watts};

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
        each(0..plans(50), often, |seed, _, design, catalogue| {
            let words = format!("{:?} {:?} {:?} {:?}", design.budget, design.battery, design.charger, design.cut_off);
            assert!(!words.contains("NaN") && !words.contains("inf"), "seed {seed}, {often} %: {words}");
            for (topic, working) in design.workings().iter() {
                for figure in working.inputs.iter().map(|i| i.value).chain([working.result]) {
                    assert!(figure.value.is_finite(), "seed {seed}, {often} %: {topic:?} {working:?}");
                }
            }
            for finding in &design.findings {
                assert!(!finding.remedies.is_empty() && !finding.rule.is_empty(), "seed {seed}: {finding:?}");
                assert!(!finding.text.contains('–'), "seed {seed}: {finding:?}");
                for Edit { place, value } in finding.remedies.iter().flat_map(|r| &r.edits) {
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
    each(1000..1000 + plans(80), 40, |seed, _, design, _| {
        let b = &design.budget;
        let whole = b.charge.get();
        let near = |parts: f64, what: &str| {
            assert!((parts - whole).abs() <= 1e-9 * whole.abs().max(1.0), "seed {seed}, {what}: {parts} of {whole}");
        };
        near((b.by_day + b.by_night).get(), "day and night");
        near((b.driving + b.parked).get(), "driving and parked");
        let loads: f64 = b.loads.iter().map(|l| l.charge.get()).sum();
        let standing = b.standing + b.inverter_idle + b.heater_usual;
        near(loads + standing.get(), "loads, standing draws and the heater pad of a usual day");
        assert!(b.surge >= b.peak && b.light.get() >= 0.0 && b.usual.get() >= 0.0, "seed {seed}");
        // The heater pad draws most on the coldest days.
        assert!(b.standing_day <= b.charge + b.heater, "seed {seed}");
    });
}

/// No criterion asks for more than is needed, and the bank that is chosen has at least that.
#[test]
fn the_biggest_criterion_rules() {
    each(2000..2000 + plans(80), 25, |seed, plan, design, _| {
        let battery = &design.battery;
        for criterion in &battery.criteria {
            assert!(criterion.needed <= battery.needed, "seed {seed}: {criterion:?}");
        }
        let given = plan.service_battery.capacity.is_some() || !plan.blocks.is_empty();
        if let (Some(bank), false) = (&battery.bank, given) {
            assert!(bank.capacity.get() >= battery.needed.get() - 1e-6, "seed {seed}: {bank:?}");
        }
        let cut_off = &design.cut_off;
        // A counter keeps the reserve itself; the battery's own signal keeps what its maker has set.
        let by_voltage = plan.cut_off.acts_by == CutOffBy::Voltage && plan.cut_off.cut.is_none();
        if let (true, None, Some(usual)) = (by_voltage, plan.cut_off.reserve, cut_off.at_currents.get(1)) {
            let at_once = usual.trips_at.map_or(0.0, |s| s.get());
            let within = cut_off.cut.get() < plan.cut_off.highest_setting.get() - 1e-6;
            // A tenth of the charge may go so that an old and cold battery lasts.
            let least = cut_off.reserve.get() - 0.1;
            assert!(!within || at_once >= least - 1e-6, "seed {seed}: {cut_off:?}");
        }
    });
}

/// Whatever is simulated, charge is neither made nor lost, and neither is energy; nothing is NaN.
#[test]
fn simulations_conserve_charge_and_energy() {
    for (seeds, often) in [(3000..3060, 30), (3100..3130, 100)] {
        each(seeds, often, |seed, plan, design, _| {
            let span =
                Span { days: 9, first_day: 1 + seed as u32 % 365, from: Share::new(0.9), health: Share::new(0.85) };
            let Ok(out) = endurance(design, span, &mut Notes::unkept()) else { return };
            let ledger = &out.ledger;
            let moved = (ledger.start + ledger.charged + ledger.drawn).get();
            let held = ledger.end - ledger.start;
            let missing = (ledger.charged - ledger.drawn - ledger.lost - ledger.leaked - held).get().abs();
            assert!(missing <= 1e-9 * moved.max(1.0), "seed {seed}: {missing} Ah of {moved}");
            let energy = (ledger.energy_in + ledger.energy_out).get();
            let kept = ledger.energy_stored + ledger.energy_lost;
            let missing = (ledger.energy_in - ledger.energy_out - kept).get().abs();
            assert!(missing <= 1e-9 * energy.max(1.0), "seed {seed}: {missing} Wh of {energy}");
            let words = format!("{out:?}");
            assert!(!words.contains("NaN") && !words.contains("inf"), "seed {seed}: {words}");
            assert!(ledger.lost.get() >= -1e-9 && ledger.leaked.get() >= 0.0, "seed {seed}: {ledger:?}");
            assert!(out.by_day.len() == 9 && out.loads.len() == plan.loads.len(), "seed {seed}");
            for hours in &out.loads {
                assert!(hours.unserved.get() <= hours.wanted.get() + 1e-9, "seed {seed}: {hours:?}");
            }
            let cut: f64 = out.by_day.iter().map(|d| d.cut_hours.get()).sum();
            assert!((cut - out.cut_hours.get()).abs() < 1e-6 && cut <= 9.0 * 24.0 + 1e-6, "seed {seed}");
        });
    }
}

/// A bigger array, or a younger battery, never ends with less charge at its lowest; more load never with more.
#[test]
fn more_in_is_never_worse() {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(default_example().text, &catalogue).plan;
    let lowest = |change: &dyn Fn(&mut Plan), health: f64| {
        let mut plan = plan.clone();
        // The settings stay, so that only the change counts.
        let kept = design(&plan, &catalogue);
        plan.service_battery.capacity = kept.battery.bank.as_ref().map(|b| b.capacity);
        plan.charger.current = kept.charger.current;
        change(&mut plan);
        let design = design(&plan, &catalogue);
        let span = Span { health: Share::new(health), ..Span::default() };
        endurance(&design, span, &mut Notes::unkept()).unwrap().lowest.get()
    };
    let now = lowest(&|_| {}, 1.0);
    assert!(lowest(&|p| p.solar.array = Watts::new(300.0), 1.0) > now);
    assert!(lowest(&|p| p.loads[0].power = Some(Watts::new(60.0)), 1.0) < now);
    assert!(lowest(&|_| {}, 0.8) < now);
}

/// What is outside its range is an error that names it, never a silent clamp.
#[test]
fn spans_outside_their_ranges_are_refused() {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(default_example().text, &catalogue).plan;
    let kept = design(&plan, &catalogue);
    let run = |span: Span| endurance(&kept, span, &mut Notes::unkept()).unwrap_err();
    let good = Span::default();
    assert_eq!(run(Span { days: 0, ..good }), EnduranceError::Days(0));
    assert_eq!(run(Span { days: 4000, ..good }), EnduranceError::Days(4000));
    assert_eq!(run(Span { first_day: 366, ..good }), EnduranceError::FirstDay(366));
    for share in [-0.1, 1.1, f64::NAN] {
        assert!(matches!(run(Span { from: Share::new(share), ..good }), EnduranceError::Charge(_)), "{share}");
    }
    let words = run(Span { health: Share::ZERO, ..good }).explain();
    assert!(words.contains("10 to 100 %"), "{words}");
    let mut empty = kept.clone();
    empty.battery = Default::default();
    let none = endurance(&empty, good, &mut Notes::unkept());
    assert_eq!(none.unwrap_err(), EnduranceError::NoBattery);
}
