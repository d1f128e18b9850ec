//! Which links of the carrier do not hold, and what would mend them?

use crate::catalogue::{
    SHEET_THICKNESS, SPREADER, SPREADER_THICKNESS, STRIP_THICKNESS, STRIP_WIDTH, WELD_LENGTH, cite,
};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::simulate::hold_down::build::Build;
use crate::engine::simulate::hold_down::chain::found::{Found, Throw};
use crate::engine::simulate::hold_down::chain::links::{distinct, of_case};
use crate::engine::simulate::hold_down::chain::metal::{Metal, deck_ruled_by, rib_ruled_by};
use crate::engine::simulate::hold_down::chain::result::{Chain, Link, LinkUse};
use crate::engine::simulate::hold_down::result::{CarrierDesign, Strength};
use crate::engine::simulate::hold_down::strength::shared;
use crate::plan::{CarrierMetal, HoldDown, HoldDownStyle, Place, Section, Value};
use crate::quantity::*;

/// One finding for each link that does not hold; rods, studs under a rigid plate, and a floor that its spacers crush have
/// findings of their own.
pub(crate) fn links(site: &Installation, design: &CarrierDesign, strength: &Strength) -> Vec<Finding> {
    let chain = &strength.chain;
    let crushed = design.spacer.as_ref().is_some_and(|s| s.used > Share::FULL);
    let known = |link| match link {
        Link::Rods => true,
        Link::Stud => strength.utilisation.get() > 1.0,
        Link::Floor => crushed,
        _ => false,
    };
    let weak = |l: &&LinkUse| l.used.get() > 1.0 && !known(l.link);
    chain.links.iter().filter(weak).map(|l| finding(site, design, chain, l)).collect()
}

fn finding(site: &Installation, design: &CarrierDesign, chain: &Chain, weak: &LinkUse) -> Finding {
    let (name, thrown) = (weak.link.words(), weak.thrown.word());
    let lasting = match weak.lasting {
        Share::ZERO => String::new(),
        lasting => format!(", to {lasting} by tightening alone"),
    };
    let used = weak.used;
    let text =
        format!("the {name} is used to {used} when the battery is thrown {thrown}{lasting}: {}", chain.headline());
    let rules = &site.catalogue.rules;
    let (key, remedy) = remedy(weak.link);
    let strength = match (weak.link, site.hold_down.metal) {
        (Link::Stud | Link::Rods, ..) => "strength of the stud".into(),
        (Link::Hook, _) => {
            let class = site.catalogue.stud_class(&site.hold_down.stud_class);
            cite(class.map(|c| &c.from.yields).into_iter().chain([&rules.metal_partial.from]))
        }
        (Link::Case, ..) => cite([&rules.lid_pressure.from]),
        (Link::Rib, _) => cite(rib_ruled_by(site.hold_down.deck, rules)),
        (Link::Wood | Link::Foot, _) => cite([&rules.plywood_crush.from, &rules.plywood_partial.from]),
        (Link::Deck | Link::Floor, _) => cite(deck_ruled_by(&site.hold_down, &design.sizes, rules)),
        (Link::Weld, CarrierMetal::Steel) => {
            cite([&rules.strip_tensile.from, &rules.weld_correlation.from, &rules.bolt_partial.from])
        }
        (Link::Nut, CarrierMetal::Steel) => cite([&rules.strip_tensile.from, &rules.bolt_partial.from]),
        (Link::Weld | Link::Nut, ..) => cite([&rules.aluminium_tensile.from, &rules.bolt_partial.from]),
        (_, CarrierMetal::Aluminium) => cite([&rules.aluminium_proof.from, &rules.metal_partial.from]),
        _ => cite([&rules.strip_yield.from, &rules.metal_partial.from]),
    };
    let shock = site.catalogue.shock(&site.hold_down.shock);
    let shock = shock.map_or(String::new(), |s| format!("{}; ", s.level(weak.thrown.axis()).1.words()));
    let place = Place::of(Section::HoldDown, key);
    let mut finding = Finding::new(Kind::LinkWeak, Subject::Carrier, text)
        .rule(format!("{}; {shock}{strength}", weak.link.source()))
        .at(place);
    if let Some((value, words, used)) = enough(site, design, weak, key) {
        finding = finding.remedy_edit(format!("{words} in stock would be used to {used}"), place, Some(value));
    }
    if pinned(&site.hold_down, key) {
        finding = finding.remedy_edit("leave it out: the lightest in stock that holds is then chosen", place, None);
    }
    finding.remedy(remedy)
}

/// Whether the plan gives a size that could be chosen.
fn pinned(given: &HoldDown, key: &str) -> bool {
    match key {
        "thickness_mm" => given.thickness.is_some(),
        "strip_width_mm" => given.strip_width.is_some(),
        "weld_length_mm" => given.weld_length.is_some() || given.weld_throat.is_some(),
        "spreader_mm" => given.spreader.is_some(),
        "spreader_thickness_mm" => given.spreader_thickness.is_some(),
        "stud" => given.stud.is_some(),
        _ => false,
    }
}

/// The next stock size with which a link holds, all else as it is; positions and metal follow.
fn enough(site: &Installation, design: &CarrierDesign, weak: &LinkUse, key: &str) -> Option<(Value, String, Share)> {
    let (build, mass) = (Build::of(site)?, design.battery_mass?);
    let used = |sizes: &Sizes| {
        let quiet = &mut Notes::unkept();
        let shape = build.shape(sizes, quiet).filter(|s| !s.blanks.is_empty())?;
        let (given, pattern) = build.fixing(sizes, &shape, &design.torque, mass)?;
        let strength = shared(&given, &pattern, quiet);
        let metal = Metal::of(site.hold_down.metal, given.rules);
        let mut found = Found { links: Vec::new() };
        // The direction in which it fails now first: mostly that settles it.
        let (worst, others): (Vec<_>, Vec<_>) =
            distinct(&strength.cases).into_iter().partition(|c| c.force.thrown == weak.thrown);
        for case in worst.into_iter().chain(others) {
            of_case(Throw { given: &given, strength: &strength, case, metal: &metal }, &mut found);
            if found.links.iter().any(|l| l.link == weak.link && l.used > Share::FULL) {
                return None;
            }
        }
        found.links.iter().find(|l| l.link == weak.link).map(|l| l.used)
    };
    let with = |put: &dyn Fn(&mut Sizes)| {
        let mut sizes = design.sizes.clone();
        put(&mut sizes);
        used(&sizes)
    };
    if key == "stud" {
        let now = site.catalogue.studs.iter().position(|s| s.key == design.sizes.stud)?;
        let mut larger = site.catalogue.studs[now + 1..].iter();
        return larger.find_map(|stud| {
            let used = with(&|sizes| sizes.stud.clone_from(&stud.key))?;
            Some((Value::Text(stud.key.clone()), format!("{} studs", stud.key), used))
        });
    }
    let basket = site.hold_down.style == HoldDownStyle::StripBasket;
    let (stock, of): (&str, fn(&mut Sizes) -> &mut Millimetres) = match key {
        "thickness_mm" => (if basket { STRIP_THICKNESS } else { SHEET_THICKNESS }, |s| &mut s.thickness),
        "strip_width_mm" => (STRIP_WIDTH, |s| &mut s.strip_width),
        "weld_length_mm" => (WELD_LENGTH, |s| &mut s.weld_length),
        "spreader_mm" => (SPREADER, |s| &mut s.spreader),
        "spreader_thickness_mm" => (SPREADER_THICKNESS, |s| &mut s.spreader_thickness),
        _ => return None,
    };
    let now = *of(&mut design.sizes.clone());
    let mut larger = site.catalogue.stock(stock)?.sizes.iter().filter(|size| **size > now);
    larger.find_map(|size| {
        let used = with(&|sizes| *of(sizes) = *size)?;
        Some((Value::Number(size.get()), size.to_string(), used))
    })
}

/// The field that strengthens it, and how.
fn remedy(link: Link) -> (&'static str, &'static str) {
    match link {
        Link::Case => ("rods", "a wider bar or more bars over the lid"),
        Link::Rods => ("rods", "more rods or thicker ones"),
        Link::Hook => ("rod_foot", "through the base with a nut under it, or more rods: a hook opens early"),
        Link::Strip | Link::Bend | Link::Ear => ("thickness_mm", "thicker or wider strips, or more of them"),
        Link::Leg => ("strip_width_mm", "wider strips, or more of them"),
        Link::Strap => ("straps", "more straps, or of a larger angle"),
        Link::Weld => ("weld_length_mm", "longer welds, more straps or a thicker throat"),
        Link::Rim => ("thickness_mm", "thicker sheet, or a lower rim"),
        Link::Base => ("thickness_mm", "thicker sheet, or more studs further apart"),
        Link::Nut => ("thickness_mm", "thicker metal, or bigger studs"),
        Link::Stud => ("stud", "bigger studs or more of them; shorter spacers"),
        Link::Spreader => ("spreader_thickness_mm", "a thicker spreader plate"),
        Link::Deck => ("spreader_mm", "larger spreader plates, or bearers closer together under the studs"),
        Link::Floor => {
            ("spreader_mm", "larger spreader plates, longer spacers, or ribs closer together under the studs")
        }
        Link::Rib => (
            "spreader_mm",
            "larger spreader plates, longer spacers, or a block of wood or metal between the faces at each stud",
        ),
        Link::Foot => ("thickness_mm", "thicker sheet, or a plate of metal under the whole base"),
        Link::Wood => ("spreader_mm", "larger spreader plates, or less torque"),
    }
}
