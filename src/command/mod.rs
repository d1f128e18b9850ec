//! What is asked from the shell: the command line, one file per command.
//!
//! Nothing is computed here: a command reads, asks the engine, and lets
//! `papers` write the answer.

mod arguments;
mod cable;
mod catalogue;
mod check;
mod cut_off;
mod failure;
mod input;
mod message;
mod output;
mod papers;
mod report;
mod schema;
mod screens;
mod shell;
mod status;
mod typed;

use arguments::{Arguments, Command};
use clap::Parser;
use failure::Failure;
use status::Status;
use std::process::ExitCode;

/// Do what the command line asks.
pub fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let common = arguments.common.clone();
    match run(arguments) {
        Ok(status) => status.into(),
        Err(failure) => {
            output::message(&failure.show(&common.look()), common.color);
            Status::Unreadable.into()
        }
    }
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
        (Some(Command::Papers(papers)), None) => papers::run(&papers, &common),
        (Some(Command::Catalogue(asked)), None) => catalogue::run(&asked, &common),
        (Some(Command::Schema(schema)), None) => schema::run(&schema, &common),
        (Some(Command::Completions(shell)), None) => shell::completions(&shell, common.color),
        (Some(Command::Man), None) => shell::man(common.color),
        (Some(Command::Cable(cable)), None) => cable::run(&cable, &common),
        (Some(Command::CutOff(asked)), None) => cut_off::run(&asked, &common),
        (None, plan) => screens::run(plan, &common),
    }
}
