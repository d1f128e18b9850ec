//! Which numbers of a log can be taken into the plan, and what is the plan's text then?

use crate::engine::{Edit, LogAnswer};
use crate::plan::{self, EditError, Plan, Section, Value};

/// By which the new line of the plan's measurements is taken.
pub const CAPACITY: &str = "capacity";

/// The keys of all that can be taken: what differs from the plan, and the capacity where this month has none yet.
pub fn offered<'a>(answer: &'a LogAnswer, plan: &Plan) -> Vec<&'a str> {
    let edited = answer.lines.iter().filter(|l| !l.edits.is_empty()).map(|l| l.key.as_str());
    let number = |values: &[(&str, Value)], key: &str| {
        values.iter().find(|(k, _)| *k == key).and_then(|(_, v)| if let Value::Number(n) = v { Some(*n) } else { None })
    };
    let known = |values: &Vec<(&'static str, Value)>| {
        plan.measured.iter().any(|m| {
            number(values, "year") == Some(f64::from(m.year))
                && number(values, "month") == Some(f64::from(m.month))
                && m.capacity.is_some()
        })
    };
    let new = answer.measured.as_ref().filter(|values| !known(values));
    edited.chain(new.map(|_| CAPACITY)).collect()
}

/// The plan's text with what is wanted in it.
///
/// # Errors
/// The plan has no place for it.
pub fn taken(text: &str, answer: &LogAnswer, wanted: &[&str]) -> Result<String, EditError> {
    let lines = answer.lines.iter().filter(|l| wanted.contains(&l.key.as_str()));
    let put = |text: String, e: &Edit| plan::set(&text, e.place, e.value.as_ref());
    let text = lines.flat_map(|l| &l.edits).try_fold(text.to_string(), put)?;
    match answer.measured.as_ref().filter(|_| wanted.contains(&CAPACITY)) {
        Some(values) => plan::insert(&text, Section::Measured, usize::MAX, values),
        None => Ok(text),
    }
}
