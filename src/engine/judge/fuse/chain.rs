//! Findings on fuses in a row: which opens first, and which runs no fuse protects.

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::limits::{FuseLimits, at_least};
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::selectivity::{ChainLink, by_gates, by_ratio, is_quicker, ratio};
use crate::plan::{Place, Value};
use crate::quantity::*;

/// Whether a fault behind this fuse leaves the one upstream closed.
pub fn selective(loops: &FaultLoops, fuse: &Fuse, up: &Fuse) -> Option<bool> {
    let ((style, rating), (up_style, up_rating)) = (fuse.fitted()?, up.fitted()?);
    let (down, up) = (ChainLink { style, rating }, ChainLink { style: up_style, rating: up_rating });
    let needed = FuseLimits::of(&loops.site.catalogue).selectivity();
    let least = fuse.clearing.far.map_or(rating, |f| f.amps);
    Some(by_ratio(up, down, needed) || by_gates(up, down, least, fuse.prospective.amps.max(least)))
}

/// Whether a fault behind a fuse may open the one upstream too, which feeds others.
pub fn is_unparted(loops: &FaultLoops, fuse: &Fuse, up: &Fuse) -> bool {
    selective(loops, fuse, up) == Some(false) && loops.cuts_off_others(up, fuse)
}

/// What the fuse upstream and the sources behind it let through a run without its own, where that is more than it
/// carries.
pub fn reach_beyond(loops: &FaultLoops, up: &Fuse, branch: usize) -> Option<Amps> {
    let carries = FuseLimits::of(&loops.site.catalogue).at_most(loops.link(branch)?.ampacity);
    let reach = up.rating? + loops.joined_before(up.branch, branch);
    (reach > carries).then_some(reach)
}

/// A fault behind a fuse may open the one upstream too.
pub fn check(loops: &FaultLoops, fuse: &Fuse, up: &Fuse) -> Option<Finding> {
    let ((style, rating), (up_style, up_rating)) = (fuse.fitted()?, up.fitted()?);
    if !is_unparted(loops, fuse, up) {
        return None;
    }
    let limits = FuseLimits::of(&loops.site.catalogue);
    let needed = FuseLimits::of(&loops.site.catalogue).selectivity();
    let ((run, name), (up_run, up_name)) = (loops.run_of(fuse.branch), loops.run_of(up.branch));
    let has = ratio(ChainLink { style: up_style, rating: up_rating }, ChainLink { style, rating });
    let quicker = if is_quicker(up_style, style) { ", and it is the quicker style" } else { "" };
    let text = format!(
        "a fault behind the {rating} fuse of {name} may open the {up_rating} fuse of {up_name} too: {} to 1{quicker}",
        Figure::number(has)
    );
    let mut finding = Finding::new(Kind::FuseSelective, Subject::Run(run), text)
        .rule(format!(
            "upstream at least {needed} times the downstream rating and not the quicker style, or gates that part; {}",
            limits.rules().selectivity.from.words()
        ))
        .at(Place::run(run, "fuse_a"));
    let most = limits.at_most(up.need.ampacity);
    let wanted = rating * needed;
    let bigger = |r: &&Amps| r.get() > up_rating.get() && r.get() >= wanted.get() && r.get() <= most.get();
    let raised = up_style.ratings.iter().find(bigger);
    let lowest = at_least(style, &fuse.need).value;
    let smaller = |r: &&Amps| {
        let stands = r.get() >= lowest.get() && limits.rides(style, **r, &fuse.need);
        r.get() < rating.get() && **r * needed <= up_rating && stands
    };
    let lowered = style.ratings.iter().rev().find(smaller);
    if let Some(r) = raised {
        let words = format!("a {r} fuse in {up_name}, whose cable carries {most}");
        finding = finding.remedy_edit(words, Place::run(up_run, "fuse_a"), Some(Value::Number(r.get())));
    }
    if let Some(r) = lowered {
        let value = Some(Value::Number(r.get()));
        finding = finding.remedy_edit(format!("a {r} fuse here"), Place::run(run, "fuse_a"), value);
    }
    if has >= needed {
        finding =
            finding.remedy(format!("a slower style than {} for the {up_rating} fuse of {up_name}", up_style.name));
    }
    // A rating that is made; it takes both the cable and the fuse, so no single edit does it.
    let grown = up_style.ratings.iter().find(|r| r.get() >= wanted.get());
    if let Some(grown) = grown
        && let Some(size) = loops.bigger(up.branch, |s| limits.at_most(s.ampacity).get() >= grown.get())
        && has < needed
        && raised.is_none()
        && !up.pinned
    {
        let carries = size.ampacity;
        finding =
            finding.remedy(format!("{} in {up_name} carries {carries}: with it a {grown} fuse there", size.label));
    }
    if finding.remedies.is_empty() {
        finding = finding.remedy(format!(
            "a cable for at least {wanted} in {up_name} would let its fuse grow to {needed} times this one"
        ));
    }
    Some(finding)
}

/// Nothing protects a run without a fuse of its own.
pub fn check_unfused(loops: &FaultLoops, branch: usize, near: &[Option<Fuse>]) -> Option<Finding> {
    let (link, b) = (loops.link(branch)?, loops.branch(branch)?);
    if !link.is_sized() {
        return None;
    }
    let limits = FuseLimits::of(&loops.site.catalogue);
    let (run, name) = loops.run_of(branch);
    let carries = limits.at_most(link.ampacity);
    let (text, reach) = match loops.upstream(branch, near) {
        // Said once, of the first run that no fuse protects.
        None if b.parent.is_some() => return None,
        None => (format!("{name} begins at `{}` without any fuse", b.near), None),
        Some(up) => {
            let rating = up.rating?;
            let reach = reach_beyond(loops, up, branch)?;
            let (_, up_name) = loops.run_of(up.branch);
            let text = format!(
                "{name} has no fuse of its own and carries {carries}; the {rating} fuse of {up_name} and what joins behind it let {reach} through"
            );
            (text, Some(reach))
        }
    };
    let mut finding = Finding::new(Kind::FuseMissing, Subject::Run(run), text)
        .rule(format!(
            "every conductor is protected by a fuse of at most its ampacity, at each end that has a source: 33 CFR 183.455; cable: {}",
            loops.carries_words(branch)
        ))
        .at(Place::run(run, "own_fuse"));
    let fault = loops.prospective(branch, Ohms::ZERO);
    let own = limits
        .first(loops.style_pin(branch), &limits.need(loops, branch, false, &fault)?)
        .map_or(carries, |c| c.rating);
    let words = format!("give it a fuse of its own at `{}`, {own}", b.near);
    finding = finding.remedy_edit(words, Place::run(run, "own_fuse"), Some(Value::Flag(true)));
    let enough = |s: &SizeRow| reach.is_some_and(|r| limits.at_most(s.ampacity).get() >= r.get());
    if let Some(size) = loops.bigger(branch, enough) {
        let words = format!("or {}, which carries {}", size.label, size.ampacity);
        finding = finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(size.label.clone())));
    }
    Some(finding)
}
