//! How much sun falls on a flat roof.
//!
//! Clear sky by Haurwitz (1945): G = 1098 cos z exp(-0.059 / cos z) W/m², z the
//! zenith angle of the sun, in the form that pvlib uses; declination by
//! Spencer's series. Left out: height above the sea, haze, shade and tilt;
//! clouds come in as one factor.

use crate::quantity::{Degrees, SunHours};
use std::f64::consts::PI;

/// Share of the clear sky's sun that a usual day brings.
/// Common practice, no source: 0.4 to 0.7 over the year between 35° and 60°.
pub const CLOUD_SHARE: f64 = 0.55;

/// The sun on a day of the year at a latitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunDay {
    sin_part: f64,
    cos_part: f64,
}

impl SunDay {
    /// Day 1 is 1 January; latitude north positive.
    pub fn new(day_of_year: f64, latitude: Degrees) -> Self {
        let declination = declination(day_of_year);
        let latitude = latitude.get().clamp(-90.0, 90.0).to_radians();
        SunDay { sin_part: latitude.sin() * declination.sin(), cos_part: latitude.cos() * declination.cos() }
    }

    /// Cosine of the zenith angle at an hour of solar time, 0 to 24; negative at night.
    pub fn cos_zenith(&self, hour: f64) -> f64 {
        self.sin_part + self.cos_part * ((hour - 12.0) * PI / 12.0).cos()
    }

    /// Clear-sky irradiance on the level, in kW/m² (= suns).
    pub fn clear(&self, hour: f64) -> f64 {
        haurwitz(self.cos_zenith(hour))
    }

    /// Peak-sun hours of a clear day: the integral of [`SunDay::clear`] over it, by minutes.
    pub fn clear_hours(&self, steps: u32) -> SunHours {
        let n = steps.max(24);
        let sum: f64 = (0..n).map(|i| self.clear((f64::from(i) + 0.5) * 24.0 / f64::from(n))).sum();
        SunHours::new(sum * 24.0 / f64::from(n))
    }
}

/// Clear-sky irradiance on the level by the cosine of the zenith angle, kW/m².
pub fn haurwitz(cos_zenith: f64) -> f64 {
    if cos_zenith > 0.0 { 1.098 * cos_zenith * (-0.059 / cos_zenith).exp() } else { 0.0 }
}

/// Declination in radians. Spencer (1971), Fourier series, within 0.04°.
fn declination(day_of_year: f64) -> f64 {
    let b = 2.0 * PI * (day_of_year - 1.0) / 365.0;
    0.006_918 - 0.399_912 * b.cos() + 0.070_257 * b.sin() - 0.006_758 * (2.0 * b).cos() + 0.000_907 * (2.0 * b).sin()
        - 0.002_697 * (3.0 * b).cos()
        + 0.001_48 * (3.0 * b).sin()
}

/// Mean peak-sun hours of a year at a latitude under usual clouds.
pub fn usual_sun_hours(latitude: Degrees) -> SunHours {
    let months = 12;
    let clear: f64 = (0..months).map(|m| SunDay::new(15.0 + 30.4 * f64::from(m), latitude).clear_hours(96).get()).sum();
    SunHours::new(clear / f64::from(months) * CLOUD_SHARE)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// pvlib 0.16.1, 40° N, 1-minute steps: 8.796 h on 21 June, 2.426 h on 21 December (Haurwitz).
    #[test]
    fn clear_days_against_pvlib() {
        for (day, expected) in [(172.0, 8.796), (355.0, 2.426)] {
            let got = SunDay::new(day, Degrees::new(40.0)).clear_hours(1440).get();
            assert!((got / expected - 1.0).abs() < 0.01, "day {day}: {got} h, pvlib gives {expected} h");
        }
    }

    #[test]
    fn polar_night_is_dark_and_nothing_is_infinite() {
        assert_eq!(SunDay::new(355.0, Degrees::new(70.0)).clear_hours(96), SunHours::ZERO);
        for latitude in [-90.0, -70.0, 0.0, 70.0, 90.0] {
            assert!(usual_sun_hours(Degrees::new(latitude)).is_finite());
        }
    }
}
