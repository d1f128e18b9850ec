//! Air over the day and the year: two cosines.
//!
//! T = mean + Y/2 cos(year) + D/2 cos(day), warmest on 19 July north of the
//! equator and half a year later south of it, and at three in the afternoon.
//! Common practice, no source. Left out: weather; `uncertainty` shifts the mean.

use crate::plan::Surroundings;
use crate::quantity::*;
use std::f64::consts::TAU;

const WARMEST_DAY: f64 = 200.0;
const WARMEST_HOUR: f64 = 15.0;

/// Air by day of the year and hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Climate {
    mean: f64,
    daily: f64,
    yearly: f64,
    warmest: f64,
}

impl Climate {
    /// From the plan's surroundings.
    pub fn new(air: &Surroundings) -> Self {
        Climate {
            mean: air.mean.get(),
            daily: air.daily_swing.get(),
            yearly: air.yearly_swing.get(),
            warmest: if air.latitude.get() < 0.0 { WARMEST_DAY + 182.5 } else { WARMEST_DAY },
        }
    }

    /// Day of the year (1 to 365) that is warmest.
    pub fn warmest_day(&self) -> u32 {
        (self.warmest as u32 - 1) % 365 + 1
    }

    /// Day of the year (1 to 365) that is coldest.
    pub fn coldest_day(&self) -> u32 {
        (self.warmest_day() + 181) % 365 + 1
    }

    /// Air on a day of the year (1 to 365) at an hour (0 to 24).
    pub fn air(&self, day: f64, hour: f64) -> Celsius {
        let year = (TAU * (day - self.warmest) / 365.0).cos();
        let time = (TAU * (hour - WARMEST_HOUR) / 24.0).cos();
        Celsius::new(self.mean + self.yearly / 2.0 * year + self.daily / 2.0 * time)
    }
}

/// Mean air of the warmest month: half the yearly swing over the year's mean, never over the hottest.
pub fn summer_air(air: &Surroundings) -> Celsius {
    Celsius::new((air.mean.get() + air.yearly_swing.get() / 2.0).min(air.hottest.get()))
}

/// Mean air of the coldest day: half the daily swing over the coldest, never over that of the coldest month.
pub fn cold_air(air: &Surroundings) -> Celsius {
    let month = air.mean.get() - air.yearly_swing.get() / 2.0;
    Celsius::new((air.coldest.get() + air.daily_swing.get() / 2.0).min(month.max(air.coldest.get())))
}

/// Mean air of the hottest day: half the daily swing under the hottest, never under that of the warmest month.
pub fn hot_air(air: &Surroundings) -> Celsius {
    Celsius::new((air.hottest.get() - air.daily_swing.get() / 2.0).max(summer_air(air).get()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn swings_reach_their_ends_and_keep_the_mean() {
        let air = Surroundings { latitude: Degrees::new(50.0), ..Surroundings::default() };
        let climate = Climate::new(&air);
        let all: Vec<f64> =
            (1..=365).flat_map(|d| (0..24).map(move |h| climate.air(f64::from(d), f64::from(h)).get())).collect();
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        let (low, high) = all.iter().fold((f64::MAX, f64::MIN), |(l, h), t| (l.min(*t), h.max(*t)));
        assert!((mean - air.mean.get()).abs() < 0.05, "{mean}");
        assert!((high - low - air.daily_swing.get() - air.yearly_swing.get()).abs() < 0.1, "{low} to {high}");
        let south = Climate::new(&Surroundings { latitude: Degrees::new(-30.0), ..air });
        assert!(south.air(15.0, 12.0) > south.air(200.0, 12.0));
    }
}
