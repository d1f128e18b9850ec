//! Findings on the rating itself: too big for the cable, too small for the load, nothing between, opened by a start.

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::choice::{FuseNeed, at_least, rerating, styles};
use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::ground::Ground;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// Judge the rating of one fuse.
pub(crate) fn find(ground: &Ground, fuse: &Fuse, book: &mut Book) {
    let Some(style) = fuse.style else { return };
    let most = ground.rules.at_most(fuse.need.ampacity);
    match fuse.rating {
        None => none(ground, fuse, style, most, book),
        Some(rating) => {
            // A fuse that was chosen above the limit of a run without its own fuse is told there.
            if fuse.pinned && rating.get() > most.get() {
                big(ground, fuse, rating, most, book);
            }
            if fuse.pinned && rating.get() < at_least(style, &fuse.need).get() {
                small(ground, fuse, style, rating, book);
            } else if !ground.rules.rides(style, rating, &fuse.need) {
                surge(ground, fuse, style, rating, book);
            }
        }
    }
}

impl Ground<'_> {
    /// The run of a fuse, by index and name.
    pub fn run_of(&self, branch: usize) -> (usize, String) {
        let run = self.branch(branch).map_or(0, |b| b.run);
        (run, run_name(&self.site.runs, run))
    }

    /// The point at which a fuse sits.
    pub fn place_of(&self, fuse: &Fuse) -> &str {
        self.branch(fuse.branch).map_or("", |b| if fuse.far_end { &b.far } else { &b.near })
    }

    /// The first bigger size of a run that does.
    pub fn bigger(&self, branch: usize, does: impl Fn(&SizeRow) -> bool) -> Option<&SizeRow> {
        let design = self.design(branch)?;
        let area = design.size.as_ref().map_or(SquareMillimetres::ZERO, |s| s.area);
        design.sizes.iter().find(|s| s.area.get() > area.get() && does(s))
    }

    /// What would be chosen if the plan did not say.
    fn free(&self, fuse: &Fuse) -> Option<Amps> {
        let pin = self.run(fuse.branch)?.fuse_style.as_deref();
        let calm = FuseNeed { starts: Starts::NONE, ..fuse.need };
        [fuse.need, calm]
            .iter()
            .find_map(|need| styles(&self.site.catalogue, pin).find_map(|s| self.rules.in_style(s, need)))
            .map(|c| c.rating)
    }
}

fn with_size(finding: Finding, run: usize, size: Option<&SizeRow>, why: impl Fn(&SizeRow) -> String) -> Finding {
    match size {
        Some(s) => finding.remedy_edit(why(s), Place::run(run, "size"), Some(Value::Text(s.label.clone()))),
        None => finding,
    }
}

fn none(ground: &Ground, fuse: &Fuse, style: &FuseStyle, most: Amps, book: &mut Book) {
    let (run, name) = ground.run_of(fuse.branch);
    // Said already, with the same remedy, when the sizes were looked for.
    if book.findings.iter().any(|f| f.kind == Kind::SizeNone && f.subject == Subject::Run(run)) {
        return;
    }
    let least = at_least(style, &fuse.need);
    let pin = ground.run(fuse.branch).and_then(|r| r.fuse_style.as_deref());
    let text = match pin {
        Some(_) => {
            format!(
                "no {} fuse fits {name}: the load asks for at least {least}, the cable for at most {most}",
                style.name
            )
        }
        None => format!("no fuse fits {name}: the load asks for at least {least}, the cable for at most {most}"),
    };
    let mut finding = Finding::new(Kind::FuseNone, Subject::Run(run), text)
        .rule(format!(
            "steady current / (loading × warmth) ≤ rating ≤ ampacity; {}",
            ground.site.catalogue.rules.fuse_loading.from.words()
        ))
        .at(Place::run(run, "size"));
    let takes = |s: &SizeRow| {
        let need = FuseNeed { ampacity: s.ampacity, starts: Starts::NONE, ..fuse.need };
        styles(&ground.site.catalogue, pin).find_map(|style| ground.rules.in_style(style, &need)).map(|c| c.rating)
    };
    if pin.is_some() {
        let any = styles(&ground.site.catalogue, None).find_map(|s| ground.rules.in_style(s, &fuse.need));
        if let Some(c) = any {
            let words = format!("leave the style open: a {} of {} fits", c.style.name, c.rating);
            finding = finding.remedy_edit(words, Place::run(run, "fuse_style"), None);
        }
    }
    let size = ground.bigger(fuse.branch, |s| takes(s).is_some());
    finding = with_size(finding, run, size, |s| {
        let rating = takes(s).unwrap_or(Amps::ZERO);
        format!("{} carries {} and takes a {rating} fuse", s.label, s.ampacity)
    });
    // By the largest rating within the cable, of whichever style has one.
    let within = |s: &'_ FuseStyle| s.ratings.iter().rev().find(|r| r.get() <= most.get()).copied();
    let made = styles(&ground.site.catalogue, pin).filter_map(|s| Some((s, within(s)?)));
    let (style, fits) = made.reduce(|a, b| if b.1 > a.1 { b } else { a }).unwrap_or((style, most));
    let load = fits * fuse.need.loading.get() * rerating(style, fuse.need.air);
    book.find(finding.remedy(format!("bring the steady current down to {load}, which a {fits} fuse carries")));
}

fn big(ground: &Ground, fuse: &Fuse, rating: Amps, most: Amps, book: &mut Book) {
    let (run, name) = ground.run_of(fuse.branch);
    let (thin, thin_name) = ground.run_of(fuse.thinnest);
    let whose = if thin == run { String::new() } else { format!(" of {thin_name}, which has no fuse of its own") };
    let text = format!("the {rating} fuse of {name} is more than the {most} that the cable{whose} carries");
    let mut finding = Finding::new(Kind::FuseBig, Subject::Run(run), text)
        .rule(format!(
            "rating ≤ ampacity of the thinnest conductor behind it × {}; {}",
            ground.site.catalogue.rules.ampacity_fuse.value.get(),
            ground.site.catalogue.rules.ampacity_fuse.from.words()
        ))
        .at(Place::run(run, "fuse_a"));
    if let Some(free) = ground.free(fuse) {
        let value = Some(Value::Number(free.get()));
        finding = finding.remedy_edit(format!("take a {free} fuse"), Place::run(run, "fuse_a"), value);
    }
    let size = ground.bigger(fuse.thinnest, |s| ground.rules.at_most(s.ampacity).get() >= rating.get());
    finding = with_size(finding, thin, size, |s| format!("{} carries {}", s.label, s.ampacity));
    if finding.remedies.is_empty() {
        finding = finding.remedy(format!("take a fuse of at most {most}"));
    }
    book.find(finding);
}

fn small(ground: &Ground, fuse: &Fuse, style: &FuseStyle, rating: Amps, book: &mut Book) {
    let (run, name) = ground.run_of(fuse.branch);
    let need = &fuse.need;
    let least = at_least(style, need);
    let carries = rating * rerating(style, need.air);
    let opens = need.steady.get() > carries.get();
    let text = format!(
        "the {rating} fuse of {name} is less than the {least} that {} steady ask for in air of {}",
        need.steady, need.air
    );
    let mut finding = Finding::new(Kind::FuseSmall, Subject::Run(run), text)
        .as_severity(if opens { Severity::Stop } else { Severity::Caution })
        .rule(format!(
            "steady current ≤ {} of the rating, re-rated for warm air; {}",
            need.loading,
            ground.site.catalogue.rules.fuse_loading.from.words()
        ))
        .at(Place::run(run, "fuse_a"));
    if let Some(free) = ground.free(fuse).filter(|f| f.get() >= least.get()) {
        let value = Some(Value::Number(free.get()));
        finding = finding.remedy_edit(format!("take a {free} fuse"), Place::run(run, "fuse_a"), value);
    } else {
        let takes = |s: &SizeRow| {
            let need = FuseNeed { ampacity: s.ampacity, starts: Starts::NONE, ..*need };
            styles(&ground.site.catalogue, None).any(|style| ground.rules.in_style(style, &need).is_some())
        };
        finding = with_size(finding, run, ground.bigger(fuse.branch, takes), |s| {
            format!("{} carries {} and lets the fuse grow to {least} or more", s.label, s.ampacity)
        });
    }
    let load = carries * need.loading.get();
    book.find(finding.remedy(format!("or bring the steady current down to {load}")));
}

fn surge(ground: &Ground, fuse: &Fuse, style: &FuseStyle, rating: Amps, book: &mut Book) {
    let (run, name) = ground.run_of(fuse.branch);
    let need = &fuse.need;
    let Some((start, rides)) = ground.rules.hardest(style, rating, need) else { return };
    let text = format!(
        "a start of {} for {} may open the {rating} fuse of {name}, which is only sure to stand that for {rides} each time",
        start.current, start.lasts
    );
    let mut finding = Finding::new(Kind::FuseSurge, Subject::Run(run), text)
        .rule(format!(
            "each start uses at most {} of the earliest opening time; {}; operating times: {}",
            ground.site.catalogue.rules.start_pulse.value,
            ground.site.catalogue.rules.start_pulse.from.words(),
            style.gates_words()
        ))
        .at(Place::run(run, "fuse_a"));
    let wide = FuseNeed { ampacity: Amps::new(1e6), ..*need };
    let all = || styles(&ground.site.catalogue, None);
    let rising = all().find_map(|s| ground.rules.in_style(s, need)).or_else(|| {
        let fits = all().filter_map(|s| ground.rules.in_style(s, &wide));
        fits.min_by(|a, b| a.rating.get().total_cmp(&b.rating.get()))
    });
    match rising {
        Some(c) if c.rating.get() <= ground.rules.at_most(need.ampacity).get() => {
            let value = Some(Value::Number(c.rating.get()));
            let words = format!("a {} of {} lets it pass", c.style.name, c.rating);
            finding = finding.remedy_edit(words, Place::run(run, "fuse_a"), value);
        }
        Some(c) => {
            let size = ground.bigger(fuse.thinnest, |s| ground.rules.at_most(s.ampacity).get() >= c.rating.get());
            let (thin, _) = ground.run_of(fuse.thinnest);
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
    book.find(finding.remedy(format!("or a soft start that stays under {passes}")));
}
