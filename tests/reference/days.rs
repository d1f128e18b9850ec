//! Days of use, minute by minute, against scipy's integration of the same battery and loads.

use crate::catalogue::shipped;
use crate::check::{Source, check, check_at_least, independent};
use crate::program::{Notes, Span, design, endurance};
use crate::stored::{lines, numbers, tables};
use loomwright::catalogue::{Catalogue, Curve};
use loomwright::plan::{ChargerKind, Load, LoadKind, Plan, Windows, examples, point, read};
use loomwright::quantity::*;

crate::tests![two_days_and_a_half, fortnights_of_the_examples, fortnights_by_electrochemical_models];

const CHARGE: Source = independent("scipy 1.17.1 solve_ivp DOP853, two days and a half of use: charge");
const VOLTS: Source = independent("scipy 1.17.1 solve_ivp DOP853, two days and a half of use: volts at the posts");

const FORTNIGHT: Source = independent("scipy 1.17.1 solve_ivp RK45, a fortnight of each example: charge");
const FORTNIGHT_HOURS: Source = independent("scipy 1.17.1 solve_ivp RK45, a fortnight of each example: hours cut off");
const FORTNIGHT_FLOW: Source = independent("scipy 1.17.1 solve_ivp RK45, a fortnight of each example: charge in and out");

const ELECTROCHEMICAL: Source = independent("PyBaMM 26.10.1.1, SPM and LOQS, a fortnight of each example: charge");
const ELECTROCHEMICAL_FLOW: Source = independent("PyBaMM 26.10.1.1, SPM and LOQS, a fortnight of each example: Ah used");

fn load(kind: LoadKind, watts: f64, windows: &str) -> Load {
    let mut load = Load { at: point::SERVICE_BATTERY.into(), power: Some(Watts::new(watts)), kind, ..Load::default() };
    load.duty.windows = Windows::parse(windows).unwrap();
    load
}

/// The battery of `scripts/days_of_use.py`: constants of its own, so that no profile moves the comparison.
fn two_days_and_a_half() {
    let mut catalogue = shipped();
    let mut battery = catalogue.chemistry("agm").unwrap().clone();
    let volts = |v: f64| Volts::new(v);
    battery.resting.curve = Curve::new(vec![(Share::ZERO, volts(11.6)), (Share::FULL, volts(12.8))]);
    battery.resistance.by_soc = Curve::new(vec![(Share::ZERO, Share::FULL)]);
    battery.resistance.by_temperature = Curve::new(vec![(Celsius::new(25.0), Share::FULL)]);
    (battery.rate.kinetic_c, battery.rate.kinetic_k_per_h, battery.rate.rated) = (0.62, 0.35, Hours::new(20.0));
    battery.life.self_discharge = Share::ZERO;
    catalogue.chemistries = vec![battery];
    let mut plan = Plan::default();
    (plan.surroundings.mean, plan.surroundings.coldest) = (Celsius::new(25.0), Celsius::new(25.0));
    (plan.surroundings.daily_swing, plan.surroundings.yearly_swing) = (Kelvins::ZERO, Kelvins::ZERO);
    plan.service_battery.capacity = Some(AmpHours::new(100.0));
    plan.service_battery.resistance_mohm = Some(Milliohms::new(6.0));
    plan.charger.kind = ChargerKind::None;
    (plan.cut_off.cut, plan.cut_off.standing_draw) = (Some(volts(9.6)), Amps::ZERO);
    plan.loads = vec![
        load(LoadKind::ConstantPower, 6.0, ""),
        load(LoadKind::ConstantCurrent, 9.6, "08:00-20:00"),
        load(LoadKind::Resistance, 12.0, "06:00-08:00, 18:00-22:00"),
    ];
    let span = Span { days: 3, from: Share::new(0.95), ..Span::default() };
    let days = endurance(&design(&plan, &catalogue), span, &mut Notes::unkept()).unwrap();
    for row in &tables(include_str!("data/days_of_use.csv"))[0] {
        let [hour, charge, volts] = row[..] else { panic!("{row:?}") };
        // The point of the minute that ends 58 minutes past the hour.
        let point = days.points.iter().find(|p| (p.at.get() - hour - 57.0 / 60.0).abs() < 1e-6).unwrap();
        check(CHARGE, &format!("charge in hour {hour}"), charge, point.charge.get(), 0.0005);
        check(VOLTS, &format!("volts in hour {hour}"), volts, point.volts.get(), 0.002);
    }
}

/// An example with the parts that a script was given, and what its fortnight was there.
fn example_of(row: &[&str], catalogue: &Catalogue) -> (Plan, Vec<f64>) {
    let found = numbers(&row[1..]).unwrap();
    let example = examples().iter().find(|e| e.name == row[0]).unwrap();
    let mut plan = read(example.text, catalogue).plan;
    plan.service_battery.capacity = Some(AmpHours::new(found[0]));
    plan.charger.current = Some(Amps::new(found[1]));
    (plan.cut_off.cut, plan.cut_off.reconnect) = (Some(Volts::new(found[2])), Some(Volts::new(found[3])));
    plan.cut_off.delay = Some(Seconds::new(found[4]));
    (plan, found[5..].to_vec())
}

/// The same loads, sources and cut-off with the cells of two electrochemical models (`scripts/fortnights_pybamm.py`):
/// charge within 3 points, what is used within 2 %. There nothing is lost in charging. Where the cut-off opens depends on
/// the resting curve of the very cell, and the flooded trailer is held against a valve-regulated one: of that only that
/// it is cut off there too, and no longer than here.
fn fortnights_by_electrochemical_models() {
    let catalogue = shipped();
    for row in lines(include_str!("data/fortnights_pybamm.csv"), ';') {
        let (plan, found) = example_of(&row, &catalogue);
        let [_, lowest, hours, used, end] = found[..] else { panic!("{row:?}") };
        let days = endurance(&design(&plan, &catalogue), Span::default(), &mut Notes::unkept()).unwrap();
        let last = days.by_day.last().unwrap().end.get();
        assert_eq!(hours > 0.0, days.cut_hours.get() > 0.0, "{}: cut off for {hours} h there", row[0]);
        if hours > 0.0 {
            check_at_least(ELECTROCHEMICAL_FLOW, &format!("{}, cut off", row[0]), hours, days.cut_hours.get());
            continue;
        }
        check(ELECTROCHEMICAL, &format!("{}, lowest", row[0]), lowest, days.lowest.get(), 0.03);
        check(ELECTROCHEMICAL, &format!("{}, at the end", row[0]), end, last, 0.03);
        check(ELECTROCHEMICAL_FLOW, &format!("{}, used", row[0]), used, days.ledger.used.get(), 0.02 * used);
    }
}

/// The parts are those of `scripts/fortnights.py`; all that flows is integrated there by other means, with the turns of
/// the loads dealt out otherwise. Charge within 2 points, hours and charge in and out within 5 %.
fn fortnights_of_the_examples() {
    let catalogue = shipped();
    for row in lines(include_str!("data/fortnights.csv"), ';') {
        let name = row[0];
        let (plan, found) = example_of(&row, &catalogue);
        let [between, lowest, hours, used, put, end] = found[..] else { panic!("{row:?}") };
        let design = design(&plan, &catalogue);
        let path = design.cut_off.between.get();
        assert!((path - between).abs() < 0.001, "{name}: {path} ohm to where it senses: run the script again");
        let days = endurance(&design, Span::default(), &mut Notes::unkept()).unwrap();
        check(FORTNIGHT, &format!("{name}, lowest"), lowest, days.lowest.get(), 0.02);
        let last = days.by_day.last().unwrap().end.get();
        check(FORTNIGHT, &format!("{name}, at the end"), end, last, 0.02);
        check(FORTNIGHT_HOURS, &format!("{name}, cut off"), hours, days.cut_hours.get(), 0.05 * hours + 1e-9);
        check(FORTNIGHT_FLOW, &format!("{name}, used"), used, days.ledger.used.get(), 0.05 * used);
        check(FORTNIGHT_FLOW, &format!("{name}, charged"), put, days.ledger.charged.get(), 0.05 * put);
    }
}
