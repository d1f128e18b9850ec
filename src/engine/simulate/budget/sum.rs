//! How is a sum over all loads written down?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Addend;
use crate::quantity::Figure;

/// A term for each of some loads.
pub(super) fn over_loads(
    site: &Installation,
    loads: impl IntoIterator<Item = usize>,
    value: impl Fn(usize) -> Figure,
    number: &'static str,
) -> Vec<Addend> {
    let term = |i: usize| (site.loads[i].name.clone(), value(i), Some((Subject::Load(i), number)));
    loads.into_iter().map(term).collect()
}
