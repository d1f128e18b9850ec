//! Battery chemistries against published tables and public models.

use crate::catalogue::shipped;
use crate::check::{
    Data, Section, Source, check, check_at_least, check_at_most, check_between, independent, typed_twice,
};
use loomwright::catalogue::{Chemical, Chemistry};
use loomwright::quantity::{Celsius, Share};

crate::tests![
    resting_voltages_lie_near_the_published_ones,
    lithium_rests_as_a_slow_discharge_ends,
    resting_voltages_follow_the_acid,
    peukert_exponents_are_borne_out,
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
    let sheet = data.table("flooded_rest_sheet");
    check_rest(independent, of("flooded"), sheet, 51.0, 100.0, 0.15);
    for (percent, volts) in sheet.pairs("soc_pct", "v").into_iter().filter(|(p, _)| *p <= 50.0) {
        // Where two sources disagree near a cut-off the higher voltage disconnects sooner.
        let what = format!("flooded resting at {percent} %, the higher counts");
        check_at_least(independent(sheet.source()), &what, volts, rest(of("flooded"), percent));
    }
    check_rest(typed_twice, of("agm"), data.table("agm_rest"), 30.0, 100.0, 0.15);
    let full = data.table("agm_full");
    let source = independent(full.source());
    check_between(source, "agm full", full.number("v_min"), full.number("v_max"), rest(of("agm"), 100.0));
}

/// A slow discharge of one of the two cells that the curves are of stands beside them; the higher curve, which
/// decides a cut-off, is nowhere under the lower, which says what a load gets, and the two are close where both are flat.
fn lithium_rests_as_a_slow_discharge_ends() {
    let (data, catalogue) = (data(), shipped());
    let resting = &catalogue.chemistry("lithium-iron-phosphate").unwrap().resting;
    let run = data.table("lfp_run");
    let got = resting.curve.at(Share::percent(run.number("soc_pct"))).unwrap().get();
    check(independent(run.source()), "end of a run at C/20", 4.0 * run.number("v_cell"), got, 0.06);
    for percent in 0..=100 {
        let charge = Share::percent(f64::from(percent));
        let (most, least) = (resting.most(charge).unwrap().get(), resting.least(charge).unwrap().get());
        assert!(most >= least, "{most} V under {least} V at {percent} %");
        assert!(!(10..=90).contains(&percent) || most - least <= 0.0901, "{most} and {least} V at {percent} %");
    }
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

/// The exponent of AGM, which was fitted, lies in the published range; that of flooded blocks, which was read, is no
/// smaller than what a data sheet's rates follow between 5 and 20 h: (ln 20 - ln 5) / (ln 37 - ln 11.25) = 1.164.
fn peukert_exponents_are_borne_out() {
    let (data, catalogue) = (data(), shipped());
    let of = |key: &str| catalogue.chemistry(key).unwrap().rate.peukert;
    let (table, sheet) = (data.table("peukert"), data.table("flooded_delivered"));
    let range = table.numbers("agm");
    check_between(independent(table.source()), "agm exponent", range[0], range[1], of("agm"));
    let rates = sheet.pairs("hours", "ah");
    let ((fast, less), (slow, more)) = (rates[0], rates[2]);
    let exponent = (slow / fast).ln() / ((less / fast) / (more / slow)).ln();
    check_at_least(independent(sheet.source()), "flooded exponent, 5 to 20 h", exponent, of("flooded"));
}

/// Between the temperatures that the catalogue keeps, by IEEE Std 485's finer list: 66 to 69 and 71 to 76 °F.
fn cold_leaves_lead_acid_what_ieee_485_says() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("ieee485");
    let between = |f: f64| (66.0..77.0).contains(&f) && f != 70.0;
    for chemistry in catalogue.chemistries.iter().filter(|c| c.chemical == Chemical::LeadAcid) {
        for (f, k) in table.pairs("temp_f", "k").into_iter().filter(|(f, _)| between(*f)) {
            let share = chemistry.cold.capacity.at(Celsius::new((f - 32.0) / 1.8)).unwrap().get();
            check(typed_twice(table.source()), &format!("{} share at {f} °F", chemistry.key), 1.0 / k, share, 0.004);
        }
        let warm = chemistry.cold.capacity.at(Celsius::new(49.0)).unwrap();
        assert_eq!(warm, Share::FULL, "{}: no gain is taken above 25 °C: the safer side", chemistry.key);
    }
}

/// The program freezes sooner than this list, since it has another one that does.
fn freezing_points_are_the_safer_of_two_lists() {
    let (data, catalogue) = (data(), shipped());
    let other = data.table("freezing_other");
    for chemistry in &catalogue.chemistries {
        let Some(curve) = &chemistry.cold.freezing else {
            assert_ne!(chemistry.chemical, Chemical::LeadAcid, "{} can freeze", chemistry.key);
            continue;
        };
        let at = |percent: f64| curve.at(Share::percent(percent)).unwrap().get();
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
    let floor = data.table("lead_floor");
    for key in ["flooded", "agm", "gel"] {
        let chemistry = of(key);
        let by_cell = floor.number("v_per_cell") * f64::from(chemistry.cells);
        check(independent(floor.source()), &format!("{key} harm, by cell"), by_cell, chemistry.low.damage.get(), 1e-9);
    }
    // The catalogue remembers 2.35 and 2.40 V; a sheet that was read agrees.
    let (sheet, gel) = (data.table("gel_charge"), &of("gel").charge);
    let (source, float) = (independent(sheet.source()), sheet.numbers("float_vpc"));
    check_between(source, "gel float", 6.0 * float[0], 6.0 * float[1], gel.float.get());
    check(source, "gel absorption", 6.0 * sheet.number("cycling_vpc"), gel.absorption.get(), 1e-9);
    check_at_most(source, "gel highest", 6.0 * sheet.number("max_vpc"), gel.max.get());
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
