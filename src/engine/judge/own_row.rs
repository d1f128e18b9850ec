//! Does a row of the catalogue say what no battery, cable, fuse or charger can be?
//!
//! A slip with a unit or a decimal point in a row of one's own moves every plan that uses it. Such a row is taken, and
//! told as a caution: the sheet may be right where these bounds, which are wide, are not.

use crate::catalogue::{BoughtCharger, Catalogue, Chemical, Chemistry, Conductor, FuseStyle, How, OwnKind};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{Place, Section};
use crate::quantity::*;
use std::collections::BTreeSet;

/// What a row says that can hardly be.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// One sentence with the numbers, without a full stop.
    pub text: String,
    /// What it is held against, and its source.
    pub rule: String,
}

/// A battery with less than this share of the least resistance that is known of its family is doubted; one with more
/// than this many times the most, too.
const FAR_OFF: f64 = 2.0;
/// Most that lead-acid stores, in Wh/kg; plates that held all of their sulphate would store 167.
const LEAD_WH_PER_KG: f64 = 60.0;
/// Most that cells with lithium or sodium store.
const LITHIUM_WH_PER_KG: f64 = 300.0;
/// Charge voltages of a cell.
const LEAD_CELL: (f64, f64) = (2.2, 2.7);
const LITHIUM_CELL: (f64, f64) = (3.3, 4.4);
/// Most heat that a fuse-link and its holder bear.
const LINK_HEAT: Watts = Watts::new(100.0);
/// Most that a charger's input gets.
const INPUT: Volts = Volts::new(15.0);
/// Copper may conduct a little better than its standard.
const BEST_COPPER: f64 = 1.03;
/// Still air that a maker's figure is held against.
const AIR: Celsius = Celsius::new(30.0);

/// What the row with this key says that can hardly be.
pub fn doubts(catalogue: &Catalogue, kind: OwnKind, key: &str) -> Vec<Doubt> {
    match kind {
        OwnKind::Battery => catalogue.chemistry(key).map(|c| battery(catalogue, c)),
        OwnKind::Fuse => catalogue.fuse_style(key).map(fuse),
        OwnKind::Cable => catalogue.conductor(key).map(|c| cable(catalogue, c)),
        OwnKind::Charger => catalogue.chargers.iter().find(|c| c.key == key).map(charger),
    }
    .unwrap_or_default()
}

fn doubt(text: String, rule: impl Into<String>) -> Doubt {
    Doubt { text, rule: rule.into() }
}

fn battery(catalogue: &Catalogue, row: &Chemistry) -> Vec<Doubt> {
    let capacity = row.blocks.sizes.first().copied().unwrap_or(AmpHours::new(100.0));
    let own = |of_100: f64| Milliohms::new(of_100 * 100.0 / capacity.get().max(1e-3));
    let family = || catalogue.chemistries.iter().filter(|c| c.chemical == row.chemical);
    let known = || family().filter(|c| c.resistance.from.fault_mohm.how != How::User);
    let name = &row.name;
    let mut found = Vec::new();
    let least = known().min_by(|a, b| a.resistance.fault_mohm.total_cmp(&b.resistance.fault_mohm));
    if let Some(least) = least.filter(|c| row.resistance.fault_mohm * FAR_OFF < c.resistance.fault_mohm) {
        let (given, usual) = (own(row.resistance.fault_mohm), own(least.resistance.fault_mohm));
        let shorted = row.nominal / Ohms::new(given.get() / 1000.0);
        let text = format!(
            "{name} is said to have {given} at {capacity}, and the least known of its family has {usual}: shorted it \
             would give {shorted}"
        );
        found.push(doubt(text, least.resistance.from.fault_mohm.words()));
    }
    let most = known().max_by(|a, b| a.resistance.working_mohm.total_cmp(&b.resistance.working_mohm));
    if let Some(most) = most.filter(|c| row.resistance.working_mohm > FAR_OFF * 5.0 * c.resistance.working_mohm) {
        let (given, usual) = (own(row.resistance.working_mohm), own(most.resistance.working_mohm));
        let text = format!("{name} is said to have {given} at {capacity}, where {usual} are usual");
        found.push(doubt(text, most.resistance.from.working_mohm.words()));
    }
    let lead = row.chemical == Chemical::LeadAcid;
    let dense = row.nominal.get() * 100.0 / row.blocks.mass_100ah.get().max(1e-3);
    let limit = if lead { LEAD_WH_PER_KG } else { LITHIUM_WH_PER_KG };
    if dense > limit {
        let mass = row.blocks.mass_100ah * (capacity.get() / 100.0);
        let text =
            format!("{name} is said to weigh {mass} at {capacity}: {dense:.0} Wh/kg, where {limit:.0} are the most");
        found.push(doubt(text, "what such cells store (from memory)"));
    }
    let cell = row.charge.absorption / f64::from(row.cells.max(1));
    let (low, high) = if lead { LEAD_CELL } else { LITHIUM_CELL };
    if !(low..=high).contains(&cell.get()) {
        let (volts, low, high) = (row.charge.absorption, Volts::new(low), Volts::new(high));
        let text =
            format!("{name} is said to be charged with {volts}: {cell} a cell, where {low} to {high} are possible");
        found.push(doubt(text, "charge voltages of such cells (from memory)"));
    }
    found
}

fn cable(catalogue: &Catalogue, row: &Conductor) -> Vec<Doubt> {
    let (name, copper) = (&row.label, row.copper());
    let mut found = Vec::new();
    if copper.get() > BEST_COPPER * row.area.get() {
        let text = format!("{name} is said to have {} as {}: no copper conducts so well", row.resistance, row.area);
        found.push(doubt(text, "17.241 Ω mm²/km at 20 °C: NBS Handbook 100"));
    }
    let solid = 2.0 * (row.area.get() / std::f64::consts::PI).sqrt();
    if row.outside.get() <= solid {
        let (outside, solid) = (row.outside, Millimetres::new(solid));
        found.push(doubt(
            format!("{name} is said to be {outside} thick, and its copper alone is {solid}"),
            "d = 2 √(S/π)",
        ));
    }
    // The hottest insulation there is, alone in still air, with its way back.
    let Some(insulation) = catalogue.insulations.last() else { return found };
    let laid = Laid { insulation, place: None, air: AIR, conductors: 2 };
    let bears = HeatPath::new(&Cable::of(row), &laid, 1.0).ampacity(insulation.max);
    if let Some(carries) = row.carries.filter(|said| *said > bears) {
        let heat = carries.get() * carries.get() * row.resistance.get() / 1000.0;
        let text = format!(
            "{name} is said to carry {carries}: {heat:.0} W of heat in each metre of a cable that reaches {} with {bears}",
            insulation.max
        );
        found.push(doubt(text, format!("heat balance in still air of {AIR}: {}", insulation.from.max.words())));
    }
    found
}

fn fuse(row: &FuseStyle) -> Vec<Doubt> {
    let name = &row.name;
    let Some(largest) = row.ratings.last().copied() else { return Vec::new() };
    let mut found = Vec::new();
    if let Some(weak) = row.breaking.iter().find(|b| b.amps < largest) {
        let text = format!("{name} is said to be made up to {largest}, and to break {} at {}", weak.amps, weak.at);
        found.push(doubt(text, "a fuse breaks many times what it carries"));
    }
    let heat = row.drop_at_rating * largest;
    if heat > LINK_HEAT {
        let text = format!("{name} is said to lose {} at {largest}: {heat} of heat in its holder", row.drop_at_rating);
        found.push(doubt(text, format!("{LINK_HEAT} are more than any holder bears (from memory)")));
    }
    found
}

fn charger(row: &BoughtCharger) -> Vec<Doubt> {
    let name = &row.name;
    let mut found = Vec::new();
    let gives = row.charge.unwrap_or(Volts::new(14.4)) * row.output;
    if let Some(takes) = row.input.map(|amps| INPUT * amps).filter(|takes| row.kind == "dc-dc" && *takes < gives) {
        let text = format!("{name} is said to give {gives} and to take {takes} at most");
        found.push(doubt(text, format!("no more comes out than goes in, at {INPUT} before it")));
    }
    if let Some(share) = row.efficiency.filter(|share| share.get() > 0.98) {
        let text = format!("{name} is said to pass on {share} of what it takes");
        found.push(doubt(text, "converters of this kind pass on 85 to 96 % (from memory)"));
    }
    found
}

/// Rows of the plan's own that can hardly be.
pub(crate) fn check(site: &Installation, runs: &[RunDesign]) -> Vec<Finding> {
    let catalogue = &site.catalogue;
    let batteries = [
        (Section::ServiceBattery, Subject::ServiceBattery, &site.service_battery.chemistry),
        (Section::StarterBattery, Subject::StarterBattery, &site.starter_battery.chemistry),
    ];
    let batteries = batteries
        .into_iter()
        .map(|(section, subject, key)| (OwnKind::Battery, key.clone(), subject, Place::of(section, "chemistry")));
    let sizes = runs.iter().filter_map(|run| {
        let label = run.size.as_ref()?.label.clone();
        Some((OwnKind::Cable, label, Subject::Run(run.run), Place::run(run.run, "size")))
    });
    let fuses = runs.iter().flat_map(|run| {
        let of =
            |style: &str| (OwnKind::Fuse, style.to_string(), Subject::Run(run.run), Place::run(run.run, "fuse_style"));
        run.fuses.iter().map(move |fuse| of(&fuse.style))
    });
    let mut seen = BTreeSet::new();
    let used = batteries.chain(sizes).chain(fuses).filter(|(kind, key, ..)| seen.insert((kind.word(), key.clone())));
    let finding = |kind: OwnKind, key: &str, subject: &Subject, place: Place| {
        let told = |doubt: Doubt| {
            let again = format!(
                "hold the row `{key}` against its data sheet, unit by unit, and enter the {} anew",
                kind.word()
            );
            Finding::new(Kind::RowDoubtful, subject.clone(), doubt.text).rule(doubt.rule).at(place).remedy(again)
        };
        doubts(catalogue, kind, key).into_iter().map(told).collect::<Vec<_>>()
    };
    used.flat_map(|(kind, key, subject, place)| finding(kind, &key, &subject, place)).collect()
}
