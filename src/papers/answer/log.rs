//! A log beside its plan, on paper.

use crate::engine::LogAnswer;
use crate::papers::chart::curve_text;
use crate::papers::document::{Block, Cell, Column, Document, Drawing, Table};
use crate::quantity::{Figure, counted};

const COLUMNS: [Column; 6] = [
    Column::text("what", "What"),
    Column::text("planned", "Planned"),
    Column::text("measured", "Measured"),
    Column::text("least", "At least"),
    Column::text("most", "At most"),
    Column::text("samples", "From"),
];

/// The answer on paper.
pub fn log_answer_paper(answer: &LogAnswer) -> Document {
    let mut paper = Document::new("Log beside the plan");
    paper.facts(answer.read_as.clone());
    paper.paragraph(format!("{} over {} count.", counted(answer.rows, "row"), answer.days));
    paper.list(answer.left_out.clone());
    let mut table = Table::new("log", "Planned and measured; bounds hold in 95 of 100 logs", &COLUMNS);
    for line in &answer.lines {
        let cell = |f: Option<Figure>| f.map_or(Cell::Absent, |f| Cell::Text(f.to_string()));
        table.row(vec![
            Cell::Text(line.words.clone()),
            cell(line.planned),
            cell(line.measured),
            cell(line.least),
            cell(line.most),
            if line.samples == 0 { Cell::Absent } else { Cell::Text(line.samples.to_string()) },
        ]);
    }
    paper.table(table);
    let noted = answer.lines.iter().filter(|l| !l.note.is_empty());
    paper.list(noted.map(|l| format!("{}: {}", l.words.trim(), l.note)).collect());
    let changed: Vec<(String, Vec<String>)> = answer
        .lines
        .iter()
        .filter(|l| !l.then.is_empty())
        .map(|l| (format!("--take {}", l.key), l.then.clone()))
        .collect();
    if !changed.is_empty() {
        paper.heading(1, "What it changes");
        paper.blocks.extend(changed.into_iter().map(|(key, then)| Block::Entry(key, then)));
    }
    if !answer.curve.is_empty() {
        paper.blocks.push(Block::Drawing(Drawing {
            caption: "Voltage at the posts: o measured, - expected, * both".into(),
            picture: None,
            text: curve_text(&answer.curve),
        }));
    }
    paper
}
