//! The low-voltage disconnect, as far as the plan gives it.

use super::choice::{Choice, CutOffBy};
use super::field::{Kind, num};
use super::point;
use super::table::table;
use crate::quantity::*;

table! {
    /// The low-voltage disconnect.
    CutOff in CutOff {
        /// Voltage at the sensing point where it opens; leave out to have it chosen.
        cut: Option<Volts> => "cut_v", "Cut-off voltage", num(Unit::Volt, 8.0, 15.0), Chosen;
        /// Voltage at the sensing point where it closes again.
        reconnect: Option<Volts> => "reconnect_v", "Reconnect voltage", num(Unit::Volt, 9.0, 16.0), Chosen;
        /// How long the voltage must stay low before it opens.
        delay: Option<Seconds> => "delay_s", "Delay", num(Unit::Second, 0.0, 3600.0), Chosen;
        /// Charge to keep in the battery at the cut-off.
        reserve: Option<Share> => "reserve", "Reserve", num(Unit::Share, 0.0, 0.95), Chosen;
        /// What makes it open; by counted charge the voltage is a floor under the count.
        acts_by: CutOffBy => "acts_by", "Acts by", Kind::Choice(CutOffBy::words), Default;
        /// Counted charge at which it opens; the reserve and what the counter may be off when left out.
        opens_at: Option<Share> => "opens_at", "Opens at charge", num(Unit::Share, 0.02, 0.95), Chosen;
        /// Counted charge at which it closes again; 10 % above where it opens when left out.
        closes_at: Option<Share> => "closes_at", "Closes at charge", num(Unit::Share, 0.03, 0.99), Chosen;
        /// How far the counter strays in a day without being set right by a full battery, as a share of the capacity.
        drift: Share = Share::new(0.01) => "drift", "Drift a day", num(Unit::Share, 0.0, 0.2), Default;
        /// How far it may be off when it takes the battery for full.
        reset_error: Share = Share::new(0.02) => "reset_error", "Off when full", num(Unit::Share, 0.0, 0.2), Default;
        /// The point whose voltage it watches.
        senses_at: String = point::CUT_OFF.into() => "senses_at", "Senses at", Kind::Point, Default;
        /// Smallest step of its setting.
        step: Volts = Volts::new(0.1) => "step_v", "Step", num(Unit::Volt, 0.01, 1.0), Default;
        /// Lowest voltage it can be set to.
        lowest_setting: Volts = Volts::new(9.5) => "lowest_v", "Lowest setting", num(Unit::Volt, 7.0, 14.0), Default;
        /// Highest voltage it can be set to.
        highest_setting: Volts = Volts::new(14.0) => "highest_v", "Highest setting", num(Unit::Volt, 9.0, 16.0), Default;
        /// Longest delay it can be set to.
        longest_delay: Seconds = Seconds::new(90.0) => "longest_delay_s", "Longest delay", num(Unit::Second, 0.0, 3600.0), Default;
        /// Current it can carry and switch.
        rating: Option<Amps> => "rating_a", "Rating", num(Unit::Amp, 1.0, 1000.0), Chosen;
        /// It opens the minus alone.
        in_minus: bool => "in_minus", "In the minus", Kind::Flag, Default;
        /// What it takes itself, open or closed.
        standing_draw: Amps = Amps::new(0.01) => "standing_draw_a", "Standing draw", num(Unit::Amp, 0.0, 2.0), Default;
    }
}
