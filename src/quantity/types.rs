//! The unit-carrying types and the products that physics gives between them.

use super::show::Figure;
use super::unit::Unit;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A quantity that knows its unit: what tables and messages need.
pub trait Quantity: Copy {
    /// The one unit this type is kept in.
    const UNIT: Unit;
    /// Wrap a number that is already in [`Self::UNIT`].
    fn of(number: f64) -> Self;
    /// The number in [`Self::UNIT`].
    fn number(self) -> f64;
}

macro_rules! quantity {
    ($($(#[$doc:meta])* $name:ident = $unit:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Zero of this quantity.
            pub const ZERO: Self = Self(0.0);
            /// Wrap a number already in this unit. Numbers from outside are
            /// checked by the reader before they get here.
            pub const fn new(number: f64) -> Self { Self(number) }
            /// The number in this unit.
            pub const fn get(self) -> f64 { self.0 }
            /// The smaller of two.
            pub fn min(self, other: Self) -> Self { Self(self.0.min(other.0)) }
            /// The larger of two.
            pub fn max(self, other: Self) -> Self { Self(self.0.max(other.0)) }
            /// The magnitude.
            pub fn abs(self) -> Self { Self(self.0.abs()) }
            /// Whether it is neither NaN nor infinite.
            pub fn is_finite(self) -> bool { self.0.is_finite() }
        }
        impl Quantity for $name {
            const UNIT: Unit = Unit::$unit;
            fn of(number: f64) -> Self { Self(number) }
            fn number(self) -> f64 { self.0 }
        }
        impl<'de> serde::Deserialize<'de> for $name {
            /// A plain finite number; the unit is in the key's name.
            fn deserialize<D: serde::Deserializer<'de>>(source: D) -> Result<Self, D::Error> {
                let number = f64::deserialize(source)?;
                if number.is_finite() {
                    Ok(Self(number))
                } else {
                    Err(serde::de::Error::custom("the number must be finite"))
                }
            }
        }
        impl From<$name> for Figure {
            fn from(q: $name) -> Figure { Figure::new(q.0, Unit::$unit) }
        }
        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                Figure::from(*self).fmt(f)
            }
        }
    )*};
}

/// A factor, an exponent or a count: it has no unit to be confused.
impl Quantity for f64 {
    const UNIT: Unit = Unit::Number;
    fn of(number: f64) -> Self {
        number
    }
    fn number(self) -> f64 {
        self
    }
}

macro_rules! adds {
    ($($name:ident),* $(,)?) => {$(
        impl Add for $name { type Output = Self; fn add(self, o: Self) -> Self { Self::new(self.get() + o.get()) } }
        impl Sub for $name { type Output = Self; fn sub(self, o: Self) -> Self { Self::new(self.get() - o.get()) } }
        impl AddAssign for $name { fn add_assign(&mut self, o: Self) { *self = *self + o; } }
        impl SubAssign for $name { fn sub_assign(&mut self, o: Self) { *self = *self - o; } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self::new(-self.get()) } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, k: f64) -> Self { Self::new(self.get() * k) } }
        impl Mul<$name> for f64 { type Output = $name; fn mul(self, q: $name) -> $name { q * self } }
        impl Div<f64> for $name { type Output = Self; fn div(self, k: f64) -> Self { Self::new(self.get() / k) } }
        impl Div for $name { type Output = f64; fn div(self, o: Self) -> f64 { self.get() / o.get() } }
        impl Sum for $name { fn sum<I: Iterator<Item = Self>>(iter: I) -> Self { iter.fold(Self::ZERO, Add::add) } }
    )*};
}

macro_rules! product {
    ($($a:ident * $b:ident = $c:ident),* $(,)?) => {$(
        impl Mul<$b> for $a { type Output = $c; fn mul(self, o: $b) -> $c { $c::new(self.get() * o.get()) } }
        impl Mul<$a> for $b { type Output = $c; fn mul(self, o: $a) -> $c { $c::new(self.get() * o.get()) } }
        impl Div<$a> for $c { type Output = $b; fn div(self, o: $a) -> $b { $b::new(self.get() / o.get()) } }
        impl Div<$b> for $c { type Output = $a; fn div(self, o: $b) -> $a { $a::new(self.get() / o.get()) } }
    )*};
}

quantity! {
    /// Electric potential in volts.
    Volts = Volt,
    /// Current in amperes.
    Amps = Amp,
    /// Resistance in ohms.
    Ohms = Ohm,
    /// Resistance in milliohms: joints, batteries, switches as people give them.
    Milliohms = Milliohm,
    /// Resistance per length in ohms per kilometre (= milliohms per metre).
    OhmsPerKm = OhmPerKm,
    /// Power in watts.
    Watts = Watt,
    /// Energy in watt-hours.
    WattHours = WattHour,
    /// Charge in ampere-hours.
    AmpHours = AmpHour,
    /// Length in metres.
    Metres = Metre,
    /// Length in millimetres, for mechanical parts and diameters.
    Millimetres = Millimetre,
    /// Area of a conductor's metal in square millimetres.
    SquareMillimetres = SquareMillimetre,
    /// A temperature on the Celsius scale (a point, not a difference).
    Celsius = Celsius,
    /// A temperature difference in kelvins.
    Kelvins = Kelvin,
    /// Time in hours.
    Hours = Hour,
    /// Time in seconds.
    Seconds = Second,
    /// Time in days.
    Days = Day,
    /// Time in years.
    Years = Year,
    /// A share of a whole: 0.4 is shown as 40 %.
    Share = Share,
    /// Mass in kilograms.
    Kilograms = Kilogram,
    /// Linear mass in kilograms per kilometre.
    KilogramsPerKm = KilogramPerKm,
    /// Force in newtons.
    Newtons = Newton,
    /// Torque in newton metres.
    NewtonMetres = NewtonMetre,
    /// Stress in megapascals (= N/mm²).
    Megapascals = Megapascal,
    /// An angle or a latitude in degrees.
    Degrees = Degree,
    /// Let-through energy, the integral of the current squared, in A²s.
    AmpsSquaredSeconds = AmpSquaredSecond,
    /// Daily sunshine as hours at 1 kW/m².
    SunHours = SunHour,
    /// Acceleration in multiples of standard gravity.
    Gravities = Gravity,
    /// An opening in square centimetres.
    SquareCentimetres = SquareCentimetre,
    /// A flow of air in cubic metres an hour.
    CubicMetresPerHour = CubicMetrePerHour,
    /// Money in the user's own currency.
    Money = Price,
    /// A number of charge-discharge cycles.
    CycleCount = Cycle,
}

adds!(
    Volts,
    Amps,
    Ohms,
    OhmsPerKm,
    Watts,
    WattHours,
    AmpHours,
    Metres,
    Millimetres,
    SquareMillimetres,
    Kelvins,
    Hours,
    Seconds,
    Days,
    Years,
    Share,
    Kilograms,
    KilogramsPerKm,
    Newtons,
    NewtonMetres,
    Megapascals,
    Degrees,
    AmpsSquaredSeconds,
    SunHours,
    Gravities,
);

product! {
    Amps * Ohms = Volts,
    Volts * Amps = Watts,
    Watts * Hours = WattHours,
    Amps * Hours = AmpHours,
    Volts * AmpHours = WattHours,
}

impl Sub for Celsius {
    type Output = Kelvins;
    fn sub(self, o: Self) -> Kelvins {
        Kelvins::new(self.get() - o.get())
    }
}

impl Add<Kelvins> for Celsius {
    type Output = Celsius;
    fn add(self, o: Kelvins) -> Celsius {
        Celsius::new(self.get() + o.get())
    }
}

impl Sub<Kelvins> for Celsius {
    type Output = Celsius;
    fn sub(self, o: Kelvins) -> Celsius {
        Celsius::new(self.get() - o.get())
    }
}

impl Celsius {
    /// Absolute temperature in kelvins, for radiation.
    pub fn absolute(self) -> f64 {
        self.get() + 273.15
    }
}

impl Mul<Metres> for OhmsPerKm {
    type Output = Ohms;
    fn mul(self, length: Metres) -> Ohms {
        Ohms::new(self.get() * length.get() / 1000.0)
    }
}

impl Mul<Metres> for KilogramsPerKm {
    type Output = Kilograms;
    fn mul(self, length: Metres) -> Kilograms {
        Kilograms::new(self.get() * length.get() / 1000.0)
    }
}

impl From<Milliohms> for Ohms {
    fn from(m: Milliohms) -> Ohms {
        Ohms::new(m.get() / 1000.0)
    }
}

impl Ohms {
    /// From milliohms.
    pub fn from_milli(m: f64) -> Self {
        Ohms::new(m / 1000.0)
    }
}

impl Share {
    /// All of it: 100 %.
    pub const FULL: Share = Share::new(1.0);
    /// From a figure in percent: 40 gives 0.4.
    pub fn percent(p: f64) -> Self {
        Share::new(p / 100.0)
    }
}

impl Seconds {
    /// The same time in hours.
    pub fn as_hours(self) -> Hours {
        Hours::new(self.get() / 3600.0)
    }
}

impl Millimetres {
    /// The same length in metres.
    pub fn as_metres(self) -> Metres {
        Metres::new(self.get() / 1000.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::electric_current::ampere;
    use uom::si::electric_potential::volt;
    use uom::si::electrical_resistance::ohm;
    use uom::si::f64::{ElectricCurrent, ElectricalResistance};
    use uom::si::power::watt;

    /// Products against the independent units library `uom`.
    #[test]
    fn products_agree_with_uom() {
        let (i, r) = (Amps::new(12.5), Ohms::new(0.037));
        let (ui, ur) = (ElectricCurrent::new::<ampere>(12.5), ElectricalResistance::new::<ohm>(0.037));
        let u = ui * ur;
        assert!(((i * r).get() - u.get::<volt>()).abs() < 1e-12);
        assert!(((i * r * i).get() - (u * ui).get::<watt>()).abs() < 1e-12);
        assert!((i * r / i - r).get().abs() < 1e-15);
    }

    #[test]
    fn temperatures_subtract_to_a_difference() {
        assert_eq!(Celsius::new(30.0) - Celsius::new(-5.0), Kelvins::new(35.0));
        assert_eq!(Celsius::new(30.0) + Kelvins::new(5.0), Celsius::new(35.0));
    }
}
