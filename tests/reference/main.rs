//! Checks against what was published or computed outside this project, each with its source.
//!
//! `cargo test --test reference -- --nocapture` ends with the account of what
//! was compared, by source ([`ledger`]); one test is run by its name as usual.
//! Each file names its tests in a `tests!` list; one left out is a warning.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

use libtest_mimic::{Arguments, Trial};
use std::process::ExitCode;

/// A test with its name.
type Test = (&'static str, fn());

/// Names the tests of a file.
#[macro_export]
macro_rules! tests {
    ($($name:ident),* $(,)?) => {
        pub const TESTS: &[$crate::Test] = &[$((concat!(module_path!(), "::", stringify!($name)), $name)),*];
    };
}

/// The files, and all their tests.
macro_rules! files {
    ($($file:ident),* $(,)?) => {
        $(mod $file;)*
        const ALL: &[&[Test]] = &[$($file::TESTS),*];
    };
}

mod abyc;
mod check;
#[path = "../generated/boards.rs"]
mod generated_boards;
#[path = "../generated/network.rs"]
mod generated_network;
#[path = "../generated/plan.rs"]
mod generated_plan;
mod ledger;
mod program;
#[path = "../generated/spice.rs"]
mod spice;
mod stored;

files![
    ampacity,
    banks,
    battery,
    by_hand,
    cable_question,
    carrier,
    catalogue,
    charging,
    chemistries,
    circuits,
    conductors,
    cut_off,
    days,
    discharge,
    fault_currents,
    fault_finder,
    fuse_links,
    heat,
    kinetic,
    logs,
    networks,
    netlist,
    ngspice,
    protection,
    self_check,
    sizing,
    small_system,
    sun,
    units,
    voltage_drop,
    whole_circuit,
];

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    let tests = ALL.concat().into_iter().map(|(name, run)| {
        let name = name.trim_start_matches("reference::");
        Trial::test(name, move || {
            run();
            Ok(())
        })
    });
    let conclusion = libtest_mimic::run(&arguments, tests.collect());
    if arguments.list {
        return conclusion.exit_code();
    }
    println!("{}", if arguments.nocapture { ledger::account() } else { ledger::summary() });
    let all = arguments.filter.is_none() && arguments.skip.is_empty() && conclusion.num_failed == 0;
    if all && ledger::counted() < ledger::GOAL {
        println!("only {} outside values counted, {} promised", ledger::counted(), ledger::GOAL);
        return ExitCode::FAILURE;
    }
    if !ledger::circular().is_empty() {
        println!("a value of the catalogue was compared with itself");
        return ExitCode::FAILURE;
    }
    conclusion.exit_code()
}
