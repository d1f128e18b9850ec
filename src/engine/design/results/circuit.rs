//! Results of the circuit as it was solved: its sources, and what draws or feeds at which voltage.
//!
//! With the runs' resistances this is all that is needed to solve it anew.

use super::fact::{Content, Form, Kind, One, Word, facts, one};
use crate::engine::installation::circuits::Side;
use crate::engine::installation::subject::Subject;
use crate::engine::physics::network::load::Load as Law;
use crate::engine::simulate::circuit::demand::End;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::result::{Device, Drawn};
use crate::plan::{LoadKind, point};
use crate::quantity::*;

facts! { Levels, "sources", "the voltages that feed the circuit, at their worst", |_, _| Subject::Plan;
    LOWEST: Volts = "lowest_v", "Service battery, lowest", "at its posts with loads on: from there `near_v`, `far_v` and `voltage_v` of its side are solved", |l, _| l.lowest, [Subject::ServiceBattery, "lowest voltage"];
    LOWEST_BY: &'static str = "lowest_by", "by", "what that follows from", |l, _| l.source(Side::Service);
    FEED: Volts = "feed_v", "Starter battery, lowest", "at its posts while driving: the same for its side", |l, _| l.feed;
    FEED_BY: &'static str = "feed_by", "by", "what that follows from", |l, _| l.source(Side::Feed);
    CHARGING: Volts = "charging_v", "Charging, highest", "at the terminals of what charges", |l, _| l.charging;
}

facts! { Drawn, "drawn", "what something takes from the circuit, and at which voltage", |_, _| Subject::Plan;
    BATTERY: Option<Side> = "battery", "Battery", "which battery it hangs on; null for none", |d, _| d.side;
    KIND: Option<Word<LoadKind>> = "kind", "Kind", "what it holds constant; null when it hangs on nothing", |d, _| Some(Word(kind(d.law?)));
    POWER: Option<Watts> = "power_w", "Power", "of a constant power; of a resistance at 12 V", |d, _| match d.law? {
        Law::Power(power) => Some(power),
        Law::Resistance { rated, .. } => Some(rated),
        Law::Current(_) => None,
    };
    CURRENT: Option<Amps> = "current_a", "Current", "of a constant current; negative when it feeds", |d, _| match d.law? {
        Law::Current(current) => Some(current),
        _ => None,
    };
    RESISTANCE: Option<Ohms> = "resistance_ohm", "Resistance", "of a resistance", |d, _| match d.law? {
        Law::Resistance { rated, nominal } if rated > Watts::ZERO => Some(nominal / (rated / nominal)),
        _ => None,
    };
    ON: bool = "on", "On", "whether it is on while all are on that may be: of a group the one that draws most, and no source", |d, _| d.on;
    SIZED_FOR: Amps = "sized_for_a", "Sized for", "steady current that sizes its cables: the most it can be", |d, _| d.sized_for, [d.load(), "largest current"];
    SETTLED: Option<Amps> = "settled_a", "Draws", "current at `voltage_v`; negative when it feeds", |d, _| d.settled();
    VOLTAGE: Option<Volts> = "voltage_v", "Gets", "with all that are `on`, its battery at its lowest; where it is not, with itself in place of its group; of a source while all sources feed and no load is on; null when it cannot be fed", |d, _| d.voltage;
    START: Amps = "start_a", "Start adds", "what its start adds to `sized_for_a`", |d, _| d.start.current;
    START_LASTS: Seconds = "start_lasts_s", "for", "how long a start lasts", |d, _| d.start.lasts;
}

impl Drawn {
    /// The load that draws it.
    fn load(&self) -> Option<Subject> {
        self.end.filter(|end| matches!(end, End::Load(_))).map(End::subject)
    }
}

fn kind(law: Law) -> LoadKind {
    match law {
        Law::Power(_) => LoadKind::ConstantPower,
        Law::Current(_) => LoadKind::ConstantCurrent,
        Law::Resistance { .. } => LoadKind::Resistance,
    }
}

facts! { Device, "device", "something besides the loads that draws or feeds", |d, _| d.drawn.end.map_or(Subject::Plan, End::subject);
    WHAT: &'static str = "what", "Device", "which", |d, _| d.drawn.end.map_or("", End::words);
    AT: String = "at", "At", "its point", |d, _| d.at.clone();
    DRAWS: One<Drawn> = "draws", "Draws", "what it draws or feeds", |d, at| one(&d.drawn, at);
}

impl Kind for Side {
    const FORM: Form = Form::Word(|| vec![point::SERVICE_BATTERY, point::STARTER_BATTERY]);
    fn content(self) -> Content {
        Content::Text(self.battery().into())
    }
}
