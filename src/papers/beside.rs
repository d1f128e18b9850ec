//! Designs side by side: a column for each, a row for each number they are compared by.

use super::document::{Cell, Column, Document, Table};
use super::job::Job;
use crate::engine::ask::rivals::variant::Variant;
use crate::quantity::counted;

/// So many stand beside each other.
pub const MOST_BESIDE: usize = 4;

const COLUMNS: [Column; MOST_BESIDE + 1] = [
    Column::text("what", ""),
    Column::text("a", "A"),
    Column::text("b", "B"),
    Column::text("c", "C"),
    Column::text("d", "D"),
];

/// A page of them alone.
pub fn beside_paper(job: &Job, designs: &[&Variant]) -> Document {
    let mut paper = Document::new(format!("Side by side – {}", job.title()));
    beside(designs, &mut paper);
    paper
}

/// The first of them, no more than [`MOST_BESIDE`].
pub fn beside(designs: &[&Variant], paper: &mut Document) {
    let designs = &designs[..designs.len().min(MOST_BESIDE)];
    let mut table = Table::new("beside", "Side by side, each a whole design", &COLUMNS[..=designs.len()]);
    let mut row = |what: &str, told: &dyn Fn(&Variant) -> String| {
        let cells = designs.iter().map(|v| Cell::Text(told(v)));
        table.row([Cell::from(what)].into_iter().chain(cells).collect());
    };
    let or_none = |told: Option<String>| told.unwrap_or_else(|| "–".into());
    row("Change", &|v| v.words.clone());
    // Its key in words, which break where four columns stand beside each other.
    row("Battery", &|v| format!("{}, {}", v.sums.chemistry.replace('-', " "), v.sums.capacity));
    row("Battery price", &|v| or_none(v.sums.price.map(|p| p.to_string())));
    row("All parts", &|v| match (v.sums.total, v.sums.unpriced) {
        (None, _) => "–".into(),
        (Some(total), 0) => total.to_string(),
        (Some(total), more) => format!("{total}, {} without a price", counted(more, "part")),
    });
    row("Battery mass", &|v| v.sums.mass.to_string());
    row("Charger", &|v| or_none(v.sums.charger.map(|a| a.to_string())));
    row("Sun", &|v| v.sums.array.to_string());
    row("Without charge", &|v| v.sums.lasts.to_string());
    row("Battery lasts", &|v| v.sums.years.to_string());
    row("Copper", &|v| v.sums.copper.to_string());
    row("Parts", &|v| v.sums.parts.to_string());
    row("Findings", &|v| v.sums.findings());
    row("New of them", &|v| if v.breaks.is_empty() { "none".into() } else { v.breaks.join("; ") });
    row("Beaten", &|v| if v.unbeaten { "by none of those compared" } else { "by another" }.into());
    paper.table(table);
}
