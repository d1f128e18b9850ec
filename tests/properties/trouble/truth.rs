//! The installation as it truly is, and what a meter shows in it.

use super::circuit::Circuit;
use super::spice::{Consumer, spice};
use loomwright::engine::{Cause, Faults, Measurement, On, PartKind, Pole, Probe, Side, Spot, Wired};
use rand::Rng;
use rand_chacha::ChaCha8Rng;

/// The true installation: what the finder must not see.
pub struct Truth<'a> {
    pub wired: &'a Wired<'a>,
    pub faults: Faults,
    /// True ohms of each part.
    pub ohms: Vec<f64>,
    pub rest: f64,
    pub running: f64,
    pub takes: f64,
    pub lift: f64,
    /// What a load draws is worked out by ngspice.
    pub by_spice: bool,
}

impl Truth<'_> {
    pub fn has(&self, cause: Cause) -> Option<f64> {
        self.faults.iter().flatten().find(|f| f.cause == cause).map(|f| f.size)
    }

    /// The ways laid out from both posts; nodes of the spots of each branch by pole.
    fn circuit(&self, ways: &[&[usize]], rest: f64, inside: f64) -> (Circuit, Vec<[Vec<usize>; 2]>, [usize; 2]) {
        let mut circuit = Circuit { nodes: 1, resistors: Vec::new(), sources: Vec::new() };
        let service = circuit.node();
        let (starter, starter_minus) = (circuit.node(), circuit.node());
        circuit.sources.push((service, rest, inside.max(1e-4), 0));
        circuit.sources.push((
            starter,
            self.running - self.has(Cause::WeakAlternator).unwrap_or(0.0),
            1e-4,
            starter_minus,
        ));
        circuit.resistors.push((0, starter_minus, 1e8));
        let branches = &self.wired.site.circuits.branches;
        let mut spots: Vec<[Vec<usize>; 2]> = vec![[Vec::new(), Vec::new()]; branches.len()];
        for branch in ways.iter().flat_map(|way| way.iter()) {
            if !spots[*branch][0].is_empty() {
                continue;
            }
            let feed = branches[*branch].side == Side::Feed;
            for (which, pole) in [Pole::Plus, Pole::Minus].into_iter().enumerate() {
                let post = [[service, 0], [starter, starter_minus]][usize::from(feed)][which];
                let mut at = branches[*branch].parent.map_or(post, |p| *spots[p][which].last().unwrap());
                spots[*branch][which].push(at);
                for part in self.wired.chain(*branch, pole) {
                    let far = circuit.node();
                    circuit.resistors.push((at, far, self.ohms[*part]));
                    spots[*branch][which].push(far);
                    at = far;
                }
            }
        }
        (circuit, spots, [service, starter])
    }

    /// What the meter shows.
    pub fn shows(&self, what: &Measurement) -> f64 {
        let site = self.wired.site;
        match what.probe {
            Probe::ToBody(b) => return if self.has(Cause::Chafed(b)).is_some() { 0.2 } else { 1000.0 },
            Probe::Printed(p) => {
                let rated = self.wired.parts[p].rating.unwrap().get();
                return rated * self.has(Cause::WrongFuse(p)).unwrap_or(1.0);
            }
            Probe::Setting => return self.wired.cut.get() + self.has(Cause::CutOffSetting).unwrap_or(0.0),
            Probe::Enable => {
                return if self.has(Cause::EnableWire).is_some() {
                    0.0
                } else {
                    self.running - self.has(Cause::WeakAlternator).unwrap_or(0.0)
                };
            }
            Probe::Capacity => return self.has(Cause::LostCapacity).unwrap_or(1.0),
            _ => {}
        }
        let parted = self.has(Cause::ProtectionOpen).is_some();
        let sense = |rest: f64| if self.has(Cause::SenseReversed).is_some() { -rest } else { rest };
        match what.on {
            On::Rest => match what.probe {
                Probe::Battery => site.charger.standing_draw.get() + site.cut_off.standing_draw.get(),
                Probe::Lead(_) => 0.0,
                Probe::Sense => {
                    // Nothing flows: an open part before the sensing point leaves it dead.
                    let way = site.circuits.path_to(&site.cut_off.senses_at).unwrap();
                    let before = parts_on(self.wired, &way)
                        .into_iter()
                        .filter(|p| self.wired.parts[*p].kind != PartKind::CutOff);
                    let open = before.into_iter().any(|p| self.ohms[p] > 1e8);
                    sense(if open {
                        0.0
                    } else if parted {
                        0.3
                    } else {
                        self.rest
                    })
                }
                Probe::Between(..) => {
                    if parted {
                        0.3
                    } else {
                        self.rest
                    }
                }
                _ => 0.0,
            },
            On::Load(load) if what.probe == Probe::Works => self.works(load),
            On::Load(load) => self.with_load(load, what, parted),
            On::Engine | On::Full => self.with_engine(what, parted),
        }
    }

    fn read(&self, spots: &[[Vec<usize>; 2]], posts: [usize; 2], spot: Spot) -> usize {
        let which = usize::from(spot.pole == Pole::Minus);
        match spot.branch {
            Some(b) => spots[b][which][spot.after],
            None if spot.side == Side::Service => [posts[0], 0][which],
            None => [posts[1], posts[1] + 1][which],
        }
    }

    /// The stable state of a consumer at the end of a way: the upper one where it can hold it.
    fn settle(&self, circuit: &Circuit, at: (usize, usize), kind: &str, asked: f64, lowest: f64) -> (Vec<f64>, f64) {
        // The way seen from the consumer is a source behind a resistance: two trials tell both.
        let over = |x: &[f64]| x[at.0] - x[at.1];
        let idle = circuit.solve(&[]);
        let (open, loaded) = (over(&idle), over(&circuit.solve(&[(at.0, at.1, 1e-3)])));
        let r = ((open - loaded) / 1e-3).max(1e-9);
        let upper = match kind {
            "power" => {
                let root = open * open - 4.0 * r * asked;
                (root >= 0.0).then(|| (open + root.sqrt()) / 2.0).filter(|v| *v >= lowest).map(|v| asked / v)
            }
            "current" => Some(asked / 12.0).filter(|i| open - r * i >= lowest),
            _ => Some(open / (r + 144.0 / asked)),
        };
        let amps = upper.unwrap_or_else(|| {
            let held = if kind == "power" { lowest * lowest / asked } else { lowest * 12.0 / asked };
            open / (r + held)
        });
        (circuit.solve(&[(at.0, at.1, amps)]), amps)
    }

    /// As somebody says who looks at it: a volt lost is seen.
    fn works(&self, load: usize) -> f64 {
        let end = *self.wired.way_to(load).unwrap().last().unwrap();
        let spot = |pole| self.wired.far_end(end, pole).unwrap();
        let probe = Probe::Between(spot(Pole::Plus), spot(Pole::Minus));
        let volts = self.shows(&Measurement { on: On::Load(load), probe });
        match self.rest - volts {
            _ if volts < 8.0 || self.has(Cause::LoadDead(load)).is_some() => 0.0,
            lost if lost > 1.0 => 0.5,
            _ => 1.0,
        }
    }

    pub fn with_load(&self, load: usize, what: &Measurement, parted: bool) -> f64 {
        let way = self.wired.way_to(load).unwrap();
        let (mut circuit, spots, posts) =
            self.circuit(&[way], if parted { 0.3 } else { self.rest }, self.wired.internal.get());
        let end = *way.last().unwrap();
        let at = (*spots[end][0].last().unwrap(), *spots[end][1].last().unwrap());
        let fed = &self.wired.site.loads[load];
        let kind = match fed.law {
            loomwright::engine::NetworkLoad::Power(_) => "power",
            loomwright::engine::NetworkLoad::Current(_) => "current",
            loomwright::engine::NetworkLoad::Resistance { .. } => "resistance",
        };
        let probes = match what.probe {
            Probe::Between(red, black) => Some((self.read(&spots, posts, red), self.read(&spots, posts, black))),
            _ => None,
        };
        if let Some((red, black)) = probes.filter(|(a, b)| a != b) {
            circuit.resistors.push((red, black, 1e7));
        }
        let dead = self.has(Cause::LoadDead(load)).is_some() || parted;
        let asked = fed.power.get() * self.takes;
        let lowest = fed.lowest.map_or(10.0, |v| v.get());
        if self.by_spice {
            let consumer = (!dead).then_some(Consumer { at, kind, asked, lowest });
            let (volts, amps) = spice(&circuit, consumer, probes.unwrap_or((0, 0)));
            return if probes.is_some() { volts } else { amps };
        }
        let (volts, amps) =
            if dead { (circuit.solve(&[]), 0.0) } else { self.settle(&circuit, at, kind, asked, lowest) };
        probes.map_or(amps, |(red, black)| volts[red] - volts[black])
    }

    fn with_engine(&self, what: &Measurement, parted: bool) -> f64 {
        let site = self.wired.site;
        let (feed, out) = (site.circuits.feed_path().unwrap(), site.circuits.path_to("charger").unwrap());
        let (mut circuit, spots, posts) = self.circuit(&[&feed, &out], if parted { 0.3 } else { self.rest }, 1e-4);
        let ends = |way: &[usize]| {
            let end = *way.last().unwrap();
            (*spots[end][0].last().unwrap(), *spots[end][1].last().unwrap())
        };
        let (input, output) = (ends(&feed), ends(&out));
        // The body lies beside the feed's own minus cable.
        circuit.resistors.push((posts[1] + 1, input.1, site.vehicle.chassis_mohm.get() / 1000.0));
        if let Probe::Between(red, black) = what.probe {
            let (red, black) = (self.read(&spots, posts, red), self.read(&spots, posts, black));
            if red != black {
                circuit.resistors.push((red, black, 1e7));
            }
        }
        let dead = parted || [Cause::ChargerOff, Cause::EnableWire].iter().any(|c| self.has(*c).is_some());
        let charger = self.wired.charger;
        let target = charger.output.get() - self.has(Cause::Profile).unwrap_or(0.0);
        let full = what.on == On::Full;
        let rated = charger.current.unwrap().get() * if full { 0.1 } else { 1.0 };
        let (mut volts, mut given) = (circuit.solve(&[]), 0.0);
        if !dead {
            let asked = target * rated / site.charger.efficiency.get();
            let (with, drawn) = self.settle(&circuit, input, "power", asked, charger.lowest_input.get());
            let at_input = with[input.0] - with[input.1];
            if at_input >= charger.lowest_input.get() * 0.8 {
                let lifted = if full { target } else { (self.rest + self.lift).min(target) };
                circuit.sources[0].1 = lifted;
                let free = circuit.solve(&[]);
                let loaded = circuit.solve(&[(output.1, output.0, 1e-3)]);
                let across = |x: &[f64]| x[output.0] - x[output.1];
                let r = ((across(&loaded) - across(&free)) / 1e-3).max(1e-6);
                let most = if r > 1e6 { 0.0 } else { (target + 0.3 - lifted) / r };
                given = (at_input * drawn * site.charger.efficiency.get() / target).min(most.max(0.0));
                if given <= 0.05 {
                    circuit.sources[0].1 = self.rest;
                }
                volts = circuit.solve(&[(input.0, input.1, drawn), (output.1, output.0, given)]);
            }
        }
        match what.probe {
            Probe::Between(red, black) => volts[self.read(&spots, posts, red)] - volts[self.read(&spots, posts, black)],
            Probe::Battery => -given,
            _ => 0.0,
        }
    }
}

/// The parts of some branches, both sides.
pub fn parts_on(wired: &Wired<'_>, way: &[usize]) -> Vec<usize> {
    way.iter().flat_map(|b| [Pole::Plus, Pole::Minus].map(|pole| wired.chain(*b, pole))).flatten().copied().collect()
}

/// As the meter shows it.
pub fn noisy(dice: &mut ChaCha8Rng, what: &Measurement, value: f64) -> f64 {
    match what.probe {
        Probe::Between(..) | Probe::Sense | Probe::Enable | Probe::Panel => {
            let off = value * dice.random_range(-0.005..0.005) + dice.random_range(-0.02..0.02);
            ((value + off) * 100.0).round() / 100.0
        }
        Probe::Battery | Probe::Lead(_) => value * dice.random_range(0.98..1.02) + dice.random_range(-0.1..0.1),
        Probe::Capacity => value + dice.random_range(-0.05..0.05),
        _ => value,
    }
}
