//! Days of use, minute by minute, against scipy's integration of the same battery and loads.

use crate::catalogue::shipped;
use crate::check::{Source, check, independent};
use crate::program::{Notes, Span, design, endurance};
use crate::stored::tables;
use loomwright::catalogue::Curve;
use loomwright::plan::{ChargerKind, Load, LoadKind, Plan, Windows, point};
use loomwright::quantity::*;

crate::tests![two_days_and_a_half];

const CHARGE: Source = independent("scipy 1.17.1 solve_ivp DOP853, two days and a half of use: charge");
const VOLTS: Source = independent("scipy 1.17.1 solve_ivp DOP853, two days and a half of use: volts at the posts");

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
