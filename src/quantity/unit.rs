//! The units the program knows at run time, their symbols and how people type them.

/// A unit of measurement. Numbers tagged with a `Unit` are always in exactly
/// that unit; other spellings and multiples are converted when read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)] // the names say it
pub enum Unit {
    Volt,
    Amp,
    Ohm,
    Milliohm,
    OhmPerKm,
    Watt,
    WattHour,
    AmpHour,
    Metre,
    Millimetre,
    SquareMillimetre,
    Celsius,
    Kelvin,
    Hour,
    Second,
    Share,
    Kilogram,
    Newton,
    NewtonMetre,
    Megapascal,
    Degree,
    AmpSquaredSecond,
    VoltPerKelvin,
    SharePerKelvin,
    /// Hours at 1 kW/m², equal to kWh/m² a day.
    SunHour,
    Day,
    Year,
    Cycle,
    /// A plain count of things.
    Count,
    /// A multiple of something, shown as `×`.
    Times,
    /// Acceleration in multiples of standard gravity.
    Gravity,
    /// Money in whatever currency the user keeps; no symbol.
    Price,
    KilogramPerKm,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
    /// A pure number without unit.
    Number,
}

impl Unit {
    /// Symbol shown after a number; empty for pure numbers.
    pub fn symbol(self) -> &'static str {
        use Unit::*;
        match self {
            Volt => "V",
            Amp => "A",
            Ohm => "Ω",
            Milliohm => "mΩ",
            OhmPerKm => "Ω/km",
            Watt => "W",
            WattHour => "Wh",
            AmpHour => "Ah",
            Metre => "m",
            Millimetre => "mm",
            SquareMillimetre => "mm²",
            Celsius => "°C",
            Kelvin => "K",
            Hour => "h",
            Second => "s",
            Share => "%",
            Kilogram => "kg",
            Newton => "N",
            NewtonMetre => "Nm",
            Megapascal => "MPa",
            Degree => "°",
            AmpSquaredSecond => "A²s",
            VoltPerKelvin => "V/K",
            SharePerKelvin => "%/K",
            SunHour => "sun h",
            Day => "d",
            Year => "years",
            Cycle => "cycles",
            Times => "×",
            Gravity => "g",
            KilogramPerKm => "kg/km",
            WattPerMetreKelvin => "W/(m K)",
            WattPerSquareMetreKelvin => "W/(m² K)",
            Count | Price | Number => "",
        }
    }

    /// Suffix that a plan-file key of this unit carries (`_v`, `_mm2`), or "".
    pub fn key_suffix(self) -> &'static str {
        use Unit::*;
        match self {
            Volt => "_v",
            Amp => "_a",
            Milliohm => "_mohm",
            Watt => "_w",
            AmpHour => "_ah",
            WattHour => "_wh",
            Metre => "_m",
            Millimetre => "_mm",
            SquareMillimetre => "_mm2",
            Celsius => "_c",
            Kelvin => "_k",
            Hour => "_h",
            Second => "_s",
            Kilogram => "_kg",
            Degree => "_deg",
            NewtonMetre => "_nm",
            Gravity => "_g",
            _ => "",
        }
    }

    /// Spellings a person may type, each with factor and offset:
    /// value in this unit = typed × factor + offset. The first is the shown one.
    pub(super) fn spellings(self) -> &'static [(&'static str, f64, f64)] {
        use Unit::*;
        match self {
            Volt => &[("v", 1.0, 0.0), ("volt", 1.0, 0.0), ("volts", 1.0, 0.0), ("mv", 1e-3, 0.0)],
            Amp => &[("a", 1.0, 0.0), ("amp", 1.0, 0.0), ("amps", 1.0, 0.0), ("ma", 1e-3, 0.0), ("ka", 1e3, 0.0)],
            Ohm => &[("ω", 1.0, 0.0), ("ohm", 1.0, 0.0), ("ohms", 1.0, 0.0), ("mω", 1e-3, 0.0), ("mohm", 1e-3, 0.0)],
            Milliohm => &[("mω", 1.0, 0.0), ("mohm", 1.0, 0.0), ("ω", 1e3, 0.0), ("ohm", 1e3, 0.0)],
            OhmPerKm => &[("ω/km", 1.0, 0.0), ("ohm/km", 1.0, 0.0), ("mω/m", 1.0, 0.0), ("mohm/m", 1.0, 0.0)],
            Watt => &[("w", 1.0, 0.0), ("watt", 1.0, 0.0), ("watts", 1.0, 0.0), ("kw", 1e3, 0.0), ("mw", 1e-3, 0.0)],
            WattHour => &[("wh", 1.0, 0.0), ("kwh", 1e3, 0.0)],
            AmpHour => &[("ah", 1.0, 0.0), ("mah", 1e-3, 0.0)],
            Metre => &[
                ("m", 1.0, 0.0),
                ("cm", 0.01, 0.0),
                ("mm", 0.001, 0.0),
                ("ft", 0.3048, 0.0),
                ("feet", 0.3048, 0.0),
                ("foot", 0.3048, 0.0),
                ("'", 0.3048, 0.0),
                ("in", 0.0254, 0.0),
                ("inch", 0.0254, 0.0),
                ("\"", 0.0254, 0.0),
            ],
            Millimetre => &[
                ("mm", 1.0, 0.0),
                ("cm", 10.0, 0.0),
                ("m", 1000.0, 0.0),
                ("in", 25.4, 0.0),
                ("inch", 25.4, 0.0),
                ("\"", 25.4, 0.0),
            ],
            SquareMillimetre => &[
                ("mm²", 1.0, 0.0),
                ("mm2", 1.0, 0.0),
                ("mm^2", 1.0, 0.0),
                ("sqmm", 1.0, 0.0),
                ("sq mm", 1.0, 0.0),
                ("cmil", 5.067_074_790_974_977e-4, 0.0),
                ("kcmil", 0.506_707_479_097_497_7, 0.0),
            ],
            Celsius => {
                &[("°c", 1.0, 0.0), ("c", 1.0, 0.0), ("°f", 5.0 / 9.0, -160.0 / 9.0), ("f", 5.0 / 9.0, -160.0 / 9.0)]
            }
            Kelvin => &[("k", 1.0, 0.0), ("°f diff", 5.0 / 9.0, 0.0)],
            Hour => &[
                ("h", 1.0, 0.0),
                ("hr", 1.0, 0.0),
                ("hour", 1.0, 0.0),
                ("hours", 1.0, 0.0),
                ("min", 1.0 / 60.0, 0.0),
                ("m", 1.0 / 60.0, 0.0),
                ("s", 1.0 / 3600.0, 0.0),
                ("d", 24.0, 0.0),
            ],
            Second => &[("s", 1.0, 0.0), ("sec", 1.0, 0.0), ("ms", 1e-3, 0.0), ("min", 60.0, 0.0), ("h", 3600.0, 0.0)],
            Share => &[("%", 0.01, 0.0), ("percent", 0.01, 0.0)],
            SharePerKelvin => &[("%/k", 0.01, 0.0)],
            Kilogram => &[("kg", 1.0, 0.0), ("g", 1e-3, 0.0), ("lb", 0.453_592_37, 0.0), ("lbs", 0.453_592_37, 0.0)],
            Newton => &[("n", 1.0, 0.0), ("kn", 1e3, 0.0)],
            NewtonMetre => &[("nm", 1.0, 0.0), ("n m", 1.0, 0.0), ("lbf ft", 1.355_817_948, 0.0)],
            Megapascal => &[("mpa", 1.0, 0.0), ("n/mm²", 1.0, 0.0), ("n/mm2", 1.0, 0.0)],
            Degree => &[("°", 1.0, 0.0), ("deg", 1.0, 0.0)],
            AmpSquaredSecond => &[("a²s", 1.0, 0.0), ("a2s", 1.0, 0.0)],
            VoltPerKelvin => &[("v/k", 1.0, 0.0), ("mv/k", 1e-3, 0.0)],
            SunHour => &[("sun h", 1.0, 0.0), ("h", 1.0, 0.0)],
            Day => &[("d", 1.0, 0.0), ("day", 1.0, 0.0), ("days", 1.0, 0.0)],
            Year => &[("a", 1.0, 0.0), ("y", 1.0, 0.0), ("year", 1.0, 0.0), ("years", 1.0, 0.0)],
            Cycle => &[("cycles", 1.0, 0.0)],
            Times => &[("×", 1.0, 0.0), ("x", 1.0, 0.0), ("times", 1.0, 0.0)],
            Gravity => &[("g", 1.0, 0.0)],
            KilogramPerKm => &[("kg/km", 1.0, 0.0)],
            WattPerMetreKelvin => &[("w/(m k)", 1.0, 0.0)],
            WattPerSquareMetreKelvin => &[("w/(m² k)", 1.0, 0.0)],
            Count | Price | Number => &[],
        }
    }

    /// An example of how a person may type this unit, for messages.
    pub fn example(self) -> &'static str {
        use Unit::*;
        match self {
            Volt => "12.8 V",
            Amp => "3.5 A",
            Ohm => "0.2 ohm",
            Milliohm => "1.5 mohm",
            Watt => "45 W",
            WattHour => "500 Wh",
            AmpHour => "100 Ah",
            Metre => "6.2 m or 20 ft",
            Millimetre => "250 mm or 10 in",
            SquareMillimetre => "25 mm2 or 4 AWG",
            Celsius => "-5 °C or 23 °F",
            Kelvin => "10 K",
            Hour => "1h30 or 90 min",
            Second => "0.5 s or 500 ms",
            Share => "40%",
            Kilogram => "12 kg or 26 lb",
            Day => "1.5 days",
            Degree => "54°",
            Times => "4",
            Count => "3",
            SharePerKelvin => "1.2 %/K",
            SunHour => "2.5",
            Price => "250",
            NewtonMetre => "20 Nm",
            _ => "2.5",
        }
    }
}
