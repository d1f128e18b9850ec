//! `completions` and `man`: made from the same definition as the arguments.

use super::arguments::{Arguments, Color, Completions};
use super::failure::Failure;
use super::output;
use super::status::Status;
use anyhow::Context;
use clap::CommandFactory;

/// Completions for a shell.
pub fn completions(completions: &Completions, color: Color) -> Result<Status, Failure> {
    let mut text = Vec::new();
    clap_complete::generate(completions.shell, &mut Arguments::command(), "loomwright", &mut text);
    output::result(&String::from_utf8_lossy(&text), color)?;
    Ok(Status::Fine)
}

/// The manual page, all commands in one.
pub fn man(color: Color) -> Result<Status, Failure> {
    let mut command = Arguments::command();
    command.build();
    let mut text = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut text).context("writing the manual page")?;
    for sub in command.get_subcommands().filter(|s| s.get_name() != "help") {
        let man = clap_mangen::Man::new(sub.clone());
        text.extend_from_slice(format!(".SH \"COMMAND {}\"\n", sub.get_name().to_uppercase()).as_bytes());
        man.render_synopsis_section(&mut text).context("writing the manual page")?;
        man.render_description_section(&mut text).context("writing the manual page")?;
        man.render_options_section(&mut text).context("writing the manual page")?;
        man.render_extra_section(&mut text).context("writing the manual page")?;
    }
    output::result(&String::from_utf8_lossy(&text), color)?;
    Ok(Status::Fine)
}
