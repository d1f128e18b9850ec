//! What happens over days of use, on paper: the curve, each day, each load.

use super::chart::{charge_svg, charge_text};
use super::document::{Block, Cell, Column, Document, Drawing, Table};
use super::job::Job;
use crate::engine::{Endurance, Span};
use crate::quantity::{Figure, Unit, counted};

/// The endurance of a plan as a paper of its own.
pub fn endurance_paper(job: &Job, span: Span, endurance: &Endurance) -> Document {
    let mut paper = Document::new(format!("Endurance – {}", job.title()));
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
        svg: charge_svg(endurance, "State of charge over the days"),
        text: charge_text(endurance),
    }));
    if days {
        paper.table(by_day(endurance));
    }
    paper.table(loads(job, endurance));
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

fn by_day(e: &Endurance) -> Table {
    let columns = [
        Column::number("day", "Day", Unit::Count),
        Column::number("lowest", "Lowest", Unit::Share),
        Column::number("end", "At its end", Unit::Share),
        Column::number("charged", "In", Unit::AmpHour),
        Column::number("drawn", "Out", Unit::AmpHour),
        Column::number("cut", "Cut off", Unit::Hour),
    ];
    let mut table = Table::new("endurance-days", "Each day", &columns);
    for (n, day) in e.by_day.iter().enumerate() {
        table.row(vec![
            Cell::count(n + 1),
            Cell::of(day.lowest),
            Cell::of(day.end),
            Cell::of(day.charged),
            Cell::of(day.drawn),
            Cell::of(day.cut_hours),
        ]);
    }
    table
}

fn loads(job: &Job, e: &Endurance) -> Table {
    let columns = [
        Column::text("load", "Load"),
        Column::number("wanted", "Wanted", Unit::Hour),
        Column::number("unserved", "Without power", Unit::Hour),
    ];
    let mut table = Table::new("endurance-loads", "Hours each load was wanted, and stood without power", &columns);
    for (load, hours) in job.plan.loads.iter().zip(&e.loads) {
        table.row(vec![load.name.as_str().into(), Cell::of(hours.wanted), Cell::of(hours.unserved)]);
    }
    table
}
