//! A design for scripts: JSON with a version, units in the names of its numbers.
//!
//! Names and meanings are those of the table of results, so the schema that is
//! printed is the one that holds. Numbers have six significant digits; what
//! does not exist is `null`; shares are 0 to 1.

mod answers;
mod explain;
pub(super) mod number;
mod output_schema;
mod plan_schema;
mod tables;
mod write;

pub use answers::{Checked, Written};
pub use explain::explained;
pub use output_schema::output_schema;
pub use plan_schema::plan_schema;
pub use tables::tables;
pub use write::answer;
