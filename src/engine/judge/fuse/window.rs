//! Findings on the rating itself: too big for the cable, too small for the load, nothing between, opened by a start.

use crate::catalogue::FuseStyle;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::fuse::limits::{FuseLimits, at_least};
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::rating::{rerating, styles};
use crate::engine::physics::starts::{Start, Starts};
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// What would be chosen if the plan did not say.
fn open_choice(loops: &FaultLoops, fuse: &Fuse) -> Option<Amps> {
    let (limits, pin) = (FuseLimits::of(&loops.site.catalogue), loops.style_pin(fuse.branch));
    let calm = FuseNeed { starts: Starts::NONE, ..fuse.need };
    [fuse.need, calm].iter().find_map(|need| limits.first(pin, need)).map(|c| c.rating)
}

fn with_size(finding: Finding, run: usize, size: Option<&SizeRow>, why: impl Fn(&SizeRow) -> String) -> Finding {
    match size {
        Some(s) => finding.remedy_edit(why(s), Place::run(run, "size"), Some(Value::Text(s.label.clone()))),
        None => finding,
    }
}

/// Nothing fits between load and cable; not said again of a run for which no size was found.
pub fn check_none(loops: &FaultLoops, fuse: &Fuse, known: &[Finding]) -> Option<Finding> {
    let style = fuse.style.filter(|_| fuse.rating.is_none())?;
    let (run, name) = loops.run_of(fuse.branch);
    if known.iter().any(|f| f.kind == Kind::SizeNone && f.subject == Subject::Run(run)) {
        return None;
    }
    let limits = FuseLimits::of(&loops.site.catalogue);
    let (least, most) = (at_least(style, &fuse.need).value, limits.at_most(fuse.need.ampacity));
    let pin = loops.style_pin(fuse.branch);
    let made = style.ratings.last().copied().filter(|made| pin.is_some() && *made < least);
    let bounds = match made {
        Some(made) => format!("the largest in the catalogue is {made}"),
        None => format!("the cable for at most {most}"),
    };
    let what = pin.map_or("fuse".into(), |_| format!("{},", style.name));
    let text = format!("no {what} fits {name}: the load asks for at least {least}, {bounds}");
    let mut finding = Finding::new(Kind::FuseNone, Subject::Run(run), text)
        .rule(format!(
            "steady current / (loading × warmth) ≤ rating ≤ ampacity; {}; cable: {}",
            loops.site.fuse_loading_source(),
            loops.carries_words(fuse.need.thinnest)
        ))
        .at(Place::run(run, "size"));
    let takes = |s: &SizeRow| {
        let need = FuseNeed { ampacity: s.ampacity, starts: Starts::NONE, ..fuse.need };
        limits.first(pin, &need).map(|c| c.rating)
    };
    // A lead has the style of its board.
    let lead = loops.site.load_of(run);
    let any = FuseNeed { ampacity: Amps::new(f64::INFINITY), ..fuse.need };
    if let (Some(_), Some(c)) = (lead, made.and_then(|_| limits.first(None, &any))) {
        let words = "feed it before the board by a run of its own, in a size that its fuse allows";
        finding = finding.remedy(format!("{words}: a {} of {} would carry it", c.style.name, c.rating));
    }
    if let Some(c) = pin.filter(|_| lead.is_none()).and_then(|_| limits.first(None, &fuse.need)) {
        let words = format!("leave the style open: a {} of {} fits", c.style.name, c.rating);
        finding = finding.remedy_edit(words, Place::run(run, "fuse_style"), None);
    }
    let size = loops.bigger(fuse.branch, |s| takes(s).is_some());
    finding = with_size(finding, run, size, |s| {
        let rating = takes(s).unwrap_or(Amps::ZERO);
        format!("{} carries {} and takes a {rating} fuse", s.label, s.ampacity)
    });
    // By the largest rating within the cable, of whichever style has one.
    let within = |s: &'_ FuseStyle| s.ratings.iter().rev().find(|r| r.get() <= most.get()).copied();
    let made = styles(&loops.site.catalogue, pin).filter_map(|s| Some((s, within(s)?)));
    let (style, fits) = made.reduce(|a, b| if b.1 > a.1 { b } else { a }).unwrap_or((style, most));
    let load = fits * fuse.need.loading.get() * rerating(style, fuse.need.air);
    Some(finding.remedy(format!("bring the steady current down to {load}, which a {fits} fuse carries")))
}

/// Whether a given fuse is more than its cable carries.
pub fn is_big(limits: &FuseLimits, fuse: &Fuse) -> bool {
    fuse.fitted().is_some_and(|(_, rating)| fuse.pinned && rating > limits.at_most(fuse.need.ampacity))
}

/// A given fuse is more than its cable carries. One that was chosen above the limit of a run without a fuse of its
/// own is told there.
pub fn check_big(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let limits = FuseLimits::of(&loops.site.catalogue);
    let most = limits.at_most(fuse.need.ampacity);
    let (_, rating) = fuse.fitted().filter(|_| is_big(&limits, fuse))?;
    let (run, name) = loops.run_of(fuse.branch);
    let (thin, thin_name) = loops.run_of(fuse.need.thinnest);
    let whose = if thin == run { String::new() } else { format!(" of {thin_name}, which has no fuse of its own") };
    let text = format!("the {rating} fuse of {name} is more than the {most} that the cable{whose} carries");
    let mut finding = Finding::new(Kind::FuseBig, Subject::Run(run), text)
        .rule(format!(
            "rating ≤ ampacity of the thinnest conductor behind it × {}; {}; cable: {}",
            limits.rules().ampacity_fuse.value.get(),
            limits.rules().ampacity_fuse.from.words(),
            loops.carries_words(fuse.need.thinnest)
        ))
        .at(Place::run(run, "fuse_a"));
    if let Some(free) = open_choice(loops, fuse) {
        let value = Some(Value::Number(free.get()));
        finding = finding.remedy_edit(format!("take a {free} fuse"), Place::run(run, "fuse_a"), value);
    }
    let size = loops.bigger(fuse.need.thinnest, |s| limits.at_most(s.ampacity).get() >= rating.get());
    finding = with_size(finding, thin, size, |s| format!("{} carries {}", s.label, s.ampacity));
    if finding.remedies.is_empty() {
        finding = finding.remedy(format!("take a fuse of at most {most}"));
    }
    Some(finding)
}

/// Whether the plan gives less than the load asks for.
fn is_small(fuse: &Fuse) -> bool {
    fuse.fitted().is_some_and(|(style, rating)| fuse.pinned && rating < at_least(style, &fuse.need).value)
}

/// How grave it is that a given fuse is less than the load asks for: a stop where the load opens it.
pub fn small_grade(fuse: &Fuse) -> Option<Severity> {
    let (style, rating) = fuse.fitted().filter(|_| is_small(fuse))?;
    let opens = fuse.need.steady > rating * rerating(style, fuse.need.air);
    Some(if opens { Severity::Stop } else { Severity::Caution })
}

/// A given fuse is less than the load asks for.
pub fn check_small(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let (style, rating) = fuse.fitted().filter(|_| is_small(fuse))?;
    let limits = FuseLimits::of(&loops.site.catalogue);
    let (run, name) = loops.run_of(fuse.branch);
    let need = &fuse.need;
    let least = at_least(style, need).value;
    let carries = rating * rerating(style, need.air);
    let severity = small_grade(fuse).unwrap_or(Severity::Caution);
    let text = format!(
        "the {rating} fuse of {name} is less than the {least} that {} steady ask for in air of {}",
        need.steady, need.air
    );
    let mut finding = Finding::new(Kind::FuseSmall, Subject::Run(run), text)
        .as_severity(severity)
        .rule(format!(
            "steady current ≤ {} of the rating, re-rated for warm air; {}; re-rating: {}",
            need.loading,
            loops.site.fuse_loading_source(),
            style.from.lost_per_k.words()
        ))
        .at(Place::run(run, "fuse_a"));
    if let Some(free) = open_choice(loops, fuse).filter(|f| f.get() >= least.get()) {
        let value = Some(Value::Number(free.get()));
        finding = finding.remedy_edit(format!("take a {free} fuse"), Place::run(run, "fuse_a"), value);
    } else {
        let takes = |s: &SizeRow| {
            let need = FuseNeed { ampacity: s.ampacity, starts: Starts::NONE, ..*need };
            limits.first(None, &need).is_some()
        };
        finding = with_size(finding, run, loops.bigger(fuse.branch, takes), |s| {
            format!("{} carries {} and lets the fuse grow to {least} or more", s.label, s.ampacity)
        });
    }
    let load = carries * need.loading.get();
    Some(finding.remedy(format!("or bring the steady current down to {load}")))
}

/// How grave it is that a start may open a rating, which carries `slow` times as much in the cold; `None` where all
/// pass. A stop where by its latest gate one does.
pub fn start_grade(
    limits: &FuseLimits,
    style: &FuseStyle,
    rating: Amps,
    need: &FuseNeed,
    slow: f64,
) -> Option<Severity> {
    if limits.rides(style, rating, need) {
        return None;
    }
    let carried = rating * slow.max(1.0);
    let opens = |s: Start| latest(&style.gates, s.current / carried).is_some_and(|t| t <= s.lasts);
    Some(if need.exceeding().any(opens) { Severity::Stop } else { Severity::Caution })
}

/// The same of a fuse at its place; one that is too small for the load is told as that.
pub fn fuse_start_grade(limits: &FuseLimits, fuse: &Fuse) -> Option<Severity> {
    let (style, rating) = fuse.fitted().filter(|_| !is_small(fuse))?;
    start_grade(limits, style, rating, &fuse.need, fuse.clearing.slow)
}

/// A start may open the fuse.
pub fn check_start(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let (style, rating) = fuse.fitted().filter(|_| !is_small(fuse))?;
    let (limits, need) = (FuseLimits::of(&loops.site.catalogue), &fuse.need);
    let (start, rides) = limits.hardest(style, rating, need).filter(|_| !limits.rides(style, rating, need))?;
    let (run, name) = loops.run_of(fuse.branch);
    let severity = fuse_start_grade(&limits, fuse).unwrap_or(Severity::Caution);
    let opens = if severity == Severity::Stop { "opens" } else { "may open" };
    let text = format!(
        "a start of {} for {} {opens} the {rating} fuse of {name}, which is only sure to stand that for {rides} each time",
        start.current, start.lasts
    );
    let times = format!("operating times: {}", style.gates_words());
    let share = &limits.rules().start_pulse;
    // Where no gate keeps it closed at all there is nothing to take a share of.
    let rule = if rides.get() > 0.0 {
        format!("each start uses at most {} of the earliest opening time; {}; {times}", share.value, share.from.words())
    } else {
        format!("nothing keeps it closed for a moment at that current; {times}")
    };
    let mut finding = Finding::new(Kind::FuseSurge, Subject::Run(run), text)
        .as_severity(severity)
        .rule(rule)
        .at(Place::run(run, "fuse_a"));
    let wide = FuseNeed { ampacity: Amps::new(1e6), ..*need };
    let rising = limits
        .first(None, need)
        .or_else(|| limits.fitting(None, &wide).min_by(|a, b| a.rating.get().total_cmp(&b.rating.get())));
    match rising {
        Some(c) if c.rating.get() <= limits.at_most(need.ampacity).get() => {
            let value = Some(Value::Number(c.rating.get()));
            let words = format!("a {} of {} lets it pass", c.style.name, c.rating);
            finding = finding.remedy_edit(words, Place::run(run, "fuse_a"), value);
        }
        Some(c) => {
            let size = loops.bigger(fuse.need.thinnest, |s| limits.at_most(s.ampacity).get() >= c.rating.get());
            let (thin, _) = loops.run_of(fuse.need.thinnest);
            finding = with_size(finding, thin, size, |s| {
                format!(
                    "{} carries {} and takes a {} of {}, which lets it pass",
                    s.label, s.ampacity, c.style.name, c.rating
                )
            });
        }
        None => {}
    }
    let passes = rating * rerating(style, need.air);
    Some(finding.remedy(format!("or a soft start that stays under {passes}")))
}
