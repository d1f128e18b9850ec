//! Battery chemistries against published tables and public models.

use crate::catalogue::shipped;
use crate::check::{
    Data, Section, Source, check, check_at_least, check_at_most, check_between, independent, typed_twice,
};
use loomwright::catalogue::{Chemical, Chemistry};
use loomwright::quantity::{Celsius, Share};

crate::tests![
    resting_voltages_lie_near_the_published_ones,
    lithium_rests_between_two_measured_cells,
    resting_voltages_follow_the_acid,
    peukert_exponents_lie_in_the_published_ranges,
    cold_leaves_lead_acid_what_ieee_485_says,
    freezing_points_are_the_safer_of_two_lists,
    lives_are_below_the_upper_bounds_of_the_models,
    voltages_of_charge_and_harm_are_the_published_ones,
    faults_meet_less_resistance_than_loads,
    lithium_is_not_charged_below_freezing,
];

fn data() -> Data {
    Data::new(include_str!("data/chemistries.toml"))
}

fn rest(chemistry: &Chemistry, percent: f64) -> f64 {
    chemistry.resting.curve.at(Share::percent(percent)).unwrap().get()
}

#[track_caller]
fn check_rest(
    class: fn(&str) -> Source<'_>,
    chemistry: &Chemistry,
    table: Section<'_>,
    from: f64,
    to: f64,
    tolerance: f64,
) {
    for (percent, volts) in table.pairs("soc_pct", "v").into_iter().filter(|(p, _)| (from..=to).contains(p)) {
        let what = format!("{} resting at {percent} %", chemistry.key);
        check(class(table.source()), &what, volts, rest(chemistry, percent), tolerance);
    }
}

fn resting_voltages_lie_near_the_published_ones() {
    let (data, catalogue) = (data(), shipped());
    let of = |key: &str| catalogue.chemistry(key).unwrap();
    check_rest(typed_twice, of("flooded"), data.table("flooded_rest"), 0.0, 100.0, 0.0);
    let sheet = data.table("flooded_rest_sheet");
    check_rest(independent, of("flooded"), sheet, 51.0, 100.0, 0.15);
    for (percent, volts) in sheet.pairs("soc_pct", "v").into_iter().filter(|(p, _)| *p <= 50.0) {
        // Where two sources disagree near a cut-off the higher voltage disconnects sooner.
        let what = format!("flooded resting at {percent} %, the higher counts");
        check_at_least(independent(sheet.source()), &what, volts, rest(of("flooded"), percent));
    }
    check_rest(typed_twice, of("agm"), data.table("agm_rest"), 30.0, 100.0, 0.15);
    check_rest(typed_twice, of("lithium-nmc"), data.table("nmc_rest"), 0.0, 100.0, 0.005);
    let full = data.table("agm_full");
    let source = independent(full.source());
    check_between(source, "agm full", full.number("v_min"), full.number("v_max"), rest(of("agm"), 100.0));
}

/// Two cells, measured: neither is above the curve that decides a cut-off nor under the one that decides what a load
/// gets. A third reading of the first cell, in a slow discharge, stands beside its own curve.
fn lithium_rests_between_two_measured_cells() {
    let (data, catalogue) = (data(), shipped());
    let resting = &catalogue.chemistry("lithium-iron-phosphate").unwrap().resting;
    for name in ["lfp_rest_bpx", "lfp_rest_c32"] {
        let table = data.table(name);
        for (percent, volts) in table.pairs("soc_pct", "v") {
            let at = |v: Option<loomwright::quantity::Volts>| v.unwrap().get();
            let (charge, source) = (Share::percent(percent), typed_twice(table.source()));
            check_at_least(source, &format!("most at {percent} %"), volts, at(resting.most(charge)));
            let source = typed_twice(table.source());
            check_at_most(source, &format!("least at {percent} %"), volts, at(resting.least(charge)));
            let gap = at(resting.most(charge)) - at(resting.least(charge));
            assert!(!(10.0..=90.0).contains(&percent) || gap <= 0.0901, "{gap} V apart at {percent} %");
        }
    }
    let run = data.table("lfp_run");
    let got = resting.curve.at(Share::percent(run.number("soc_pct"))).unwrap().get();
    check(independent(run.source()), "end of a run at C/20", 4.0 * run.number("v_cell"), got, 0.06);
}

/// Open-circuit voltage per cell is specific gravity + 0.845 V: two handbook lists of gravity by charge, and
/// the catalogue's flooded block.
fn resting_voltages_follow_the_acid() {
    let (data, catalogue) = (data(), shipped());
    let flooded = catalogue.chemistry("flooded").unwrap();
    for name in ["gravity", "gravity_other"] {
        let table = data.table(name);
        for (percent, gravity) in table.pairs("soc_pct", "gravity") {
            let volts = 6.0 * (gravity + 0.845);
            let what = format!("flooded resting at {percent} %, gravity {gravity}");
            check(independent(table.source()), &what, volts, rest(flooded, percent), 0.2);
        }
    }
}

/// The exponents lie within the ranges quoted.
fn peukert_exponents_lie_in_the_published_ranges() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("peukert");
    for key in ["flooded", "agm", "gel"] {
        let range = table.numbers(key);
        let got = catalogue.chemistry(key).unwrap().rate.peukert;
        check_between(independent(table.source()), &format!("{key} exponent"), range[0], range[1], got);
    }
}

fn cold_leaves_lead_acid_what_ieee_485_says() {
    let (data, catalogue) = (data(), shipped());
    let (table, army) = (data.table("ieee485"), data.table("army_cold"));
    for chemistry in catalogue.chemistries.iter().filter(|c| c.chemical == Chemical::LeadAcid) {
        let at = |c: f64| chemistry.cold.capacity.at(Celsius::new(c)).unwrap().get();
        for (f, k) in table.pairs("temp_f", "k") {
            let c = (f - 32.0) / 1.8;
            // No gain is taken above 25 °C: the safer side.
            check(typed_twice(table.source()), &format!("{} share at {f} °F", chemistry.key), (1.0 / k).min(1.0), at(c), 0.006);
        }
        for (c, share) in army.pairs("temp_c", "share") {
            check(typed_twice(army.source()), &format!("{} share at {c} °C", chemistry.key), share, at(c), 0.005);
        }
    }
}

/// Of two published lists the program has the one that freezes sooner.
fn freezing_points_are_the_safer_of_two_lists() {
    let (data, catalogue) = (data(), shipped());
    let (table, other) = (data.table("freezing"), data.table("freezing_other"));
    for chemistry in &catalogue.chemistries {
        let Some(curve) = &chemistry.cold.freezing else {
            assert_ne!(chemistry.chemical, Chemical::LeadAcid, "{} can freeze", chemistry.key);
            continue;
        };
        let at = |percent: f64| curve.at(Share::percent(percent)).unwrap().get();
        for (percent, c) in table.pairs("soc_pct", "c") {
            check(typed_twice(table.source()), &format!("{} freezes at {percent} %", chemistry.key), c, at(percent), 0.05);
        }
        for (percent, f) in other.pairs("soc_pct", "f") {
            let what = format!("{} freezes at {percent} %, the sooner counts", chemistry.key);
            check_at_least(independent(other.source()), &what, (f - 32.0) / 1.8, at(percent));
        }
    }
}

fn lives_are_below_the_upper_bounds_of_the_models() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("cycles_upper");
    for (key, dod, cycles) in
        [("lithium-iron-phosphate", "lfp_dod", "lfp_cycles"), ("lithium-nmc", "nmc_dod", "nmc_cycles")]
    {
        for (depth, most) in table.pairs(dod, cycles) {
            let got = catalogue.chemistry(key).unwrap().life.cycles.at(Share::new(depth)).unwrap().get();
            check_at_most(independent(table.source()), &format!("{key}: cycles at depth {depth}"), most, got);
        }
    }
}

fn voltages_of_charge_and_harm_are_the_published_ones() {
    let (data, catalogue) = (data(), shipped());
    let of = |key: &str| catalogue.chemistry(key).unwrap();
    let (floor, float) = (data.table("lead_floor"), data.table("float"));
    for key in ["flooded", "agm", "gel"] {
        let chemistry = of(key);
        let harm = chemistry.low.damage.get();
        check(typed_twice(floor.source()), &format!("{key} harm"), floor.number("v"), harm, 0.0);
        let by_cell = floor.number("v_per_cell") * f64::from(chemistry.cells);
        check(independent(floor.source()), &format!("{key} harm, by cell"), by_cell, harm, 1e-9);
        check(typed_twice(float.source()), key, float.number("v_per_k"), chemistry.charge.v_per_k, 1e-9);
    }
    let source = typed_twice(float.source());
    check(source, "agm float", float.number("agm_v"), of("agm").charge.float.get(), 0.0);
    let (sheet, gel) = (data.table("gel_charge"), &of("gel").charge);
    let (source, float) = (typed_twice(sheet.source()), sheet.numbers("float_vpc"));
    check_between(source, "gel float", 6.0 * float[0], 6.0 * float[1], gel.float.get());
    check(source, "gel absorption", 6.0 * sheet.number("cycling_vpc"), gel.absorption.get(), 1e-9);
    check(source, "gel highest", 6.0 * sheet.number("max_vpc"), gel.max.get(), 1e-9);
}

/// A fault meets less resistance than a working load, which sees the slow polarisation too.
fn faults_meet_less_resistance_than_loads() {
    for chemistry in &shipped().chemistries {
        let r = &chemistry.resistance;
        assert!(r.fault_mohm <= r.working_mohm / 1.5, "{}: fault and working resistance too close", chemistry.key);
    }
}

/// Lithium must not be charged below freezing, and says so.
fn lithium_is_not_charged_below_freezing() {
    for chemistry in shipped().chemistries.iter().filter(|c| c.chemical == Chemical::Lithium) {
        assert!(chemistry.limits.charge_min.get() >= 0.0, "{}", chemistry.key);
        assert!(chemistry.cautions.iter().any(|c| c.contains("Never charge below 0 °C")), "{}", chemistry.key);
    }
}
