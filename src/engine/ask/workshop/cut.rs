//! How long is each piece of cable cut, and what goes on its ends?
//!
//! A run is a positive conductor and its return. A fuse divides the positive:
//! a tail from the source to the fuse, and the rest. Cut length = length along
//! the loom × (1 + slack) + slack at both ends, rounded up to a step.

use crate::catalogue::{Catalogue, Conductor, Rules, Workshop};
use crate::engine::ask::workshop::places::{MAIN_SWITCH, Places};
use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Branch;
use crate::engine::installation::working::Working;
use crate::engine::parts::terminal::{Part, Polarity, Terminal};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::simulate::circuit::result::{FuseDesign, RunDesign};
use crate::plan::{Plug, ReturnPath, Run, point};
use crate::quantity::*;
use std::collections::BTreeMap;

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
    /// Index of the run; none for the bond to the body.
    pub run: Option<usize>,
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
    /// The terminals on which both ends sit.
    pub ends: [Terminal; 2],
    /// Length along the loom.
    pub along: Metres,
    /// Length to cut.
    pub length: Metres,
    /// Lug at `from`.
    pub lug_from: Lug,
    /// Lug at `to`.
    pub lug_to: Lug,
    /// The fuses it leads to, or touches when they sit on a stud: their places among the run's fuses. Each is
    /// said once.
    pub fuses: Vec<usize>,
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
    /// The pin that belongs to the plug or socket.
    Pin,
}

/// The pieces of all runs that have a size.
pub fn cut_list(design: &Design) -> CutList {
    let site = &design.installation;
    let (rules, workshop) = (&site.catalogue.rules, &site.catalogue.workshop);
    let shop = Shop { rules, workshop, plugs: &site.plugs, places: Places::of(site) };
    let mut list = CutList::default();
    for run in design.runs.iter().filter(|r| !site.is_way(r.run)) {
        let Some(planned) = site.runs.get(run.run) else { continue };
        let Some(size) = run.size.as_ref() else { continue };
        let Some(cable) = Cable::labelled(&site.catalogue, &size.label) else { continue };
        shop.pieces(planned, run, design, &site.catalogue, &cable.conductor, &mut list.cuts);
    }
    list.cuts.extend(shop.bond(design));
    gather_negatives(site, &mut list.cuts);
    one_hole_a_stud(design, &shop.places, &mut list.cuts);
    list.working = list.cuts.first().map(|cut| shop.working(cut));
    list
}

/// Whether a run's device is wired into its minus: what sits in a way of a board, or comes back through the body, has
/// it in the plus whatever the plan says, and a finding tells.
pub(super) fn device_in_minus(site: &Installation, run: usize) -> bool {
    let wired = |planned: &Run| planned.fuse_in_minus && planned.own_fuse && planned.return_path == ReturnPath::Cable;
    site.runs.get(run).is_some_and(wired) && !site.in_way(run)
}

/// The vehicle's body, to which the bond and every return through it lead.
pub const BODY: &str = "body";

/// Where several negatives meet at what has no minus terminal of its own they meet on a bar beside it; and none goes
/// to a minus post that carries a sensor, unless the plan says so.
fn gather_negatives(site: &Installation, cuts: &mut [Cut]) {
    let negative = |cut: &&mut Cut| cut.polarity == Polarity::Negative;
    let mut meet: BTreeMap<Terminal, u32> = BTreeMap::new();
    for cut in cuts.iter_mut().filter(negative) {
        cut.ends.iter().for_each(|end| *meet.entry(end.clone()).or_default() += 1);
    }
    let own = [point::SERVICE_BATTERY, point::STARTER_BATTERY, point::CHARGER, BODY];
    // The stud of what opens the minus takes them as that of what opens the plus does.
    let opens = |at: &str| at == MAIN_SWITCH || at == point::CUT_OFF && site.cut_off.in_minus;
    let mut studs: BTreeMap<String, u32> = BTreeMap::new();
    let mut name = |name: &mut String, end: &mut Terminal| {
        if *name == point::STARTER_BATTERY && !site.minus_on_post() {
            *name = format!("{BODY} by the {}", point::STARTER_BATTERY);
            *end = Terminal::minus(name.clone(), Part::Earth);
        } else if !own.contains(&name.as_str()) && !opens(&end.at) && meet.get(end).is_some_and(|n| *n > 1) {
            *name = format!("{BAR}{name}");
            let stud = studs.entry(name.clone()).or_default();
            *stud += 1;
            *end = Terminal::minus(name.clone(), Part::Stud(*stud));
        }
    };
    for cut in cuts.iter_mut().filter(negative) {
        let [from, to] = &mut cut.ends;
        name(&mut cut.from, from);
        name(&mut cut.to, to);
    }
}

/// A stud has one thread: the ring of each cable on it has the hole that the largest of them needs, and that a fuse
/// needs which sits on it.
fn one_hole_a_stud(design: &Design, places: &Places, cuts: &mut [Cut]) {
    let mut largest: BTreeMap<Terminal, (u32, String)> = BTreeMap::new();
    let mut ask = |end: &Terminal, stud: &str| {
        let thread = stud.strip_prefix('M').and_then(|m| m.parse::<u32>().ok());
        let Some(thread) = thread.filter(|_| end.is_one_stud()) else { return };
        let so_far = largest.entry(end.clone()).or_default();
        if thread > so_far.0 {
            *so_far = (thread, stud.into());
        }
    };
    for cut in cuts.iter() {
        for (end, lug) in cut.ends.iter().zip([&cut.lug_from, &cut.lug_to]) {
            if let Lug::Ring(stud) = lug {
                ask(end, stud);
            }
        }
    }
    let site = &design.installation;
    for run in &design.runs {
        let Some(branch) = run.branch.and_then(|b| site.circuits.branches.get(b)) else { continue };
        for fuse in &run.fuses {
            let style = site.catalogue.fuse_style(&fuse.style).filter(|s| s.on_the_stud);
            let sits_on = if fuse.far_end { places.ends(branch) } else { places.begins(branch) };
            style.and_then(|s| s.stud.as_ref()).into_iter().for_each(|stud| ask(&sits_on, stud));
        }
    }
    for cut in cuts {
        for (end, lug) in cut.ends.iter().zip([&mut cut.lug_from, &mut cut.lug_to]) {
            if let (Lug::Ring(stud), Some((_, wide))) = (lug, largest.get(end)) {
                stud.clone_from(wide);
            }
        }
    }
}

/// How a negative bar is called, before the point beside which it sits.
pub const BAR: &str = "negative bar at ";

struct Shop<'a> {
    rules: &'a Rules,
    workshop: &'a Workshop,
    plugs: &'a [Plug],
    places: Places<'a>,
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
        let branch = run.branch.and_then(|b| design.installation.circuits.branches.get(b));
        let near = branch.map_or(&planned.from, |b| &b.near);
        let far = if *near == planned.from { &planned.to } else { &planned.from };
        let [near, far] = [near, far].map(|point| design.installation.board_of(point));
        let [begins, arrives] = self.terminals(branch, [near, far]);
        let back = [self.places.back(near, false), self.places.back(far, true)];
        let piece = |polarity, from: &str, to: &str, ends, along, lug_from, lug_to| Cut {
            run: Some(run.run),
            polarity,
            colour: self.workshop.colour(Polarity::word(polarity)).to_string(),
            size: conductor.label.clone(),
            insulation: planned.insulation.clone(),
            from: from.into(),
            to: to.into(),
            ends,
            along,
            length: slack(self.rules, along),
            lug_from,
            lug_to,
            fuses: Vec::new(),
            sleeve: self.sleeve(conductor),
        };
        let at_post = |point: &str| self.end(point, conductor);
        let in_minus = device_in_minus(&design.installation, run.run);
        let through = [begins, arrives];
        let (fused, ends_of_fused) =
            if in_minus { (Polarity::Negative, &back) } else { (Polarity::Positive, &through) };
        if in_minus {
            let ends = through.clone();
            cuts.push(piece(Polarity::Positive, near, far, ends, planned.length, at_post(near), at_post(far)));
        }
        // What has the fuses: from the near point over them to the far point.
        for stretch in stretches(planned, run, design, near, far) {
            let lug = |stop: &Stop| match stop {
                Stop::Point(point) | Stop::Way(point) => at_post(point),
                Stop::Fuse(fuse, _) => holder(fuse, catalogue),
            };
            let [from, to] = &stretch.ends;
            let fuse = |stop: &Stop, part| match stop {
                Stop::Fuse(fuse, _) => {
                    Some(Terminal { polarity: fused, ..self.places.fuse_side(run.run, fuse.far_end, part) })
                }
                Stop::Point(_) | Stop::Way(_) => None,
            };
            let ends = [
                fuse(from, Part::Out).unwrap_or_else(|| ends_of_fused[0].clone()),
                fuse(to, Part::In).unwrap_or_else(|| ends_of_fused[1].clone()),
            ];
            let words = [from.words(), to.words()];
            let mut cut = piece(fused, &words[0], &words[1], ends, stretch.along, lug(from), lug(to));
            if let Some(fuse) = stretch.unprotected {
                cut.length = no_longer_than_the_rule(cut.length, stretch.along, fuse);
            }
            cut.fuses = stretch.fuses;
            cuts.push(cut);
        }
        if in_minus {
            return;
        }
        if planned.return_path == ReturnPath::Cable {
            cuts.push(piece(Polarity::Negative, near, far, back, planned.length, at_post(near), at_post(far)));
        } else {
            let lead = self.rules.earth_lead.value;
            let body = Lug::Ring(self.stud(BODY, conductor));
            let ends = [back[1].clone(), Terminal::minus(BODY, Part::Earth)];
            cuts.push(piece(Polarity::Negative, far, BODY, ends, lead, at_post(far), body));
        }
    }

    /// Where the positive begins and ends; of a run that hangs together with nothing, on the points themselves.
    fn terminals(&self, branch: Option<&Branch>, points: [&str; 2]) -> [Terminal; 2] {
        match branch {
            Some(branch) => [self.places.begins(branch), self.places.ends(branch)],
            None => points.map(|point| Terminal::plus(point, Part::Post)),
        }
    }

    /// The battery's minus to the body.
    fn bond(&self, design: &Design) -> Option<Cut> {
        let site = &design.installation;
        let cable = Cable::labelled(&site.catalogue, design.bond.size.as_ref()?)?;
        let conductor = &*cable.conductor;
        Some(Cut {
            run: None,
            polarity: Polarity::Negative,
            colour: self.workshop.colour(Polarity::Negative.word()).to_string(),
            size: conductor.label.clone(),
            insulation: site.bond.insulation.clone(),
            from: point::SERVICE_BATTERY.into(),
            to: BODY.into(),
            ends: [Terminal::minus(point::SERVICE_BATTERY, Part::Post), Terminal::minus(BODY, Part::Earth)],
            along: design.bond.length,
            length: slack(self.rules, design.bond.length),
            lug_from: self.end(point::SERVICE_BATTERY, conductor),
            lug_to: Lug::Ring(self.stud(BODY, conductor)),
            fuses: Vec::new(),
            sleeve: self.sleeve(conductor),
        })
    }

    /// A ring for the stud there, or the pin of a plug.
    fn end(&self, point: &str, conductor: &Conductor) -> Lug {
        if self.plugs.iter().any(|p| p.name == point) || self.workshop.takes_pins(point) {
            Lug::Pin
        } else {
            Lug::Ring(self.stud(point, conductor))
        }
    }

    fn working(&self, cut: &Cut) -> Working {
        let (share, end, step) = numbers(self.rules);
        Working::new(
            "cut length before rounding",
            "L * (1 + s) + 2 * e",
            cut.along * (1.0 + share) + Metres::new(2.0 * end),
        )
        .with("L", "length along the loom", cut.along)
        .with("s", "slack for bends", Share::new(share))
        .with("e", "slack at each end", Metres::new(end))
        .source(self.rules.cut_slack.from.words())
        .note(format!("rounded up to a multiple of {}: {}", Metres::new(step), cut.length))
    }

    fn stud(&self, point: &str, conductor: &Conductor) -> String {
        let post = self.workshop.posts.iter().find(|p| p.point == point).map(|p| &p.stud);
        let by_area = || self.workshop.lugs.iter().find(|l| conductor.area.get() <= l.up_to.get()).map(|l| &l.stud);
        post.or_else(by_area).cloned().unwrap_or_else(|| "to measure".into())
    }

    /// The smallest sleeve that passes over the lug's barrel and still grips the cable.
    fn sleeve(&self, conductor: &Conductor) -> Option<Millimetres> {
        let over = conductor.outside * self.rules.sleeve_over.value;
        let fits = |s: &&crate::catalogue::Sleeve| s.expanded >= over && s.shrunk < conductor.outside;
        self.workshop.sleeves.iter().find(fits).map(|s| s.expanded)
    }
}

/// L_cut = ⌈(L × (1 + s) + 2 × e) / step⌉ × step.
pub(crate) fn slack(rules: &Rules, along: Metres) -> Metres {
    let (share, end, step) = numbers(rules);
    round_up(along * (1.0 + share) + Metres::new(2.0 * end), step)
}

fn numbers(rules: &Rules) -> (f64, f64, f64) {
    (rules.cut_slack.value.get(), rules.cut_end.value.get(), rules.cut_step.value.get())
}

/// Where a stretch of the positive ends.
#[derive(Clone, Copy)]
enum Stop<'a> {
    Point(&'a str),
    /// The way of a board, in which the fuse sits.
    Way(&'a str),
    /// The fuse, and the point whose stud it sits on.
    Fuse(&'a FuseDesign, Option<&'a str>),
}

impl Stop<'_> {
    fn words(&self) -> String {
        match self {
            Stop::Point(point) | Stop::Way(point) => (*point).into(),
            Stop::Fuse(_, None) => "fuse".into(),
            Stop::Fuse(_, Some(point)) => format!("fuse on {point}"),
        }
    }
}

/// A piece of the positive, and the fuse that cannot protect it.
struct Stretch<'a> {
    ends: [Stop<'a>; 2],
    along: Metres,
    unprotected: Option<&'a FuseDesign>,
    fuses: Vec<usize>,
}

/// From the near point over the fuses to the far one. A fuse on the stud has no lead.
fn stretches<'a>(planned: &Run, run: &'a RunDesign, design: &Design, near: &'a str, far: &'a str) -> Vec<Stretch<'a>> {
    let at = |far_end| run.fuses.iter().position(|f| f.far_end == far_end);
    let site = &design.installation;
    let on_stud = |f: &FuseDesign| site.catalogue.fuse_style(&f.style).is_some_and(|s| s.on_the_stud);
    let (mut all, mut left) = (Vec::new(), planned.length);
    let (mut first, mut said, mut behind) = (Stop::Point(near), Vec::new(), None);
    if let Some((n, fuse)) = at(false).and_then(|n| Some((n, run.fuses.get(n)?))) {
        if site.in_way(run.run) {
            first = Stop::Way(near);
            said.push(n);
        } else if on_stud(fuse) {
            first = Stop::Fuse(fuse, Some(near));
            said.push(n);
        } else {
            let along = planned.fuse_distance.min(left);
            let ends = [first, Stop::Fuse(fuse, None)];
            all.push(Stretch { ends, along, unprotected: Some(fuse), fuses: vec![n] });
            (first, left) = (Stop::Fuse(fuse, None), (left - planned.fuse_distance).max(Metres::ZERO));
        }
    }
    let mut last = Stop::Point(far);
    if let Some((n, fuse)) = at(true).and_then(|n| Some((n, run.fuses.get(n)?))) {
        if on_stud(fuse) {
            last = Stop::Fuse(fuse, Some(far));
        } else {
            let along = planned.fuse_distance.min(left);
            let ends = [Stop::Fuse(fuse, None), last];
            behind = Some(Stretch { ends, along, unprotected: Some(fuse), fuses: Vec::new() });
            (last, left) = (Stop::Fuse(fuse, None), (left - planned.fuse_distance).max(Metres::ZERO));
        }
        said.push(n);
    }
    all.push(Stretch { ends: [first, last], along: left, unprotected: None, fuses: said });
    all.extend(behind);
    all
}

/// The piece between a source and its fuse is protected by nothing: slack must
/// not carry it past the distance the rule allows, in whole centimetres of a tape.
fn no_longer_than_the_rule(cut: Metres, along: Metres, fuse: &FuseDesign) -> Metres {
    let within = Metres::new((fuse.within.get() * 100.0 + 1e-9).floor() / 100.0);
    if within.get() > 0.0 { cut.min(within.max(along)) } else { cut }
}

/// What the fuse holder wants: a ring for bolted links, else its own terminal.
fn holder(fuse: &FuseDesign, catalogue: &Catalogue) -> Lug {
    match catalogue.fuse_style(&fuse.style).and_then(|s| s.stud.clone()) {
        Some(stud) => Lug::Ring(stud),
        None => Lug::Holder,
    }
}

/// Up to the next multiple of `step`; a hair above one is taken for it.
pub(crate) fn round_up(length: Metres, step: f64) -> Metres {
    if step <= 0.0 {
        return length;
    }
    Metres::new((length.get() / step - 1e-9).ceil() * step)
}
