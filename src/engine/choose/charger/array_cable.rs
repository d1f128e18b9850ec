//! Which cable and device go between panels and controller?
//!
//! The smallest device that full sun does not open, and the thinnest cable that carries it and loses little.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::judge::charger::array_cable::ArrayLimits;
use crate::engine::parts::array_cable::ArrayCable;
use crate::engine::physics::conductor::cable::Cable;

/// Of a plan; `None` where the way of the cable is not given.
pub(crate) fn array_cable(site: &Installation, notes: &mut Notes) -> Option<ArrayCable> {
    let limits = ArrayLimits::of(site)?;
    let device = site.solar.device.or_else(|| limits.device());
    let given = site.solar.cable_size.as_deref().and_then(|label| Cable::labelled(&site.catalogue, label));
    let pinned = given.is_some();
    let sizes: Vec<Cable> = site.catalogue.sizes(site.family()).map(Cable::of).collect();
    let first = |keeps: bool| sizes.iter().find(|c| limits.bears(c, device) && (!keeps || limits.keeps(c))).cloned();
    let cable = given.or_else(|| first(true)).or_else(|| first(false));
    let out = limits.with(cable.as_ref(), device);
    notes.add(Subject::Solar, "cable carries", || {
        let why = if pinned { "entered by you" } else { "the thinnest that carries its device and loses little" };
        Working::new("what the panels' cable carries", "", out.carries)
            .with("I", "short-circuit current of all strings", out.short)
            .with("T", "hottest air along it", out.air)
            .source("the smaller of table and heat balance, as of any cable")
            .note(format!("{}: {why}", out.size.as_deref().unwrap_or("no size")))
    });
    notes.add(Subject::Solar, "cable drop", || {
        Working::new("lost on the panels' cable at maximum power", "", out.drop)
            .with("l", "one way", out.length)
            .source("Ohm's law, the copper as hot as its insulation stands")
    });
    Some(out)
}
