//! What can be asked about the program itself: its schemas, completions, manual pages.

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
