//! Tables of a paper as JSON: one object a row, named as in its CSV.

use super::number::rounded;
use crate::engine::design::results::fact::VERSION;
use crate::papers::csv_table::head;
use crate::papers::document::{Cell, Document};
use serde_json::{Map, Value, json};

/// All tables of a paper, by name.
pub fn tables(paper: &Document) -> Value {
    let mut out = json!({"version": VERSION});
    for table in paper.tables() {
        let rows = table.rows.len() - usize::from(table.total && !table.rows.is_empty());
        let row = |cells: &Vec<Cell>| {
            let named = table.columns.iter().zip(cells).map(|(c, cell)| (head(c), value(cell)));
            Value::Object(named.collect::<Map<_, _>>())
        };
        out[table.name] = table.rows.iter().take(rows).map(row).collect();
    }
    out
}

fn value(cell: &Cell) -> Value {
    match cell {
        Cell::Text(t) => Value::from(t.as_str()),
        Cell::Number(f) | Cell::Limit(f) => rounded(f.value),
        Cell::Absent | Cell::ToFill => Value::Null,
    }
}
