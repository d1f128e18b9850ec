//! How long is each piece of cable cut, and what goes on its ends?
//!
//! A run is a positive conductor and its return. A fuse divides the positive:
//! a tail from the source to the fuse, and the rest. Cut length = length along
//! the loom × (1 + slack) + slack at both ends, rounded up to a step.

use crate::catalogue::{Catalogue, Conductor};
use crate::engine::ask::workshop::besides::besides;
use crate::engine::ask::workshop::piece::{BAR, Cut, Lug, Shop, earth_by, is_block, name, numbers};
use crate::engine::ask::workshop::places::{MAIN_SWITCH, Places};
use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Branch;
use crate::engine::installation::working::Working;
use crate::engine::parts::terminal::{Part, Polarity, Terminal};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::simulate::circuit::result::{FuseDesign, RunDesign};
use crate::plan::{ReturnPath, Run, point};
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

/// The pieces of all runs that have a size, and what belongs to no run.
pub fn cut_list(design: &Design) -> CutList {
    let site = &design.installation;
    let cutter = Cutter { shop: Shop::of(design), places: Places::of(site) };
    let mut list = CutList::default();
    for run in design.runs.iter().filter(|r| !site.is_way(r.run)) {
        let Some(planned) = site.runs.get(run.run) else { continue };
        let Some(size) = run.size.as_ref() else { continue };
        let Some(cable) = Cable::labelled(&site.catalogue, &size.label) else { continue };
        cutter.pieces(planned, run, design, &site.catalogue, &cable.conductor, &mut list.cuts);
    }
    list.cuts.extend(besides(design, &cutter.shop));
    gather_negatives(site, &mut list.cuts);
    one_hole_a_stud(design, &cutter.places, &mut list.cuts);
    name(&mut list.cuts);
    list.working = list.cuts.first().map(|cut| cutter.working(cut));
    list
}

/// Whether a run's device is wired into its minus: of a way of a board too, which is a plain bridge then, and of what
/// comes back through the body.
pub(super) fn device_in_minus(site: &Installation, run: usize) -> bool {
    site.runs.get(run).is_some_and(|planned| planned.fuse_in_minus && planned.own_fuse)
}

/// Where several negatives meet at what has no minus terminal of its own they meet on a bar beside it; and none goes
/// to a minus post that carries a sensor, unless the plan says so.
fn gather_negatives(site: &Installation, cuts: &mut [Cut]) {
    let negative = |cut: &&mut Cut| cut.polarity == Polarity::Negative;
    let mut meet: BTreeMap<Terminal, u32> = BTreeMap::new();
    for cut in cuts.iter_mut().filter(negative) {
        cut.ends.iter().for_each(|end| *meet.entry(end.clone()).or_default() += 1);
    }
    let own = [point::SERVICE_BATTERY, point::STARTER_BATTERY, point::CHARGER];
    let own = |at: &str, end: &Terminal| own.contains(&at) || end.part == Part::Earth || is_block(at);
    // The stud of what opens the minus takes them as that of what opens the plus does.
    let opens = |at: &str| at == MAIN_SWITCH || at == point::CUT_OFF && site.cut_off.in_minus;
    let mut studs: BTreeMap<String, u32> = BTreeMap::new();
    let mut name = |name: &mut String, end: &mut Terminal| {
        if *name == point::STARTER_BATTERY && !site.minus_on_post() {
            *end = earth_by(point::STARTER_BATTERY);
            name.clone_from(&end.at);
        } else if !own(name, end) && !opens(&end.at) && meet.get(end).is_some_and(|n| *n > 1) {
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
            let in_plus = !device_in_minus(site, run.run);
            let style = site.catalogue.fuse_style(&fuse.style).filter(|s| s.on_the_stud && in_plus);
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

struct Cutter<'a> {
    shop: Shop<'a>,
    places: Places<'a>,
}

impl Cutter<'_> {
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
        let by_body = planned.return_path == ReturnPath::Chassis;
        let (earth, lead) = (earth_by(far), self.shop.rules.earth_lead.value);
        let back = [if by_body { earth.clone() } else { self.places.back(near, false) }, self.places.back(far, true)];
        let (back_near, back_length) = if by_body { (earth.at.as_str(), lead) } else { (near, planned.length) };
        let stem = design.installation.run_number(run.run);
        let piece = |polarity, from: &str, to: &str, ends, along, lug_from, lug_to| Cut {
            run: Some(run.run),
            from: from.into(),
            to: to.into(),
            ends,
            lug_from,
            lug_to,
            ..self.shop.piece(&stem, polarity, conductor, &planned.insulation, along)
        };
        let at_post = |point: &str| self.shop.end(point, conductor);
        let in_minus = device_in_minus(&design.installation, run.run);
        let through = [begins, arrives];
        let (fused, ends_of_fused) =
            if in_minus { (Polarity::Negative, &back) } else { (Polarity::Positive, &through) };
        if in_minus {
            let ends = through.clone();
            cuts.push(piece(Polarity::Positive, near, far, ends, planned.length, at_post(near), at_post(far)));
        }
        let in_way = design.installation.in_way(run.run) && !in_minus;
        let (begins_at, length) = if in_minus { (back_near, back_length) } else { (near, planned.length) };
        // What has the fuses: from the near point over them to the far point.
        for stretch in stretches(planned, run, design, [begins_at, far], length, in_way) {
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
        if by_body {
            let [earth, end] = back;
            cuts.push(piece(
                Polarity::Negative,
                far,
                back_near,
                [end, earth.clone()],
                lead,
                at_post(far),
                at_post(back_near),
            ));
        } else {
            cuts.push(piece(Polarity::Negative, near, far, back, planned.length, at_post(near), at_post(far)));
        }
    }

    /// Where the positive begins and ends; of a run that hangs together with nothing, on the points themselves.
    fn terminals(&self, branch: Option<&Branch>, points: [&str; 2]) -> [Terminal; 2] {
        match branch {
            Some(branch) => [self.places.begins(branch), self.places.ends(branch)],
            None => points.map(|point| Terminal::plus(point, Part::Post)),
        }
    }

    fn working(&self, cut: &Cut) -> Working {
        let (share, end, step) = numbers(self.shop.rules);
        Working::new(
            "cut length before rounding",
            "L * (1 + s) + 2 * e",
            cut.along * (1.0 + share) + Metres::new(2.0 * end),
        )
        .with("L", "length along the loom", cut.along)
        .with("s", "slack for bends", Share::new(share))
        .with("e", "slack at each end", Metres::new(end))
        .source(self.shop.rules.cut_slack.from.words())
        .note(format!("rounded up to a multiple of {}: {}", Metres::new(step), cut.length))
    }
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
fn stretches<'a>(
    planned: &Run,
    run: &'a RunDesign,
    design: &Design,
    [near, far]: [&'a str; 2],
    length: Metres,
    in_way: bool,
) -> Vec<Stretch<'a>> {
    let at = |far_end| run.fuses.iter().position(|f| f.far_end == far_end);
    let site = &design.installation;
    let on_stud = |f: &FuseDesign| site.catalogue.fuse_style(&f.style).is_some_and(|s| s.on_the_stud);
    let (mut all, mut left) = (Vec::new(), length);
    let (mut first, mut said, mut behind) = (Stop::Point(near), Vec::new(), None);
    if let Some((n, fuse)) = at(false).and_then(|n| Some((n, run.fuses.get(n)?))) {
        if in_way {
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
