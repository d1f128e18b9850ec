//! Which links of the carrier do not hold, and what would mend them?

use crate::catalogue::cite;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::hold_down::chain::metal::deck_ruled_by;
use crate::engine::simulate::hold_down::chain::result::{Chain, Link, LinkUse};
use crate::engine::simulate::hold_down::result::Strength;
use crate::plan::{CarrierMetal, Place, Section};

/// One finding for each link that does not hold; rods, and studs under a rigid plate, have findings of their own.
pub(crate) fn links(site: &Installation, strength: &Strength) -> Vec<Finding> {
    let chain = &strength.chain;
    let known = |link| link == Link::Rods || (link == Link::Stud && strength.utilisation.get() > 1.0);
    let weak = |l: &&LinkUse| l.used.get() > 1.0 && !known(l.link);
    chain.links.iter().filter(weak).map(|l| finding(site, chain, l)).collect()
}

fn finding(site: &Installation, chain: &Chain, weak: &LinkUse) -> Finding {
    let (name, thrown) = (weak.link.words(), weak.thrown.word());
    let text = format!("the {name} is used to {} when the battery is thrown {thrown}: {}", weak.used, chain.headline());
    let rules = &site.catalogue.rules;
    let (key, remedy) = remedy(weak.link);
    let strength = match (weak.link, site.hold_down.metal) {
        (Link::Stud | Link::Rods, ..) => "strength of the stud".into(),
        (Link::Case, ..) => cite([&rules.lid_pressure.from]),
        (Link::Deck, _) => cite(deck_ruled_by(&site.hold_down, rules)),
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
    Finding::new(Kind::LinkWeak, Subject::Carrier, text)
        .rule(format!("{}; {shock}{strength}", weak.link.source()))
        .at(Place::of(Section::HoldDown, key))
        .remedy(remedy)
}

/// The field that strengthens it, and how.
fn remedy(link: Link) -> (&'static str, &'static str) {
    match link {
        Link::Case => ("rods", "a wider bar or more bars over the lid"),
        Link::Rods => ("rods", "more rods"),
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
    }
}
