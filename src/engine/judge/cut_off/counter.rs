//! Is a counter of charge set right often enough, and set so that it keeps the reserve where it is off?

use crate::engine::installation::Installation;
use crate::engine::installation::counter::{Counter, set_to};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::cut_off::limits::{DEEPER, OUT_OF_THE_RESERVE};
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::promise::{Promise, Trial};
use crate::plan::{CutOffBy, Place, Section, Value};
use crate::quantity::*;

/// A week in which it is full but on the first morning is one without.
const NIGHT: Hours = Hours::new(12.0);

/// What is to be said of a counter; nothing of a cut-off that acts by something else.
pub(crate) fn check(site: &Installation, out: &CutOffDesign, promise: &Promise) -> Vec<Finding> {
    let Some(counter) = out.counter else { return Vec::new() };
    let (set, right) = (low(site, &counter, out), set_right(&counter, out, promise));
    set.into_iter().chain(right).collect()
}

fn finding(key: &'static str, text: String) -> Finding {
    Finding::new(Kind::CutOffCounter, Subject::CutOff, text)
        .rule("a counter strays from the charge until a full battery sets it right; by how much, entered by you or common practice, no source")
        .at(Place::of(Section::CutOff, key))
}

/// It would close where it has just opened.
pub(super) fn chatters(counter: &Counter) -> Option<Finding> {
    let good = (counter.opens + Share::new(0.05)).min(Share::new(0.99));
    (counter.closes <= counter.opens).then(|| {
        let text = format!(
            "it closes again at {} counted, and opens at {}: it would chatter",
            counter.closes, counter.opens
        );
        let place = Place::of(Section::CutOff, "closes_at");
        Finding::new(Kind::CutOffChatter, Subject::CutOff, text)
            .rule("it closes above where it opens, by as much as a charge puts back in earnest; common practice, no source")
            .at(place)
            .remedy_number(format!("close at {good} or more"), place, good.get())
    })
}

/// Set so low that it may empty the battery before it opens.
fn low(site: &Installation, counter: &Counter, out: &CutOffDesign) -> Option<Finding> {
    let (least, _) = counter.acts_between();
    if out.reserve - least <= DEEPER {
        return None;
    }
    let text = format!(
        "set to {} counted it may act at {least}: after {} it may be off by {}, and {} are to be kept",
        counter.opens, site.days_without_charge, counter.error, out.reserve
    );
    let good = set_to(out.reserve, counter.error).value;
    let found = finding("opens_at", text);
    Some(found.remedy_number(
        format!("{good} keeps {} where it shows too much", out.reserve),
        Place::of(Section::CutOff, "opens_at"),
        good.get(),
    ))
}

/// In the usual weeks nothing sets it right, or too seldom.
fn set_right(counter: &Counter, out: &CutOffDesign, promise: &Promise) -> Option<Finding> {
    let between = |t: &&Trial| t.between_full.map_or(0.0, Hours::get);
    let worst = promise.usual.iter().max_by(|a, b| between(a).total_cmp(&between(b)))?;
    let longest = worst.between_full?;
    let (days, never) = (Days::new((longest.get() / 24.0 * 10.0).round() / 10.0), longest + NIGHT >= worst.tried);
    let off = counter.off_after(days);
    let least = (counter.opens - off).max(Share::ZERO);
    if !never && out.reserve - least <= OUT_OF_THE_RESERVE {
        return None;
    }
    let season = if worst.conditions.cold { "coldest" } else { "warmest" };
    let text = match never {
        true => format!(
            "in the usual week of the {season} days it is never full, so nothing sets the counter right: it strays by {} \
             a day, and soon only the floor of {} guards the battery",
            counter.drift, out.cut
        ),
        false => format!(
            "in the usual weeks of the {season} days it is not full for {days}: the counter may be off by {off} then, and \
             act at {least} where {} are to be kept",
            out.reserve
        ),
    };
    Some(
        finding("acts_by", text)
            .remedy("fill it whole more often: the mains overnight, a longer drive, more sun")
            .remedy_edit(
                "or let the cut-off act by voltage",
                Place::of(Section::CutOff, "acts_by"),
                Some(Value::Text(word(CutOffBy::Voltage))),
            ),
    )
}

/// A choice as the plan writes it.
pub(super) fn word(by: CutOffBy) -> String {
    use crate::plan::Choice;
    by.key().into()
}
