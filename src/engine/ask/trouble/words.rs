//! In which words: where both probes go, what is to be isolated first, the repair, the reading that proves it?

use crate::engine::ask::trouble::belief::Belief;
use crate::engine::installation::subject::run_name;
use crate::engine::simulate::trouble::cause::{Cause, OPEN};
use crate::engine::simulate::trouble::predict::{Measurement, Probe};
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{PartKind, Pole, Spot, Wired};
use crate::quantity::*;

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
            format!("{pole} terminal at `{}`, where {run} ends", self.where_is(spot))
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
            Probe::ToBody(_) if value > 100.0 => "no connection".into(),
            Probe::ToBody(_) => Ohms::new(value).to_string(),
            Probe::Works => match value {
                v if v > 0.75 => "it works (1)".into(),
                v if v > 0.25 => "it is dim or slow (0.5)".into(),
                _ => "it does nothing (0)".into(),
            },
            Probe::Capacity => Share::new(value.clamp(0.0, 2.0)).to_string(),
        }
    }

    /// What is shown within twice the standard error of a value.
    pub fn range(&self, probe: Probe, value: f64, error: f64) -> String {
        if probe == Probe::Works {
            return self.shown(probe, value);
        }
        let (low, high) = (self.shown(probe, value - 2.0 * error), self.shown(probe, value + 2.0 * error));
        format!("{low} to {high}")
    }

    /// A cause in words; `size` of its likeliest guess.
    pub fn cause_words(&self, cause: Cause, size: f64) -> String {
        let run = |branch| self.run_words(branch);
        match cause {
            Cause::Part(part) => {
                let of = self.parts[part];
                let how = match (size >= OPEN / 2.0, of.kind) {
                    (true, PartKind::Fuse) => "blown, or open in its holder".into(),
                    (true, PartKind::Cable) => "broken".into(),
                    (true, PartKind::CutOff) => "does not close, though the voltage is high enough".into(),
                    (true, _) => "open".into(),
                    (false, _) => format!("has about {} too much", Ohms::new(size)),
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
            Cause::WeakAlternator => format!("the alternator gives about {} too little", Volts::new(size)),
            Cause::ChargerOff => "the charger is off or dead".into(),
            Cause::EnableWire => "the charger's enable wire carries nothing".into(),
            Cause::Profile => format!("the charger stops about {} too low: its profile is wrong", Volts::new(size)),
            Cause::LostCapacity => format!("the battery has about {} of its capacity left", Share::new(size)),
            Cause::CutOffSetting => format!("the cut-off is set about {} too high", Volts::new(size)),
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

    /// The reading that proves a repair: what it must be.
    pub fn proof(&self, belief: &Belief<'_>) -> (Measurement, f64) {
        use crate::engine::installation::circuits::Side;
        let posts = |side| Probe::Between(Wired::post(side, Pole::Plus), Wired::post(side, Pole::Minus));
        let end = belief.load.and_then(|l| Some((l, *self.way_to(l)?.last()?)));
        let spots = end.and_then(|(l, b)| Some((l, self.far_end(b, Pole::Plus)?, self.far_end(b, Pole::Minus)?)));
        let what = match spots {
            Some((load, red, black)) => Measurement { on: On::Load(load), probe: Probe::Between(red, black) },
            None if self.feed_way().is_some() => Measurement { on: On::Engine, probe: Probe::Battery },
            None => Measurement { on: On::Rest, probe: posts(Side::Service) },
        };
        let sound = [None, None];
        let states = self.states(&sound, what.on);
        (what, self.predict(&sound, &states, &what, &belief.meter).value)
    }
}
