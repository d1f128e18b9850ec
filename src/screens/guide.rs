//! What a newcomer wants to know: a plan in six steps, and the words of the trade.

use crate::screens::theme::Role;

/// How to go from nothing to a plan that can be built.
const STEPS: [&str; 6] = [
    "N: answer the questions; the plan that comes out has no stop when the answers are ordinary.",
    "L: every load with its power from the nameplate and the hours of a usual day.",
    "R: the length of each cable, laid with a string; leave size and fuse out.",
    "F: mend what says STOP, think about each caution; a applies a remedy, u takes it back.",
    "B, C and D: is the battery one that you would buy, the cut-off one that you can set, and does it last the days?",
    "s saves, m says what to buy, P writes the papers for the workshop.",
];

/// Words that stand on the screens and in no kitchen.
const WORDS: [(&str, &str); 24] = [
    ("ampacity", "current that a cable carries for ever without getting too hot"),
    ("absorption", "the part of charging at a held voltage, while the current falls"),
    ("bank", "all blocks of the service battery together"),
    ("board", "fuse box, breaker panel or bus bar: where circuits begin"),
    ("bond", "the cable from the battery's minus to the vehicle's body"),
    ("breaking capacity", "largest current that a fuse can break without bursting"),
    ("C20, 20-hour rate", "capacity when it is drawn within 20 hours; faster gives less"),
    ("cut-off", "what parts loads from the battery before it is flat: a low-voltage disconnect"),
    ("DC-DC charger", "makes the right charge voltage from whatever the alternator gives"),
    ("depth of discharge", "how much of its capacity is taken out before it is charged"),
    ("duty", "share of the time a load really draws while it is switched on"),
    ("float", "voltage that keeps a full battery full"),
    ("inrush", "what a load takes as it starts, in multiples of its running current"),
    ("lead", "a load's own cable from its board"),
    ("prospective current", "what would flow in a short circuit at that place"),
    ("reserve", "charge that is to stay in the battery"),
    ("rest", "hours without current, after which the voltage says how full it is"),
    ("reconnect voltage", "where the cut-off closes again, above the rebound"),
    ("rebound", "the rise of the voltage after the loads have gone"),
    ("run", "a cable between two points, there and back"),
    ("selectivity", "only the fuse nearest to a fault opens"),
    ("sulphation", "what becomes of lead-acid that is left discharged"),
    ("voltage drop", "what is lost on the way, out and back"),
    ("way", "one circuit of a board, with its fuse"),
];

/// As lines of text.
pub fn lines() -> Vec<(String, Role)> {
    let mut out = vec![("A plan in six steps".to_string(), Role::Heading)];
    out.extend(STEPS.iter().enumerate().map(|(n, step)| (format!("  {}. {step}", n + 1), Role::Text)));
    out.push((String::new(), Role::Text));
    out.push(("Words".into(), Role::Heading));
    out.extend(WORDS.iter().map(|(word, means)| (format!("  {word:<24} {means}"), Role::Text)));
    out
}
