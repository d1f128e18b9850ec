//! Do the plan's temperatures agree with each other?
//!
//! A mean under the coldest, or a coldest over the hottest, would hide what
//! cold and heat do; nothing is put right in silence.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::plan::{Place, Section};
use crate::quantity::Celsius;

/// Look at each pair.
pub(crate) fn check(site: &Installation) -> Vec<Finding> {
    let air = &site.surroundings;
    let (cold, mean, hot) = (("coldest", air.coldest), ("mean", air.mean), ("hottest", air.hottest));
    let pairs = [pair(cold, hot, "coldest_c"), pair(cold, mean, "mean_c"), pair(mean, hot, "mean_c")];
    pairs.into_iter().flatten().collect()
}

fn pair(lower: (&str, Celsius), upper: (&str, Celsius), key: &'static str) -> Option<Finding> {
    if lower.1 <= upper.1 {
        return None;
    }
    let text = format!("the {} air is {}, above the {} of {}", lower.0, lower.1, upper.0, upper.1);
    Some(
        Finding::new(Kind::AirContradicts, Subject::Plan, text)
            .rule("coldest, mean and hottest air rise in this order; each sizes something else")
            .at(Place::of(Section::Surroundings, key))
            .remedy(format!("give a {} of {} or less, or a {} of {} or more", lower.0, upper.1, upper.0, lower.1)),
    )
}
