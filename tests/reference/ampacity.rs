//! Ampacity and its factors against 33 CFR 183.425 and the ambient factors of IEC.

use crate::catalogue::shipped;
use crate::check::{Data, check, check_between, independent, typed_twice};
use crate::program::{Cable, Laid, TableFactors};
use loomwright::catalogue::{AmpacityTable, COPPER_OHM_MM2_PER_KM, Family};
use loomwright::quantity::{Celsius, OhmsPerKm, SquareMillimetres, awg_area, awg_number};

crate::tests![
    what_rules_keeps_to_each_cell_of_33_cfr_183_425,
    derated_amps_of_the_105_degree_column_are_met,
    bundle_factors_say_what_they_are,
    ambient_factors_reproduce_the_published_ones,
    hotter_air_never_gives_more,
    metric_sizes_lie_between_the_gauges,
    a_gauge_without_its_copper_does_not_get_its_row,
];

fn data() -> Data {
    Data::new(include_str!("data/ampacity.toml"))
}

/// What a cable may carry by the program, the smaller of table and heat balance, in every printed cell: never more
/// than the law prints, and where the heat balance is the smaller not much less.
fn what_rules_keeps_to_each_cell_of_33_cfr_183_425() {
    let (data, catalogue) = (data(), shipped());
    let table = data.table("table5");
    let columns = table.numbers("columns_c");
    for row in table.tables("row") {
        let label = format!("{} AWG", row.text("awg"));
        let cable = Cable::labelled(&catalogue, &label).unwrap();
        for (column, amps) in columns.iter().zip(row.numbers("amps")) {
            let mut insulation = catalogue.insulation("pvc-105").unwrap().clone();
            (insulation.max, insulation.column) = (Celsius::new(*column), Celsius::new(*column));
            let laid = Laid { insulation: &insulation, place: None, air: Celsius::new(30.0), conductors: 1 };
            let base = catalogue.ampacity.base_of(&cable.conductor, insulation.column).map(|b| b.value);
            let got = TableFactors::of(&catalogue.ampacity, &laid).ampacity(&cable, &laid, base).used();
            check_between(
                typed_twice(table.source()),
                &format!("{label} at {column} °C"),
                0.94 * amps,
                amps,
                got.get(),
            );
        }
    }
}

/// The amps printed for bundles, outside and inside engine spaces: base, bundle and ambient factor together.
fn derated_amps_of_the_105_degree_column_are_met() {
    let (data, catalogue) = (data(), shipped());
    let section = data.table("derated_105");
    let (table, max) = (&catalogue.ampacity, Celsius::new(105.0));
    for bundle in section.tables("bundle") {
        for n in [bundle.number("from"), bundle.number("to")] {
            for (awg, (outside, inside)) in section.texts("awg").iter().zip(bundle.pairs("outside", "inside")) {
                let conductor = catalogue.conductor(&format!("{awg} AWG")).unwrap();
                let amps = table.base_of(conductor, max).unwrap().value.get() * table.bundle_factor(n as u32).value;
                let hot = amps * table.ambient_factor(max, Celsius::new(50.0)).value;
                let what = format!("{awg} AWG, {n} in bundle");
                check(independent(section.source()), &format!("{what}, inside"), inside, hot, 0.06);
                if n > 2.0 {
                    check(independent(section.source()), &format!("{what}, outside"), outside, amps, 0.06);
                }
            }
        }
    }
}

/// The law says nothing of bundles below 50 V, and the source shown says so.
fn bundle_factors_say_what_they_are() {
    let table = shipped().ampacity.clone();
    assert!(table.bundle_factor(3).source.contains("good practice"), "below 50 V the factors are not law");
    let factors: Vec<f64> = (0..=99).map(|n| table.bundle_factor(n).value).collect();
    assert!(factors.windows(2).all(|pair| pair[1] <= pair[0]), "more cables never carry more: {factors:?}");
    assert!(factors[25] < factors[24], "25 and more carry less than 24");
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
            check(
                independent(section.source()),
                &format!("{max} °C insulation in {air} °C"),
                printed.min(1.0),
                got,
                0.011,
            );
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
        assert_eq!(got.get(), row, "SAE {size} keeps the row of its gauge");
        conductor.resistance = conductor.resistance * 1.2;
        let thin = catalogue.ampacity.base_of(&conductor, Celsius::new(105.0)).unwrap();
        assert!(thin.value.get() < row && thin.source.contains("copper"), "{size}: {thin:?}");
    }
}
