//! The results of sizing in the shape that screens and papers show.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::physics::starts::Start;
use crate::engine::simulate::circuit::candidate::Fails;
use crate::engine::simulate::circuit::cases::Cases;
use crate::engine::simulate::circuit::demand::{Demand, End, Terminal, class_drop};
use crate::engine::simulate::circuit::inverse::Turned;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::picked::{Picked, PickedRun, fails_drop, ruling};
use crate::engine::simulate::circuit::result::{
    CopperDesign, Device, Drawn, FarEnd, LoadSupply, Resistances, RunDesign, SizeRow,
};
use crate::engine::simulate::circuit::warming::{Rated, short_time};
use crate::plan::point;
use crate::quantity::*;
use crate::reckon;

/// What sizing gives.
#[derive(Clone, Debug)]
pub struct Sizing {
    /// The sources at their worst.
    pub levels: Levels,
    /// One for each run of the plan.
    pub runs: Vec<RunDesign>,
    /// One for each load of the plan.
    pub loads: Vec<LoadSupply>,
    /// What draws or feeds besides.
    pub devices: Vec<Device>,
    /// The copper of all runs.
    pub copper: CopperDesign,
}

/// All runs as sized, with what stands in them.
pub struct SizedRuns<'a> {
    /// What is there.
    pub site: &'a Installation,
    /// The sources at their worst.
    pub levels: Levels,
    /// Currents and limits.
    pub demand: Demand,
    /// Sizes used and others.
    pub picked: Picked<'a>,
    /// Voltages in each case.
    pub cases: Cases,
    /// By branch, the mean of the squared current.
    pub squares: Vec<f64>,
}

/// A voltage as a share of the nominal one of its side.
pub fn of_nominal(drop: Volts, nominal: Volts) -> Reckoned<Share, 2> {
    reckon!(Share: U / V, U: "drop of the run" = drop, V: "nominal voltage" = nominal)
}

/// Energy that a resistance takes in a day.
pub fn loss(resistance: Ohms, square: f64) -> Reckoned<WattHours, 2> {
    reckon!(WattHours: 24.0 * R * Q,
        R: "resistance of the loop, hot" = resistance,
        Q: "mean of the squared current over a day, A²" = Figure::number(square))
}

impl SizedRuns<'_> {
    /// A run of the size used, for what it may become.
    pub(crate) fn turned<'a>(&'a self, run: &'a PickedRun<'a>) -> Turned<'a> {
        Turned::new(&self.picked.shelf, run, self.loading())
    }

    /// Lowest voltage of the battery that feeds an end.
    pub fn low_of(&self, terminal: &Terminal) -> Volts {
        let feed = terminal.branch.is_some_and(|b| self.site.circuits.branches[b].side == Side::Feed);
        if feed { self.levels.feed } else { self.levels.lowest }
    }

    /// Largest steady current as a share of a fuse's rating.
    pub fn loading(&self) -> Share {
        self.site.fuse_loading()
    }

    /// One for each run of the plan.
    pub fn runs(&self) -> Vec<RunDesign> {
        let rated = Rated::of(&self.picked);
        in_parts(self.site.runs.len(), 16, |run| self.run(run, &rated))
    }

    fn run(&self, index: usize, rated: &Rated) -> RunDesign {
        let Some((branch, run)) = self.site.circuits.index_of(index).and_then(|b| Some((b, self.picked.runs.get(b)?)))
        else {
            return RunDesign { run: index, ..RunDesign::default() };
        };
        let flow = self.demand.flows[branch];
        let square = self.squares[branch];
        let nominal = self.site.nominal(self.site.circuits.branches[branch].side);
        let inverse = self.turned(run).all();
        let sizes: Vec<SizeRow> = (0..run.candidates.len()).map(|c| self.row(run, c, square, nominal)).collect();
        RunDesign {
            run: index,
            branch: Some(branch),
            current: flow.current,
            pulsed: flow.pulsed,
            surge: flow.surge,
            surge_lasts: flow.lasts,
            starts: flow.starts,
            air: run.asked.laid.air,
            size: sizes.get(run.used).cloned(),
            pinned: run.pinned.is_some(),
            protector: run.protector,
            least_for_fuse: run.asked.least_for_fuse,
            ruling: ruling(run),
            sizes,
            fuses: Vec::new(),
            far_end: FarEnd::default(),
            drop_allowed: run.allowed().map_or(Volts::ZERO, |allowed| allowed.value),
            equal_share: run.share.map(|share| share.value),
            settled: self.cases.settled[branch],
            longest: inverse.longest,
            biggest: inverse.biggest,
            warmest: inverse.warmest,
            short_time: short_time(&self.picked, run, rated),
        }
    }

    fn row(&self, run: &PickedRun, index: usize, square: f64, nominal: Volts) -> SizeRow {
        let candidate = &run.candidates[index];
        let cable = &self.picked.shelf.cables[candidate.cable];
        let mut fails: Vec<Fails> = candidate.fails.iter().flatten().copied().collect();
        if fails_drop(run, candidate) {
            fails.push(Fails::Drop);
        }
        SizeRow {
            label: cable.label().to_string(),
            area: cable.conductor.area,
            resistance: candidate.resistance,
            made_of: Resistances {
                copper: candidate.cold,
                joints: run.asked.joints.of(cable.conductor.area).value,
                contacts: run.asked.others,
                link: run.asked.link,
            },
            drop: candidate.drop,
            drop_share: of_nominal(candidate.drop, nominal).value,
            temperature: candidate.temperature,
            ampacity_table: candidate.ampacity.table,
            ampacity_heat: Some(candidate.ampacity.heat),
            ampacity: candidate.ampacity.used(),
            fuse: candidate.fuse,
            mass: candidate.mass,
            loss: loss(candidate.resistance, square).value,
            fails,
            used: index == run.used,
        }
    }

    pub(crate) fn load(&self, index: usize) -> LoadSupply {
        let load = &self.site.loads[index];
        let wanted = if load.inverter { End::Inverter } else { End::Load(index) };
        let Some(at) = self.demand.terminals.iter().position(|t| t.end == wanted) else {
            return LoadSupply::default();
        };
        let terminal = &self.demand.terminals[at];
        let (voltage, drop) = (self.cases.steady[at], self.cases.drop[at]);
        let lowest = if load.inverter { Some(self.site.inverter.own_cut) } else { load.lowest };
        let class = class_drop(terminal.class, terminal.nominal).value;
        let keeps = drop.get() <= class.get() + 1e-9;
        let enough = voltage.is_some_and(|v| lowest.is_none_or(|l| v.get() >= l.get() - 1e-9));
        LoadSupply {
            drawn: if load.inverter { Drawn::default() } else { self.drawn(at) },
            voltage,
            surge_voltage: self.cases.at_start(at).map(|lowest| lowest.value).or(voltage),
            charging_voltage: self.cases.charging[at],
            drop: voltage.map(|_| drop),
            drop_share: voltage.map(|_| of_nominal(drop, terminal.nominal).value),
            limit: terminal.class,
            fits: keeps && enough,
        }
    }

    /// What a terminal draws or feeds.
    fn drawn(&self, at: usize) -> Drawn {
        let terminal = &self.demand.terminals[at];
        let branch = terminal.branch.and_then(|b| self.site.circuits.branches.get(b));
        // With what it is on with as a rule; what it has at the least stands with the load.
        let settled = terminal.branch.filter(|_| self.cases.on[at]).map(|b| self.cases.settled[b].far);
        let voltage = settled.or(self.cases.steady[at]);
        Drawn {
            end: Some(terminal.end),
            side: Some(branch.map_or(Side::Service, |b| b.side)),
            law: Some(terminal.asks),
            on: self.cases.on[at],
            sized_for: terminal.current,
            start: Start { current: terminal.extra, lasts: terminal.lasts },
            voltage,
        }
    }

    /// All that draws or feeds and is no load of the plan.
    pub(crate) fn devices(&self) -> Vec<Device> {
        let ends = self.demand.terminals.iter().enumerate();
        let devices = ends.filter(|(_, t)| !matches!(t.end, End::Load(_)));
        devices.map(|(at, t)| Device { at: self.point_of(t), drawn: self.drawn(at) }).collect()
    }

    /// The point a terminal hangs on.
    fn point_of(&self, terminal: &Terminal) -> String {
        let branch = terminal.branch.and_then(|b| self.site.circuits.branches.get(b));
        branch.map_or_else(|| point::SERVICE_BATTERY.to_string(), |b| b.far.clone())
    }

    fn unserved(&self) -> impl Iterator<Item = End> {
        let ends = self.demand.terminals.iter().zip(&self.picked.hopeless);
        ends.filter(|(_, hopeless)| **hopeless).map(|(terminal, _)| terminal.end)
    }

    pub(crate) fn copper(&self) -> CopperDesign {
        let mut labels: Vec<(f64, String)> = Vec::new();
        for run in &self.picked.runs {
            let cable = &self.picked.shelf.cables[run.chosen().cable];
            if !labels.iter().any(|(_, l)| l == cable.label()) {
                labels.push((cable.conductor.area.get(), cable.label().to_string()));
            }
        }
        labels.sort_by(|a, b| a.0.total_cmp(&b.0));
        CopperDesign {
            mass: self.picked.mass,
            equal_share: self.picked.shared_mass,
            least: self.picked.exact,
            tried: self.picked.tried,
            no_less: self.picked.no_less,
            labels: labels.into_iter().map(|(_, l)| l).collect(),
            unserved: self.unserved().collect(),
        }
    }
}
