//! Results of questions asked without a plan, and of what else would do.

use crate::engine::ask::cable::{CableAnswer, CableQuestion};
use crate::engine::ask::cut_off::{CutOffAnswer, CutOffQuestion};
use crate::engine::ask::published::{PublishedCase, SelfCheck};
use crate::engine::ask::rivals::cross::Rivals;
use crate::engine::ask::rivals::matters::{Matter, Matters};
use crate::engine::ask::rivals::variant::{Sums, Variant};
use crate::engine::ask::trouble::answer::{Meaning, Repair, Step, Suspect, TroubleAnswer};
use crate::engine::ask::used::{Between, UsedAnswer, UsedQuestion};
use crate::engine::design::results::Worked;
use crate::engine::design::results::fact::{Asked, Many, One, Version, facts, many, one};
use crate::engine::design::results::report::workings;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::Finding;
use crate::engine::judge::remedy::Edit;
use crate::engine::simulate::circuit::result::{RunDesign, SizeRow};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{Choice, Place};
use crate::quantity::*;

facts! { CableQuestion, "cable-question", "which cable", |_, _| Subject::Plan;
    CURRENT: Amps = "current_a", "Current", "steady current", |q, _| q.current;
    LENGTH: Metres = "length_m", "Length", "one way", |q, _| q.length;
    DROP: Share = "drop_share", "Loss allowed", "most that may be lost, as a share of 12 V", |q, _| q.drop;
    INSULATION: String = "insulation", "Insulation", "insulation class", |q, _| q.insulation.clone();
    PLACE: String = "place", "Through", "what it runs through", |q, _| q.place.clone();
    AIR: Option<Celsius> = "air_c", "Air", "air as asked; null when the place's", |q, _| q.air;
    BUNDLED: u32 = "bundled_with", "Others bundled", "other loaded cables in the bundle", |q, _| q.bundled_with;
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
    BY: &'static str = "by", "Acts by", "voltage, counted charge or the battery's own signal", |q, _| q.by.key();
}

facts! { CutOffAnswer, "cut-off-answer", "what `cut-off --json` prints: where to disconnect a battery", |_, _| Subject::CutOff;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    QUESTION: One<CutOffQuestion> = "question", "Question", "what was asked", |a, at| one(&a.question, at);
    CUT_OFF: One<CutOffDesign> = "cut_off", "Cut-off", "the settings", |a, at| one(&a.design, at);
    FINDINGS: Many<Finding> = "findings", "Findings", "worst first", |a, at| many(&a.findings, at);
    WORKINGS: Asked<Many<Worked>> = "workings", "Workings", "with --workings: how each number came about", |a, at| workings(a, |a| &a.workings, at);
}

facts! { UsedQuestion, "used-question", "what was measured of a used battery", |_, _| Subject::ServiceBattery;
    CHEMISTRY: String = "chemistry", "Chemistry", "key of the chemistry", |q, _| q.chemistry.clone();
    CAPACITY: AmpHours = "capacity_ah", "Capacity", "rated capacity", |q, _| q.capacity;
    RESTED: Option<Volts> = "rested_v", "Rested", "voltage after a rest", |q, _| q.rested;
    DENSITIES: Vec<String> = "densities", "Densities", "of the acid, cell by cell, as read", |q, _| q.densities.iter().map(|d| format!("{d:.3}")).collect();
    DRAWN: Option<Amps> = "drawn_a", "Drawn", "steady current of a discharge from full", |q, _| q.drawn;
    LASTED: Option<Hours> = "lasted_h", "For", "for so long", |q, _| q.lasted;
}

facts! { Between<Share>, "share-between", "a share with its bounds", |_, _| Subject::ServiceBattery;
    LEAST: Share = "least", "Least", "not less", |b, _| b.least;
    LIKELY: Share = "likely", "Likely", "most likely", |b, _| b.likely;
    MOST: Share = "most", "Most", "not more", |b, _| b.most;
}

facts! { Between<AmpHours>, "charge-between", "a charge with its bounds", |_, _| Subject::ServiceBattery;
    LEAST: AmpHours = "least_ah", "Least", "not less", |b, _| b.least;
    LIKELY: AmpHours = "likely_ah", "Likely", "most likely", |b, _| b.likely;
    MOST: AmpHours = "most_ah", "Most", "not more", |b, _| b.most;
}

facts! { UsedAnswer, "used-battery", "what `used-battery --json` prints: what a battery that is not new still holds", |_, _| Subject::ServiceBattery;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    QUESTION: One<UsedQuestion> = "question", "Measured", "what was measured", |a, at| one(&a.question, at);
    CHARGE: Option<One<Between<Share>>> = "charge", "Charge", "how full it is; null where nothing tells", |a, at| a.charge.as_ref().map(|c| one(c, at));
    HOLDS: Option<One<Between<AmpHours>>> = "holds", "Holds", "at the rated hours and 25 °C; null without a timed discharge", |a, at| a.holds.as_ref().map(|h| one(h, at));
    HEALTH: Option<One<Between<Share>>> = "health", "Of its rating", "the same of the rated capacity", |a, at| a.health.as_ref().map(|h| one(h, at));
    END: Share = "end_of_life", "Replaced at", "share of the rating", |a, _| a.end_of_life;
    REMARKS: Vec<String> = "remarks", "Remarks", "what speaks against it, or makes the answer worse than it could be", |a, _| a.remarks.clone();
}

facts! { Suspect, "suspect", "a cause with the chance that it is at fault, by itself or beside another", |_, _| Subject::Plan;
    CAUSE: String = "cause", "Cause", "what may be at fault", |s, _| s.cause.clone();
    CHANCE: Share = "chance", "Chance", "after the readings", |s, _| s.chance;
    REPAIR: String = "repair", "Repair", "what mends it", |s, _| s.repair.clone();
}

facts! { Meaning, "meaning", "what a result of the next measurement will mean", |_, _| Subject::Plan;
    SHOWS: String = "shows", "The meter shows", "two standard errors either way", |m, _| m.shows.clone();
    CAUSE: String = "cause", "It speaks for", "which causes, likeliest first", |m, _| m.cause.clone();
}

facts! { Step, "fault-step", "the next measurement of fault finding", |_, _| Subject::Plan;
    NUMBER: u32 = "number", "Number", "by which its reading is given: --found NUMBER=VALUE", |s, _| s.number as u32;
    FIRST: String = "safe_first", "First", "what is to be done before a probe goes there", |s, _| s.safe_first.clone();
    ON: String = "on", "On", "what is to be on", |s, _| s.on.clone();
    PROBES: String = "probes", "Probes", "where both probes go", |s, _| s.probes.clone();
    BITS: f64 = "bits", "Bits", "what it tells on average", |s, _| s.bits;
    TROUBLE: f64 = "trouble", "Trouble", "in readings taken in the cabin", |s, _| s.trouble;
    MEANS: Many<Meaning> = "means", "Meaning", "what either result will mean", |s, at| many(&s.means, at);
}

facts! { Repair, "fault-repair", "how the fault is mended", |_, _| Subject::Plan;
    FOUND: String = "found", "Found", "what is at fault, or the likeliest where no reading tells it apart", |r, _| r.found.clone();
    WHAT: String = "what", "Do", "what mends it", |r, _| r.what.clone();
    PROOF: String = "proof", "Proof", "the reading that proves it", |r, _| r.proof.clone();
}

facts! { TroubleAnswer, "fault", "what `fault --json` prints: causes by chance, and what to measure next", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    SYMPTOM: String = "symptom", "Symptom", "what is seen", |a, _| a.symptom.clone();
    LOAD: String = "load", "Load", "of which load; empty where of none", |a, _| a.load.clone();
    CAUSES: Many<Suspect> = "causes", "Causes", "likeliest first", |a, at| many(&a.causes, at);
    NONE: Option<String> = "none_fits", "None fits", "the reading that speaks most against, when no cause and no two explain all; else null", |a, _| a.none_fits.clone();
    NEXT: Option<One<Step>> = "next", "Next", "the measurement that tells most for its trouble; null when found", |a, at| a.next.as_ref().map(|n| one(n, at));
    REPAIR: Option<One<Repair>> = "repair", "Repair", "once a cause stands out", |a, at| a.repair.as_ref().map(|r| one(r, at));
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

facts! { Sums, "sums", "what a design comes to, in the numbers by which designs are compared", |_, _| Subject::Plan;
    CHEMISTRY: String = "chemistry", "Chemistry", "key of the battery's chemistry", |s, _| s.chemistry.clone();
    CAPACITY: AmpHours = "capacity_ah", "Bank", "of the whole bank", |s, _| s.capacity;
    CHARGER: Option<Amps> = "charger_a", "Charger", "its output; null without one", |s, _| s.charger;
    ARRAY: Watts = "array_w", "Sun", "rated power of all panels", |s, _| s.array;
    PRICE: Option<Money> = "price", "Price", "of the bank by the user's own prices; null where none is entered", |s, _| s.price;
    TOTAL: Option<Money> = "total", "Priced parts", "all of the parts list that has a price by the user's own; null where nothing has one", |s, _| s.total;
    UNPRICED: usize = "unpriced", "No price", "lines of the parts list without a price", |s, _| s.unpriced;
    MASS: Kilograms = "mass_kg", "Mass", "of the bank", |s, _| s.mass;
    LASTS: Days = "lasts_d", "Lasts", "until power first fails without charge, in the hardest trial; the planned days where it lasts them", |s, _| s.lasts;
    YEARS: Years = "lasts_years", "Years", "to the end of the battery's life", |s, _| s.years;
    COPPER: Kilograms = "copper_kg", "Copper", "of all runs", |s, _| s.copper;
    PARTS: usize = "parts", "Parts", "how many different things are bought", |s, _| s.parts;
    STOPS: usize = "stops", "STOP", "findings that forbid it", |s, _| s.stops;
    CAUTIONS: usize = "cautions", "Cautions", "findings to think about", |s, _| s.cautions;
}

facts! { Variant, "variant", "a changed plan, designed", |_, _| Subject::Plan;
    WORDS: String = "words", "Change", "what is changed, in words", |v, _| v.words.clone();
    EDITS: Many<Edit> = "edits", "Edits", "the same as edits, in their order; none for the plan in hand; a place behind the last item of a list adds one, and null in a field that an item needs takes it out", |v, at| many(&v.edits, at);
    SUMS: One<Sums> = "sums", "Comes to", "what it comes to", |v, at| one(&v.sums, at);
    CHANGES: Vec<String> = "changes", "Then", "what it saves and costs beside the plan in hand", |v, _| v.changes.clone();
    BREAKS: Vec<String> = "breaks", "Breaks", "the stops and cautions that it brings", |v, _| v.breaks.clone();
    UNBEATEN: bool = "unbeaten", "Unbeaten", "no other design compared is nowhere worse and somewhere better", |v, _| v.unbeaten;
}

facts! { Matter, "matter", "a number of the user's that changes what is bought if it is a tenth off", |_, _| Subject::Plan;
    WORDS: String = "words", "Number", "whose it is, and its value", |m, _| m.words.clone();
    PLACE: One<Place> = "place", "Place", "the field", |m, at| one(&m.place, at);
    LESS: Vec<String> = "less", "A tenth less", "what else is bought then", |m, _| m.less.clone();
    MORE: Vec<String> = "more", "A tenth more", "what else is bought then", |m, _| m.more.clone();
}

facts! { Matters, "matters", "which of the user's numbers matter most", |_, _| Subject::Plan;
    LIST: Many<Matter> = "list", "Numbers", "those that change a purchase, that which changes most first", |m, at| many(&m.list, at);
    TRIED: usize = "tried", "Tried", "how many numbers were tried", |m, _| m.tried;
}

facts! { Rivals, "rivals", "what `rivals --json` prints: what else would do, and what hangs on what", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    DESIGNS: Many<Variant> = "designs", "Designs", "the plan in hand first, then what nothing beats, then the rest", |r, at| many(&r.designs, at);
    STEPS: Many<Variant> = "steps", "Steps", "one step more and one step less of each part", |r, at| many(&r.steps, at);
    MATTERS: One<Matters> = "matters", "What matters most", "each number of the user's, a tenth less and more; temperatures by 3 K", |r, at| one(&r.matters, at);
}
