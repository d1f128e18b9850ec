//! Results of days of use: the charge, what was cut off and when, where the charge went.

use super::fact::{Many, One, facts, many, one};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::days::result::{Endurance, EnduranceDay, EndurancePoint, Ledger, LoadHours, Outage};
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;

facts! { Span, "span", "which days are simulated", |_, _| Subject::Endurance;
    DAYS: u32 = "days", "Days", "how many", |s, _| s.days;
    FIRST_DAY: u32 = "first_day", "First day", "day of the year", |s, _| s.first_day;
    FROM: Share = "from", "Beginning with", "state of charge at the beginning", |s, _| s.from;
    HEALTH: Share = "health", "Health", "share of the capacity that age has left", |s, _| s.health;
}

facts! { Endurance, "days-of-use", "what happens over days of use", |_, _| Subject::Endurance;
    LOWEST: Share = "lowest", "Lowest charge", "lowest state of charge", |e, _| e.lowest, "lowest charge";
    LOWEST_AT: Hours = "lowest_at_h", "After", "hours after the beginning", |e, _| e.lowest_at;
    CUTS: u32 = "cuts", "Cuts", "how often the cut-off opened", |e, _| e.cuts;
    CUT_HOURS: Hours = "cut_hours_h", "Hours cut off", "hours it was open", |e, _| e.cut_hours;
    FIRST_CUT: Option<Hours> = "first_cut_h", "First cut after", "when it first opened; null when never", |e, _| e.first_cut;
    DEAD: Hours = "dead_hours_h", "Battery gave nothing", "hours in which the battery gave nothing", |e, _| e.dead_hours;
    REFUSED: Hours = "refused_hours_h", "Charge refused", "hours in which it was too cold or hot to charge", |e, _| e.refused_hours;
    WEEKLY: AmpHours = "weekly_balance_ah", "Balance of a week", "more in than out over the last week", |e, _| e.weekly_balance, "weekly balance";
    DRIFT: Share = "drift", "Drift a week", "change of the state of charge a week, after the first", |e, _| e.drift, "drift";
    CYCLES: CycleCount = "cycles_a_year", "Full cycles", "full cycles", |e, _| CycleCount::new(e.cycles_a_year), "cycles a year";
    WEAR_CYCLES: Share = "wear_cycles", "Life used by cycles", "share of its life used by a year of them", |e, _| e.wear_cycles, "wear by cycles";
    WEAR_CALENDAR: Share = "wear_calendar", "Life used by calendar", "share of its life used by a year of age", |e, _| e.wear_calendar, "wear by calendar";
    STARTER_LOWEST: Share = "starter_lowest", "Starter at lowest", "lowest state of charge of the starter battery", |e, _| e.starter_lowest;
    START_LOST: Option<Hours> = "start_lost_h", "Start lost after", "when the starter battery first had less than starting needs; null when never", |e, _| e.start_lost;
    LEDGER: One<Ledger> = "ledger", "Ledger", "where the charge came from and went", |e, at| one(&e.ledger, at);
    BY_DAY: Many<EnduranceDay> = "by_day", "Each day", "each day", |e, at| many(&e.by_day, at);
    LOADS: Many<LoadHours> = "loads", "Each load", "each load, in the plan's order", |e, at| many(&e.loads, at);
    OUTAGES: Many<Outage> = "outages", "Outages", "when a load that should draw stood without power", |e, at| many(&e.outages, at);
    POINTS: Many<EndurancePoint> = "points", "Curve", "the curve, at most about 2,000 points", |e, at| many(&e.points, at);
}

facts! { Ledger, "ledger", "where the charge came from and went", |_, _| Subject::Endurance;
    START: AmpHours = "start_ah", "In it at first", "in the battery at the beginning", |l, _| l.start;
    END: AmpHours = "end_ah", "In it at the end", "at the end", |l, _| l.end;
    CHARGED: AmpHours = "charged_ah", "Put into it", "into its posts", |l, _| l.charged;
    DRAWN: AmpHours = "drawn_ah", "Drawn from it", "out of its posts", |l, _| l.drawn;
    LOST: AmpHours = "lost_ah", "Lost in it", "put in and not stored", |l, _| l.lost;
    LEAKED: AmpHours = "leaked_ah", "Leaked", "self-discharge", |l, _| l.leaked;
    MISSING: AmpHours = "missing_ah", "Unaccounted", "what these leave over: nothing but rounding", |l, _| l.charge_balance().value, "charge missing";
    FROM_DRIVING: AmpHours = "from_driving_ah", "Offered by driving", "offered while driving", |l, _| l.from_driving;
    FROM_STARTER: AmpHours = "from_starter_ah", "Out of the starter", "taken out of the starter battery by the charger, beyond what the alternator gave", |l, _| l.from_starter;
    FROM_SUN: AmpHours = "from_sun_ah", "Offered by the sun", "offered by the sun", |l, _| l.from_sun;
    FROM_MAINS: AmpHours = "from_mains_ah", "Offered by the mains", "offered by the mains", |l, _| l.from_mains;
    USED: AmpHours = "used_ah", "Used by the loads", "taken by loads and standing draws", |l, _| l.used;
}

facts! { EnduranceDay, "day", "one day", |_, _| Subject::Endurance;
    LOWEST: Share = "lowest", "Lowest", "lowest state of charge", |d, _| d.lowest;
    END: Share = "end", "At its end", "state of charge at midnight", |d, _| d.end;
    CHARGED: AmpHours = "charged_ah", "In", "into the posts", |d, _| d.charged;
    DRAWN: AmpHours = "drawn_ah", "Out", "out of the posts", |d, _| d.drawn;
    CUT: Hours = "cut_hours_h", "Cut off", "hours with the cut-off open", |d, _| d.cut_hours;
    CUT_AT_NIGHT: bool = "cut_at_night", "Cut at night", "whether it was open at night", |d, _| d.cut_at_night;
}

facts! { LoadHours, "load-hours", "one load over the days", |_, at| Subject::Load(at.index);
    NAME: Option<String> = "name", "Load", "the load", |_, at| at.site.loads.get(at.index).map(|l| l.name.clone());
    WANTED: Hours = "wanted_h", "Wanted", "hours it was meant to draw", |l, _| l.wanted;
    UNSERVED: Hours = "unserved_h", "Without power", "hours of them it could not", |l, _| l.unserved;
}

facts! { Outage, "outage", "a load without power", |o, _| Subject::Load(o.load);
    LOAD: Option<String> = "load", "Load", "the load", |o, at| at.site.loads.get(o.load).map(|l| l.name.clone());
    FROM: Hours = "from_h", "From", "hours after the beginning", |o, _| o.from;
    UNTIL: Hours = "until_h", "Until", "hours after the beginning", |o, _| o.until;
}

facts! { EndurancePoint, "charge-point", "one point of the curve", |_, _| Subject::Endurance;
    AT: Hours = "at_h", "After", "hours after the beginning", |p, _| p.at;
    CHARGE: Share = "charge", "Charge", "state of charge", |p, _| p.charge;
    VOLTAGE: Volts = "voltage_v", "Voltage", "at the posts", |p, _| p.volts;
    CURRENT: Amps = "current_a", "Current", "out of the battery; negative while charging", |p, _| p.current;
    STARTER: Share = "starter", "Starter", "state of charge of the starter battery", |p, _| p.starter;
    AIR: Celsius = "air_c", "Air", "air", |p, _| p.air;
    CUT: bool = "cut", "Cut", "whether the cut-off is open", |p, _| p.cut;
}
