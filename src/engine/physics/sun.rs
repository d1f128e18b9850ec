//! How much sun falls on a panel, level or tilted?
//!
//! Clear sky by Haurwitz (1945): G = 1098 cos z exp(-0.059 / cos z) W/m², z the
//! zenith angle of the sun, in the form that pvlib uses; declination by
//! Spencer's series. For a tilted panel it is parted into beam and diffuse by
//! Erbs (1982), the diffuse taken as bright from all of the sky, and a quarter
//! of what falls on the ground as thrown back. Left out: height above the sea,
//! haze and shade; clouds come in as one factor.

use crate::quantity::{Degrees, SunHours};
use std::f64::consts::PI;

/// Share of the clear sky's sun that a usual day brings.
/// Common practice, no source: 0.4 to 0.7 over the year between 35° and 60°.
pub const CLOUD_SHARE: f64 = 0.55;
/// Share of the light on the ground that it throws back: usual in the trade, as in pvlib.
const ALBEDO: f64 = 0.25;
/// Solar constant, kW/m².
const SOLAR_CONSTANT: f64 = 1.3661;
/// The sun so low (87° from the zenith) has no beam that could be told from the diffuse.
const LOWEST_BEAM: f64 = 0.0523;

/// A panel that is not tilted.
const LEVEL: Turned = Turned { sin: 0.0, cos: 1.0 };

/// The sun on a day of the year at a latitude, on a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunDay {
    latitude: Turned,
    declination: Turned,
    /// Outside the air, kW/m².
    extra: f64,
    tilt: Turned,
    faces: Turned,
}

/// An angle, by its sine and cosine.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Turned {
    sin: f64,
    cos: f64,
}

impl Turned {
    fn by(radians: f64) -> Self {
        let (sin, cos) = radians.sin_cos();
        Turned { sin, cos }
    }
}

impl SunDay {
    /// Day 1 is 1 January; latitude north positive; a level panel.
    pub fn new(day_of_year: f64, latitude: Degrees) -> Self {
        let year = 2.0 * PI * (day_of_year - 1.0) / 365.0;
        SunDay {
            latitude: Turned::by(latitude.get().clamp(-90.0, 90.0).to_radians()),
            declination: Turned::by(declination(day_of_year)),
            extra: SOLAR_CONSTANT * (1.0 + 0.033 * year.cos()),
            tilt: LEVEL,
            faces: Turned::by(PI),
        }
    }

    /// The same on a panel that is tilted from the level and faces a direction by the compass: 0 north, 90 east.
    pub fn tilted(self, tilt: Degrees, faces: Degrees) -> Self {
        let tilt = Turned::by(tilt.get().clamp(0.0, 90.0).to_radians());
        SunDay { tilt, faces: Turned::by(faces.get().to_radians()), ..self }
    }

    /// Cosine of the zenith angle at an hour of solar time, 0 to 24; negative at night.
    pub fn cos_zenith(&self, hour: f64) -> f64 {
        let (latitude, declination) = (self.latitude, self.declination);
        latitude.sin * declination.sin + latitude.cos * declination.cos * angle(hour).cos()
    }

    /// Cosine of the angle between the sun and what the panel faces; negative from behind.
    fn cos_incidence(&self, hour: f64) -> f64 {
        let (latitude, declination) = (self.latitude, self.declination);
        let angle = Turned::by(angle(hour));
        let north = declination.sin * latitude.cos - declination.cos * latitude.sin * angle.cos;
        let east = -declination.cos * angle.sin;
        self.tilt.cos * self.cos_zenith(hour) + self.tilt.sin * (north * self.faces.cos + east * self.faces.sin)
    }

    /// Clear-sky irradiance on the panel, in kW/m² (= suns).
    pub fn clear(&self, hour: f64) -> f64 {
        let up = self.cos_zenith(hour);
        let level = haurwitz(up);
        if self.tilt == LEVEL || level <= 0.0 {
            return level;
        }
        let diffuse = level * diffuse_share(level / (self.extra * up.max(0.065)));
        let beam = if up > LOWEST_BEAM { (level - diffuse) / up } else { 0.0 };
        let (sky, ground) = ((1.0 + self.tilt.cos) / 2.0, (1.0 - self.tilt.cos) / 2.0);
        beam * self.cos_incidence(hour).max(0.0) + diffuse * sky + level * ALBEDO * ground
    }

    /// Peak-sun hours of a clear day: the integral of [`SunDay::clear`] over it, by minutes.
    pub fn clear_hours(&self, steps: u32) -> SunHours {
        let n = steps.max(24);
        let sum: f64 = (0..n).map(|i| self.clear((f64::from(i) + 0.5) * 24.0 / f64::from(n))).sum();
        SunHours::new(sum * 24.0 / f64::from(n))
    }

    /// Peak-sun hours of a usual day: the clear day's times the share that clouds leave. Under clouds the light comes
    /// from all of the sky, so what a tilt gains counts with that share once more; what it costs, in full.
    pub fn usual_hours(&self, steps: u32) -> SunHours {
        let here = self.clear_hours(steps).get();
        let level = if self.tilt == LEVEL { here } else { SunDay { tilt: LEVEL, ..*self }.clear_hours(steps).get() };
        let gained = (here - level).max(0.0);
        SunHours::new(CLOUD_SHARE * (here - gained + CLOUD_SHARE * gained))
    }
}

/// Angle of the sun from noon, in radians.
fn angle(hour: f64) -> f64 {
    (hour - 12.0) * PI / 12.0
}

/// Share of the light that comes from all of the sky, by how much of that outside the air arrives. Erbs, Klein and
/// Duffie, Solar Energy 28 (1982), in the form that pvlib uses.
fn diffuse_share(clearness: f64) -> f64 {
    let k = clearness.clamp(0.0, 1.0);
    match k {
        k if k <= 0.22 => 1.0 - 0.09 * k,
        k if k <= 0.8 => 0.9511 - 0.1604 * k + 4.388 * k.powi(2) - 16.638 * k.powi(3) + 12.336 * k.powi(4),
        _ => 0.165,
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

/// The middle of a month, 0 for January, as a day of the year.
pub fn middle_of(month: usize) -> f64 {
    15.0 + 30.4 * month as f64
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
            for month in 0..12 {
                let sun = SunDay::new(middle_of(month), Degrees::new(latitude))
                    .tilted(Degrees::new(60.0), Degrees::new(90.0));
                assert!(sun.usual_hours(96).is_finite());
            }
        }
    }
}
