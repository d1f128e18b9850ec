//! The kinetic battery model against scipy's integration of the same equations, to 0.1 %.
//!
//! The script that made the stored output is `scripts/solve_battery.py`; its
//! first line says the versions.

use crate::check::{Source, check, independent};
use crate::program::{Kinetic, Wells};
use crate::stored::tables;
use loomwright::quantity::*;

crate::tests![a_week_of_minutes, deliveries,];

const STORED: &str = include_str!("data/scipy_battery.csv");
const SCIPY: Source = independent("scipy 1.17.1 solve_ivp DOP853, the two wells over a week and in steady discharges");
const TOLERANCE: f64 = 0.001;

fn constants() -> Kinetic {
    Kinetic { at_hand: Share::new(0.61), rate_per_h: 0.2305 }
}

/// Amps out at an hour of the week, as in the script.
fn load(hour: f64) -> Amps {
    let leak = 110.0 * 0.10 / 720.0;
    let cycling = if hour % 1.0 < 1.0 / 3.0 { 6.0 } else { 0.0 };
    let charging = if (8.0..12.0).contains(&(hour % 24.0)) { 15.0 } else { 0.0 };
    Amps::new(0.8 + leak + cycling - charging)
}

/// A week of one-minute steps stays within 0.1 % of the independent integration.
fn a_week_of_minutes() {
    let step = constants().step(Hours::new(1.0 / 60.0));
    let whole = AmpHours::new(0.9 * 110.0);
    let mut wells = constants().rested(whole);
    let week = tables(STORED).remove(0);
    assert_eq!(week.len(), 15);
    let mut minute = 0u32;
    for row in week {
        while f64::from(minute) < row[0] * 60.0 - 0.5 {
            wells = step.after(wells, load((f64::from(minute) + 0.5) / 60.0));
            minute += 1;
        }
        let Wells { at_hand, bound } = wells;
        check(SCIPY, &format!("at hand after {} h, Ah", row[0]), row[1], at_hand.get(), TOLERANCE * row[1]);
        check(SCIPY, &format!("bound after {} h, Ah", row[0]), row[2], bound.get(), TOLERANCE * row[2]);
    }
}

/// The closed form for a delivery agrees with the event that scipy finds, for four pairs of constants.
fn deliveries() {
    let stored = tables(STORED);
    assert_eq!((stored[1].len(), stored[2].len()), (5, 24));
    let others = stored[2].iter().map(|row| {
        let kinetic = Kinetic { at_hand: Share::new(row[0]), rate_per_h: row[1] };
        (kinetic, row[2], row[3])
    });
    for (kinetic, amps, expected) in stored[1].iter().map(|row| (constants(), row[0], row[1])).chain(others) {
        // The hours by halving: what is delivered grows with them.
        let gives = |hours: f64| 110.0 * kinetic.delivered(Hours::new(hours)).get();
        let (mut short, mut long) = (0.0, 110.0 / amps);
        for _ in 0..60 {
            let middle = (short + long) / 2.0;
            if gives(middle) > amps * middle { short = middle } else { long = middle }
        }
        let got = amps * (short + long) / 2.0;
        check(SCIPY, &format!("Ah at {amps} A, {kinetic:?}"), expected, got, TOLERANCE * expected);
    }
}
