//! Results of a load's supply: which voltage it gets, and whether that is enough.

use super::fact::{At, AtMost, One, facts, one};
use crate::engine::installation::load::Load;
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::circuit::result::{Drawn, LoadSupply};
use crate::quantity::*;

/// What the plan says of the load that stands here.
fn planned<'a>(at: &At<'a>) -> Option<&'a Load> {
    at.site.loads.get(at.index)
}

/// A load on the inverter gets what the inverter makes; the 12 V side is the inverter's.
fn subject(at: &At<'_>) -> Subject {
    if planned(at).is_some_and(|l| l.inverter) { Subject::Inverter } else { Subject::Load(at.index) }
}

facts! { LoadSupply, "load", "what one load gets", |_, at| subject(at);
    NAME: Option<String> = "name", "Load", "the load", |_, at| Some(planned(at)?.name.clone());
    AT: Option<String> = "at", "At", "its point", |_, at| Some(planned(at)?.at.clone());
    INVERTER: bool = "inverter", "AC", "whether the inverter feeds it: then the voltages are the inverter's, and it draws nothing itself", |_, at| planned(at).is_some_and(|l| l.inverter);
    GROUP: Option<usize> = "group", "Never with", "loads of the same number never run together; null when it is in no such group", |_, at| planned(at)?.group;
    DRAWS: One<Drawn> = "draws", "Draws", "what it draws from the circuit", |s, at| one(&s.drawn, at);
    CLASS: Option<String> = "class", "Loss allowed", "which loss is allowed: critical, ordinary or tolerant", |_, at| Some(planned(at)?.drop.clone());
    VOLTAGE: Option<Volts> = "voltage_v", "Steady", "lowest: its battery at its lowest and all on that may be, of loads that never run together the one that pulls it down most; null when it cannot be fed", |s, _| s.voltage, "voltage";
    SURGE_VOLTAGE: Option<Volts> = "surge_voltage_v", "At start", "lowest of all starts, one at a time on top of that, the copper as warm as it works", |s, _| s.surge_voltage, "voltage at a start";
    CHARGING_VOLTAGE: Option<Volts> = "charging_voltage_v", "Charging", "highest: as what charges holds its own terminals, nothing lost on the way", |s, _| s.charging_voltage, "voltage while charging";
    DROP: Option<Volts> = "drop_v", "Drop", "from the posts, out and back; null when it cannot be fed", |s, _| s.drop, "drop";
    DROP_SHARE: Option<Share> = "drop_share", "of 12 V", "the same as a share of what its side is made for: 12 V, or 24 V before the charger of such a vehicle", |s, _| s.drop_share, "drop";
    LIMIT: AtMost<Share> = "limit_share", "Limit", "of its class", |s, _| AtMost(s.limit);
    FITS: bool = "fits", "Fits", "whether it keeps its class and its lowest voltage", |s, _| s.fits, "drop";
}
