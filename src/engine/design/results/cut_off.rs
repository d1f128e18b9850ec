//! Results of the cut-off: its settings, and what they mean at other currents.

use super::fact::{Many, facts, many};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::cut_off::result::{Acts, AtCurrent, CurvePoint, CutOffDesign};
use crate::plan::{Choice, CutOffBy};
use crate::quantity::*;

facts! { CutOffDesign, "cut-off", "the low-voltage disconnect", |_, _| Subject::CutOff;
    CUT: Volts = "cut_v", "Cut-off", "opens at, where it senses", |c, _| c.cut, "cut";
    EXACT: Volts = "exact_v", "Before rounding", "the same before rounding to the device's steps", |c, _| c.exact;
    NEAREST: Volts = "nearest_v", "Nearest to the reserve", "the step that would be chosen: it acts nearest to the reserve", |c, _| c.nearest;
    WINDOW_LOWEST: Option<Volts> = "window_lowest_v", "Serves light currents from", "below it a light current takes too much out of the reserve", |c, _| c.window.map(|w| w.lowest);
    WINDOW_HIGHEST: Option<Volts> = "window_highest_v", "Serves heavy currents to", "above it a heavy current opens it much too early", |c, _| c.window.map(|w| w.highest);
    SERVED_BY: Option<AmpHours> = "served_by_ah", "One voltage serves", "the bank with which one voltage serves both; null where one does, or no larger bank helps", |c, _| c.served_by;
    RECONNECT: Volts = "reconnect_v", "Reconnect", "closes at", |c, _| c.reconnect, "reconnect";
    ACTS_BY: &'static str = "acts_by", "Acts by", "voltage, counted charge or the battery's own signal", |c, at| if c.counter.is_some() { CutOffBy::Charge.key() } else { at.site.cut_off.acts_by.key() };
    OPENS_AT: Option<Share> = "opens_at", "Opens at", "counted charge; null where none is counted", |c, _| c.counter.map(|n| n.opens), "counter";
    CLOSES_AT: Option<Share> = "closes_at", "Closes at", "counted charge; null where none is counted", |c, _| c.counter.map(|n| n.closes);
    COUNTS_ON: Option<Share> = "counts_on", "Counts on", "capacity to be set in the counter, of the rated; null where none is counted", |c, _| c.counter.map(|n| n.counts_on);
    COUNTER_ERROR: Option<Share> = "counter_error", "May be off by", "after the days without charge; null where none is counted", |c, _| c.counter.map(|n| n.error), "counter error";
    HYSTERESIS: Volts = "hysteresis_v", "Least between them", "least from cut-off to reconnect that does not chatter", |c, _| c.hysteresis_needed, "hysteresis";
    DELAY: Seconds = "delay_s", "Delay", "before it opens", |c, _| c.delay, "delay";
    DELAY_NEEDED: Seconds = "delay_needed_s", "Delay needed", "by the worst start at the reserve", |c, _| c.delay_needed;
    RESERVE: Share = "reserve", "Keeps", "charge kept", |c, _| c.reserve;
    USUAL: Option<&'static str> = "usual", "Decided by", "name of the current it is chosen by", |c, _| c.at_usual().map(|a| a.name.word());
    AT_CURRENTS: Many<AtCurrent> = "at_currents", "At each current", "what the setting means at each current", |c, at| many(&c.at_currents, at);
    SURGE: Volts = "surge_v", "In the worst start", "where it senses in the worst start at the reserve", |c, _| c.surge_voltage, "surge voltage";
    AFTER: Amps = "after_a", "Drawn after it", "drawn after it has opened, self-discharge included", |c, _| c.after, "after";
    REBOUND: Volts = "rebound_v", "Rebounds to", "posts after the loads have gone", |c, _| c.rebound, "rebound";
    CHARGING: Volts = "charging_v", "Charging reaches", "what charging reaches where it senses", |c, _| c.charging, "charging";
    DAYS_TO_HARM: Option<Days> = "days_to_harm_d", "Then harm after", "from the cut-off to harm by standing draws; null when never", |c, _| c.days_to_harm, "days to harm";
    ORDER: Many<Acts> = "order", "What acts first", "what acts first as the voltage falls", |c, at| many(&c.order, at);
    CURRENT: Amps = "current_a", "Carries", "steady current through it", |c, _| c.current, "current";
    RATING: Option<Amps> = "rating_a", "Rating", "of the device; null when not known", |c, _| c.rating, "rating";
    CURVE: Many<CurvePoint> = "curve", "Curve", "discharge curve", |c, at| many(&c.curve, at);
}

facts! { AtCurrent, "cut-off-current", "the cut-off seen at one current", |_, _| Subject::CutOff;
    NAME: &'static str = "name", "Load", "light, usual or heavy", |a, _| a.name.word();
    CURRENT: Amps = "current_a", "Current", "the current", |a, _| a.current, [Subject::CutOff, format!("{} current", a.name)];
    POSTS: Volts = "posts_v", "At the posts", "at the posts at the reserve", |a, _| a.posts, [Subject::CutOff, format!("posts, {}", a.name)];
    SENSING: Volts = "sensing_v", "Where it senses", "where it senses at the reserve", |a, _| a.sensing, [Subject::CutOff, format!("sensing, {}", a.name)];
    TRIPS_AT: Option<Share> = "trips_at", "Trips at", "state of charge at which it trips; null when never", |a, _| a.trips_at, [Subject::CutOff, format!("trips, {}", a.name)];
}

facts! { Acts, "acts", "something that acts at a voltage", |_, _| Subject::CutOff;
    WHAT: String = "what", "What acts", "what acts", |a, _| a.what.words();
    AT: Volts = "at_v", "At", "at which voltage", |a, _| a.at;
}

facts! { CurvePoint, "discharge-point", "one point of the discharge curve", |_, _| Subject::CutOff;
    CHARGE: Share = "charge", "Charge", "state of charge", |p, _| p.charge;
    RESTING: Volts = "resting_v", "Resting", "resting", |p, _| p.resting;
    SENSING: Vec<Volts> = "sensing_v", "Where it senses", "at each of at_currents, in their order", |p, _| p.sensing.clone();
}
