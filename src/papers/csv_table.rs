//! A table as CSV: full digits, the unit in each column's name.

use super::clean::clean;
use super::document::{Cell, Column, Table};
use super::json::number::rounded;
use super::plain::Look;
use crate::quantity::Unit;

/// The table; without its line of sums, which a spreadsheet makes itself.
pub fn csv_table(table: &Table, look: &Look) -> String {
    let between = if look.decimal_comma { b';' } else { b',' };
    let mut writer = csv::WriterBuilder::new().delimiter(between).from_writer(Vec::new());
    let rows = table.rows.len() - usize::from(table.total && !table.rows.is_empty());
    let heads = table.columns.iter().map(head);
    // Writing into memory cannot fail.
    let _ = writer.write_record(heads);
    for row in table.rows.iter().take(rows) {
        let _ = writer.write_record(row.iter().map(|c| cell(c, look.decimal_comma)));
    }
    let text = writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default();
    if look.bom { format!("\u{feff}{text}") } else { text }
}

/// `drop_v`, `length_m`, `loss_share`; results have their unit in their key already.
pub(super) fn head(column: &Column) -> String {
    let unit = match column.unit {
        None | Some(Unit::Count | Unit::Number) => "",
        Some(Unit::Share) => "_share",
        Some(Unit::Ohm) => "_ohm",
        Some(Unit::Day) => "_d",
        Some(Unit::Year) => "_years",
        Some(unit) => unit.key_suffix(),
    };
    let unit = if column.key.ends_with(unit.trim_start_matches('_')) { "" } else { unit };
    format!("{}{unit}", column.key)
}

fn cell(cell: &Cell, decimal_comma: bool) -> String {
    match cell {
        Cell::Text(text) => guarded(&clean(text)),
        Cell::Number(figure) | Cell::Limit(figure) => match rounded(figure.value) {
            serde_json::Value::Null => String::new(),
            number if decimal_comma => number.to_string().replace('.', ","),
            number => number.to_string(),
        },
        Cell::Absent | Cell::ToFill => String::new(),
    }
}

/// A spreadsheet would take a text that begins like a formula for one.
fn guarded(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@']) { format!("'{text}") } else { text.into() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Volts;

    #[test]
    fn units_are_in_the_heads_and_formulas_are_words() {
        let columns = [Column::text("load", "Load"), Column::number("drop", "Drop", Unit::Volt)];
        let mut table = Table::new("t", "", &columns);
        table.row(vec!["=1+1".into(), Cell::of(Volts::new(0.25))]);
        table.row(vec!["a, \"b\"\n".into(), Cell::Absent]);
        assert_eq!(csv_table(&table, &Look::default()), "load,drop_v\n'=1+1,0.25\n\"a, \"\"b\"\" \",\n");
        let comma = Look { decimal_comma: true, bom: true, ..Look::default() };
        assert_eq!(csv_table(&table, &comma), "\u{feff}load;drop_v\n'=1+1;0,25\n\"a, \"\"b\"\" \";\n");
    }
}
