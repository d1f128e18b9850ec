//! `schema`: the JSON Schema of the plan file, so that editors complete and check it.

use super::arguments::{Common, Schema};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::papers::json::plan_schema;
use crate::papers::{Cell, Column, Document, Table, json, plain};

/// Print it; or the names in the JSON of the other commands.
pub fn run(schema: &Schema, common: &Common) -> Result<Status, Failure> {
    if schema.output {
        let mut paper = Document::new("Names in the JSON of report, check, cable and cut-off");
        paper.paragraph(
            "Version 1. Numbers are in the unit at the end of their name (_v, _a, _ah, _wh, _m, _mm2, _c, _s, _h, _d, \
             _kg, _ohm; _a alone after `years` is years); shares are 0 to 1; null is none or not known.",
        );
        let columns = [Column::text("path", "Name"), Column::text("means", "What it is")];
        let mut table = Table::new("names", "", &columns);
        for name in json::shape() {
            table.row(vec![Cell::from(name.path), Cell::from(name.means)]);
        }
        paper.table(table);
        output::result(&plain(&paper, &common.look()), common.color)?;
    } else {
        let catalogue = input::catalogue(common)?;
        output::json(&plan_schema(&catalogue), common.color)?;
    }
    Ok(Status::Fine)
}
