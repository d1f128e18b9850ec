//! The run schedule and the fuse schedule: what to lay and what protects it.

use crate::engine::design::results::fact::At;
use crate::engine::{FuseDesign, RunDesign, SizeRow, run_name, which_fuses};
use crate::papers::diagram::layout;
use crate::papers::document::{Block, Column, Document, Drawing, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::papers::plain::Look;
use unicode_width::UnicodeWidthStr;

/// Runs and fuses as parts of the report.
pub fn section(job: &Job, paper: &mut Document) {
    paper.heading(1, "Run schedule");
    paper.table(lay(job));
    paper.table(reasons(job));
    wiring(job, paper);
    paper.heading(1, "Fuse schedule");
    paper.table(fuses(job));
    paper.table(fuse_reasons(job));
    which(job, paper);
    paper.caution(
        "Fit each fuse at the end where its source is, within the distance given: \
         cable between a source and its fuse is protected by nothing.",
    );
}

/// The wiring diagram, one drawing a sheet.
fn wiring(job: &Job, paper: &mut Document) {
    let layout = layout(job.plan, job.design);
    // Sizes and fuses too, unless names are so long that they would not fit a page.
    let fits = |text: &String| text.lines().all(|l| l.width() <= Look::default().width);
    let text = Some(layout.to_text(1, false)).filter(fits).unwrap_or_else(|| layout.to_text(0, false));
    let sheets = layout.pictures();
    let count = sheets.len();
    for (n, picture) in sheets.into_iter().enumerate() {
        let caption =
            if count == 1 { "Wiring diagram".into() } else { format!("Wiring diagram, sheet {} of {count}", n + 1) };
        // As text it is one tree, however many sheets the drawing needs.
        let text = if n == 0 { text.clone() } else { String::new() };
        paper.blocks.push(Block::Drawing(Drawing { caption, picture: Some(picture), text }));
    }
}

/// What to lay.
fn lay(job: &Job) -> Table {
    Columns::new()
        .fact(RunDesign::NUMBER)
        .fact(RunDesign::FROM)
        .fact(RunDesign::TO)
        .fact(RunDesign::LENGTH)
        .within(size, SizeRow::LABEL)
        .fact(RunDesign::INSULATION)
        .fact(RunDesign::THROUGH)
        .table("runs", "What to lay; lengths are one way", &job.design.runs, job.at())
}

fn size(run: &RunDesign) -> Option<&SizeRow> {
    run.size.as_ref()
}

/// Why each size.
fn reasons(job: &Job) -> Table {
    Columns::new()
        .fact(RunDesign::NUMBER)
        .within(size, SizeRow::LABEL)
        .own(Column::fact(&RunDesign::RULING), |r, _| if r.pinned { "given" } else { r.ruling }.into())
        .fact(RunDesign::SIZED_FOR)
        .within(size, SizeRow::DROP)
        .within(size, SizeRow::DROP_SHARE.called(job.design.installation.share_of()))
        .within(size, SizeRow::TEMPERATURE)
        .within(size, SizeRow::AMPACITY)
        .within(size, SizeRow::LOSS)
        .table("run-reasons", "Why each size", &job.design.runs, job.at())
}

/// What to fit, one line for each fuse.
fn fuses(job: &Job) -> Table {
    let columns = Columns::new()
        .fact(FuseDesign::RUN)
        .fact(FuseDesign::AT)
        .fact(FuseDesign::WITHIN)
        .fact(FuseDesign::STYLE_NAME)
        .fact(FuseDesign::RATING)
        .own(Column::fact(&FuseDesign::RULING), |f, _| if f.pinned { "given" } else { f.ruling }.into());
    each(job, &columns, "fuses", "What to fit, and how far from its source it may sit")
}

/// Between which bounds each lies, and whether it clears a fault.
fn fuse_reasons(job: &Job) -> Table {
    let columns = Columns::new()
        .fact(FuseDesign::RUN)
        .fact(FuseDesign::RATING)
        .fact(FuseDesign::AT_LEAST)
        .fact(FuseDesign::AT_MOST)
        .fact(FuseDesign::PROSPECTIVE)
        .fact(FuseDesign::BREAKING)
        .fact(FuseDesign::FAR_FAULT)
        .fact(FuseDesign::OPENS_WITHIN);
    let caption = "From the load to the cable: the bounds of its rating. Fault: the most that can flow at its place, \
                   and what it breaks. Far fault: the least at the far end, and how soon it opens then at the latest";
    each(job, &columns, "fuse-reasons", caption)
}

/// In words why each is the one it is.
fn which(job: &Job, paper: &mut Document) {
    paper.heading(2, "Which fuse, and why");
    for which in which_fuses(job.design) {
        let what = format!("{} at {}", run_name(&job.design.installation.runs, which.run), which.at);
        paper.blocks.push(Block::Entry(what, which.sentences));
    }
}

/// A line for each fuse of each run.
fn each(job: &Job, columns: &Columns<'_, FuseDesign>, name: &'static str, caption: &str) -> Table {
    let mut table = columns.table(name, caption, [], job.at());
    for run in &job.design.runs {
        let at = At { index: run.run, ..job.at() };
        table.rows.extend(columns.table(name, caption, &run.fuses, at).rows);
    }
    table
}
