//! Results of the whole endurance question, and of many draws: how sure it is, what matters most.

use super::fact::{Asked, Many, One, Version, facts, many, one};
use super::finding::Worked;
use super::report::workings;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Workings;
use crate::engine::judge::finding::Finding;
use crate::engine::simulate::chance::Uncertainty;
use crate::engine::simulate::chance::tornado::Bar;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;

/// Days of use with what is thought of them.
#[derive(Clone, Debug)]
pub struct DaysOfUse {
    /// What was asked.
    pub span: Span,
    /// What happened.
    pub days: Endurance,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// How each number came about.
    pub workings: Workings,
    /// How sure it is, when that was asked.
    pub sure: Option<Uncertainty>,
}

facts! { DaysOfUse, "endurance", "what `days --json` prints: days of use", |_, _| Subject::Endurance;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    QUESTION: One<Span> = "question", "Question", "what was asked", |d, at| one(&d.span, at);
    DAYS: One<Endurance> = "days", "Days of use", "what happened", |d, at| one(&d.days, at);
    FINDINGS: Many<Finding> = "findings", "Findings", "worst first", |d, at| many(&d.findings, at);
    WORKINGS: Asked<Many<Worked>> = "workings", "Workings", "with --workings: how each number came about", |d, at| workings(d, |d| &d.workings, at);
    SURE: Asked<One<Uncertainty>> = "uncertainty", "How sure it is", "with --trials: how sure it is", |d, at| Asked(d.sure.as_ref().map(|s| one(s, at)));
}

facts! { Uncertainty, "uncertainty", "what many trials say", |_, _| Subject::Endurance;
    DRAWS: u32 = "trials", "Trials", "how many", |u, _| u.draws;
    SEED: u64 = "seed", "Seed", "the same seed gives the same result", |u, _| u.seed;
    UNCUT: Share = "uncut", "Never cut off", "chance of no cut in all the days", |u, _| u.uncut;
    LOWEST: [Share; 3] = "lowest", "Lowest charge", "lowest charge: under it 1 of 20 trials, half, 19 of 20", |u, _| u.lowest;
    UNSERVED: [Hours; 3] = "unserved_h", "Without power", "hours without power of all loads together, likewise", |u, _| u.unserved;
    CUT_AT_NIGHT: Vec<Share> = "cut_at_night", "Cut in its night", "for each day, chance of a cut in the night that ends on it", |u, _| u.cut_at_night.clone();
    CUT_BY: Vec<Share> = "cut_by", "Cut by its end", "for each day, chance of a cut by its end", |u, _| u.cut_by.clone();
    INPUTS: Many<Bar> = "inputs", "What matters most", "what matters most first", |u, at| many(&u.tornado, at);
}

facts! { Bar, "uncertain-input", "one input moved, the others in the middle", |_, _| Subject::Endurance;
    INPUT: &'static str = "input", "What varies", "what varies", |b, _| b.input.words();
    LOW: Figure = "low", "Low", "its 10 % value", |b, _| b.low.0;
    AT_LOW: Share = "lowest_at_low", "Lowest then", "lowest charge with it", |b, _| b.low.1;
    HIGH: Figure = "high", "High", "its 90 % value", |b, _| b.high.0;
    AT_HIGH: Share = "lowest_at_high", "Lowest then", "lowest charge with it", |b, _| b.high.1;
    SPREAD: Share = "spread", "Spread", "how far it moves the lowest charge", |b, _| b.spread();
}
