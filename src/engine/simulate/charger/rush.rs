//! A relay limits nothing: what may it pass, and do battery and alternator bear it?
//!
//! Cables and fuses are sized before the resistance of the feed is known, so for
//! them the battery at the planned depth stands alone against the alternator's
//! voltage: new, warm and without any feed, which is more than ever flows. The
//! alternator's whole rating is the limit, since a cold one gives it and the
//! vehicle's own draw may be off. Once the feed is sized, its resistance counts
//! in what the battery gets. Left out: the cable from relay to service battery,
//! and how soon the rush ends.

use crate::catalogue::{Chemical, Chemistry};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::cell::store::{Age, Store};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

/// What lead-acid bears for the minutes of a rush, in multiples of its capacity: that it bears a rush is common
/// practice, no source; the figure is our own border.
const SHORT_RUSH_C: f64 = 1.0;

/// The alternator against the battery at the planned depth.
struct Rush {
    /// Alternator above the resting battery.
    drive: Volts,
    /// Inside the battery.
    inside: Ohms,
    /// A cold alternator gives its rating.
    most: Amps,
}

impl Rush {
    fn of(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, air: Celsius) -> Self {
        let low = Share::FULL - planned_depth(site, chemistry);
        let store = Store::new(chemistry, capacity, site.service_battery.resistance_mohm);
        Rush {
            drive: (site.vehicle.alternator_voltage - store.resting(low, air)).max(Volts::ZERO),
            inside: store.resistance(low, air, Age::New),
            most: site.vehicle.alternator_rating,
        }
    }

    /// What the voltage drives through this feed, whatever the alternator gives.
    fn asks(&self, feed: Ohms) -> Option<Amps> {
        let through = self.inside + feed;
        (through.get() > 0.0).then(|| self.drive / through)
    }

    fn passes(&self, feed: Ohms) -> Amps {
        self.asks(feed).map_or(self.most, |asks| asks.min(self.most))
    }
}

/// Current to size a relay's cables and fuses for.
pub(crate) fn design_current(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, book: &mut Book) -> Amps {
    let rush = Rush::of(site, chemistry, capacity, site.surroundings.hottest);
    let given = site.charger.current.unwrap_or(Amps::ZERO);
    let current = rush.passes(Ohms::ZERO).max(given);
    let formula = if rush.inside.get() > 0.0 { "max(G, min(U / R, A))" } else { "max(G, A)" };
    book.work(
        Subject::Charger,
        "current",
        Working::new("most that the relay may pass", formula, current)
            .with("G", "given", given)
            .with("U", "alternator's voltage above the battery at the planned depth", rush.drive)
            .with("R", "inside the battery, new, at the hottest air", rush.inside)
            .with("A", "alternator's rating, which it gives cold", rush.most)
            .source(format!("Ohm's law; {}", chemistry.resistance.words(site.service_battery.resistance_mohm, false)))
            .note("no resistance of the feed is counted: more than ever flows, on the safe side for cables and fuses"),
    );
    current
}

/// What flows at first once the feed is sized; says when battery or alternator do not bear it.
pub(crate) fn first_current(
    site: &Installation,
    chemistry: &Chemistry,
    design: &ChargerDesign,
    feed: Ohms,
    book: &mut Book,
) -> Amps {
    let rush = Rush::of(site, chemistry, design.capacity, site.surroundings.mean);
    // The engine runs, so the vehicle's own draw comes off what the alternator gives.
    let most = (rush.most - site.vehicle.own_draw).max(Amps::ZERO);
    let first = rush.asks(feed).map_or(most, |asks| asks.min(most));
    let formula = if (rush.inside + feed).get() > 0.0 { "min(U / (R + F), A)" } else { "A" };
    book.work(
        Subject::Charger,
        "input current",
        Working::new("current through the relay at first", formula, first)
            .with("U", "alternator's voltage above the battery at the planned depth", rush.drive)
            .with("R", "inside the battery, new, at the mean air", rush.inside)
            .with("F", "resistance of the feed, out and back", feed)
            .with("A", "alternator's rating, which it gives cold, less the vehicle's own draw", most)
            .source(format!("Ohm's law; {}", chemistry.resistance.words(site.service_battery.resistance_mohm, false))),
    );
    fast(chemistry, design, first, book);
    if let Some(asks) = rush.asks(feed) {
        alternator(site, design, asks, book);
    }
    first
}

fn to_charger(finding: Finding, words: String) -> Finding {
    finding.remedy_edit(words, Place::of(Section::Charger, "kind"), Some(Value::Text("dc-dc".into())))
}

fn fast(chemistry: &Chemistry, design: &ChargerDesign, first: Amps, book: &mut Book) {
    let most = Amps::new(chemistry.charge.max_c * design.capacity.get());
    if first.get() <= most.get() + 1e-9 {
        return;
    }
    let text = format!(
        "a relay limits nothing: at the planned depth {first} flow at first, {:.1} C; this battery of {} takes {most} for hours",
        first.get() / design.capacity.get().max(0.1),
        design.capacity
    );
    // Lead-acid ends its rush by its own rising voltage within minutes; what it cannot bear is a multiple of it.
    let bears = chemistry.chemical == Chemical::LeadAcid && first.get() <= SHORT_RUSH_C * design.capacity.get();
    let severity = if bears { Severity::Caution } else { Severity::Stop };
    let finding = Finding::new(Kind::ChargerFast, Subject::Charger, text)
        .as_severity(severity)
        .rule(format!(
            "highest charge rate {} C: {}; a rush of minutes into lead-acid is common practice, no source, and {SHORT_RUSH_C} C our own border for it",
            chemistry.charge.max_c,
            chemistry.charge.from.max_c.words()
        ))
        .at(Place::of(Section::Charger, "kind"));
    let finding = to_charger(finding, format!("a DC-DC charger of {most} or less keeps within it"));
    book.find(finding);
}

fn alternator(site: &Installation, design: &ChargerDesign, asks: Amps, book: &mut Book) {
    let spare = design.spare_road.max(Amps::ZERO);
    if asks.get() <= spare.get() + 1e-9 {
        return;
    }
    let text = format!(
        "at first the relay asks {asks} of an alternator of {} that has {spare} to spare hot on the road: it works at its limit",
        site.vehicle.alternator_rating
    );
    let finding = Finding::new(Kind::AlternatorShort, Subject::Alternator, text)
        .as_severity(Severity::Note)
        .rule("hot output less the vehicle's own draw; its voltage falls until the battery takes less")
        .at(Place::of(Section::Vehicle, "alternator_a"));
    book.find(
        finding.remedy(format!("a DC-DC charger takes no more than it is set to; {spare} are the most it may ask")),
    );
}
