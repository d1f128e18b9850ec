//! What can be asked about the program itself: its catalogue, schemas, completions, manual pages.

use super::form::Form;
use super::part::Part;
use clap::Args;
use clap_complete::Shell;

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright schema > plan.schema.json
  loomwright schema --output > answers.schema.json")]
pub struct Schema {
    /// Instead, the JSON Schema of what the other commands print with --json.
    #[arg(long)]
    pub output: bool,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Example:
  loomwright completions bash > ~/.local/share/bash-completion/completions/loomwright")]
pub struct Completions {
    /// Which shell.
    pub shell: Shell,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright man | man -l -
  loomwright man cable > loomwright-cable.1")]
pub struct Man {
    /// Which command; all in one page when left out.
    #[arg(value_name = "COMMAND")]
    pub command: Option<String>,
    /// Print the names of the commands instead, a line each.
    #[arg(long, conflicts_with = "command")]
    pub list: bool,
}

#[derive(Args, Clone, Debug)]
#[command(after_help = "\
Examples:
  loomwright catalogue conductors
  loomwright catalogue sources --json
  loomwright catalogue explain agm.charge
  loomwright catalogue own my-battery > my-battery.toml")]
pub struct CatalogueCommand {
    /// Which part.
    #[arg(value_name = "SHELF")]
    pub part: Part,
    /// What to explain: `agm`, `agm.charge.max`, `blade-c`, `rules.fuse-loading`; which row of your own to print.
    #[arg(required_if_eq("part", "explain"))]
    pub key: Option<String>,
    #[command(flatten)]
    pub form: Form,
}
