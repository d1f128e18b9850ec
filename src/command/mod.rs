//! What is asked from the shell: the command line, one file per command.
//!
//! Nothing is computed here: a command reads, asks the engine, and lets
//! `papers` write the answer.

mod ageing;
mod arguments;
mod beside;
mod cable;
mod catalogue;
mod check;
mod common;
mod cut_off;
mod days;
mod failure;
mod fault;
mod folder;
mod form;
mod input;
mod log;
mod log_arguments;
mod mend;
mod message;
mod output;
mod own_arguments;
mod papers;
mod part;
mod progress;
mod readings;
mod report;
mod rivals;
mod schema;
mod screens;
mod self_check;
mod shell;
mod status;
mod table;
mod table_arguments;
mod typed;
mod used_battery;

use crate::papers::clean;
use crate::plan::{is_hidden, is_there};
use arguments::{Arguments, Command};
use clap::Parser;
use failure::Failure;
use status::Status;
use std::path::Path;
use std::process::ExitCode;

/// Each thread that designs may go so deep: a chain of thousands of runs is gone through as deep as it is long.
const STACK: usize = 64 << 20;

/// Do what the command line asks.
pub fn main() -> ExitCode {
    // Where it fails, the library's own threads serve, and the chain may be shorter.
    let _ = rayon::ThreadPoolBuilder::new().stack_size(STACK).build_global();
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(e) => return misused(&e),
    };
    let common = arguments.common.clone();
    match run(arguments) {
        Ok(status) => status.into(),
        Err(failure) => {
            output::message(&failure.show(&common.look()), common.color);
            Status::Unreadable.into()
        }
    }
}

/// Help, the version, or what is wrong with the command line: as it is, unless what was typed has
/// no end or hides something.
fn misused(e: &clap::Error) -> ExitCode {
    // A misspelt command is taken for a plan, and then its own options and plans fit nowhere.
    let first = std::env::args_os().nth(1).map(std::path::PathBuf::from);
    if e.kind() == clap::error::ErrorKind::UnknownArgument
        && let Err(failure) = misspelt(first.as_deref())
    {
        output::message(&failure.show(&crate::papers::Look::default()), arguments::Color::Auto);
        return Status::Unreadable.into();
    }
    let words = e.render().to_string();
    let hides = |line: &str| line.chars().any(is_hidden) || message::cut(line) != line;
    if words.lines().any(hides) {
        let lines: String = words.lines().map(|l| clean(&message::cut(l)) + "\n").collect();
        output::message(&lines, arguments::Color::Never);
    } else {
        // Where nobody reads it there is nobody to tell.
        let _ = e.print();
    }
    ExitCode::from(u8::try_from(e.exit_code()).unwrap_or(2))
}

fn run(arguments: Arguments) -> Result<Status, Failure> {
    let common = arguments.common;
    match (arguments.command, arguments.plan) {
        (Some(_), Some(plan)) => Err(Failure::new(
            format!("`{}` stands before the command", plan.display()),
            "write the plan after the command: loomwright report PLAN",
        )),
        (Some(Command::Report(report)), None) => report::run(&report, &common),
        (Some(Command::Check(check)), None) => check::run(&check, &common),
        (Some(Command::Days(asked)), None) => days::run(&asked, &common),
        (Some(Command::Rivals(asked)), None) => rivals::run(&asked, &common),
        (Some(Command::Fault(asked)), None) => fault::run(&asked, &common),
        (Some(Command::Ageing(asked)), None) => ageing::run(&asked, &common),
        (Some(Command::Log(asked)), None) => log::run(&asked, &common),
        (Some(Command::Papers(papers)), None) => papers::run(&papers, &common),
        (Some(Command::Table(asked)), None) => table::run(&asked, &common),
        (Some(Command::Catalogue(asked)), None) => catalogue::run(&asked, &common),
        (Some(Command::Schema(schema)), None) => schema::run(&schema, &common),
        (Some(Command::Completions(shell)), None) => shell::completions(&shell, &common),
        (Some(Command::Man(man)), None) => shell::man(&man, common.color),
        (Some(Command::Cable(cable)), None) => cable::run(&cable, &common),
        (Some(Command::CutOff(asked)), None) => cut_off::run(&asked, &common),
        (Some(Command::UsedBattery(asked)), None) => used_battery::run(&asked, &common),
        (Some(Command::SelfCheck(asked)), None) => self_check::run(&asked, &common),
        (None, plan) => {
            misspelt(plan.as_deref())?;
            screens::run(plan, &common)
        }
    }
}

/// A word that is no file but near a command was meant to be the command; a new
/// plan of that name would only puzzle.
fn misspelt(plan: Option<&Path>) -> Result<(), Failure> {
    let Some(word) = plan.filter(|p| !is_there(p)).and_then(Path::to_str) else { return Ok(()) };
    match shell::nearest_command(word) {
        Some(name) => Err(Failure::new(
            format!("there is no file and no command `{word}`"),
            format!("did you mean the command `{name}`? To begin a new plan, name a file such as {word}.toml"),
        )),
        _ => Ok(()),
    }
}
