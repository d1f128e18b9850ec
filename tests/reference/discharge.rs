//! Simulated discharges against PyBaMM's, and capacity against rate against a published sheet.
//!
//! A profile is fitted to the cell's own resting curve and to the resistance of
//! one discharge, then asked for the others. Largest errors found, over the
//! first 80 % of each discharge, per block of 12 V:
//!
//! | cell, rate | volts | delivered |
//! |---|---|---|
//! | lead-acid C/20 | 0.08 V | fitted |
//! | lead-acid C/10 | 0.12 V | 0.4 % |
//! | lead-acid C/5 | fitted | rate constant |
//! | lead-acid 1C | 0.21 V | fitted |
//! | lithium C/20 | 0.03 V | fitted |
//! | lithium C/5 | fitted | 0.2 % |
//! | lithium 1C | 0.09 V | fitted |
//!
//! In the last fifth both curves fall steeply, and a small error of charge is a
//! large one of voltage; there only the delivered charge is compared.

use crate::catalogue::shipped;
use crate::check::{Source, check, check_share, independent};
use crate::program::{BatteryModel, Kinetic, Store, TABLE_AIR, Tables};
use loomwright::catalogue::{Chemistry, Curve};
use loomwright::quantity::*;

crate::tests![
    lead_acid_discharges,
    lithium_discharges,
    shipped_profiles_deliver_at_rates_they_were_not_fitted_to,
    one_rate_left_out_is_found_by_the_others,
];

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
    source: Source<'static>,
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
        source: independent("PyBaMM 26.10.1.1, Sulzer2019 lead-acid Full, Ah delivered"),
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
        source: independent("PyBaMM 26.10.1.1, Prada2013 lithium DFN, Ah delivered"),
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
        in_pulses(kinetic, whole, current, 1.0, 0.0)
    }

    /// The simulated discharge, as charge and volts.
    fn simulate(&self, profile: &Chemistry, current: f64) -> Vec<(f64, f64)> {
        let capacity = AmpHours::new(self.discharges[0].delivered);
        let store = Store::new(profile, capacity, Some(Milliohms::new(1000.0)));
        let model = BatteryModel::new(&store, Share::FULL, Tables::of(profile));
        let every = Seconds::new(3600.0 * capacity.get() / current / 2000.0);
        let (warmth, step, current) = (model.warmth(TABLE_AIR), model.step(every), Amps::new(current));
        let (mut wells, mut points) = (model.rested(Share::FULL), Vec::new());
        loop {
            let source = model.source(wells, &warmth);
            let drawn = (current * every.as_hours()).get() * points.len() as f64;
            points.push((drawn, (source.open - current * source.inner).get()));
            if points.last().unwrap().1 < 0.0 || model.most_out(wells, &warmth, &step) < current {
                return points;
            }
            wells = step.after(wells, current);
        }
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

/// Compare the first 80 % of a discharge, in volts of a block, point by point.
#[track_caller]
fn check_voltages(cell: &Cell, profile: &Chemistry, label: &str, source: &str, tolerance: f64) {
    let d = cell.of(label);
    let ours = cell.simulate(profile, d.current);
    for (q, volts) in d.points.iter().filter(|(q, _)| *q > 0.01 * d.delivered && *q <= 0.8 * d.delivered) {
        let (expected, got) = (cell.cells * volts, cell.cells * at(&ours, *q));
        check(independent(source), &format!("{label}: V after {q} Ah"), expected, got, tolerance);
    }
    // The constants were fitted to what the ends deliver, so this is no evidence.
    let gives = ours.last().unwrap().0;
    assert!((gives / d.delivered - 1.0).abs() < 0.04, "{label}: {gives} Ah until nothing is at hand, {}", d.delivered);
}

fn lead_acid_discharges() {
    let cell = lead_acid();
    // The rate constant is fitted to C/5 and the share at hand to the ends; C/10 is fitted to nothing.
    let mut profile = cell.profile(0.892);
    let d = cell.of("C10");
    check_share(cell.source, "Ah at C10", d.delivered, cell.delivers(&profile, d.current), 0.005);
    cell.fit_resistance(&mut profile, "C5", 0.4);
    for (label, source, tolerance) in [
        ("C20", "PyBaMM 26.10.1.1, Sulzer2019 lead-acid Full, discharge at C/20", 0.09),
        ("C10", "PyBaMM 26.10.1.1, Sulzer2019 lead-acid Full, discharge at C/10", 0.13),
        ("1C", "PyBaMM 26.10.1.1, Sulzer2019 lead-acid Full, discharge at 1C", 0.22),
    ] {
        check_voltages(&cell, &profile, label, source, tolerance);
    }
}

fn lithium_discharges() {
    let cell = lithium();
    // Wells that level out within the hour; C/5 is fitted to nothing but the resistance.
    let mut profile = cell.profile(3.0);
    let d = cell.of("C5");
    check_share(cell.source, "Ah at C5", d.delivered, cell.delivers(&profile, d.current), 0.003);
    cell.fit_resistance(&mut profile, "C5", 0.3);
    for (label, source, tolerance) in [
        ("C20", "PyBaMM 26.10.1.1, Prada2013 lithium DFN, discharge at C/20", 0.03),
        ("1C", "PyBaMM 26.10.1.1, Prada2013 lithium DFN, discharge at 1C", 0.09),
    ] {
        check_voltages(&cell, &profile, label, source, tolerance);
    }
}

/// Charge that a load of so many amperes, on and off in turn, draws before a pulse can no longer be carried.
fn in_pulses(kinetic: Kinetic, whole: AmpHours, amps: f64, on: f64, off: f64) -> f64 {
    let minute = kinetic.step(Hours::new(1.0 / 60.0));
    let mut wells = kinetic.rested(whole);
    let mut drawn = 0.0;
    for n in 0u32.. {
        let loaded = f64::from(n) % (on + off) < on;
        let amps = Amps::new(if loaded { amps } else { 0.0 });
        if loaded && minute.current_to(wells, AmpHours::ZERO) < amps {
            break;
        }
        wells = minute.after(wells, amps);
        drawn += amps.get() / 60.0;
    }
    drawn
}

/// How far the wells may be off in pulses, by the current in C. They know no voltage, and a physical cell ends
/// a heavy pulse by it: they promise up to 7 % too much at 0.6 C and less, up to 14 % at 1.2 C.
fn in_pulse_share(rate_c: f64) -> f64 {
    if rate_c <= 0.6 { 0.07 } else { 0.15 }
}

/// How far they may be off in steady discharges. Those of NMC were fitted to an exponent alone, and promise up to 8 %
/// less than this cell gives.
fn in_steady_share(cell: &str) -> f64 {
    if cell == "nmc" { 0.08 } else { 0.05 }
}

/// The constants as shipped, at steady currents that they were not fitted to, and with loads that go on
/// and off, which the wells were invented for (stored by `scripts/discharge_batteries.py`).
fn shipped_profiles_deliver_at_rates_they_were_not_fitted_to() {
    let catalogue = shipped();
    let table = Csv::new(include_str!("data/pybamm/unfitted.csv"));
    let (amps, on) = (table.column("amps"), table.column("minutes_on"));
    let (off, delivered) = (table.column("minutes_off"), table.column("delivered_Ah"));
    let slow = [lead_acid(), lithium()].map(|cell| (cell.discharges[0].delivered, cell.discharges[0].current));
    // NMC: the rated discharge of C/5.
    for (key, name, (delivers, then)) in [
        ("agm", "lead-acid", slow[0]),
        ("lithium-iron-phosphate", "lithium", slow[1]),
        ("lithium-nmc", "nmc", (5.1167, 1.0)),
    ] {
        let kinetic = Kinetic::of(catalogue.chemistry(key).unwrap());
        let whole = kinetic.whole(AmpHours::new(delivers), Hours::new(delivers / then));
        for (row, _) in table.rows.iter().enumerate().filter(|(_, r)| r[0] == name) {
            let (source, share, got) = if on[row] == 0.0 {
                (STEADY, in_steady_share(name), in_pulses(kinetic, whole, amps[row], 1.0, 0.0))
            } else {
                (PULSES, in_pulse_share(amps[row] / delivers), in_pulses(kinetic, whole, amps[row], on[row], off[row]))
            };
            let what = format!("{key}: Ah at {} A, {} min on, {} min off", amps[row], on[row], off[row]);
            check_share(source, &what, delivered[row], got, share);
        }
    }
}

const STEADY: Source = independent(
    "PyBaMM 26.10.1.1, Sulzer2019, Prada2013 and Chen2020: Ah at steady currents that nothing was fitted to",
);
const PULSES: Source = independent("PyBaMM 26.10.1.1, Sulzer2019 and Prada2013: Ah with loads that go on and off");

/// The flooded constants come from one published sheet, so each of its rates is left out in turn: two wells
/// through two of the others, scaled at the third, must find it to 3 %; at the ends of the range, where it is
/// a guess beyond what was fitted, to 8 %.
fn one_rate_left_out_is_found_by_the_others() {
    let sheet = independent(
        "Trojan Battery Company, data sheet T-105, 6 V 225 Ah at 20 h (year not recorded), 25 °C: capacity by hours, each by the others",
    );
    let rows = [(5.0, 185.0), (10.0, 207.0), (20.0, 225.0), (100.0, 250.0)];
    for (left_out, (hours, ah)) in rows.into_iter().enumerate() {
        let kept: Vec<(f64, f64)> =
            rows.iter().copied().enumerate().filter(|(i, _)| *i != left_out).map(|r| r.1).collect();
        let predicts = |kinetic: Kinetic, h: f64| {
            kept[1].1 * (kinetic.delivered(Hours::new(h)) / kinetic.delivered(Hours::new(kept[1].0)))
        };
        let grid = (2..99).flat_map(|c| (0..200).map(move |k| (f64::from(c) / 100.0, 0.01 * 1.035f64.powi(k))));
        let kinetics = grid.map(|(c, rate_per_h)| Kinetic { at_hand: Share::new(c), rate_per_h });
        let off = |kinetic: Kinetic| kept.iter().map(|(h, q)| (predicts(kinetic, *h) / q - 1.0).powi(2)).sum::<f64>();
        let best = kinetics.min_by(|a, b| off(*a).total_cmp(&off(*b))).unwrap();
        let share = if left_out == 0 || left_out == 3 { 0.08 } else { 0.03 };
        check_share(sheet, &format!("Ah in {hours} h by the other three"), ah, predicts(best, hours), share);
    }
}
