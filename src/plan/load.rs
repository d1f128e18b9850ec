//! A load of the plan: what uses energy, when, and how it starts.

use super::board::Lead;
use super::choice::{Choice, LoadKind, Obstacle, ReturnPath, When};
use super::field::{Kind, Pick, SHARE, count, num};
use super::months::Months;
use super::table::table;
use super::weekdays::Weekdays;
use super::windows::Windows;
use crate::quantity::*;

table! {
    /// Something that uses energy.
    Load in Load with { duty: Duty, start: Start, lead: Lead } {
        /// What it is.
        name: String => "name", "Load", Kind::Text { longest: 60, required: true }, NotAllowed;
        /// The point it is connected to.
        at: String => "at", "At", Kind::Point, Default;
        /// How many of it.
        count: u32 = 1 => "count", "Count", count(0.0, 100.0), Default;
        /// Power of one while on; give this or the current.
        power: Option<Watts> => "power_w", "Power", num(Unit::Watt, 0.0, 20_000.0), Chosen;
        /// Current of one while on, at 12 V; give this or the power.
        current: Option<Amps> => "current_a", "Current", num(Unit::Amp, 0.0, 1000.0), Chosen;
        /// How its current follows the voltage.
        kind: LoadKind => "kind", "Kind", Kind::Choice(LoadKind::words), Default;
        /// Needs mains voltage from the inverter.
        inverter: bool => "inverter", "By inverter", Kind::Flag, Default;
        /// Hours a day it is switched on.
        duty.hours_a_day => "duty.hours_a_day", "Hours a day", num(Unit::Hour, 0.0, 24.0), Chosen;
        /// Share of that time it draws (thermostat), at 25 °C.
        duty.share_on => "duty.share_on", "Duty", SHARE, Default;
        /// Added to the share for each kelvin above 25 °C.
        duty.share_per_k => "duty.share_per_k", "Duty per K", num(Unit::SharePerKelvin, -0.1, 0.1), Default;
        /// Times of day it is switched on.
        duty.windows => "duty.windows", "Times", Kind::Windows, Default;
        /// Days of the week on which it is used; a span over midnight belongs to the day on which it begins.
        duty.days => "duty.days", "On days", Kind::Weekdays, Default;
        /// Months of the year in which it is used.
        duty.months => "duty.months", "Months", Kind::Months, Default;
        /// Whether it runs only while driving, parked, by day or by night.
        duty.when => "duty.when", "When", Kind::Choice(When::words), Default;
        /// Start current in multiples of the running current; 1 for none.
        start.times => "start.times", "Inrush", num(Unit::Times, 1.0, 20.0), Default;
        /// How long the start surge lasts.
        start.lasts => "start.seconds", "Inrush lasts", num(Unit::Second, 0.0, 60.0), Default;
        /// Longest that it is on at a time, such as a winch; it may stay on unless this and the next are given.
        on: Option<Seconds> => "on_s", "On for at most", num(Unit::Second, 0.5, 7200.0), Chosen;
        /// Shortest that it is off then.
        off: Option<Seconds> => "off_s", "Then off for", num(Unit::Second, 0.0, 86_400.0), Chosen;
        /// How much voltage may be lost on the way to it.
        drop: String = "ordinary".into() => "drop", "Loss allowed", Kind::Pick(Pick::DropClass), Default;
        /// Lowest voltage it works at.
        lowest: Option<Volts> => "lowest_v", "Works down to", num(Unit::Volt, 5.0, 14.0), Chosen;
        /// Highest voltage that it bears.
        highest: Option<Volts> => "highest_v", "Bears up to", num(Unit::Volt, 12.0, 60.0), Chosen;
        /// It switches itself off below this.
        own_cut: Option<Volts> => "own_cut_v", "Own cut", num(Unit::Volt, 5.0, 14.0), Chosen;
        /// Loads with the same word here never run together.
        not_with: Option<String> => "not_with", "Not with", Kind::Text { longest: 30, required: false }, Chosen;
        /// Stays connected when the cut-off has opened.
        before_cut_off: bool => "before_cut_off", "Before cut-off", Kind::Flag, Default;
        /// Its own cable from the point it hangs on, one way; no cable of its own is planned when left out.
        lead.length => "lead_m", "Lead", num(Unit::Metre, 0.05, 200.0), Chosen;
        /// Conductor size of its lead; leave out to have it sized.
        lead.size => "lead_size", "Lead size", Kind::Size, Chosen;
        /// Rating of the fuse or breaker of its lead; leave out to have it chosen.
        lead.fuse => "lead_fuse_a", "Lead fuse", num(Unit::Amp, 0.5, 1000.0), Chosen;
        /// Insulation class of its lead, printed on the cable.
        lead.insulation => "lead_insulation", "Lead insulation", Kind::Pick(Pick::Insulation), Default;
        /// What its lead runs through; the hottest stretch counts.
        lead.surroundings => "lead_surroundings", "Lead through", Kind::Pick(Pick::CablePlace), Default;
        /// Other loaded cables in the same bundle as its lead, counted by pairs.
        lead.bundled_with => "lead_bundled_with", "Others by the lead", count(0.0, 200.0), Default;
        /// Number of its lead on labels and papers; the lowest that is free when left out.
        lead.number => "lead_number", "Lead number", count(1.0, 9999.0), Chosen;
        /// How the current comes back from it.
        lead.return_path => "lead_return", "Lead return", Kind::Choice(ReturnPath::words), Default;
        /// What its lead passes on its way.
        lead.passes => "lead_passes", "Lead passes", Kind::Words(Obstacle::words), Default;
        /// Loads of a board with the same word share a way and its fuse; a way of its own when left out.
        way: Option<String> => "way", "Way", Kind::Text { longest: 30, required: false }, Chosen;
        /// Number of that shared way's fuse on papers, given with one of its loads; the lowest that is free when left out.
        lead.way_number => "way_number", "Way number", count(1.0, 9999.0), Chosen;
        /// It is a socket of this rating: its lead and its fuse fit that, whatever is plugged in.
        socket: Option<Amps> => "socket_a", "Socket", num(Unit::Amp, 0.5, 100.0), Chosen;
        /// Fuse within its own leads, as its maker fits it; leave out where there is none.
        tail_fuse: Option<Amps> => "tail_fuse_a", "Fuse in its own leads", num(Unit::Amp, 0.5, 1000.0), Chosen;
        /// What mends the plan may not change it.
        keep: bool => "keep", "Keep", Kind::Flag, Default;
    }
}

/// When and how long a load runs.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Duty {
    /// Hours a day it is switched on; 24, or the length of `windows`, when absent.
    pub hours_a_day: Option<Hours>,
    /// Share of the on-time it really draws (thermostat) at 25 °C.
    pub share_on: Share,
    /// Added to the share for each kelvin above 25 °C.
    pub share_per_k: f64,
    pub windows: Windows,
    pub days: Weekdays,
    pub months: Months,
    pub when: When,
}

impl Default for Duty {
    fn default() -> Self {
        Duty {
            hours_a_day: None,
            share_on: Share::FULL,
            share_per_k: 0.0,
            windows: Windows::default(),
            days: Weekdays::all(),
            months: Months::all(),
            when: When::Always,
        }
    }
}

/// The start surge of a load.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Start {
    /// Multiple of the running current; 1 for none.
    pub times: f64,
    pub lasts: Seconds,
}

impl Default for Start {
    fn default() -> Self {
        Start { times: 1.0, lasts: Seconds::ZERO }
    }
}
