//! The plan: what the user says, with every default filled in.
//!
//! What the engine may choose is an `Option`: absent means 'choose for me',
//! present means 'check what I have'. What stands with each member is said in `table`.

use super::beneath::{AsBuilt, Beneath, Drilled};
use super::block::Block;
use super::board::Board;
use super::choice::{
    Alternator, BatteryPlace, ChargedBy, ChargerKind, Choice, Guard, Permit, Several, ShortCircuitBy, SizeFamily,
    SolarController, System, Units, Waker,
};
use super::cut_off::CutOff;
use super::field::{AIR, Kind, Pick, SHARE, count, num};
use super::hold_down::{HoldDown, Stud};
use super::load::Load;
use super::measured::Measured;
use super::months::Months;
use super::mounted::Mounted;
use super::point;
use super::price::Price;
use super::reading::{Meter, Reading};
use super::returns::{Bond, MainSwitch, Plug};
use super::run::Run;
use super::table::table;
use super::weekdays::Weekdays;
use super::windows::Windows;
use crate::quantity::*;
use std::ops::{Deref, DerefMut};

/// A whole plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// What it is about.
    pub job: Job,
    /// What there is besides loads and cables.
    pub outfit: Outfit,
    /// What uses energy.
    pub loads: Vec<Load>,
    /// Cables.
    pub runs: Vec<Run>,
}

/// What stands in a plan besides loads and cables, and counts as it is given.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outfit {
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
    /// Minus of the service battery to the body.
    pub bond: Bond,
    /// Isolator of a battery.
    pub main_switch: MainSwitch,
    /// What holds the service battery.
    pub hold_down: HoldDown,
    /// What is near the hold-down under a vehicle.
    pub beneath: Beneath,
    /// The hold-down as it came out.
    pub as_built: AsBuilt,
    /// Meters used for the readings.
    pub meter: Meter,
    /// The battery while nobody uses the vehicle.
    pub standing: Standing,
    /// House rules of this plan.
    pub rules: PlanRules,
    /// Fuse boxes, breaker panels, bus bars.
    pub boards: Vec<Board>,
    /// Plugs to a trailer.
    pub plugs: Vec<Plug>,
    /// Studs of the hold-down by position; an even pattern when there are none.
    pub studs: Vec<Stud>,
    /// Holes of the hold-down as they were drilled.
    pub drilled: Vec<Drilled>,
    /// Devices on the hold-down, or close beside it.
    pub mounted: Vec<Mounted>,
    /// What was measured on the finished wiring.
    pub readings: Vec<Reading>,
    /// Blocks of the service battery, where they differ.
    pub blocks: Vec<Block>,
    /// What batteries and other parts cost where the user buys them.
    pub prices: Vec<Price>,
    /// What the service battery was found to hold, and when.
    pub measured: Vec<Measured>,
}

impl Deref for Plan {
    type Target = Outfit;
    fn deref(&self) -> &Outfit {
        &self.outfit
    }
}

impl DerefMut for Plan {
    fn deref_mut(&mut self) -> &mut Outfit {
        &mut self.outfit
    }
}

table! {
    /// Title and notes.
    Job in Job {
        /// What this plan is for, printed on every paper.
        title: String => "title", "Title", Kind::Text { longest: 80, required: false }, Default;
        /// Where the vehicle is registered; the papers then list what to look up there.
        region: Option<String> => "region", "Region", Kind::Pick(Pick::Region), Chosen;
        /// In which units screens and papers tell lengths, masses, temperatures and torques; the plan's own keys stay metric.
        units: Units => "units", "Units", Kind::Choice(Units::words), Default;
        /// Anything to remember; printed in the report.
        notes: String => "notes", "Notes", Kind::Text { longest: 2000, required: false }, Default;
    }
}

table! {
    /// Air and sun around the vehicle.
    Surroundings in Surroundings {
        /// Coldest air at the service battery while in use.
        coldest: Celsius = Celsius::new(-5.0) => "coldest_c", "Coldest air", AIR, Default;
        /// Hottest air inside the vehicle and around its cables.
        hottest: Celsius = Celsius::new(40.0) => "hottest_c", "Hottest air", AIR, Default;
        /// Hottest air in the engine bay with the engine running.
        engine_bay: Celsius = Celsius::new(80.0) => "engine_bay_c", "Engine bay", AIR, Default;
        /// Mean air over the days of use; for endurance.
        mean: Celsius = Celsius::new(12.0) => "mean_c", "Mean air", AIR, Default;
        /// From the coldest of the night to the warmest of the day.
        daily_swing: Kelvins = Kelvins::new(10.0) => "daily_swing_k", "Daily swing", num(Unit::Kelvin, 0.0, 60.0), Default;
        /// From the mean of January to the mean of July.
        yearly_swing: Kelvins = Kelvins::new(18.0) => "yearly_swing_k", "Yearly swing", num(Unit::Kelvin, 0.0, 80.0), Default;
        /// Where it is used, north positive; for the sun.
        latitude: Degrees = Degrees::new(50.0) => "latitude_deg", "Latitude", num(Unit::Degree, -70.0, 70.0), Default;
    }
}

table! {
    /// Alternator, driving and the way back through the body.
    Vehicle in Vehicle {
        /// Rated current on the alternator's label.
        alternator_rating: Amps = Amps::new(90.0) => "alternator_a", "Alternator", num(Unit::Amp, 0.0, 1000.0), Default;
        /// Whether its voltage is fixed or varied by the engine computer.
        alternator: Alternator => "alternator", "Alternator kind", Kind::Choice(Alternator::words), Default;
        /// Voltage at the starter battery with the engine running.
        alternator_voltage: Volts = Volts::new(14.2) => "alternator_v", "Charging voltage", num(Unit::Volt, 11.0, 32.0), Default;
        /// Voltage of the vehicle's own electrics; of 24 V a voltage under 16 V here and at the charger is one battery's.
        system: System => "system", "System", Kind::Choice(System::words), Default;
        /// Lowest steady voltage at the starter battery while driving.
        lowest_voltage: Option<Volts> => "lowest_v", "Lowest while driving", num(Unit::Volt, 10.0, 30.0), Chosen;
        /// What the vehicle itself uses while driving, lamps and fans on.
        own_draw: Amps = Amps::new(30.0) => "own_draw_a", "Vehicle's own draw", num(Unit::Amp, 0.0, 500.0), Default;
        /// What the vehicle takes from its starter battery while parked: clocks, alarms, locks.
        parked_draw: Amps = Amps::new(0.03) => "parked_draw_a", "Draw while parked", num(Unit::Amp, 0.0, 10.0), Default;
        /// Hot output at idle as a share of the rating.
        idle_share: Option<Share> => "idle_share", "Output hot at idle", SHARE, Chosen;
        /// Hot output at road speed as a share of the rating.
        road_share: Option<Share> => "road_share", "Output hot on the road", SHARE, Chosen;
        /// Share of the driving time that the engine idles.
        idling: Share = Share::new(0.2) => "idling", "Time at idle", SHARE, Default;
        /// When the engine runs on a driving day; a span over midnight belongs to the day on which it begins.
        driving: Windows => "driving", "Driving", Kind::Windows, Default;
        /// Days of the week on which it is driven; of two weeks in turn where they differ.
        driving_days: Weekdays = Weekdays::all() => "driving_days", "Driving days", Kind::Weekdays, Default;
        /// Resistance of the body between the far earth point and the battery's minus, joints and bond included.
        chassis_mohm: Milliohms = Milliohms::new(5.0) => "chassis_mohm", "Body resistance", num(Unit::Milliohm, 0.0, 100.0), Default;
        /// Whether that resistance was measured on this vehicle.
        chassis_measured: bool => "chassis_measured", "Body measured", Kind::Flag, Default;
        /// What the weakest stud or strap on the way through the body carries.
        chassis_rating: Option<Amps> => "chassis_a", "Body carries", num(Unit::Amp, 1.0, 2000.0), Chosen;
        /// The starter battery's minus post carries a current sensor; as the alternator's kind suggests when left out.
        minus_sensor: Option<bool> => "minus_sensor", "Sensor on minus", Kind::Flag, Chosen;
        /// Minus cables that are added go onto the starter battery's post; onto the body where a sensor sits there when left out.
        minus_on_post: Option<bool> => "minus_on_post", "Added minus on post", Kind::Flag, Chosen;
    }
}

table! {
    /// The battery that starts the engine.
    StarterBattery in StarterBattery {
        /// Chemistry of the battery that starts the engine.
        chemistry: String = "flooded".into() => "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), Default;
        /// Rated capacity of the starter battery.
        capacity: AmpHours = AmpHours::new(70.0) => "capacity_ah", "Capacity", num(Unit::AmpHour, 5.0, 1000.0), Default;
        /// Measured internal resistance.
        resistance_mohm: Option<Milliohms> => "resistance_mohm", "Internal resistance", num(Unit::Milliohm, 0.2, 200.0), Chosen;
        /// Charge below which it might not start the engine.
        keep: Share = Share::new(0.6) => "keep", "Keep for starting", SHARE, Default;
        /// Its maker allows it straight on an alternator; asked of one whose own protection may open, lead-acid does not mind.
        takes_alternator: bool => "takes_alternator", "Alternator allowed", Kind::Flag, Default;
    }
}

table! {
    /// The battery being planned.
    ServiceBattery in ServiceBattery {
        /// Chemistry of the service battery.
        chemistry: String = "agm".into() => "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), NotAllowed;
        /// Rated capacity of the whole bank; leave out to have it sized.
        capacity: Option<AmpHours> => "capacity_ah", "Capacity", num(Unit::AmpHour, 1.0, 5000.0), Chosen;
        /// What a used bank still holds by a test, at the rated hours and 25 °C; its rating when left out.
        tested: Option<AmpHours> => "tested_ah", "Holds by a test", num(Unit::AmpHour, 1.0, 5000.0), Chosen;
        /// How many equal blocks share the work.
        in_parallel: Option<u32> => "in_parallel", "Blocks in parallel", count(1.0, 12.0), Chosen;
        /// How long it must last with nothing coming in; the longest gap of your week when left out.
        days_without_charge: Option<Days> => "days_without_charge", "Days without charge", num(Unit::Day, 0.1, 60.0), Chosen;
        /// Share of the capacity to use.
        depth: Option<Share> => "depth", "Depth of discharge", num(Unit::Share, 0.05, 1.0), Chosen;
        /// Capacity left, as a share of the rated, when it is replaced.
        end_of_life: Option<Share> => "end_of_life", "End of life at", num(Unit::Share, 0.5, 1.0), Chosen;
        /// Room for loads that come later.
        design_margin: f64 = 1.1 => "design_margin", "Design margin", num(Unit::Times, 1.0, 3.0), Default;
        /// Days of the year with a full day's draw; for wear.
        days_in_use: u32 = 60 => "days_in_use", "Days in use a year", count(0.0, 366.0), Default;
        /// Measured internal resistance of the whole bank.
        resistance_mohm: Option<Milliohms> => "resistance_mohm", "Internal resistance", num(Unit::Milliohm, 0.1, 500.0), Chosen;
        /// Short-circuit current of the whole bank, as the maker or a tester says.
        short_circuit: Option<Amps> => "short_circuit_a", "Short circuit", num(Unit::Amp, 50.0, 500_000.0), Chosen;
        /// How the short-circuit current is known; only the test of IEC 60896-21 counts as the most it can be.
        short_circuit_by: ShortCircuitBy => "short_circuit_by", "Known by", Kind::Choice(ShortCircuitBy::words), Default;
        /// Rating of a high-breaking device between each block in parallel and the bar that joins them.
        block_fuse: Option<Amps> => "block_fuse_a", "Block fuse", num(Unit::Amp, 10.0, 1000.0), Chosen;
        /// Mass of the whole bank, from its label.
        mass: Option<Kilograms> => "mass_kg", "Mass", num(Unit::Kilogram, 0.5, 2000.0), Chosen;
        /// Where it stands; as the hold-down suggests, else in the cabin, when left out.
        place: Option<BatteryPlace> => "place", "Stands", Kind::Choice(BatteryPlace::words), Chosen;
        /// What guards it where it stands.
        guards: Several<Guard> => "guards", "Guards", Kind::Words(Guard::words), Default;
        /// Coldest air where it stands; that of the surroundings when left out.
        coldest: Option<Celsius> => "coldest_c", "Coldest there", AIR, Chosen;
        /// Hottest air where it stands; that of its place when left out.
        hottest: Option<Celsius> => "hottest_c", "Hottest there", AIR, Chosen;
        /// Kept warm enough to charge by a heater pad.
        heated: bool => "heated", "Heated", Kind::Flag, Default;
        /// What its heater pad keeps it at; just above what it may be charged at when left out.
        kept_at: Option<Celsius> => "kept_at_c", "Kept at", num(Unit::Celsius, -20.0, 40.0), Chosen;
        /// Power of its heater pad, from its label; as much as it takes when left out.
        heater: Option<Watts> => "heater_w", "Heater", num(Unit::Watt, 1.0, 500.0), Chosen;
        /// Most current that its own protection lets it give, from its label; by its kind when left out.
        gives: Option<Amps> => "gives_a", "Gives at most", num(Unit::Amp, 1.0, 5000.0), Chosen;
        /// Most charge current that it allows, from its label; by its kind when left out.
        takes: Option<Amps> => "takes_a", "Takes at most", num(Unit::Amp, 1.0, 5000.0), Chosen;
        /// Low voltage at its posts at which its own protection opens, from its sheet; by its kind when left out.
        own_cut: Option<Volts> => "own_cut_v", "Own cut", num(Unit::Volt, 8.0, 13.0), Chosen;
        /// Outputs by which it tells others that they may charge or discharge it.
        permits: Several<Permit> => "permits", "Permission outputs", Kind::Words(Permit::words), Default;
        /// What its charge output switches off when it may not be charged.
        permit_stops: Several<ChargedBy> => "permit_stops", "Its output stops", Kind::Words(ChargedBy::words), Default;
        /// Coldest at which its own protection lets it be charged, from its sheet; none when left out.
        locks_below: Option<Celsius> => "locks_below_c", "Charge lock below", num(Unit::Celsius, -40.0, 20.0), Chosen;
        /// What closes its own protection again once it has opened; its sheet says it.
        woken_by: Several<Waker> => "woken_by", "Woken by", Kind::Words(Waker::words), Default;
        /// Voltage at its posts at which it takes back its permission to discharge; its own cut when left out.
        permits_to: Option<Volts> => "permits_to_v", "Permits down to", num(Unit::Volt, 8.0, 13.0), Chosen;
        /// What mends the plan may not change it.
        keep: bool => "keep", "Keep", Kind::Flag, Default;
    }
}

table! {
    /// What charges the service battery while driving.
    Charger in Charger {
        /// What charges the service battery while driving.
        kind: ChargerKind => "kind", "Kind", Kind::Choice(ChargerKind::words), Default;
        /// Rated output; leave out to have it sized.
        current: Option<Amps> => "current_a", "Output current", num(Unit::Amp, 0.5, 500.0), Chosen;
        /// Charge voltage at its output.
        output_voltage: Option<Volts> => "output_v", "Charge voltage", num(Unit::Volt, 11.0, 18.0), Chosen;
        /// Output power over input power.
        efficiency: Share = Share::new(0.9) => "efficiency", "Efficiency", num(Unit::Share, 0.5, 1.0), Default;
        /// Lowest voltage at its own input terminals it works with.
        lowest_input: Option<Volts> => "lowest_input_v", "Lowest input", num(Unit::Volt, 8.0, 28.0), Chosen;
        /// How much voltage may be lost on the way to its input.
        drop: String = "ordinary".into() => "drop", "Loss allowed in feed", Kind::Pick(Pick::DropClass), Default;
        /// An ignition or engine-running wire switches it on.
        enable_signal: bool = true => "enable_signal", "Enable wire", Kind::Flag, Default;
        /// Input voltage above which it starts without an enable wire.
        engages_at: Volts = Volts::new(13.3) => "engages_v", "Engages at", num(Unit::Volt, 11.0, 30.0), Default;
        /// Input voltage below which it stops.
        releases_at: Volts = Volts::new(12.8) => "releases_v", "Releases at", num(Unit::Volt, 10.0, 30.0), Default;
        /// What it takes from the service battery while off.
        standing_draw: Amps = Amps::new(0.005) => "standing_draw_a", "Standing draw", num(Unit::Amp, 0.0, 2.0), Default;
        /// What mends the plan may not change it.
        keep: bool => "keep", "Keep", Kind::Flag, Default;
    }
}

table! {
    /// Solar array.
    Solar in Solar {
        /// Rated power of all panels; 0 for none.
        array: Watts => "array_w", "Array", num(Unit::Watt, 0.0, 10_000.0), Default;
        /// Kind of charge controller.
        controller: SolarController => "controller", "Controller", Kind::Choice(SolarController::words), Default;
        /// Peak-sun hours of a usual day in use; from latitude and season when left out.
        sun_hours: Option<SunHours> => "sun_hours", "Sun hours", num(Unit::SunHour, 0.0, 14.0), Chosen;
        /// Months in which the sun must do; the darkest of them counts. The year's mean when left out.
        months: Option<Months> => "months", "Months", Kind::Months, Chosen;
        /// How far the panels are tilted from the level.
        tilt: Degrees = Degrees::ZERO => "tilt_deg", "Tilt", num(Unit::Degree, 0.0, 90.0), Default;
        /// Where tilted panels face by the compass: 0 north, 90 east, 180 south.
        faces: Degrees = Degrees::new(180.0) => "faces_deg", "Faces", num(Unit::Degree, 0.0, 360.0), Default;
        /// Share of the rated power that reaches the battery.
        derating: Option<Share> => "derating", "Derating", SHARE, Chosen;
        /// Voltage of the array at its maximum power.
        array_voltage: Volts = Volts::new(18.0) => "array_v", "Array voltage", num(Unit::Volt, 12.0, 200.0), Default;
        /// Highest voltage that its controller's input stands, from its label.
        controller_limit: Option<Volts> => "controller_limit_v", "Controller stands", num(Unit::Volt, 12.0, 600.0), Chosen;
        /// Panels one behind the other in a string.
        in_series: u32 = 1 => "in_series", "Panels in series", count(1.0, 30.0), Default;
        /// Strings side by side.
        strings: u32 = 1 => "strings", "Strings", count(1.0, 50.0), Default;
        /// Voltage of one panel with nothing connected, at 25 °C, from its label.
        panel_open: Option<Volts> => "panel_open_v", "Panel, open", num(Unit::Volt, 5.0, 100.0), Chosen;
        /// Short-circuit current of one panel, from its label.
        panel_short: Option<Amps> => "panel_short_a", "Panel, shorted", num(Unit::Amp, 0.1, 30.0), Chosen;
        /// Largest fuse in series that a panel stands, from its label.
        panel_fuse: Option<Amps> => "panel_fuse_a", "Panel's fuse", num(Unit::Amp, 1.0, 60.0), Chosen;
        /// Each string has a fuse of its own.
        string_fuses: bool => "string_fuses", "String fuses", Kind::Flag, Default;
        /// One way from the panels to the controller; their cable is not looked at when left out.
        cable_length: Option<Metres> => "cable_m", "Panel cable", num(Unit::Metre, 0.1, 100.0), Chosen;
        /// Size of that cable; leave out to have it sized.
        cable_size: Option<String> => "cable_size", "Panel cable size", Kind::Size, Chosen;
        /// Hottest air along it; that of a roof in the sun when left out.
        cable_air: Option<Celsius> => "cable_air_c", "Air along it", AIR, Chosen;
        /// Rating of the device in it; leave out to have it chosen.
        device: Option<Amps> => "device_a", "Device in it", num(Unit::Amp, 1.0, 400.0), Chosen;
        /// The point its controller feeds.
        at: String = point::SERVICE_BATTERY.into() => "at", "Joins at", Kind::Point, Default;
        /// Fuse within its own leads, as its maker fits it; leave out where there is none.
        tail_fuse: Option<Amps> => "tail_fuse_a", "Fuse in its own leads", num(Unit::Amp, 0.5, 1000.0), Chosen;
    }
}

table! {
    /// Inverter from 12 V to mains voltage.
    Inverter in Inverter {
        /// Continuous output; 0 for none.
        rating: Watts => "rating_w", "Rating", num(Unit::Watt, 0.0, 20_000.0), Default;
        /// The point that feeds it.
        at: String => "at", "Joins at", Kind::Point, Default;
        /// At the usual load.
        efficiency: Share = Share::new(0.88) => "efficiency", "Efficiency", num(Unit::Share, 0.3, 1.0), Default;
        /// Taken while on with nothing plugged in.
        idle_draw: Watts = Watts::new(8.0) => "idle_w", "Idle draw", num(Unit::Watt, 0.0, 200.0), Default;
        /// Hours a day it is switched on.
        hours_a_day: Hours = Hours::new(2.0) => "hours_a_day", "On a day", num(Unit::Hour, 0.0, 24.0), Default;
        /// It switches itself off below this.
        own_cut: Volts = Volts::new(10.5) => "own_cut_v", "Own cut", num(Unit::Volt, 8.0, 13.0), Default;
        /// How much voltage may be lost on the way.
        drop: String = "critical".into() => "drop", "Loss allowed", Kind::Pick(Pick::DropClass), Default;
        /// Its capacitors are filled before a contact closes onto them: by itself, by the cut-off, or through a resistor.
        pre_charged: bool => "pre_charged", "Pre-charged", Kind::Flag, Default;
        /// Fuse within its own leads, as its maker fits it; leave out where there is none.
        tail_fuse: Option<Amps> => "tail_fuse_a", "Fuse in its own leads", num(Unit::Amp, 0.5, 1000.0), Chosen;
    }
}

table! {
    /// Charger from the mains.
    Mains in Mains {
        /// Output of the mains charger; 0 for none.
        current: Amps => "current_a", "Output current", num(Unit::Amp, 0.0, 500.0), Default;
        /// When it is plugged in; a span over midnight belongs to the day on which it begins.
        windows: Windows => "windows", "Plugged in", Kind::Windows, Default;
        /// Days of the week with mains; of two weeks in turn where they differ.
        weekdays: Weekdays = Weekdays::none() => "days", "On days", Kind::Weekdays, Default;
        /// The point it feeds.
        at: String = point::SERVICE_BATTERY.into() => "at", "Joins at", Kind::Point, Default;
        /// Fuse within its own leads, as its maker fits it; leave out where there is none.
        tail_fuse: Option<Amps> => "tail_fuse_a", "Fuse in its own leads", num(Unit::Amp, 0.5, 1000.0), Chosen;
    }
}

table! {
    /// The battery while nobody uses the vehicle.
    Standing in Standing {
        /// Longest that it is left without use; three months are looked at when left out.
        days: Option<Days> => "days", "Left for", num(Unit::Day, 1.0, 1500.0), Chosen;
        /// Charge that it is left with.
        charge: Share = Share::FULL => "charge", "Left at", num(Unit::Share, 0.05, 1.0), Default;
        /// Its main switch is open then, or its minus off.
        disconnected: bool => "disconnected", "Disconnected", Kind::Flag, Default;
        /// Coldest air meanwhile; that where the battery stands when left out.
        coldest: Option<Celsius> => "coldest_c", "Coldest then", AIR, Chosen;
    }
}

table! {
    /// House rules of this plan, each from the catalogue when absent.
    PlanRules in Rules {
        /// Which conductor sizes to choose from.
        sizes: SizeFamily => "sizes", "Sizes", Kind::Choice(SizeFamily::words), Default;
        /// Rule for how far from its source a fuse may sit.
        placement: Option<String> => "placement", "Fuse distance rule", Kind::Pick(Pick::Placement), Chosen;
        /// Largest steady current as a share of a fuse's rating.
        fuse_loading: Option<Share> => "fuse_loading", "Fuse loading", num(Unit::Share, 0.3, 1.0), Chosen;
        /// Largest drop of critical loads as a share of 12 V (of 24 V on the starter side of such a vehicle).
        drop_critical: Option<Share> => "drop_critical", "Loss allowed, critical", num(Unit::Share, 0.005, 0.3), Chosen;
        /// Largest drop of ordinary loads as a share of 12 V (of 24 V on the starter side of such a vehicle).
        drop_ordinary: Option<Share> => "drop_ordinary", "Loss allowed, ordinary", num(Unit::Share, 0.005, 0.3), Chosen;
        /// Largest drop of tolerant loads as a share of 12 V (of 24 V on the starter side of such a vehicle).
        drop_tolerant: Option<Share> => "drop_tolerant", "Loss allowed, tolerant", num(Unit::Share, 0.005, 0.3), Chosen;
        /// No thinner conductor, whatever it carries.
        smallest: Option<SquareMillimetres> => "smallest_mm2", "Smallest size", num(Unit::SquareMillimetre, 0.2, 120.0), Chosen;
        /// Most different sizes you want to buy.
        most_sizes: Option<u32> => "most_sizes", "Most sizes", count(1.0, 20.0), Chosen;
        /// Keys of the fuse styles to choose from; any when left out.
        styles_at_hand: String => "styles_at_hand", "Styles at hand", Kind::Picks(Pick::FuseStyle), Default;
    }
}
