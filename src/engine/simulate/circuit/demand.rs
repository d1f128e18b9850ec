//! Which currents must each run carry, and how much may each load lose on the way?
//!
//! A load of constant power draws the more the less it gets: it is taken at the
//! lowest battery voltage less all that its class lets it lose, P / (V - limit),
//! which no design that keeps the class exceeds. A load of constant resistance
//! draws most while charging. So each run's current, its heat and its drop are
//! upper bounds that do not depend on the sizes chosen elsewhere; the network
//! solution of the finished design then lies below them.
//!
//! Of loads that never run together only the largest beyond each run counts.
//! The inverter counts with its rating: anything may be plugged into it.

use crate::engine::installation::Installation;
use crate::engine::installation::charger::lowest_input;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::load::{Load, NOMINAL, efficiency};
use crate::engine::installation::subject::Subject;
use crate::engine::physics::conductor::short_time::{Intermittent, Pulsed};
use crate::engine::physics::network::load::Load as Law;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::physics::starts::{Start, Starts};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::charger::rush;
use crate::engine::simulate::circuit::levels::{Levels, inverter_power};
use crate::plan::{ChargerKind, point};
use crate::quantity::*;
use crate::reckon;
use std::collections::BTreeMap;

/// What draws or feeds at the end of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// A load of the plan.
    Load(usize),
    /// The inverter with all that is plugged in.
    Inverter,
    /// The charger's output, feeding back to the battery.
    ChargerOutput,
    /// The charger's input.
    ChargerInput,
    /// The solar controller.
    Solar,
    /// The mains charger.
    Mains,
}

impl End {
    /// What a finding about it is about.
    pub fn subject(self) -> Subject {
        match self {
            End::Load(i) => Subject::Load(i),
            End::Inverter => Subject::Inverter,
            End::ChargerOutput | End::ChargerInput => Subject::Charger,
            End::Solar => Subject::Solar,
            End::Mains => Subject::Mains,
        }
    }

    /// What it is, in words.
    pub fn words(self) -> &'static str {
        match self {
            End::Load(_) => "load",
            End::Inverter => "inverter",
            End::ChargerOutput => "charger output",
            End::ChargerInput => "charger input",
            End::Solar => "solar",
            End::Mains => "mains charger",
        }
    }

    /// Whether current flows from it towards the battery.
    pub fn feeds(self) -> bool {
        matches!(self, End::ChargerOutput | End::Solar | End::Mains)
    }
}

/// One end of a path with what it asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct Terminal {
    /// What it is.
    pub end: End,
    /// Branch that leads to it; `None` at the battery's own posts.
    pub branch: Option<usize>,
    /// Largest steady current.
    pub current: Amps,
    /// On top of it while it starts.
    pub extra: Amps,
    /// How long it starts.
    pub lasts: Seconds,
    /// What each of its starts adds that no other exceeds in both current and time.
    pub starts: Starts,
    /// On for so long, then off for so long; `None` for one that may stay on.
    pub cycle: Option<Intermittent>,
    /// The group of loads that never run together with it.
    pub group: Option<usize>,
    /// Voltage that its side is made for.
    pub nominal: Volts,
    /// Largest drop of its class, as a share of that.
    pub class: Share,
    /// Where the class comes from.
    pub class_source: String,
    /// Most it may lose on the way: its class, or what its lowest voltage leaves.
    pub limit: Volts,
    /// Whether the lowest voltage sets the limit, not the class.
    pub by_lowest: bool,
    /// What it puts into the network while on.
    pub asks: Law,
}

impl Terminal {
    /// With what a relay passes on top for the minutes of its rush.
    fn rushes(&mut self, extra: Amps) {
        if extra.get() > 0.0 {
            (self.extra, self.lasts) = (extra, rush::LASTS);
            self.starts = Starts::one(extra, rush::LASTS);
        }
    }
}

/// All ends, and what each branch carries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Demand {
    /// Every end with its path.
    pub terminals: Vec<Terminal>,
    /// By branch of the topology.
    pub flows: Vec<Flow>,
    /// By branch, the ends at or beyond its far end.
    pub beyond: Vec<Vec<usize>>,
}

/// What a branch carries.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flow {
    /// To the loads beyond, all that may be on together.
    pub out: Amps,
    /// From the sources beyond.
    pub inward: Amps,
    /// The larger of both; more where the plan says to size for more.
    pub current: Amps,
    /// Where loads beyond come and go: how, and what stays.
    pub pulsed: Option<Pulsed>,
    /// What the worst start beyond adds.
    pub start: Amps,
    /// With the worst start on top.
    pub surge: Amps,
    /// How long that start lasts.
    pub lasts: Seconds,
    /// Every start beyond that no other exceeds in both current and time, on top of the rest.
    pub starts: Starts,
}

impl Flow {
    /// The larger of both directions, and no less than what the plan says to size for: a current given for a run may
    /// leave room for more; it never takes the loads away.
    pub fn steady(&self, given: Amps) -> Reckoned<Amps, 3> {
        reckon!(Amps: max(G, max(O, F)),
            O: "to the loads beyond, all that may be on together" = self.out,
            F: "from the sources beyond" = self.inward,
            G: "current to size for, as entered; 0 where none is" = given)
    }

    /// With the worst start on top.
    pub fn short(&self) -> Reckoned<Amps, 3> {
        reckon!(Amps: max(I, O + S),
            I: "largest steady current" = self.current,
            O: "to the loads beyond, all that may be on together" = self.out,
            S: "the worst start beyond on top" = self.start)
    }
}

/// Largest current of a constant power: it cannot get less than its limit leaves.
pub fn by_power(power: Watts, lowest: Volts, limit: Volts) -> Reckoned<Amps, 3> {
    reckon!(Amps: P / max(V - U, 1.0),
        P: "power of all items" = power,
        V: "lowest voltage of the battery that feeds it" = lowest,
        U: "most it may lose on the way" = limit)
}

/// Largest current of a resistance, which draws most at the highest voltage.
pub fn by_resistance(rated: Watts, nominal: Volts, charging: Volts) -> Reckoned<Amps, 3> {
    reckon!(Amps: P / N * max(V / N, 1.0),
        P: "power of all items at the nominal voltage" = rated,
        N: "nominal voltage" = nominal,
        V: "charge voltage" = charging)
}

/// Current that is the same at any voltage.
pub fn by_current(current: Amps) -> Reckoned<Amps, 1> {
    reckon!(Amps: I, I: "current of all items" = current)
}

/// Most that a class may lose on the way.
pub fn class_drop(class: Share, nominal: Volts) -> Reckoned<Volts, 2> {
    reckon!(Volts: V * c, V: "nominal voltage" = nominal, c: "share of its class" = class)
}

impl Demand {
    /// Of a plan.
    pub fn of(site: &Installation, levels: &Levels, charger: &ChargerDesign) -> Self {
        let gather = Gather { site, levels };
        let mut terminals = gather.loads();
        terminals.extend(gather.inverter());
        terminals.extend(gather.sources(charger));
        let mut beyond = vec![Vec::new(); site.circuits.branches.len()];
        for (index, terminal) in terminals.iter().enumerate() {
            let mut at = terminal.branch;
            while let Some(branch) = at {
                beyond[branch].push(index);
                at = site.circuits.branches[branch].parent;
            }
        }
        let flows = flows(site, &terminals, &beyond);
        Demand { terminals, flows, beyond }
    }

    /// The ends beyond a branch whose currents add up: of a group the largest. Their sum is what flows.
    pub fn counted(&self, branch: usize, feeds: bool) -> impl Iterator<Item = &Terminal> {
        counted(&self.terminals, &self.beyond[branch], feeds)
    }
}

fn counted<'a>(terminals: &'a [Terminal], beyond: &'a [usize], feeds: bool) -> impl Iterator<Item = &'a Terminal> {
    let all = || beyond.iter().map(|t| &terminals[*t]);
    let largest = move |t: &&Terminal| {
        let same = all().filter(|o| o.group == t.group);
        t.group.is_none()
            || same.max_by(|a, b| a.current.get().total_cmp(&b.current.get())).is_some_and(|m| m.end == t.end)
    };
    all().filter(move |t| t.end.feeds() == feeds).filter(largest)
}

struct Gather<'a> {
    site: &'a Installation,
    levels: &'a Levels,
}

impl Gather<'_> {
    /// Branch of a point, and the lowest voltage of the battery that feeds it; `None` for a point no run reaches.
    fn place(&self, at: &str) -> Option<(Option<usize>, Volts)> {
        if let Some(branch) = self.site.circuits.to_point.get(at) {
            return Some((Some(*branch), self.levels.lowest));
        }
        if at == point::SERVICE_BATTERY {
            return Some((None, self.levels.lowest));
        }
        self.site.circuits.to_feed_point.get(at).map(|branch| (Some(*branch), self.levels.feed))
    }

    fn terminal(&self, end: End, at: (Option<usize>, Volts), class: &str, lowest: Option<Volts>) -> Terminal {
        let (share, class_source) = self.site.drop_class(class);
        let side = at.0.map_or(Side::Service, |b| self.site.circuits.branches[b].side);
        let nominal = self.site.nominal(side);
        let by_class = class_drop(share, nominal).value;
        let room = lowest.map(|l| at.1 - l).filter(|room| *room > Volts::ZERO && *room < by_class);
        Terminal {
            end,
            branch: at.0,
            current: Amps::ZERO,
            extra: Amps::ZERO,
            lasts: Seconds::ZERO,
            starts: Starts::NONE,
            cycle: None,
            group: None,
            nominal,
            class: share,
            class_source,
            limit: room.unwrap_or(by_class),
            by_lowest: room.is_some(),
            asks: Law::Current(Amps::ZERO),
        }
    }

    fn loads(&self) -> Vec<Terminal> {
        let loads = self.site.loads.iter().enumerate().filter(|(_, l)| !l.inverter && l.power > Watts::ZERO);
        loads.filter_map(|(i, load)| self.place(&load.at).map(|at| self.load(i, load, at))).collect()
    }

    fn load(&self, index: usize, load: &Load, at: (Option<usize>, Volts)) -> Terminal {
        let mut terminal = self.terminal(End::Load(index), at, &load.drop, load.lowest);
        terminal.asks = load.law;
        terminal.current = match load.law {
            Law::Power(power) => by_power(power, at.1, terminal.limit).value,
            Law::Resistance { rated, nominal } => by_resistance(rated, nominal, self.levels.charging).value,
            Law::Current(current) => by_current(current).value,
        };
        terminal.extra = terminal.current * load.start_adds();
        terminal.lasts = load.start.lasts;
        terminal.starts = Starts::one(terminal.extra, terminal.lasts);
        terminal.cycle = load.cycle;
        terminal.group = load.group;
        terminal
    }

    fn inverter(&self) -> Option<Terminal> {
        let inverter = &self.site.inverter;
        if inverter.rating <= Watts::ZERO {
            return None;
        }
        let at = self.place(&inverter.at)?;
        let mut terminal = self.terminal(End::Inverter, at, &inverter.drop, Some(inverter.own_cut));
        let efficiency = efficiency(inverter).get();
        let power = inverter_power(self.site);
        let least = (at.1 - terminal.limit).max(Volts::new(1.0));
        terminal.current = by_power(power, at.1, terminal.limit).value;
        terminal.asks = Law::Power(power);
        let starts = self
            .site
            .loads
            .iter()
            .filter(|l| l.inverter)
            .map(|l| (l.power * l.start_adds() / efficiency / least, l.start.lasts));
        starts.for_each(|(current, lasts)| terminal.starts.add(Start { current, lasts }));
        let worst = terminal.starts.largest().unwrap_or_default();
        (terminal.extra, terminal.lasts) = (worst.current, worst.lasts);
        Some(terminal)
    }

    fn sources(&self, charger: &ChargerDesign) -> Vec<Terminal> {
        let (plan, mut all) = (self.site, Vec::new());
        let mut feed_in = |end: End, at: &str, current: Amps| {
            if let Some(place) = self.place(at).filter(|_| current > Amps::ZERO) {
                let mut terminal = self.terminal(end, place, "critical", None);
                terminal.current = current;
                terminal.asks = Law::Current(-current);
                all.push(terminal);
            }
        };
        // A controller may give the whole rating of the array into a battery at 12 V.
        feed_in(End::Solar, &plan.solar.at, plan.solar.array / NOMINAL);
        feed_in(End::Mains, &plan.mains.at, plan.mains.current);
        let current = charger.current.filter(|_| plan.charger.kind != ChargerKind::None).unwrap_or(Amps::ZERO);
        if self.site.circuits.to_point.contains_key(point::CHARGER) {
            feed_in(End::ChargerOutput, point::CHARGER, current);
        }
        // What comes in does not add to what goes out: the whole rush counts, on either side of a relay.
        let output = all.iter_mut().filter(|t| t.end == End::ChargerOutput);
        output.for_each(|terminal| terminal.rushes(charger.rush));
        let mut input = self.charger_input(current);
        input.iter_mut().for_each(|terminal| terminal.rushes((charger.rush - current).max(Amps::ZERO)));
        all.extend(input);
        all
    }

    /// A converter takes constant power; a relay passes the same current.
    fn charger_input(&self, current: Amps) -> Option<Terminal> {
        let (plan, feed) = (self.site, self.levels.feed);
        let branch = *self.site.circuits.to_feed_point.get(point::CHARGER)?;
        if current <= Amps::ZERO {
            return None;
        }
        let lowest = lowest_input(plan);
        let mut terminal = self.terminal(End::ChargerInput, (Some(branch), feed), &plan.charger.drop, Some(lowest));
        if plan.charger.kind == ChargerKind::Relay {
            terminal.current = current;
            terminal.asks = Law::Current(current);
            return Some(terminal);
        }
        let power = self.levels.charging * current / plan.charger.efficiency.get().clamp(0.05, 1.0);
        terminal.current = by_power(power, feed, terminal.limit).value;
        terminal.asks = Law::Power(power);
        Some(terminal)
    }
}

/// Currents of all branches.
fn flows(site: &Installation, terminals: &[Terminal], beyond: &[Vec<usize>]) -> Vec<Flow> {
    let mut flows = vec![Flow::default(); beyond.len()];
    let pulsed = pulsed(site, terminals);
    for (branch, flow) in flows.iter_mut().enumerate() {
        let sum = |feeds: bool| counted(terminals, &beyond[branch], feeds).map(|t| t.current).sum();
        (flow.out, flow.inward) = (sum(false), sum(true));
        let own = site.runs.get(site.circuits.branches[branch].run).and_then(|r| r.current).unwrap_or(Amps::ZERO);
        flow.current = flow.steady(own).value;
        let mut starts = Starts::NONE;
        beyond[branch].iter().for_each(|t| starts.extend(&terminals[*t].starts));
        let worst = starts.largest().unwrap_or_default();
        (flow.start, flow.lasts) = (worst.current, worst.lasts);
        flow.surge = flow.short().value;
        flow.starts = starts.on_top_of(flow.out);
        let rest = pulsed[branch].rest.max(own).max(flow.inward);
        if pulsed[branch].cycle.on > Seconds::ZERO && rest < flow.current {
            flow.pulsed = Some(Pulsed { rest, ..pulsed[branch] });
        }
    }
    flows
}

/// By branch, the loads that come and go taken as one that is on as long as the longest and off as short as the
/// shortest, which is on the safe side; and what the others draw.
fn pulsed(site: &Installation, terminals: &[Terminal]) -> Vec<Pulsed> {
    let none = Pulsed { cycle: Intermittent { on: Seconds::ZERO, off: Seconds::new(f64::INFINITY) }, rest: Amps::ZERO };
    let mut all = vec![none; site.circuits.branches.len()];
    if terminals.iter().all(|t| t.cycle.is_none()) {
        return all;
    }
    let mut groups: BTreeMap<usize, Vec<Amps>> = BTreeMap::new();
    for terminal in terminals.iter().filter(|t| !t.end.feeds()) {
        for branch in terminal.branch.map(|b| site.circuits.path_of(b)).unwrap_or_default() {
            let here = &mut all[branch];
            match (terminal.cycle, terminal.group) {
                (Some(cycle), _) => {
                    here.cycle.on = here.cycle.on.max(cycle.on);
                    here.cycle.off = here.cycle.off.min(cycle.off);
                }
                (None, None) => here.rest += terminal.current,
                (None, Some(group)) => {
                    let largest = groups.entry(group).or_insert_with(|| vec![Amps::ZERO; site.circuits.branches.len()]);
                    largest[branch] = largest[branch].max(terminal.current);
                }
            }
        }
    }
    for (branch, here) in all.iter_mut().enumerate() {
        here.rest += groups.values().map(|largest| largest[branch]).sum();
    }
    all
}

/// What a device carries, and which share of its rating that may be: of loads that come and go the whole rating
/// (common practice, no source), so that it passes them for as long as they are on.
pub fn carried(current: Amps, pulsed: Option<Pulsed>, loading: Share) -> (Amps, Share) {
    match pulsed {
        Some(pulsed) => (current.max(pulsed.rest / loading.get().max(0.01)), Share::FULL),
        None => (current, loading),
    }
}
