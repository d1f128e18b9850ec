//! In which words: where both probes go, what is to be isolated first, the repair, the reading that proves it?

use crate::engine::ask::trouble::belief::Belief;
use crate::engine::ask::trouble::symptom::heaviest;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::subject::run_name;
use crate::engine::simulate::trouble::cause::{Cause, OPEN};
use crate::engine::simulate::trouble::predict::{Measurement, Probe};
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{PartKind, Pole, Spot, Wired};
use crate::quantity::*;

/// More ohms than this are no connection.
const APART: f64 = 100.0;
/// Ratings printed on fuses are further apart than this.
const PRINTED: f64 = 1.3;

impl Pole {
    fn word(self) -> &'static str {
        match self {
            Pole::Plus => "plus",
            Pole::Minus => "minus",
        }
    }
}

impl PartKind {
    fn word(self) -> &'static str {
        match self {
            PartKind::NearJoint => "the lug at its near end",
            PartKind::Fuse => "its fuse",
            PartKind::Cable => "its cable",
            PartKind::FarJoint => "the lug at its far end",
            PartKind::Contact => "its switch or plug contact",
            PartKind::CutOff => "the contact of the cut-off",
            PartKind::Earth => "the body and its earth point",
        }
    }
}

impl Wired<'_> {
    fn load_name(&self, load: usize) -> String {
        self.site.loads.get(load).map_or_else(String::new, |l| format!("`{}`", l.name))
    }

    fn run_words(&self, branch: usize) -> String {
        self.site.circuits.branches.get(branch).map_or_else(String::new, |b| run_name(&self.site.runs, b.run))
    }

    /// A spot in words.
    pub fn spot_words(&self, spot: Spot) -> String {
        let pole = spot.pole.word();
        let Some(branch) = spot.branch else { return format!("{pole} post of the {}", spot.side.battery()) };
        let chain = self.chain(branch, spot.pole);
        let kind = |n: usize| chain.get(n).map_or("", |p| self.parts[*p].kind.word());
        let run = self.run_words(branch);
        if spot.after == 0 || spot.after == chain.len() {
            let does = if spot.after == 0 { "begins" } else { "ends" };
            format!("{pole} terminal at `{}`, where {run} {does}", self.where_is(spot))
        } else {
            format!("{pole} of {run}, between {} and {}", kind(spot.after - 1), kind(spot.after))
        }
    }

    /// What is to be on, in words.
    pub fn on_words(&self, on: On) -> String {
        match on {
            On::Rest => "everything off, engine off".into(),
            On::Load(load) => format!("only {} switched on, engine off", self.load_name(load)),
            On::Engine => "engine running, all loads off, battery not full".into(),
            On::Full => "engine running until the charge current has fallen, all loads off".into(),
        }
    }

    /// Where the meter goes, in words.
    pub fn probe_words(&self, probe: Probe) -> String {
        match probe {
            Probe::Between(red, black) => {
                format!(
                    "volts: red probe on the {}; black probe on the {}",
                    self.spot_words(red),
                    self.spot_words(black)
                )
            }
            Probe::Battery => "clamp meter around the plus lead of the service battery".into(),
            Probe::Lead(branch) => format!("clamp meter around the plus lead of {}", self.run_words(branch)),
            Probe::ToBody(branch) => {
                format!(
                    "ohms: one probe on the plus cable of {}, the other on bare metal of the body",
                    self.run_words(branch)
                )
            }
            Probe::Printed(part) => {
                format!("read the rating printed on the fuse of {}", self.run_words(self.parts[part].branch))
            }
            Probe::Setting => "read the voltage that the cut-off is set to".into(),
            Probe::Sense => "volts: red probe on the cut-off's plus sense terminal, black probe on its minus".into(),
            Probe::Enable => "volts: red probe on the charger's enable terminal, black probe on its minus".into(),
            Probe::Panel => "volts: across the panel terminals of the solar controller, sun on the panel".into(),
            Probe::Works => "look whether it does what it should: 1 it works, 0.5 it is dim or slow, 0 nothing".into(),
            Probe::Capacity => {
                "charge until full, then count the share of the rated charge that comes out to the cut-off".into()
            }
        }
    }

    /// What is to be done before a probe goes there.
    pub fn safe_first(&self, what: &Measurement) -> String {
        let running = matches!(what.on, On::Engine | On::Full);
        let fuse_before = |spot: Spot| {
            spot.pole == Pole::Minus
                || spot.branch.is_some_and(|b| {
                    self.site.circuits.path_of(b).iter().any(|w| {
                        let before = if *w == b { spot.after } else { usize::MAX };
                        self.chain(*w, Pole::Plus).iter().take(before).any(|p| self.parts[*p].kind == PartKind::Fuse)
                    })
                })
        };
        match what.probe {
            Probe::ToBody(_) => "pull the fuse and take off the battery's minus before the meter is set to ohms".into(),
            Probe::Printed(_) => "switch the load off before the fuse is pulled".into(),
            _ if running => {
                "park in the open, hand brake on; keep hair, sleeves and leads clear of belts and fans".into()
            }
            Probe::Between(red, black) if !fuse_before(red) || !fuse_before(black) => {
                "no fuse guards this spot: insulated probe tips, no ring or watch, touch nothing else".into()
            }
            Probe::Between(..) => "no isolation needed; keep the probe tips from bridging plus and body".into(),
            _ => "no isolation needed".into(),
        }
    }

    /// A value of a probe with its unit.
    pub fn shown(&self, probe: Probe, value: f64) -> String {
        match probe {
            Probe::Between(..) | Probe::Setting | Probe::Sense | Probe::Enable | Probe::Panel => {
                // The last digit of a meter in its 20 V range; a sound zero has no sign.
                Volts::new((value * 100.0).round() / 100.0 + 0.0).to_string()
            }
            Probe::Battery | Probe::Lead(_) | Probe::Printed(_) => {
                Amps::new((value * 100.0).round() / 100.0 + 0.0).to_string()
            }
            Probe::ToBody(_) if value > APART => "no connection".into(),
            Probe::ToBody(_) => Ohms::new(value).to_string(),
            Probe::Works => match value {
                v if v > 0.75 => "it works (1)".into(),
                v if v > 0.25 => "it is dim or slow (0.5)".into(),
                _ => "it does nothing (0)".into(),
            },
            Probe::Capacity => Share::new(value.clamp(0.0, 2.0)).to_string(),
        }
    }

    /// What is shown between two values.
    pub fn range(&self, probe: Probe, low: f64, high: f64) -> String {
        match probe {
            Probe::Works => return self.shown(probe, (low + high) / 2.0),
            Probe::ToBody(_) if low < APART => return "a few ohms or less".into(),
            Probe::ToBody(_) => return self.shown(probe, high),
            _ => {}
        }
        // A printed number is read without an error.
        let (low, high) = match probe {
            Probe::Printed(_) if high < low * PRINTED => ((low + high) / 2.0, (low + high) / 2.0),
            _ => (low, high),
        };
        let (low, high) = (self.shown(probe, low), self.shown(probe, high));
        if low == high { low } else { format!("{low} to {high}") }
    }

    /// A cause in words, with its size where that is known.
    pub fn cause_words(&self, cause: Cause, size: Option<f64>) -> String {
        let run = |branch| self.run_words(branch);
        match cause {
            Cause::Part(part) => {
                let of = self.parts[part];
                let how = match (size.is_some_and(|s| s >= OPEN / 2.0), of.kind) {
                    (true, PartKind::Fuse) => "blown, or open in its holder".into(),
                    (true, PartKind::Cable) => "broken".into(),
                    (true, PartKind::CutOff) => "does not close, though the voltage is high enough".into(),
                    (true, _) => "open".into(),
                    (false, _) => match size {
                        Some(size) => format!("has about {} too much", Ohms::new(size)),
                        None => "has too much resistance".into(),
                    },
                };
                format!("{}, {} side: {} {how}", run(of.branch), of.pole.word(), of.kind.word())
            }
            Cause::WrongFuse(part) => {
                format!("{}: its fuse was smaller than planned, and has gone", run(self.parts[part].branch))
            }
            Cause::Chafed(branch) => {
                format!("{}: its plus cable has chafed through to the body, and its fuse has gone", run(branch))
            }
            Cause::LoadDead(load) => format!("{} itself, its switch or its own leads", self.load_name(load)),
            Cause::NeverStops(load) => format!("{} never stops", self.load_name(load)),
            Cause::WeakAlternator => match size {
                Some(size) => format!("the alternator gives about {} too little", Volts::new(size)),
                None => "the alternator gives too little voltage".into(),
            },
            Cause::StarterWorn => "the starter battery is worn, or its posts and straps are bad".into(),
            Cause::ChargerOff => "the charger is off or dead".into(),
            Cause::EnableWire => "the charger's enable wire carries nothing".into(),
            Cause::Profile => match size {
                Some(size) => format!("the charger stops about {} too low: its profile is wrong", Volts::new(size)),
                None => "the charger stops too low: its profile is wrong".into(),
            },
            Cause::LostCapacity => match size {
                Some(size) => format!("the battery has about {} of its capacity left", Share::new(size)),
                None => "the battery has lost capacity".into(),
            },
            Cause::CutOffSetting => match size {
                Some(size) => format!("the cut-off is set about {} too high", Volts::new(size)),
                None => "the cut-off is set too high".into(),
            },
            Cause::SenseReversed => "plus and minus of the cut-off's sense wires are exchanged".into(),
            Cause::ProtectionOpen => "the battery's own protection has opened".into(),
            Cause::PanelDead => "the solar panel or its cable gives nothing".into(),
        }
    }

    /// What mends a cause.
    pub fn repair_words(&self, cause: Cause) -> String {
        let off = "isolate the battery (minus off first), then ";
        match cause {
            Cause::Part(part) => match self.parts[part].kind {
                PartKind::Fuse => "switch off, pull the fuse: replace a blown one by the planned rating, clean and tighten its holder; if it goes again, look for a chafed cable".into(),
                PartKind::Cable => format!("{off}replace the cable, or the broken stretch of it with a crimped and sealed splice"),
                PartKind::CutOff => format!("{off}replace the cut-off, or have its contact mended; never bridge it for good"),
                PartKind::Contact => format!("{off}clean the contact or replace the switch or plug"),
                PartKind::Earth => format!("{off}take the earth point apart: bare metal, new lug, tight nut, grease over it"),
                PartKind::NearJoint | PartKind::FarJoint => format!("{off}make the joint anew: cut back to bright copper, new lug, tighten to its torque"),
            },
            Cause::WrongFuse(part) => {
                let rating = self.parts[part].rating.map_or_else(String::new, |a| format!(" of {a}"));
                format!("fit the planned fuse{rating}")
            }
            Cause::Chafed(_) => format!("{off}find where it rubs, replace the cable, lead it through a grommet, then fit the planned fuse"),
            Cause::LoadDead(load) => format!("check the switch, the plug and the fuse inside {}, then the load itself", self.load_name(load)),
            Cause::NeverStops(load) => format!("check the switch or thermostat of {}", self.load_name(load)),
            Cause::WeakAlternator => "have belt, alternator and regulator checked; look at the starter battery's posts and straps".into(),
            Cause::StarterWorn => "clean and tighten its posts and straps at battery, body and starter motor, charge it, have it tested under load, then replace it".into(),
            Cause::ChargerOff => "look at its lamp, its own fuses and its temperature; replace it if its input is sound".into(),
            Cause::EnableWire => "follow the enable wire back to its source and its fuse".into(),
            Cause::Profile => "set the profile that fits the battery's chemistry".into(),
            Cause::LostCapacity => "test once more after a full charge; then replace the battery".into(),
            Cause::CutOffSetting => format!("set it to {}", self.cut),
            Cause::SenseReversed => format!("{off}exchange the two sense wires"),
            Cause::ProtectionOpen => "switch all loads off and wake it by a charger made for it; no bare jumper between batteries".into(),
            Cause::PanelDead => "cover the panel, then check its plugs, cable and fuse".into(),
        }
    }

    /// The reading that proves the repair of a cause: what it must be.
    pub fn proof(&self, belief: &Belief<'_>, cause: Cause) -> (Measurement, f64) {
        let what = self.proves(belief, cause);
        let sound = [None, None];
        let states = self.states(&sound, what.on);
        (what, self.predict(&sound, &states, &what, &belief.meter).value)
    }

    fn proves(&self, belief: &Belief<'_>, cause: Cause) -> Measurement {
        let posts = |side| Probe::Between(Wired::post(side, Pole::Plus), Wired::post(side, Pole::Minus));
        let of = |on, probe| Measurement { on, probe };
        let branch = match cause {
            Cause::Part(part) | Cause::WrongFuse(part) => self.parts.get(part).map(|p| p.branch),
            Cause::Chafed(branch) => Some(branch),
            Cause::LoadDead(load) => return of(On::Load(load), Probe::Battery),
            Cause::NeverStops(_) => return of(On::Rest, Probe::Battery),
            Cause::WeakAlternator => return of(On::Engine, posts(Side::Feed)),
            Cause::StarterWorn => return of(On::Rest, posts(Side::Feed)),
            Cause::Profile => return of(On::Full, posts(Side::Service)),
            Cause::LostCapacity => return of(On::Rest, Probe::Capacity),
            Cause::CutOffSetting => return of(On::Rest, Probe::Setting),
            Cause::SenseReversed => return of(On::Rest, Probe::Sense),
            Cause::ProtectionOpen => return of(On::Rest, posts(Side::Service)),
            Cause::PanelDead => return of(On::Rest, Probe::Panel),
            Cause::ChargerOff | Cause::EnableWire => return of(On::Engine, Probe::Battery),
        };
        let charges = |b: &usize| [self.feed_way(), self.charge_way()].into_iter().flatten().any(|way| way.contains(b));
        let load = belief.load.or_else(|| heaviest(self, branch.filter(|b| !charges(b))?));
        let end = load.and_then(|l| Some((l, *self.way_to(l)?.last()?)));
        let spots = end.and_then(|(l, b)| Some((l, self.far_end(b, Pole::Plus)?, self.far_end(b, Pole::Minus)?)));
        match spots {
            Some((load, red, black)) => of(On::Load(load), Probe::Between(red, black)),
            None if self.feed_way().is_some() => of(On::Engine, Probe::Battery),
            None => of(On::Rest, posts(Side::Service)),
        }
    }
}
