//! `completions` and `man`: made from the same definition as the arguments.

use super::arguments::{Arguments, Color, Common};
use super::failure::Failure;
use super::own_arguments::{Completions, Man};
use super::status::Status;
use super::{input, output, typed};
use crate::plan::{Place, Section, field_at, nearest, shorten};
use anyhow::Context;
use clap::builder::PossibleValuesParser;
use clap::{Command, CommandFactory};

/// The command that a misspelt word was meant to be.
pub fn nearest_command(word: &str) -> Option<String> {
    if word.contains(['.', '/', '\\']) {
        return None;
    }
    let command = Arguments::command();
    nearest(word, command.get_subcommands().map(Command::get_name)).filter(|name| *name != word).map(str::to_string)
}

/// Which values of which command are words that a field of a plan takes.
const WORDS: [(&str, &str, Place); 6] = [
    ("cut-off", "chemistry", Place::of(Section::ServiceBattery, "chemistry")),
    ("cable", "drop", Place::load(0, "drop")),
    ("cable", "insulation", Place::run(0, "insulation")),
    ("cable", "through", Place::run(0, "surroundings")),
    ("cable", "sizes", Place::of(Section::Rules, "sizes")),
    ("cable", "size", Place::run(0, "size")),
];

/// Completions for a shell: commands, options, files, and the words of this user's own catalogue.
pub fn completions(completions: &Completions, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let mut command = Arguments::command();
    let names = command.get_subcommands().map(|s| s.get_name().to_string()).collect();
    let mut offer = |of: &str, argument: &str, words: Vec<String>| {
        let whole = std::mem::take(&mut command);
        command =
            whole.mut_subcommand(of, |sub| sub.mut_arg(argument, |a| a.value_parser(PossibleValuesParser::new(words))));
    };
    for (of, argument, place) in WORDS {
        let options = field_at(place).map(|f| f.options(&catalogue)).unwrap_or_default();
        // Several words are one value only in quotes; a size is read without its blank as well.
        let word = |key: String| if argument == "size" { typed::joined(&key) } else { key };
        offer(of, argument, options.into_iter().map(|(key, _)| word(key)).collect());
    }
    offer("man", "command", names);
    let mut text = Vec::new();
    clap_complete::generate(completions.shell, &mut command, "loomwright", &mut text);
    output::result(&String::from_utf8_lossy(&text), common.color)?;
    Ok(Status::Fine)
}

/// The manual page, all commands in one, or that of one command.
pub fn man(asked: &Man, color: Color) -> Result<Status, Failure> {
    let mut command = Arguments::command();
    command.build();
    let mut text = Vec::new();
    let names = || command.get_subcommands().map(Command::get_name).filter(|n| *n != "help");
    match &asked.command {
        None if asked.list => names().for_each(|name| text.extend_from_slice(format!("{name}\n").as_bytes())),
        Some(name) => {
            let Some(sub) = command.get_subcommands().find(|s| s.get_name() == name) else {
                let names: Vec<_> = names().collect();
                let help = match nearest_command(name) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("commands are {}", names.join(", ")),
                };
                return Err(Failure::new(format!("there is no command `{}`", shorten(name)), help));
            };
            let page = sub.clone().version(env!("CARGO_PKG_VERSION")).display_name(format!("loomwright-{name}"));
            clap_mangen::Man::new(page).render(&mut text).context("writing the manual page")?;
        }
        None => {
            clap_mangen::Man::new(command.clone()).render(&mut text).context("writing the manual page")?;
            for sub in command.get_subcommands().filter(|s| s.get_name() != "help") {
                let man = clap_mangen::Man::new(sub.clone());
                text.extend_from_slice(format!(".SH \"COMMAND {}\"\n", sub.get_name().to_uppercase()).as_bytes());
                man.render_synopsis_section(&mut text).context("writing the manual page")?;
                man.render_description_section(&mut text).context("writing the manual page")?;
                man.render_options_section(&mut text).context("writing the manual page")?;
                man.render_extra_section(&mut text).context("writing the manual page")?;
            }
        }
    }
    output::result(&String::from_utf8_lossy(&text), color)?;
    Ok(Status::Fine)
}
