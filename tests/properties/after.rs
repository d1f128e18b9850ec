//! A design made after that of the plan before it was changed is the design, to the last bit.

use crate::generated_fit_out::fit_out;
use crate::generated_leads;
use crate::generated_many::plans;
use crate::generated_text::{any, ordinary, text};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{design, design_after};
use loomwright::plan::{Plan, Section, fields_of, read};
use rand::seq::IndexedRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::collections::BTreeMap;
use toml_edit::{DocumentMut, Item, Table, TableLike, Value};

/// With one field of one of its tables changed or taken out; none where the field does not go into the file.
fn edited(text: &str, dice: &mut ChaCha8Rng, catalogue: &Catalogue) -> Option<(String, String)> {
    let mut document: DocumentMut = text.parse().unwrap();
    let often = [Section::Load, Section::Run, Section::HoldDown];
    let section = *if dice.random_bool(0.6) { often.choose(dice)? } else { Section::ALL.choose(dice)? };
    let field = *fields_of(section).collect::<Vec<_>>().choose(dice)?;
    let given = if dice.random_bool(0.8) { Some(any(field, 100, dice, catalogue, ordinary)?) } else { None };
    let (index, table): (usize, &mut dyn TableLike) = match section {
        Section::Job => (0, document.as_table_mut()),
        s if s.is_list() => {
            let tables = document.get_mut(s.key())?.as_array_of_tables_mut()?;
            let index = dice.random_range(0..tables.len());
            (index, tables.get_mut(index)?)
        }
        s => (0, document.entry(s.key()).or_insert(Item::Table(Table::new())).as_table_like_mut()?),
    };
    let words = format!("{}[{index}].{} = {given:?}", section.key(), field.key);
    let (table, key): (&mut dyn TableLike, &str) = match field.key.split_once('.') {
        Some((outer, inner)) => (table.entry(outer).or_insert(Item::Table(Table::new())).as_table_like_mut()?, inner),
        None => (table, field.key),
    };
    match given {
        Some(given) => table.insert(key, Item::Value(given.parse::<Value>().ok()?)),
        None => table.remove(key),
    };
    Some((document.to_string(), words))
}

fn sound(text: &str, catalogue: &Catalogue) -> Option<Plan> {
    let read = read(text, catalogue);
    read.problems.is_empty().then_some(read.plan)
}

/// Where two long texts part.
fn parting(one: &str, other: &str) -> String {
    let at = one.bytes().zip(other.bytes()).take_while(|(a, b)| a == b).count();
    let near = |s: &str| s.chars().skip(at.saturating_sub(200)).take(400).collect::<String>();
    format!("{}\n...\n{}", near(one), near(other))
}

/// Ten edits of each plan, one after the other, each designed after the former and anew.
#[test]
fn a_design_after_another_is_the_design() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut taken: BTreeMap<&str, usize> = BTreeMap::new();
    let mut edits = 0;
    for seed in 0..plans(12) {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut text = match seed % 4 {
            0 => text(seed, 25, &catalogue),
            1 => generated_leads::text(2, 6),
            _ => fit_out(seed),
        };
        let Some(plan) = sound(&text, &catalogue) else { continue };
        let mut former = design(&plan, &catalogue);
        for _ in 0..10 {
            let Some((changed, words)) = edited(&text, &mut dice, &catalogue) else { continue };
            let Some(plan) = sound(&changed, &catalogue) else { continue };
            let (after, anew) = (design_after(&former, &plan, &catalogue), design(&plan, &catalogue));
            let (told, full) = (format!("{after:?}"), format!("{anew:?}"));
            assert!(told == full, "seed {seed}: {words}\n{}", parting(&told, &full));
            for (what, took) in
                [("days", after.kept.took_days(&former.kept)), ("sizes", after.kept.took_sizes(&former.kept))]
            {
                *taken.entry(what).or_default() += usize::from(took);
            }
            edits += 1;
            (former, text) = (after, changed);
        }
    }
    println!("{edits} edits; taken from the former design: {taken:?}");
    assert!(taken.values().all(|n| n * 5 > edits), "{edits} edits: {taken:?}");
}
