//! How is an edit said?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::remedy::Edit;
use crate::plan::{Place, Plan, Section, field_at};
use crate::quantity::UnitSystem;

/// What a place belongs to: `R7 rear`, `fridge`, `cut-off`.
pub fn owner(site: &Installation, place: Place) -> String {
    match place.section {
        Section::Run => run_name(&site.runs, place.index),
        Section::Load => site.name_of(&Subject::Load(place.index)),
        section if section.is_list() => format!("{} {}", section.title().to_lowercase(), place.index + 1),
        section => section.title().to_lowercase(),
    }
}

/// `R7 rear, size 2.5 mm²`: a field with its value in the plan.
pub fn demand(site: &Installation, plan: &Plan, place: Place) -> String {
    let Some(field) = field_at(place) else { return owner(site, place) };
    let value = field
        .get(plan, place.index)
        .map_or_else(|| "left to the program".into(), |v| field.show(&v, UnitSystem::Metric));
    format!("{}, {} {value}", owner(site, place), field.words())
}

/// `R7 rear, size: 35 mm² instead of 2.5 mm²`.
pub fn edit(site: &Installation, plan: &Plan, edit: &Edit) -> String {
    let place = edit.place;
    let Some(field) = field_at(place) else { return owner(site, place) };
    let show = |v| field.show(&v, UnitSystem::Metric);
    let old = field.get(plan, place.index).map(show).filter(|old| !old.is_empty());
    let new = edit.value.clone().map_or_else(|| "left to the program".into(), show);
    let instead = old.map_or_else(String::new, |old| format!(" instead of {old}"));
    format!("{}, {}: {new}{instead}", owner(site, place), field.words())
}
