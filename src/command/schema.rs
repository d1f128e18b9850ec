//! `schema`: the JSON Schema of the plan file, so that editors complete and check it, or of what the commands print.

use super::arguments::Common;
use super::failure::Failure;
use super::own_arguments::Schema;
use super::status::Status;
use super::{input, output};
use crate::papers::json::{output_schema, plan_schema};

/// Print it.
pub fn run(schema: &Schema, common: &Common) -> Result<Status, Failure> {
    let printed = if schema.output { output_schema() } else { plan_schema(&input::catalogue(common)?) };
    output::json(&printed, common.color)?;
    Ok(Status::Fine)
}
