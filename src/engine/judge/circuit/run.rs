//! What is wrong with a run: too hot, too thin, no size at all, a label that misleads.

use crate::catalogue::{Family, FuseStyle};
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::conductor::ampacity;
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::rating::cold_carrying;
use crate::engine::simulate::circuit::candidate::{Candidate, Fails};
use crate::engine::simulate::circuit::fuse_room::FuseRoom;
use crate::engine::simulate::circuit::picked::PickedRun;
use crate::engine::simulate::circuit::result::Protector;
use crate::engine::simulate::circuit::sized::{SizedRuns, Sizing};
use crate::engine::simulate::circuit::warming::pulse;
use crate::plan::{Place, ReturnPath, Section, Value};
use crate::quantity::*;

/// Return current in the body that is worth a caution: 30 A (common practice, no source).
const BODY_CURRENT: Amps = Amps::new(30.0);
/// Above this through a body that nobody has measured and rated: a stop. Common practice, no source.
const BODY_UNMEASURED: Amps = Amps::new(100.0);

pub(crate) fn check(known: &SizedRuns, sizing: &Sizing) -> Vec<Finding> {
    let mut found = Vec::new();
    for (branch, run) in known.picked.runs.iter().enumerate() {
        let index = known.site.circuits.branches[branch].run;
        let at = Run { known, run, branch, index, name: run_name(&known.site.runs, index) };
        let of_run = [
            at.insulation(),
            at.none(),
            at.less(),
            at.overloaded(),
            at.thin(),
            at.label(),
            at.body(),
            at.place(),
            at.runs_on(),
        ];
        found.extend(of_run.into_iter().flatten());
    }
    found.extend(many_sizes(known, sizing));
    found.extend(lookalikes(known, sizing));
    found
}

struct Run<'a> {
    known: &'a SizedRuns<'a>,
    run: &'a PickedRun<'a>,
    branch: usize,
    index: usize,
    name: String,
}

impl Run<'_> {
    fn subject(&self) -> Subject {
        Subject::Run(self.index)
    }

    fn place_of(&self, key: &'static str) -> Place {
        Place::run(self.index, key)
    }

    fn label_of(&self, candidate: &Candidate) -> &str {
        self.known.picked.shelf.cables[candidate.cable].label()
    }

    fn too_hot(&self) -> bool {
        self.run.asked.laid.air >= self.run.asked.laid.insulation.max
    }

    /// The air is hotter than the insulation stands.
    fn insulation(&self) -> Option<Finding> {
        let laid = &self.run.asked.laid;
        if !self.too_hot() {
            return None;
        }
        let text = format!(
            "{} lies in air of {}, and {} stands {}: no current is left for it",
            self.name, laid.air, laid.insulation.name, laid.insulation.max
        );
        let finding = Finding::new(Kind::InsulationHot, self.subject(), text)
            .rule(format!(
                "the air along a cable must be cooler than its insulation stands ({})",
                laid.insulation.from.max.words()
            ))
            .at(self.place_of("insulation"));
        let better = self.known.site.catalogue.insulations.iter().filter(|i| i.max.get() >= laid.air.get() + 20.0);
        let better = better.min_by(|a, b| a.max.get().total_cmp(&b.max.get()));
        Some(match better {
            Some(class) => finding.remedy_edit(
                format!("{} stands {}", class.name, class.max),
                self.place_of("insulation"),
                Some(Value::Text(class.key.clone())),
            ),
            None => finding.remedy(format!("lead it where the air stays below {}", laid.insulation.max)),
        })
    }

    /// No size of the family stands by itself.
    fn none(&self) -> Option<Finding> {
        if self.run.stands || self.run.pinned.is_some() || self.too_hot() {
            return None;
        }
        let last = self.run.candidates.last()?;
        let asked = &self.run.asked;
        let rule = last.fails.iter().flatten().next()?;
        let most = last.ampacity.used();
        let label = self.label_of(last);
        let text = match rule {
            Fails::Heat => format!(
                "no size is enough for {} at {}: the largest, {label}, carries {most} in {} air",
                asked.current, self.name, asked.laid.air
            ),
            Fails::Fuse => format!(
                "no fuse carries {} steadily and stays within the {most} that the largest size, {label}, carries at {}",
                asked.current, self.name
            ),
            _ => format!("the smallest size wanted, {}, is larger than any in the catalogue", asked.smallest),
        };
        // Two runs share the current evenly only if they feed different loads; each needs a size that stands.
        let carried = match rule {
            Fails::Fuse => self.most_fused(most),
            _ => most * 0.8,
        };
        let share = (asked.current / carried.max(Amps::new(1e-3))).ceil().max(2.0);
        let source = match rule {
            Fails::Heat => self.carries_words(last),
            Fails::Fuse => {
                format!("{}; fuse: {}", self.carries_words(last), self.known.site.fuse_loading_source())
            }
            _ => self.known.site.smallest_source(),
        };
        Some(
            Finding::new(Kind::SizeNone, self.subject(), text)
                .rule(format!("a cable carries no more than the smaller of table and heat balance, and its fuse lies between load and cable; {source}"))
                .at(self.place_of("current_a"))
                .remedy(format!("split the loads over {share:.0} runs, or stay at {carried} or less here")),
        )
    }

    /// The steady current of the largest fuse that a cable of this ampacity stands; of any style where none came into
    /// question because the current is beyond them all.
    fn most_fused(&self, ampacity: Amps) -> Amps {
        let (asked, loading) = (&self.run.asked.fuses, self.known.loading());
        let styles = self.known.site.catalogue.fuse_styles.iter();
        let ratings = styles.filter_map(|style| Some((style, *style.ratings.last()?))).collect();
        let any = FuseRoom { ratings, pinned: false, ..*asked };
        asked.most_carried(ampacity, loading).or_else(|| any.most_carried(ampacity, loading)).unwrap_or(Amps::ZERO)
    }

    /// The current given is less than what its ends may draw or feed.
    fn less(&self) -> Option<Finding> {
        let given = self.run.asked.run.current?;
        let flow = &self.known.demand.flows[self.branch];
        let flows = flow.out.max(flow.inward);
        if given.get() >= flows.get() * (1.0 - 1e-9) {
            return None;
        }
        let who = if flow.out >= flow.inward { "the loads beyond may draw" } else { "the sources beyond may feed" };
        let text = format!("{} is to be sized for {given}, but {who} {flows}: it is sized for these", self.name);
        let finding = Finding::new(Kind::RunCurrentLow, self.subject(), text)
            .rule("a cable is sized for all that may be on together, at the lowest voltage; a current entered by you only adds to that")
            .at(self.place_of("current_a"))
            .remedy_edit(format!("leave it out: {flows} count then"), self.place_of("current_a"), None);
        Some(finding.remedy(format!(
            "give loads that never run together the same word in `not_with`, if they stay under {given}"
        )))
    }

    /// Where the ampacity that counts comes from.
    fn carries_words(&self, candidate: &Candidate) -> String {
        ampacity::words(&self.known.site.catalogue.ampacity, &self.run.asked.laid, candidate.ampacity)
    }

    /// A pinned size carries too little.
    fn overloaded(&self) -> Option<Finding> {
        let chosen = self.run.chosen();
        if self.run.pinned.is_none() || self.too_hot() || !chosen.fails.contains(&Some(Fails::Heat)) {
            return None;
        }
        let (current, used) = (self.run.asked.current, chosen.ampacity.used());
        let label = self.label_of(chosen);
        let text = if used < current {
            format!(
                "{} in {label} carries {used} at most, and {current} flow: it would reach {}",
                self.name, chosen.temperature
            )
        } else {
            format!(
                "{} in {label} reaches {} when a start of {} for {} ends",
                self.name, chosen.after_start, chosen.worst_start.current, chosen.worst_start.lasts
            )
        };
        let source = if used < current {
            self.carries_words(chosen)
        } else {
            format!("insulation: {}", self.run.asked.laid.insulation.from.max.words())
        };
        let finding = Finding::new(Kind::AmpacityLow, self.subject(), text)
            .rule(format!("the smaller of table and heat balance in still air; {source}"))
            .at(self.place_of("size"));
        Some(self.larger(finding, |c| c.stands()))
    }

    /// A load that comes and goes stays on: its device opens before the insulation's limit, or somebody must.
    fn runs_on(&self) -> Option<Finding> {
        let asked = &self.run.asked;
        let runs_on = pulse(&self.known.picked, self.run)?.runs_on?;
        let device = self.device();
        let opens = device.and_then(|(style, rating)| {
            let carried = rating * cold_carrying(style, self.known.site.surroundings.coldest);
            latest(&style.gates, asked.current / carried)
        });
        if opens.is_some_and(|opens| opens <= runs_on) {
            return None;
        }
        let (label, limit) = (self.label_of(self.run.chosen()), asked.laid.insulation.max);
        let late = match (device, opens) {
            (Some((_, rating)), Some(opens)) => format!("the {rating} before it may take {opens}"),
            (Some((_, rating)), None) => format!("the {rating} before it never opens on that"),
            (None, _) => "nothing before it opens".into(),
        };
        let text = format!(
            "{} in {label} bears {} for a while: if that stays on, its insulation is at {limit} after {runs_on}, and {late}",
            self.name, asked.current
        );
        let finding = Finding::new(Kind::RunsOn, self.subject(), text)
            .rule(format!(
                "a device opens before the insulation's limit, or somebody switches off; insulation: {}",
                asked.laid.insulation.from.max.words()
            ))
            .at(self.place_of("size"))
            .remedy(format!("a switch that goes off by itself within {runs_on}, or somebody who stays beside it"));
        let bears = |c: &&Candidate| c.ampacity.for_ever() >= asked.current;
        Some(match self.run.candidates.iter().find(bears) {
            Some(size) => {
                let label = self.label_of(size);
                let words = format!("or {label}, which bears it for good");
                finding.remedy_edit(words, self.place_of("size"), Some(Value::Text(label.to_string())))
            }
            None => finding,
        })
    }

    /// The device at its near end, or the next one upstream.
    fn device(&self) -> Option<(&FuseStyle, Amps)> {
        let picked = &self.known.picked;
        let upward = self.known.site.circuits.path_of(self.branch);
        upward.into_iter().rev().find_map(|b| match picked.runs.get(b)?.protector {
            Protector::Of(style, rating) => Some((self.known.site.catalogue.fuse_styles.get(style)?, rating)),
            Protector::Open | Protector::Missing => None,
        })
    }

    /// With the smallest size of the family that fits as a remedy.
    fn larger(&self, finding: Finding, fits: impl Fn(&Candidate) -> bool) -> Finding {
        match self.run.candidates.iter().find(|c| fits(c)) {
            Some(next) => {
                let label = self.label_of(next);
                let words = format!("{label} carries {} and drops {}", next.ampacity.used(), next.drop);
                finding.remedy_edit(words, self.place_of("size"), Some(Value::Text(label.to_string())))
            }
            None => finding.remedy(format!("stay below {} here", self.run.chosen().ampacity.used())),
        }
    }

    /// A pinned size is thinner than wanted.
    fn thin(&self) -> Option<Finding> {
        let chosen = self.run.chosen();
        if self.run.pinned.is_none() || !chosen.fails.contains(&Some(Fails::Thin)) {
            return None;
        }
        let smallest = self.run.asked.smallest;
        let text = format!("{} in {} is thinner than {smallest}", self.name, self.label_of(chosen));
        let source = self.known.site.smallest_source();
        let finding = Finding::new(Kind::SizeThin, self.subject(), text)
            .rule(format!("a thinner conductor breaks by handling and shaking ({source})"))
            .at(self.place_of("size"));
        Some(self.larger(finding, |c| c.stands()))
    }

    /// A pinned label that misleads.
    fn label(&self) -> Option<Finding> {
        let chosen = self.run.chosen();
        let cable = &self.known.picked.shelf.cables[chosen.cable];
        let trap = cable.trap?;
        let text = format!("{} in `{}`: {}; computed with {}", self.name, trap.label, trap.trap, trap.copper);
        let finding = Finding::new(Kind::LabelTrap, self.subject(), text)
            .rule(format!("the copper counts, not the label ({})", trap.from.copper.words()))
            .at(self.place_of("size"));
        Some(self.larger(finding, |c| {
            self.known.picked.shelf.cables[c.cable].trap.is_none() && c.stands() && c.drop <= chosen.drop
        }))
    }

    /// A large return current in the body.
    fn body(&self) -> Option<Finding> {
        let asked = &self.run.asked;
        if asked.run.return_path != ReturnPath::Chassis {
            return None;
        }
        let lasting = asked.pulsed.map_or(asked.current, |pulsed| pulsed.heating(asked.current));
        let vehicle = &self.known.site.vehicle;
        let (measured, rating) = (vehicle.chassis_measured, vehicle.chassis_rating);
        let severity = match rating {
            Some(rating) if lasting > rating => Severity::Stop,
            _ if lasting > BODY_UNMEASURED && !(measured && rating.is_some()) => Severity::Stop,
            _ if lasting > BODY_CURRENT => Severity::Caution,
            _ => return None,
        };
        let carries = match rating {
            Some(rating) => format!("its weakest stud or strap carries {rating}"),
            None => "what its studs and straps carry is not said".into(),
        };
        let chassis: Ohms = self.known.site.vehicle.chassis_mohm.into();
        let heats =
            if lasting < asked.current { format!(", which heat like {lasting} for ever,") } else { String::new() };
        let text = format!(
            "{} brings {}{heats} back through the body, which loses {} over {}{} there; {carries}",
            self.name,
            asked.current,
            asked.current * chassis,
            chassis,
            if measured { ", measured," } else { "" }
        );
        Some(
            Finding::new(Kind::ChassisReturn, self.subject(), text)
                .as_severity(severity)
                .rule(format!(
                    "above {BODY_CURRENT} a cable back is sounder than glued and painted seams; above {BODY_UNMEASURED} only by a body that is measured, and never above what its studs and straps carry (common practice, no source)"
                ))
                .at(self.place_of("return"))
                .remedy_edit(
                    format!("a second conductor of {} brings the {} back", self.label_of(self.run.chosen()), asked.current),
                    self.place_of("return"),
                    Some(Value::Text("cable".into())),
                ),
        )
    }

    /// What to mind where it lies.
    fn place(&self) -> Option<Finding> {
        let laid = &self.run.asked.laid;
        let place = laid.place?;
        let caution = place.caution.as_ref()?;
        Some(
            Finding::new(
                Kind::PlaceCaution,
                self.subject(),
                format!("{}, {}: {caution}", self.name, place.name.to_lowercase()).trim_end_matches('.'),
            )
            .rule(format!("the place has its own dangers ({})", place.from.caution.words()))
            .at(self.place_of("surroundings"))
            .remedy(format!("look after it along all {} of the run", self.run.asked.run.length)),
        )
    }
}

/// More different sizes than wanted.
fn many_sizes(known: &SizedRuns, sizing: &Sizing) -> Option<Finding> {
    let most = known.site.rules.most_sizes? as usize;
    let labels = &sizing.copper.labels;
    if labels.len() <= most {
        return None;
    }
    let text =
        format!("{} different sizes are used ({}), and {most} are wanted at most", labels.len(), labels.join(", "));
    Some(
        Finding::new(Kind::SizesMany, Subject::Plan, text)
            .rule("the number of sizes wanted in this plan (entered by you)")
            .at(Place::of(Section::Rules, "most_sizes"))
            .remedy_edit(
                format!("allow {} sizes", labels.len()),
                Place::of(Section::Rules, "most_sizes"),
                Some(Value::Number(labels.len() as f64)),
            ),
    )
}

/// Sizes that a cable sold by outside diameter is easily taken for.
fn lookalikes(known: &SizedRuns, sizing: &Sizing) -> Option<Finding> {
    let alike = |label: &String| {
        let conductor = known.site.catalogue.conductor(label)?;
        let metric = matches!(conductor.family, Family::Metric | Family::Tinned);
        let sold = format!("{} mm auto", conductor.area.get());
        let trap = known.site.catalogue.trade_labels.iter().find(|t| metric && t.label == sold)?;
        Some(format!("{label} is not `{sold} cable`, which holds {}", trap.copper))
    };
    let traps: Vec<String> = sizing.copper.labels.iter().filter_map(alike).collect();
    if traps.is_empty() {
        return None;
    }
    let text = format!("buy by the copper, not by the outside: {}", traps.join("; "));
    Some(
        Finding::new(Kind::LabelTrap, Subject::Plan, text)
            .as_severity(Severity::Note)
            .rule("some shops sell automotive cable by its outside diameter (common trade labelling, no standard)")
            .at(Place::of(Section::Rules, "sizes"))
            .remedy("ask for mm² of copper, or count the strands"),
    )
}
