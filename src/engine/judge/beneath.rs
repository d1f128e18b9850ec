//! Does a carrier hang clear of the road and of what is hot or moves, and does it fit as it was built?

use crate::catalogue::{Rule, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::place::wet;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::hold_down::result::{Built, CarrierDesign};
use crate::plan::{CarrierMetal, Choice, Deck, HoldDownStyle, Place, Section, Value};
use crate::quantity::*;

/// What is measured of the place and of the built carrier, held against what is needed.
pub(crate) fn beneath(site: &Installation, design: &CarrierDesign) -> Vec<Finding> {
    let mut findings: Vec<Finding> = ground(site).into_iter().chain(departure(site)).collect();
    findings.extend(near(site));
    findings.extend(metals(site, design));
    findings.extend(design.built.iter().flat_map(|built| as_built(site, built)));
    findings
}

fn at(key: &'static str) -> Place {
    Place::of(Section::Beneath, key)
}

fn find(kind: Kind, key: &'static str, text: String, rule: impl Into<String>) -> Finding {
    Finding::new(kind, Subject::Carrier, text).rule(rule).at(at(key))
}

/// Rounded up to whole millimetres.
fn up(length: Millimetres) -> Millimetres {
    Millimetres::new(length.get().ceil())
}

fn ground(site: &Installation) -> Option<Finding> {
    let (beneath, rules) = (&site.beneath, &site.catalogue.rules);
    let (ground, least) = (beneath.ground?, &rules.ground_at_stops);
    let travel = beneath.travel.unwrap_or(rules.spring_travel.value);
    let left = ground - travel;
    if left >= least.value {
        return None;
    }
    let whose = if beneath.travel.is_some() { "" } else { ", as is usual" };
    let text = match left.get() > 0.0 {
        true => format!(
            "with the springs on their stops ({travel}{whose}) only {left} are left above the ground, {} are wanted",
            least.value
        ),
        false => format!(
            "it hangs {ground} above the ground and the springs go down by {travel}{whose}: it strikes, where {} must be left",
            least.value
        ),
    };
    let severity = if left.get() > 0.0 { Severity::Caution } else { Severity::Stop };
    let from = beneath.travel.is_none().then_some(&rules.spring_travel.from);
    Some(
        find(Kind::GroundNear, "ground_mm", text, cite([&least.from].into_iter().chain(from)))
            .as_severity(severity)
            .remedy(format!("hang it higher by {}, between the frame's rails or beside them", up(least.value - left))),
    )
}

/// The ramp from the rear tyre's foot to the carrier's edge. A ramp touches the tyre a little behind its foot, so the
/// real angle is a little larger: the safe side.
fn departure(site: &Installation) -> Option<Finding> {
    let beneath = &site.beneath;
    let (ground, behind, wanted) = (beneath.ground?, beneath.behind?, beneath.departure?);
    let angle = Degrees::new(ground.get().atan2(behind.get()).to_degrees());
    if angle >= wanted || behind.get() <= 0.0 {
        return None;
    }
    let high = Millimetres::new(wanted.get().to_radians().tan() * behind.get());
    let text = format!("behind the rear tyre it leaves a departure angle of {angle}, {wanted} is wanted");
    Some(
        find(Kind::DepartureLost, "behind_mm", text, "angle at the tyre's foot, plain geometry (ISO 612 measures it)")
            .remedy(format!("at {} above the ground it would keep it, or further forward", up(high)))
            .remedy_edit(format!("accept {angle}"), at("departure_deg"), {
                Some(Value::Number((angle.get() * 10.0).floor() / 10.0))
            }),
    )
}

fn near(site: &Installation) -> Vec<Finding> {
    let (beneath, rules) = (&site.beneath, &site.catalogue.rules);
    let hot = if beneath.shield { &rules.exhaust_shielded } else { &rules.exhaust_bare };
    let moving = &rules.moving_near;
    let each: [(&str, &str, Option<Millimetres>, &Rule<Millimetres>); 4] = [
        ("exhaust_mm", "the exhaust", beneath.exhaust, hot),
        ("shaft_mm", "the shaft or what moves", beneath.shaft, moving),
        ("tyre_mm", "a tyre", beneath.tyre, moving),
        ("lines_mm", "a brake or fuel line", beneath.lines, moving),
    ];
    let close = |(key, what, distance, limit): (&'static str, &str, Option<Millimetres>, &Rule<Millimetres>)| {
        let distance = distance.filter(|d| *d < limit.value)?;
        // Half of it is nothing once bushes give and a hanger breaks.
        let severity = if distance < limit.value / 2.0 { Severity::Stop } else { Severity::Caution };
        let text = format!("it comes within {distance} of {what}, {} are wanted", limit.value);
        let more = up(limit.value - distance);
        let finding = find(Kind::TooNear, key, text, cite([&limit.from])).as_severity(severity);
        let shield = key == "exhaust_mm" && !beneath.shield && distance >= rules.exhaust_shielded.value;
        let finding = match shield {
            true => {
                finding.remedy_edit("a plate between, with air on both sides", at("shield"), Some(Value::Flag(true)))
            }
            false => finding,
        };
        Some(finding.remedy(format!("move it away by {more}, or lead the other elsewhere")))
    };
    each.into_iter().filter_map(close).collect()
}

/// Steel and aluminium in touch: the carrier on its deck, and the studs, which are steel, in either.
fn metals(site: &Installation, design: &CarrierDesign) -> Option<Finding> {
    let (metal, deck) = (site.hold_down.metal, site.hold_down.deck);
    let faces = matches!(
        (metal, deck),
        (CarrierMetal::Steel, Deck::AluminiumSheet) | (CarrierMetal::Aluminium, Deck::SteelSheet)
    );
    let studs = match (metal, deck) {
        (CarrierMetal::Aluminium, Deck::AluminiumSheet) => "in its aluminium and in the deck's",
        (CarrierMetal::Aluminium, _) => "in its aluminium",
        (_, Deck::AluminiumSheet) => "in the aluminium of the deck",
        _ => return None,
    };
    if site.beneath.apart || !wet(site) || design.style == HoldDownStyle::None {
        return None;
    }
    let lies = format!("{} of the hold-down lies on {} of the deck, and its steel studs", metal.key(), deck.key());
    let who = if faces { lies } else { "the steel studs of the hold-down".into() };
    let text = format!("{who} sit {studs}, where it is wet: the aluminium goes");
    let rule = "in salt water steel eats the aluminium that it touches (EN 1993-1-1 annex and EN 1090-3: keep them apart; from memory)";
    Some(find(Kind::MetalsMeet, "apart", text, rule).remedy_edit(
        "keep them apart: paint both, lay 1 mm of plastic between, studs zinc-plated in plastic sleeves and washers, sealant in each hole",
        at("apart"),
        Some(Value::Flag(true)),
    ))
}

fn as_built(site: &Installation, built: &Built) -> Vec<Finding> {
    let mut findings = Vec::new();
    let wanted = site.hold_down.clearance;
    let sides = built.gap.map(|g| {
        [
            ("length_mm", "along", g.along, 2.0),
            ("width_mm", "across", g.across, 2.0),
            ("height_mm", "above", g.upright, 1.0),
        ]
    });
    for (key, side, gap, gaps) in sides.into_iter().flatten() {
        let place = Place::of(Section::AsBuilt, key);
        if gap >= wanted - Millimetres::new(0.01) {
            continue;
        }
        let stop = gap.get() < -0.001;
        let largest = match key {
            "length_mm" => built.largest.along,
            "width_mm" => built.largest.across,
            _ => built.largest.upright,
        };
        let text = match stop {
            true => format!("as built the battery does not go in: {} too little {side}", gap.abs() * gaps),
            false => format!("as built {gap} of clearance are left {side}, {wanted} wanted"),
        };
        let finding = Finding::new(Kind::BuiltOff, Subject::Carrier, text)
            .rule("padding, swelling and a hand's way in and out need room")
            .at(place)
            .remedy(format!("a battery of {largest} or less {side} would do, or bend it again"));
        findings.push(if stop { finding } else { finding.as_severity(Severity::Caution) });
    }
    if let Some(left) = built.height_left.filter(|left| left.get() < 0.0) {
        let text = format!("as built it is {} higher than the room", left.abs());
        let place = Place::of(Section::AsBuilt, "height_mm");
        let finding =
            Finding::new(Kind::BuiltOff, Subject::Carrier, text).rule("inside height and the metal").at(place);
        findings.push(finding.remedy(format!("a spacer of {} under each ear, or bend it again", up(left.abs()))));
    }
    findings.extend(holes(site, built));
    findings
}

fn holes(site: &Installation, built: &Built) -> Option<Finding> {
    let off: Vec<_> = built.holes.iter().filter(|h| h.off > h.play).collect();
    let worst = off.iter().max_by(|a, b| a.off.get().total_cmp(&b.off.get()))?;
    let index = site.drilled.iter().position(|d| d.stud == worst.stud).unwrap_or(0);
    let numbers: Vec<String> = off.iter().map(|h| format!("S{}", h.stud)).collect();
    let text = format!(
        "laid on as well as it can be, {} of {} holes are off by more than a bolt's play of {} ({}): the worst, S{}, by {}",
        off.len(),
        built.holes.len(),
        worst.play,
        numbers.join(", "),
        worst.stud,
        worst.off
    );
    let other = match worst.open.map(|open| Millimetres::new((open.get() * 2.0).ceil() / 2.0)) {
        Some(open) => format!("or open the hole of S{} to {open}, with a thick washer over it", worst.stud),
        None => {
            "or are they numbered as the studs are, and measured from the middle of the hold-down? No drill wanders so \
                 far"
            .into()
        }
    };
    Some(
        Finding::new(Kind::BuiltOff, Subject::Carrier, text)
            .rule("a bolt through two clearance holes may be off by what they are wider together (ISO 273, medium)")
            .at(Place { section: Section::Drilled, index, key: "along_mm" })
            .as_severity(Severity::Caution)
            .remedy(
                "drill the deck from the hold-down as it is, where the deck is still whole: matched pairs always fit",
            )
            .remedy(other),
    )
}
