//! Does the main switch carry what flows, and what does it part when it is opened?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::main_switch::stays_live;
use crate::plan::{ChargerKind, Place, Section, Value, point};
use crate::quantity::{Amps, Watts};

/// What is wrong with the main switch, where one is planned.
pub(crate) fn check(site: &Installation, runs: &[RunDesign]) -> Vec<Finding> {
    let Some(rating) = site.main_switch.rating else { return Vec::new() };
    let check = Check { site, runs };
    check.small(rating).into_iter().chain(check.parts()).chain(check.live()).collect()
}

/// So many runs are named in a sentence; the papers name all.
const SHOWN: usize = 4;

struct Check<'a> {
    site: &'a Installation,
    runs: &'a [RunDesign],
}

impl Check<'_> {
    /// The branches through which all passes that the switch parts.
    fn through(&self) -> Vec<usize> {
        let branches = self.site.circuits.branches.iter().enumerate();
        let at = &self.site.main_switch.at;
        let battery = at == point::SERVICE_BATTERY || at == point::STARTER_BATTERY;
        branches.filter(|(_, b)| if battery { b.near == *at } else { b.far == *at }).map(|(n, _)| n).collect()
    }

    fn of(&self, branch: usize) -> Option<&RunDesign> {
        self.runs.get(self.site.circuits.branches.get(branch)?.run)
    }

    /// What flows in and what flows out do not add up; each start comes on top of the rest. Where its maker says what
    /// it carries for a short time, loads that come and go count for ever by what they heat.
    fn small(&self, rating: Amps) -> Option<Finding> {
        let through = self.through();
        let all = |source: bool, flows: fn(&RunDesign) -> Amps| -> Amps {
            let branches = through.iter().filter(|&&b| self.site.circuits.branches[b].source_beyond == source);
            branches.filter_map(|&b| self.of(b)).map(flows).sum()
        };
        let sum = |source| all(source, |r| r.current);
        let lasting: fn(&RunDesign) -> Amps =
            if self.site.main_switch.short_time.is_some() { RunDesign::heating } else { |r| r.current };
        let steady = all(false, lasting).max(all(true, lasting));
        let start = through.iter().filter_map(|&b| self.of(b)).map(|r| r.surge - r.current).fold(Amps::ZERO, Amps::max);
        let short = self.site.main_switch.short_time.unwrap_or(rating);
        let (text, key, needs) = if steady > rating {
            (format!("{steady} may flow through the main switch, which carries {rating}"), "rating_a", steady)
        } else if sum(false) + start > short {
            let surge = sum(false) + start;
            (
                format!("starts bring {surge} through the main switch, which carries {short} for a short time"),
                "short_time_a",
                surge,
            )
        } else {
            return None;
        };
        let place = Place::of(Section::MainSwitch, key);
        let needs = needs.get().ceil();
        Some(
            Finding::new(Kind::MainSwitchSmall, Subject::MainSwitch, text)
                .rule("a switch carries what flows through it, for ever and for a short time; by its maker's rating")
                .at(place)
                .remedy_number(format!("a switch for {} or more", Amps::new(needs)), place, needs),
        )
    }

    /// A battery parted from its running alternator, or a controller from its battery.
    fn parts(&self) -> Vec<Finding> {
        let site = self.site;
        let beyond = |point: &str| {
            let path = site.circuits.path_to(point).unwrap_or_default();
            path.iter().any(|b| self.through().contains(b))
        };
        let mut found = Vec::new();
        let mut add = |severity, what: &str, rule: &str| {
            let text = format!("opening the main switch at `{}` parts {what}", site.main_switch.at);
            let place = Place::of(Section::MainSwitch, "at");
            let finding =
                Finding::new(Kind::MainSwitchParts, Subject::MainSwitch, text).as_severity(severity).rule(rule);
            let elsewhere = site.main_switch.at == point::SERVICE_BATTERY
                && site.circuits.to_point.contains_key(point::CUT_OFF)
                && !site
                    .circuits
                    .path_to(&site.solar.at)
                    .unwrap_or_default()
                    .iter()
                    .any(|b| site.circuits.branches[*b].far == point::CUT_OFF);
            found.push(if elsewhere {
                let words =
                    format!("put the switch at `{}`: then it parts the loads and leaves what charges", point::CUT_OFF);
                finding.at(place).remedy_edit(words, place, Some(Value::Text(point::CUT_OFF.into())))
            } else {
                finding.at(place).remedy(
                    "let what charges join before the switch, or open it only with the engine off and the panels dark",
                )
            });
        };
        if site.main_switch.at == point::STARTER_BATTERY && site.vehicle.alternator_rating > Amps::ZERO {
            let rule = "a running alternator that loses its battery throws its voltage up (load dump, ISO 16750-2)";
            add(Severity::Stop, "the starter battery from the alternator", rule);
        }
        if site.solar.array > Watts::ZERO && beyond(&site.solar.at) {
            let rule = "a charge controller never loses its battery while its panels feed it: to join, battery before panels; to part, panels before battery (common practice, no source)";
            add(Severity::Stop, "the solar controller from its battery while the panels feed it", rule);
        }
        if site.charger.kind != ChargerKind::None
            && site.main_switch.at != point::STARTER_BATTERY
            && beyond(point::CHARGER)
        {
            let rule = "what charges while driving keeps its battery (common practice, no source)";
            add(Severity::Caution, "the charger from its battery, also while the engine runs", rule);
        }
        found
    }

    /// What stays live is known by name, and has a device.
    fn live(&self) -> Option<Finding> {
        let live = stays_live(self.site, self.runs);
        let bare = live.iter().filter(|l| l.device.is_none()).count();
        let names: Vec<String> = live.iter().map(|l| run_name(&self.site.runs, l.run)).collect();
        let (first, more) = (names.first()?, names.len().saturating_sub(SHOWN));
        let all = if names.len() > 1 { names[..names.len().min(SHOWN)].join(", ") } else { first.clone() };
        let rest = if more > 0 { format!(" and {more} more") } else { String::new() };
        let (severity, fused) = match bare {
            0 => (Severity::Note, "each behind a fuse".to_string()),
            n => (Severity::Caution, format!("{n} of them behind no fuse")),
        };
        let text = format!("with the main switch open {all}{rest} stay live, {fused}");
        let place = Place::of(Section::MainSwitch, "at");
        Some(
            Finding::new(Kind::MainSwitchLive, Subject::MainSwitch, text)
                .as_severity(severity)
                .rule("what stays live behind an open switch is named on the owner's card and fused at its source (common practice, no source)")
                .at(place)
                .remedy("take the minus off both batteries, 2 of them, before any work"),
        )
    }
}
