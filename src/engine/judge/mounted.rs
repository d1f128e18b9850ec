//! Does a charger or cut-off by the carrier stand the water and the heat there, and do its bolts hold it?

use crate::catalogue::{Provenance, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::place::{place, wet};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::mounted::{hardest, lies_on, surroundings};
use crate::engine::simulate::hold_down::result::MountedDesign;
use crate::plan::{Choice, Guard, IpCode, MOST_BOLTS, Mounted, Place, Section, Value, Water};
use crate::quantity::*;

/// What is wrong with each of them.
pub(crate) fn check(site: &Installation, mounted: &[MountedDesign], sizes: Option<&Sizes>) -> Vec<Finding> {
    let each = site.mounted.iter().zip(mounted).enumerate();
    each.flat_map(|(index, (given, out))| {
        let one = One { site, index, given, out, sizes };
        [one.sprayed(), one.hot(), one.near(), one.bolted(), one.pulled_through()].into_iter().flatten()
    })
    .collect()
}

struct One<'a> {
    site: &'a Installation,
    index: usize,
    given: &'a Mounted,
    out: &'a MountedDesign,
    sizes: Option<&'a Sizes>,
}

impl One<'_> {
    fn at(&self, key: &'static str) -> Place {
        Place { section: Section::Mounted, index: self.index, key }
    }

    fn find(&self, kind: Kind, key: &'static str, text: String, rule: impl Into<String>) -> Finding {
        Finding::new(kind, Subject::Carrier, text).rule(rule).at(self.at(key))
    }

    fn name(&self) -> &'static str {
        self.given.device.key()
    }

    /// Wheels throw water like a jet, and the vehicle is washed with one.
    fn sprayed(&self) -> Option<Finding> {
        let guarded = self.site.service_battery.guards.count(Guard::Wash) > 0;
        let code = self.given.protection;
        let stands = code.map(IpCode::water);
        if !wet(self.site) || stands == Some(Water::Jets) || (stands.is_none() && guarded) {
            return None;
        }
        let (name, there) = (self.name(), place(self.site).key());
        let (severity, text) = match code {
            None => (
                Severity::Caution,
                format!("where the {name} hangs ({there}) jets reach it, and its IP code is not given"),
            ),
            Some(code) if code.water() == Water::Dry => (
                Severity::Stop,
                format!(
                    "where the {name} hangs ({there}) jets reach it, and by its code ({}) it stands no water",
                    code.stamped()
                ),
            ),
            Some(code) => (
                Severity::Caution,
                format!(
                    "where the {name} hangs ({there}) jets reach it, and its code ({}) says nothing of jets",
                    code.stamped()
                ),
            ),
        };
        let rule = "IPX5 or more against jets (IEC 60529; ISO 20653 for road vehicles): up to 6 a figure holds for those \
                    below it, 7, 8 or 9 alone says nothing of jets (from memory)";
        Some(
            self.find(Kind::MountedWet, "protection", text, rule)
                .as_severity(severity)
                .remedy_edit(
                    "one of IP65 or more, or a closed box of that code around it with room for its heat",
                    self.at("protection"),
                    Some(Value::Text(IpCode::Ip65.key().into())),
                )
                .remedy("or hang it inside, where it is dry, and take it out of [[mounted]]"),
        )
    }

    /// What it gives in the hottest air there, against what is wanted of it.
    fn hot(&self) -> Option<Finding> {
        let MountedDesign { air, share, gives, wants, .. } = self.out;
        let (gives, wants) = (gives.as_ref().copied()?, wants.unwrap_or(Amps::ZERO));
        if *share >= Share::FULL {
            return None;
        }
        let rules = &self.site.catalogue.rules;
        let ends = self.given.hottest.unwrap_or(rules.mounted_hottest.value);
        let full = self.given.full_to.unwrap_or(rules.mounted_full_to.value);
        let usual = if self.given.full_to.is_none() { ", as is usual" } else { "" };
        let name = self.name();
        let (severity, text) = if *air >= ends {
            let text = format!("where the {name} hangs it gets {air}, and it works up to {ends}");
            (Severity::Caution, text)
        } else {
            let enough = gives >= wants;
            let severity = if enough { Severity::Note } else { Severity::Caution };
            let less = if enough { "enough" } else { "too little" };
            let text = format!(
                "where the {name} hangs it gets {air}; whole up to {full}{usual}, it gives {share} there: {gives}, {less} \
                 for the {wants} wanted"
            );
            (severity, text)
        };
        let own = self.site.service_battery.hottest.is_some();
        let row = surroundings(self.site).filter(|_| !own).map(|row| &row.from.warmer);
        let limits = [
            self.given.full_to.is_none().then_some(&rules.mounted_full_to.from),
            self.given.hottest.is_none().then_some(&rules.mounted_hottest.from),
        ];
        let rule = cite(limits.into_iter().flatten().chain(row));
        let rule = if rule.is_empty() { "its own data sheet, entered by you".to_string() } else { rule };
        let finding = self.find(Kind::MountedHot, "full_to_c", text, rule).as_severity(severity);
        let cooler = Kelvins::new((air.get() - full.get()).ceil());
        let (key, words) = if *air >= ends { ("hottest_c", "works") } else { ("full_to_c", "gives all") };
        let above = Celsius::new(air.get().ceil() + if *air >= ends { 5.0 } else { 0.0 });
        let finding = finding.remedy_edit(
            format!("one that {words} up to {above} by its sheet"),
            self.at(key),
            Some(Value::Number(above.get())),
        );
        Some(
            finding
                .remedy("enter what its sheet says of the air, or hang it where that is cooler, with free air above and below")
                .remedy(format!("{cooler} cooler it gives all")),
        )
    }

    /// Whether each bolt stands its share of the shock.
    fn bolted(&self) -> Option<Finding> {
        let MountedDesign { bolt, bolts, bolt_used, pull, .. } = self.out;
        if *bolt_used <= Share::FULL {
            return None;
        }
        let text = format!(
            "each of the {bolts} {bolt} bolts of the {} is pulled with {pull} when it is thrown: used to {bolt_used}",
            self.name()
        );
        let (catalogue, hold) = (&self.site.catalogue, &self.site.hold_down);
        let class = catalogue.stud_class(&hold.stud_class);
        let strengths = class.map(|c| [&c.from.tensile, &c.from.shear_share]).into_iter().flatten();
        let rule =
            format!("EN 1993-1-8 table 3.4; {}", self.shocked(strengths.chain([&catalogue.rules.bolt_partial.from])));
        let thicker = class.and_then(|class| {
            catalogue.studs.iter().find(|size| {
                let stands = Strengths::of(size, class, catalogue.rules.bolt_partial.value);
                stands.by_structure(*pull, *pull / 2.0).value <= Share::FULL
            })
        });
        let finding = self.more_bolts(self.find(Kind::LinkWeak, "bolts", text, rule), *bolt_used);
        Some(match thicker {
            Some(size) => {
                finding.remedy_edit(format!("{} bolts", size.key), self.at("bolt"), Some(Value::Text(size.key.clone())))
            }
            None => finding,
        })
    }

    /// Whether its washers stay on this side of the metal or wood.
    fn pulled_through(&self) -> Option<Finding> {
        let MountedDesign { bolt, sheet_used, pull, .. } = self.out;
        if *sheet_used <= Share::FULL {
            return None;
        }
        let hold = &self.site.hold_down;
        let (on, thick) = match self.sizes.filter(|_| self.given.on_hold_down) {
            Some(sizes) => ("the metal of the hold-down".to_string(), sizes.thickness),
            None => (format!("the deck ({})", hold.deck.key()), hold.deck_thickness),
        };
        let text = format!(
            "the {} pulls each of its bolts with {pull} when it is thrown, and {on}, {thick} thick, is used to {sheet_used} \
             under a large washer",
            self.name()
        );
        let size = self.site.catalogue.stud(bolt)?;
        let (_, strengths) = lies_on(self.site, self.sizes, self.given, size.diameter)?;
        let rule = format!("washer pulled through (EN 1993-1-3) or crushing wood; {}", self.shocked(strengths));
        let finding = self.more_bolts(self.find(Kind::LinkWeak, "bolts", text, rule), *sheet_used);
        Some(finding.remedy("a plate as large as the device behind the sheet, or hang it on something thicker"))
    }

    /// The shock that throws it hardest, and what else counts.
    fn shocked<'a>(&'a self, strengths: impl IntoIterator<Item = &'a Provenance>) -> String {
        let shock = self.site.catalogue.shock(&self.site.hold_down.shock).map(|s| hardest(s).1);
        cite(shock.into_iter().chain(strengths))
    }

    /// As many bolts as hold it; each bears its part.
    fn more_bolts(&self, finding: Finding, used: Share) -> Finding {
        let wanted = (f64::from(self.out.bolts) * used.get()).ceil();
        if wanted > MOST_BOLTS {
            return finding;
        }
        finding.remedy_edit(format!("{wanted} bolts"), self.at("bolts"), Some(Value::Number(wanted)))
    }

    /// What gets warm keeps its distance from the battery.
    fn near(&self) -> Option<Finding> {
        let limit = &self.site.catalogue.rules.mounted_gap;
        let gap = self.given.gap.filter(|gap| *gap < limit.value)?;
        let MountedDesign { heat, warms, .. } = self.out;
        let text = format!(
            "the {} hangs {gap} from the battery and gives off {heat}: it warms it by up to {warms}, and has little air \
             itself; {} are wanted",
            self.name(),
            limit.value
        );
        let severity = if warms.get() < 1.0 { Severity::Note } else { Severity::Caution };
        Some(self.find(Kind::MountedHot, "gap_mm", text, cite([&limit.from])).as_severity(severity).remedy_edit(
            format!("{} away from it", limit.value),
            self.at("gap_mm"),
            Some(Value::Number(limit.value.get())),
        ))
    }
}
