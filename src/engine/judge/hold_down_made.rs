//! Can the welds and spacers of a carrier be made as they are, and does a hollow floor bear being tightened?

use crate::catalogue::cite;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::hold_down::result::CarrierDesign;
use crate::engine::simulate::hold_down::weld;
use crate::plan::{HoldDownStyle, Place, Section, Value};
use crate::quantity::*;

/// What cannot be made, or harms when it is.
pub(crate) fn made(site: &Installation, design: &CarrierDesign) -> Vec<Finding> {
    let mut findings = welds(site, design);
    findings.extend(spacer(site, design));
    findings
}

fn find(kind: Kind, key: &'static str, text: String, rule: impl Into<String>) -> Finding {
    Finding::new(kind, Subject::Carrier, text).rule(rule).at(Place::of(Section::HoldDown, key))
}

/// Down to a tenth of a millimetre, so that a remedy typed in really mends it.
fn down(length: Millimetres) -> Millimetres {
    Millimetres::new((length.get() * 10.0 + 1e-6).floor() / 10.0)
}

fn welds(site: &Installation, design: &CarrierDesign) -> Vec<Finding> {
    let (wanted, sizes, rules) = (&site.hold_down, &design.sizes, &site.catalogue.rules);
    let strapped = wanted.style == HoldDownStyle::StripBasket && wanted.straps > 0;
    if !strapped && wanted.style != HoldDownStyle::Cabinet {
        return Vec::new();
    }
    let mut findings = Vec::new();
    let place = |key| Place::of(Section::HoldDown, key);
    let (length, room) = (sizes.weld_length, weld::room(sizes));
    if strapped && length > room {
        let text = format!("welds {length} long do not go there: strips and straps have edges for {room}");
        let rule = "a weld runs along both edges of a strip, and along both legs of a strap's corner";
        findings.push(
            find(Kind::WeldUnmade, "weld_length_mm", text, rule)
                .remedy_edit(format!("{room} goes there"), place("weld_length_mm"), Some(Value::Number(room.get())))
                .remedy_edit("leave it out: a length that goes there is then chosen", place("weld_length_mm"), None)
                .remedy("wider strips, or straps of a larger angle"),
        );
    }
    let shortest = weld::shortest(sizes.weld_throat, rules);
    if strapped && length < shortest {
        let text = format!("welds {length} long are not counted on: with a throat of {} it takes {shortest}", {
            sizes.weld_throat
        });
        let remedy = format!("{shortest} is counted on");
        findings.push(
            find(Kind::WeldUnmade, "weld_length_mm", text, cite([&rules.weld_least.from]))
                .remedy_edit(remedy, place("weld_length_mm"), Some(Value::Number(shortest.get())))
                .remedy_edit("leave it out: a length that counts is then chosen", place("weld_length_mm"), None),
        );
    }
    let thickest = weld::thickest(wanted.style, sizes, rules);
    if sizes.weld_throat > thickest + Millimetres::new(1e-6) {
        let text = format!(
            "a weld's throat of {} is more than the thinner metal beside it bears, {thickest}: it burns through",
            sizes.weld_throat
        );
        let fits = down(thickest);
        findings.push(
            find(Kind::WeldUnmade, "weld_throat_mm", text, cite([&rules.weld_throat_share.from]))
                .remedy_edit(format!("{fits}"), place("weld_throat_mm"), Some(Value::Number(fits.get())))
                .remedy_edit("leave it out: a throat that fits is then chosen", place("weld_throat_mm"), None),
        );
    }
    findings
}

fn spacer(site: &Installation, design: &CarrierDesign) -> Option<Finding> {
    let (spacer, rules) = (design.spacer.as_ref()?, &site.catalogue.rules);
    let place = Place::of(Section::HoldDown, "spacer_mm");
    let best = spacer.depth - rules.spacer_short.value;
    if spacer.length >= spacer.depth {
        let text = format!(
            "the spacer is {} long in a floor {} deep, where {} less is wanted: the nut is tight on the spacer, and nothing \
             grips the floor",
            spacer.length, spacer.depth, rules.spacer_short.value
        );
        let finding = find(Kind::SpacerLoose, "spacer_mm", text, cite([&rules.spacer_short.from]));
        return Some(finding.remedy_edit(
            format!("{best}: {} shorter than the floor", rules.spacer_short.value),
            place,
            Some(Value::Number(best.get())),
        ));
    }
    if spacer.used <= Share::FULL {
        return None;
    }
    let text = format!(
        "tightening draws the floor's faces {} together, with {}: they are bent to {} of what they stand",
        spacer.depth - spacer.length,
        spacer.force,
        spacer.used
    );
    // The bend follows the squeeze: so much of it is borne.
    let borne = (spacer.depth - spacer.length) / spacer.used.get();
    let longer = Millimetres::new(((spacer.depth - borne).get() * 10.0).ceil() / 10.0);
    let finding = find(Kind::FloorCrushed, "spacer_mm", text, cite(&spacer.strength));
    let finding = match longer < spacer.depth {
        true => finding.remedy_edit(format!("spacers {longer} long"), place, Some(Value::Number(longer.get()))),
        false => finding,
    };
    Some(finding.remedy("larger spreader plates on both faces spread it over the ribs"))
}
