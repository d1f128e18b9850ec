//! What happens over days of use, on paper: the curve, each day, each load.

use super::chart::{charge_picture, charge_text};
use super::document::{Block, Cell, Column, Document, Drawing, Table};
use super::facts::Columns;
use super::job::Job;
use crate::engine::design::results::fact::At;
use crate::engine::{Endurance, EnduranceDay, LoadHours, Span};
use crate::quantity::{Figure, Unit, counted};

/// The endurance of a plan as a paper of its own.
pub fn endurance_paper(job: &Job, span: Span, endurance: &Endurance) -> Document {
    let mut paper = Document::new(format!("Days of use – {}", job.title()));
    section(job, span, endurance, true, &mut paper);
    paper
}

/// Its facts, curve and tables; `days` adds a line for each day.
pub fn section(job: &Job, span: Span, endurance: &Endurance, days: bool, paper: &mut Document) {
    paper.paragraph(format!(
        "{} from day {} of the year, beginning on a Monday with {} in a battery that has {} of its capacity.",
        counted(endurance.days as usize, "day"),
        span.first_day,
        span.from,
        span.health
    ));
    paper.facts(facts(endurance));
    paper.blocks.push(Block::Drawing(Drawing {
        caption: "State of charge".into(),
        picture: Some(charge_picture(endurance, "State of charge over the days")),
        text: charge_text(endurance),
    }));
    if days {
        paper.table(by_day(endurance, job.at()));
    }
    paper.table(loads(endurance, job.at()));
}

fn facts(e: &Endurance) -> Vec<(&'static str, String)> {
    let mut facts = vec![("Lowest", format!("{}, {} after the beginning", e.lowest, e.lowest_at))];
    facts.push(match e.first_cut {
        Some(at) => {
            ("Cut off", format!("{}, {} in all, first after {at}", counted(e.cuts as usize, "time"), e.cut_hours))
        }
        None => ("Cut off", "never".to_string()),
    });
    if e.dead_hours.get() > 0.0 {
        facts.push(("Nothing at all", format!("{}: battery empty or its own protection open", e.dead_hours)));
    }
    if e.refused_hours.get() > 0.0 {
        facts.push(("Charge refused", format!("{}: too cold or too hot to charge", e.refused_hours)));
    }
    facts.push((
        "Starter battery",
        match e.start_lost {
            Some(at) => format!("{} at its lowest; may not start the engine after {at}", e.starter_lowest),
            None => format!("{} at its lowest", e.starter_lowest),
        },
    ));
    let (more, less) = if e.weekly_balance.get() < 0.0 { ("out", "in") } else { ("in", "out") };
    facts.push(("Last week", format!("{} more {more} than {less}", e.weekly_balance.abs())));
    let way = if e.drift.get() < 0.0 { "down" } else { "up" };
    facts.push(("Drift", format!("{} of its charge {way} a week", e.drift.abs())));
    let l = &e.ledger;
    facts.push(("Used", format!("{}; {} into the battery, {} out of it", l.used, l.charged, l.drawn)));
    facts.push(("Offered", format!("driving {}, sun {}, mains {}", l.from_driving, l.from_sun, l.from_mains)));
    let cycles = Figure::number(e.cycles_a_year);
    facts
        .push(("Wear a year", format!("{cycles} cycles: {} of its life; calendar {}", e.wear_cycles, e.wear_calendar)));
    facts
}

fn by_day(e: &Endurance, at: At<'_>) -> Table {
    Columns::new()
        .own(Column::number("day", "Day", Unit::Count), |_, at| Cell::count(at.index + 1))
        .fact(EnduranceDay::LOWEST)
        .fact(EnduranceDay::END)
        .fact(EnduranceDay::CHARGED)
        .fact(EnduranceDay::DRAWN)
        .fact(EnduranceDay::CUT)
        .table("endurance-days", "Each day", &e.by_day, at)
}

fn loads(e: &Endurance, at: At<'_>) -> Table {
    let columns = Columns::new().fact(LoadHours::NAME).fact(LoadHours::WANTED).fact(LoadHours::UNSERVED);
    columns.table("endurance-loads", "Hours each load was wanted, and stood without power", &e.loads, at)
}
