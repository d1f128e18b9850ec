//! Does the feed bring the charger what it needs, and do battery and alternator bear what a relay passes?

use crate::catalogue::{Chemical, Chemistry};
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::lowest_driving_voltage;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::charger::feed::{input_current, input_power, input_with_feed};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::charger::rush::Rush;
use crate::plan::{ChargerKind, Place, Section, Value};
use crate::quantity::*;

/// What lead-acid bears for the minutes of a rush, in multiples of its capacity: that it bears a rush is common
/// practice, no source; the figure is our own border.
const SHORT_RUSH_C: f64 = 2.0;

/// Once the cables of the feed are sized.
pub(crate) fn check(site: &Installation, design: &ChargerDesign) -> Vec<Finding> {
    let Some((current, chemistry)) = design.current.zip(site.chemistry()) else { return Vec::new() };
    if site.charger.kind == ChargerKind::Relay {
        let rush = Rush::once_fed(site, chemistry, design.capacity);
        let found =
            [fast(chemistry, design, rush.first(design.feed)), alternator(site, design, rush.asks(design.feed))];
        return found.into_iter().flatten().collect();
    }
    let (source, power) = (lowest_driving_voltage(site), input_power(site, design, current));
    if input_with_feed(source, design.feed, power).is_none() {
        vec![collapse(site, design, source, power, current)]
    } else if design.input_voltage < design.lowest_input {
        vec![low(site, design, source, current)]
    } else {
        Vec::new()
    }
}

/// Largest output whose input stays at `least` volts behind the feed.
fn most_output(design: &ChargerDesign, site: &Installation, source: Volts, least: Volts) -> Amps {
    let spare = (source - least).max(Volts::ZERO);
    if design.feed.get() <= 0.0 || design.output_highest.get() <= 0.0 {
        return Amps::ZERO;
    }
    least * (spare / design.feed) * site.charger.efficiency.get() / design.output_highest
}

fn collapse(site: &Installation, design: &ChargerDesign, source: Volts, power: Watts, current: Amps) -> Finding {
    let feed = design.feed;
    let most = source / feed * source / 4.0;
    let text = format!("the charger asks {power} of a feed of {feed} at {source}, which can pass {most} at most");
    let finding = Finding::new(Kind::Collapse, Subject::Charger, text)
        .rule("power through a resistance is at most V² / 4R")
        .at(Place::of(Section::Charger, "current_a"))
        .remedy(better_feed(site, design, source, current));
    reduced(finding, most_output(design, site, source, design.lowest_input))
}

/// The feed with which it gets what it works with.
fn better_feed(site: &Installation, design: &ChargerDesign, source: Volts, current: Amps) -> String {
    let least = design.lowest_input;
    let spare = source - least;
    if spare.get() <= 0.0 {
        return format!("no cable helps: choose a charger that works below {source}");
    }
    let input = input_current(design.output_highest, current, site.charger.efficiency, least).value;
    format!("a feed of {} or less keeps its input above {least}", spare / input)
}

fn low(site: &Installation, design: &ChargerDesign, source: Volts, current: Amps) -> Finding {
    let least = design.lowest_input;
    let text = format!(
        "at {source} on the starter battery the charger's input falls to {}, under the {least} it works with",
        design.input_voltage
    );
    let rule = match site.charger.lowest_input {
        None => format!("lowest input voltage: {}", site.catalogue.rules.charger_input_low.from.words()),
        Some(_) => "lowest input voltage as given in the plan".into(),
    };
    let finding = Finding::new(Kind::ChargerInputLow, Subject::Charger, text)
        .rule(rule)
        .at(Place::of(Section::Charger, "lowest_input_v"))
        .remedy(better_feed(site, design, source, current));
    reduced(finding, most_output(design, site, source, least))
}

fn reduced(finding: Finding, output: Amps) -> Finding {
    let output = (output.get() * 2.0).floor() / 2.0;
    if output >= 0.5 {
        let words = format!("or reduce its output to {}", Amps::new(output));
        finding.remedy_number(words, Place::of(Section::Charger, "current_a"), output)
    } else {
        finding
    }
}

fn fast(chemistry: &Chemistry, design: &ChargerDesign, first: Amps) -> Option<Finding> {
    let most = Amps::new(chemistry.charge.max_c * design.capacity.get());
    if first.get() <= most.get() + 1e-9 {
        return None;
    }
    let text = format!(
        "a relay limits nothing: at the planned depth {first} flow at first, {:.1} C; this battery of {} takes {most} for hours",
        first.get() / design.capacity.get().max(0.1),
        design.capacity
    );
    // Lead-acid ends its rush by its own rising voltage within minutes; what it cannot bear is a multiple of it.
    let bears = chemistry.chemical == Chemical::LeadAcid && first.get() <= SHORT_RUSH_C * design.capacity.get();
    let kind = Place::of(Section::Charger, "kind");
    Some(
        Finding::new(Kind::ChargerFast, Subject::Charger, text)
            .as_severity(if bears { Severity::Caution } else { Severity::Stop })
            .rule(format!(
                "highest charge rate {} C: {}; a rush of minutes into lead-acid is common practice, no source, and {SHORT_RUSH_C} C our own border for it",
                chemistry.charge.max_c,
                chemistry.charge.from.max_c.words()
            ))
            .at(kind)
            .remedy_edit(
                format!("a DC-DC charger of {most} or less keeps within it"),
                kind,
                Some(Value::Text("dc-dc".into())),
            ),
    )
}

fn alternator(site: &Installation, design: &ChargerDesign, asks: Amps) -> Option<Finding> {
    let spare = design.spare_road.max(Amps::ZERO);
    if asks.get() <= spare.get() + 1e-9 {
        return None;
    }
    let text = format!(
        "at first the relay asks {asks} of an alternator of {} that has {spare} to spare hot on the road: it works at its limit",
        site.vehicle.alternator_rating
    );
    Some(
        Finding::new(Kind::AlternatorShort, Subject::Alternator, text)
            .as_severity(Severity::Note)
            .rule("hot output less the vehicle's own draw; its voltage falls until the battery takes less")
            .at(Place::of(Section::Vehicle, "alternator_a"))
            .remedy(format!("a DC-DC charger takes no more than it is set to; {spare} are the most it may ask")),
    )
}
