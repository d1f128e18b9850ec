//! Names of the answer of `endurance`.

use super::Object;

pub(super) const OBJECTS: &[Object] = &[
    Object {
        at: &["endurance"],
        names: &[
            ("version", "1"),
            ("question", "what was asked"),
            ("lowest", "lowest state of charge"),
            ("lowest_at_h", "hours after the beginning"),
            ("cuts", "how often the cut-off opened"),
            ("cut_hours_h", "hours it was open"),
            ("first_cut_h", "when it first opened; null when never"),
            ("dead_hours_h", "hours in which the battery gave nothing"),
            ("refused_hours_h", "hours in which it was too cold or hot to charge"),
            ("weekly_balance_ah", "more in than out over the last week"),
            ("drift", "change of the state of charge a week, after the first"),
            ("cycles_a_year", "full cycles"),
            ("wear_cycles", "share of its life used by a year of them"),
            ("wear_calendar", "share of its life used by a year of age"),
            ("ledger", "where the charge came from and went"),
            ("by_day", "each day"),
            ("loads", "each load, in the plan's order"),
            ("points", "the curve, at most about 2,000 points"),
            ("findings", "worst first"),
            ("workings", "with --workings"),
            ("uncertainty", "with --draws: how sure it is"),
        ],
    },
    Object {
        at: &["endurance.uncertainty"],
        names: &[
            ("draws", "how many"),
            ("seed", "the same seed gives the same result"),
            ("uncut", "chance of no cut in all the days"),
            ("lowest", "lowest charge: under it 1 of 20 draws, half, 19 of 20"),
            ("unserved_h", "hours without power of all loads together, likewise"),
            ("cut_at_night", "for each day, chance of a cut in the night that ends on it"),
            ("cut_by", "for each day, chance of a cut by its end"),
            ("inputs", "what matters most first"),
        ],
    },
    Object {
        at: &["endurance.uncertainty.inputs[]"],
        names: &[
            ("input", "what varies"),
            ("low", "its 10 % value"),
            ("lowest_at_low", "lowest charge with it"),
            ("high", "its 90 % value"),
            ("lowest_at_high", "lowest charge with it"),
        ],
    },
    Object {
        at: &["endurance.uncertainty.inputs[].low", "endurance.uncertainty.inputs[].high"],
        names: &[("value", "the number; shares are 0 to 1"), ("unit", "its unit; % marks a share")],
    },
    Object {
        at: &["endurance.question"],
        names: &[
            ("days", "how many"),
            ("first_day", "day of the year"),
            ("from", "state of charge at the beginning"),
            ("health", "share of the capacity that age has left"),
        ],
    },
    Object {
        at: &["endurance.ledger"],
        names: &[
            ("start_ah", "in the battery at the beginning"),
            ("end_ah", "at the end"),
            ("charged_ah", "into its posts"),
            ("drawn_ah", "out of its posts"),
            ("lost_ah", "put in and not stored"),
            ("leaked_ah", "self-discharge"),
            ("from_driving_ah", "offered while driving"),
            ("from_sun_ah", "offered by the sun"),
            ("from_mains_ah", "offered by the mains"),
            ("used_ah", "taken by loads and standing draws"),
        ],
    },
    Object {
        at: &["endurance.by_day[]"],
        names: &[
            ("lowest", "lowest state of charge"),
            ("end", "state of charge at midnight"),
            ("charged_ah", "into the posts"),
            ("drawn_ah", "out of the posts"),
            ("cut_hours_h", "hours with the cut-off open"),
            ("cut_at_night", "whether it was open at night"),
        ],
    },
    Object {
        at: &["endurance.loads[]"],
        names: &[
            ("name", "the load"),
            ("wanted_h", "hours it was meant to draw"),
            ("unserved_h", "hours of them it could not"),
        ],
    },
    Object {
        at: &["endurance.points[]"],
        names: &[
            ("at_h", "hours after the beginning"),
            ("charge", "state of charge"),
            ("voltage_v", "at the posts"),
            ("current_a", "out of the battery; negative while charging"),
            ("air_c", "air"),
            ("cut", "whether the cut-off is open"),
        ],
    },
];
