//! May the cut-off act by the battery's own signal?

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::own_cut::{Signal, signal};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::cut_off::counter::word;
use crate::engine::judge::cut_off::limits::DEEPER;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{CutOffBy, Place, Section, Value};
use crate::quantity::*;

/// What is to be said of a plan's; nothing where the cut-off acts by something else.
pub(crate) fn check(site: &Installation, chemistry: &Chemistry, out: &CutOffDesign) -> Option<Finding> {
    let by_signal = site.cut_off.acts_by == CutOffBy::Signal;
    by_signal.then(|| comes(chemistry, signal(&site.catalogue, &site.service_battery), out)).flatten()
}

/// Whether a signal comes, and leaves something.
pub(crate) fn comes(chemistry: &Chemistry, signal: Option<Signal>, out: &CutOffDesign) -> Option<Finding> {
    let Some(signal) = signal else {
        let text = format!("the cut-off is to act by the battery's signal, and {} gives none", chemistry.name);
        return Some(by_something_else(finding(text, "acts_by")));
    };
    let at = signal.at();
    if at <= chemistry.low.damage {
        let text = format!("the battery's signal comes at {at}, where harm has begun");
        return Some(by_something_else(finding(text, "permits_to_v")));
    }
    let left = out.at_usual()?.trips_at.unwrap_or(Share::ZERO);
    let little = out.reserve - left > DEEPER;
    let what = match signal {
        Signal::Permission(_) => "its permission to discharge goes",
        Signal::Protection(_) => "it has no permission output, so its protection opens, everything is dead,",
    };
    let alone = matches!(signal, Signal::Protection(_));
    (little || alone).then(|| {
        let text =
            format!("{what} at {at}: {left} are left then at the usual current, {} were to be kept", out.reserve);
        by_something_else(finding(text, "acts_by").as_severity(Severity::Caution))
    })
}

fn finding(text: String, key: &'static str) -> Finding {
    let section = if key == "acts_by" { Section::CutOff } else { Section::ServiceBattery };
    Finding::new(Kind::CutOffSignal, Subject::CutOff, text)
        .rule("a battery's own protection is its last line; a cut-off acts before it and leaves something; common practice, no source")
        .at(Place::of(section, key))
}

fn by_something_else(found: Finding) -> Finding {
    let to = |by| Some(Value::Text(word(by)));
    let place = Place::of(Section::CutOff, "acts_by");
    found.remedy_edit("let the cut-off act by voltage, before that", place, to(CutOffBy::Voltage)).remedy_edit(
        "or by counted charge",
        place,
        to(CutOffBy::Charge),
    )
}
