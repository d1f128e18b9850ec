//! How long is each piece of cable cut, and what goes on its ends?
//!
//! A run is a positive conductor and its return. A fuse divides the positive:
//! a tail from the source to the fuse, and the rest. Cut length = length along
//! the loom × (1 + slack) + slack at both ends, rounded up to a step.

use crate::catalogue::{Catalogue, Conductor, Rules, Workshop};
use crate::engine::design::Design;
use crate::engine::run::{FuseDesign, RunDesign};
use crate::engine::working::Working;
use crate::plan::{Plan, ReturnPath, Run};
use crate::quantity::*;

/// Which conductor of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Polarity {
    Positive,
    Negative,
}

impl Polarity {
    /// The word on papers and labels.
    pub fn word(self) -> &'static str {
        match self {
            Polarity::Positive => "positive",
            Polarity::Negative => "negative",
        }
    }
}

/// All pieces, and how their length came about.
#[derive(Clone, Debug, Default)]
pub struct CutList {
    /// By run, positive first.
    pub cuts: Vec<Cut>,
    /// The rule for the length, with the numbers of the first piece.
    pub working: Option<Working>,
}

/// One piece of cable.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Index of the run.
    pub run: usize,
    /// Which conductor.
    pub polarity: Polarity,
    /// Colour of its insulation.
    pub colour: String,
    /// Conductor label, e.g. `10 mm²`.
    pub size: String,
    /// Insulation class key.
    pub insulation: String,
    /// Where it begins: a point, or `fuse`.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// Length along the loom.
    pub along: Metres,
    /// Length to cut.
    pub length: Metres,
    /// Lug at `from`.
    pub lug_from: Lug,
    /// Lug at `to`.
    pub lug_to: Lug,
    /// Sleeve on each end, as bought: inside diameter; `None` when none is wide enough.
    pub sleeve: Option<Millimetres>,
}

/// What is crimped onto an end.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lug {
    /// A ring terminal for a stud.
    Ring(String),
    /// The terminal that belongs to the fuse holder.
    Holder,
}

/// The pieces of all runs that have a size.
pub fn cut_list(plan: &Plan, catalogue: &Catalogue, design: &Design) -> CutList {
    let shop = Shop { rules: &catalogue.rules, workshop: &catalogue.workshop };
    let mut list = CutList::default();
    for run in &design.runs {
        let Some(planned) = plan.runs.get(run.run) else { continue };
        let Some(size) = run.size.as_ref() else { continue };
        let Some(conductor) = catalogue.conductor(&size.label) else { continue };
        shop.pieces(planned, run, design, catalogue, conductor, &mut list.cuts);
    }
    list.working = list.cuts.first().map(|cut| shop.working(cut));
    list
}

struct Shop<'a> {
    rules: &'a Rules,
    workshop: &'a Workshop,
}

impl Shop<'_> {
    fn pieces(
        &self,
        planned: &Run,
        run: &RunDesign,
        design: &Design,
        catalogue: &Catalogue,
        conductor: &Conductor,
        cuts: &mut Vec<Cut>,
    ) {
        let near = run.branch.and_then(|b| design.topology.branches.get(b)).map_or(&planned.from, |b| &b.near);
        let far = if *near == planned.from { &planned.to } else { &planned.from };
        let piece = |polarity, from: &str, to: &str, along, lug_from, lug_to| Cut {
            run: run.run,
            polarity,
            colour: self.workshop.colour(Polarity::word(polarity)).to_string(),
            size: conductor.label.clone(),
            insulation: planned.insulation.clone(),
            from: from.into(),
            to: to.into(),
            along,
            length: self.length(along),
            lug_from,
            lug_to,
            sleeve: self.sleeve(conductor),
        };
        let at_post = |point: &str| Lug::Ring(self.stud(point, conductor));
        // Positive: from the near point over the fuses to the far point.
        let mut stops: Vec<(String, Lug)> = vec![(near.clone(), at_post(near))];
        let mut lengths = Vec::new();
        let mut left = planned.length;
        let tail = planned.fuse_distance;
        let near_fuse = run.fuses.iter().find(|f| !f.far_end);
        let far_fuse = run.fuses.iter().find(|f| f.far_end);
        let mut last = None;
        if let Some(fuse) = near_fuse {
            lengths.push(tail.min(left));
            left = (left - tail).max(Metres::ZERO);
            stops.push(("fuse".into(), holder(fuse, catalogue)));
        }
        if let Some(fuse) = far_fuse {
            last = Some(tail.min(left));
            left = (left - tail).max(Metres::ZERO);
            lengths.push(left);
            stops.push(("fuse".into(), holder(fuse, catalogue)));
        }
        lengths.push(last.unwrap_or(left));
        stops.push((far.clone(), at_post(far)));
        let count = lengths.len();
        for (n, (ends, along)) in stops.windows(2).zip(lengths).enumerate() {
            let [(from, lug_from), (to, lug_to)] = ends else { continue };
            let mut cut = piece(Polarity::Positive, from, to, along, lug_from.clone(), lug_to.clone());
            let guard = if n == 0 { near_fuse } else { far_fuse.filter(|_| n + 1 == count) };
            cut.length = guard.map_or(cut.length, |fuse| no_longer_than_the_rule(cut.length, along, fuse));
            cuts.push(cut);
        }
        if planned.return_path == ReturnPath::Cable {
            cuts.push(piece(Polarity::Negative, near, far, planned.length, at_post(near), at_post(far)));
        } else {
            let lead = Metres::new(self.rules.number("earth-lead-m"));
            let body = Lug::Ring(self.stud("body", conductor));
            cuts.push(piece(Polarity::Negative, far, "body", lead, at_post(far), body));
        }
    }

    /// L_cut = ⌈(L × (1 + s) + 2 × e) / step⌉ × step.
    fn length(&self, along: Metres) -> Metres {
        let (share, end, step) = self.numbers();
        round_up(along * (1.0 + share) + Metres::new(2.0 * end), step)
    }

    fn numbers(&self) -> (f64, f64, f64) {
        let n = |key| self.rules.number(key);
        (n("cut-slack-share"), n("cut-slack-end-m"), n("cut-step-m"))
    }

    fn working(&self, cut: &Cut) -> Working {
        let (share, end, step) = self.numbers();
        Working::new(
            "cut length before rounding",
            "L * (1 + s) + 2 * e",
            cut.along * (1.0 + share) + Metres::new(2.0 * end),
        )
        .with("L", "length along the loom", cut.along)
        .with("s", "slack for bends", Share::new(share))
        .with("e", "slack at each end", Metres::new(end))
        .source(self.rules.number_source("cut-slack-share"))
        .note(format!("rounded up to a multiple of {}: {}", Metres::new(step), cut.length))
    }

    fn stud(&self, point: &str, conductor: &Conductor) -> String {
        let post = self.workshop.posts.iter().find(|p| p.point == point).map(|p| &p.stud);
        let by_area = || self.workshop.lugs.iter().find(|l| conductor.area.get() <= l.up_to.get()).map(|l| &l.stud);
        post.or_else(by_area).cloned().unwrap_or_else(|| "to measure".into())
    }

    /// The smallest sleeve that passes over the lug's barrel and still grips the cable.
    fn sleeve(&self, conductor: &Conductor) -> Option<Millimetres> {
        let over = conductor.outside * self.rules.number("sleeve-over");
        let fits = |s: &&crate::catalogue::Sleeve| s.expanded >= over && s.shrunk < conductor.outside;
        self.workshop.sleeves.iter().find(fits).map(|s| s.expanded)
    }
}

/// The piece between a source and its fuse is protected by nothing: slack must
/// not carry it past the distance the rule allows.
fn no_longer_than_the_rule(cut: Metres, along: Metres, fuse: &FuseDesign) -> Metres {
    if fuse.within.get() > 0.0 { cut.min(fuse.within.max(along)) } else { cut }
}

/// What the fuse holder wants: a ring for bolted links, else its own terminal.
fn holder(fuse: &FuseDesign, catalogue: &Catalogue) -> Lug {
    match catalogue.fuse_style(&fuse.style).and_then(|s| s.stud.clone()) {
        Some(stud) => Lug::Ring(stud),
        None => Lug::Holder,
    }
}

/// Up to the next multiple of `step`; a hair above one is taken for it.
pub(super) fn round_up(length: Metres, step: f64) -> Metres {
    if step <= 0.0 {
        return length;
    }
    Metres::new((length.get() / step - 1e-9).ceil() * step)
}
