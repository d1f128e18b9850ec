//! What the test sheet's part of a design holds, for screens and papers.

use crate::engine::installation::circuits::Side;
use crate::quantity::*;

/// Expected values, what was measured, and what follows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TestSheet {
    /// Air around the cables that the expected values are for.
    pub air: Celsius,
    /// Errors of the meters, from the plan or the catalogue.
    pub meter: MeterErrors,
    /// Each run that has a size: its resistance, cold, and the drop of a volt-drop test.
    pub runs: Vec<RunExpected>,
    /// Loads to switch on, one at a time, and then all; what to expect at each point.
    pub tests: Vec<Test>,
    /// The plan's readings, in its order.
    pub readings: Vec<ReadingResult>,
    /// What the readings of the service battery's side say.
    pub service: Verdict,
    /// What the readings of the starter battery's side say.
    pub feed: Verdict,
}

/// A figure with the bounds that sound wiring and an ordinary meter keep (two standard errors).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Band<Q> {
    /// Lowest that is still sound.
    pub low: Q,
    /// Most likely.
    pub likely: Q,
    /// Highest that is still sound.
    pub high: Q,
}

/// Errors of the meters, as bounds.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MeterErrors {
    /// Last digit of the voltmeter.
    pub step: Volts,
    /// Error in last digits.
    pub digits: f64,
    /// Error as a share of the reading.
    pub reading: Share,
    /// Error of the clamp meter as a share of the reading.
    pub clamp: Share,
    /// Error of the clamp meter near zero.
    pub clamp_zero: Amps,
    /// Current of a load that was not measured, either way.
    pub load: Share,
}

/// One run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunExpected {
    /// Index of the run in the plan.
    pub run: usize,
    /// Resistance out and back at the test's air, joints and fuse-link included.
    pub resistance: Band<Ohms>,
    /// Current of the best test through it (the `tests` entry with most current), or a test load its fuse stands.
    pub current: Amps,
    /// Drop along it at that current, out and back, as the meter may show it.
    pub drop: Band<Volts>,
}

/// One load switched on.
#[derive(Clone, Debug, PartialEq)]
pub struct Test {
    /// What to write into a reading's `with`.
    pub with: String,
    /// Which battery's posts the drop is counted from.
    pub side: Side,
    /// What its current should be.
    pub current: Amps,
    /// Voltage at the battery's posts that the expected voltages are for.
    pub posts: Volts,
    /// Every point on the way, nearest the battery first.
    pub points: Vec<PointExpected>,
}

/// What to expect at a point.
#[derive(Clone, Debug, PartialEq)]
pub struct PointExpected {
    /// The point.
    pub point: String,
    /// Run that leads to it.
    pub run: usize,
    /// Posts less this point: what to compare, whatever the battery has.
    pub drop: Band<Volts>,
    /// Voltage there if the posts have `Test::posts`.
    pub voltage: Band<Volts>,
}

/// One reading of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadingResult {
    /// Index in the plan.
    pub reading: usize,
    /// Whether it can be used, and if not, why.
    pub state: ReadingState,
    /// Posts less the point, as measured.
    pub drop: Option<Volts>,
    /// Posts less the point, as expected with this current.
    pub expected: Option<Band<Volts>>,
    /// Voltage at the point, as expected with these posts and this current.
    pub voltage: Option<Band<Volts>>,
    /// Current taken for it, and whether it was measured.
    pub current: Option<(Amps, bool)>,
    /// Whether the drop lies in the band; `None` when not usable.
    pub within: Option<bool>,
}

/// Whether a reading can be used.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadingState {
    /// It counts.
    Used,
    /// The voltage at the battery's own posts: serves the other readings with the same load.
    Posts,
    /// Nothing was on: compared with the posts, but says nothing about resistance.
    Idle,
    /// Several loads were on: compared with the expected, but how the current was shared
    /// between them is not known, so it names no run.
    Compared,
    /// Not measured yet, or something is missing: what.
    Waiting(Missing),
    /// It cannot be used: why.
    Unusable(String),
}

/// What a reading needs before it says anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// At the point.
    Voltage,
    /// Of the test load.
    Current,
    /// Voltage of the posts.
    Posts,
}

impl Missing {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Missing::Voltage => "voltage",
            Missing::Current => "current of the test load",
            Missing::Posts => "voltage at the posts at the same moment",
        }
    }
}

impl ReadingResult {
    /// What is thought of it, in words.
    pub fn words(&self) -> String {
        match (&self.state, self.within) {
            (ReadingState::Unusable(why), _) => format!("not used: {why}"),
            (ReadingState::Waiting(what), _) => format!("waits for {}", what.words()),
            (ReadingState::Posts, _) => "the posts, for the others".into(),
            (ReadingState::Idle, _) => "nothing was on".into(),
            (ReadingState::Used | ReadingState::Compared, Some(true)) => "as expected".into(),
            (ReadingState::Used | ReadingState::Compared, Some(false)) => "OUTSIDE".into(),
            (ReadingState::Used | ReadingState::Compared, None) => String::new(),
        }
    }
}

/// What the readings of one side say.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Verdict {
    /// No usable readings.
    #[default]
    Nothing,
    /// No run has more resistance than it should, as far as these readings see.
    Sound {
        /// Runs that a reading sees, with the smallest excess it would have noticed.
        notices: Vec<(usize, Ohms)>,
        /// Runs with a size that no reading sees.
        unseen: Vec<usize>,
    },
    /// This run has a bad joint.
    Bad {
        /// Which, how much, how hot.
        fault: Fault,
        /// Two other runs that, bad both at once, would read the same; the next reading rules them out.
        unless: Option<(usize, usize)>,
        /// The reading that would rule it out.
        next: Option<NextReading>,
    },
    /// These two runs each have a bad joint.
    BadTwice(Fault, Fault),
    /// The readings cannot tell these runs apart.
    Unclear {
        /// Any of these; with the excess each would have if it is the one.
        candidates: Vec<Fault>,
        /// One bad joint is not enough; it takes at least two.
        several: bool,
        /// The reading that tells them apart, if any does.
        next: Option<NextReading>,
    },
    /// Little or nothing of the battery's voltage is there: something is open, exchanged, or off.
    Dead(Dead),
    /// No bad joint explains the readings: one is wrong, or it is no joint that is at fault.
    Contradiction,
}

/// Where the voltage is missing.
#[derive(Clone, Debug, PartialEq)]
pub struct Dead {
    /// The point.
    pub at: String,
    /// What the meter showed there; negative where plus and minus are exchanged.
    pub read: Volts,
    /// What it showed at the posts at the same moment; of the battery itself the same.
    pub posts: Volts,
    /// Runs in which it is lost, as far as the other readings tell; none where the battery itself has none.
    pub runs: Vec<usize>,
}

impl Dead {
    /// In a sentence, the runs by these names.
    pub fn words(&self, names: &[String]) -> String {
        let (at, read) = (&self.at, self.read);
        // A meter on nothing may show a little less than nothing.
        if read < Volts::new(-1.0) {
            return format!("{read} at `{at}`: plus and minus are exchanged there, or the probes were");
        }
        match names {
            [] => format!("only {read} at `{at}`: it is empty, or its own protection has opened"),
            names => format!(
                "only {read} at `{at}` while the posts have {}: open, or all but open, in {}",
                self.posts,
                names.join(" or ")
            ),
        }
    }
}

impl Verdict {
    /// Every word for a verdict.
    pub const WORDS: [&'static str; 7] =
        ["nothing", "sound", "bad", "bad-twice", "unclear", "no-voltage", "contradiction"];

    /// In a word.
    pub fn word(&self) -> &'static str {
        let [nothing, sound, bad, bad_twice, unclear, no_voltage, contradiction] = Self::WORDS;
        match self {
            Verdict::Nothing => nothing,
            Verdict::Sound { .. } => sound,
            Verdict::Bad { .. } => bad,
            Verdict::BadTwice(..) => bad_twice,
            Verdict::Unclear { .. } => unclear,
            Verdict::Dead(_) => no_voltage,
            Verdict::Contradiction => contradiction,
        }
    }

    /// The bad runs, or the candidates.
    pub fn faults(&self) -> Vec<&Fault> {
        match self {
            Verdict::Bad { fault, .. } => vec![fault],
            Verdict::BadTwice(a, b) => vec![a, b],
            Verdict::Unclear { candidates, .. } => candidates.iter().collect(),
            _ => Vec::new(),
        }
    }

    /// The reading to take next.
    pub fn next(&self) -> Option<&NextReading> {
        match self {
            Verdict::Bad { next, .. } | Verdict::Unclear { next, .. } => next.as_ref(),
            _ => None,
        }
    }
}

/// A run with too much resistance.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Index of the run in the plan.
    pub run: usize,
    /// Resistance above the expected.
    pub excess: Ohms,
    /// Its standard error.
    pub error: Ohms,
    /// Largest current that flowed in it in the readings.
    pub current: Amps,
    /// Heat in that joint at that current, I²R, if it sits in one place.
    pub heat: Watts,
    /// Largest steady current of the run.
    pub full: Amps,
    /// Heat in that joint at that.
    pub full_heat: Watts,
    /// How much hotter that joint gets than what it sits in at the full current; rough.
    pub warming: Kelvins,
    /// How many readings see this run.
    pub readings: usize,
    /// What to look at, likeliest first.
    pub look_at: Vec<String>,
}

impl Fault {
    /// How far the excess may be off either way: two standard errors, as all bands of the sheet.
    pub fn bound(&self) -> Ohms {
        self.error * 2.0
    }
}

/// A reading worth taking.
#[derive(Clone, Debug, PartialEq)]
pub struct NextReading {
    /// Where to put the meter.
    pub at: String,
    /// What to switch on, as written into `with`: a load, or a point for a test load.
    pub with: String,
    /// Current of it.
    pub current: Amps,
    /// Whether that is a test load to be connected, not a load of the plan.
    pub test_load: bool,
    /// Drop to expect there for each candidate, in the order of the candidates
    /// (for `Bad`: the named run, then the two others).
    pub drops: Vec<(usize, Volts)>,
    /// Whether it tells all candidates apart, or only some.
    pub decides: bool,
}
