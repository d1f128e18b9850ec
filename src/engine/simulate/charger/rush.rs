//! A relay limits nothing: what may it pass?
//!
//! Cables and fuses are sized before the resistance of the feed is known, so for
//! them the battery at the planned depth stands alone against the alternator's
//! voltage: new, warm and without any feed, which is more than ever flows. The
//! alternator's whole rating is the limit, since a cold one gives it and the
//! vehicle's own draw may be off. That is a rush of minutes: cables and fuses take
//! it as a start, and for hours what the battery takes then. Once the feed is sized, its resistance counts
//! in what the battery gets. Left out: the cable from relay to service battery,
//! and how soon the rush ends.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::physics::cell::store::{Age, Store};
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// How long the rush lasts: lead-acid ends it by its own rising voltage within minutes (common practice, no source).
pub const LASTS: Seconds = Seconds::new(300.0);

/// The alternator against the battery at the planned depth.
pub(crate) struct Rush {
    /// Alternator above the resting battery.
    drive: Volts,
    /// Inside the battery.
    inside: Ohms,
    /// A cold alternator gives its rating.
    most: Amps,
    /// What the plan says that it passes at least.
    given: Amps,
    /// Where the battery's resistance comes from.
    source: String,
}

impl Rush {
    fn at(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, air: Celsius) -> Self {
        let low = Share::FULL - planned_depth(site, chemistry);
        let measured = site.service_battery.resistance_mohm;
        let store = Store::new(chemistry, capacity, measured);
        Rush {
            drive: (site.vehicle.alternator_voltage - store.resting(low, air)).max(Volts::ZERO),
            inside: store.resistance(low, air, Age::New),
            most: site.vehicle.alternator_rating,
            given: site.charger.current.unwrap_or(Amps::ZERO),
            source: format!("Ohm's law; {}", chemistry.resistance.words(measured, false)),
        }
    }

    /// Once the feed is sized, on a usual day. The engine runs, so the vehicle's own draw comes off.
    pub fn once_fed(site: &Installation, chemistry: &Chemistry, capacity: AmpHours) -> Self {
        let rush = Rush::at(site, chemistry, capacity, site.surroundings.mean);
        Rush { most: (rush.most - site.vehicle.own_draw).max(Amps::ZERO), ..rush }
    }

    /// What the voltage drives through this feed, whatever the alternator gives.
    pub fn asks(&self, feed: Ohms) -> Amps {
        self.drive / (self.inside + feed)
    }

    /// What flows at first.
    pub fn first(&self, feed: Ohms) -> Amps {
        self.asks(feed).min(self.most)
    }

    fn passes(&self, feed: Ohms) -> Reckoned<Amps, 5> {
        reckon!(Amps: max(G, min(U / (R + F), A)),
            G: "given" = self.given,
            U: "alternator's voltage above the battery at the planned depth" = self.drive,
            R: "inside the battery, new" = self.inside,
            F: "resistance of the feed, out and back" = feed,
            A: "what the alternator gives at most, cold" = self.most)
    }

    /// What flows at first once the feed is sized, with its working.
    pub fn first_current(&self, feed: Ohms, notes: &mut Notes) -> Amps {
        notes.reckon(&Subject::Charger, "input current", self.passes(feed), |r| {
            r.working("current through the relay at first")
                .source(self.source.clone())
                .note("at the mean air; the vehicle's own draw is taken off what the alternator gives")
        })
    }
}

/// The most that a relay may pass for the minutes of its rush, and what its cables carry for hours: no more than the
/// battery takes then, or than the plan says.
pub(crate) fn design_currents(
    site: &Installation,
    chemistry: &Chemistry,
    capacity: AmpHours,
    notes: &mut Notes,
) -> (Amps, Amps) {
    let found = Rush::at(site, chemistry, capacity, site.surroundings.hottest);
    let rush = notes.reckon(&Subject::Charger, "rush", found.passes(Ohms::ZERO), |r| {
        r.working("most that the relay may pass at first")
            .source(found.source.clone())
            .note(
                "at the hottest air, and no resistance of the feed is counted: more than ever flows, on the safe side \
                 for cables and fuses",
            )
            .note(format!("counted for {LASTS}, as a start (common practice, no source)"))
    });
    let current = reckon!(Amps: min(rush, max(G, c * C)),
        rush: "most that the relay may pass at first" = rush,
        G: "given" = found.given,
        c: "highest charge rate for hours, times the capacity" = Figure::number(chemistry.charge.max_c),
        C: "capacity of the bank" = capacity);
    let current = notes.reckon(&Subject::Charger, "current", current, |r| {
        r.working("what the relay passes for hours, at the most")
            .from("rush", Subject::Charger, "rush")
            .source(chemistry.charge.from.max_c.words())
    });
    (rush, current)
}
