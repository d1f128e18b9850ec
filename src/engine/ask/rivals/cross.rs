//! Which other designs would do: chemistry, bank, charger, sun and the size of the feed, each with each?

use super::beside::{bank_edits, banks, chargers, feed, sizes};
use super::boards::{one_board, two_boards};
use super::matters::{Matters, matters};
use super::steps::steps;
use super::variant::{Bench, Variant};
use crate::catalogue::Catalogue;
use crate::engine::design::Design;
use crate::engine::judge::remedy::Edit;
use crate::plan::{Place, Plan, Section, Value, point};
use crate::quantity::Watts;

/// More sun that is tried.
const MORE_SUN: Watts = Watts::new(100.0);

/// What else would do, and what hangs on what.
#[derive(Clone, Debug, PartialEq)]
pub struct Rivals {
    /// The plan in hand first, then what nothing beats, then the rest.
    pub designs: Vec<Variant>,
    /// One step more and one step less of each part.
    pub steps: Vec<Variant>,
    /// Which of the user's numbers matter most.
    pub matters: Matters,
}

/// All of it, by whole designs. `go_on` is asked before each and may end the work.
pub fn rivals(plan: &Plan, catalogue: &Catalogue, before: &Design, go_on: &dyn Fn() -> bool) -> Rivals {
    let bench = Bench { plan, catalogue, before, go_on };
    Rivals { designs: cross(&bench), steps: steps(&bench), matters: matters(&bench) }
}

/// The designs alone, in the same order.
pub fn designs(plan: &Plan, catalogue: &Catalogue, before: &Design, go_on: &dyn Fn() -> bool) -> Vec<Variant> {
    cross(&Bench { plan, catalogue, before, go_on })
}

/// One choice among those of a part: its words, and its edits.
type Choice = (String, Vec<Edit>);

fn cross(bench: &Bench) -> Vec<Variant> {
    let as_is = bench.told("as planned".into(), Vec::new(), bench.before);
    let mut all = vec![as_is];
    for (words, edits) in batteries(bench) {
        for charger in chargers_of(bench) {
            for sun in suns(bench) {
                for feed in feeds(bench) {
                    let parts = [&charger, &sun, &feed];
                    let more: Vec<&str> = parts.iter().map(|p| p.0.as_str()).filter(|w| !w.is_empty()).collect();
                    let edits = parts.iter().fold(edits.clone(), |all, p| [&all[..], &p.1[..]].concat());
                    let words: Vec<&str> = [words.as_str()].into_iter().filter(|w| !w.is_empty()).chain(more).collect();
                    if !edits.is_empty() {
                        all.extend(bench.variant(words.join(", "), edits));
                    }
                }
            }
        }
    }
    for (words, edits) in two_boards(bench).into_iter().chain(one_board(bench)) {
        all.extend(bench.variant(words, edits));
    }
    // What may not be built is no match for what may, however light it is.
    let fewest = all.iter().map(|v| v.sums.stops.min(1)).min().unwrap_or(0);
    for n in 0..all.len() {
        let may = all[n].sums.stops.min(1) == fewest;
        all[n].unbeaten = may && !all.iter().any(|other| other.sums.beats(&all[n].sums));
    }
    // What comes to the same needs no second row.
    let mut kept: Vec<Variant> = Vec::new();
    for variant in all {
        if kept.iter().all(|k| k.sums != variant.sums) {
            kept.push(variant);
        }
    }
    if let Some((_, others)) = kept.split_first_mut() {
        others.sort_by(|a, b| {
            let of = |v: &Variant| (!v.unbeaten, v.sums.stops, v.sums.cautions);
            of(a).cmp(&of(b)).then(a.sums.mass.get().total_cmp(&b.sums.mass.get()))
        });
    }
    kept
}

/// Each chemistry that suits, with the bank that the program takes and with the next larger one.
fn batteries(bench: &Bench) -> Vec<Choice> {
    let mut out = vec![(String::new(), Vec::new())];
    let own = bench.before.battery.bank.as_ref().map(|b| b.chemistry.as_str());
    if let Some((_, (n, capacity))) =
        bench.before.battery.bank.iter().find_map(|b| Some((b, banks(bench.before, b)[1]?)))
    {
        out.push((format!("{capacity}"), bank_edits((n, capacity))));
    }
    let place = |key| Place::of(Section::ServiceBattery, key);
    for rival in bench.before.battery.candidates.iter().filter(|c| c.suits && c.bank.is_some()) {
        if Some(rival.chemistry.as_str()) == own {
            continue;
        }
        let chemistry = Edit { place: place("chemistry"), value: Some(Value::Text(rival.chemistry.clone())) };
        let free = ["capacity_ah", "in_parallel"].map(|key| Edit { place: place(key), value: None });
        out.push((rival.name.clone(), [vec![chemistry], free.to_vec()].concat()));
    }
    out
}

fn chargers_of(bench: &Bench) -> Vec<Choice> {
    let edit = |amps: f64| Edit { place: Place::of(Section::Charger, "current_a"), value: Some(Value::Number(amps)) };
    let next = chargers(bench.before)[1].map(|amps| (format!("charger {amps}"), vec![edit(amps.get())]));
    [(String::new(), Vec::new())].into_iter().chain(next).collect()
}

/// As it is, and with more panels; where there are none yet they join at the end of a run from the posts.
fn suns(bench: &Bench) -> Vec<Choice> {
    let site = &bench.before.installation;
    let place = |key| Place::of(Section::Solar, key);
    let array = site.solar.array + MORE_SUN;
    let mut edits = vec![Edit { place: place("array_w"), value: Some(Value::Number(array.get())) }];
    let none_yet = site.solar.array == Watts::ZERO;
    let from_posts = site.circuits.branches.iter().find(|b| b.near == point::SERVICE_BATTERY);
    if let Some(at) = from_posts.filter(|_| none_yet).map(|b| b.far.clone()) {
        edits.push(Edit { place: place("at"), value: Some(Value::Text(at)) });
    }
    vec![(String::new(), Vec::new()), (format!("{array} of sun"), edits)]
}

fn feeds(bench: &Bench) -> Vec<Choice> {
    let site = &bench.before.installation;
    let larger = feed(bench.before).and_then(|run| {
        let label = sizes(bench.before, run)[1].clone()?;
        let place = site.place_of(Place::run(run, "size"))?;
        Some((format!("feed of {label}"), vec![Edit { place, value: Some(Value::Text(label)) }]))
    });
    [(String::new(), Vec::new())].into_iter().chain(larger).collect()
}
