//! The table of all fields: the one place that says what a plan file can hold.
//!
//! To add a field: a member in `model`, a line here. Reading, writing, the
//! editor, the schema and the messages follow.

use super::choice::{
    Alternator, BoardKind, ChargerKind, Choice, HoldDownStyle, LoadKind, Locking, ReturnPath, SizeFamily,
    SolarController, When,
};
use super::field::{Absent, Field, Kind, Pick};
use super::section::{Place, Section};
use super::value::{Slot, Value};
use crate::quantity::Unit;

/// Number in a unit.
const fn num(unit: Unit, min: f64, max: f64) -> Kind {
    Kind::Number { unit, min, max, whole: false }
}

/// Whole number.
const fn count(min: f64, max: f64) -> Kind {
    Kind::Number { unit: Unit::Count, min, max, whole: true }
}

/// A length inside or around the carrier.
const fn mm(min: f64, max: f64) -> Kind {
    num(Unit::Millimetre, min, max)
}

const SHARE: Kind = num(Unit::Share, 0.0, 1.0);
const AIR: Kind = num(Unit::Celsius, -60.0, 150.0);

macro_rules! one {
    ($section:ident, $part:ident: $type:ident; $($($slot:ident).+, $key:literal, $label:literal, $kind:expr, $absent:ident, $help:literal;)*) => {
        &[$(Field {
            section: Section::$section, key: $key, label: $label, kind: $kind, absent: Absent::$absent, help: $help,
            get: |p, _| p.$part.$($slot).+.read(),
            set: |p, _, v| p.$part.$($slot).+.write(v),
        },)*]
    };
}

macro_rules! many {
    ($section:ident, $part:ident: $type:ident; $($($slot:ident).+, $key:literal, $label:literal, $kind:expr, $absent:ident, $help:literal;)*) => {
        &[$(Field {
            section: Section::$section, key: $key, label: $label, kind: $kind, absent: Absent::$absent, help: $help,
            get: |p, i| p.$part.get(i).and_then(|t| t.$($slot).+.read()),
            set: |p, i, v: Value| if let Some(t) = p.$part.get_mut(i) { t.$($slot).+.write(v) },
        },)*]
    };
}

/// All fields of a section, in the order of the file and the screens.
pub fn fields_of(section: Section) -> impl Iterator<Item = &'static Field> {
    ALL.iter().flat_map(|group| group.iter()).filter(move |f| f.section == section)
}

/// The field of a place.
pub fn field_at(place: Place) -> Option<&'static Field> {
    fields_of(place.section).find(|f| f.key == place.key)
}

/// Every field, grouped by section in the order of the file.
static ALL: &[&[Field]] = &[
    one! { Job, job: Job;
        title, "title", "Title", Kind::Text { longest: 80, required: false }, Default, "What this plan is for, printed on every paper.";
        region, "region", "Region", Kind::Pick(Pick::Region), Chosen, "Where the vehicle is registered; the papers then list what to look up there.";
        notes, "notes", "Notes", Kind::Text { longest: 2000, required: false }, Default, "Anything to remember; printed in the report.";
    },
    one! { Surroundings, surroundings: Surroundings;
        coldest, "coldest_c", "Coldest air", AIR, Default, "Coldest air at the service battery while in use.";
        hottest, "hottest_c", "Hottest air", AIR, Default, "Hottest air inside the vehicle and around its cables.";
        engine_bay, "engine_bay_c", "Engine bay", AIR, Default, "Hottest air in the engine bay with the engine running.";
        mean, "mean_c", "Mean air", AIR, Default, "Mean air over the days of use; for endurance.";
        daily_swing, "daily_swing_k", "Daily swing", num(Unit::Kelvin, 0.0, 60.0), Default, "From the coldest of the night to the warmest of the day.";
        yearly_swing, "yearly_swing_k", "Yearly swing", num(Unit::Kelvin, 0.0, 80.0), Default, "From the mean of January to the mean of July.";
        latitude, "latitude_deg", "Latitude", num(Unit::Degree, -70.0, 70.0), Default, "Where it is used, north positive; for the sun.";
    },
    one! { Vehicle, vehicle: Vehicle;
        alternator_rating, "alternator_a", "Alternator", num(Unit::Amp, 0.0, 1000.0), Default, "Rated current on the alternator's label.";
        alternator, "alternator", "Alternator kind", Kind::Choice(Alternator::words), Default, "Whether its voltage is fixed or varied by the engine computer.";
        alternator_voltage, "alternator_v", "Charging voltage", num(Unit::Volt, 11.0, 16.0), Default, "Voltage at the starter battery with the engine running.";
        lowest_voltage, "lowest_v", "Lowest while driving", num(Unit::Volt, 10.0, 15.0), Chosen, "Lowest steady voltage at the starter battery while driving.";
        own_draw, "own_draw_a", "Vehicle's own draw", num(Unit::Amp, 0.0, 500.0), Default, "What the vehicle itself uses while driving, lamps and fans on.";
        idle_share, "idle_share", "Output hot at idle", SHARE, Chosen, "Hot output at idle as a share of the rating.";
        road_share, "road_share", "Output hot on the road", SHARE, Chosen, "Hot output at road speed as a share of the rating.";
        idling, "idling", "Time at idle", SHARE, Default, "Share of the driving time that the engine idles.";
        driving, "driving", "Driving", Kind::Windows, Default, "When the engine runs on a driving day.";
        driving_days, "driving_days", "Driving days", Kind::Weekdays, Default, "Days of the week on which it is driven.";
        chassis_mohm, "chassis_mohm", "Body resistance", num(Unit::Milliohm, 0.0, 100.0), Default, "Resistance of the body between the far earth point and the battery, joints included.";
    },
    one! { StarterBattery, starter_battery: StarterBattery;
        chemistry, "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), Default, "Chemistry of the battery that starts the engine.";
        capacity, "capacity_ah", "Capacity", num(Unit::AmpHour, 5.0, 1000.0), Default, "Rated capacity of the starter battery.";
        resistance_mohm, "resistance_mohm", "Internal resistance", num(Unit::Milliohm, 0.2, 200.0), Chosen, "Measured internal resistance.";
        keep, "keep", "Keep for starting", SHARE, Default, "Charge below which it might not start the engine.";
    },
    one! { ServiceBattery, service_battery: ServiceBattery;
        chemistry, "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), NotAllowed, "Chemistry of the service battery.";
        capacity, "capacity_ah", "Capacity", num(Unit::AmpHour, 1.0, 5000.0), Chosen, "Rated capacity of the whole bank; leave out to have it sized.";
        in_parallel, "in_parallel", "Blocks in parallel", count(1.0, 12.0), Chosen, "How many equal blocks share the work.";
        days_without_charge, "days_without_charge", "Days without charge", num(Unit::Day, 0.1, 60.0), Default, "How long it must last with nothing coming in.";
        depth, "depth", "Depth of discharge", num(Unit::Share, 0.05, 1.0), Chosen, "Share of the capacity to use.";
        end_of_life, "end_of_life", "End of life at", num(Unit::Share, 0.5, 1.0), Chosen, "Capacity left, as a share of the rated, when it is replaced.";
        design_margin, "design_margin", "Design margin", num(Unit::Times, 1.0, 3.0), Default, "Room for loads that come later.";
        days_in_use, "days_in_use", "Days in use a year", count(0.0, 366.0), Default, "Days of the year with a full day's draw; for wear.";
        resistance_mohm, "resistance_mohm", "Internal resistance", num(Unit::Milliohm, 0.1, 500.0), Chosen, "Measured internal resistance of the whole bank.";
        mass, "mass_kg", "Mass", num(Unit::Kilogram, 0.5, 2000.0), Chosen, "Mass of the whole bank, from its label.";
        heated, "heated", "Heated", Kind::Flag, Default, "Kept warm enough to charge by a heater pad.";
        keep, "keep", "Keep", Kind::Flag, Default, "What mends the plan may not change it.";
    },
    one! { Charger, charger: Charger;
        kind, "kind", "Kind", Kind::Choice(ChargerKind::words), Default, "What charges the service battery while driving.";
        current, "current_a", "Output current", num(Unit::Amp, 0.5, 500.0), Chosen, "Rated output; leave out to have it sized.";
        output_voltage, "output_v", "Charge voltage", num(Unit::Volt, 11.0, 18.0), Chosen, "Charge voltage at its output.";
        efficiency, "efficiency", "Efficiency", num(Unit::Share, 0.5, 1.0), Default, "Output power over input power.";
        lowest_input, "lowest_input_v", "Lowest input", num(Unit::Volt, 8.0, 14.0), Chosen, "Lowest voltage at its own input terminals it works with.";
        drop, "drop", "Drop class of its feed", Kind::Pick(Pick::DropClass), Default, "How much voltage may be lost on the way to its input.";
        enable_signal, "enable_signal", "Enable wire", Kind::Flag, Default, "An ignition or engine-running wire switches it on.";
        engages_at, "engages_v", "Engages at", num(Unit::Volt, 11.0, 15.0), Default, "Input voltage above which it starts without an enable wire.";
        releases_at, "releases_v", "Releases at", num(Unit::Volt, 10.0, 15.0), Default, "Input voltage below which it stops.";
        standing_draw, "standing_draw_a", "Standing draw", num(Unit::Amp, 0.0, 2.0), Default, "What it takes from the service battery while off.";
        keep, "keep", "Keep", Kind::Flag, Default, "What mends the plan may not change it.";
    },
    one! { CutOff, cut_off: CutOff;
        cut, "cut_v", "Cut-off voltage", num(Unit::Volt, 8.0, 15.0), Chosen, "Voltage at the sensing point where it opens; leave out to have it chosen.";
        reconnect, "reconnect_v", "Reconnect voltage", num(Unit::Volt, 9.0, 16.0), Chosen, "Voltage at the sensing point where it closes again.";
        delay, "delay_s", "Delay", num(Unit::Second, 0.0, 3600.0), Chosen, "How long the voltage must stay low before it opens.";
        reserve, "reserve", "Reserve", num(Unit::Share, 0.0, 0.95), Chosen, "Charge to keep in the battery at the cut-off.";
        senses_at, "senses_at", "Senses at", Kind::Point, Default, "The point whose voltage it watches.";
        step, "step_v", "Step", num(Unit::Volt, 0.01, 1.0), Default, "Smallest step of its setting.";
        lowest_setting, "lowest_v", "Lowest setting", num(Unit::Volt, 7.0, 14.0), Default, "Lowest voltage it can be set to.";
        highest_setting, "highest_v", "Highest setting", num(Unit::Volt, 9.0, 16.0), Default, "Highest voltage it can be set to.";
        longest_delay, "longest_delay_s", "Longest delay", num(Unit::Second, 0.0, 3600.0), Default, "Longest delay it can be set to.";
        rating, "rating_a", "Rating", num(Unit::Amp, 1.0, 1000.0), Chosen, "Current it can carry and switch.";
        standing_draw, "standing_draw_a", "Standing draw", num(Unit::Amp, 0.0, 2.0), Default, "What it takes itself, open or closed.";
    },
    one! { Solar, solar: Solar;
        array, "array_w", "Array", num(Unit::Watt, 0.0, 10_000.0), Default, "Rated power of all panels; 0 for none.";
        controller, "controller", "Controller", Kind::Choice(SolarController::words), Default, "Kind of charge controller.";
        sun_hours, "sun_hours", "Sun hours", num(Unit::SunHour, 0.0, 14.0), Chosen, "Peak-sun hours of a usual day in use; from latitude and season when left out.";
        derating, "derating", "Derating", SHARE, Chosen, "Share of the rated power that reaches the battery.";
        array_voltage, "array_v", "Array voltage", num(Unit::Volt, 12.0, 200.0), Default, "Voltage of the array at its maximum power.";
        at, "at", "Joins at", Kind::Point, Default, "The point its controller feeds.";
    },
    one! { Mains, mains: Mains;
        current, "current_a", "Output current", num(Unit::Amp, 0.0, 500.0), Default, "Output of the mains charger; 0 for none.";
        windows, "windows", "Plugged in", Kind::Windows, Default, "When it is plugged in.";
        weekdays, "days", "On days", Kind::Weekdays, Default, "Days of the week with mains.";
        at, "at", "Joins at", Kind::Point, Default, "The point it feeds.";
    },
    one! { Inverter, inverter: Inverter;
        rating, "rating_w", "Rating", num(Unit::Watt, 0.0, 20_000.0), Default, "Continuous output; 0 for none.";
        at, "at", "Joins at", Kind::Point, Default, "The point that feeds it.";
        efficiency, "efficiency", "Efficiency", num(Unit::Share, 0.3, 1.0), Default, "At the usual load.";
        idle_draw, "idle_w", "Idle draw", num(Unit::Watt, 0.0, 200.0), Default, "Taken while on with nothing plugged in.";
        hours_a_day, "hours_a_day", "On a day", num(Unit::Hour, 0.0, 24.0), Default, "Hours a day it is switched on.";
        own_cut, "own_cut_v", "Own cut", num(Unit::Volt, 8.0, 13.0), Default, "It switches itself off below this.";
        drop, "drop", "Drop class", Kind::Pick(Pick::DropClass), Default, "How much voltage may be lost on the way.";
    },
    one! { HoldDown, hold_down: HoldDown;
        style, "style", "Style", Kind::Choice(HoldDownStyle::words), Default, "What holds the service battery.";
        shock, "shock", "Shock", Kind::Pick(Pick::Shock), Default, "What it must hold the battery through.";
        stud, "stud", "Studs", Kind::Pick(Pick::Stud), Default, "Size of the studs or bolts that hold the carrier.";
        stud_class, "stud_class", "Stud class", Kind::Pick(Pick::StudClass), Default, "Property class, stamped on the head.";
        studs_along, "studs_along", "Studs along", count(1.0, 12.0), Default, "Rows of studs along the vehicle; a basket has one strip at each.";
        studs_across, "studs_across", "Studs across", count(1.0, 12.0), Default, "Rows of studs across the vehicle; a basket has two.";
        spacing_along, "spacing_along_mm", "Spacing along", mm(10.0, 3000.0), Chosen, "Distance of neighbouring studs along the vehicle; from the inside length when left out.";
        spacing_across, "spacing_across_mm", "Spacing across", mm(10.0, 3000.0), Chosen, "Distance of neighbouring studs across the vehicle; from the inside width when left out.";
        offset_along, "offset_along_mm", "Off centre along", mm(-2000.0, 2000.0), Default, "How far the battery's middle lies ahead of the middle of the carrier.";
        offset_across, "offset_across_mm", "Off centre across", mm(-2000.0, 2000.0), Default, "How far the battery's middle lies to the right of the middle of the carrier.";
        centre, "centre_mm", "Centre of mass", mm(0.0, 2000.0), Chosen, "From the plane of the studs to the centre of the mass, up or down.";
        length, "length_mm", "Inside length", mm(50.0, 3000.0), Chosen, "Inside, along the vehicle; from battery and clearance when left out.";
        width, "width_mm", "Inside width", mm(50.0, 3000.0), Chosen, "Inside, across the vehicle; from battery and clearance when left out.";
        height, "height_mm", "Inside height", mm(50.0, 2000.0), Chosen, "Inside, upright; from battery and clearance when left out.";
        battery_length, "battery_length_mm", "Battery length", mm(30.0, 3000.0), Chosen, "Of the whole bank, along the vehicle.";
        battery_width, "battery_width_mm", "Battery width", mm(30.0, 3000.0), Chosen, "Of the whole bank, across the vehicle.";
        battery_height, "battery_height_mm", "Battery height", mm(30.0, 2000.0), Chosen, "Of the whole bank, with posts and covers.";
        clearance, "clearance_mm", "Clearance", mm(0.0, 100.0), Default, "Gap wanted at each side and above, for padding and swelling.";
        strip_width, "strip_width_mm", "Strip width", mm(10.0, 300.0), Default, "Width of a basket's steel strips.";
        thickness, "thickness_mm", "Thickness", mm(0.5, 20.0), Default, "Thickness of the strip or sheet.";
        bend_radius, "bend_radius_mm", "Bend radius", mm(0.1, 100.0), Default, "Inside radius of the bends.";
        k_factor, "k_factor", "K-factor", num(Unit::Number, 0.2, 0.5), Chosen, "Where the neutral line lies in the thickness; from radius and thickness when left out.";
        rim, "rim_mm", "Ears or rim", mm(5.0, 500.0), Default, "Length of a basket's ears beyond its legs, or height of a tray's rim.";
        free_height, "free_height_mm", "Free height", mm(50.0, 3000.0), Chosen, "Height that is free under the deck or above the floor; not checked when left out.";
        rods, "rods", "Hold-down rods", count(0.0, 12.0), Default, "Rods that press the battery down in a tray or cabinet; 0 for none.";
        rod, "rod", "Rod size", Kind::Pick(Pick::Stud), Default, "Size of the hold-down rods.";
        torque, "torque_nm", "Torque", num(Unit::NewtonMetre, 0.5, 500.0), Chosen, "Tightening torque of the studs; leave out to have it chosen.";
        locking, "locking", "Locking", Kind::Choice(Locking::words), Default, "What keeps the nuts from coming undone.";
    },
    one! { Meter, meter: Meter;
        step, "step_v", "Last digit", num(Unit::Volt, 0.0001, 0.1), Chosen, "Smallest step the voltmeter shows at 12 V.";
        digits, "digits", "Digits of error", num(Unit::Number, 0.0, 20.0), Chosen, "Error in last digits, from the meter's sheet.";
        error, "error", "Voltmeter error", num(Unit::Share, 0.0, 0.1), Chosen, "Error as a share of the reading, from the meter's sheet.";
        clamp_error, "clamp_error", "Clamp meter error", num(Unit::Share, 0.0, 0.2), Chosen, "Error of the clamp meter as a share of the reading.";
        air, "air_c", "Air during the test", AIR, Chosen, "Air around the cables during the test; the mean air when left out.";
    },
    one! { Rules, rules: PlanRules;
        sizes, "sizes", "Sizes", Kind::Choice(SizeFamily::words), Default, "Which conductor sizes to choose from.";
        placement, "placement", "Fuse distance rule", Kind::Pick(Pick::Placement), Chosen, "Rule for how far from its source a fuse may sit.";
        fuse_loading, "fuse_loading", "Fuse loading", num(Unit::Share, 0.3, 1.0), Chosen, "Largest steady current as a share of a fuse's rating.";
        drop_critical, "drop_critical", "Drop, critical", num(Unit::Share, 0.005, 0.3), Chosen, "Largest drop of critical loads as a share of 12 V.";
        drop_ordinary, "drop_ordinary", "Drop, ordinary", num(Unit::Share, 0.005, 0.3), Chosen, "Largest drop of ordinary loads as a share of 12 V.";
        drop_tolerant, "drop_tolerant", "Drop, tolerant", num(Unit::Share, 0.005, 0.3), Chosen, "Largest drop of tolerant loads as a share of 12 V.";
        smallest, "smallest_mm2", "Smallest size", num(Unit::SquareMillimetre, 0.2, 120.0), Chosen, "No thinner conductor, whatever it carries.";
        most_sizes, "most_sizes", "Most sizes", count(1.0, 20.0), Chosen, "Most different sizes you want to buy.";
    },
    many! { Board, boards: Board;
        name, "name", "Board", Kind::Text { longest: 60, required: true }, NotAllowed, "The point it is; runs and loads name it.";
        kind, "kind", "Kind", Kind::Choice(BoardKind::words), Default, "Fuse box, breaker panel or bus bar.";
        ways, "ways", "Ways", count(1.0, 100.0), Chosen, "How many circuits it has room for; as many as it needs when left out.";
        style, "style", "Fuse style", Kind::Pick(Pick::FuseStyle), Chosen, "Style of its fuses or breakers; leave out to have it chosen.";
        rating, "rating_a", "Rating", num(Unit::Amp, 1.0, 2000.0), Chosen, "What its bar carries, printed on it; not looked at when left out.";
        keep, "keep", "Keep", Kind::Flag, Default, "What mends the plan may not change it.";
    },
    many! { Load, loads: Load;
        name, "name", "Load", Kind::Text { longest: 60, required: true }, NotAllowed, "What it is.";
        at, "at", "At", Kind::Point, Default, "The point it is connected to.";
        count, "count", "Count", count(0.0, 100.0), Default, "How many of it.";
        power, "power_w", "Power", num(Unit::Watt, 0.0, 20_000.0), Chosen, "Power of one while on; give this or the current.";
        current, "current_a", "Current", num(Unit::Amp, 0.0, 1000.0), Chosen, "Current of one while on, at 12 V; give this or the power.";
        kind, "kind", "Kind", Kind::Choice(LoadKind::words), Default, "How its current follows the voltage.";
        inverter, "inverter", "By inverter", Kind::Flag, Default, "Needs mains voltage from the inverter.";
        duty.hours_a_day, "duty.hours_a_day", "Hours a day", num(Unit::Hour, 0.0, 24.0), Chosen, "Hours a day it is switched on.";
        duty.share_on, "duty.share_on", "Share on", SHARE, Default, "Share of that time it draws (thermostat), at 25 °C.";
        duty.share_per_k, "duty.share_per_k", "Share per K", num(Unit::SharePerKelvin, -0.1, 0.1), Default, "Added to the share for each kelvin above 25 °C.";
        duty.windows, "duty.windows", "Times", Kind::Windows, Default, "Times of day it is switched on.";
        duty.when, "duty.when", "When", Kind::Choice(When::words), Default, "Whether it runs only while driving, parked, by day or by night.";
        start.times, "start.times", "Start surge", num(Unit::Times, 1.0, 20.0), Default, "Start current in multiples of the running current; 1 for none.";
        start.lasts, "start.seconds", "Start lasts", num(Unit::Second, 0.0, 60.0), Default, "How long the start surge lasts.";
        drop, "drop", "Drop class", Kind::Pick(Pick::DropClass), Default, "How much voltage may be lost on the way to it.";
        lowest, "lowest_v", "Works down to", num(Unit::Volt, 5.0, 14.0), Chosen, "Lowest voltage it works at.";
        own_cut, "own_cut_v", "Own cut", num(Unit::Volt, 5.0, 14.0), Chosen, "It switches itself off below this.";
        not_with, "not_with", "Not with", Kind::Text { longest: 30, required: false }, Chosen, "Loads with the same word here never run together.";
        before_cut_off, "before_cut_off", "Before cut-off", Kind::Flag, Default, "Stays connected when the cut-off has opened.";
        lead.length, "lead_m", "Lead", num(Unit::Metre, 0.05, 200.0), Chosen, "Its own cable from the point it hangs on, one way; no cable of its own is planned when left out.";
        lead.size, "lead_size", "Lead size", Kind::Size, Chosen, "Conductor size of its lead; leave out to have it sized.";
        lead.fuse, "lead_fuse_a", "Lead fuse", num(Unit::Amp, 0.5, 1000.0), Chosen, "Rating of the fuse or breaker of its lead; leave out to have it chosen.";
        lead.insulation, "lead_insulation", "Lead insulation", Kind::Pick(Pick::Insulation), Default, "Insulation class of its lead, printed on the cable.";
        lead.surroundings, "lead_surroundings", "Lead through", Kind::Pick(Pick::CablePlace), Default, "What its lead runs through; the hottest stretch counts.";
        lead.bundled_with, "lead_bundled_with", "Lead bundled with", count(0.0, 200.0), Default, "Other loaded cables in the same bundle as its lead, counted by pairs.";
        lead.return_path, "lead_return", "Lead return", Kind::Choice(ReturnPath::words), Default, "How the current comes back from it.";
        way, "way", "Way", Kind::Text { longest: 30, required: false }, Chosen, "Loads of a board with the same word share a way and its fuse; a way of its own when left out.";
        socket, "socket_a", "Socket", num(Unit::Amp, 0.5, 100.0), Chosen, "It is a socket of this rating: its lead and its fuse fit that, whatever is plugged in.";
        keep, "keep", "Keep", Kind::Flag, Default, "What mends the plan may not change it.";
    },
    many! { Run, runs: Run;
        name, "name", "Name", Kind::Text { longest: 60, required: false }, Default, "What to call it; from its ends when left out.";
        from, "from", "From", Kind::Point, NotAllowed, "The end nearer the battery.";
        to, "to", "To", Kind::Point, NotAllowed, "The end nearer the load.";
        length, "length_m", "Length", num(Unit::Metre, 0.05, 1000.0), NotAllowed, "One way, along the loom; the way back is counted too.";
        size, "size", "Size", Kind::Size, Chosen, "Conductor size; leave out to have it sized.";
        insulation, "insulation", "Insulation", Kind::Pick(Pick::Insulation), Default, "Insulation class, printed on the cable.";
        surroundings, "surroundings", "Through", Kind::Pick(Pick::CablePlace), Default, "What it runs through; the hottest stretch counts.";
        air, "air_c", "Air", AIR, Chosen, "Hottest air along it; from the surroundings when left out.";
        bundled_with, "bundled_with", "Bundled with", count(0.0, 200.0), Default, "Other loaded cables in the same bundle, counted by pairs.";
        return_path, "return", "Return", Kind::Choice(ReturnPath::words), Default, "How the current comes back.";
        own_fuse, "own_fuse", "Own fuse", Kind::Flag, Default, "Has a fuse of its own at each end that has a source.";
        fuse, "fuse_a", "Fuse", num(Unit::Amp, 0.5, 1000.0), Chosen, "Rating of its fuse; leave out to have it chosen.";
        fuse_style, "fuse_style", "Fuse style", Kind::Pick(Pick::FuseStyle), Chosen, "Style of its fuse; leave out to have it chosen.";
        fuse_distance, "fuse_distance_m", "Fuse distance", num(Unit::Metre, 0.0, 20.0), Default, "From the source to the fuse, along the cable.";
        joints, "joints", "Joints", count(0.0, 50.0), Default, "Crimped or bolted joints in the whole loop.";
        switch_mohm, "switch_mohm", "Switches", num(Unit::Milliohm, 0.0, 200.0), Default, "Resistance of switches, isolators and plugs in the run.";
        current, "current_a", "Size for", num(Unit::Amp, 0.0, 2000.0), Chosen, "Current to size for; from the loads when left out.";
        note, "note", "Note", Kind::Text { longest: 200, required: false }, Default, "Anything to remember in the workshop.";
        keep, "keep", "Keep", Kind::Flag, Default, "What mends the plan may not change it.";
    },
    many! { Stud, studs: Stud;
        along, "along_mm", "Along", mm(-3000.0, 3000.0), Default, "How far it lies ahead of the middle of the carrier.";
        across, "across_mm", "Across", mm(-3000.0, 3000.0), Default, "How far it lies to the right of the middle of the carrier.";
    },
    many! { Reading, readings: Reading;
        at, "at", "At", Kind::Point, NotAllowed, "The point where the voltage was read, plus to minus.";
        with, "with", "With", Kind::Text { longest: 60, required: false }, Default, "What was on: a load, a point with a test load, charger, or charging; everything else off.";
        voltage, "voltage_v", "Voltage", num(Unit::Volt, 0.0, 20.0), Chosen, "What the meter showed there.";
        posts, "posts_v", "Posts", num(Unit::Volt, 0.0, 20.0), Chosen, "What the meter showed at the battery's posts at the same moment.";
        current, "current_a", "Current", num(Unit::Amp, 0.0, 1000.0), Chosen, "What the clamp meter showed at the same moment; from the load when left out.";
    },
    many! { Price, prices: Price;
        chemistry, "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), NotAllowed, "Which chemistry the price is for.";
        per_100ah, "per_100ah", "For 100 Ah", num(Unit::Price, 0.0, 1e6), NotAllowed, "What a battery of 100 Ah costs where you buy it, in your currency.";
    },
];
