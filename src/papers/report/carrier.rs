//! The carrier: what is cut, bent and bolted, and whether it holds.

use crate::engine::design::results::fact::At;
use crate::engine::simulate::hold_down::chain::result::{Chain, LinkUse, Road};
use crate::engine::simulate::hold_down::result::{
    Blank, CarrierDesign, MountedDesign, Shape, ShockCase, Strength, StudDesign,
};
use crate::papers::document::{Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::plan::Choice;
use crate::quantity::{Figure, Unit, UnitSystem};

/// The carrier as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let devices = &job.design.mounted;
    if job.design.carrier.is_none() && devices.is_empty() {
        return;
    }
    paper.heading(1, "Hold-down");
    if let Some(carrier) = &job.design.carrier {
        holds(job, carrier, paper);
    } else {
        paper.paragraph("None is planned: what hangs by the battery is bolted to the deck.");
    }
    if !devices.is_empty() {
        paper.table(mounted(devices, job.at()));
    }
    if let Some(carrier) = &job.design.carrier {
        paper.paragraph("What these figures do not cover:");
        paper.list(carrier.limits.iter().map(|l| (*l).to_string()).collect());
    }
}

/// What holds the battery.
fn holds(job: &Job, carrier: &CarrierDesign, paper: &mut Document) {
    let mut facts = vec![("Kind", carrier.style.key().to_string())];
    if let Some(mass) = carrier.battery_mass {
        facts.push(("Battery", mass.to_string()));
    }
    let torque = &carrier.torque;
    facts.push((
        "Torque",
        format!(
            "{}, which makes a preload of about {} ({} to {} by the scatter of friction)",
            torque.torque,
            rounded(torque.preload),
            rounded(torque.least),
            rounded(torque.greatest)
        ),
    ));
    facts.push(("Locking", carrier.locking.key().to_string()));
    if let Some(shape) = &carrier.shape {
        facts.push(("Height", shape.outside_height.to_string()));
        facts.push(("Steel", shape.steel_mass.to_string()));
    }
    if let Some(s) = &carrier.strength {
        let times = Figure::new(s.safety, Unit::Times);
        facts.push(("Shock", format!("{}, {} in all", s.shock, s.total_mass)));
        facts.push(("Studs", format!("used to {}, safety {times}", s.utilisation)));
        facts.insert(0, ("In all", s.chain.headline()));
        facts.push(("Studs alone", format!("hold {} at most", rounded(s.largest_mass))));
    }
    if let Some(lifting) = &carrier.lifting {
        facts.push(("Lifting", format!("{} by {}", lifting.mass, lifting.by.words())));
    }
    paper.paragraph(NOT);
    paper.facts(facts);
    carrier.shape.iter().for_each(|s| paper.table(blanks(s, job.at())));
    carrier.strength.iter().for_each(|s| {
        paper.table(links(&s.chain, job.at()));
        paper.table(roads(&s.chain, job.at()));
        paper.table(studs(s, job.at()));
        paper.table(cases(s, job.at()));
    });
}

/// Said before any figure.
const NOT: &str = "This is a sizing aid and no approval: vehicle law may ask for a test or an engineer's certificate.";

fn links(chain: &Chain, at: At<'_>) -> Table {
    Columns::new()
        .fact(LinkUse::NAME)
        .fact(LinkUse::USED)
        .fact_or(LinkUse::LASTING, "–")
        .fact(LinkUse::EVEN)
        .fact(LinkUse::CORNERS)
        .fact(LinkUse::THROWN)
        .fact_or(LinkUse::RESERVE, "–")
        .fact(LinkUse::BY)
        .table("hold-down-links", "The chain from case to deck, the weakest link first; what a link stands from first yield to folding is told and never counted on", &chain.links, at)
}

fn roads(chain: &Chain, at: At<'_>) -> Table {
    Columns::new().fact(Road::NAME).fact(Road::SHAKING).fact(Road::LASTS).table(
        "hold-down-roads",
        "Until a crack, by rough reckoning: ten beats a second, category 71",
        &chain.roads,
        at,
    )
}

/// In two figures, never more than it is.
fn rounded(quantity: impl Into<Figure>) -> String {
    quantity.into().about_at_most(UnitSystem::Metric)
}

fn blanks(shape: &Shape, at: At<'_>) -> Table {
    Columns::new()
        .fact(Blank::NAME)
        .fact(Blank::COUNT)
        .fact(Blank::LENGTH)
        .fact(Blank::WIDTH)
        .fact(Blank::THICKNESS)
        .fact(Blank::BENDS)
        .fact(Blank::MASS)
        .table("hold-down-blanks", "Steel to cut, flat; bends of 90°", &shape.blanks, at)
}

fn mounted(devices: &[MountedDesign], at: At<'_>) -> Table {
    Columns::new()
        .fact(MountedDesign::DEVICE)
        .fact(MountedDesign::MASS)
        .fact(MountedDesign::AIR)
        .fact(MountedDesign::HEAT)
        .fact(MountedDesign::SHARE)
        .fact_or(MountedDesign::GIVES, "–")
        .fact(MountedDesign::WARMS)
        .fact(MountedDesign::PULL)
        .fact(MountedDesign::BOLT_USED)
        .fact(MountedDesign::SHEET_USED)
        .table("hold-down-mounted", "What hangs on it or close beside it", devices, at)
}

fn studs(strength: &Strength, at: At<'_>) -> Table {
    Columns::new()
        .fact(StudDesign::NUMBER)
        .fact(StudDesign::ALONG)
        .fact(StudDesign::ACROSS)
        .fact(StudDesign::TENSION)
        .fact(StudDesign::SHEAR)
        .fact(StudDesign::UTILISATION)
        .own(Column::text("case", "Worst when thrown"), |s, _| s.thrown.word().into())
        .table("hold-down-studs", "Each stud at its worst", &strength.studs, at)
}

fn cases(strength: &Strength, at: At<'_>) -> Table {
    Columns::new()
        .fact(ShockCase::NAME)
        .fact(ShockCase::LEVEL)
        .fact(ShockCase::ALONG)
        .fact(ShockCase::ACROSS)
        .fact(ShockCase::UPRIGHT)
        .table("hold-down-shocks", "Force on the studs by direction, weight included", &strength.cases, at)
}
