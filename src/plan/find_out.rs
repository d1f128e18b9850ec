//! Where does a person find the value of a field, and which is usual?
//!
//! Usual values are common practice, no source: they say which order is right, and the real one is on the label, on
//! the data sheet, or measured.

use super::field::{Field, Kind};
use super::section::Section;

impl Field {
    /// Where its value stands or how it is measured, and which is usual. `None` for most of what is no figure: a name, a
    /// choice.
    pub fn find_out(&self) -> Option<&'static str> {
        if !matches!(self.kind, Kind::Number { .. }) {
            return said_on_a_sheet(self.section, self.key);
        }
        let found = match self.section {
            Section::Surroundings => surroundings(self.key),
            Section::Vehicle => vehicle(self.key),
            Section::StarterBattery | Section::ServiceBattery => battery(self.key),
            Section::Standing => "how the longest winter goes; 90 days are looked at where nothing is said",
            Section::Charger => charger(self.key),
            Section::CutOff => cut_off(self.key),
            Section::Solar | Section::Mains | Section::Inverter => source(self.key),
            Section::Load => load(self.key),
            Section::Run | Section::Bond => cable(self.key),
            Section::Board | Section::MainSwitch => board(self.key),
            Section::Rules => "the program's figure is the usual one; another is for a code that you must follow",
            Section::HoldDown | Section::Stud => hold_down(self.key),
            Section::Beneath => beneath(self.key),
            Section::AsBuilt => "a tape or two sticks between the finished legs or rims, at the narrowest place",
            Section::Drilled => "scribe the hold-down's middle lines, and measure from them to the middle of each hole",
            Section::Mounted => mounted(self.key),
            Section::Meter => "the data sheet of your meter: accuracy in percent of the reading and digits",
            Section::Reading => "read it off the meter, with what is named switched on",
            Section::Block => "on its label, and the date stamped beside its posts",
            Section::Measured => "from a log or from the capacity test of the inspection page",
            Section::Price => price(self.key),
            _ => OTHER,
        };
        Some(found)
    }
}

/// Of what is answered by yes or no, what a label or a sheet says.
fn said_on_a_sheet(section: Section, key: &str) -> Option<&'static str> {
    match (section, key) {
        (Section::StarterBattery, "takes_alternator") => Some(
            "its sheet: sold as a starter battery, or alternator charging named as allowed; no where it says nothing",
        ),
        (Section::Inverter, "pre_charged") => {
            Some("its sheet, under soft start or inrush, or that of the cut-off; no where neither says it")
        }
        _ => None,
    }
}

fn price(key: &str) -> &'static str {
    match key {
        "per_100ah" => "what you would pay, in your own money, for 100 Ah",
        "part" => "as the line of the parts list reads: `cable 35 mm²`, `fuse class T`",
        "each" => "the shop's price for a metre, a piece or a pack, as the parts list says it is sold",
        _ => OTHER,
    }
}

const OTHER: &str = "leave it out where you do not know it";

fn mounted(key: &str) -> &'static str {
    match key {
        "mass_kg" => "a kitchen scale, with its bracket: 1 to 3 kg for a charger, less for a cut-off",
        "full_to_c" => "on its data sheet under derating: 40 °C is usual",
        "hottest_c" => "on its data sheet: where the derating ends, 50 to 60 °C is usual",
        "gap_mm" => "a tape from its nearest face to the battery's, with the air that its sheet asks for",
        "bolts" => "as many as its case has holes: four is usual",
        "bolt" => "as the holes of its case take: M6 is usual",
        _ => OTHER,
    }
}

fn surroundings(key: &str) -> &'static str {
    match key {
        "coldest_c" => "the coldest night on which it is used: -5 °C in mild winters, -20 °C in hard ones",
        "hottest_c" => "the hottest afternoon in the shade: 35 to 45 °C",
        "engine_bay_c" => "80 °C is usual beside a hot engine, more above an exhaust",
        "mean_c" => "the mean of the year from any climate table: 8 to 18 °C",
        "daily_swing_k" => "warmest less coldest of a usual day: 8 K by the sea, 15 K inland",
        "yearly_swing_k" => "warmest month less coldest month, from any climate table: 15 to 25 K",
        "latitude_deg" => "from any map: 45 halfway to the pole, minus in the south",
        _ => OTHER,
    }
}

fn vehicle(key: &str) -> &'static str {
    match key {
        "alternator_a" => "on the alternator's label: 70 to 180 A",
        "alternator_v" => {
            "a meter at the starter battery's posts, engine warm and above idle: 13.8 to 14.6 V, twice that at 24 V"
        }
        "lowest_v" => "the same with lights, heater and blower on, at idle; a variable alternator may go to 12.5 V",
        "own_draw_a" => "a clamp meter on the alternator's cable, lights and blower on: 25 to 50 A",
        "idle_share" | "road_share" => "the alternator's curve, hot; the usual share holds where you have none",
        "idling" => "share of the driving time in towns and queues: 10 to 30 %",
        "chassis_mohm" => "send 10 A from the rear to the front through the body and measure the drop: 1 to 10 mΩ",
        "parked_draw_a" => "a meter in series with the minus lead, doors locked for an hour: 20 to 50 mA",
        "chassis_a" => "the maker's guide for body builders; left out where you do not have it",
        _ => OTHER,
    }
}

fn battery(key: &str) -> &'static str {
    match key {
        "capacity_ah" => "on its label, at 20 h (C20) for lead-acid: 45 to 100 Ah for a starter battery",
        "tested_ah" => "loomwright used-battery tells it from a timed discharge",
        "in_parallel" => "how many equal blocks you can mount",
        "days_without_charge" => "how long you stand without driving, sun or mains: 1 to 3 d",
        "depth" => "50 % for lead-acid, 80 % for lithium, unless its sheet says otherwise",
        "end_of_life" => "80 % is what data sheets call the end of life",
        "design_margin" => "1.1 is usual; more where you guess the loads",
        "days_in_use" => "days of the year on which it is lived in",
        "resistance_mohm" => "data sheet, or a battery tester, fully charged: 2 to 10 mΩ for 100 Ah",
        "short_circuit_a" => "data sheet of the battery: 1 to 4 kA for 100 Ah of lead-acid, more for lithium",
        "block_fuse_a" => "printed on the fuse at each block",
        "mass_kg" => "data sheet, or bathroom scales: 25 to 30 kg for 100 Ah of lead-acid, 11 to 14 kg for lithium",
        "kept_at_c" => "the manual of the pad or of the battery: 5 °C",
        "heater_w" => "printed on the pad: 20 to 60 W",
        "gives_a" | "takes_a" => "on its label or its sheet: 1 C and 0.5 C for most of lithium",
        "coldest_c" | "hottest_c" => "a thermometer that keeps the lowest and the highest, for some days beside it",
        "own_cut_v" => "its sheet, low-voltage protection: 10 to 11.2 V for four cells of lithium iron phosphate",
        "locks_below_c" => "its sheet, low-temperature charge protection: 0 to 5 °C",
        "permits_to_v" => "its sheet, where its discharge output goes off: 11 to 12 V",
        "keep" => "60 % starts a sound engine in the cold",
        _ => OTHER,
    }
}

fn charger(key: &str) -> &'static str {
    match key {
        "current_a" => "on its label: 15 to 60 A",
        "output_v" => "the battery's sheet, absorption: 14.2 to 14.6 V",
        "efficiency" => "its data sheet: 85 to 95 %",
        "lowest_input_v" => "its data sheet: 9 to 11.5 V",
        "engages_v" | "releases_v" => {
            "its data sheet; a relay that senses the voltage joins at about 13.3 V, parts at 12.8 V"
        }
        "standing_draw_a" => "its data sheet, or a meter in series with it, engine off: a few milliamperes",
        _ => OTHER,
    }
}

fn cut_off(key: &str) -> &'static str {
    match key {
        "step_v" => "the smallest step of its dial or menu: 0.1 V",
        "lowest_v" | "highest_v" => "its data sheet: the ends of its range",
        "longest_delay_s" => "its data sheet: 60 to 180 s",
        "rating_a" => "on its label, the lasting current",
        "opens_at" | "closes_at" => "leave it out to have it chosen; what is set is read off the counter's menu",
        "drift" => {
            "compare it with a full charge after a week: 0.5 to 2 % a day; more where small currents go uncounted"
        }
        "reset_error" => "charge until the current stays low, and see what it showed before: 1 to 5 %",
        "standing_draw_a" => "its data sheet, or a meter in series with it: 2 to 20 mA",
        _ => "leave it out to have it chosen; what is set is read off the device",
    }
}

fn source(key: &str) -> &'static str {
    match key {
        "array_w" => "the label on the back of each panel, added up",
        "array_v" => {
            "the label: voltage at the highest power, 17 to 21 V for a panel of 36 cells, times those in series"
        }
        "tilt_deg" => "0 lying flat; a bubble level or a telephone shows it",
        "faces_deg" => "a compass, where it is tilted: 180 is south",
        "in_series" | "strings" => {
            "count the panels that are joined one behind the other, and the rows beside each other"
        }
        "panel_open_v" | "panel_short_a" => "the label on its back: Voc and Isc, measured at 25 °C",
        "cable_m" => "lay a string from the panels through the roof to the controller",
        "cable_air_c" => "a thermometer under the panel at noon: 60 to 70 °C",
        "device_a" => "printed on the fuse or breaker between panels and controller",
        "panel_fuse_a" => "the label on its back: the largest fuse that one panel stands",
        "controller_limit_v" => "on the controller's label: highest voltage of the array",
        "sun_hours" => "any table of sunshine on a flat panel: 1 in winter, 5 in summer at 50°",
        "derating" => "the program's figure counts heat, dirt and flat mounting",
        "rating_w" => "on its label, the lasting power, not the peak",
        "idle_w" => "its data sheet, or a clamp meter with nothing plugged in: 5 to 15 W",
        "hours_a_day" => "how long it is switched on, not how long it is used",
        "own_cut_v" => "its data sheet: 10 to 11 V",
        "efficiency" => "its data sheet at a usual load: 85 to 92 %",
        "current_a" => "on its label",
        "tail_fuse_a" => "printed on the fuse in its lead",
        _ => OTHER,
    }
}

fn load(key: &str) -> &'static str {
    match key {
        "power_w" => "on its nameplate: a compressor fridge 40 to 60 W, a lamp 3 to 10 W, a pump 40 to 100 W",
        "current_a" => "on its nameplate, or a clamp meter while it runs",
        "count" => "how many alike",
        "duty.hours_a_day" => "count the hours of a usual day",
        "duty.share_on" => "watch it for an hour: a compressor fridge runs 25 to 50 % of the time at 25 °C",
        "duty.share_per_k" => "1 to 2 % for each kelvin for a fridge, else none",
        "start.times" | "start.seconds" => {
            "a clamp meter that keeps the highest; a motor takes 3 to 8 times for a third of a second"
        }
        "on_s" | "off_s" => "its manual: how long it may run, and how long it then rests",
        "lowest_v" => "its manual: most appliances work down to 10.5 or 11 V",
        "highest_v" => "its manual or its label: 15 or 16 V for most of 12 V, 30 V for what takes 12 and 24 V",
        "own_cut_v" => "its manual: a fridge's own battery monitor opens at 10 to 12 V",
        "lead_m" => "lay a string from its board the way the cable will go",
        "socket_a" => "on the socket: 10 to 20 A",
        "lead_fuse_a" | "tail_fuse_a" => "printed on the fuse",
        "lead_number" => "the label on the cable, where it has one",
        "way_number" => "the label beside the fuse, where it has one",
        "lead_bundled_with" => "count the pairs that will be tied together",
        _ => OTHER,
    }
}

fn cable(key: &str) -> &'static str {
    match key {
        "length_m" => "lay a string the way the cable will go, round corners and down posts",
        "air_c" => "a thermometer where it lies, on a hot day after a long drive",
        "bundled_with" => "count the loaded pairs that will be tied together",
        "fuse_a" => "printed on the fuse",
        "fuse_distance_m" => "a tape from the source to the holder: the shorter, the better",
        "joints" => "count crimps and bolted joints, both ways: four for a plain cable",
        "switch_mohm" => "the data sheets of switches and plugs: 0.2 to 2 mΩ each",
        "number" => "the label on the cable, where it has one",
        "current_a" => "the program adds up the loads; give it only where you know more",
        _ => OTHER,
    }
}

fn board(key: &str) -> &'static str {
    match key {
        "ways" => "count its holders",
        "rating_a" => "on its label, the lasting current",
        "short_time_a" => "its data sheet: what it stands for a minute or for a start",
        _ => OTHER,
    }
}

fn hold_down(key: &str) -> &'static str {
    match key {
        "battery_length_mm" | "battery_width_mm" | "battery_height_mm" => {
            "measure the battery that you buy, its posts too"
        }
        "torque_nm" => "leave it out to have it chosen from stud and class",
        "thickness_mm"
        | "strip_width_mm"
        | "studs_along"
        | "strap_leg_mm"
        | "strap_thickness_mm"
        | "weld_length_mm"
        | "spreader_mm"
        | "spreader_thickness_mm" => "leave it out to have the lightest stock size that holds chosen",
        "trial_flat_mm" => "saw a strip of 200 mm, measure it, and bend it by 90° in its middle",
        "trial_legs_mm" => "measure both legs of the bent strip on its outside, and add them: about 206 mm of 200",
        "k_factor" => "bend a strip to try, and measure; 0.33 to 0.45",
        "weld_throat_mm" => {
            "0.7 of the leg of the weld, measured with a weld gauge; no more than 0.7 of the thinner metal"
        }
        "metal_per_kg" => "your dealer's price of a bar over its mass; 2 to 4 in most of Europe",
        "pad_mm" => "rubber of 3 to 5 mm",
        "deck_depth_mm" => "push a hooked wire through a pilot hole, catch the far face, and measure",
        "deck_rib_mm" => "look at a cut edge of the floor, or at the maker's sheet: ribs are often thinner than faces",
        "deck_thickness_mm" => "drill a pilot hole for a stud and measure there",
        "free_height_mm" => "a tape from the floor above to the lowest thing below, at full load",
        _ => "measure it where it will sit",
    }
}

fn beneath(key: &str) -> &'static str {
    match key {
        "ground_mm" => "a tape from level ground to its lowest part, tanks full and everything loaded",
        "travel_mm" => {
            "from the axle to the rubber stop above it: 60 to 120 mm; 100 mm are taken where nothing is said"
        }
        "behind_mm" => "a plumb line from its rear edge to the ground, and a tape to the middle of the tyre's foot",
        "departure_deg" => {
            "the maker's sheet, or a board from the tyre's foot to the lowest part behind it and a level"
        }
        "exhaust_mm" => "a tape, engine running and warm: hangers let it swing by 20 mm",
        "shaft_mm" => "a tape, then less what the axle rises at full bump",
        "tyre_mm" => "a tape at full lock, then less what the wheel rises at full bump",
        "lines_mm" => "a tape; follow each line from end to end with a lamp",
        _ => OTHER,
    }
}
