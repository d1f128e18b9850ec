//! Does the cable stand what the fuse lets through?
//!
//! I²t ≤ k²S² (IEC 60364-5-54, also IEC 60364-4-43 434.5.2), which holds while
//! no heat leaves the copper, for up to 5 s. The energy is the largest over all
//! fault currents from the far end of the run to the fuse itself, each with the
//! latest opening time of the gates. Above the last gate the energy is taken as
//! that of the last gate: the faster a link melts, the less it lets through.
//! Left out: the arc's share near the breaking capacity, and any pre-heating
//! beyond the insulation's own temperature, from which k is reckoned.

use crate::catalogue::FuseStyle;
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// Longest time for which the adiabatic law holds: 5 s (IEC 60364-4-43 434.5.2).
pub const ADIABATIC: Seconds = Seconds::new(5.0);

/// What a conductor stands: k² S² in A²s, k in A √s / mm².
pub fn cable_withstand(k: f64, area: SquareMillimetres) -> Reckoned<AmpsSquaredSeconds, 2> {
    reckon!(AmpsSquaredSeconds: k * S * k * S,
        k: "adiabatic constant, A √s / mm²" = Figure::number(k),
        S: "copper" = area)
}

/// The same as a number.
pub fn cable_stands(k: f64, area: SquareMillimetres) -> AmpsSquaredSeconds {
    cable_withstand(k, area).value
}

/// How long a conductor stands a current: k² S² / I²; infinite for no current.
pub fn lasts(stands: AmpsSquaredSeconds, current: Amps) -> Seconds {
    Seconds::new(stands.get() / (current.get() * current.get()))
}

/// I² t of a current that flows for a time.
pub fn energy(current: Amps, time: Seconds) -> AmpsSquaredSeconds {
    AmpsSquaredSeconds::new(current.get() * current.get() * time.get())
}

/// The worst that a fuse lets through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LetThrough {
    /// Fault current at which it is worst.
    pub at: Amps,
    /// Latest opening time then.
    pub time: Seconds,
    /// I² t.
    pub energy: AmpsSquaredSeconds,
}

impl LetThrough {
    /// The energy again, with what it follows from.
    pub fn reckoned(&self) -> Reckoned<AmpsSquaredSeconds, 2> {
        reckon!(AmpsSquaredSeconds: I * I * t,
            I: "fault current at which it is most" = self.at,
            t: "latest opening then" = self.time)
    }
}

/// The most that a link lets through for any fault current from `least` to
/// `most`, where it opens within the adiabatic time; `None` where its gates
/// promise no opening that soon. `slow` is by how much a cold link carries
/// more than its rating (1 at 25 °C).
pub fn let_through(style: &FuseStyle, rating: Amps, slow: f64, least: Amps, most: Amps) -> Option<LetThrough> {
    worst(style, rating, slow, (least, most), ADIABATIC)
}

/// The same however long the link may take: reckoned without the heat that a longer wait lets go.
pub fn worst_wait(style: &FuseStyle, rating: Amps, slow: f64, least: Amps, most: Amps) -> Option<LetThrough> {
    worst(style, rating, slow, (least, most), Seconds::new(f64::MAX))
}

fn worst(
    style: &FuseStyle,
    rating: Amps,
    slow: f64,
    (least, most): (Amps, Amps),
    longest: Seconds,
) -> Option<LetThrough> {
    let carried = rating * slow;
    let mut worst: Option<LetThrough> = None;
    for (i, gate) in style.gates.iter().enumerate() {
        let Some(time) = gate.max.filter(|t| *t <= longest) else { continue };
        let from = carried * gate.of_rating;
        let last = style.gates.get(i + 1).is_none();
        let to = style.gates.get(i + 1).map_or(from, |next| carried * next.of_rating);
        if from.get() > most.get() || (!last && to.get() <= least.get()) {
            continue;
        }
        let at = to.min(most).max(from);
        let found = LetThrough { at, time, energy: energy(at, time) };
        if worst.is_none_or(|w| found.energy.get() > w.energy.get()) {
            worst = Some(found);
        }
    }
    worst
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;

    #[test]
    fn the_worst_current_lies_just_under_a_gate() {
        let catalogue = Catalogue::embedded().unwrap();
        let style = catalogue.fuse_style("blade-c").unwrap();
        let worst = |least, most| let_through(style, Amps::new(10.0), 1.0, Amps::new(least), Amps::new(most));
        // Between 200 % (5 s) and 350 % the link may take 5 s: worst just under 35 A.
        let found = worst(20.0, 900.0).unwrap();
        assert_eq!((found.at.get(), found.time.get()), (35.0, 5.0));
        // With a far-end fault of 60 A only the last gate is left.
        let found = worst(60.0, 900.0).unwrap();
        assert_eq!((found.at.get(), found.time.get(), found.energy.get()), (60.0, 0.1, 360.0));
        assert_eq!(worst(5.0, 15.0), None);
    }

    #[test]
    fn a_nearer_fault_may_be_the_worse_to_wait_for() {
        let catalogue = Catalogue::embedded().unwrap();
        let style = catalogue.fuse_style("blade-c").unwrap();
        // At 135 % a blade of 10 A may take 1800 s, and as long for all that is below 160 %.
        let found = worst_wait(style, Amps::new(10.0), 1.0, Amps::new(14.0), Amps::new(15.9)).unwrap();
        assert_eq!((found.at.get(), found.time.get(), found.energy.get()), (15.9, 1800.0, 15.9 * 15.9 * 1800.0));
        // A gate further on is worse only where its current has grown by more than its time has shrunk.
        let all = worst_wait(style, Amps::new(10.0), 1.0, Amps::new(14.0), Amps::new(900.0)).unwrap();
        assert_eq!((all.at.get(), all.time.get()), (16.0, 1800.0));
        assert_eq!(let_through(style, Amps::new(10.0), 1.0, Amps::new(14.0), Amps::new(15.9)), None);
    }

    #[test]
    fn a_cold_link_lets_more_through() {
        let catalogue = Catalogue::embedded().unwrap();
        let style = catalogue.fuse_style("blade-c").unwrap();
        let at = |slow| let_through(style, Amps::new(10.0), slow, Amps::new(20.0), Amps::new(900.0)).unwrap();
        assert!(at(1.1).energy.get() > at(1.0).energy.get());
    }
}
