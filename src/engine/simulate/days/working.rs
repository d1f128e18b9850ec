//! How the headline numbers of a simulation came about.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::simulate::days::Endurance;
use crate::engine::simulate::days::scenario::Scenario;
use crate::quantity::*;

const S: Subject = Subject::Endurance;
const METHOD: &str = "minute-by-minute simulation with the kinetic battery model";

pub(crate) fn record(site: &Installation, scenario: &Scenario<'_>, out: &Endurance, book: &mut Book) {
    let l = &out.ledger;
    book.work(
        S,
        "lowest charge",
        Working::new("lowest state of charge", "", out.lowest)
            .with("t", "after", out.lowest_at)
            .with("C", "capacity of the bank", scenario.capacity())
            .source(METHOD)
            .note("approximation: loads run by their times exactly; see the uncertainty for what varies"),
    );
    book.work(
        S,
        "charge missing",
        Working::new("charge that the books cannot account for", "a + i - o - v - d - e", l.charge_missing())
            .with("a", "in the battery at the beginning", l.start)
            .with("i", "into its posts", l.charged)
            .with("o", "out of its posts", l.drawn)
            .with("v", "put in and not stored", l.lost)
            .with("d", "self-discharge", l.leaked)
            .with("e", "in it at the end", l.end)
            .source("conservation of charge; only rounding is left"),
    );
    let days = f64::from(out.days);
    let in_use = f64::from(site.service_battery.days_in_use);
    book.work(
        S,
        "cycles a year",
        Working::new("full cycles a year", "o / C / n * u", Figure::new(out.cycles_a_year, Unit::Cycle))
            .with("o", "drawn", l.drawn)
            .with("C", "capacity of the bank", scenario.capacity())
            .with("n", "days simulated", Figure::number(days))
            .with("u", "days in use a year", Figure::number(in_use))
            .source("charge drawn over the capacity"),
    );
    book.work(
        S,
        "wear by cycles",
        Working::new("share of its life used by cycles in a year", "", out.wear_cycles).source(format!(
            "each day wears like one cycle of its depth; {}",
            scenario.chemistry.life.from.cycles.words()
        )),
    );
    book.work(
        S,
        "wear by calendar",
        Working::new("share of its life used by the calendar in a year", "", out.wear_calendar)
            .source("calendar life halved for every 10 K above 25 °C; common practice, no source"),
    );
    book.work(
        S,
        "weekly balance",
        Working::new("change of charge over the last week", "", out.weekly_balance).source(METHOD),
    );
    book.work(S, "drift", Working::new("change of charge a week after the first", "", out.drift).source(METHOD));
}
