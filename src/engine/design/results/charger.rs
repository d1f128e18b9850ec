//! Results of charging: the current, its bounds, the feed, the other sources, how long it takes.

use super::fact::{AtMost, Many, One, facts, many, one};
use crate::engine::installation::subject::Subject;
use crate::engine::parts::array_cable::ArrayCable;
use crate::engine::parts::charger::Bound;
use crate::engine::simulate::charger::array::Array;
use crate::engine::simulate::charger::result::RelayComparison;
use crate::engine::simulate::charger::result::{ChargerDesign, Recovery};
use crate::quantity::*;

facts! { ChargerDesign, "charger", "the charger and what else brings charge", |_, _| Subject::Charger;
    CURRENT: Option<Amps> = "current_a", "Output current", "output; null when there is none", |c, _| c.current, "current";
    OUTPUT: Volts = "output_v", "Charge voltage", "charge voltage at its output, at 25 °C", |c, _| c.output;
    OUTPUT_HIGHEST: Volts = "output_highest_v", "Highest charge voltage", "the same in the coldest air", |c, _| c.output_highest, "highest voltage";
    LOWER: Option<One<Bound>> = "lower", "Output at least", "lowest current that is enough: the highest of `lowers`; null without a charger", |c, at| c.lower().map(|b| one(&b, at));
    LOWERS: Many<Bound> = "lowers", "Output at least", "what it must reach, each by itself", |c, at| many(&c.lowers(), at);
    UPPER: Many<Bound> = "upper", "Output at most", "what it may not exceed, each by itself", |c, at| many(c.upper(), at);
    TO_PUT_BACK: AmpHours = "to_put_back_ah", "To put back a day", "what a day of driving has to put back", |c, _| c.bounds.put_back, "to put back";
    A_DAY: AmpHours = "a_day_ah", "Puts back a day", "put back on a day of driving", |c, _| c.a_day, "a day";
    INPUT: Amps = "input_a", "Input current", "most it takes", |c, _| c.input, "input current";
    INPUT_VOLTAGE: Volts = "input_v", "Voltage at its input", "at its input then", |c, _| c.input_voltage, "input voltage";
    LOWEST_INPUT: Volts = "lowest_input_v", "It works down to", "lowest voltage it works with at its own input", |c, _| c.lowest_input;
    SPARE_IDLE: Amps = "spare_idle_a", "Alternator spare, idle", "hot alternator at idle, less the vehicle's own draw", |c, _| c.spare_idle, [Subject::Alternator, "spare at idle"];
    SPARE_ROAD: Amps = "spare_road_a", "Alternator spare, road", "the same on the road", |c, _| c.spare_road, [Subject::Alternator, "spare on the road"];
    STARTS_FOR: Option<Days> = "starts_for_d", "Engine starts for", "parked, until the starter battery may not start the engine; null for ever", |c, _| c.starts_for, [Subject::StarterBattery, "starts for"];
    ARRAY: One<Array> = "array", "Array", "the array's side of its controller", |c, at| one(&c.array, at);
    ARRAY_CABLE: Option<One<ArrayCable>> = "array_cable", "Panel cable", "cable and device between panels and controller; null where its way is not given", |c, at| c.array_cable.as_ref().map(|a| one(a, at));
    SUN_HOURS: SunHours = "sun_hours", "Sun hours", "full sun on the array on a usual day", |c, _| c.sun_hours, [Subject::Solar, "sun hours"];
    SOLAR_A_DAY: AmpHours = "solar_a_day_ah", "Sun", "from the sun on a usual day", |c, _| c.solar_a_day, [Subject::Solar, "a day"];
    SOLAR_SHARE: Share = "solar_share", "Sun's share", "what of it is stored, as a share of the charge used a day", |c, _| c.solar_share, [Subject::Solar, "share of the need"];
    MAINS_A_DAY: AmpHours = "mains_a_day_ah", "Mains", "from the mains on a day plugged in", |c, _| c.mains_a_day, [Subject::Mains, "a day"];
    RECOVERY: Many<Recovery> = "recovery", "Driving time to recover", "driving time from the planned depth until charged again", |c, at| many(&c.recovery, at);
    RELAY: Option<One<RelayComparison>> = "relay", "A plain relay instead", "a plain relay instead; null where there is nothing to compare", |c, at| c.relay.as_ref().map(|r| one(r, at));
}

facts! { Array, "array", "the array's side of its controller", |_, _| Subject::Solar;
    OPEN: Option<Volts> = "open_v", "Array open, coldest", "with nothing connected on the coldest day", |a, _| a.open, "open voltage";
    CABLE: Option<Amps> = "cable_a", "Array cable", "what its cable carries at least before corrections, and its device is rated for: 1.56 times the short-circuit current", |a, _| a.cable, "array cable";
    CORRECTED: Option<Amps> = "corrected_a", "After corrections", "what its cable carries at least after corrections for air and bundle: 1.25 times", |a, _| a.corrected, "array cable after corrections";
    BACKWARD: Option<Amps> = "backward_a", "Back into a string", "what the other strings drive back into one that has a fault", |a, _| a.backward, "back into one string";
    PASSED: Option<Share> = "passed", "Passed on", "share of its power that a controller without tracking passes on", |a, _| a.passed;
}

facts! { ArrayCable, "array-cable", "cable and device between panels and controller", |_, _| Subject::Solar;
    LENGTH: Metres = "length_m", "Length", "one way", |a, _| a.length;
    SHORT: Amps = "short_circuit_a", "Shorted", "all strings in full sun", |a, _| a.short;
    SIZE: Option<String> = "size", "Panel cable size", "of the conductor; null where none is enough", |a, _| a.size.clone();
    CARRIES: AtMost<Amps> = "carries_a", "Panel cable carries", "as it is laid", |a, _| AtMost(a.carries), "cable carries";
    DROP: Volts = "drop_v", "Panel cable loses", "at maximum power, hot", |a, _| a.drop, "cable drop";
    LOST: Share = "lost_share", "Lost", "of the array's voltage", |a, _| a.lost;
    DEVICE: Option<Amps> = "device_a", "Device", "that full sun does not open; null where none is made", |a, _| a.device;
}

facts! { Bound, "charge-bound", "a bound on the charge current", |_, _| Subject::Charger;
    NAME: &'static str = "name", "Bound", "which bound", |b, _| b.name();
    CURRENT: Amps = "current_a", "Charge current", "the current", |b, _| b.amps, [Subject::Charger, b.name()];
    ADVICE: bool = "advice", "Advice", "whether passing it is only a caution", |b, _| b.advice();
}

facts! { Recovery, "recovery", "time to come back to a state of charge", |_, _| Subject::Charger;
    TO: Share = "to", "Charged to", "state of charge", |r, _| r.to;
    TIME: Option<Hours> = "time_h", "Driving", "hours of charging; null when never", |r, _| r.hours, [Subject::Charger, format!("recovery to {:.0} %", r.to.get() * 100.0)];
}

facts! { RelayComparison, "relay", "a plain relay in place of the charger", |_, _| Subject::Charger;
    POSSIBLE: bool = "possible", "Possible here", "whether both batteries and the alternator allow it", |r, _| r.possible;
    WHY: String = "why", "Why", "why not, or what to beware of", |r, _| r.why.clone();
    CURRENT: Amps = "current_a", "Charge current", "at the planned depth, engine running", |r, _| r.current, "relay current";
    INRUSH: Amps = "inrush_a", "Inrush", "from a full starter battery at the planned depth, engine off", |r, _| r.inrush, "relay inrush";
    TO_80: Option<Hours> = "to_80_h", "Driving to 80 %", "from the planned depth; null when never", |r, _| r.to_80;
    REACHES: Volts = "reaches_v", "Brings at most", "highest charge voltage it brings", |r, _| r.reaches;
    WANTS: Volts = "wants_v", "The battery wants", "charge voltage that the battery wants", |r, _| r.wants;
}
