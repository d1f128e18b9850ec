//! Ampacity and its factors against 33 CFR 183.425 and the ambient factors of IEC.

use crate::catalogue::shipped;
use crate::check::{Data, check, independent, typed_twice};
use loomwright::catalogue::{AmpacityTable, COPPER_OHM_MM2_PER_KM, Family};
use loomwright::quantity::{Celsius, OhmsPerKm, SquareMillimetres, awg_area, awg_number};

crate::tests![
    the_whole_table_of_33_cfr_183_425_is_there,
    derated_amps_of_the_105_degree_column_are_met,
    bundle_factors_change_at_the_printed_numbers_and_say_what_they_are,
    ambient_factors_reproduce_the_published_ones,
    hotter_air_never_gives_more,
    metric_sizes_lie_between_the_gauges,
    a_gauge_without_its_copper_does_not_get_its_row,
];

fn data() -> Data {
    Data::new(include_str!("data/ampacity.toml"))
}

/// Every printed cell, read by gauge label and by the gauge's area.
fn the_whole_table_of_33_cfr_183_425_is_there() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("table5");
    let columns = table.numbers("columns_c");
    let rows = table.tables("row");
    assert_eq!(catalogue.ampacity.row.len(), rows.len());
    for row in rows {
        let awg = row.text("awg");
        let conductor = catalogue.conductor(&format!("{awg} AWG")).unwrap();
        let area = awg_area(awg_number(awg).unwrap());
        for (column, amps) in columns.iter().zip(row.numbers("amps")) {
            let what = format!("{awg} AWG at {column} °C");
            let got = catalogue.ampacity.base_of(conductor, Celsius::new(*column)).unwrap();
            check(typed_twice(table.source()), &what, amps, got.value.get(), 0.0);
            assert_eq!(got.source, "33 CFR 183.425 Table 5");
            let got = catalogue.ampacity.base(area, Celsius::new(*column)).unwrap();
            check(typed_twice(table.source()), &format!("{what}, by area"), amps, got.get(), 1e-9);
        }
    }
}

/// The amps printed for bundles, outside and inside engine spaces: base, bundle and ambient factor together.
fn derated_amps_of_the_105_degree_column_are_met() {
    let (data, catalogue) = (data(), shipped());
    let section = data.table("derated_105");
    let (table, max) = (&catalogue.ampacity, Celsius::new(105.0));
    for bundle in section.tables("bundle") {
        let n = bundle.number("n") as u32;
        for (awg, (outside, inside)) in section.texts("awg").iter().zip(bundle.pairs("outside", "inside")) {
            let conductor = catalogue.conductor(&format!("{awg} AWG")).unwrap();
            let amps = table.base_of(conductor, max).unwrap().value.get() * table.bundle_factor(n).value;
            let source = if n < 3 { typed_twice(section.source()) } else { independent(section.source()) };
            check(source, &format!("{awg} AWG, {n} in bundle, outside"), outside, amps, 0.06);
            let hot = amps * table.ambient_factor(max, Celsius::new(50.0)).value;
            check(independent(section.source()), &format!("{awg} AWG, {n} in bundle, inside"), inside, hot, 0.06);
        }
    }
}

fn bundle_factors_change_at_the_printed_numbers_and_say_what_they_are() {
    let table = shipped().ampacity.clone();
    let source = typed_twice("33 CFR 183.425 Table 5 note 2");
    for (n, factor) in
        [(0, 1.0), (1, 1.0), (2, 1.0), (3, 0.7), (4, 0.6), (6, 0.6), (7, 0.5), (24, 0.5), (25, 0.4), (99, 0.4)]
    {
        check(source, &format!("{n} conductors"), factor, table.bundle_factor(n).value, 0.0);
    }
    assert!(table.bundle_factor(3).source.contains("good practice"), "below 50 V the factors are not law");
}

/// The same function on a table for 45 °C reproduces the printed ship factors; cooler air gives no credit.
fn ambient_factors_reproduce_the_published_ones() {
    let (data, shipped) = (data(), shipped().ampacity.clone());
    let section = data.table("ambient_45");
    let mut table = AmpacityTable { ambient: Celsius::new(45.0), ..shipped.clone() };
    table.engine_space.ambient = Celsius::new(150.0);
    for (key, max) in [("tc60", 60.0), ("tc70", 70.0), ("tc85", 85.0), ("tc90", 90.0)] {
        for (air, printed) in section.numbers("ambient_c").into_iter().zip(section.numbers(key)) {
            let got = table.ambient_factor(Celsius::new(max), Celsius::new(air)).value;
            check(independent(section.source()), &format!("{max} °C insulation in {air} °C"), printed.min(1.0), got, 0.011);
        }
    }
    let section = data.table("ambient_30");
    let (max, air) = (Celsius::new(section.number("insulation_c")), Celsius::new(section.number("air_c")));
    check(
        independent(section.source()),
        "90 °C insulation in 40 °C",
        section.number("factor"),
        shipped.ambient_factor(max, air).value,
        0.01,
    );
}

/// No air makes it negative or NaN, hotter air never gives more, and as hot as the insulation gives nothing.
fn hotter_air_never_gives_more() {
    let table = shipped().ampacity.clone();
    for max in [60.0, 70.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0] {
        let mut before = 1.0;
        for air in -40..=210 {
            let factor = table.ambient_factor(Celsius::new(max), Celsius::new(f64::from(air))).value;
            assert!((0.0..=before).contains(&factor), "{max} °C insulation in {air} °C: {factor} after {before}");
            assert!(f64::from(air) < max || factor == 0.0);
            before = factor;
        }
    }
}

/// Metric sizes lie between the gauges on either side of their copper, never above the next larger one.
fn metric_sizes_lie_between_the_gauges() {
    let (data, catalogue) = (data(), shipped());
    let section = data.table("table5");
    let columns = section.numbers("columns_c");
    let rows: Vec<(f64, Vec<f64>)> = section
        .tables("row")
        .iter()
        .map(|r| (awg_area(awg_number(r.text("awg")).unwrap()).get(), r.numbers("amps")))
        .collect();
    for conductor in catalogue.sizes(Family::Metric) {
        let copper = conductor.copper().get();
        for (i, column) in columns.iter().enumerate() {
            let got = catalogue.ampacity.base_of(conductor, Celsius::new(*column)).unwrap().value.get();
            let above = rows.iter().find(|(area, _)| *area >= copper).unwrap();
            let below = rows.iter().rev().find(|(area, _)| *area <= copper);
            let low = below.map_or(above.1[i] * copper / above.0, |(_, amps)| amps[i]);
            let label = &conductor.label;
            assert!(got <= above.1[i] && got >= low - 1e-9, "{label}, {column} °C: {got} not in {low}..{}", above.1[i]);
        }
    }
    let column = Celsius::new(105.0);
    let base = |mm2: f64| catalogue.ampacity.base(SquareMillimetres::new(mm2), column);
    assert_eq!(base(120.0), None, "nothing above 4/0");
    assert_eq!(base(0.0), None);
    assert_eq!(base(f64::NAN), None);
    assert_eq!(catalogue.ampacity.base(SquareMillimetres::new(5.0), Celsius::new(50.0)), None, "no column so cool");
}

/// SAE sizes keep their gauge's printed row; a label with still less copper falls back to what its copper carries.
fn a_gauge_without_its_copper_does_not_get_its_row() {
    let (data, catalogue) = (data(), shipped());
    let conductors = Data::new(include_str!("data/conductors.toml"));
    let (table, sae) = (data.table("table5"), conductors.table("sae"));
    let at = table.numbers("columns_c").iter().position(|c| *c == 105.0).unwrap();
    let rows = table.tables("row");
    for (size, cmil) in sae.texts("size").iter().zip(sae.numbers("cmil")) {
        let row = rows.iter().find(|r| r.text("awg") == *size).unwrap().numbers("amps")[at];
        let mut conductor = catalogue.conductor(&format!("{size} AWG")).unwrap().clone();
        conductor.resistance = OhmsPerKm::new(COPPER_OHM_MM2_PER_KM / (cmil * 5.067075e-4));
        let got = catalogue.ampacity.base_of(&conductor, Celsius::new(105.0)).unwrap().value;
        check(typed_twice(table.source()), &format!("SAE {size}"), row, got.get(), 0.0);
        conductor.resistance = conductor.resistance * 1.2;
        let thin = catalogue.ampacity.base_of(&conductor, Celsius::new(105.0)).unwrap();
        assert!(thin.value.get() < row && thin.source.contains("copper"), "{size}: {thin:?}");
    }
}
