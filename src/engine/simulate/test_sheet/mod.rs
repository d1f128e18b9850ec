//! What should the finished wiring measure, and which joint is bad if it does not?
//!
//! - Expected: `segment` (each run's resistance and its tolerance), `meter`,
//!   `flow` (currents with one thing on), `expected` (drops with their bands).
//! - Measured: `equation` (what each reading says), `hypothesis` (least
//!   squares: which bad joint explains them), `next` (the reading that would
//!   decide), `verdict` (in words).
//!
//! Left out: plus and minus wire apart (a run is taken out and back), loads
//! whose current changes while being read, three bad joints at once.

pub mod equation;
pub mod expected;
pub mod flow;
pub mod hypothesis;
pub mod meter;
pub mod next;
pub mod result;
pub mod segment;
pub mod verdict;
pub mod working;

use crate::engine::installation::Installation;
use crate::engine::installation::working::Notes;
use crate::engine::simulate::test_sheet::result::{ReadingState, TestSheet};
#[cfg(test)]
mod tests;

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::test_sheet::flow::Wiring;
use crate::engine::simulate::test_sheet::segment::Segment;
use crate::quantity::*;

/// Charge at which the expected voltages take the battery to be.
const CHARGED: Share = Share::new(0.8);
/// Posts of a 12 V battery of unknown chemistry at rest.
const AT_REST: Volts = Volts::new(12.6);

/// Work out the sheet of a plan whose runs are sized; runs without a size are left out.
pub fn test_sheet(site: &Installation, runs: &[RunDesign], charger: &ChargerDesign, notes: &mut Notes) -> TestSheet {
    let air = site.meter.air.unwrap_or(site.surroundings.mean);
    let of_branch = |run: usize| runs.iter().find(|r| r.run == run);
    let segments: Vec<Option<Segment>> = site
        .circuits
        .branches
        .iter()
        .map(|b| of_branch(b.run).and_then(|r| Segment::of(site, r, &b.far, air)))
        .collect();
    let resting = site.catalogue.chemistry(&site.service_battery.chemistry).and_then(|c| c.resting.least(CHARGED));
    let posts = (resting.unwrap_or(AT_REST), site.vehicle.alternator_voltage);
    let wiring = Wiring { site, segments: &segments, charger, air, posts };
    let meter = meter::meter(site, &site.catalogue.rules);
    let tests = expected::tests(&wiring, &meter);
    let (readings, equations) = equation::equations(&wiring, &meter);
    // Several loads at once name no run, but what they say stands beside the verdict of its side.
    let outside = |side| {
        // Of many sound readings some lie a little outside two standard errors; none lies outside four.
        let off = |r: &result::ReadingResult| {
            let far = r.drop.zip(r.expected).is_some_and(|(drop, band)| {
                let half = band.high - band.likely;
                drop > band.likely + half * 2.0
            });
            far && r.within == Some(false) && matches!(r.state, ReadingState::Used | ReadingState::Compared)
        };
        let of_side = |r: &result::ReadingResult| {
            let reading = site.readings.get(r.reading);
            reading.is_some_and(|r| {
                wiring.on(&r.with).ok().and_then(|on| wiring.flow(&on, r.current)).is_some_and(|f| f.side == side)
            })
        };
        readings.iter().any(|r| off(r) && of_side(r))
    };
    let verdict = |side| verdict::verdict(&wiring, &meter, &tests, (&equations, outside(side)), side);
    let (service, feed) = (verdict(Side::Service), verdict(Side::Feed));
    let sheet = TestSheet {
        air,
        meter,
        runs: expected::runs(&wiring, &meter, &tests),
        service,
        feed,
        readings,
        tests: tests.into_iter().map(|(test, _)| test).collect(),
    };
    working::record(&site.catalogue.rules, &sheet, notes);
    sheet
}
