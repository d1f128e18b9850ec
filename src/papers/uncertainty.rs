//! How sure the days of use are, on paper: chances day by day, and what matters most.

use super::document::{Cell, Column, Document, Table};
use super::facts::Columns;
use crate::engine::simulate::chance::Uncertainty;
use crate::engine::simulate::chance::draw::Draws;
use crate::engine::simulate::chance::tornado::Bar;
use crate::quantity::{Share, Unit};

/// What many draws say, as a part of the endurance paper.
pub fn section(draws: Draws, u: &Uncertainty, paper: &mut Document) {
    paper.heading(1, "How sure that is");
    paper.paragraph(format!(
        "{} trials of {} days each (seed {}), over use, air, sun, age of the battery, charging while driving and charge \
         at the beginning. The chance of a cut is a share of the trials; inputs that hang together in life, such as \
         cold and dark days, are drawn apart.",
        u.draws, draws.span.days, draws.seed
    ));
    let [low, middle, high] = u.lowest;
    let [little, usual, much] = u.unserved;
    paper.facts(vec![
        ("Never cut off", format!("{} of the trials", u.uncut)),
        ("Lowest charge", format!("{middle} in half of them; under {low} in one of twenty, over {high} in another")),
        ("Without power", format!("{usual} in half of them, all loads together; {little} to {much} in nine of ten")),
    ]);
    paper.table(by_day(u));
    paper.table(tornado(u));
}

fn by_day(u: &Uncertainty) -> Table {
    let days: Vec<(Share, Share)> = u.cut_at_night.iter().copied().zip(u.cut_by.iter().copied()).collect();
    Columns::new()
        .own(Column::number("day", "Day", Unit::Count), |_, at| Cell::count(at.index + 1))
        .number("cut_at_night", "Cut in its night", |d: &(Share, Share)| d.0)
        .number("cut_by", "Cut by its end", |d| d.1)
        .list("uncertainty-days", "Chance of being cut off", &days)
}

fn tornado(u: &Uncertainty) -> Table {
    let caption = "What matters most: the lowest charge with one input low and high, the others in the middle";
    Columns::new()
        .fact(Bar::INPUT)
        .fact(Bar::LOW)
        .fact(Bar::AT_LOW)
        .fact(Bar::HIGH)
        .fact(Bar::AT_HIGH)
        .fact(Bar::SPREAD)
        .list("uncertainty-inputs", caption, &u.tornado)
}
