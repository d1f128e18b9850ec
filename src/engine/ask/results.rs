//! Results of questions asked without a plan.

use crate::engine::ask::cable::{CableAnswer, CableQuestion};
use crate::engine::ask::cut_off::{CutOffAnswer, CutOffQuestion};
use crate::engine::ask::published::{PublishedCase, SelfCheck};
use crate::engine::design::results::Worked;
use crate::engine::design::results::fact::{Asked, Many, One, Version, facts, many, one};
use crate::engine::design::results::report::workings;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::Finding;
use crate::engine::simulate::circuit::result::{RunDesign, SizeRow};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::quantity::*;

facts! { CableQuestion, "cable-question", "which cable", |_, _| Subject::Plan;
    CURRENT: Amps = "current_a", "Current", "steady current", |q, _| q.current;
    LENGTH: Metres = "length_m", "Length", "one way", |q, _| q.length;
    DROP: Share = "drop_share", "Drop limit", "most that may be lost, as a share of 12 V", |q, _| q.drop;
    INSULATION: String = "insulation", "Insulation", "insulation class", |q, _| q.insulation.clone();
    PLACE: String = "place", "Through", "what it runs through", |q, _| q.place.clone();
    AIR: Option<Celsius> = "air_c", "Air", "air as asked; null when the place's", |q, _| q.air;
    BUNDLED: u32 = "bundled_with", "Bundled with", "other loaded cables in the bundle", |q, _| q.bundled_with;
}

facts! { CableAnswer, "cable", "what `cable --json` prints: every size for one current and length", |_, _| Subject::Run(0);
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    QUESTION: One<CableQuestion> = "question", "Question", "what was asked", |a, at| one(&a.question, at);
    SIZE: Option<One<SizeRow>> = "size", "Take", "the size to take; null when none is enough", |a, at| a.take().map(|s| one(s, at));
    ALONE: Option<String> = "alone", "By the conductor alone", "smallest size by the drop of the conductor alone at 20 °C, as tables of drop say; no heat, joint or fuse", |a, _| a.alone.clone();
    RUN: One<RunDesign> = "run", "Run", "the run: what decided, how far the size goes, every size side by side", |a, at| one(&a.run, at);
    FINDINGS: Many<Finding> = "findings", "Findings", "worst first", |a, at| many(&a.findings, at);
    WORKINGS: Asked<Many<Worked>> = "workings", "Workings", "with --workings: how each number came about", |a, at| workings(a, |a| &a.workings, at);
}

facts! { CutOffQuestion, "cut-off-question", "where to disconnect", |_, _| Subject::CutOff;
    CHEMISTRY: String = "chemistry", "Chemistry", "key of the chemistry", |q, _| q.chemistry.clone();
    CAPACITY: AmpHours = "capacity_ah", "Capacity", "rated capacity", |q, _| q.capacity;
    CURRENT: Amps = "current_a", "Current", "the usual current", |q, _| q.current;
}

facts! { CutOffAnswer, "cut-off-answer", "what `cut-off --json` prints: where to disconnect a battery", |_, _| Subject::CutOff;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    QUESTION: One<CutOffQuestion> = "question", "Question", "what was asked", |a, at| one(&a.question, at);
    CUT_OFF: One<CutOffDesign> = "cut_off", "Cut-off", "the settings", |a, at| one(&a.design, at);
    FINDINGS: Many<Finding> = "findings", "Findings", "worst first", |a, at| many(&a.findings, at);
    WORKINGS: Asked<Many<Worked>> = "workings", "Workings", "with --workings: how each number came about", |a, at| workings(a, |a| &a.workings, at);
}

facts! { PublishedCase, "published-case", "a published case beside what the program makes of it", |_, _| Subject::Plan;
    WHAT: String = "what", "Case", "what is asked", |c, _| c.what.clone();
    SOURCE: String = "source", "Source", "where the answer was published", |c, _| c.source.into();
    PUBLISHED: String = "published", "Published", "what was published, or the bounds that follow, with its unit", |c, _| c.published();
    GOT: Option<String> = "got", "Here", "what the program makes of it; null where the catalogue has no such row", |c, _| c.got.map(|f| f.to_string());
    HOLDS: bool = "holds", "Holds", "whether it lies within them", |c, _| c.holds();
}

facts! { SelfCheck, "self-check", "what `self-check --json` prints: published cases worked with the catalogue in use", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    CASES: Many<PublishedCase> = "cases", "Cases", "each case", |s, at| many(&s.cases, at);
}
