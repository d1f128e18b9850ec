//! Which numbers must be written down so that an edit changes the number of no other cable?
//!
//! Labels on finished cables outlive edits of the plan. Numbers are left to the order of the plan for as long as that
//! changes none; where it would, they are written into the plan.

use crate::engine::installation::Installation;
use crate::plan::{self, Place, Section, Value};
use crate::screens::app::App;
use std::collections::BTreeMap;

/// Whether a field decides which cables there are, or a number itself.
pub fn renumbers(place: Place) -> bool {
    match place.section {
        Section::Load => {
            matches!(place.key, "at" | "lead_m" | "count" | "inverter" | "lead_number" | "way" | "way_number")
        }
        Section::Run => place.key == "number",
        _ => false,
    }
}

/// An edited text in which each cable has the number that it had. `moved` says at which index the item of an old place
/// stands now, or that it is gone.
pub fn kept(app: &App, edited: String, moved: impl Fn(Place) -> Option<usize>) -> String {
    let before = numbers(&app.now.design.installation).into_iter();
    let want: BTreeMap<Place, u32> =
        before.filter_map(|(place, number)| Some((Place { index: moved(place)?, ..place }, number))).collect();
    // Those that would change are written first; what these displace, after.
    let mut text = edited;
    for _ in 0..want.len() {
        let read = plan::read(&text, &app.catalogue);
        let now = numbers(&Installation::of(&read.plan, &app.catalogue));
        let other = |(place, number): &(&Place, &u32)| now.get(place).is_some_and(|n| n != *number);
        // Each once: a way stands at all of its loads.
        let changed: BTreeMap<u32, Place> = want.iter().filter(other).map(|(p, n)| (*n, *p)).collect();
        if changed.is_empty() {
            break;
        }
        for (number, place) in changed {
            match plan::set(&text, place, Some(&Value::Number(f64::from(number)))) {
                Ok(written) => text = written,
                Err(_) => return text,
            }
        }
    }
    text
}

/// The number of each cable, by the place where it stands or would stand in the plan; that of a shared way by the
/// place of each load in it, since any of them may leave.
fn numbers(site: &Installation) -> BTreeMap<Place, u32> {
    let place = |run: usize| site.place_of(Place::run(run, "number"));
    let cables = site.runs.iter().enumerate().filter_map(|(i, run)| Some((place(i)?, run.number?)));
    let behind = |load: usize| Some(&site.runs.get(site.lead_of(load)?)?.from);
    let ways = site.runs.iter().enumerate().filter(|(i, _)| site.is_way(*i));
    let of_loads = ways.flat_map(|(_, way)| {
        let own = (0..site.loads.len()).filter(|load| behind(*load) == Some(&way.to));
        own.filter_map(|load| Some((Place::load(load, "way_number"), way.number?)))
    });
    cables.chain(of_loads).collect()
}
