//! What the law or the usual standard asks where the vehicle is registered: a list to look up.

use super::document::{Document, Table};
use super::facts::Columns;
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
    let columns = Columns::new()
        .words("document", "Document; edition", |l: &LookUp| format!("{}; {}", l.document, l.edition))
        .text("standing", "Is", |l| l.standing.words())
        .text("asks", "Look for", |l| &l.asks)
        .words("source", "How known", |l| cite([&l.from.document, &l.from.edition, &l.from.asks]));
    if blank { columns.blank("seen", "Seen") } else { columns }.list("look-up", "", rows)
}
