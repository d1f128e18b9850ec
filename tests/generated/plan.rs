//! Random plans from a seed: the same seed gives the same plan on every machine.
//!
//! Only inputs come from here, never an expected result.

use loomwright::catalogue::Catalogue;
use loomwright::plan::*;
use loomwright::quantity::*;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// A plan with about so many runs; `wild` ones pin sizes and fuses, ask for the impossible and hang loads nowhere.
pub fn plan(seed: u64, runs: usize, wild: bool, catalogue: &Catalogue) -> Plan {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut plan = Plan::default();
    let chemistry = dice.random_range(0..catalogue.chemistries.len());
    plan.service_battery.chemistry = catalogue.chemistries[chemistry].key.clone();
    plan.charger.current = dice.random_bool(0.5).then(|| Amps::new(dice.random_range(5.0..60.0)));
    if dice.random_bool(0.3) {
        plan.inverter.rating = Watts::new(dice.random_range(100.0..if wild { 2000.0 } else { 400.0 }));
        plan.inverter.at = "point 0".into();
    }
    let run = |from: &str, to: &str| Run { from: from.into(), to: to.into(), ..Run::default() };
    plan.runs.push(run(point::STARTER_BATTERY, point::CHARGER));
    plan.runs.push(run(point::SERVICE_BATTERY, point::CHARGER));
    plan.runs.push(run(point::SERVICE_BATTERY, point::CUT_OFF));
    for index in 0..runs.saturating_sub(3) {
        let from = match dice.random_range(0..4) {
            _ if index == 0 => point::CUT_OFF.to_string(),
            0 => point::CUT_OFF.to_string(),
            _ => format!("point {}", dice.random_range(0..index)),
        };
        plan.runs.push(run(&from, &format!("point {index}")));
    }
    for run in &mut plan.runs {
        dress(run, &mut dice, wild, catalogue);
        if wild {
            pin(run, &mut dice, catalogue);
        }
    }
    for index in 0..runs.saturating_sub(3).max(1) {
        plan.loads.push(load(&mut dice, index, runs, wild));
    }
    plan
}

fn dress(run: &mut Run, dice: &mut ChaCha8Rng, wild: bool, catalogue: &Catalogue) {
    run.length = Metres::new(dice.random_range(0.2..if wild { 8.0 } else { 4.0 }));
    let insulation = if wild { 0 } else { 3 }..catalogue.insulations.len();
    run.insulation = catalogue.insulations[dice.random_range(insulation)].key.clone();
    run.surroundings = catalogue.places[dice.random_range(0..catalogue.places.len())].key.clone();
    run.bundled_with = dice.random_range(0..4);
    run.own_fuse = dice.random_bool(0.8);
    if dice.random_bool(0.1) {
        run.return_path = ReturnPath::Chassis;
    }
}

fn pin(run: &mut Run, dice: &mut ChaCha8Rng, catalogue: &Catalogue) {
    if dice.random_bool(0.15) {
        run.size = Some(catalogue.conductors[dice.random_range(0..catalogue.conductors.len())].label.clone());
    }
    if dice.random_bool(0.05) {
        run.size = Some(catalogue.trade_labels[dice.random_range(0..catalogue.trade_labels.len())].label.clone());
    }
    if dice.random_bool(0.03) {
        run.length = Metres::new(dice.random_range(50.0..1000.0));
    }
    if dice.random_bool(0.03) {
        run.fuse = Some(Amps::new(dice.random_range(1.0..500.0)));
    }
}

fn load(dice: &mut ChaCha8Rng, index: usize, runs: usize, wild: bool) -> Load {
    let share = 20.0 / (runs as f64).max(5.0);
    let drop = ["critical", "ordinary", "tolerant"][dice.random_range(0..3)];
    let mut load = Load {
        name: format!("load {index}"),
        at: format!("point {index}"),
        power: Some(Watts::new(dice.random_range(1.0..if wild { 120.0 } else { 30.0 }) * share)),
        drop: drop.into(),
        ..Load::default()
    };
    load.kind = [LoadKind::ConstantPower, LoadKind::ConstantCurrent, LoadKind::Resistance][dice.random_range(0..3)];
    load.count = dice.random_range(0..3);
    if dice.random_bool(0.3) {
        load.start = Start { times: dice.random_range(1.0..8.0), lasts: Seconds::new(dice.random_range(0.0..60.0)) };
    }
    if dice.random_bool(0.2) {
        load.lowest = Some(Volts::new(dice.random_range(9.0..13.5)));
    }
    if dice.random_bool(0.2) {
        load.not_with = Some(["a", "b"][dice.random_range(0..2)].into());
    }
    if wild && dice.random_bool(0.1) {
        load.on = Some(Seconds::new(dice.random_range(1.0..900.0)));
        load.off = Some(Seconds::new(dice.random_range(0.0..3600.0)));
    }
    if wild && dice.random_bool(0.02) {
        load.power = Some(Watts::new(20_000.0));
    }
    if wild && dice.random_bool(0.02) {
        load.at = "nowhere".into();
    }
    load
}
