//! Conductor sizes, insulation constants and trade labels against published tables.

use crate::catalogue::shipped;
use crate::check::{Data, check, check_between, check_share, independent, typed_twice};
use crate::program::{cable_stands, warm_factor};
use loomwright::catalogue::{COPPER_OHM_MM2_PER_KM, Family};
use loomwright::quantity::{Celsius, SquareMillimetres, Unit, awg_area, awg_number, parse};
use std::f64::consts::FRAC_PI_4;

crate::tests![
    gauge_sizes_follow_the_wire_table,
    gauges_have_the_printed_circular_mils,
    metric_sizes_are_those_of_iec_60228,
    tinned_sizes_are_those_of_iec_60228,
    temperature_factors_of_iec_60228_follow_the_copper_law,
    trade_labels_give_the_copper_of_their_strands,
    adiabatic_constants_follow_iec_60364_5_54,
];

fn data() -> Data {
    Data::new(include_str!("data/conductors.toml"))
}

/// Areas of the formula agree to the printed digits; the shipped stranded resistance is
/// the solid one and 2 % for the lay of the strands.
fn gauge_sizes_follow_the_wire_table() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("awg_solid");
    let sizes = table.texts("size");
    assert_eq!(catalogue.sizes(Family::Awg).count(), sizes.len());
    for (size, (area, ohm)) in sizes.iter().zip(table.pairs("area_mm2", "ohm_per_km")) {
        let formula = awg_area(awg_number(size).unwrap()).get();
        check(typed_twice(table.source()), &format!("{size} AWG area, mm²"), area, formula, area * 1e-4);
        let shipped = catalogue.conductor(&format!("{size} AWG")).unwrap();
        check(typed_twice(table.source()), &format!("{size} AWG shipped area"), area, shipped.area.get(), area * 1e-3);
        let source = typed_twice(table.source());
        check(source, &format!("{size} AWG stranded, Ω/km"), ohm * 1.02, shipped.resistance.get(), ohm * 1e-3);
        assert!(shipped.copper().get() < formula, "{size}: stranded must not hold more copper than solid");
    }
    let printed = data.table("printed_ohm_per_1000ft");
    for (size, ohm) in printed.texts("size").iter().zip(printed.numbers("ohm")) {
        let formula = COPPER_OHM_MM2_PER_KM / awg_area(awg_number(size).unwrap()).get() * 0.3048;
        check(independent(printed.source()), &format!("{size} AWG solid, Ω/1000 ft"), ohm, formula, 0.006);
    }
}

/// Circular mils as two tables print them, read as a person types the gauge.
fn gauges_have_the_printed_circular_mils() {
    let data = data();
    for name in ["printed_cmil", "printed_cmil_e11"] {
        let table = data.table(name);
        for (awg, cmil) in table.texts("size").iter().zip(table.numbers("cmil")) {
            let got = parse(&format!("{awg} AWG"), Unit::SquareMillimetre).unwrap();
            let expected = parse(&format!("{cmil} cmil"), Unit::SquareMillimetre).unwrap();
            check_share(independent(table.source()), &format!("{awg} AWG"), expected, got, table.number("tolerance"));
        }
    }
}

fn metric_sizes_are_those_of_iec_60228() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("iec60228_class5");
    for conductor in catalogue.sizes(Family::Metric) {
        let rows = table.pairs("mm2", "ohm_per_km");
        let (_, ohm) = rows.iter().find(|(mm2, _)| *mm2 == conductor.area.get()).unwrap();
        check(typed_twice(table.source()), &conductor.label, *ohm, conductor.resistance.get(), 0.0);
        assert_eq!(conductor.label, format!("{} mm²", conductor.area.get()));
    }
}

/// Every plain size has a tinned one, with the standard's own resistance for metal-coated wires.
fn tinned_sizes_are_those_of_iec_60228() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("iec60228_class5_coated");
    assert_eq!(catalogue.sizes(Family::Tinned).count(), catalogue.sizes(Family::Metric).count());
    for conductor in catalogue.sizes(Family::Tinned) {
        let rows = table.pairs("mm2", "ohm_per_km");
        let (_, ohm) = rows.iter().find(|(mm2, _)| *mm2 == conductor.area.get()).unwrap();
        check(typed_twice(table.source()), &conductor.label, *ohm, conductor.resistance.get(), 0.0);
        assert_eq!(conductor.label, format!("{} mm² tinned", conductor.area.get()));
    }
}

/// IEC rounds the law to 250/(230 + t); the copper law 254.5/(234.5 + t) of
/// NBS Handbook 100 and FAA AC 43.13-1B par. 11-66 d(4) stays within 0.5 % of it.
fn temperature_factors_of_iec_60228_follow_the_copper_law() {
    let data = data();
    let table = data.table("iec60228_kt");
    for (t, k) in table.pairs("t_c", "k_t") {
        check(independent(table.source()), &format!("k_t at {t} °C"), k, 1.0 / warm_factor(Celsius::new(t)), 0.005 * k);
    }
}

/// A label must never promise more copper than its strands hold.
fn trade_labels_give_the_copper_of_their_strands() {
    let (data, catalogue) = (data(), shipped());
    let label = |name: &str| catalogue.trade_labels.iter().find(|l| l.label == name).unwrap().copper.get();
    let sae = data.table("sae");
    for (size, cmil) in sae.texts("size").iter().zip(sae.numbers("cmil")) {
        let Some(row) = catalogue.trade_labels.iter().find(|l| l.label == format!("{size} SAE")) else { continue };
        check(typed_twice(sae.source()), &row.label, cmil * 5.067075e-4, row.copper.get(), 0.002);
        assert!(row.copper.get() < awg_area(awg_number(size).unwrap()).get(), "SAE {size} holds less than AWG");
    }
    let overall = data.table("overall_diameter");
    let strands = overall.pairs("strands", "strand_mm");
    for (mm, (n, d)) in overall.texts("label_mm").iter().zip(strands) {
        let copper = n * FRAC_PI_4 * d * d;
        check(independent(overall.source()), &format!("{mm} mm auto"), copper, label(&format!("{mm} mm auto")), 0.015);
    }
    let jis = data.table("jis_av");
    let copper = jis.number("strands") * FRAC_PI_4 * jis.number("strand_mm").powi(2);
    check(independent(jis.source()), "AV 15", copper, label("AV 15"), 0.01);
}

/// k and the let-through energy it allows, for the insulations figure G53 prints; the others by the
/// same law between their own limits, which must never come out above the published neighbour.
fn adiabatic_constants_follow_iec_60364_5_54() {
    let data = Data::new(include_str!("data/ampacity.toml"));
    let catalogue = shipped();
    let table = data.table("adiabatic");
    for (key, k_name, figures) in [("pvc-70", "pvc_k", "pvc_1e6"), ("xlpe-90", "xlpe_k", "xlpe_1e6")] {
        let k = catalogue.insulation(key).unwrap().adiabatic_k;
        check(typed_twice(table.source()), key, table.number(k_name), k, 0.0);
        for (mm2, allowed) in table.pairs("mm2", figures) {
            let stands = cable_stands(k, SquareMillimetres::new(mm2)).get() / 1e6;
            check_share(independent(table.source()), &format!("{key} {mm2} mm², 10⁶ A²s"), allowed, stands, 0.002);
        }
    }
    for insulation in &catalogue.insulations {
        let last = if insulation.key.starts_with("pvc") { 160.0 } else { 250.0 };
        let first = insulation.max.get();
        let law = 226.0 * (1.0 + (last - first) / (234.5 + first)).ln().sqrt();
        check_between(independent("IEC 60949: k = 226 √ln(1 + (Tf - Ti) / (234.5 + Ti)), copper"), &insulation.key, law - 1.0, law + 0.01, insulation.adiabatic_k);
    }
}
