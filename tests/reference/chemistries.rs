//! Battery chemistries against published tables and public models.

use crate::catalogue::shipped;
use crate::check::{Data, Section, check, check_between};
use loomwright::catalogue::{Chemical, Chemistry};
use loomwright::quantity::{Celsius, Share};

fn data() -> Data {
    Data::new(include_str!("data/chemistries.toml"))
}

fn rest(chemistry: &Chemistry, percent: f64) -> f64 {
    chemistry.resting.curve.at(Share::percent(percent)).unwrap().get()
}

#[track_caller]
fn check_rest(chemistry: &Chemistry, table: Section<'_>, from: f64, to: f64, tolerance: f64) {
    for (percent, volts) in table.pairs("soc_pct", "v").into_iter().filter(|(p, _)| (from..=to).contains(p)) {
        let what = format!("{} resting at {percent} %", chemistry.key);
        check(table.source(), &what, volts, rest(chemistry, percent), tolerance);
    }
}

#[test]
fn resting_voltages_lie_near_the_published_ones() {
    let (data, catalogue) = (data(), shipped());
    let of = |key: &str| catalogue.chemistry(key).unwrap();
    check_rest(of("flooded"), data.table("flooded_rest"), 0.0, 100.0, 0.0);
    let sheet = data.table("flooded_rest_sheet");
    check_rest(of("flooded"), sheet, 50.0, 100.0, 0.15);
    for (percent, volts) in sheet.pairs("soc_pct", "v").into_iter().filter(|(p, _)| *p <= 50.0) {
        // Where two sources disagree near a cut-off the higher voltage disconnects sooner.
        assert!(rest(of("flooded"), percent) >= volts, "flooded at {percent} %: {}", sheet.source());
    }
    check_rest(of("agm"), data.table("agm_rest"), 30.0, 100.0, 0.15);
    check_rest(of("lithium-iron-phosphate"), data.table("lfp_rest"), 20.0, 90.0, 0.25);
    check_rest(of("lithium-iron-phosphate"), data.table("lfp_rest_generic"), 20.0, 90.0, 0.25);
    check_rest(of("lithium-nmc"), data.table("nmc_rest"), 0.0, 100.0, 0.005);
    let full = data.table("agm_full");
    check_between(full.source(), "agm full", full.number("v_min"), full.number("v_max"), rest(of("agm"), 100.0));
}

/// Kinetic battery model: charge delivered in `hours` of constant current, as a share of the whole.
/// Manwell and McGowan, Solar Energy 50 (1993) 399, equation for the capacity (from memory; the
/// published deliveries are the check).
fn kinetic(c: f64, k: f64, hours: f64) -> f64 {
    let e = (-k * hours).exp();
    k * c * hours / (1.0 - e + c * (k * hours - 1.0 + e))
}

fn errors(c: f64, k: f64, rows: &[(f64, f64)], reference: (f64, f64)) -> f64 {
    let ah = |h: f64| reference.1 * kinetic(c, k, h) / kinetic(c, k, reference.0);
    rows.iter().map(|(h, q)| (ah(*h) / q - 1.0).powi(2)).sum()
}

/// The shipped pair is the least-squares one of a fine search, and meets each published delivery.
#[test]
fn kinetic_constants_are_fitted_to_the_published_deliveries() {
    let (data, catalogue) = (data(), shipped());
    let cases = [
        ("flooded", "flooded_delivered", 2, 0.015),
        ("agm", "agm_delivered", 0, 0.005),
        ("lithium-iron-phosphate", "lfp_delivered", 0, 0.005),
    ];
    for (key, section, reference, tolerance) in cases {
        let table = data.table(section);
        let rows = table.pairs("hours", "ah");
        let reference = rows[reference];
        let rate = &catalogue.chemistry(key).unwrap().rate;
        let (c, k) = (rate.kinetic_c, rate.kinetic_k_per_h);
        for (hours, ah) in &rows {
            let got = reference.1 * kinetic(c, k, *hours) / kinetic(c, k, reference.0);
            check(table.source(), &format!("{key}: Ah in {hours} h"), *ah, got, tolerance * ah);
        }
        let mut best = f64::INFINITY;
        for step_c in 1..100 {
            for step_k in 0..400 {
                let (c, k) = (f64::from(step_c) / 100.0, 0.01 * 1.0175f64.powi(step_k));
                best = best.min(errors(c, k, &rows, reference));
            }
        }
        let ours = errors(c, k, &rows, reference);
        check(table.source(), &format!("{key}: root of the squared errors"), best.sqrt(), ours.sqrt(), 0.001);
    }
}

/// Peukert's exponent from the two rates nearest the rated one, and within the ranges quoted.
#[test]
fn peukert_exponents_lie_in_the_published_ranges() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("peukert");
    for key in ["flooded", "agm", "gel"] {
        let range = table.numbers(key);
        let got = catalogue.chemistry(key).unwrap().rate.peukert;
        check_between(table.source(), &format!("{key} exponent"), range[0], range[1], got);
    }
    let sheet = data.table("flooded_delivered");
    let (hours, ah) = (sheet.numbers("hours"), sheet.numbers("ah"));
    let (slow, fast) = (ah[2] / hours[2], ah[0] / hours[0]);
    let exponent = (hours[2] / hours[0]).ln() / (fast / slow).ln();
    check(
        sheet.source(),
        "flooded exponent, 5 to 20 h",
        exponent,
        catalogue.chemistry("flooded").unwrap().rate.peukert,
        0.002,
    );
}

#[test]
fn cold_leaves_lead_acid_what_ieee_485_says() {
    let (data, catalogue) = (data(), shipped());
    let (table, army) = (data.table("ieee485"), data.table("army_cold"));
    for chemistry in catalogue.chemistries.iter().filter(|c| c.chemical == Chemical::LeadAcid) {
        let at = |c: f64| chemistry.cold.capacity.at(Celsius::new(c)).unwrap().get();
        for (f, k) in table.pairs("temp_f", "k") {
            let c = (f - 32.0) / 1.8;
            // No gain is taken above 25 °C: the safer side.
            check(table.source(), &format!("{} share at {f} °F", chemistry.key), (1.0 / k).min(1.0), at(c), 0.006);
        }
        for (c, share) in army.pairs("temp_c", "share") {
            check(army.source(), &format!("{} share at {c} °C", chemistry.key), share, at(c), 0.005);
        }
    }
}

/// Of two published lists the program has the one that freezes sooner.
#[test]
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
            check(table.source(), &format!("{} freezes at {percent} %", chemistry.key), c, at(percent), 0.05);
        }
        for (percent, f) in other.pairs("soc_pct", "f") {
            assert!(at(percent) >= (f - 32.0) / 1.8, "{} at {percent} %: {}", chemistry.key, other.source());
        }
    }
}

#[test]
fn lives_are_below_the_upper_bounds_of_the_models() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("cycles_upper");
    for (key, dod, cycles) in
        [("lithium-iron-phosphate", "lfp_dod", "lfp_cycles"), ("lithium-nmc", "nmc_dod", "nmc_cycles")]
    {
        for (depth, most) in table.pairs(dod, cycles) {
            let got = catalogue.chemistry(key).unwrap().life.cycles.at(Share::new(depth)).unwrap().get();
            assert!(got <= most, "{key} at depth {depth}: {got} above {most}; {}", table.source());
        }
    }
}

#[test]
fn voltages_of_charge_and_harm_are_the_published_ones() {
    let (data, catalogue) = (data(), shipped());
    let of = |key: &str| catalogue.chemistry(key).unwrap();
    let floor = data.table("lead_floor");
    for key in ["flooded", "agm", "gel"] {
        let chemistry = of(key);
        check(floor.source(), &format!("{key} harm"), floor.number("v"), chemistry.low.damage.get(), 0.0);
        check(
            floor.source(),
            key,
            floor.number("v_per_cell") * f64::from(chemistry.cells),
            chemistry.low.damage.get(),
            1e-9,
        );
        check(data.table("float").source(), key, data.table("float").number("v_per_k"), chemistry.charge.v_per_k, 1e-9);
    }
    check(
        data.table("float").source(),
        "agm float",
        data.table("float").number("agm_v"),
        of("agm").charge.float.get(),
        0.0,
    );
    let (sheet, gel) = (data.table("gel_charge"), &of("gel").charge);
    let float = sheet.numbers("float_vpc");
    check_between(sheet.source(), "gel float", 6.0 * float[0], 6.0 * float[1], gel.float.get());
    check(sheet.source(), "gel absorption", 6.0 * sheet.number("cycling_vpc"), gel.absorption.get(), 1e-9);
    check(sheet.source(), "gel highest", 6.0 * sheet.number("max_vpc"), gel.max.get(), 1e-9);
}

/// The resistance for fault currents is the low end: no published block of its kind is lower.
#[test]
fn the_flooded_fault_resistance_is_the_low_end() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("lead_small_cell");
    let scaled = 6.0 * table.number("ohm_per_1ah_cell") / 100.0 * 1000.0;
    let resistance = &catalogue.chemistry("flooded").unwrap().resistance;
    check(table.source(), "flooded 100 Ah block, mΩ", scaled, resistance.fault_mohm, 0.03);
    for chemistry in &catalogue.chemistries {
        let r = &chemistry.resistance;
        assert!(r.fault_mohm <= r.working_mohm / 1.5, "{}: fault and working resistance too close", chemistry.key);
    }
}

/// Lithium must not be charged below freezing, and says so.
#[test]
fn lithium_is_not_charged_below_freezing() {
    for chemistry in shipped().chemistries.iter().filter(|c| c.chemical == Chemical::Lithium) {
        assert!(chemistry.limits.charge_min.get() >= 0.0, "{}", chemistry.key);
        assert!(chemistry.cautions.iter().any(|c| c.contains("Never charge below 0 °C")), "{}", chemistry.key);
    }
}
