//! The input current, with the drop of the cable that feeds it.

use crate::engine::installation::Installation;
use crate::engine::installation::alternator::lowest_driving_voltage;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::charger::{relay, rush};
use crate::plan::{ChargerKind, Place, Section};
use crate::quantity::*;

/// Input current of a converter: I = V_out I_out / (e V_in).
pub fn input_current(output: Volts, current: Amps, efficiency: Share, input: Volts) -> Amps {
    let power = output * current / efficiency.get().max(0.01);
    if input.get() > 0.0 { power / input } else { Amps::ZERO }
}

/// Input current and voltage of a constant-power device behind a resistance,
/// from I (V - I R) = P: I = (V - sqrt(V² - 4 R P)) / (2 R). `None` when the
/// cable cannot feed it at all.
pub fn input_with_feed(source: Volts, resistance: Ohms, power: Watts) -> Option<(Amps, Volts)> {
    if source.get() <= 0.0 {
        return None;
    }
    let (v, r, p) = (source.get(), resistance.get().max(0.0), power.get().max(0.0));
    let inside = v * v - 4.0 * r * p;
    // The form with the root in the denominator does not lose digits when R is small.
    (inside >= 0.0).then(|| {
        let amps = Amps::new(2.0 * p / (v + inside.sqrt()));
        (amps, source - amps * resistance)
    })
}

/// Solve the worst-case input current with the feed's resistance, lowest
/// `source` voltage at the starter battery, and compare a plain relay.
pub fn charger_feed(
    design: &mut ChargerDesign,
    site: &Installation,
    feed_resistance: Ohms,
    source: Volts,
    book: &mut Book,
) {
    design.feed = feed_resistance;
    relay::compare(design, site, feed_resistance, book);
    let Some(current) = design.current else { return };
    if site.charger.kind == ChargerKind::Relay {
        let Some(chemistry) = site.chemistry() else { return };
        let given = site.charger.current.unwrap_or(Amps::ZERO);
        design.input = rush::first_current(site, chemistry, design, feed_resistance, book).max(given);
        design.input_voltage = source - design.input * feed_resistance;
        record_relay(design, design.input, feed_resistance, source, book);
        return;
    }
    let power = design.output_highest * current / site.charger.efficiency.get().max(0.01);
    let Some((input, voltage)) = input_with_feed(source, feed_resistance, power) else {
        collapse(site, design, feed_resistance, source, power, book);
        return;
    };
    design.input = input;
    design.input_voltage = voltage;
    book.work(
        Subject::Charger,
        "input current",
        Working::new("worst-case input current", "2 * P / (V + sqrt(V^2 - 4 * R * P))", input)
            .with("P", "input power: highest charge voltage x current / efficiency", power)
            .with("V", "lowest voltage at the starter battery while driving", source)
            .with("R", "resistance of the feed, out and back", feed_resistance)
            .source("power balance I (V - I R) = P solved for I"),
    );
    book.work(
        Subject::Charger,
        "input voltage",
        Working::new("voltage at the charger's input then", "V - I * R", voltage)
            .with("V", "lowest voltage at the starter battery while driving", source)
            .with_from("I", "worst-case input current", input, Subject::Charger, "input current")
            .with("R", "resistance of the feed, out and back", feed_resistance)
            .source("Ohm's law"),
    );
    if voltage.get() < design.lowest_input.get() {
        low(site, design, feed_resistance, source, current, book);
    }
}

fn record_relay(design: &ChargerDesign, current: Amps, resistance: Ohms, source: Volts, book: &mut Book) {
    book.work(
        Subject::Charger,
        "input voltage",
        Working::new("voltage behind the feed", "V - I * R", design.input_voltage)
            .with("V", "lowest voltage at the starter battery while driving", source)
            .with("I", "charge current", current)
            .with("R", "resistance of the feed, out and back", resistance)
            .source("Ohm's law"),
    );
}

/// Largest output whose input stays at `least` volts behind the feed.
fn most_output(design: &ChargerDesign, site: &Installation, resistance: Ohms, source: Volts, least: Volts) -> Amps {
    let spare = (source - least).max(Volts::ZERO);
    if resistance.get() <= 0.0 || design.output_highest.get() <= 0.0 {
        return Amps::ZERO;
    }
    least * (spare / resistance) * site.charger.efficiency.get() / design.output_highest
}

fn collapse(site: &Installation, d: &ChargerDesign, resistance: Ohms, source: Volts, power: Watts, book: &mut Book) {
    let most = source / resistance * source / 4.0;
    let output = most_output(d, site, resistance, source, source / 2.0);
    let text = format!("the charger asks {power} of a feed of {resistance} at {source}, which can pass {most} at most");
    let finding = Finding::new(Kind::Collapse, Subject::Charger, text)
        .rule("power through a resistance is at most V² / 4R")
        .at(Place::of(Section::Charger, "current_a"))
        .remedy(format!(
            "halve the feed's resistance to {} or less with a larger cable",
            Ohms::new(resistance.get() / 2.0)
        ));
    book.find(reduced(finding, output));
}

fn low(site: &Installation, d: &ChargerDesign, resistance: Ohms, source: Volts, current: Amps, book: &mut Book) {
    let least = d.lowest_input;
    let spare = source - least;
    let text = format!(
        "at {source} on the starter battery the charger's input falls to {}, under the {least} it works with",
        d.input_voltage
    );
    let from_catalogue = site.charger.lowest_input.is_none();
    let rule = if from_catalogue {
        format!("lowest input voltage: {}", site.catalogue.rules.charger_input_low.from.words())
    } else {
        "lowest input voltage as given in the plan".into()
    };
    let mut finding = Finding::new(Kind::ChargerInputLow, Subject::Charger, text)
        .rule(rule)
        .at(Place::of(Section::Charger, "lowest_input_v"));
    if spare.get() > 0.0 {
        let input = input_current(d.output_highest, current, site.charger.efficiency, least);
        finding = finding.remedy(format!("a feed of {} or less keeps its input above {least}", spare / input));
    } else {
        let lowest = lowest_driving_voltage(site);
        finding = finding.remedy(format!("no cable helps: choose a charger that works below {lowest}"));
    }
    book.find(reduced(finding, most_output(d, site, resistance, source, least)));
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
