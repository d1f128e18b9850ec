//! Which resistance should a run have when it is sound, and how sure is that?
//!
//! Copper at the air of the test with the tolerance of cable and length,
//! fuse-links, and joints, switches and chassis, each with its own tolerance.

use crate::catalogue::Catalogue;
use crate::engine::installation::Installation;
use crate::engine::installation::run::ways;
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::copper::{INFERRED_ZERO, REFERENCE, warmed};
use crate::engine::simulate::circuit::result::{FuseDesign, RunDesign};
use crate::engine::simulate::test_sheet::meter::BOUND;
use crate::engine::simulate::test_sheet::result::Band;
use crate::quantity::*;

/// One run of known size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Segment {
    /// Index of the run in the plan.
    pub run: usize,
    /// Copper out and back at 20 °C, in the middle of its tolerance.
    pub copper: Ohms,
    /// Joints, fuse-links, switches, chassis.
    pub fixed: Ohms,
    /// Both at the air of the test.
    pub likely: Ohms,
    /// Standard error of `likely`.
    pub error: Ohms,
    /// Largest steady current of the run.
    pub full: Amps,
    /// Largest test current that its fuse and cable stand for as long as it takes.
    pub most: Amps,
}

impl Segment {
    /// `None` for a run without a size; `far` is its end away from the battery.
    pub(crate) fn of(site: &Installation, design: &RunDesign, far: &str, air: Celsius) -> Option<Self> {
        let (run, size) = (site.runs.get(design.run)?, design.size.as_ref()?);
        let published = Cable::labelled(&site.catalogue, &size.label)?.conductor.resistance * (run.length * ways(run));
        let joints = site.besides_copper(run, far, size.area);
        let links: Ohms = design.fuses.iter().filter_map(|f| link(&site.catalogue, f)).sum();
        let rules = &site.catalogue.rules;
        let (below, above) = (rules.copper_below.value.get(), rules.copper_above.value.get());
        let copper = published * (1.0 + (above - below) / 2.0);
        let here = warmed(copper, air);
        let bounds = [
            here * ((below + above) / 2.0),
            copper * (rules.test_spread.value.get() / (REFERENCE - INFERRED_ZERO).get()),
            links * rules.link_scatter.value.get(),
            joints * rules.joint_scatter.value.get(),
        ];
        let ratings = design.fuses.iter().filter_map(|f| f.rating).map(|rating| rating * 0.8);
        let most = ratings.fold(size.for_ever(), Amps::min);
        Some(Segment {
            run: design.run,
            copper,
            fixed: joints + links,
            likely: here + joints + links,
            error: Ohms::new(bounds.iter().map(|b| b.get().powi(2)).sum::<f64>().sqrt() / BOUND),
            full: design.current,
            most: if most > Amps::ZERO { most } else { design.current },
        })
    }

    /// The bounds of a sound run: two standard errors.
    pub(crate) fn band(&self) -> Band<Ohms> {
        Band {
            low: (self.likely - self.error * 2.0).max(Ohms::ZERO),
            likely: self.likely,
            high: self.likely + self.error * 2.0,
        }
    }
}

fn link(catalogue: &Catalogue, fuse: &FuseDesign) -> Option<Ohms> {
    Some(catalogue.fuse_style(&fuse.style)?.warm_resistance(fuse.rating?))
}
