//! When does a fuse-link open, at the earliest and at the latest?
//!
//! Standards give gates: at this multiple of the rating a link opens not
//! before `min` and not after `max`. Between two gates nothing is promised but
//! that more current opens no later, so the earliest time is read at the gate
//! above and the latest at the gate below: steps, no curve. Above the last
//! gate the earliest is zero, and the latest stays that of the last gate.
//!
//! Left out: the link's own curve, which its maker prints and which lies
//! between the gates; arcing at currents near the breaking capacity.

use crate::catalogue::{FuseStyle, Gate, How};
use crate::quantity::Seconds;

/// The earliest that a link may open at a multiple of its rating.
///
/// Zero above the last gate and where no gates are known, except that a
/// current at or under the rating is carried for ever (infinite).
pub fn earliest(gates: &[Gate], multiple: f64) -> Seconds {
    match gates.iter().find(|g| g.of_rating >= multiple) {
        Some(gate) => gate.min,
        None if multiple <= 1.0 => Seconds::new(f64::INFINITY),
        None => Seconds::ZERO,
    }
}

/// The latest that a link may open at a multiple of its rating; `None` where no gate sets a limit.
pub fn latest(gates: &[Gate], multiple: f64) -> Option<Seconds> {
    gates.iter().rev().find(|g| g.of_rating <= multiple && g.max.is_some()).and_then(|g| g.max)
}

/// The smallest multiple of the rating that opens the link within a time for
/// certain; `None` where no gate promises it.
pub fn opens_from(gates: &[Gate], within: Seconds) -> Option<f64> {
    gates.iter().find(|g| g.max.is_some_and(|max| max.get() <= within.get())).map(|g| g.of_rating)
}

/// Whether what is known of a style's operating times still wants checking
/// against the part: from memory, from practice, or nothing known.
pub fn unproven(style: &FuseStyle) -> bool {
    style.gates.is_empty() || matches!(style.from.gates.how, How::Memory | How::Practice)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gate(of_rating: f64, min: f64, max: Option<f64>) -> Gate {
        Gate { of_rating, min: Seconds::new(min), max: max.map(Seconds::new) }
    }

    /// The 110 / 135 / 200 % gates of a slow link quoted in `tests/reference/fuses.rs`.
    fn slow() -> Vec<Gate> {
        vec![gate(1.1, 14_400.0, None), gate(1.35, 0.0, Some(3600.0)), gate(2.0, 0.0, Some(300.0))]
    }

    #[test]
    fn between_gates_the_worse_end_counts() {
        let gates = slow();
        assert_eq!(earliest(&gates, 0.9).get(), 14_400.0);
        assert_eq!(earliest(&gates, 1.1).get(), 14_400.0);
        assert_eq!(earliest(&gates, 1.11).get(), 0.0);
        assert_eq!(latest(&gates, 1.34), None);
        assert_eq!(latest(&gates, 1.99), Some(Seconds::new(3600.0)));
        assert_eq!(latest(&gates, 50.0), Some(Seconds::new(300.0)));
        assert_eq!(opens_from(&gates, Seconds::new(600.0)), Some(2.0));
        assert_eq!(opens_from(&gates, Seconds::new(5.0)), None);
    }

    #[test]
    fn without_gates_nothing_is_promised_but_the_rating() {
        assert!(earliest(&[], 1.0).get().is_infinite());
        assert_eq!(earliest(&[], 1.01), Seconds::ZERO);
        assert_eq!(latest(&[], 100.0), None);
    }
}
