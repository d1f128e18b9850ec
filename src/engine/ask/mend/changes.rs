//! What else is different in another design? Sizes, devices, copper, battery, charger, settings.

use crate::engine::ask::workshop::cut::cut_list;
use crate::engine::ask::workshop::piece::Lug;
use crate::engine::design::Design;
use crate::engine::installation::subject::run_name;
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::quantity::{Kilograms, Volts};
use std::collections::BTreeSet;

/// So many runs are named; of the others only how many there are.
const NAMED: usize = 3;

/// In a few words each, what matters most first; nothing where the two come to the same.
pub fn changes(before: &Design, after: &Design) -> Vec<String> {
    let mut out = runs(before, after);
    let more = after.copper.mass - before.copper.mass;
    if more.get().abs() >= 0.005 {
        out.push(format!("{} copper", signed(more)));
    }
    out.extend(bank(before, after));
    out.extend(charger(before, after));
    let opens = |d: &Design| (d.cut_off.cut > Volts::ZERO).then(|| format!("cut-off at {}", d.cut_off.cut));
    out.extend(opens(before).zip(opens(after)).and_then(|(a, b)| instead(a, b)));
    out
}

/// What else would be bought: sizes and devices of runs, battery, charger.
pub fn purchases(before: &Design, after: &Design) -> Vec<String> {
    let mut out = runs(before, after);
    out.extend(bank(before, after));
    out.extend(charger(before, after));
    let switch = |d: &Design| d.cut_off.rating.map_or_else(|| "no cut-off".to_string(), |a| format!("cut-off of {a}"));
    out.extend(instead(switch(before), switch(after)));
    out
}

fn charger(before: &Design, after: &Design) -> Option<String> {
    let says = |d: &Design| d.charger.current.map_or_else(|| "no charger".to_string(), |a| format!("charger {a}"));
    instead(says(before), says(after))
}

/// `charger 30 A instead of 20 A`; nothing where both are the same.
fn instead(before: String, after: String) -> Option<String> {
    let shared = before.split(' ').zip(after.split(' ')).take_while(|(a, b)| a == b).count();
    let rest: Vec<&str> = before.split(' ').skip(shared).collect();
    (before != after).then(|| format!("{after} instead of {}", rest.join(" ")))
}

fn signed(mass: Kilograms) -> String {
    let sign = if mass.get() > 0.0 { "+" } else { "-" };
    format!("{sign}{}", Kilograms::new(mass.get().abs()))
}

/// The same run in both: those of the plan by their place, leads by their load.
fn pairs<'a>(before: &'a Design, after: &'a Design) -> Vec<(&'a RunDesign, &'a RunDesign)> {
    let (old, new) = (&before.installation, &after.installation);
    let same = |run: &RunDesign| {
        let at = run.run;
        if at < new.own_runs() {
            return (at < old.own_runs()).then_some(at);
        }
        let load = new.load_of(at)?;
        old.lead_of(load).filter(|_| !new.is_way(at))
    };
    after.runs.iter().filter_map(|run| Some((before.runs.get(same(run)?)?, run))).collect()
}

fn runs(before: &Design, after: &Design) -> Vec<String> {
    let site = &after.installation;
    let mut out = Vec::new();
    let mut resized: BTreeSet<usize> = BTreeSet::new();
    for (old, new) in pairs(before, after) {
        let label = |r: &RunDesign| r.size.as_ref().map(|s| s.label.clone()).unwrap_or_default();
        let device = |r: &RunDesign| r.fuses.first().and_then(|f| Some(format!("{} {}", f.style_name, f.rating?)));
        let mut said = Vec::new();
        if let Some(size) = new.size.as_ref().filter(|_| label(old) != label(new)) {
            said.push(format!("{}, which drops {} ({})", size.label, size.drop, size.drop_share));
            resized.insert(new.run);
        }
        if device(old) != device(new) {
            said.push(device(new).unwrap_or_else(|| "no device".into()));
        }
        if !said.is_empty() {
            out.push(format!("{}: {}", run_name(&site.runs, new.run), said.join(", ")));
        }
    }
    let more = out.len().saturating_sub(NAMED);
    out.truncate(NAMED);
    if more > 0 {
        out.push(format!("{more} more of the runs"));
    }
    if resized.len() == 1 {
        out.extend(lugs(after, &resized));
    }
    out
}

/// `lug 35-8`: for copper of 35 mm² and a stud of 8 mm, as the trade writes it.
fn lugs(after: &Design, runs: &BTreeSet<usize>) -> Option<String> {
    let cuts = cut_list(after).cuts;
    let own = cuts.iter().filter(|c| c.run.is_some_and(|r| runs.contains(&r)));
    let mut names: BTreeSet<String> = BTreeSet::new();
    for cut in own {
        for lug in [&cut.lug_from, &cut.lug_to] {
            if let Lug::Ring(stud) = lug {
                let (copper, stud) = (cut.size.trim_end_matches(" mm²"), stud.trim_start_matches('M'));
                names.insert(format!("{copper}-{stud}"));
            }
        }
    }
    let all: Vec<String> = names.into_iter().collect();
    (!all.is_empty()).then(|| format!("lug {}", all.join(", ")))
}

fn bank(before: &Design, after: &Design) -> Vec<String> {
    let says = |b: &Bank| format!("battery {} of {}, {}", b.capacity, b.chemistry, b.mass);
    let of = |d: &Design| d.battery.bank.as_ref().map(says).unwrap_or_else(|| "no battery".into());
    let mut out: Vec<String> = instead(of(before), of(after)).into_iter().collect();
    let price = |d: &Design| d.battery.candidates.iter().find(|c| c.chosen).and_then(|c| c.price);
    if let Some((old, new)) = price(before).zip(price(after)).filter(|(old, new)| old != new) {
        out.push(format!("battery for {new} instead of {old}"));
    }
    out
}
