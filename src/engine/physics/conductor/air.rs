//! How well does still air take heat from a horizontal cylinder?
//!
//! Natural convection by Churchill and Chu (1975), as printed in Incropera and
//! DeWitt, *Fundamentals of Heat and Mass Transfer* (from memory):
//! Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))², for Ra up to
//! 1e12. Air at sea level, its conductivity and viscosity by the formulas of
//! the *US Standard Atmosphere 1976* (from memory, checked against handbook
//! values in the tests). Left out: altitude, draught, and anything that blows.

use crate::quantity::{Celsius, Millimetres};

/// Properties of dry air at sea level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Thermal conductivity, W/(m K).
    pub conductivity: f64,
    /// Kinematic viscosity, m²/s.
    pub viscosity: f64,
    /// Prandtl number.
    pub prandtl: f64,
}

const PRESSURE: f64 = 101_325.0;
const GAS_CONSTANT: f64 = 287.05;
const HEAT_CAPACITY: f64 = 1006.0;
const GRAVITY: f64 = 9.806_65;

impl Air {
    /// At a temperature, -100 °C to 1,100 °C.
    ///
    /// k = 2.64638e-3 T^1.5 / (T + 245.4 × 10^(-12/T)), μ = 1.458e-6 T^1.5 / (T + 110.4), T in kelvins.
    pub fn at(temperature: Celsius) -> Air {
        let t = temperature.absolute();
        let power = t * t.sqrt();
        let conductivity = 2.646_38e-3 * power / (t + 245.4 * (-12.0 / t * std::f64::consts::LN_10).exp());
        let dynamic = 1.458e-6 * power / (t + 110.4);
        let viscosity = dynamic * GAS_CONSTANT * t / PRESSURE;
        Air { conductivity, viscosity, prandtl: dynamic * HEAT_CAPACITY / conductivity }
    }
}

/// The part of the formula that only the Prandtl number moves: (1 + (0.559/Pr)^(9/16))^(8/27).
///
/// 1.205 at 300 K and 1.207 at 400 K: worked out once for a cable, not at each trial temperature.
pub fn prandtl_factor(film: Celsius) -> f64 {
    (1.0 + (0.559 / Air::at(film).prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0)
}

/// Heat transfer coefficient of natural convection in W/(m² K) around a
/// horizontal cylinder of this diameter, its surface and the air at these
/// temperatures; properties at their mean, expansion 1/T of the mean.
pub fn convection(diameter: Millimetres, surface: Celsius, air: Celsius, prandtl_factor: f64) -> f64 {
    let d = diameter.get() / 1000.0;
    let film = Celsius::new((surface.get() + air.get()) / 2.0);
    let Air { conductivity, viscosity, prandtl } = Air::at(film);
    let difference = (surface - air).get().max(0.0);
    let rayleigh = GRAVITY / film.absolute() * difference * d * d * d * prandtl / (viscosity * viscosity);
    let root = 0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / prandtl_factor;
    root * root * conductivity / d
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Air at 300 K and 350 K: Incropera and DeWitt, table A.4 (from memory):
    /// k 0.0263 and 0.0300 W/(m K), ν 15.89e-6 and 20.92e-6 m²/s, Pr 0.707 and 0.700; to 2 %.
    #[test]
    fn air_as_in_the_handbook() {
        for (kelvins, k, nu, pr) in [(300.0, 0.0263, 15.89e-6, 0.707), (350.0, 0.0300, 20.92e-6, 0.700)] {
            let air = Air::at(Celsius::new(kelvins - 273.15));
            for (got, expected) in [(air.conductivity, k), (air.viscosity, nu), (air.prandtl, pr)] {
                assert!((got / expected - 1.0).abs() < 0.02, "{kelvins} K: {got}, expected {expected}");
            }
        }
    }

    /// Without a temperature difference only conduction is left: Nu = 0.36.
    #[test]
    fn still_air_conducts() {
        let h = convection(Millimetres::new(5.0), Celsius::new(30.0), Celsius::new(30.0), 1.2);
        assert!((h - 0.36 * Air::at(Celsius::new(30.0)).conductivity / 0.005).abs() < 1e-9);
    }

    /// Over the temperatures of any cable the Prandtl number moves the factor by less than 0.5 %.
    #[test]
    fn prandtl_hardly_matters() {
        let at = |t: f64| prandtl_factor(Celsius::new(t));
        assert!((at(0.0) / at(120.0) - 1.0).abs() < 0.005, "{} and {}", at(0.0), at(120.0));
    }
}
