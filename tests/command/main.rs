//! The command line as scripts and people meet it: statuses, streams, messages, JSON, schema.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod files;
#[path = "../generated/plan.rs"]
mod generated_plan;
#[path = "../generated/text.rs"]
mod generated_text;
mod habits;
mod json;
mod logs;
mod paper_folder;
mod prices;
mod problems;
mod run;
mod schema;
mod shell;
mod side_by_side;
mod table;

/// The cases in the Markdown files beside this one are run and compared.
#[test]
fn examples_in_words() {
    trycmd::TestCases::new()
        .env("XDG_CONFIG_HOME", run::empty_folder().to_str().unwrap())
        .env("NO_COLOR", "1")
        .case("tests/command/*.md");
}
