//! `log`: what a logger saw beside what was planned, and what of it goes into the plan.

use super::arguments::{Common, Log};
use super::failure::Failure;
use super::input::{self, Input};
use super::output;
use super::status::Status;
use crate::engine::design::results::fact::At;
use crate::engine::{Collector, LogAnswer, design, expected, log_answer};
use crate::log::{Asked, LARGEST_HEAD, Rows, recognise};
use crate::papers::{self, log_answer_paper};
use crate::plan::{self, Section, reason, shorten, write_whole};
use std::fs::File;
use std::io::{BufReader, Read, Seek};
use std::path::Path;

/// Read both, print what follows, and take what is asked for into the plan.
pub fn run(asked: &Log, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(Some(&asked.plan), &catalogue)?;
    let design = design(&input.read.plan, &catalogue);
    let Some(known) = expected(&design) else {
        return Err(Failure::new("the plan has no battery that a log could tell of", "check the plan by itself first"));
    };
    let name = asked.file.display().to_string();
    let failed = |e: std::io::Error| {
        Failure::new(format!("cannot read {name}: {}", reason(&e)), "name a CSV file of time, volts and amperes")
    };
    let mut file = File::open(&asked.file).map_err(failed)?;
    let mut head = Vec::new();
    file.by_ref().take(LARGEST_HEAD as u64).read_to_end(&mut head).map_err(failed)?;
    file.rewind().map_err(failed)?;
    let said = Asked {
        columns: asked.columns.clone(),
        month_first: asked.date.as_ref().map(|first| first == "month"),
        out: asked.positive.as_ref().map(|way| way == "out"),
    };
    let layout = recognise(&String::from_utf8_lossy(&head), &said).map_err(|why| {
        Failure::new(format!("{name}: {why}"), "say what its columns hold, such as --columns time,volts,amps")
    })?;
    let mut collector = Collector::new(known);
    let mut rows = Rows::new(BufReader::with_capacity(1 << 16, file), &layout).map_err(failed)?;
    rows.by_ref().for_each(|sample| collector.push(&sample));
    let log = collector.finish(layout.out);
    let mut answer = log_answer(&input.read.plan, &catalogue, &design, &log, layout.clock.dated());
    answer.read_as = layout.words();
    answer.read_as.push(("Current", way(layout.out, log.out).into()));
    answer.left_out = rows.left_out.words();
    if rows.broken() {
        answer.left_out.push(format!("the file cannot be read beyond row {}", rows.left_out.rows));
    }
    let at = At::site(&design.installation);
    output::answer(asked.form, common, || papers::json::answer(&answer, &at), || log_answer_paper(&answer))?;
    if !asked.take.is_empty() {
        take(&asked.plan, &input, &answer, &asked.take, common)?;
    }
    Ok(Status::of(&[]))
}

fn way(said: Option<bool>, found: Option<bool>) -> &'static str {
    match (said, found) {
        (Some(true), _) => "positive flows out of the battery, as said or as its head says",
        (Some(false), _) => "positive flows into the battery, as said or as its head says",
        (None, Some(true)) => "positive flows out of the battery: the voltage falls as it grows",
        (None, Some(false)) => "positive flows into the battery: the voltage rises as it grows",
        (None, None) => "nothing tells which way it flows; taken as out of the battery (--positive in for the other)",
    }
}

/// Write the edits of these lines into the plan file; the capacity as a new measurement.
fn take(path: &Path, input: &Input, answer: &LogAnswer, keys: &[String], common: &Common) -> Result<(), Failure> {
    let edited = || answer.lines.iter().filter(|l| !l.edits.is_empty());
    let mut known: Vec<&str> = edited().map(|l| l.key.as_str()).collect();
    known.extend(answer.measured.as_ref().map(|_| "capacity"));
    if let Some(key) = keys.iter().find(|key| *key != "all" && !known.contains(&key.as_str())) {
        let listed = known.iter().map(|key| format!("`{key}`")).collect::<Vec<_>>().join(", ");
        let help =
            if known.is_empty() { "nothing differs from the plan".into() } else { format!("{listed} can be taken") };
        return Err(Failure::new(format!("the log changes no `{}`", shorten(key)), help));
    }
    if path == Path::new("-") {
        return Err(Failure::new("a plan from standard input cannot be written", "name the plan's file"));
    }
    let wanted = |own: &str| keys.iter().any(|k| k == own || k == "all");
    let lines: Vec<_> = edited().filter(|l| wanted(&l.key)).collect();
    let put = |text: String, e: &crate::engine::Edit| plan::set(&text, e.place, e.value.as_ref());
    let mut text = lines.iter().flat_map(|l| &l.edits).try_fold(input.text.clone(), put);
    let mut taken: Vec<&str> = lines.iter().map(|l| l.key.as_str()).collect();
    if let Some(values) = answer.measured.as_ref().filter(|_| wanted("capacity")) {
        text = text.and_then(|text| plan::insert(&text, Section::Measured, usize::MAX, values));
        taken.push("capacity");
    }
    let text = text.map_err(|e| Failure::new(e.to_string(), "check the plan by itself first"))?;
    write_whole(path, text.as_bytes()).map_err(|e| {
        Failure::new(format!("cannot write {}: {}", path.display(), reason(&e)), "the plan stays as it was")
    })?;
    output::message(&format!("taken into {}: {}\n", path.display(), taken.join(", ")), common.color);
    Ok(())
}
