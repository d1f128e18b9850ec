//! What the law or the usual standard asks where the vehicle is registered: a list to look up.

use super::document::{Cell, Column, Document, Table};
use super::job::Job;
use crate::catalogue::{Catalogue, LookUp, cite};

/// The list of a plan. `blank`: with a place to say that it was looked up.
pub fn section(job: &Job, blank: bool, paper: &mut Document) {
    let region = job.plan.job.region.as_deref();
    paper.paragraph(match region.and_then(|key| job.catalogue.region(key)) {
        Some(region) => format!("For {}. {LAST_WORD}", region.name),
        None => {
            let keys: Vec<&str> = job.catalogue.regions.iter().map(|r| r.key.as_str()).collect();
            format!(
                "The plan names no region, so only what holds everywhere is listed; `region` may be {}. {LAST_WORD}",
                keys.join(", ")
            )
        }
    });
    paper.table(table(job.catalogue.to_look_up(region), blank));
}

const LAST_WORD: &str = "A list to look up, never the last word: this plan was not checked against it, editions change, \
                         and the one in force where the vehicle is registered counts.";

/// Every document of the catalogue, with its regions.
pub fn all(catalogue: &Catalogue) -> Table {
    table(catalogue.look_ups.iter(), false)
}

fn table<'a>(rows: impl Iterator<Item = &'a LookUp>, blank: bool) -> Table {
    let mut columns = vec![
        Column::text("document", "Document; edition"),
        Column::text("standing", "Is"),
        Column::text("asks", "Look for"),
        Column::text("source", "How known"),
    ];
    if blank {
        columns.push(Column::text("seen", "Seen"));
    }
    let mut table = Table::new("look-up", "", &columns);
    for row in rows {
        let known = cite([&row.from.document, &row.from.edition, &row.from.asks]);
        let mut cells: Vec<Cell> = vec![
            format!("{}; {}", row.document, row.edition).into(),
            row.standing.words().into(),
            row.asks.as_str().into(),
            known.into(),
        ];
        cells.extend(blank.then_some(Cell::ToFill));
        table.row(cells);
    }
    table
}
