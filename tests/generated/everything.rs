//! Plans with everything that can sit in a circuit, from a seed: plugs, switches, bars, blocks, panels, wires of
//! control, devices in the minus, and returns by the body.
//!
//! Only inputs come from here, never an expected result.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::fmt::Write;

/// The text of a plan.
pub fn everything(seed: u64) -> String {
    let mut dice = ChaCha8Rng::seed_from_u64(seed ^ 0x5eed);
    let blocks = dice.random_range(1..5);
    let mut text = format!(
        "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = {}\nin_parallel = {blocks}\n[vehicle]\n\
         minus_sensor = {}\nchassis_mohm = 3\n",
        100 * blocks,
        dice.random_bool(0.5)
    );
    let charger = ["dc-dc", "relay", "none"][dice.random_range(0..3)];
    let _ = write!(text, "[charger]\nkind = \"{charger}\"\n");
    let senses = ["cut-off", "service battery"][dice.random_range(0..2)];
    let _ = write!(text, "[cut_off]\nsenses_at = \"{senses}\"\nin_minus = {}\n", dice.random_bool(0.3));
    if dice.random_bool(0.5) {
        let at = ["service battery", "cut-off"][dice.random_range(0..2)];
        let _ = write!(text, "[main_switch]\nrating_a = 200\nat = \"{at}\"\nin_minus = {}\n", dice.random_bool(0.4));
    }
    if dice.random_bool(0.6) {
        let (series, strings) = (dice.random_range(1..3), dice.random_range(1..3));
        let _ = write!(
            text,
            "[solar]\narray_w = {}\nin_series = {series}\nstrings = {strings}\npanel_short_a = 6\nat = \"sun\"\n",
            100 * series * strings
        );
        if dice.random_bool(0.7) {
            let _ = writeln!(text, "cable_m = {:.1}", dice.random_range(0.2..8.0));
        }
        run(&mut text, "service battery", "sun", dice.random_range(0.3..3.0), "");
    }
    if dice.random_bool(0.4) {
        text.push_str("[inverter]\nrating_w = 300\nat = \"inverter\"\n");
        run(&mut text, "cut-off", "inverter", dice.random_range(0.3..2.0), "");
    }
    feed(&mut text, &mut dice, charger);
    run(&mut text, "service battery", "cut-off", dice.random_range(0.2..1.0), "");
    for board in 0..dice.random_range(1..3) {
        let kind = ["fuse-box", "bus-bar"][dice.random_range(0..2)];
        let _ = write!(text, "[[board]]\nname = \"board {board}\"\nkind = \"{kind}\"\nstyle = \"blade-c\"\n");
        let back = returns(&mut dice);
        run(&mut text, "cut-off", &format!("board {board}"), dice.random_range(0.3..4.0), back);
        for load in 0..dice.random_range(1..4) {
            hang(&mut text, &mut dice, &format!("load {board} {load}"), &format!("board {board}"));
        }
    }
    text
}

fn run(text: &mut String, from: &str, to: &str, length: f64, more: &str) {
    let _ = write!(text, "[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = {length:.2}\n{more}");
}

fn returns(dice: &mut ChaCha8Rng) -> &'static str {
    ["", "", "return = \"chassis\"\n", "fuse_in_minus = true\n", "return = \"chassis\"\nfuse_in_minus = true\n"]
        [dice.random_range(0..5)]
}

/// From the starter battery to the charger, over a plug where there is a trailer.
fn feed(text: &mut String, dice: &mut ChaCha8Rng, charger: &str) {
    if charger == "none" {
        return;
    }
    let length = dice.random_range(1.0..5.0);
    if dice.random_bool(0.5) {
        text.push_str("[[plug]]\nname = \"plug\"\nkind = \"heavy\"\n");
        run(text, "starter battery", "plug", length, "");
        run(text, "plug", "charger", dice.random_range(1.0..4.0), "");
    } else {
        run(text, "starter battery", "charger", length, ["", "return = \"chassis\"\n"][dice.random_range(0..2)]);
    }
    run(text, "service battery", "charger", dice.random_range(0.3..2.0), "");
}

/// A load by its own lead, or at the end of a run of its own.
fn hang(text: &mut String, dice: &mut ChaCha8Rng, name: &str, board: &str) {
    let (power, length) = (dice.random_range(2.0..60.0), dice.random_range(0.3..5.0));
    let load = |at: &str, more: &str| {
        format!("[[load]]\nname = \"{name}\"\nat = \"{at}\"\npower_w = {power:.1}\ndrop = \"tolerant\"\n{more}")
    };
    if dice.random_bool(0.5) {
        let back = ["", "lead_return = \"chassis\"\n"][dice.random_range(0..2)];
        let lead = load(board, &format!("lead_m = {length:.2}\n{back}"));
        text.push_str(&lead);
    } else {
        text.push_str(&load(name, ""));
        run(text, board, name, length, returns(dice));
    }
}
