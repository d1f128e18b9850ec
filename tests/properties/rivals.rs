//! What else would do: each told design is that of the plan's text with the told edits.

use crate::generated_fit_out::fit_out;
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::rivals::cross::{designs, rivals};
use loomwright::engine::ask::rivals::variant::Variant;
use loomwright::engine::{Design, Severity, cut_list, design, parts_list};
use loomwright::plan::{Place, Plan, Value, put, read, set};

fn of(text: &str, catalogue: &Catalogue) -> Design {
    design(&read(text, catalogue).plan, catalogue)
}

fn edited(text: &str, variant: &Variant) -> String {
    variant.edits.iter().fold(text.to_string(), |t, e| put(&t, e.place, e.value.as_ref()).unwrap())
}

/// Nowhere worse, somewhere better: written down once more, from what is told alone.
fn beats(a: &Variant, b: &Variant) -> bool {
    let numbers = |v: &Variant| {
        let s = &v.sums;
        let counts = [s.stops as f64, s.cautions as f64, s.parts as f64];
        [&counts[..], &[s.mass.get(), s.copper.get(), -s.lasts.get(), -s.years.get()]].concat()
    };
    let (x, y) = (numbers(a), numbers(b));
    x.iter().zip(&y).all(|(x, y)| x <= y) && x.iter().zip(&y).any(|(x, y)| x < y)
}

#[test]
fn what_else_would_do_is_what_its_edits_come_to() {
    let catalogue = Catalogue::embedded().unwrap();
    let text = fit_out(2);
    let plan = read(&text, &catalogue).plan;
    let before = design(&plan, &catalogue);
    let found = rivals(&plan, &catalogue, &before, &|| true);
    assert!(found.designs[0].edits.is_empty() && found.designs.len() > 5, "{}", found.designs.len());
    for (n, variant) in found.designs.iter().enumerate() {
        // No prices are entered, so none counts. Rows that come to the same are told once.
        assert!(variant.sums.price.is_none());
        let may = variant.sums.stops == 0 || found.designs.iter().all(|other| other.sums.stops > 0);
        let unbeaten = may && !found.designs.iter().any(|other| beats(other, variant));
        assert_eq!(variant.unbeaten, unbeaten, "{variant:#?}");
        if n % 5 > 0 {
            continue;
        }
        let after = of(&edited(&text, variant), &catalogue);
        let bank = after.battery.bank.as_ref().unwrap();
        assert_eq!((bank.capacity, bank.mass), (variant.sums.capacity, variant.sums.mass));
        assert_eq!(after.copper.mass, variant.sums.copper);
        assert_eq!(after.count(Severity::Stop), variant.sums.stops);
        assert_eq!(parts_list(&after, &cut_list(&after).cuts).len(), variant.sums.parts);
    }
    for step in found.steps.iter().step_by(3) {
        let after = of(&edited(&text, step), &catalogue);
        assert_eq!(after.count(Severity::Caution), step.sums.cautions, "{step:?}");
        assert_eq!(after.charger.current, step.sums.charger);
    }
    // What a number changes is bought otherwise, and what is not told is bought as before: fridge or lamps alike.
    let buys = |d: &Design| {
        let parts = parts_list(d, &cut_list(d).cuts);
        let bought = parts.into_iter().filter(|p| p.group == "device" || p.group == "fuse");
        // Settings are not bought.
        let what = |what: String| what.split(", set to").next().unwrap().split(", for ").next().unwrap().to_string();
        bought.map(|p| what(p.what)).collect::<Vec<_>>()
    };
    for (load, of_load) in plan.loads.iter().enumerate() {
        let Some(power) = of_load.power else { continue };
        let place = Place::load(load, "power_w");
        let told = found.matters.list.iter().find(|m| m.place == place);
        let more = of(&set(&text, place, Some(&Value::Number(power.get() * 1.1))).unwrap(), &catalogue);
        if buys(&more) != buys(&before) {
            assert!(
                told.is_some_and(|m| !m.more.is_empty()),
                "{} {told:?}: {:?} {:?}",
                of_load.name,
                buys(&before),
                buys(&more)
            );
        }
    }
}

/// Where all shall end, all ends.
#[test]
fn it_can_be_ended() {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(&fit_out(2), &catalogue).plan;
    let found = rivals(&plan, &catalogue, &design(&plan, &catalogue), &|| false);
    assert_eq!((found.designs.len(), found.steps.len(), found.matters.list.len()), (1, 0, 0));
}

/// How far each load is from the posts along its runs and its lead, by the plan alone.
fn ways(plan: &Plan) -> Vec<f64> {
    let along = |load: &loomwright::plan::Load| {
        let (mut at, mut far) = (load.at.as_str(), load.lead.length.map_or(0.0, |l| l.get()));
        while let Some(run) = plan.runs.iter().find(|r| r.to == at) {
            (at, far) = (run.from.as_str(), far + run.length.get());
        }
        far
    };
    plan.loads.iter().map(along).collect()
}

/// A board more is a plan of two boards on which every load is as far from the posts as before; a board less has one
/// fewer, with its run, and no load nearer. As text and as plan it is the same, and nothing is left on no point.
#[test]
fn a_board_more_or_less_is_compared() {
    let catalogue = Catalogue::embedded().unwrap();
    for (name, words, more) in [("large-van", "two boards", 1), ("front-and-rear", "one board fewer", -1)] {
        let path = format!("{}/tests/everyday/plans/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).unwrap();
        let plan = read(&text, &catalogue).plan;
        let found = designs(&plan, &catalogue, &design(&plan, &catalogue), &|| true);
        let variant = found.iter().find(|v| v.words.starts_with(words)).unwrap_or_else(|| panic!("{name}: {found:#?}"));
        let after = read(&edited(&text, variant), &catalogue);
        assert!(after.problems.is_empty(), "{:?}", after.problems);
        let put = |plan: Plan, e: &loomwright::engine::Edit| plan.with(e.place, e.value.as_ref()).unwrap();
        assert_eq!(after.plan, variant.edits.iter().fold(plan.clone(), put));
        let grown = |of: fn(&Plan) -> usize| of(&after.plan) as i64 - of(&plan) as i64;
        assert_eq!((grown(|p| p.boards.len()), grown(|p| p.runs.len()), grown(|p| p.loads.len())), (more, more, 0));
        let pairs: Vec<(f64, f64)> = ways(&plan).into_iter().zip(ways(&after.plan)).collect();
        match more {
            1 => assert!(pairs.iter().all(|(old, new)| (old - new).abs() < 1e-6), "{pairs:?}"),
            _ => assert!(pairs.iter().all(|(old, new)| *new >= old - 1e-6), "{pairs:?}"),
        }
        let built = design(&after.plan, &catalogue);
        assert!(built.findings.iter().all(|f| f.kind.key() != "load-loose" && f.kind.key() != "run-idle"));
        assert_eq!((built.copper.mass, built.count(Severity::Stop)), (variant.sums.copper, variant.sums.stops));
    }
}
