//! `schema`: the JSON Schema of the plan file, so that editors complete and check it.

use super::arguments::{Common, Schema};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::papers::json::plan_schema;
use crate::papers::{Block, Document, json, plain};

/// Print it; or the names in the JSON of the other commands.
pub fn run(schema: &Schema, common: &Common) -> Result<Status, Failure> {
    if schema.output {
        let mut paper = Document::new("Names in the JSON of report, check, cable and cut-off");
        paper.paragraph(
            "Version 1. A number is in the unit at the end of its name: v, a, ah, wh, m, mm, mm2, c, s, h, d, kg, n, \
             nm, ohm, a2s (years_a is in years); shares are 0 to 1; null is none or not known. \
             Names of `endurance` stand under a path of that name. `catalogue` gives one list for each of its tables, its \
             rows named as in the heads of a CSV; `papers` gives `folder` and `files`.",
        );
        for object in json::shape() {
            let at: Vec<&str> = object.at.iter().map(|a| if a.is_empty() { "the top" } else { a }).collect();
            paper.heading(2, at.join(", "));
            let names = object.names.iter().map(|(name, means)| ((*name).to_string(), (*means).to_string()));
            paper.blocks.push(Block::Facts(names.collect()));
        }
        output::result(&plain(&paper, &common.look()), common.color)?;
    } else {
        let catalogue = input::catalogue(common)?;
        output::json(&plan_schema(&catalogue), common.color)?;
    }
    Ok(Status::Fine)
}
