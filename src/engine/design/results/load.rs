//! Results of a load's supply: which voltage it gets, and whether that is enough.

use super::fact::{At, AtMost, facts};
use crate::engine::installation::load::Load;
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::circuit::result::LoadSupply;
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
    CLASS: Option<String> = "class", "Class", "its drop class", |_, at| Some(planned(at)?.drop.clone());
    VOLTAGE: Option<Volts> = "voltage_v", "Steady", "steady; null when it cannot be fed", |s, _| s.voltage, "voltage";
    SURGE_VOLTAGE: Option<Volts> = "surge_voltage_v", "At start", "while the worst start happens", |s, _| s.surge_voltage;
    CHARGING_VOLTAGE: Option<Volts> = "charging_voltage_v", "Charging", "while charging with little load", |s, _| s.charging_voltage;
    DROP: Volts = "drop_v", "Drop", "from the posts, out and back", |s, _| s.drop, "drop";
    DROP_SHARE: Share = "drop_share", "of 12 V", "the same as a share of 12 V", |s, _| s.drop_share, "drop";
    LIMIT: AtMost<Share> = "limit_share", "Limit", "of its class", |s, _| AtMost(s.limit);
    FITS: bool = "fits", "Fits", "whether it keeps its class and its lowest voltage", |s, _| s.fits, "drop";
}
