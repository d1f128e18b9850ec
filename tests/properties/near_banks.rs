//! Smaller banks that nearly last: each lasts as long as it is said to.

use crate::generated_fit_out::fit_out;
use loomwright::catalogue::Catalogue;
use loomwright::engine::design;
use loomwright::plan::{Place, Section, Value, read, set};

/// The plan with that bank given lasts so long by the trials of its own design. All are smaller than the bank that is chosen, of equal blocks that are sold.
#[test]
fn a_smaller_bank_lasts_as_long_as_it_is_said_to() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut looked_at, mut short) = (0, 0);
    for seed in 0..20 {
        let text = fit_out(seed);
        let plan = read(&text, &catalogue).plan;
        let chosen = design(&plan, &catalogue);
        let sizes = &catalogue.chemistry(&plan.service_battery.chemistry).unwrap().blocks.sizes;
        for near in chosen.near_banks() {
            assert!(near.bank.capacity < chosen.battery.bank.as_ref().unwrap().capacity, "seed {seed}");
            assert!(sizes.contains(&near.bank.block), "seed {seed}: {:?}", near.bank);
            let put = |text: &str, key, number| {
                set(text, Place::of(Section::ServiceBattery, key), Some(&Value::Number(number))).unwrap()
            };
            let given = put(&text, "capacity_ah", near.bank.capacity.get());
            let given = put(&given, "in_parallel", f64::from(near.bank.blocks));
            let tried = design(&read(&given, &catalogue).plan, &catalogue).promise;
            let lasts = tried.without_charge.iter().map(|t| t.failed_at.unwrap_or(t.tried).get() / 24.0);
            let lasts = lasts.fold(f64::MAX, f64::min);
            assert!((lasts - near.lasts.get()).abs() <= 1e-9, "seed {seed}: {lasts} d, {near:?}");
            looked_at += 1;
            short += u32::from(near.lasts < near.of);
        }
    }
    assert!(looked_at >= 10 && short >= 1, "{looked_at}, {short}");
}
