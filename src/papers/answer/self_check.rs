//! Published cases beside what the program makes of them with the catalogue in use.

use crate::engine::{PublishedCase, SelfCheck};
use crate::papers::document::Document;
use crate::papers::facts::Columns;
use itertools::Itertools;

/// The answer on paper: a line for each case, under its source.
pub fn self_check_answer(check: &SelfCheck) -> Document {
    let mut paper = Document::new("Published cases, worked here");
    let failed = check.failed().count();
    if failed > 0 {
        paper.stop_first(format!(
            "{failed} of {} published cases do not hold with this catalogue: look at the rows that you changed.",
            check.cases.len()
        ));
    } else {
        paper.paragraph(format!("All {} published cases hold with this catalogue.", check.cases.len()));
    }
    for (source, cases) in &check.cases.iter().chunk_by(|c| c.source) {
        let rows: Vec<&PublishedCase> = cases.collect();
        let table = Columns::new()
            .text("what", "Case", |c: &&PublishedCase| &c.what)
            .words("published", "Published", |c| c.published())
            .words("got", "Here", |c| c.got.map_or_else(|| "no such row".into(), |f| f.to_string()))
            .words("holds", "Holds", |c| if c.holds() { "yes" } else { "NO" }.into())
            .list("published-cases", source, &rows);
        paper.table(table);
    }
    paper
}
