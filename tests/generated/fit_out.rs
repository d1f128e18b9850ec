//! Sound fit-outs from a seed: bank, delay and setting free, loads, weeks and climates as people have them.
//!
//! Only inputs come from here, never an expected result.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::fmt::Write;

const CHEMISTRIES: [&str; 4] = ["agm", "gel", "flooded", "lithium-iron-phosphate"];

/// The same with something given that the promise may break on: a bank, its blocks, a cut-off, a load's own.
pub fn pinned_fit_out(seed: u64) -> String {
    let mut dice = ChaCha8Rng::seed_from_u64(seed ^ 0x9e37_79b9);
    let text = fit_out(seed);
    match dice.random_range(0..5) {
        0 => text.replacen(
            "days_without_charge",
            &format!("capacity_ah = {}\ndays_without_charge", [35, 60, 100, 150][dice.random_range(0..4)]),
            1,
        ),
        1 => text.replacen("days_without_charge", "in_parallel = 1\ndays_without_charge", 1),
        2 => format!("{text}[cut_off]\ncut_v = {}\n", [12.2, 12.5, 12.8, 13.1][dice.random_range(0..4)]),
        3 => format!("{text}[cut_off]\nreserve = {}\n", [0.7, 0.8, 0.9][dice.random_range(0..3)]),
        _ => format!("{text}own_cut_v = {}\n", [11.9, 12.3, 12.7, 13.1][dice.random_range(0..4)]),
    }
}

/// The text of a plan in which the engine chooses bank, charger, sizes and settings.
pub fn fit_out(seed: u64) -> String {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut text = String::from("format = 1\n");
    let chemistry = CHEMISTRIES[dice.random_range(0..CHEMISTRIES.len())];
    let days = [0.5, 1.0, 1.5, 2.0, 3.0, 4.0][dice.random_range(0..6)];
    let (mean, yearly, daily): (i32, i32, i32) =
        (dice.random_range(4..24), dice.random_range(4..22), dice.random_range(4..14));
    let cold = (mean - yearly / 2 - daily / 2 - dice.random_range(0..4)).max(if chemistry.starts_with("lith") {
        1
    } else {
        -18
    });
    let hot = (mean + yearly / 2 + daily / 2 + dice.random_range(0..6)).min(45);
    let latitude = dice.random_range(-50..60);
    let _ = write!(
        text,
        "[surroundings]\ncoldest_c = {cold}\nmean_c = {mean}\nhottest_c = {hot}\ndaily_swing_k = {daily}\n\
         yearly_swing_k = {yearly}\nlatitude_deg = {latitude}\n\
         [service_battery]\nchemistry = \"{chemistry}\"\ndays_without_charge = {days}\n\
         [vehicle]\nalternator_a = {}\ndriving = \"07:00-0{}:00\"\n",
        dice.random_range(60..180),
        dice.random_range(8..10),
    );
    for (from, to, metres) in [
        ("starter battery", "charger", dice.random_range(1.0..6.0)),
        ("service battery", "charger", 0.8),
        ("service battery", "cut-off", 0.5),
        ("cut-off", "panel", dice.random_range(0.5..4.0)),
    ] {
        let _ = write!(text, "[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = {metres:.1}\n");
    }
    let mut load = |words: String| {
        let _ = write!(text, "[[load]]\nat = \"panel\"\n{words}\n");
    };
    if dice.random_bool(0.8) {
        let power = dice.random_range(30..70);
        load(format!(
            "name = \"fridge\"\npower_w = {power}\nduty.share_on = 0.35\nduty.share_per_k = 0.012\nduty.hours_a_day = 24\n\
             start.times = 3\nstart.seconds = 1"
        ));
    }
    if dice.random_bool(0.8) {
        let (count, hours) = (dice.random_range(1..6), dice.random_range(2..6));
        load(format!(
            "name = \"lamps\"\npower_w = 6\ncount = {count}\nduty.hours_a_day = {hours}\nduty.windows = [\"18:00-23:30\"]"
        ));
    }
    if dice.random_bool(0.5) {
        load("name = \"pump\"\npower_w = 55\nduty.hours_a_day = 0.3\nstart.times = 3\nstart.seconds = 0.5".into());
    }
    if dice.random_bool(0.4) {
        let power = dice.random_range(15..40);
        load(format!("name = \"heater\"\npower_w = {power}\nduty.hours_a_day = 7\nduty.windows = [\"22:00-07:00\"]"));
    }
    if dice.random_bool(0.3) {
        let (power, hours) = (dice.random_range(60..400), dice.random_range(1..4));
        load(format!(
            "name = \"cooker\"\npower_w = {power}\nduty.hours_a_day = 0.{hours}\nduty.windows = [\"17:00-19:00\"]"
        ));
    }
    load("name = \"radio\"\npower_w = 12\nduty.hours_a_day = 3".into());
    text
}
