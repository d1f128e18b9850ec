//! Fixed choices of a plan, each with its key in the file and the words that explain it.

use super::value::{Slot, Value};
use crate::catalogue::Family;
use crate::quantity::UnitSystem;
use strum::{EnumMessage, IntoStaticStr, VariantArray};

/// A choice of a plan file: a closed set of words, named as the values are; the values' comments explain them.
pub trait Choice: Copy + VariantArray + EnumMessage + Into<&'static str> + 'static {
    /// The word in the file.
    fn key(self) -> &'static str {
        self.into()
    }
    /// The value of a word.
    fn from_key(key: &str) -> Option<Self> {
        Self::VARIANTS.iter().copied().find(|value| value.key() == key)
    }
    /// Words and explanations in the order offered, for pick lists and messages.
    fn words() -> Vec<(&'static str, &'static str)> {
        Self::VARIANTS.iter().map(|value| (value.key(), value.get_documentation().unwrap_or_default())).collect()
    }
}

/// Words that plans were once written with, and what they are called now.
pub(super) const FORMER: &[(&str, &str)] = &[("nyloc", "nylon-insert")];

macro_rules! choice {
    ($($(#[$doc:meta])* $name:ident { $($(#[$about:meta])* $value:ident,)* })*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, VariantArray, EnumMessage, IntoStaticStr)]
        #[strum(serialize_all = "kebab-case")]
        pub enum $name { $($(#[$about])* $value,)* }

        impl Choice for $name {}

        impl Slot for $name {
            fn read(&self) -> Option<Value> {
                Some(Value::Text(self.key().into()))
            }
            fn write(&mut self, value: Value) {
                if let Value::Text(word) = value {
                    *self = $name::from_key(&word).unwrap_or(*self);
                }
            }
        }
    )*};
}

impl Units {
    /// The units of a system.
    pub fn of(system: UnitSystem) -> Units {
        match system {
            UnitSystem::Metric => Units::Metric,
            UnitSystem::Us => Units::Imperial,
        }
    }

    /// The system of units.
    pub fn system(self) -> UnitSystem {
        match self {
            Units::Metric => UnitSystem::Metric,
            Units::Imperial => UnitSystem::Us,
        }
    }
}

choice! {
    /// In which units lengths, masses, temperatures and torques are told.
    Units {
        /// metres, kilograms, °C, Nm
        #[default]
        Metric,
        /// feet, inches, pounds, °F, lbf ft
        Imperial,
    }
    /// How the alternator's voltage behaves.
    Alternator {
        /// holds about 14 V whenever the engine runs
        #[default]
        Fixed,
        /// the engine computer raises and lowers its voltage
        Variable,
    }
    /// Voltage of the vehicle's own electrics.
    System {
        /// one battery of 12 V starts it
        #[default]
        #[strum(serialize = "12-v")]
        V12,
        /// two batteries in series start it
        #[strum(serialize = "24-v")]
        V24,
    }
    /// What charges the service battery from the vehicle.
    ChargerKind {
        /// a converter with its own charge voltage
        #[default]
        DcDc,
        /// a relay that joins both batteries
        Relay,
        /// nothing; solar or mains only
        None,
    }
    /// Solar charge controller.
    SolarController {
        /// converts down from the array's best voltage
        #[default]
        Mppt,
        /// switches the array straight to the battery (PWM)
        Shunt,
    }
    /// How a short-circuit current of a battery is known.
    ShortCircuitBy {
        /// read in the maker's sheet
        #[default]
        Sheet,
        /// worked out from a tester's reading
        Tester,
        /// stated by the maker by the test of IEC 60896-21
        #[strum(serialize = "iec-60896-21")]
        Iec60896,
    }
    /// What makes the cut-off open.
    CutOffBy {
        /// the voltage where it senses
        #[default]
        Voltage,
        /// charge that a shunt counts, with a voltage as a floor
        Charge,
        /// the battery's own signal: its permission to discharge, or its protection
        Signal,
    }
    /// What a battery tells by an output of its own.
    Permit {
        /// that it may be charged
        #[default]
        Charge,
        /// that it may be discharged
        Discharge,
    }
    /// What charges the service battery.
    ChargedBy {
        /// the charger from the vehicle
        #[default]
        Charger,
        /// the solar controller
        Solar,
        /// the mains charger
        Mains,
    }
    /// What closes a battery's own protection again.
    Waker {
        /// itself, once the loads have gone
        #[default]
        Itself,
        /// a button on it, or its telephone app
        Button,
        /// the charger from the vehicle, where it starts on a battery that shows 0 V
        Charger,
        /// the solar controller, where it starts so
        Solar,
        /// the mains charger, where it starts so
        Mains,
    }
    /// How a load's current follows its voltage.
    LoadKind {
        /// electronics, inverter, brushless motor: less volts, more amps
        #[default]
        ConstantPower,
        /// linear LED driver: the same amps at any voltage
        ConstantCurrent,
        /// filament lamp, heater: fewer volts, fewer amps
        Resistance,
    }
    /// When a load may run.
    When {
        /// at any time
        #[default]
        Always,
        /// only while driving
        Driving,
        /// only while parked
        Parked,
        /// only by day, 06:00 to 18:00
        Day,
        /// only by night, 18:00 to 06:00
        Night,
    }
    /// The way back of a run.
    ReturnPath {
        /// a second conductor of the same size
        #[default]
        Cable,
        /// the vehicle's body
        Chassis,
    }
    /// Where the service battery stands.
    BatteryPlace {
        /// inside, in air that is changed and in which nobody sleeps
        #[default]
        Cabin,
        /// inside, where somebody sleeps
        SleepingSpace,
        /// inside, in a closed box or cupboard from which gas finds no way out
        Cabinet,
        /// in a closed box with a hose or openings to the outside alone
        VentedBox,
        /// in the floor, between floor and lining
        UnderFloor,
        /// beside the engine
        EngineBay,
        /// outside, on an open load bed
        LoadBed,
        /// outside, hung under a deck or the frame
        UnderDeck,
    }
    /// What guards a battery where it stands.
    Guard {
        /// a plate or a mesh against stones
        #[default]
        Stones,
        /// posts, holders, charger and cut-off closed against a jet of water: IPX5 or better (IEC 60529)
        Wash,
        /// a hole at the lowest place, so that no water stands
        Drain,
        /// tinned lugs, posts greased and covered, paint under every foot
        Corrosion,
        /// measured at full load: clear of the ground and of the wheel at full lock
        Clearance,
        /// 300 mm from the exhaust, or 150 mm with a shield between
        Heat,
    }
    /// A device that hangs on what holds the battery, or close beside it.
    MountedDevice {
        /// the charger that is fed from the vehicle
        #[default]
        Charger,
        /// the low-voltage disconnect
        CutOff,
    }
    /// Degree of protection against dust and water (IEC 60529; with a K ISO 20653).
    IpCode {
        /// no water may reach it
        #[default]
        Ip20,
        /// splashed from all sides
        Ip44,
        /// dust-protected, splashed from all sides
        Ip54,
        /// dust-protected, splashed with pressure
        Ip5k4k,
        /// dust-protected, jets
        Ip55,
        /// dust-tight, jets
        Ip65,
        /// dust-tight, strong jets
        Ip66,
        /// dust-tight, strong jets with pressure
        Ip6k6k,
        /// dust-tight, laid under water; of jets it says nothing
        Ip67,
        /// dust-tight, jets, and laid under water
        #[strum(serialize = "ip65-67")]
        Ip65And67,
        /// dust-tight, strong jets, and laid under water
        #[strum(serialize = "ip66-67")]
        Ip66And67,
        /// dust-tight, kept under water; of jets it says nothing
        Ip68,
        /// dust-tight, strong jets, and kept under water
        #[strum(serialize = "ip66-68")]
        Ip66And68,
        /// dust-tight, the hot jet of a steam cleaner; of other jets it says nothing
        Ip6k9k,
        /// dust-tight, strong jets, and that of a steam cleaner
        #[strum(serialize = "ip6k6k-9k")]
        Ip6k6kAnd9k,
    }
    /// What holds the service battery.
    HoldDownStyle {
        /// nothing planned here
        #[default]
        None,
        /// bent steel strips, hung on studs under a deck
        StripBasket,
        /// a tray with a rim, bolted to the floor, battery held down from above
        Tray,
        /// a closed steel box, bolted to the floor, battery held down inside
        Cabinet,
    }
    /// What the hold-down is made of.
    CarrierMetal {
        /// plain structural steel
        #[default]
        Steel,
        /// aluminium sheet that bends and welds well; kept apart from steel by paint or sealant
        Aluminium,
    }
    /// What the hold-down is bolted to.
    Deck {
        /// sheet steel, or a wall of a steel section
        #[default]
        SteelSheet,
        /// sheet aluminium, or a wall of an aluminium section
        AluminiumSheet,
        /// plywood or boards
        Plywood,
    }
    /// How the rods over a battery are held below.
    RodFoot {
        /// through a hole in the base, with nut and washer under it
        #[default]
        Nut,
        /// bent to a hook that reaches under the base
        Hook,
    }
    /// What a board is.
    BoardKind {
        /// a fuse for each way
        #[default]
        FuseBox,
        /// a breaker for each way
        BreakerPanel,
        /// a bare bar; each way has its fuse beside it
        BusBar,
    }
    /// What a cable meets on its way.
    Obstacle {
        /// a metal edge, or a hole in sheet metal
        #[default]
        Edge,
        /// a hinge, or another part that moves
        Hinge,
        /// an exhaust without heat shield, less than 200 mm away
        Exhaust,
        /// a fuel or gas line to which it would be fastened
        FuelLine,
        /// a brake line to which it would be fastened
        BrakeLine,
        /// a tyre that could throw stones at it
        Tyre,
    }
    /// What keeps the nuts from coming undone.
    Locking {
        /// plain nut alone
        #[default]
        None,
        /// two nuts tightened against each other
        DoubleNut,
        /// prevailing torque nut with a nylon insert (ISO 7040), used once
        NylonInsert,
    }
    /// Which conductor sizes to choose from.
    SizeFamily {
        /// mm² sizes of plain copper
        #[default]
        Metric,
        /// mm² sizes of tinned copper, for damp and salt
        Tinned,
        /// American Wire Gauge, the same as Brown & Sharpe
        Awg,
        /// mm² sizes of road-vehicle cable (ISO 6722-1, ISO 19642)
        RoadVehicle,
    }
}

/// What of water something stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Water {
    /// Not even splashes.
    Dry,
    /// Splashes from all sides.
    Splashed,
    /// Jets.
    Jets,
}

impl IpCode {
    /// As it is stamped on a case: `IP66-67`.
    pub fn stamped(self) -> String {
        self.key().to_uppercase()
    }

    /// By its second figure. IEC 60529 clause 6 (from memory): up to 6 a figure holds for those below it; 7, 8 or 9 by
    /// itself says nothing of the jets of 5 and 6.
    pub fn water(self) -> Water {
        match self {
            IpCode::Ip20 => Water::Dry,
            IpCode::Ip44 | IpCode::Ip54 | IpCode::Ip5k4k | IpCode::Ip67 | IpCode::Ip68 | IpCode::Ip6k9k => {
                Water::Splashed
            }
            IpCode::Ip55
            | IpCode::Ip65
            | IpCode::Ip66
            | IpCode::Ip6k6k
            | IpCode::Ip65And67
            | IpCode::Ip66And67
            | IpCode::Ip66And68
            | IpCode::Ip6k6kAnd9k => Water::Jets,
        }
    }
}

impl SizeFamily {
    /// The rows of the catalogue that belong to it.
    pub fn family(self) -> Family {
        match self {
            SizeFamily::Metric => Family::Metric,
            SizeFamily::Tinned => Family::Tinned,
            SizeFamily::Awg => Family::Awg,
            SizeFamily::RoadVehicle => Family::RoadVehicle,
        }
    }
}

/// Words of a choice, each as often as it is named.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Several<C>(pub Vec<C>);

/// What a cable meets on its way.
pub type Passes = Several<Obstacle>;

impl<C> Default for Several<C> {
    fn default() -> Self {
        Several(Vec::new())
    }
}

impl<C: PartialEq> Several<C> {
    /// How often it is named.
    pub fn count(&self, word: C) -> usize {
        self.0.iter().filter(|w| **w == word).count()
    }
}

impl<C: Choice> Several<C> {
    /// As one text.
    pub fn words(&self) -> String {
        self.0.iter().map(|o| o.key()).collect::<Vec<_>>().join(", ")
    }
}

impl<C: Choice> Slot for Several<C> {
    fn read(&self) -> Option<Value> {
        Some(Value::Text(self.words()))
    }
    fn write(&mut self, value: Value) {
        if let Value::Text(words) = value {
            self.0 = words.split(',').filter_map(|word| C::from_key(word.trim())).collect();
        }
    }
}
