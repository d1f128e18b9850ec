//! Random networks from a seed: the same seed gives the same network on every machine.
//!
//! Only inputs come from here, never an expected result.

use loomwright::engine::physics::network::circuit::{Branch, Network, Point, Source};
use loomwright::engine::physics::network::load::Load;
use loomwright::engine::physics::network::solve::NoSolution;
use loomwright::engine::physics::network::warming::Warming;
use loomwright::quantity::*;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Resistance at 20 °C in Ω/km of plain stranded copper, 0.75 to 95 mm².
/// IEC 60228 class 5: here only to make the networks look like vehicles.
const OHM_PER_KM: [f64; 12] = [26.0, 19.5, 13.3, 7.98, 4.95, 3.30, 1.91, 1.21, 0.780, 0.554, 0.386, 0.206];

/// What to generate.
#[derive(Clone, Copy, Debug)]
pub struct Recipe {
    pub seed: u64,
    pub branches: usize,
    /// Copper warms with its own heat; else it is held at a temperature.
    pub warming: bool,
    /// Chargers feed current in.
    pub fed_in: bool,
}

/// A network with loads of every kind, small enough to be fed by any source.
pub fn network(recipe: Recipe) -> Network {
    let mut dice = ChaCha8Rng::seed_from_u64(recipe.seed);
    let source = Source {
        voltage: Volts::new(round(dice.random_range(11.5..14.4))),
        internal: Ohms::from_milli(round(dice.random_range(1.0..15.0))),
    };
    let branches = (0..recipe.branches).map(|index| branch(&mut dice, index, recipe)).collect();
    let loads = loads(&mut dice, recipe);
    Network { source, loads, branches }
}

/// The same network with constant powers and constant currents drawn multiplied by `factor`.
pub fn scaled(network: &Network, factor: f64) -> Network {
    let mut network = network.clone();
    let scale = |loads: &mut Vec<Load>| {
        for load in loads {
            match load {
                Load::Power(power) => *power = *power * factor,
                Load::Current(current) if current.get() > 0.0 => *current = *current * factor,
                _ => {}
            }
        }
    };
    scale(&mut network.loads);
    network.branches.iter_mut().for_each(|branch| scale(&mut branch.loads));
    network
}

/// How many times all constant powers and constant currents can be multiplied before the voltage collapses;
/// `None` when more than `at_most` times.
pub fn multiple(network: &Network, at_most: f64) -> Option<f64> {
    match scaled(network, at_most).solve() {
        Err(NoSolution::Collapse(collapse)) => Some(collapse.share.get() * at_most),
        _ => None,
    }
}

/// The network loaded to `share` of the most that it can feed, rounded so that it does not
/// change with the last digits of the limit.
pub fn loaded_to(network: &Network, share: f64) -> Network {
    let Some(multiple) = multiple(network, 1e6) else { return network.clone() };
    let target = multiple * share;
    let digits = 10f64.powf(3.0 - target.log10().floor());
    scaled(network, (target * digits).floor() / digits)
}

fn branch(dice: &mut ChaCha8Rng, index: usize, recipe: Recipe) -> Branch {
    // Mostly hanging on one of the last branches, so that deep and wide trees both occur.
    let from = match dice.random_range(0..10) {
        _ if index == 0 => Point::Terminals,
        0 => Point::Terminals,
        1..=6 => Point::End(index - 1 - dice.random_range(0..index.min(4))),
        _ => Point::End(dice.random_range(0..index)),
    };
    let wire = Metres::new(round(dice.random_range(0.4..12.0)));
    let per_length = OhmsPerKm::new(OHM_PER_KM[dice.random_range(0..OHM_PER_KM.len())]);
    let air = Celsius::new(f64::from(dice.random_range(-10..60)));
    let warming = if recipe.warming {
        // 1 to 8 K for each W/m, as of bare to buried cable: with the wire's length, kelvins per watt of the whole branch.
        Warming::Linear { air, rise: Kelvins::new(round(dice.random_range(1.0..8.0))), at_loss: Watts::new(wire.get()) }
    } else {
        Warming::Held(air)
    };
    let fixed = if dice.random_bool(0.8) { Ohms::from_milli(round(dice.random_range(0.1..5.0))) } else { Ohms::ZERO };
    Branch { from, copper: per_length * wire, fixed, warming, loads: loads(dice, recipe) }
}

fn loads(dice: &mut ChaCha8Rng, recipe: Recipe) -> Vec<Load> {
    let count = dice.random_range(0..3);
    (0..count)
        .map(|_| match dice.random_range(0..9) {
            0..=3 => Load::Power(Watts::new(round(dice.random_range(0.01..0.2)))),
            4..=5 => Load::Current(Amps::new(round(dice.random_range(0.001..0.02)))),
            6 if recipe.fed_in => Load::Current(Amps::new(-round(dice.random_range(0.001..0.02)))),
            _ => Load::Resistance { rated: Watts::new(round(dice.random_range(0.01..0.2))), nominal: Volts::new(12.0) },
        })
        .collect()
}

/// To three places, so that a netlist in decimal holds the very same figures.
fn round(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}
