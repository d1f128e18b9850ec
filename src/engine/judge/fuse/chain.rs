//! Findings on fuses in a row: which opens first, and which runs no fuse protects.

use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::circuit::result::{FarEnd, SizeRow};
use crate::engine::simulate::fault::ground::Ground;
use crate::engine::simulate::fault::selectivity::{ChainLink, by_gates, by_ratio, is_quicker, ratio};
use crate::plan::{Place, Value};
use crate::quantity::*;

impl Ground<'_> {
    /// The nearest fuse on the way to the battery, this branch's own left out.
    pub fn upstream<'f, 'a>(&self, branch: usize, near: &'f [Option<Fuse<'a>>]) -> Option<&'f Fuse<'a>> {
        self.upward(branch).skip(1).find_map(|b| near.get(b)?.as_ref())
    }

    /// Whether the fuse upstream feeds anything but what lies behind `fuse`:
    /// two fuses on one line that feeds nothing on the way need not be parted.
    pub fn cuts_off_others(&self, up: &Fuse, fuse: &Fuse) -> bool {
        let plan = self.site;
        let feeds_here = |point: &str| {
            plan.loads.iter().any(|l| !l.inverter && l.at == point)
                || plan.inverter.rating.get() > 0.0 && plan.inverter.at == point
        };
        self.upward(fuse.branch)
            .skip(1)
            .take_while(|&b| self.is_beyond(b, up.branch))
            .any(|b| self.branch(b).is_some_and(|b| b.children.len() > 1 || feeds_here(&b.far)))
    }
}

/// Whether a fault behind this fuse leaves the one upstream closed.
pub(crate) fn selective(ground: &Ground, fuse: &Fuse, up: &Fuse) -> Option<bool> {
    let ((style, rating), (up_style, up_rating)) = (fuse.fitted()?, up.fitted()?);
    let (down, up) = (ChainLink { style, rating }, ChainLink { style: up_style, rating: up_rating });
    let needed = ground.site.catalogue.rules.selectivity.value;
    let least = fuse.clearing.far.map_or(rating, |f| f.amps);
    Some(by_ratio(up, down, needed) || by_gates(up, down, least, fuse.prospective.amps.max(least)))
}

/// Judge a fuse against the one upstream.
pub(crate) fn find(ground: &Ground, fuse: &Fuse, up: &Fuse, book: &mut Book) {
    let (Some((style, rating)), Some((up_style, up_rating))) = (fuse.fitted(), up.fitted()) else { return };
    if !ground.cuts_off_others(up, fuse) || selective(ground, fuse, up) != Some(false) {
        return;
    }
    let needed = ground.site.catalogue.rules.selectivity.value;
    let ((run, name), (up_run, up_name)) = (ground.run_of(fuse.branch), ground.run_of(up.branch));
    let has = ratio(ChainLink { style: up_style, rating: up_rating }, ChainLink { style, rating });
    let quicker = if is_quicker(up_style, style) { ", and it is the quicker style" } else { "" };
    let text = format!(
        "a fault behind the {rating} fuse of {name} may open the {up_rating} fuse of {up_name} too: {} to 1{quicker}",
        Figure::number(has)
    );
    let mut finding = Finding::new(Kind::FuseSelective, Subject::Run(run), text)
        .rule(format!(
            "upstream at least {needed} times the downstream rating and not the quicker style, or gates that part; {}",
            ground.site.catalogue.rules.selectivity.from.words()
        ))
        .at(Place::run(run, "fuse_a"));
    let most = ground.rules.at_most(up.need.ampacity);
    let wanted = rating * needed;
    let bigger = |r: &&Amps| r.get() > up_rating.get() && r.get() >= wanted.get() && r.get() <= most.get();
    let raised = up_style.ratings.iter().find(bigger);
    let lowest = crate::engine::choose::fuse::choice::at_least(style, &fuse.need);
    let smaller = |r: &&Amps| {
        let stands = r.get() >= lowest.get() && ground.rules.rides(style, **r, &fuse.need);
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
        && let Some(size) = ground.bigger(up.branch, |s| ground.rules.at_most(s.ampacity).get() >= grown.get())
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
    book.find(finding);
}

/// Judge a run without a fuse of its own: the fuse upstream must protect it.
pub(crate) fn find_unfused(ground: &Ground, branch: usize, near: &[Option<Fuse>], book: &mut Book) {
    let (Some(link), Some(b)) = (ground.link(branch), ground.branch(branch)) else { return };
    if !link.is_sized() {
        return;
    }
    let (run, name) = ground.run_of(branch);
    let carries = ground.rules.at_most(link.ampacity);
    let (text, reach) = match ground.upstream(branch, near) {
        None => (format!("{name} begins at `{}` without any fuse", b.near), None),
        Some(up) => {
            let Some(rating) = up.rating else { return };
            let reach = rating + ground.joined_before(up.branch, branch);
            if reach.get() <= carries.get() {
                return;
            }
            let (_, up_name) = ground.run_of(up.branch);
            let text = format!(
                "{name} has no fuse of its own and carries {carries}; the {rating} fuse of {up_name} and what joins behind it let {reach} through"
            );
            (text, Some(reach))
        }
    };
    let mut finding = Finding::new(Kind::FuseMissing, Subject::Run(run), text)
        .rule("every conductor is protected by a fuse of at most its ampacity, at each end that has a source; 33 CFR 183.455")
        .at(Place::run(run, "own_fuse"));
    let own = ground.pick(branch, false, Ohms::ZERO).and_then(|f| f.rating).unwrap_or(carries);
    let words = format!("give it a fuse of its own at `{}`, {own}", b.near);
    finding = finding.remedy_edit(words, Place::run(run, "own_fuse"), Some(Value::Flag(true)));
    let enough = |s: &SizeRow| reach.is_some_and(|r| ground.rules.at_most(s.ampacity).get() >= r.get());
    if let Some(size) = ground.bigger(branch, enough) {
        let words = format!("or {}, which carries {}", size.label, size.ampacity);
        finding = finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(size.label.clone())));
    }
    book.find(finding);
}

/// Judge the far end of a run that sources beyond can feed.
pub(crate) fn find_open_end(ground: &Ground, branch: usize, far_end: FarEnd, book: &mut Book) {
    let (FarEnd::Open, Some(link), Some(b)) = (far_end, ground.link(branch), ground.branch(branch)) else { return };
    if !link.is_sized() {
        return;
    }
    let (run, name) = ground.run_of(branch);
    let carries = ground.rules.at_most(link.ampacity);
    let text =
        format!("{name} is also fed from `{}`, where nothing keeps the current under the {carries} it carries", b.far);
    book.find(
        Finding::new(Kind::FuseMissing, Subject::Run(run), text)
            .rule("a cable between two sources is fused at both ends; 33 CFR 183.455")
            .at(Place::run(run, "own_fuse"))
            .remedy_edit(
                format!("give it fuses of its own, at most {carries} at `{}` too", b.far),
                Place::run(run, "own_fuse"),
                Some(Value::Flag(true)),
            ),
    );
}
