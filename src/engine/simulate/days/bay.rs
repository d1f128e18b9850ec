//! How much warmer is a battery in an engine bay while and after the engine runs?
//!
//! It follows the bay's air slowly: 25 kg at 1 kJ/(kg K) behind 0.35 m² of 10 W/(m² K) take two hours (worked on paper;
//! the coefficients from memory). What the heat would help, such as capacity in the cold, is not counted on.

use crate::engine::installation::minutes::Minutes;
use crate::quantity::Kelvins;

/// Hours in which it comes 63 % nearer to the air about it.
const FOLLOWS: f64 = 2.0;

/// A battery in an engine bay.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bay {
    /// How much hotter the bay is with the engine running.
    hotter: f64,
    /// How much hotter the battery is.
    pub battery: Kelvins,
}

impl Bay {
    /// `None` where nothing is hotter.
    pub fn of(hotter: Kelvins) -> Option<Self> {
        (hotter > Kelvins::ZERO).then_some(Bay { hotter: hotter.get(), battery: Kelvins::ZERO })
    }

    /// After an hour of a day with these minutes of driving.
    pub fn hour(&mut self, drives: &Minutes, hour: u16) {
        let driven = (hour * 60..hour * 60 + 60).filter(|minute| drives.has(*minute)).count() as f64 / 60.0;
        let towards = self.hotter * driven - self.battery.get();
        self.battery += Kelvins::new(towards * (1.0 - (-1.0 / FOLLOWS).exp()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked on paper: 40 K hotter air for two hours: 40 (1 - 1/e) = 25.3 K; two hours later 9.3 K of that are left.
    #[test]
    fn it_warms_and_cools_by_two_hours() {
        let drives = Minutes::span(480, 600);
        let mut bay = Bay::of(Kelvins::new(40.0)).unwrap();
        let after = |bay: &mut Bay, hours: std::ops::Range<u16>| {
            hours.for_each(|hour| bay.hour(&drives, hour));
            bay.battery.get()
        };
        assert!((after(&mut bay, 8..10) - 25.285).abs() < 0.01);
        assert!((after(&mut bay, 10..12) - 9.302).abs() < 0.01);
        assert!(Bay::of(Kelvins::ZERO).is_none());
    }
}
