//! What acts before the cut-off, and what should act before the reserve is gone and does not?
//!
//! Each acts on the voltage at its own terminals: a load behind more cable than the cut-off's sensing point acts sooner.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::cut_off::inverter_stays_on;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::circuit::result::LoadSupply;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{Place, Section};
use crate::quantity::*;

/// What is drawn against the cut-off: the usual current, by which it is chosen.
fn to_sensing(out: &CutOffDesign) -> Volts {
    out.at_usual().map_or(Volts::ZERO, |usual| usual.current * out.between)
}

pub(crate) fn order(
    site: &Installation,
    chemistry: &Chemistry,
    out: &CutOffDesign,
    supplies: &[LoadSupply],
) -> Vec<Finding> {
    let cut = out.cut;
    let place = Place::of(Section::CutOff, "cut_v");
    let mut found = Vec::new();
    // The posts stand above the sensing point by what is lost on the way.
    let at_posts = cut + to_sensing(out);
    if let Some(own) = chemistry.low.own_protection.filter(|own| *own >= at_posts) {
        found.push(before(out, "the battery's own protection", own, Volts::ZERO, Severity::Caution, place));
    }
    for (i, load) in site.loads.iter().enumerate() {
        let drop = supplies.get(i).filter(|_| !load.inverter).and_then(|s| s.drop).unwrap_or(Volts::ZERO);
        let beyond = (drop - to_sensing(out)).max(Volts::ZERO);
        let sooner = |at: &Volts| *at + beyond > cut;
        if let Some(own) = load.own_cut.filter(sooner) {
            let severity = if load.before_cut_off { Severity::Caution } else { Severity::Note };
            found.push(before(out, &load.name, own, beyond, severity, Place::load(i, "own_cut_v")));
        }
        if let Some(lowest) = load.lowest.filter(sooner).filter(|_| !load.before_cut_off) {
            let what = format!("{}, which stops working,", load.name);
            found.push(before(out, &what, lowest, beyond, Severity::Caution, Place::load(i, "lowest_v")));
        }
    }
    found.extend(inverter(site, out));
    found
}

fn before(out: &CutOffDesign, what: &str, at: Volts, beyond: Volts, severity: Severity, place: Place) -> Finding {
    let cut = out.cut;
    let lost = match beyond.get() >= 0.005 {
        true => format!(" at its terminals, {beyond} lost on the way,"),
        false => String::new(),
    };
    Finding::new(Kind::CutOffOrder, Subject::CutOff, format!("{what} acts at {at}{lost} before the cut-off at {cut}"))
        .as_severity(severity)
        .rule(
            "the cut-off should act first, so that everything goes off in order and comes back; the path's drop counts",
        )
        .at(place)
        .remedy(format!("set it under {}, or set the cut-off above {}", cut - beyond, at + beyond))
}

/// Behind the cut-off it may act first, which is no harm; at the posts its own cut is all that guards the battery.
fn inverter(site: &Installation, out: &CutOffDesign) -> Option<Finding> {
    let inverter = &site.inverter;
    let place = Place::of(Section::Inverter, "own_cut_v");
    if inverter.rating.get() <= 0.0 {
        return None;
    }
    if inverter_stays_on(site) {
        let reserve = out.at_usual()?.posts;
        let (own, what) = (inverter.own_cut, "the inverter at the battery's posts goes on down to");
        return (own < reserve).then(|| {
            let text =
                format!("{what} {own} by its own cut, under {reserve}, where the reserve of {} begins", out.reserve);
            Finding::new(Kind::CutOffOrder, Subject::Inverter, text)
                .as_severity(Severity::Caution)
                .rule("what is before the cut-off must leave the reserve by itself")
                .at(place)
                .remedy(format!("set its own cut to {reserve} or more, or switch it by the cut-off's signal"))
        });
    }
    let (own, cut) = (inverter.own_cut, out.cut);
    (own > cut).then(|| before(out, "the inverter", own, Volts::ZERO, Severity::Note, place))
}
