//! What would one step more, or one step less, of each part change?

use super::beside::{bank_edits, banks, chargers, sizes};
use super::variant::{Bench, Variant};
use crate::engine::design::which_fuse::which_fuse;
use crate::engine::installation::subject::run_name;
use crate::engine::judge::remedy::Edit;
use crate::plan::{Place, Section, Value};
use crate::quantity::{Volts, Watts};

/// One step of an array.
const PANEL: Watts = Watts::new(50.0);

/// Each part one step smaller and one step larger, everything else as it is or left to the program as it was.
pub fn steps(bench: &Bench) -> Vec<Variant> {
    let of = |(words, edits): (String, Vec<Edit>)| bench.variant(words, edits);
    proposed(bench).into_iter().filter_map(of).collect()
}

fn proposed(bench: &Bench) -> Vec<(String, Vec<Edit>)> {
    let design = bench.before;
    let site = &design.installation;
    let mut out: Vec<(String, Vec<Edit>)> = Vec::new();
    let mut put = |words: String, place: Place, value: Value| {
        if let Some(place) = site.place_of(place) {
            out.push((words, vec![Edit { place, value: Some(value) }]));
        }
    };
    for amps in chargers(design).into_iter().flatten() {
        let words = format!("charger: {amps}");
        put(words, Place::of(Section::Charger, "current_a"), Value::Number(amps.get()));
    }
    let array = site.solar.array;
    for watts in [array - PANEL, array + PANEL].into_iter().filter(|w| array > Watts::ZERO && *w > Watts::ZERO) {
        put(format!("solar array: {watts}"), Place::of(Section::Solar, "array_w"), Value::Number(watts.get()));
    }
    let (cut, step) = (design.cut_off.cut, site.cut_off.step);
    for volts in [cut - step, cut + step].into_iter().filter(|_| cut > Volts::ZERO) {
        put(format!("cut-off: {volts}"), Place::of(Section::CutOff, "cut_v"), Value::Number(volts.get()));
    }
    for run in 0..design.runs.len() {
        let name = run_name(&site.runs, run);
        for label in sizes(design, run).into_iter().flatten() {
            put(format!("{name}: {label}"), Place::run(run, "size"), Value::Text(label));
        }
        for fuse in which_fuse(design, run).into_iter().filter(|f| !f.far_end).take(1) {
            for rating in [fuse.down, fuse.up].into_iter().flatten().map(|s| s.rating) {
                put(format!("{name}: {rating} device"), Place::run(run, "fuse_a"), Value::Number(rating.get()));
            }
        }
    }
    let bank = design.battery.bank.iter().flat_map(|bank| banks(design, bank)).flatten();
    let mut all: Vec<_> =
        bank.map(|b| (format!("battery: {} in {} of equal size", b.1, blocks(b.0)), bank_edits(b))).collect();
    all.append(&mut out);
    all
}

fn blocks(n: u32) -> String {
    if n == 1 { "one block".into() } else { format!("{n} blocks") }
}
