//! Does a charger or cut-off by the carrier stand the water and the heat there?

use crate::catalogue::cite;
use crate::engine::installation::Installation;
use crate::engine::installation::place::{place, wet};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::hold_down::mounted::surroundings;
use crate::engine::simulate::hold_down::result::{CarrierDesign, MountedDesign};
use crate::plan::{Choice, Guard, IpCode, Mounted, Place, Section, Value, Water};
use crate::quantity::*;

/// What is wrong with each of them.
pub(crate) fn check(site: &Installation, design: &CarrierDesign) -> Vec<Finding> {
    let each = site.mounted.iter().zip(&design.mounted).enumerate();
    each.flat_map(|(index, (given, out))| {
        let one = One { site, index, given, out };
        [one.sprayed(), one.hot(), one.near()].into_iter().flatten()
    })
    .collect()
}

struct One<'a> {
    site: &'a Installation,
    index: usize,
    given: &'a Mounted,
    out: &'a MountedDesign,
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
