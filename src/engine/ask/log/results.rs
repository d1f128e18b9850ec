//! Results of a log.

use crate::engine::ask::log::answer::{CurveAt, HourOfDay, Line, LogAnswer};
use crate::engine::design::results::fact::{Many, Version, facts, many};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::remedy::Edit;
use crate::quantity::*;

facts! { Line, "log-line", "a number of the plan beside what was measured", |_, _| Subject::Plan;
    KEY: String = "key", "Key", "by which it is taken into the plan", |l, _| l.key.clone();
    WORDS: String = "words", "What", "what it is", |l, _| l.words.trim().to_string();
    PLANNED: Option<Figure> = "planned", "Planned", "as the plan has it, or as it follows from it; null where it says nothing", |l, _| l.planned;
    MEASURED: Option<Figure> = "measured", "Measured", "null where the log cannot tell", |l, _| l.measured;
    LEAST: Option<Figure> = "least", "At least", "in 95 of 100 logs; null where nothing bounds it", |l, _| l.least;
    MOST: Option<Figure> = "most", "At most", "in 95 of 100 logs; null where nothing bounds it", |l, _| l.most;
    SAMPLES: usize = "samples", "Samples", "marks, steps or rows that it rests on", |l, _| l.samples;
    NOTE: String = "note", "Note", "how it is meant, or why the log cannot tell", |l, _| l.note.clone();
    EDITS: Many<Edit> = "edits", "Edits", "what takes it into the plan; none where the plan lies within the bounds", |l, at| many(&l.edits, at);
    THEN: Vec<String> = "then", "Changes", "what is different in the plan then", |l, _| l.then.clone();
}

facts! { HourOfDay, "log-hour", "charge in an hour of the day", |_, _| Subject::Plan;
    HOUR: usize = "hour", "Hour", "it begins at", |h, _| h.hour;
    INTO: AmpHours = "into_ah", "In", "into the battery, a day", |h, _| h.into;
    OUT: AmpHours = "out_ah", "Out", "out of the battery, a day", |h, _| h.out;
    SOURCES: String = "sources", "Sources", "what may charge then, by the plan", |h, _| h.sources.clone();
}

facts! { CurveAt, "log-point", "the voltage at one moment", |_, _| Subject::Plan;
    AT: Hours = "at_h", "After", "after the first row", |c, _| c.at;
    MEASURED: Volts = "measured_v", "Measured", "at the posts, mean over the stretch", |c, _| c.measured;
    PLANNED: Option<Volts> = "planned_v", "Expected", "of the plan's own days; null beyond them", |c, _| c.planned;
}

facts! { LogAnswer, "log", "what `log --json` prints: a logger's file beside the plan", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    READ_AS: Vec<String> = "read_as", "Read as", "how the file was read", |a, _| a.read_as.iter().map(|(label, words)| format!("{label}: {words}")).collect();
    LEFT_OUT: Vec<String> = "left_out", "Left out", "what of it does not count", |a, _| a.left_out.clone();
    ROWS: usize = "rows", "Rows", "rows that count", |a, _| a.rows;
    DAYS: Days = "days_d", "Days", "how long they tell of, without gaps", |a, _| a.days;
    LINES: Many<Line> = "lines", "Lines", "planned, measured and what it changes", |a, at| many(&a.lines, at);
    HOURS: Many<HourOfDay> = "hours", "Hours", "charge by the hour of the day", |a, at| many(&a.hours, at);
    CURVE: Many<CurveAt> = "curve", "Curve", "voltage over time, measured and expected", |a, at| many(&a.curve, at);
}
