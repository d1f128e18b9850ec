//! `log`: what a logger saw beside what was planned, and what of it goes into the plan.

use super::arguments::{Common, Log};
use super::failure::Failure;
use super::input::{self, Input};
use super::output;
use super::status::Status;
use crate::engine::design::results::fact::At;
use crate::engine::{LogAnswer, design, expected, log_answer};
use crate::log::{self, Asked, Clock, offered, recognise};
use crate::papers::{self, log_answer_paper};
use crate::plan::{reason, shorten, write_whole};
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// Read both, print what follows, and take what is asked for into the plan.
pub fn run(asked: &Log, common: &Common) -> Result<Status, Failure> {
    if output::is_dash(&asked.file) && output::is_dash(&asked.plan) {
        return Err(Failure::new("plan and log cannot both be standard input", "name one of the two files"));
    }
    let catalogue = input::catalogue(common)?;
    let input = input::plan(Some(&asked.plan), &catalogue)?;
    let common = &common.of(&input.read.plan);
    let design = design(&input.read.plan, &catalogue);
    let Some(known) = expected(&design) else {
        return Err(Failure::new("the plan has no battery that a log could tell of", "check the plan by itself first"));
    };
    let name = if output::is_dash(&asked.file) { "standard input".into() } else { asked.file.display().to_string() };
    let failed = |e: std::io::Error| {
        Failure::new(format!("cannot read {name}: {}", reason(&e)), "name a CSV file of time, volts and amperes")
    };
    let (head, source) = log::head_of(open(&asked.file).map_err(failed)?).map_err(failed)?;
    let layout = recognise(&head, &said(asked)).map_err(|why| {
        Failure::new(format!("{name}: {why}"), "say how it is written, such as --columns time,volts,amps")
    })?;
    let read = log::read_from(source, layout, known, &|_| true).map_err(failed)?;
    let Some(read) = read else { return Ok(Status::of(&[])) };
    let dated = read.layout.clock.dated();
    let mut answer = log_answer(&input.read.plan, &catalogue, &design, &read.collected, dated);
    answer.read_as = read.read_as();
    answer.left_out = read.left_out;
    let at = At::site(&design.installation);
    output::answer(asked.form, common, || papers::json::answer(&answer, &at), || log_answer_paper(&answer))?;
    if !asked.take.is_empty() {
        take(&asked.plan, &input, &answer, &asked.take, common)?;
    }
    Ok(Status::of(&[]))
}

/// The logger's file, or standard input where its name is `-`.
fn open(file: &Path) -> std::io::Result<Box<dyn Read>> {
    Ok(if output::is_dash(file) { Box::new(std::io::stdin()) } else { Box::new(File::open(file)?) })
}

/// What is said of the file.
fn said(asked: &Log) -> Asked {
    let clock = |word: &String| Clock::NAMED.into_iter().find(|(own, _)| own == word).map(|(_, clock)| clock);
    let delimiter = |word: &String| match word.as_str() {
        "tab" => Some('\t'),
        word => word.chars().next(),
    };
    Asked {
        columns: asked.columns.clone(),
        delimiter: asked.delimiter.as_ref().and_then(delimiter),
        comma: asked.decimal.as_ref().map(|sign| sign == "comma"),
        clock: asked.clock.as_ref().and_then(clock),
        month_first: asked.date.as_ref().map(|first| first == "month"),
        out: asked.positive.as_ref().map(|way| way == "out"),
    }
}

/// Write the edits of these lines into the plan file; the capacity as a new measurement.
fn take(path: &Path, input: &Input, answer: &LogAnswer, keys: &[String], common: &Common) -> Result<(), Failure> {
    let known = offered(answer, &input.read.plan);
    if let Some(key) = keys.iter().find(|key| *key != "all" && !known.contains(&key.as_str())) {
        let listed = known.iter().map(|key| format!("`{key}`")).collect::<Vec<_>>().join(", ");
        let help =
            if known.is_empty() { "nothing differs from the plan".into() } else { format!("{listed} can be taken") };
        return Err(Failure::new(format!("the log changes no `{}`", shorten(key)), help));
    }
    if path == Path::new("-") {
        return Err(Failure::new("a plan from standard input cannot be written", "name the plan's file"));
    }
    let wanted: Vec<&str> = known.into_iter().filter(|own| keys.iter().any(|k| k == own || k == "all")).collect();
    let text = log::taken(&input.text, answer, &wanted)
        .map_err(|e| Failure::new(e.to_string(), "check the plan by itself first"))?;
    write_whole(path, text.as_bytes()).map_err(|e| {
        Failure::new(format!("cannot write {}: {}", path.display(), reason(&e)), "the plan stays as it was")
    })?;
    output::message(&format!("taken into {}: {}\n", path.display(), wanted.join(", ")), common.color);
    Ok(())
}
