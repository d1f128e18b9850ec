//! Simulated discharges against PyBaMM's, and capacity against rate against a published sheet.
//!
//! A profile is fitted to the cell's own resting curve and to the resistance of
//! one discharge, then asked for the others. Largest errors found, over the
//! first 80 % of each discharge, per block of 12 V:
//!
//! | cell, rate | fitted to | volts | delivered |
//! |---|---|---|---|
//! | lead-acid C/20 | - | 0.08 V | fitted |
//! | lead-acid C/10 | - | 0.12 V | 0.4 % |
//! | lead-acid C/5 | voltage | 0.14 V | rate constant |
//! | lead-acid 1C | - | 0.21 V | fitted |
//! | lithium C/20 | - | 0.03 V | fitted |
//! | lithium C/5 | voltage | 0.02 V | 0.2 % |
//! | lithium 1C | - | 0.09 V | fitted |
//!
//! In the last fifth both curves fall steeply, and a small error of charge is a
//! large one of voltage; there only the delivered charge is compared.

use crate::catalogue::shipped;
use crate::check::check;
use loomwright::catalogue::{Chemistry, Curve};
use loomwright::engine::{BatteryModel, Kinetic, Store, TABLE_AIR};
use loomwright::quantity::*;

/// A copied table: named columns of numbers; lines that begin with `#` say where it comes from.
struct Csv {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Csv {
    fn new(text: &str) -> Csv {
        let mut lines =
            text.lines().filter(|l| !l.starts_with('#')).map(|l| l.split(',').map(str::to_string).collect());
        Csv { head: lines.next().unwrap(), rows: lines.collect() }
    }

    fn column(&self, name: &str) -> Vec<f64> {
        let at = self.head.iter().position(|h| h == name).unwrap_or_else(|| panic!("no column {name}"));
        self.rows.iter().map(|r| r[at].parse().unwrap()).collect()
    }
}

/// One cell with its discharges: label, current, delivered charge, and points of charge and voltage.
struct Cell {
    source: &'static str,
    resting: Vec<(f64, f64)>,
    discharges: Vec<Discharge>,
    /// Volts of the table are for one of so many cells of a block.
    cells: f64,
}

struct Discharge {
    label: &'static str,
    current: f64,
    delivered: f64,
    points: Vec<(f64, f64)>,
}

fn discharges(curves: &Csv, delivered: &Csv, unit: &str, column: &str, labels: &[&'static str]) -> Vec<Discharge> {
    let (currents, gives) = (delivered.column("current_A"), delivered.column(column));
    let of = |(i, label): (usize, &&'static str)| {
        let charge = curves.column(&format!("{label}_Ah"));
        let volts = curves.column(&format!("{label}_{unit}"));
        let points = charge.into_iter().zip(volts).collect();
        Discharge { label, current: currents[i], delivered: gives[i], points }
    };
    labels.iter().enumerate().map(of).collect()
}

fn lead_acid() -> Cell {
    let rest = Csv::new(include_str!("data/pybamm/leadacid_ocv_25C.csv"));
    let curves = Csv::new(include_str!("data/pybamm/leadacid_discharge_25C.csv"));
    let delivered = Csv::new(include_str!("data/pybamm/leadacid_delivered.csv"));
    let labels = ["C20", "C10", "C5", "1C"];
    Cell {
        source: "PyBaMM 26.10.1.1, Sulzer2019, lead-acid Full",
        resting: rest.column("soc_usable_pct").into_iter().zip(rest.column("ocv_6s_block_V")).collect(),
        discharges: discharges(&curves, &delivered, "block_V", "delivered_Ah_to_1.75Vpc", &labels),
        cells: 1.0,
    }
}

fn lithium() -> Cell {
    let rest = Csv::new(include_str!("data/pybamm/lfp_ocv_25C.csv"));
    let curves = Csv::new(include_str!("data/pybamm/lfp_discharge_25C.csv"));
    let delivered = Csv::new(include_str!("data/pybamm/lfp_delivered.csv"));
    Cell {
        source: "PyBaMM 26.10.1.1, Prada2013, DFN",
        resting: rest.column("soc_pct").into_iter().zip(rest.column("ocv_cell_V")).collect(),
        discharges: discharges(&curves, &delivered, "cell_V", "delivered_Ah_to_2.0V", &["C20", "C5", "1C"]),
        cells: 4.0,
    }
}

impl Cell {
    fn of(&self, label: &str) -> &Discharge {
        self.discharges.iter().find(|d| d.label == label).unwrap()
    }

    /// A profile with this cell's resting curve; `at_hand` is fitted so that
    /// the slowest and the fastest discharge deliver what they should.
    fn profile(&self, rate_per_h: f64) -> Chemistry {
        let mut profile = shipped().chemistry("agm").unwrap().clone();
        let points = self.resting.iter().map(|(p, v)| (Share::percent(*p), Volts::new(*v))).collect();
        profile.resting.curve = Curve::new(points);
        profile.resistance.by_soc = Curve::new(vec![(Share::ZERO, Share::FULL)]);
        let (slow, fast) = (&self.discharges[0], self.discharges.last().unwrap());
        profile.rate.rated = Hours::new(slow.delivered / slow.current);
        profile.rate.kinetic_k_per_h = rate_per_h;
        let (mut low, mut high) = (0.02, 0.999);
        for _ in 0..60 {
            profile.rate.kinetic_c = (low + high) / 2.0;
            let gives = self.delivers(&profile, fast.current);
            if gives < fast.delivered { low = profile.rate.kinetic_c } else { high = profile.rate.kinetic_c }
        }
        profile
    }

    fn delivers(&self, profile: &Chemistry, current: f64) -> f64 {
        let kinetic = Kinetic::of(profile);
        let whole = kinetic.whole(AmpHours::new(self.discharges[0].delivered), profile.rate.rated);
        kinetic.delivered_at(whole, Amps::new(current)).get()
    }

    /// The simulated discharge, as charge and volts.
    fn simulate(&self, profile: &Chemistry, current: f64) -> Vec<(f64, f64)> {
        let capacity = AmpHours::new(self.discharges[0].delivered);
        let store = Store::new(profile, capacity, Some(Milliohms::new(1000.0)));
        let model = BatteryModel::new(&store, Share::FULL);
        let every = Seconds::new(3600.0 * capacity.get() / current / 2000.0);
        let points = model.discharge(Amps::new(current), Volts::ZERO, TABLE_AIR, every);
        points.into_iter().map(|(q, v)| (q.get(), v.get())).collect()
    }

    /// Resistance by state of charge from one discharge: what the simulated one
    /// without resistance stands above it, over the current. Held below `from`,
    /// where the wells and not a resistance make the voltage fall.
    fn fit_resistance(&self, profile: &mut Chemistry, label: &str, from: f64) {
        let rated = self.discharges[0].delivered;
        let d = self.of(label);
        profile.resistance.by_soc = Curve::new(vec![(Share::ZERO, Share::ZERO)]);
        let bare = self.simulate(profile, d.current);
        let held = |charge: f64| 1.0 - charge / rated >= from;
        let points = d
            .points
            .iter()
            .filter(|(q, _)| held(*q))
            .map(|(q, v)| (Share::new(1.0 - q / rated), Share::new(((at(&bare, *q) - v) / d.current).max(0.0))));
        profile.resistance.by_soc = Curve::new(points.collect());
    }
}

fn at(points: &[(f64, f64)], x: f64) -> f64 {
    let next = points.partition_point(|p| p.0 <= x).clamp(1, points.len() - 1);
    let ((x0, y0), (x1, y1)) = (points[next - 1], points[next]);
    y0 + (y1 - y0) * (x - x0) / (x1 - x0)
}

/// Compare the first 80 % of a discharge, in volts of a block.
#[track_caller]
fn check_voltages(cell: &Cell, profile: &Chemistry, label: &str, tolerance: f64) {
    let d = cell.of(label);
    let ours = cell.simulate(profile, d.current);
    let worst = d.points.iter().filter(|(q, _)| *q > 0.01 * d.delivered && *q <= 0.8 * d.delivered);
    let worst = worst.map(|(q, v)| cell.cells * (at(&ours, *q) - v).abs()).fold(0.0, f64::max);
    println!("{}, {label}: largest error {worst:.3} V", cell.source);
    check(cell.source, &format!("largest error of voltage at {label}, V"), 0.0, worst, tolerance);
    let gives = ours.last().unwrap().0;
    check(cell.source, &format!("Ah until nothing is at hand at {label}"), d.delivered, gives, 0.04 * d.delivered);
}

#[test]
fn lead_acid_discharges() {
    let cell = lead_acid();
    // The rate constant is fitted to C/5; C/10 is fitted to nothing.
    let mut profile = cell.profile(0.892);
    for (label, tolerance) in [("C20", 0.001), ("C10", 0.005), ("C5", 0.002), ("1C", 0.001)] {
        let d = cell.of(label);
        let gives = cell.delivers(&profile, d.current);
        check(cell.source, &format!("Ah at {label}"), d.delivered, gives, tolerance * d.delivered);
    }
    cell.fit_resistance(&mut profile, "C5", 0.4);
    for (label, tolerance) in [("C20", 0.09), ("C10", 0.13), ("C5", 0.14), ("1C", 0.22)] {
        check_voltages(&cell, &profile, label, tolerance);
    }
}

#[test]
fn lithium_discharges() {
    let cell = lithium();
    // Wells that level out within the hour; C/5 is fitted to nothing.
    let mut profile = cell.profile(3.0);
    let d = cell.of("C5");
    check(cell.source, "Ah at C5", d.delivered, cell.delivers(&profile, d.current), 0.003 * d.delivered);
    cell.fit_resistance(&mut profile, "C5", 0.3);
    for (label, tolerance) in [("C20", 0.03), ("C5", 0.02), ("1C", 0.09)] {
        check_voltages(&cell, &profile, label, tolerance);
    }
}

/// The profiles as shipped deliver what the models and the sheet do, within 4 %.
#[test]
fn shipped_profiles_deliver_what_was_published() {
    let catalogue = shipped();
    let sheet = [(20.0, 225.0), (5.0, 185.0), (10.0, 207.0), (100.0, 250.0)];
    let rows = |cell: &Cell| cell.discharges.iter().map(|d| (d.delivered / d.current, d.delivered)).collect::<Vec<_>>();
    let (lead, lithium) = (lead_acid(), lithium());
    for (key, source, rows) in [
        ("flooded", "maker's data sheet, name withheld: 6 V 225 Ah flooded deep-cycle block", sheet.to_vec()),
        ("agm", lead.source, rows(&lead)),
        ("lithium-iron-phosphate", lithium.source, rows(&lithium)),
    ] {
        let kinetic = Kinetic::of(catalogue.chemistry(key).unwrap());
        let (hours, rated) = rows[0];
        let whole = kinetic.whole(AmpHours::new(rated), Hours::new(hours));
        for (hours, expected) in &rows {
            let got = kinetic.delivered_at(whole, Amps::new(expected / hours)).get();
            check(source, &format!("{key}: Ah in {hours:.1} h"), *expected, got, 0.04 * expected);
        }
    }
}
