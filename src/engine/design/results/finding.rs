//! What is said besides numbers: findings with their remedies, and how each number came about.

use super::fact::{Form, Kind, Many, One, facts, many, one};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Input, Topic, Working};
use crate::engine::judge::demand::Demand;
use crate::engine::judge::finding::{Finding, Severity};
use crate::engine::judge::harm::Harm;
use crate::engine::judge::remedy::{Edit, Remedy};
use crate::plan::{Place, Value};
use crate::quantity::Figure;

/// How many findings of each severity.
#[derive(Clone, Copy, Debug, Default)]
pub struct Counts {
    /// Do not build it.
    pub stop: usize,
    /// Think before building.
    pub caution: usize,
    /// Good to know.
    pub note: usize,
}

impl Counts {
    /// Count them.
    pub fn of(findings: &[Finding]) -> Counts {
        let count = |severity| findings.iter().filter(|f| f.severity == severity).count();
        Counts { stop: count(Severity::Stop), caution: count(Severity::Caution), note: count(Severity::Note) }
    }
}

facts! { Counts, "counts", "how many findings of each severity", |_, _| Subject::Plan;
    STOP: usize = "stop", "STOP", "do not build it", |c, _| c.stop;
    CAUTION: usize = "caution", "Cautions", "think before building", |c, _| c.caution;
    NOTE: usize = "note", "Notes", "good to know", |c, _| c.note;
}

impl Kind for Severity {
    const FORM: Form = Form::Word(|| vec!["stop", "caution", "note"]);
    fn content(self) -> super::fact::Content {
        self.word().to_lowercase().content()
    }
}

impl Kind for Harm {
    const FORM: Form = Form::Word(|| vec!["people", "battery", "promise", "money"]);
    fn content(self) -> super::fact::Content {
        self.word().content()
    }
}

facts! { Finding, "finding", "something the user should know", |f, _| f.subject.clone();
    KIND: &'static str = "kind", "Kind", "stable name of the sort of finding", |f, _| f.kind.key();
    SEVERITY: Severity = "severity", "Severity", "stop, caution or note", |f, _| f.severity;
    HARM: Harm = "harm", "Harms", "what is harmed, the worst first: people, battery (or a start), promise, money", |f, _| f.kind.harm();
    ABOUT: String = "about", "About", "what it is about, in words", |f, at| at.site.name_of(&f.subject);
    TEXT: String = "text", "Finding", "one sentence with the numbers", |f, _| f.text.clone();
    RULE: String = "rule", "Rule", "the rule and its source", |f, _| f.rule.clone();
    REMEDIES: Many<Remedy> = "remedies", "Remedies", "what helps", |f, at| many(&f.remedies, at);
    EXCLUDES: Many<Demand> = "excludes", "Exclude each other", "the two demands that exclude each other; empty where another finding than one about the promise", |f, at| many(f.excludes.iter().flatten(), at);
    PLACE: Option<One<Place>> = "place", "Place", "the field that mends it; null when none does", |f, at| f.place.map(|p| one(&p, at));
}

facts! { Demand, "demand", "something that is asked of a design", |_, _| Subject::Plan;
    WORDS: String = "words", "Demand", "in words, with a number", |d, _| d.words.clone();
    GIVEN_UP: Option<One<Edit>> = "given_up", "Given up by", "the edit that gives it up; null when no single one does", |d, at| d.given_up.clone().map(|e| one(&Edit { place: e.0, value: e.1 }, at));
}

facts! { Remedy, "remedy", "a way to mend a finding", |_, _| Subject::Plan;
    WORDS: String = "words", "Remedy", "in words, with a number", |r, _| r.words.clone();
    EDIT: Option<One<Edit>> = "edit", "Edit", "the edit that does it; null when no single one does", |r, at| Some(&r.edits).filter(|e| e.len() == 1).and_then(|e| e.first()).map(|e| one(e, at));
    EDITS: Many<Edit> = "edits", "Edits", "all edits that do it together; each was tried with the others", |r, at| many(&r.edits, at);
    CHANGES: Vec<String> = "changes", "Changes", "what else it changes: copper, sizes, devices, parts", |r, _| r.changes.clone();
}

facts! { Place, "place", "a field of the plan", |_, _| Subject::Plan;
    SECTION: &'static str = "section", "Section", "table of the plan file; empty for the keys at the top", |p, _| p.section.key();
    INDEX: usize = "index", "Index", "which item of a list, from 0", |p, _| p.index;
    KEY: &'static str = "key", "Key", "key in that table", |p, _| p.key;
    LINE: Option<usize> = "line", "Line", "line in the file, from 1; null where the file does not have it", |p, at| (at.spot)(*p).map(|s| s.line);
    COLUMN: Option<usize> = "column", "Column", "column in characters, from 1", |p, at| (at.spot)(*p).map(|s| s.column);
}

facts! { Edit, "edit", "an edit of the plan", |_, _| Subject::Plan;
    PLACE: One<Place> = "place", "Place", "the field", |e, at| one(&e.place, at);
    VALUE: Option<Value> = "value", "Value", "the new value; null takes the key out", |e, _| e.value.clone();
}

/// A working and what it is of.
pub struct Worked {
    /// Which number it explains.
    pub topic: Topic,
    /// How that came about.
    pub working: Working,
    /// Where it stands in the answer.
    pub results: Vec<String>,
}

facts! { Worked, "working", "how one number came about", |w, _| w.topic.subject.clone();
    ABOUT: String = "about", "About", "what the number belongs to", |w, at| at.site.name_of(&w.topic.subject);
    NUMBER: String = "number", "Number", "its stable name: `working` in this schema", |w, _| w.topic.number.to_string();
    RESULTS: Vec<String> = "results", "Results", "where in this answer it stands, as JSON Pointers (RFC 6901); none for a step on the way", |w, _| w.results.clone();
    NAME: String = "name", "Name", "what it is, in words", |w, _| w.working.name.to_string();
    FORMULA: String = "formula", "Formula", "arithmetic in the symbols of the inputs; empty when read from a table or solved for", |w, _| w.working.formula.to_string();
    INPUTS: Many<Input> = "inputs", "Inputs", "the numbers put in", |w, at| many(&w.working.inputs, at);
    RESULT: Figure = "result", "Result", "value and unit", |w, _| w.working.result;
    SOURCE: String = "source", "Source", "where the rule comes from", |w, _| w.working.source.to_string();
    NOTES: Vec<String> = "notes", "Notes", "what else to know", |w, _| w.working.notes.clone();
}

facts! { Input, "input", "a number put into a formula", |_, _| Subject::Plan;
    SYMBOL: &'static str = "symbol", "Symbol", "as in the formula", |i, _| i.symbol;
    MEANING: String = "meaning", "Meaning", "what it is", |i, _| i.meaning.to_string();
    VALUE: Figure = "value", "Value", "value and unit", |i, _| i.value;
    FROM: Option<One<Topic>> = "from", "From", "the working it comes from; null when it is given", |i, at| i.from.as_ref().map(|t| one(t, at));
}

facts! { Topic, "topic", "which number", |t, _| t.subject.clone();
    ABOUT: String = "about", "About", "what that number belongs to", |t, at| at.site.name_of(&t.subject);
    NUMBER: String = "number", "Number", "its stable name", |t, _| t.number.to_string();
}
