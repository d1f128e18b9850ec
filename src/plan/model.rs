//! The plan: what the user says, with every default filled in.
//!
//! What the engine may choose is an `Option`: absent means 'choose for me',
//! present means 'check what I have'. Each value's key, label, unit, range and
//! help stand in `fields`, not here.

use super::board::Board;
use super::choice::{Alternator, ChargerKind, SizeFamily, SolarController};
use super::hold_down::{HoldDown, Stud};
use super::load::Load;
use super::price::Price;
use super::reading::{Meter, Reading};
use super::run::Run;
use super::windows::{Weekdays, Windows};
use crate::quantity::*;

/// Names of points that mean a device and need no run to exist.
pub mod point {
    /// Posts of the service battery.
    pub const SERVICE_BATTERY: &str = "service battery";
    /// Posts of the starter battery.
    pub const STARTER_BATTERY: &str = "starter battery";
    /// The DC-DC charger (or relay): its input on the starter side, its output on the service side.
    pub const CHARGER: &str = "charger";
    /// The low-voltage disconnect.
    pub const CUT_OFF: &str = "cut-off";
    /// In a reading's `with`: the charger feeds the service battery; what is
    /// measured is the current out of its output.
    pub const CHARGING: &str = "charging";
}

/// A whole plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// What it is about.
    pub job: Job,
    /// Air and sun.
    pub surroundings: Surroundings,
    /// The vehicle's own electrics.
    pub vehicle: Vehicle,
    /// The battery that starts the engine.
    pub starter_battery: StarterBattery,
    /// The battery being planned.
    pub service_battery: ServiceBattery,
    /// What charges it while driving.
    pub charger: Charger,
    /// The low-voltage disconnect.
    pub cut_off: CutOff,
    /// Solar array; none when its rating is zero.
    pub solar: Solar,
    /// Charger from the mains; none when its current is zero.
    pub mains: Mains,
    /// Inverter; none when its rating is zero.
    pub inverter: Inverter,
    /// What holds the service battery.
    pub hold_down: HoldDown,
    /// Meters used for the readings.
    pub meter: Meter,
    /// House rules of this plan.
    pub rules: PlanRules,
    /// What uses energy.
    pub loads: Vec<Load>,
    /// Fuse boxes, breaker panels, bus bars.
    pub boards: Vec<Board>,
    /// Cables.
    pub runs: Vec<Run>,
    /// Studs of the carrier by position; an even pattern when there are none.
    pub studs: Vec<Stud>,
    /// What was measured on the finished wiring.
    pub readings: Vec<Reading>,
    /// What batteries cost where the user buys them.
    pub prices: Vec<Price>,
}

/// Title and notes.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Job {
    pub title: String,
    /// Where the vehicle is registered, for what the law asks there.
    pub region: Option<String>,
    pub notes: String,
}

/// Air and sun around the vehicle.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Surroundings {
    pub coldest: Celsius,
    pub hottest: Celsius,
    pub engine_bay: Celsius,
    pub mean: Celsius,
    pub daily_swing: Kelvins,
    pub yearly_swing: Kelvins,
    pub latitude: Degrees,
}

impl Default for Surroundings {
    fn default() -> Self {
        Surroundings {
            coldest: Celsius::new(-5.0),
            hottest: Celsius::new(40.0),
            engine_bay: Celsius::new(80.0),
            mean: Celsius::new(12.0),
            daily_swing: Kelvins::new(10.0),
            yearly_swing: Kelvins::new(18.0),
            latitude: Degrees::new(50.0),
        }
    }
}

/// Alternator, driving and the way back through the body.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Vehicle {
    pub alternator_rating: Amps,
    pub alternator: Alternator,
    pub alternator_voltage: Volts,
    /// Lowest steady voltage at the starter battery while driving; the catalogue's figure when absent.
    pub lowest_voltage: Option<Volts>,
    pub own_draw: Amps,
    /// Hot output at idle as a share of the rating; the catalogue's figure when absent.
    pub idle_share: Option<Share>,
    /// Hot output at road speed as a share of the rating; the catalogue's figure when absent.
    pub road_share: Option<Share>,
    /// Share of the driving time spent at idle.
    pub idling: Share,
    pub driving: Windows,
    pub driving_days: Weekdays,
    /// Resistance of the body between the far earth point and the battery's.
    pub chassis_mohm: Milliohms,
}

impl Default for Vehicle {
    fn default() -> Self {
        Vehicle {
            alternator_rating: Amps::new(90.0),
            alternator: Alternator::Fixed,
            alternator_voltage: Volts::new(14.2),
            lowest_voltage: None,
            own_draw: Amps::new(30.0),
            idle_share: None,
            road_share: None,
            idling: Share::new(0.2),
            driving: Windows::default(),
            driving_days: Weekdays::all(),
            chassis_mohm: Milliohms::new(5.0),
        }
    }
}

/// The battery that starts the engine.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct StarterBattery {
    pub chemistry: String,
    pub capacity: AmpHours,
    /// Internal resistance; from the chemistry when absent.
    pub resistance_mohm: Option<Milliohms>,
    /// Charge below which it might not start the engine.
    pub keep: Share,
}

impl Default for StarterBattery {
    fn default() -> Self {
        StarterBattery {
            chemistry: "flooded".into(),
            capacity: AmpHours::new(70.0),
            resistance_mohm: None,
            keep: Share::new(0.6),
        }
    }
}

/// The battery being planned.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct ServiceBattery {
    pub chemistry: String,
    /// Capacity of the whole bank at the chemistry's rated hours; chosen when absent.
    pub capacity: Option<AmpHours>,
    pub in_parallel: Option<u32>,
    pub days_without_charge: Days,
    /// Depth of discharge to plan with; the chemistry's when absent.
    pub depth: Option<Share>,
    /// Capacity left when it is replaced; the chemistry's when absent.
    pub end_of_life: Option<Share>,
    pub design_margin: f64,
    pub days_in_use: u32,
    pub resistance_mohm: Option<Milliohms>,
    pub mass: Option<Kilograms>,
    /// Kept warm enough to charge by a heater pad.
    pub heated: bool,
    /// Is not to be changed by what mends the plan.
    pub keep: bool,
}

impl Default for ServiceBattery {
    fn default() -> Self {
        ServiceBattery {
            chemistry: "agm".into(),
            capacity: None,
            in_parallel: None,
            days_without_charge: Days::new(1.0),
            depth: None,
            end_of_life: None,
            design_margin: 1.1,
            days_in_use: 60,
            resistance_mohm: None,
            mass: None,
            heated: false,
            keep: false,
        }
    }
}

/// What charges the service battery while driving.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Charger {
    pub kind: ChargerKind,
    /// Output current; chosen when absent.
    pub current: Option<Amps>,
    /// Charge voltage; the chemistry's when absent.
    pub output_voltage: Option<Volts>,
    pub efficiency: Share,
    /// Lowest voltage at its own terminals it works with; the catalogue's when absent.
    pub lowest_input: Option<Volts>,
    /// Drop class of its feed.
    pub drop: String,
    /// An ignition or engine-running wire switches it.
    pub enable_signal: bool,
    /// Voltage at its input above which it starts without an enable signal.
    pub engages_at: Volts,
    /// Voltage at its input below which it stops.
    pub releases_at: Volts,
    pub standing_draw: Amps,
    /// Is not to be changed by what mends the plan.
    pub keep: bool,
}

impl Default for Charger {
    fn default() -> Self {
        Charger {
            kind: ChargerKind::DcDc,
            current: None,
            output_voltage: None,
            efficiency: Share::new(0.9),
            lowest_input: None,
            drop: "ordinary".into(),
            enable_signal: true,
            engages_at: Volts::new(13.3),
            releases_at: Volts::new(12.8),
            standing_draw: Amps::new(0.005),
            keep: false,
        }
    }
}

/// The low-voltage disconnect.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct CutOff {
    /// Cut-off voltage at the sensing point; chosen when absent.
    pub cut: Option<Volts>,
    /// Reconnect voltage; chosen when absent.
    pub reconnect: Option<Volts>,
    pub delay: Option<Seconds>,
    /// Charge to keep in the battery; the chemistry's when absent.
    pub reserve: Option<Share>,
    /// Point whose voltage it watches.
    pub senses_at: String,
    /// Smallest step of its setting.
    pub step: Volts,
    pub lowest_setting: Volts,
    pub highest_setting: Volts,
    /// Longest delay it can be set to.
    pub longest_delay: Seconds,
    /// Current it can carry and switch; chosen when absent.
    pub rating: Option<Amps>,
    pub standing_draw: Amps,
}

impl Default for CutOff {
    fn default() -> Self {
        CutOff {
            cut: None,
            reconnect: None,
            delay: None,
            reserve: None,
            senses_at: point::CUT_OFF.into(),
            step: Volts::new(0.1),
            lowest_setting: Volts::new(9.5),
            highest_setting: Volts::new(14.0),
            longest_delay: Seconds::new(90.0),
            rating: None,
            standing_draw: Amps::new(0.01),
        }
    }
}

/// Solar array.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Solar {
    pub array: Watts,
    pub controller: SolarController,
    /// Peak-sun hours of a usual day in use; from latitude and season when absent.
    pub sun_hours: Option<SunHours>,
    /// Share of the rating that reaches the battery; the catalogue's when absent.
    pub derating: Option<Share>,
    /// Maximum-power voltage of the array, for a shunt controller.
    pub array_voltage: Volts,
    pub at: String,
}

impl Default for Solar {
    fn default() -> Self {
        Solar {
            array: Watts::ZERO,
            controller: SolarController::Mppt,
            sun_hours: None,
            derating: None,
            array_voltage: Volts::new(18.0),
            at: point::SERVICE_BATTERY.into(),
        }
    }
}

/// Charger from the mains.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Mains {
    pub current: Amps,
    pub windows: Windows,
    pub weekdays: Weekdays,
    pub at: String,
}

impl Default for Mains {
    fn default() -> Self {
        Mains {
            current: Amps::ZERO,
            windows: Windows::default(),
            weekdays: Weekdays::none(),
            at: point::SERVICE_BATTERY.into(),
        }
    }
}

/// Inverter from 12 V to mains voltage.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Inverter {
    pub rating: Watts,
    pub at: String,
    pub efficiency: Share,
    pub idle_draw: Watts,
    pub hours_a_day: Hours,
    /// It switches itself off below this.
    pub own_cut: Volts,
    pub drop: String,
}

impl Default for Inverter {
    fn default() -> Self {
        Inverter {
            rating: Watts::ZERO,
            at: String::new(),
            efficiency: Share::new(0.88),
            idle_draw: Watts::new(8.0),
            hours_a_day: Hours::new(2.0),
            own_cut: Volts::new(10.5),
            drop: "critical".into(),
        }
    }
}

/// House rules of this plan, each from the catalogue when absent.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct PlanRules {
    pub sizes: SizeFamily,
    pub placement: Option<String>,
    pub fuse_loading: Option<Share>,
    pub drop_critical: Option<Share>,
    pub drop_ordinary: Option<Share>,
    pub drop_tolerant: Option<Share>,
    pub smallest: Option<SquareMillimetres>,
    /// Most different sizes to buy.
    pub most_sizes: Option<u32>,
}
