//! Which fuse, and why that one: between which limits it lies, which of them ruled, and what another one would break.
//!
//! The next rating of its style below and above is put into its place as if the
//! plan gave it, sizes and all other devices as they are, and the same rules
//! judge the wiring again. What they find then and did not find before is what
//! that rating would break. Plainer styles are tried in the same way.

use crate::catalogue::FuseStyle;
use crate::engine::choose::bond::bond;
use crate::engine::choose::fuse::near::{chosen, near_fuses};
use crate::engine::choose::fuse::options::Device;
use crate::engine::choose::fuse::pick::{Fitting, far_fuse, fit, links_before};
use crate::engine::design::Design;
use crate::engine::installation::subject::run_name;
use crate::engine::installation::working::Notes;
use crate::engine::judge;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::breaking::{backed_words, backup_of};
use crate::engine::judge::fuse::far_end::far_end;
use crate::engine::judge::fuse::limits::{FuseLimits, at_least};
use crate::engine::physics::fuse_link::rating::{breaking, styles};
use crate::engine::simulate::circuit::result::{FarEnd, RunDesign};
use crate::engine::simulate::fault::fuse::{Fuse, Fuses};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// Why one device is the one it is.
#[derive(Clone, Debug, PartialEq)]
pub struct WhichFuse {
    /// The run that it protects.
    pub run: usize,
    /// The point at which it sits.
    pub at: String,
    /// Whether that is the end away from the battery.
    pub far_end: bool,
    /// The next smaller rating of its style; `None` where none is made.
    pub down: Option<Step>,
    /// The next larger one.
    pub up: Option<Step>,
    /// All of it in words.
    pub sentences: Vec<String>,
}

/// Another rating in the place of a device.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The rating.
    pub rating: Amps,
    /// What the rules find then and do not find now, or find graver then.
    pub broken: Vec<Finding>,
    /// What else speaks against it, in words: more drop than the run was sized for, a rating that rises away from
    /// its battery. The rules may let that pass in the plan as it is; the choice does not.
    pub against: Vec<String>,
}

/// The devices of one run, the near one first.
pub fn which_fuse(design: &Design, run: usize) -> Vec<WhichFuse> {
    let branch = design.runs.get(run).and_then(|r| r.branch);
    branch.map_or_else(Vec::new, |branch| Trial::new(design).branch(branch))
}

/// Those of all runs.
pub fn which_fuses(design: &Design) -> Vec<WhichFuse> {
    let trial = Trial::new(design);
    let order = design.runs.iter().filter_map(|r| r.branch);
    order.flat_map(|branch| trial.branch(branch)).collect()
}

/// The wiring as it is, to try other devices in.
struct Trial<'d> {
    design: &'d Design,
    loops: FaultLoops<'d, 'd>,
    fuses: Fuses<'d>,
    found: Vec<Finding>,
}

impl<'d> Trial<'d> {
    fn new(design: &'d Design) -> Self {
        let mut loops = FaultLoops::new(&design.installation, &design.battery, &design.charger, &design.runs);
        let devices = chosen(&mut loops);
        let near = near_fuses(&loops, &devices);
        let far_ends: Vec<FarEnd> = (0..near.len()).map(|b| far_end(&loops, b, &near)).collect();
        let far = |b: usize| if far_ends[b] == FarEnd::Fused { far_fuse(&loops, b, &near) } else { None };
        let far = (0..near.len()).map(far).collect();
        let fuses = Fuses { near, far, far_ends };
        let mut trial = Trial { design, loops, fuses, found: Vec::new() };
        trial.found = trial.judged(&trial.fuses, &design.runs);
        trial
    }

    fn branch(&self, branch: usize) -> Vec<WhichFuse> {
        let both = [self.fuses.near.get(branch), self.fuses.far.get(branch)];
        both.into_iter().flatten().flatten().map(|fuse| self.why(fuse)).collect()
    }

    fn why(&self, fuse: &Fuse<'d>) -> WhichFuse {
        let (down, up) = (self.step(fuse, false), self.step(fuse, true));
        let sentences = match fuse.fitted() {
            Some(device) => vec![
                self.limits_words(fuse, device),
                self.style_words(fuse, device),
                step_words("down", "smaller", down.as_ref(), " in this place"),
                step_words("up", "larger", up.as_ref(), "; the smaller one opens sooner"),
                self.place_words(fuse, device),
            ],
            None => vec!["nothing fits between load and cable: see its finding".to_string()],
        };
        WhichFuse {
            run: self.loops.run_of(fuse.branch).0,
            at: self.loops.place_of(fuse).to_string(),
            far_end: fuse.far_end,
            down,
            up,
            sentences,
        }
    }

    /// All that the rules of the wiring say of these devices.
    fn judged(&self, fuses: &Fuses, runs: &[RunDesign]) -> Vec<Finding> {
        let site = &self.design.installation;
        let mut found = judge::fuse::check(&self.loops, fuses, &[]);
        found.extend(judge::tail::check(&self.loops, fuses));
        found.extend(judge::board::check(site, runs));
        found.extend(judge::plug::check(site, runs));
        if self.design.bond.pinned {
            found.extend(judge::bond::check(site, &bond(site, runs, fuses, &mut Notes::unkept())));
        }
        found
    }

    /// The devices with another one in the place of `fuse`, as if the plan gave it.
    fn with(&self, fuse: &Fuse<'d>, (style, rating): Device<'d>) -> Fuses<'d> {
        let (loops, branch) = (&self.loops, fuse.branch);
        let zone = if fuse.far_end { vec![branch] } else { loops.zone(branch) };
        let (amps, before) = (fuse.prospective.amps, fuse.clearing.links_before);
        let clearing = loops.clearing(branch, &zone, fuse.far_end, style, rating, amps, before);
        let given = Fuse { style: Some(style), rating: Some(rating), pinned: true, clearing, ..*fuse };
        let mut fuses = self.fuses.clone();
        if fuse.far_end {
            fuses.far[branch] = Some(given);
            return fuses;
        }
        let near = &mut fuses.near;
        near[branch] = Some(given);
        for beyond in loops.site.circuits.beyond(branch).into_iter().skip(1) {
            let Some(was) = near[beyond] else { continue };
            let (ends, thinnest) = (loops.zone(beyond), (was.need.ampacity, was.need.thinnest));
            let before = links_before(loops, beyond, false, near);
            let place = Fitting { branch: beyond, ends: &ends, thinnest, before };
            near[beyond] = fit(loops, &place, was.fitted(), near);
        }
        fuses.far_ends = (0..fuses.near.len()).map(|b| far_end(loops, b, &fuses.near)).collect();
        fuses
    }

    /// What the rules find of another device in the place of `fuse` and do not find now.
    fn broken(&self, fuse: &Fuse<'d>, device: Device<'d>) -> Vec<Finding> {
        let run = self.loops.run_of(fuse.branch).0;
        let mut runs = self.design.runs.clone();
        let shown = runs.get_mut(run).and_then(|r| r.fuses.iter_mut().find(|f| f.far_end == fuse.far_end));
        if let Some(shown) = shown {
            (shown.rating, shown.style, shown.pinned) = (Some(device.1), device.0.key.clone(), true);
        }
        let mut found = self.judged(&self.with(fuse, device), &runs);
        found.retain(|f| {
            !self.found.iter().any(|g| (g.kind, &g.subject) == (f.kind, &f.subject) && g.severity <= f.severity)
        });
        found.sort_by_key(|f| f.severity);
        found
    }

    /// A smaller link has more resistance: what the run would lose with it beyond what it was sized for.
    fn drop(&self, fuse: &Fuse, rating: Amps) -> Option<String> {
        let (run, (style, is)) = (self.design.runs.get(self.loops.run_of(fuse.branch).0)?, fuse.fitted()?);
        let size = run.size.as_ref()?;
        let allowed = run.drop_allowed;
        let drop = size.drop + run.current * (style.warm_resistance(rating) - style.warm_resistance(is));
        let beyond = allowed.get() > 0.0 && size.drop <= allowed && drop > allowed;
        beyond.then(|| {
            let over = drop - allowed;
            format!("{drop} would be lost on the way, {over} more than it was sized for, since it has more resistance")
        })
    }

    fn step(&self, fuse: &Fuse<'d>, up: bool) -> Option<Step> {
        let (style, is) = fuse.fitted()?;
        let rating = match up {
            true => style.ratings.iter().find(|r| **r > is),
            false => style.ratings.iter().rev().find(|r| **r < is),
        };
        let rating = *rating?;
        let rises = if up { self.before(fuse, rating) } else { self.behind(fuse, rating) };
        let against = rises.into_iter().chain(self.drop(fuse, rating)).chain(self.unguarded(fuse, (style, rating)));
        let against = against.collect();
        Some(Step { rating, broken: self.broken(fuse, (style, rating)), against })
    }

    /// The runs that would no longer be guarded at their far end and need a device there too.
    fn unguarded(&self, fuse: &Fuse<'d>, device: Device<'d>) -> Option<String> {
        let fuses = self.with(fuse, device);
        let ends = self.fuses.far_ends.iter().zip(&fuses.far_ends).enumerate();
        let more = ends.filter(|(_, (was, is))| **is == FarEnd::Fused && **was != FarEnd::Fused);
        let names: Vec<String> = more.map(|(branch, _)| self.loops.run_of(branch).1).collect();
        (!names.is_empty()).then(|| format!("a device more is needed, at the far end of {}", names.join(", ")))
    }

    /// The device before it that a larger one would be larger than.
    fn before(&self, fuse: &Fuse, rating: Amps) -> Option<String> {
        let up = self.loops.upstream(fuse.branch, &self.fuses.near).filter(|_| !fuse.far_end)?;
        let smaller = up.rating.filter(|r| *r < rating && fuse.rating.is_some_and(|is| is <= *r))?;
        Some(format!("it would be larger than the {smaller} of {} before it", self.loops.run_of(up.branch).1))
    }

    /// The device behind it that a smaller one would be smaller than.
    fn behind(&self, fuse: &Fuse, rating: Amps) -> Option<String> {
        let next =
            |f: &&Fuse| self.loops.upstream(f.branch, &self.fuses.near).is_some_and(|up| up.branch == fuse.branch);
        let below = self.fuses.near.iter().flatten().filter(|_| !fuse.far_end).filter(next);
        let most = below.filter_map(|f| Some((f.rating?, f.branch))).max_by(|a, b| a.0.get().total_cmp(&b.0.get()))?;
        let (larger, branch) = Some(most).filter(|m| m.0 > rating && fuse.rating.is_some_and(|is| is >= m.0))?;
        Some(format!("it would be smaller than the {larger} of {} behind it", self.loops.run_of(branch).1))
    }

    fn limits_words(&self, fuse: &Fuse, (style, rating): Device) -> String {
        let need = &fuse.need;
        let (least, most) = self.bounds(fuse, style);
        let how = match fuse.pinned {
            true => "given".to_string(),
            false => format!("what ruled: {}", fuse.ruling),
        };
        format!(
            "{} of {rating}: at least {least} for {} steady in air of {}, at most {most} for the cable of {}; {how}",
            style.name,
            need.steady,
            need.air,
            self.loops.run_of(need.thinnest).1
        )
    }

    fn style_words(&self, fuse: &Fuse<'d>, (style, rating): Device<'d>) -> String {
        let (p, circuit) = (&fuse.prospective, fuse.need.circuit);
        let breaks = breaking(style, circuit);
        let backed = match backup_of(fuse, breaks).filter(|_| breaks < p.amps) {
            Some(backup) => backed_words(&self.loops, backup, p.amps / breaks),
            None => String::new(),
        };
        let plainer = match self.loops.style_pin(fuse.branch) {
            Some(_) => "; its style is given with the run or the board".to_string(),
            None => self.plainer(fuse, (style, rating)),
        };
        format!(
            "it breaks {breaks} at {circuit}, where up to {}, likely {}, can flow{backed}{plainer}",
            p.amps, p.likely
        )
    }

    /// Why none of the plainer styles.
    fn plainer(&self, fuse: &Fuse<'d>, device: Device<'d>) -> String {
        let (mut weak, mut unmade, mut others) = (Vec::new(), Vec::new(), Vec::new());
        for style in styles(&self.loops.site.catalogue, None).filter(|s| s.order < device.0.order) {
            let (least, most) = self.bounds(fuse, style);
            let Some(rating) = style.ratings.iter().find(|r| **r >= least && **r <= most) else {
                unmade.push(style.name.clone());
                continue;
            };
            let wrong = self.broken(fuse, (style, *rating));
            match wrong.first() {
                Some(first) if first.kind == Kind::FuseBreaking => {
                    weak.push(format!("{} ({})", style.name, breaking(style, fuse.need.circuit)));
                }
                Some(first) => others.push(format!("{} of {rating}: {}", style.name, first.text)),
                None => others.push(format!("{} of {rating} asks for more copper", style.name)),
            }
        }
        let mut why = Vec::new();
        if !weak.is_empty() {
            why.push(format!("plainer, but breaking too little: {}", weak.join(", ")));
        }
        if !unmade.is_empty() {
            why.push(format!("plainer, but without a rating between load and cable: {}", unmade.join(", ")));
        }
        why.extend(others.into_iter().map(|other| format!("plainer: {other}")));
        why.into_iter().map(|why| format!("; {why}")).collect()
    }

    /// What load and cable leave a style at the place of a device.
    fn bounds(&self, fuse: &Fuse, style: &FuseStyle) -> (Amps, Amps) {
        let limits = FuseLimits::of(&self.loops.site.catalogue);
        (at_least(style, &fuse.need).value, limits.at_most(fuse.need.ampacity))
    }

    fn place_words(&self, fuse: &Fuse, (style, rating): Device) -> String {
        let site = self.loops.site;
        let (run, at) = (self.loops.run_of(fuse.branch).0, self.loops.place_of(fuse));
        let within = judge::fuse::placement::within(&self.loops, fuse.branch);
        let place = match (site.in_way(run) && !fuse.far_end, style.on_the_stud, within) {
            (true, ..) => format!("sits in a way of `{at}`"),
            (_, true, _) => format!("sits on the stud of `{at}` itself, in its own holder"),
            (_, _, Some(within)) => {
                format!("sits in a holder for its style, with at most {within} of cable between `{at}` and it")
            }
            (_, _, None) => format!("sits in a holder for its style, as near to `{at}` as can be"),
        };
        let spare = site.catalogue.rules.spare_fuses.value.max(0.0) as usize;
        match style.reset {
            Some(_) => format!("the breaker of {} {place}; it is closed again, so no spare", run_name(&site.runs, run)),
            None => format!("the fuse of {} {place}; carry {spare} of {rating} as spare", run_name(&site.runs, run)),
        }
    }
}

fn step_words(way: &str, other: &str, step: Option<&Step>, allowed: &str) -> String {
    let Some(step) = step else { return format!("no {other} one of this style is made") };
    let broken = step.broken.iter().map(|f| format!("{} ({})", f.text, f.kind.key()));
    let all: Vec<String> = broken.chain(step.against.clone()).collect();
    match all.is_empty() {
        false => format!("one {way}, {}: {}", step.rating, all.join("; ")),
        true => format!("one {way}, {}, would break no rule{allowed}", step.rating),
    }
}
