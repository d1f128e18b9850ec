//! Results of the test sheet: what the finished wiring should measure, and what the readings say.

use super::fact::{At, Content, Form, Kind, Many, One, facts, many, one};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::test_sheet::result::{
    Band, Fault, NextReading, PointExpected, ReadingResult, RunExpected, Test, TestSheet, Verdict,
};
use crate::plan::Reading;
use crate::quantity::*;

impl<Q: Quantity + 'static> Kind for Band<Q> {
    const FORM: Form = Form::Band(Q::UNIT);
    fn content(self) -> Content {
        Content::Band([self.low, self.likely, self.high].map(|q| Figure::new(q.number(), Q::UNIT)))
    }
}

facts! { TestSheet, "test-sheet", "what the finished wiring should measure", |_, _| Subject::TestSheet;
    AIR: Celsius = "air_c", "Air", "air the expected values are for", |s, _| s.air;
    RUNS: Many<RunExpected> = "runs", "Runs", "each run by itself", |s, at| many(&s.runs, at);
    TESTS: Many<Test> = "tests", "Tests", "loads to switch on, and what to expect", |s, at| many(&s.tests, at);
    READINGS: Many<ReadingResult> = "readings", "Readings", "the plan's readings, in its order", |s, at| many(&s.readings, at);
    SERVICE: One<Verdict> = "service", "From the service battery", "what the readings of the service side say", |s, at| one(&s.service, at);
    FEED: One<Verdict> = "feed", "From the starter battery", "what those of the starter side say", |s, at| one(&s.feed, at);
}

facts! { RunExpected, "run-expected", "a volt-drop test of one run; bands are lowest, likely, highest that is sound", |r, _| Subject::Run(r.run);
    NUMBER: String = "number", "Run", "the run", |r, at| at.site.run_number(r.run);
    RESISTANCE: Band<Ohms> = "resistance_band_ohm", "Resistance", "out and back", |r, _| r.resistance, "test drop";
    CURRENT: Amps = "current_a", "With", "test current", |r, _| r.current, "test drop";
    DROP: Band<Volts> = "drop_band_v", "Drop", "drop at that current", |r, _| r.drop, "test drop";
}

facts! { Test, "test", "one load switched on", |_, _| Subject::TestSheet;
    WITH: String = "with", "With", "what is switched on", |t, _| t.with.clone();
    CURRENT: Amps = "current_a", "Current", "its current", |t, _| t.current;
    POSTS: Volts = "posts_v", "Posts", "posts the voltages are for", |t, _| t.posts;
    POINTS: Many<PointExpected> = "points", "Points", "on the way, nearest the battery first", |t, at| many(&t.points, at);
}

facts! { PointExpected, "point-expected", "what to expect at a point; bands are lowest, likely, highest that is sound", |_, _| Subject::TestSheet;
    POINT: String = "point", "Point", "where to measure", |p, _| p.point.clone();
    RUN: String = "run", "Run", "the run that leads there", |p, at| at.site.run_number(p.run);
    DROP: Band<Volts> = "drop_band_v", "Drop", "posts less this point", |p, _| p.drop;
    VOLTAGE: Band<Volts> = "voltage_band_v", "Volts", "there, with those posts", |p, _| p.voltage;
}

/// What the plan says of a reading.
fn planned<'a>(reading: &ReadingResult, at: &At<'a>) -> Option<&'a Reading> {
    at.site.readings.get(reading.reading)
}

facts! { ReadingResult, "reading", "one reading of the plan", |_, _| Subject::TestSheet;
    AT: Option<String> = "at", "At", "the point where it was taken", |r, at| Some(planned(r, at)?.at.clone());
    WITH: Option<String> = "with", "With", "what was switched on", |r, at| Some(planned(r, at)?.with.clone());
    DROP: Option<Volts> = "drop_v", "Drop", "posts less the point, as measured", |r, _| r.drop;
    EXPECTED: Option<Band<Volts>> = "expected_band_v", "Expected", "lowest, likely, highest that is sound", |r, _| r.expected;
    VERDICT: String = "verdict", "Verdict", "what is thought of it", |r, _| r.words();
}

facts! { Verdict, "verdict", "what the readings of one side say", |_, _| Subject::TestSheet;
    WORD: VerdictWord = "verdict", "Verdict", "what they say, in a word", |v, _| VerdictWord(v.word());
    FAULTS: Many<Fault> = "faults", "Runs", "the bad run, or the candidates", |v, at| many(v.faults(), at);
    NEXT: Option<One<NextReading>> = "next", "Next reading", "the reading to take next; null when none helps", |v, at| v.next().map(|n| one(n, at));
}

struct VerdictWord(&'static str);

impl Kind for VerdictWord {
    const FORM: Form = Form::Word(|| Verdict::WORDS.to_vec());
    fn content(self) -> Content {
        self.0.content()
    }
}

facts! { Fault, "bad-joint", "a run with too much resistance", |f, _| Subject::Run(f.run);
    RUN: String = "run", "Run", "which", |f, at| at.site.run_number(f.run);
    EXCESS: Ohms = "excess_ohm", "Too much by", "too much by", |f, _| f.excess;
    ERROR: Ohms = "error_ohm", "Error", "standard error of that", |f, _| f.error;
    HEAT: Watts = "heat_w", "Heat", "in that joint at the current that was read", |f, _| f.heat, "joint heat";
    FULL_HEAT: Watts = "full_heat_w", "Heat at full load", "in that joint at the run's largest steady current", |f, _| f.full_heat;
}

facts! { NextReading, "next-reading", "a reading worth taking", |_, _| Subject::TestSheet;
    AT: String = "at", "At", "where to put the meter", |n, _| n.at.clone();
    WITH: String = "with", "With", "what to switch on", |n, _| n.with.clone();
    CURRENT: Amps = "current_a", "Current", "its current", |n, _| n.current;
}
