//! What is given about a run besides its size: how it lies, what stands in its way, the house rules for it.

use crate::catalogue::{Air, Family, Insulation};
use crate::engine::installation::Installation;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::joint::Joints;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::{ReturnPath, Run, point};
use crate::quantity::*;
use crate::reckon;

/// Source of what the plan gives.
const GIVEN: &str = "entered by you";

/// Conductors of a run: 2 with one back, 1 where the body is the way back.
pub fn ways(run: &Run) -> f64 {
    if run.return_path == ReturnPath::Cable { 2.0 } else { 1.0 }
}

impl Installation {
    /// Insulation class of a run; `None` when the catalogue has no class at all.
    ///
    /// A key the catalogue does not know falls back to the class with the
    /// lowest temperature: the plan's reader has reported it already.
    pub fn insulation_of(&self, run: &Run) -> Option<&Insulation> {
        let coolest = || self.catalogue.insulations.iter().min_by(|a, b| a.max.get().total_cmp(&b.max.get()));
        self.catalogue.insulation(&run.insulation).or_else(coolest)
    }

    /// Which conductor sizes there are to choose from.
    pub fn family(&self) -> Family {
        self.rules.sizes.family()
    }

    /// How a run lies; `None` when the catalogue has no insulation class at all.
    pub fn laid(&self, run: &Run) -> Option<Laid<'_>> {
        let insulation = self.insulation_of(run)?;
        let (place, air) = (self.catalogue.place(&run.surroundings), self.air_along(run).value);
        Some(Laid { insulation, place, air, conductors: ways(run) as u32 + 2 * run.bundled_with })
    }

    /// Hottest air along a run: as given, or that of the place where it lies.
    pub fn air_along(&self, run: &Run) -> Reckoned<Celsius, 2> {
        let place = self.catalogue.place(&run.surroundings);
        let around = match place.map(|p| p.air) {
            Some(Air::EngineBay) => self.surroundings.engine_bay,
            _ => self.surroundings.hottest,
        };
        let warmer = place.map_or(Kelvins::ZERO, |p| p.warmer).get();
        let (around, warmer) = run.air.map_or((around, warmer), |given| (given, 0.0));
        reckon!(Celsius: A + w,
            A: "air around it" = around,
            w: "the place is warmer by" = Kelvins::new(warmer))
    }

    /// The lugs of a run.
    pub fn joints(&self, run: &Run) -> Joints {
        let rules = &self.catalogue.rules;
        Joints {
            count: run.joints,
            whole: Ohms::from(rules.joint.value),
            up_to: rules.joint_whole.value,
            least: Ohms::from(rules.joint_least.value),
        }
    }

    /// The cut-off's contact counts with the run that leads to it, and so does a plug, with a contact each way.
    pub fn contact(&self, far: &str) -> Ohms {
        let plug = self.plugs.iter().find(|p| p.name == far);
        if let Some(kind) = plug.and_then(|p| self.catalogue.workshop.plug(&p.kind)) {
            Ohms::from(kind.contact) * 2.0
        } else if far == point::CUT_OFF {
            Ohms::from(self.catalogue.rules.switch.value)
        } else {
            Ohms::ZERO
        }
    }

    /// The body as way back of a run.
    pub fn body(&self, run: &Run) -> Ohms {
        if run.return_path == ReturnPath::Chassis { self.vehicle.chassis_mohm.into() } else { Ohms::ZERO }
    }

    /// What a run to `far` has besides copper, joints and fuse-link: switches, the cut-off's contact, the body.
    pub fn switches(&self, run: &Run, far: &str) -> Reckoned<Ohms, 3> {
        reckon!(Ohms: c + s / 1000.0 + b,
            c: "contact of the cut-off or the plug at its far end" = self.contact(far),
            s: "switches" = run.switch_mohm,
            b: "the body as way back" = self.body(run))
    }

    /// The same with the joints of its size.
    pub fn besides_copper(&self, run: &Run, far: &str, area: SquareMillimetres) -> Ohms {
        self.joints(run).of(area).value + self.switches(run, far).value
    }

    /// Largest steady current as a share of a fuse's rating: the plan's or the catalogue's.
    pub fn fuse_loading(&self) -> Share {
        self.rules.fuse_loading.unwrap_or(self.catalogue.rules.fuse_loading.value)
    }

    /// Smallest copper wanted: the plan's or the catalogue's.
    pub fn smallest_size(&self) -> SquareMillimetres {
        self.rules.smallest.unwrap_or(self.catalogue.rules.smallest.value)
    }

    /// Where [`Installation::fuse_loading`] comes from.
    pub fn fuse_loading_source(&self) -> String {
        self.rules.fuse_loading.map_or_else(|| self.catalogue.rules.fuse_loading.from.words(), |_| GIVEN.into())
    }

    /// Where [`Installation::smallest_size`] comes from.
    pub fn smallest_source(&self) -> String {
        self.rules.smallest.map_or_else(|| self.catalogue.rules.smallest.from.words(), |_| GIVEN.into())
    }

    /// Most that a drop class may lose as a share of its side's nominal voltage, and its source.
    pub fn drop_class(&self, key: &str) -> (Share, String) {
        let own = match key {
            "critical" => self.rules.drop_critical,
            "ordinary" => self.rules.drop_ordinary,
            "tolerant" => self.rules.drop_tolerant,
            _ => None,
        };
        let rules = &self.catalogue.rules;
        match (own, rules.class(key).or_else(|| rules.drop_class.first())) {
            (Some(limit), _) => (limit, GIVEN.into()),
            (None, Some(row)) => (row.limit, row.from.limit.words()),
            (None, None) => (Share::percent(3.0), "no loss allowed in the catalogue; the strictest usual one".into()),
        }
    }
}
