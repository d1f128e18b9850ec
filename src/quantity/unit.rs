//! The units the program knows at run time, their symbols and how people type them.

/// One spelling of a unit that a person may type: value in the unit = typed × factor + offset.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spelling {
    /// In small letters.
    pub(super) name: &'static str,
    /// Of what is typed.
    pub(super) factor: f64,
    /// Added to it.
    pub(super) offset: f64,
}

impl Spelling {
    const fn of(name: &'static str) -> Self {
        Spelling { name, factor: 1.0, offset: 0.0 }
    }
    const fn times(self, factor: f64) -> Self {
        Spelling { factor, ..self }
    }
    const fn plus(self, offset: f64) -> Self {
        Spelling { offset, ..self }
    }
}

macro_rules! units {
    ($($(#[$doc:meta])* $unit:ident $symbol:literal $suffix:literal $example:literal
        [$($name:literal $(= $factor:expr $(; $offset:expr)?)?),*];)*) => {
        /// A unit of measurement. Numbers tagged with a `Unit` are always in exactly
        /// that unit; other spellings and multiples are converted when read.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)] // the names say it
        pub enum Unit { $($(#[$doc])* $unit,)* }

        impl Unit {
            /// All of them.
            pub const ALL: &[Unit] = &[$(Unit::$unit),*];
            /// Symbol shown after a number; empty for pure numbers.
            pub fn symbol(self) -> &'static str {
                match self { $(Unit::$unit => $symbol,)* }
            }
            /// Suffix that a plan-file key of this unit carries (`_v`, `_mm2`), or "".
            pub fn key_suffix(self) -> &'static str {
                match self { $(Unit::$unit => $suffix,)* }
            }
            /// An example of how a person may type this unit, for messages.
            pub fn example(self) -> &'static str {
                match self { $(Unit::$unit => $example,)* }
            }
            /// Spellings a person may type. The first is the shown one.
            pub(super) fn spellings(self) -> &'static [Spelling] {
                match self {
                    $(Unit::$unit => const { &[$(Spelling::of($name)$(.times($factor)$(.plus($offset))?)?),*] },)*
                }
            }
        }
    };
}

// Unit, symbol, suffix of keys, example, spellings each with its factor and offset.
units! {
    Volt "V" "_v" "12.8 V" ["v", "volt", "volts", "mv" = 1e-3];
    Amp "A" "_a" "3.5 A" ["a", "amp", "amps", "ma" = 1e-3, "ka" = 1e3];
    Ohm "Ω" "" "0.2 ohm" ["ω", "ohm", "ohms", "mω" = 1e-3, "mohm" = 1e-3];
    Milliohm "mΩ" "_mohm" "1.5 mohm" ["mω", "mohm", "ω" = 1e3, "ohm" = 1e3];
    OhmPerKm "Ω/km" "" "2.5" ["ω/km", "ohm/km", "mω/m", "mohm/m"];
    Watt "W" "_w" "45 W" ["w", "watt", "watts", "kw" = 1e3, "mw" = 1e-3];
    WattHour "Wh" "_wh" "500 Wh" ["wh", "kwh" = 1e3];
    AmpHour "Ah" "_ah" "100 Ah" ["ah", "mah" = 1e-3];
    Metre "m" "_m" "6.2 m or 20 ft"
        ["m", "cm" = 0.01, "mm" = 0.001, "ft" = 0.3048, "feet" = 0.3048, "foot" = 0.3048, "'" = 0.3048, "in" = 0.0254, "inch" = 0.0254, "\"" = 0.0254];
    Millimetre "mm" "_mm" "250 mm or 10 in"
        ["mm", "cm" = 10.0, "m" = 1000.0, "in" = 25.4, "inch" = 25.4, "\"" = 25.4];
    SquareMillimetre "mm²" "_mm2" "25 mm2 or 4 AWG"
        ["mm²", "mm2", "mm^2", "sqmm", "sq mm", "cmil" = 5.067_074_790_974_977e-4, "kcmil" = 0.506_707_479_097_497_7];
    Celsius "°C" "_c" "-5 °C or 23 °F" ["°c", "c", "°f" = 5.0 / 9.0; -160.0 / 9.0, "f" = 5.0 / 9.0; -160.0 / 9.0];
    Kelvin "K" "_k" "10 K" ["k", "°f diff" = 5.0 / 9.0];
    Hour "h" "_h" "1h30 or 90 min"
        ["h", "hr", "hour", "hours", "min" = 1.0 / 60.0, "m" = 1.0 / 60.0, "s" = 1.0 / 3600.0, "d" = 24.0];
    Second "s" "_s" "0.5 s or 500 ms" ["s", "sec", "ms" = 1e-3, "min" = 60.0, "h" = 3600.0];
    Share "%" "" "40%" ["%" = 0.01, "percent" = 0.01];
    Kilogram "kg" "_kg" "12 kg or 26 lb" ["kg", "g" = 1e-3, "lb" = 0.453_592_37, "lbs" = 0.453_592_37];
    Newton "N" "" "2.5" ["n", "kn" = 1e3];
    NewtonMetre "Nm" "_nm" "20 Nm" ["nm", "n m", "lbf ft" = 1.355_817_948];
    Megapascal "MPa" "" "2.5" ["mpa", "n/mm²", "n/mm2"];
    Degree "°" "_deg" "54°" ["°", "deg"];
    AmpSquaredSecond "A²s" "" "2.5" ["a²s", "a2s"];
    VoltPerKelvin "V/K" "" "2.5" ["v/k", "mv/k" = 1e-3];
    SharePerKelvin "%/K" "" "1.2 %/K" ["%/k" = 0.01];
    /// Hours at 1 kW/m², equal to kWh/m² a day.
    SunHour "sun h" "" "2.5" ["sun h", "h"];
    Day "d" "" "1.5 days" ["d", "day", "days", "week" = 7.0, "weeks" = 7.0, "month" = 30.4, "months" = 30.4];
    Year "years" "" "2.5" ["a", "y", "year", "years"];
    Cycle "cycles" "" "2.5" ["cycles"];
    /// A plain count of things.
    Count "" "" "3" [];
    /// A multiple of something, shown as `×`.
    Times "×" "" "4" ["×", "x", "times"];
    /// Acceleration in multiples of standard gravity.
    Gravity "g" "_g" "2.5" ["g"];
    /// Money in whatever currency the user keeps; no symbol.
    Price "" "" "250" [];
    SquareCentimetre "cm²" "_cm2" "20 cm2" ["cm²", "cm2"];
    CubicMetrePerHour "m³/h" "_m3_per_h" "2.5" ["m³/h", "m3/h"];
    KilogramPerKm "kg/km" "" "2.5" ["kg/km"];
    WattPerMetreKelvin "W/(m K)" "" "2.5" ["w/(m k)"];
    WattPerSquareMetreKelvin "W/(m² K)" "" "2.5" ["w/(m² k)"];
    /// A pure number without unit.
    Number "" "" "2.5" [];
}

impl Unit {
    /// The smallest amount that is not nothing: far below what a meter, a tape or
    /// a label in a vehicle shows. What is less is a slip, and as a divisor it
    /// would blow up whatever is worked out from it.
    pub fn smallest(self) -> f64 {
        match self {
            Unit::Hour | Unit::Second | Unit::Share | Unit::Degree => 1e-4,
            Unit::SharePerKelvin | Unit::VoltPerKelvin => 1e-6,
            _ => 1e-3,
        }
    }
}
