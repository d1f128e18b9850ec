//! Results of the battery over the years.

use crate::engine::ask::ageing::{Ageing, CapacityTest, Found};
use crate::engine::design::results::fact::{Many, One, Version, facts, many, one};
use crate::engine::installation::subject::Subject;
use crate::quantity::*;

facts! { Found, "found", "what the battery was found to hold once", |_, _| Subject::ServiceBattery;
    AT: String = "month", "Month", "when", |f, _| f.at.to_string();
    SHARE: Share = "held_share", "Held", "of what is rated", |f, _| f.share;
    LEAST: Share = "least_share", "At least", "by that measurement", |f, _| f.bounds.0;
    MOST: Share = "most_share", "At most", "by that measurement", |f, _| f.bounds.1;
    EXPECTED: Share = "expected_share", "Expected", "by the planned life", |f, _| f.expected;
    RESISTANCE: Option<Milliohms> = "resistance_mohm", "Inside", "internal resistance, as found", |f, _| f.resistance;
    EXPECTED_RESISTANCE: Milliohms = "expected_resistance_mohm", "Expected inside", "internal resistance by the planned life", |f, _| f.expected_resistance;
}

facts! { CapacityTest, "capacity-test", "a discharge of one evening from full, and a rest", |_, _| Subject::ServiceBattery;
    LOADS: Vec<String> = "loads", "Switch on", "the plan's loads that serve; none where something else of that current must", |t, _| t.loads.clone();
    CURRENT: Amps = "current_a", "Current", "what flows then", |t, _| t.current;
    HOURS: Hours = "hours_h", "For", "how long", |t, _| t.hours;
    STOP: Volts = "stop_v", "Stop at", "earlier when the posts fall below this", |t, _| t.stop_at;
    REST: Hours = "rest_h", "Rest", "everything off before the voltage is read", |t, _| t.rest;
    RESTED: Volts = "rested_v", "Rests at", "if it holds what is rated", |t, _| t.rested;
    LEAST: Option<Share> = "least_share", "At least", "of the capacity told: its lower bound in 95 of 100 tests; null where nothing bounds it", |t, _| t.least;
    MOST: Option<Share> = "most_share", "At most", "its upper bound", |t, _| t.most;
}

facts! { Ageing, "ageing", "what `ageing --json` prints: the battery over the years, and how its capacity is tested", |_, _| Subject::ServiceBattery;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    FOUND: Many<Found> = "found", "Found", "by time", |a, at| many(&a.found, at);
    PLANNED: Share = "planned_share_a_year", "Planned loss", "share of the capacity that a year was to take", |a, _| a.planned;
    NEEDS: Option<Share> = "needs_share", "The promise needs", "least share of the capacity with which the days without charge hold; null where they do not with a new battery", |a, _| a.needs;
    LOSES: Option<Share> = "loses_share_a_year", "Loss", "share that a year took; null where it cannot be told", |a, _| a.loses.map(|l| l.value);
    LOSES_LEAST: Option<Share> = "loses_least_share_a_year", "Loss at least", "in 95 of 100", |a, _| a.loses.and_then(|l| l.least);
    LOSES_MOST: Option<Share> = "loses_most_share_a_year", "Loss at most", "in 95 of 100", |a, _| a.loses.and_then(|l| l.most);
    UNTIL: Option<String> = "until", "Holds until", "month when the promise no longer holds", |a, _| a.until[0].map(|m| m.to_string());
    EARLIEST: Option<String> = "until_earliest", "Earliest", "its early bound", |a, _| a.until[1].map(|m| m.to_string());
    LATEST: Option<String> = "until_latest", "Latest", "its late bound; null where it cannot be told", |a, _| a.until[2].map(|m| m.to_string());
    NOTE: String = "note", "Note", "how it is meant, or why it cannot be told", |a, _| a.note.clone();
    TEST: Option<One<CapacityTest>> = "test", "Test", "how to test the capacity", |a, at| a.test.as_ref().map(|t| one(t, at));
}
