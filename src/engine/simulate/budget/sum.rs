//! How is a sum over all loads written down?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::quantity::Figure;

/// Symbols for sums over loads.
const SYMBOLS: [&str; 24] = [
    "a1", "a2", "a3", "a4", "a5", "a6", "a7", "a8", "a9", "a10", "a11", "a12", "a13", "a14", "a15", "a16", "a17",
    "a18", "a19", "a20", "a21", "a22", "a23", "a24",
];

/// A term of a sum: words, number, the working it comes from.
pub(super) type Term = (String, Figure, Option<(Subject, &'static str)>);

/// A term for each of some loads.
pub(super) fn over_loads(
    site: &Installation,
    loads: impl IntoIterator<Item = usize>,
    value: impl Fn(usize) -> Figure,
    number: &'static str,
) -> Vec<Term> {
    let term = |i: usize| (site.loads[i].name.clone(), value(i), Some((Subject::Load(i), number)));
    loads.into_iter().map(term).collect()
}

/// A sum with a term for each thing; with more terms than symbols it is said in words.
pub(super) fn sum(name: &'static str, result: impl Into<Figure>, terms: Vec<Term>) -> Working {
    let many = terms.len() > SYMBOLS.len();
    let formula = if many { String::new() } else { SYMBOLS[..terms.len()].join(" + ") };
    let mut working = Working::new(name, formula, result);
    for (symbol, (words, value, from)) in SYMBOLS.iter().zip(terms) {
        working = match from {
            Some((subject, number)) => working.with_from(symbol, words, value, subject, number),
            None => working.with(symbol, words, value),
        };
    }
    if many { working.note("the sum of all loads; only the first 24 are listed") } else { working }
}
