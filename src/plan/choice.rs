//! Fixed choices of a plan, each with its key in the file and the words that explain it.

use super::value::{Slot, Value};

/// A choice of a plan file: a closed set of words.
pub trait Choice: Sized + Copy + 'static {
    /// All values with key and explanation, in the order offered.
    const ALL: &'static [(Self, &'static str, &'static str)];
    /// The word in the file.
    fn key(self) -> &'static str;
    /// The value of a word.
    fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, k, _)| *k == key).map(|(v, _, _)| *v)
    }
    /// Words and explanations without the values, for pick lists and messages.
    fn words() -> Vec<(&'static str, &'static str)> {
        Self::ALL.iter().map(|(_, k, w)| (*k, *w)).collect()
    }
}

/// Words that plans were once written with, and what they are called now.
pub(super) const FORMER: &[(&str, &str)] = &[("nyloc", "nylon-insert")];

macro_rules! choice {
    ($($(#[$doc:meta])* $name:ident { $first:ident = $fkey:literal : $fwords:literal, $($value:ident = $key:literal : $words:literal,)* })*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
        pub enum $name {
            #[doc = $fwords] #[default] $first,
            $(#[doc = $words] $value,)*
        }
        impl Choice for $name {
            const ALL: &'static [(Self, &'static str, &'static str)] =
                &[($name::$first, $fkey, $fwords), $(($name::$value, $key, $words),)*];
            fn key(self) -> &'static str {
                match self { $name::$first => $fkey, $($name::$value => $key,)* }
            }
        }
        impl Slot for $name {
            fn read(&self) -> Option<Value> {
                Some(Value::Text(self.key().into()))
            }
            fn write(&mut self, value: Value) {
                if let Value::Text(word) = value {
                    if let Some(choice) = $name::from_key(&word) {
                        *self = choice;
                    }
                }
            }
        }
    )*};
}

choice! {
    /// How the alternator's voltage behaves.
    Alternator {
        Fixed = "fixed": "holds about 14 V whenever the engine runs",
        Variable = "variable": "the engine computer raises and lowers its voltage",
    }
    /// What charges the service battery from the vehicle.
    ChargerKind {
        DcDc = "dc-dc": "a converter with its own charge voltage",
        Relay = "relay": "a relay that joins both batteries",
        None = "none": "nothing; solar or mains only",
    }
    /// Solar charge controller.
    SolarController {
        Mppt = "mppt": "converts down from the array's best voltage",
        Shunt = "shunt": "switches the array straight to the battery (PWM)",
    }
    /// How a load's current follows its voltage.
    LoadKind {
        ConstantPower = "constant-power": "electronics, inverter, brushless motor: less volts, more amps",
        ConstantCurrent = "constant-current": "linear LED driver: the same amps at any voltage",
        Resistance = "resistance": "filament lamp, heater: fewer volts, fewer amps",
    }
    /// When a load may run.
    When {
        Always = "always": "at any time",
        Driving = "driving": "only while driving",
        Parked = "parked": "only while parked",
        Day = "day": "only by day, 06:00 to 18:00",
        Night = "night": "only by night, 18:00 to 06:00",
    }
    /// The way back of a run.
    ReturnPath {
        Cable = "cable": "a second conductor of the same size",
        Chassis = "chassis": "the vehicle's body",
    }
    /// What holds the service battery.
    HoldDownStyle {
        None = "none": "nothing planned here",
        StripBasket = "strip-basket": "bent steel strips, hung on studs under a deck",
        Tray = "tray": "a tray with a rim, bolted to the floor, battery held down from above",
        Cabinet = "cabinet": "a closed steel box, bolted to the floor, battery held down inside",
    }
    /// What a board is.
    BoardKind {
        FuseBox = "fuse-box": "a fuse for each way",
        BreakerPanel = "breaker-panel": "a breaker for each way",
        BusBar = "bus-bar": "a bare bar; each way has its fuse beside it",
    }
    /// What a cable meets on its way.
    Obstacle {
        Edge = "edge": "a metal edge, or a hole in sheet metal",
        Hinge = "hinge": "a hinge, or another part that moves",
        Exhaust = "exhaust": "an exhaust without heat shield, less than 200 mm away",
        FuelLine = "fuel-line": "a fuel or gas line to which it would be fastened",
        BrakeLine = "brake-line": "a brake line to which it would be fastened",
        Tyre = "tyre": "a tyre that could throw stones at it",
    }
    /// What keeps the nuts from coming undone.
    Locking {
        None = "none": "plain nut alone",
        DoubleNut = "double-nut": "two nuts tightened against each other",
        NylonInsert = "nylon-insert": "prevailing torque nut with a nylon insert (ISO 7040), used once",
    }
    /// Which conductor sizes to choose from.
    SizeFamily {
        Metric = "metric": "mm² sizes of plain copper",
        Tinned = "tinned": "mm² sizes of tinned copper, for damp and salt",
        Awg = "awg": "American Wire Gauge, the same as Brown & Sharpe",
        RoadVehicle = "road-vehicle": "mm² sizes of road-vehicle cable (ISO 6722-1, ISO 19642)",
    }
}

/// What a cable meets on its way, each as often as it is named.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Passes(pub Vec<Obstacle>);

impl Passes {
    /// How often it meets this.
    pub fn count(&self, obstacle: Obstacle) -> usize {
        self.0.iter().filter(|o| **o == obstacle).count()
    }
}

impl Slot for Passes {
    fn read(&self) -> Option<Value> {
        Some(Value::Text(self.0.iter().map(|o| o.key()).collect::<Vec<_>>().join(", ")))
    }
    fn write(&mut self, value: Value) {
        if let Value::Text(words) = value {
            self.0 = words.split(',').filter_map(|word| Obstacle::from_key(word.trim())).collect();
        }
    }
}
