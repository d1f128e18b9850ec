//! What can be said about a logger's file, and about a test of the battery?

use super::form::Form;
use crate::log::Clock;
use clap::{Args, ValueHint};
use std::path::PathBuf;

/// A logger's file beside a plan.
#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Any CSV of time, volts and amperes at the service battery. How it was read stands
first: check it. Columns are named in their order: time, volts, amps, temperature,
charging (what a charger gives), - for another.

Examples:
  loomwright log van.toml week.csv
  loomwright log van.toml week.csv --columns time,amps,volts --positive out
  loomwright log van.toml week.csv --delimiter ';' --decimal comma --clock seconds
  loomwright log van.toml week.csv --take resistance --take fridge-hours")]
pub struct Log {
    /// Plan file; - for standard input.
    #[arg(value_name = "PLAN", value_hint = ValueHint::FilePath)]
    pub plan: PathBuf,
    /// The logger's file; - for standard input.
    #[arg(value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub file: PathBuf,
    /// What the columns hold, instead of what is recognised.
    #[arg(long, value_name = "NAMES", value_delimiter = ',')]
    pub columns: Vec<String>,
    /// What stands between the cells: `;`, `,`, `|` or tab.
    #[arg(long, value_name = "SIGN", value_parser = [";", ",", "|", "tab"])]
    pub delimiter: Option<String>,
    /// What stands before decimals.
    #[arg(long, value_name = "SIGN", value_parser = ["point", "comma"])]
    pub decimal: Option<String>,
    /// How the clock is written.
    #[arg(long, value_name = "CLOCK", value_parser = Clock::NAMED.map(|(word, _)| word))]
    pub clock: Option<String>,
    /// Which way a positive current flows: out of the battery, or in.
    #[arg(long, value_name = "WAY", value_parser = ["out", "in"])]
    pub positive: Option<String>,
    /// Which stands first in a date such as 03/04/2026: day or month.
    #[arg(long, value_name = "FIRST", value_parser = ["day", "month"])]
    pub date: Option<String>,
    /// Take this number into the plan file; by its key, or `all`.
    #[arg(long, value_name = "KEY")]
    pub take: Vec<String>,
    #[command(flatten)]
    pub form: Form,
}

/// The battery over the years.
#[derive(Args, Clone, Debug)]
#[command(after_help = "\
What was found stands in the plan as [[measured]] with year, month and capacity_ah;
the first may be the month in which the battery was fitted. The test is described;
give what it showed to have it worked out.

Examples:
  loomwright ageing van.toml
  loomwright ageing van.toml --drawn 46Ah --hours 5h --rested 12.23V")]
pub struct AgeingArguments {
    /// Plan file; - for standard input.
    #[arg(value_name = "PLAN", value_hint = ValueHint::FilePath)]
    pub plan: PathBuf,
    /// Charge drawn from full in the test.
    #[arg(long, value_name = "CHARGE", requires = "rested")]
    pub drawn: Option<String>,
    /// From switching on to the reading after the rest.
    #[arg(long, value_name = "TIME", default_value = "12h")]
    pub hours: String,
    /// Voltage at the posts after the rest.
    #[arg(long, value_name = "VOLTAGE", requires = "drawn")]
    pub rested: Option<String>,
    /// Battery's temperature then.
    #[arg(long, value_name = "TEMPERATURE", default_value = "20C", allow_hyphen_values = true)]
    pub air: String,
    #[command(flatten)]
    pub form: Form,
}
