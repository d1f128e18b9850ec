//! What is wrong with what a load gets: too much lost, too low, too high, or nothing at all.

use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::copper::warmed;
use crate::engine::simulate::circuit::candidate::Candidate;
use crate::engine::simulate::circuit::demand::{End, Terminal, class_drop};
use crate::engine::simulate::circuit::sized::{SizedRuns, of_nominal};
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

/// Highest voltage that 12 V equipment of vehicles is commonly built for (common practice, no source;
/// ISO 16750-2 tests up to 16 V, from memory).
const HIGHEST: Volts = Volts::new(15.0);

pub(crate) fn check(known: &SizedRuns) -> Vec<Finding> {
    let mut found = Vec::new();
    found.extend((0..known.site.loads.len()).filter_map(|load| contradicts(known, load)));
    for (index, terminal) in known.demand.terminals.iter().enumerate() {
        let name = known.site.name_of(&terminal.end.subject());
        let ends = Supply { known, terminal, index, name };
        match known.cases.collapsed.iter().find(|(i, _)| *i == index) {
            // The charger's own part reports its feed.
            Some(_) if terminal.end == End::ChargerInput => {}
            // That it gets too much while charging is no less true.
            _ if ends.unserved() => found.extend([ends.out_of_reach(), ends.high()].into_iter().flatten()),
            Some((_, collapse)) => found.push(collapsed(known, index, collapse)),
            None => found.extend([ends.drop(), ends.low(), ends.high()].into_iter().flatten()),
        }
    }
    found
}

/// Power and current that differ by more than this share of the larger contradict each other (common practice, no source).
const AGREE: f64 = 0.05;

/// A power and a current that do not agree at the voltage of its side.
fn contradicts(known: &SizedRuns, index: usize) -> Option<Finding> {
    let load = &known.site.loads[index];
    let (power, current) = (load.label_power?, load.label_current?);
    let nominal = known.site.loads[index].nominal;
    let by_current = current * nominal;
    let (least, most) = (power.min(by_current), power.max(by_current));
    if most.get() <= 0.0 || least.get() >= most.get() * (1.0 - AGREE) {
        return None;
    }
    let text = format!("{} has {power} and {current}, which is {by_current} at {nominal}: {most} counts", load.name);
    // The smaller of both goes, so that what counts stays.
    let (of_power, of_current) = (("power_w", power.to_string()), ("current_a", current.to_string()));
    let ((key, rest), (other, kept)) = if power < by_current { (of_power, of_current) } else { (of_current, of_power) };
    Some(
        Finding::new(Kind::LoadContradicts, Subject::Load(index), text)
            .rule(format!(
                "power = voltage × current at {nominal}; where they differ by more than {} the larger counts (common practice, no source)",
                Share::new(AGREE)
            ))
            .at(Place::load(index, key))
            .remedy_edit(format!("keep {kept} only"), Place::load(index, key), None)
            .remedy_edit(format!("or keep {rest} only, if its label says so"), Place::load(index, other), None),
    )
}

struct Supply<'a> {
    known: &'a SizedRuns<'a>,
    terminal: &'a Terminal,
    index: usize,
    name: String,
}

fn load_place(end: End, key: &'static str, other: Place) -> Place {
    match end {
        End::Load(i) => Place::load(i, key),
        _ => other,
    }
}

impl Supply<'_> {
    fn class_place(&self) -> Place {
        let other = if self.terminal.end == End::Inverter { Section::Inverter } else { Section::Charger };
        load_place(self.terminal.end, "drop", Place::of(other, "drop"))
    }

    fn rule(&self) -> String {
        let Terminal { nominal, class_source, .. } = self.terminal;
        format!("drop out and back with all steady loads on, as a share of {} V ({class_source})", nominal.get())
    }

    /// More is lost than the class allows.
    fn drop(&self) -> Option<Finding> {
        let (terminal, known) = (self.terminal, self.known);
        let branch = terminal.branch?;
        let lost = known.cases.drop[self.index];
        let limit = class_drop(terminal.class, terminal.nominal).value;
        if lost.get() <= limit.get() + 1e-9 {
            return None;
        }
        let path = known.site.circuits.path_of(branch);
        if let Some(by) = self.drawn_down(&path, limit) {
            return Some(by);
        }
        let pinned = path.iter().any(|b| known.picked.runs[*b].pinned.is_some());
        let share = of_nominal(lost, terminal.nominal).value;
        let kind = if pinned { Kind::DropHigh } else { Kind::SizeNone };
        let text = if pinned {
            format!(
                "{} loses {lost} ({share}) on the way, and its class allows {limit} ({})",
                self.name, terminal.class
            )
        } else {
            let class = terminal.class;
            format!(
                "no size keeps {} within its class: it would lose {lost} ({share}) on the way, and {limit} ({class}) is allowed",
                self.name
            )
        };
        let finding = Finding::new(kind, terminal.end.subject(), text).rule(self.rule()).at(self.worst_place(&path));
        Some(self.remedies(finding, &path, lost - limit))
    }

    /// Whether no choice of free sizes keeps its limit, and none on its way is given.
    fn unserved(&self) -> bool {
        let Self { known, terminal, index, .. } = self;
        let given = |b: usize| known.picked.runs[b].pinned.is_some();
        let path = terminal.branch.map(|b| known.site.circuits.path_of(b)).unwrap_or_default();
        terminal.end != End::ChargerInput
            && known.picked.hopeless.get(*index).is_some_and(|h| *h)
            && !path.into_iter().any(given)
    }

    /// What even the largest sizes do not serve. They are not taken: its own runs are sized by what they carry.
    fn out_of_reach(&self) -> Option<Finding> {
        let (terminal, known) = (self.terminal, self.known);
        let path = known.site.circuits.path_of(terminal.branch?);
        let (limit, class) = (class_drop(terminal.class, terminal.nominal).value, terminal.class);
        let best = |b: &usize| self.best(*b);
        let lost: Volts = path.iter().map(best).map(|c| c.drop).sum();
        let largest = path.iter().map(best).max_by(|a, b| a.mass.get().total_cmp(&b.mass.get()))?;
        let label = known.picked.shelf.cables[largest.cable].label();
        let share = of_nominal(lost, terminal.nominal).value;
        let excess = lost - limit;
        let text = format!(
            "no size keeps {} within its class: it would lose {lost} ({share}) on the way even in {label}, and {limit} ({class}) is allowed",
            self.name
        );
        let finding = Finding::new(Kind::SizeNone, terminal.end.subject(), text)
            .rule(self.rule() + "; its own cables are sized only by what they carry until it can be served")
            .at(self.worst_place(&path));
        let current = terminal.current * ((lost - excess) / lost).clamp(0.0, 1.0);
        Some(
            finding
                .remedy(format!("with {current} instead of {} it would keep its class in {label}", terminal.current))
                .remedy(self.shorter(&path, excess)),
        )
    }

    /// The size of a run with the least drop, where nothing lies beyond that can be served; else the one used.
    fn best(&self, branch: usize) -> &Candidate {
        let Self { known, .. } = self;
        let run = &known.picked.runs[branch];
        let ends = &known.demand.beyond[branch];
        let alone = ends.iter().all(|t| known.picked.hopeless[*t]) && run.pinned.is_none();
        let largest =
            || run.candidates.iter().filter(|c| c.stands()).min_by(|a, b| a.drop.get().total_cmp(&b.drop.get()));
        if alone { largest().unwrap_or(run.chosen()) } else { run.chosen() }
    }

    /// In its sizes it would keep its class; what else hangs there draws more than it was sized for, since it loses
    /// more than its own class allows.
    fn drawn_down(&self, path: &[usize], limit: Volts) -> Option<Finding> {
        let (terminal, known) = (self.terminal, self.known);
        let sized: Volts = path.iter().map(|b| known.picked.runs[*b].chosen().drop).sum();
        if sized.get() > limit.get() + 1e-9 {
            return None;
        }
        let over = |t: &&usize| {
            let (other, lost) = (&known.demand.terminals[**t], known.cases.drop[**t]);
            **t != self.index
                && known.cases.on[**t]
                && lost.get() > class_drop(other.class, other.nominal).value.get() + 1e-9
        };
        let root = *path.last()?;
        let others = known.demand.beyond[root].iter().filter(over);
        let others: Vec<String> =
            others.map(|t| known.site.name_of(&known.demand.terminals[*t].end.subject())).collect();
        let (first, lost) = (others.first()?, known.cases.drop[self.index]);
        let whose = match others.len() {
            1 => format!("{first} draws more than its class lets it"),
            n => format!("{first} and {} more draw more than their classes let them", n - 1),
        };
        let text = format!(
            "{} would lose {lost} ({}) on the way while {whose}, and {limit} ({}) is allowed; {sized} once that is mended",
            self.name,
            of_nominal(lost, terminal.nominal).value,
            terminal.class
        );
        let finding = Finding::new(Kind::DropHigh, terminal.end.subject(), text).as_severity(Severity::Caution);
        Some(finding.rule(self.rule()).at(self.worst_place(path)).remedy(format!("mend {first} first")))
    }

    /// The run that loses most is where to begin.
    fn worst_place(&self, path: &[usize]) -> Place {
        let worst = path.iter().max_by(|a, b| {
            let drop = |b: usize| self.known.picked.runs[b].chosen().drop.get();
            drop(**a).total_cmp(&drop(**b))
        });
        worst.map_or(self.class_place(), |b| Place::run(self.known.site.circuits.branches[*b].run, "size"))
    }

    /// The lightest larger size of one run that saves enough; else how long or how strong the path may be.
    fn remedies(&self, finding: Finding, path: &[usize], excess: Volts) -> Finding {
        let known = self.known;
        let mut best: Option<(f64, usize, usize)> = None;
        for branch in path {
            let run = &known.picked.runs[*branch];
            for (index, candidate) in run.candidates.iter().enumerate() {
                let saved = run.chosen().drop - candidate.drop;
                let more = (candidate.mass - run.chosen().mass).get();
                let fits = saved.get() >= excess.get() && candidate.stands() && index < known.picked.shelf.family;
                if fits && best.is_none_or(|(mass, _, _)| more < mass) {
                    best = Some((more, *branch, index));
                }
            }
        }
        if let Some((_, branch, index)) = best {
            let run = known.site.circuits.branches[branch].run;
            let candidate = &known.picked.runs[branch].candidates[index];
            let label = known.picked.shelf.cables[candidate.cable].label();
            let words = format!("{label} in {} would drop {} there", run_name(&known.site.runs, run), candidate.drop);
            return finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(label.to_string())));
        }
        let lost = known.cases.drop[self.index];
        let share = ((lost - excess) / lost).clamp(0.0, 1.0);
        let finding = finding.remedy(format!(
            "with {} instead of {} it would keep its class in these sizes",
            self.terminal.current * share,
            self.terminal.current
        ));
        finding.remedy(self.shorter(path, excess))
    }

    /// How long the way may be: only what the copper loses becomes less with it, joints and fuse-links stay.
    fn shorter(&self, path: &[usize], excess: Volts) -> String {
        let length: Metres = path.iter().map(|b| self.known.picked.runs[*b].asked.run.length).sum();
        let sizes =
            || path.iter().map(|b| if self.unserved() { self.best(*b) } else { self.known.picked.runs[*b].chosen() });
        let copper: Volts = sizes()
            .map(|size| {
                let part = warmed(size.cold, size.temperature) / size.resistance.max(Ohms::new(1e-12));
                size.drop * part
            })
            .sum();
        if copper <= excess {
            let fixed = sizes().map(|size| size.drop).sum::<Volts>() - copper;
            return format!("no shorter way would do: joints, fuse-links and contacts alone lose {fixed} of it");
        }
        // Whole centimetres, rounded down.
        let would = Metres::new((length.get() * ((copper - excess) / copper) * 100.0).floor() / 100.0);
        match self.unserved() {
            true => format!("a way of {would} instead of {length} would do, in the largest sizes"),
            false => format!("a way of {would} instead of {length} would do, all else as it is"),
        }
    }

    /// It gets less than it works with.
    fn low(&self) -> Option<Finding> {
        let End::Load(index) = self.terminal.end else { return None };
        let load = &self.known.site.loads[index];
        let (lowest, volts) = (load.lowest?, self.known.cases.steady[self.index]?);
        let dip = self.known.cases.start[self.index].map_or(volts, |s| s.min(volts));
        if volts >= lowest && dip >= lowest {
            return None;
        }
        let battery = volts + self.known.cases.drop[self.index];
        let starting = volts >= lowest;
        let got = if starting { dip } else { volts };
        let when = if starting { "while the worst start lasts" } else { "with all steady loads on" };
        let text = format!("{} gets {got} {when}, battery at {battery}; it needs {lowest}", self.name);
        let mut finding = Finding::new(Kind::VoltageLow, Subject::Load(index), text)
            .rule("lowest voltage the load works at (entered by you)")
            .at(Place::load(index, "lowest_v"));
        if starting {
            finding = finding.as_severity(Severity::Caution);
        }
        let cut = lowest + (battery - got);
        Some(finding.remedy_edit(
            format!("a cut-off of {cut} leaves it {lowest}"),
            Place::of(Section::CutOff, "cut_v"),
            Some(Value::Number((cut.get() * 10.0).ceil() / 10.0)),
        ))
    }

    /// It gets more than it bears; where that is not known, more than 12 V equipment stands.
    fn high(&self) -> Option<Finding> {
        let own = match self.terminal.end {
            End::Load(load) => self.known.site.loads[load].highest,
            _ => None,
        };
        let most = own.unwrap_or(HIGHEST);
        let volts = self.known.cases.charging[self.index].filter(|v| *v > most)?;
        let text = format!("{} gets {volts} while charging with little load", self.name);
        let output = Place::of(Section::Charger, "output_v");
        let finding = match own {
            Some(own) => {
                Finding::new(Kind::VoltageHigh, self.terminal.end.subject(), format!("{text}; it bears {own}"))
                    .as_severity(Severity::Stop)
                    .rule("highest voltage the load bears (entered by you)")
            }
            None => Finding::new(Kind::VoltageHigh, self.terminal.end.subject(), text)
                .rule(format!("12 V equipment is commonly built for up to {HIGHEST} (common practice, no source)")),
        };
        let words = format!("a charge voltage of {most} at most, or a load built for {volts}");
        Some(finding.at(output).remedy_number(words, output, most.get()))
    }
}

/// The cables cannot feed it at all.
fn collapsed(
    known: &SizedRuns,
    index: usize,
    collapse: &crate::engine::physics::network::collapse::Collapse,
) -> Finding {
    let terminal = &known.demand.terminals[index];
    let name = known.site.name_of(&terminal.end.subject());
    let text = format!(
        "the cables cannot feed {name}: {} is asked for and the voltage collapses above {}",
        collapse.asked, collapse.largest
    );
    let path = terminal.branch.map(|b| known.site.circuits.path_of(b)).unwrap_or_default();
    let worst = path.iter().copied().max_by(|a, b| {
        let ohms = |b: usize| known.picked.runs[b].chosen().resistance.get();
        ohms(*a).total_cmp(&ohms(*b))
    });
    let finding = Finding::new(Kind::Collapse, terminal.end.subject(), text).rule(
        "a load of constant power draws the more the less it gets; beyond a limit there is no voltage at which it runs",
    );
    let Some(branch) = worst else {
        let place = load_place(terminal.end, "power_w", Place::of(Section::Inverter, "rating_w"));
        return finding.at(place).remedy(format!("stay well below {}", collapse.largest));
    };
    let run = known.site.circuits.branches[branch].run;
    let length = known.picked.runs[branch].asked.run.length;
    finding
        .at(Place::run(run, "size"))
        .remedy_edit(
            format!("leave the size of {} ({length}) to be chosen", run_name(&known.site.runs, run)),
            Place::run(run, "size"),
            None,
        )
        .remedy(format!("stay well below {} there", collapse.largest))
}
