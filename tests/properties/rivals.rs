//! What else would do: each told design is that of the plan's text with the told edits.

use crate::generated_fit_out::fit_out;
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::rivals::cross::rivals;
use loomwright::engine::ask::rivals::variant::Variant;
use loomwright::engine::{Design, Severity, cut_list, design, parts_list};
use loomwright::plan::{Place, Value, read, set};

fn of(text: &str, catalogue: &Catalogue) -> Design {
    design(&read(text, catalogue).plan, catalogue)
}

fn edited(text: &str, variant: &Variant) -> String {
    variant.edits.iter().fold(text.to_string(), |t, e| set(&t, e.place, e.value.as_ref()).unwrap())
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
