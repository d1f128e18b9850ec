//! What `table` is asked, and in which units and on which sheets papers are.

use crate::plan;
use clap::{Args, ValueEnum, ValueHint};
use std::path::PathBuf;

/// Units of length, mass, temperature and torque.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// m, kg, °C, Nm.
    Metric,
    /// ft, lb, °F, lbf ft.
    Imperial,
}

impl Units {
    /// The same as a plan says it.
    pub fn of_plan(self) -> plan::Units {
        match self {
            Units::Metric => plan::Units::Metric,
            Units::Imperial => plan::Units::Imperial,
        }
    }
}

/// Sheets of the PDF.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Page {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

/// A list of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum List {
    /// What uses energy.
    Loads,
    /// Cables.
    Runs,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
A row is a load or a run, a column a key of the plan with its unit at the end; an empty cell
leaves it to the default or to the engine. Taken back, the first row is the first of the
plan: rows that are new are added, rows that are gone are taken out, comments stay.

Examples:
  loomwright table loads van.toml > loads.csv
  loomwright table loads van.toml --from loads.csv --to van-new.toml
  loomwright table runs van.toml --decimal-comma --bom > runs.csv")]
pub struct TableCommand {
    /// Which list.
    #[arg(value_enum)]
    pub list: List,
    /// Plan file; - for standard input; an example when left out.
    #[arg(value_name = "PLAN", value_hint = ValueHint::FilePath)]
    pub plan: Option<PathBuf>,
    /// Take the list from this CSV, - for standard input; semicolons and decimal commas are seen by its first line.
    #[arg(long, value_name = "CSV", value_hint = ValueHint::FilePath, requires = "to")]
    pub from: Option<PathBuf>,
    /// Write the plan with it into this file; - for standard output.
    #[arg(long, value_name = "OUT", value_hint = ValueHint::FilePath, requires = "from")]
    pub to: Option<PathBuf>,
    /// Every column, not only those in use.
    #[arg(long, conflicts_with = "from")]
    pub every_column: bool,
    /// Semicolons between cells, commas in numbers.
    #[arg(long, conflicts_with = "from")]
    pub decimal_comma: bool,
    /// Begin with a byte order mark, by which some spreadsheets know UTF-8.
    #[arg(long, conflicts_with = "from")]
    pub bom: bool,
}
