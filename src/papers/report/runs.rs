//! The run schedule and the fuse schedule: what to lay and what protects it.

use crate::engine::{FuseDesign, RunDesign};
use crate::papers::diagram::layout;
use crate::papers::document::{Block, Cell, Column, Document, Drawing, Table};
use crate::papers::job::{Job, run_number};
use crate::papers::plain::Look;
use crate::quantity::Unit;
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
    let sheets = layout.to_svg();
    let count = sheets.len();
    for (n, svg) in sheets.into_iter().enumerate() {
        let caption =
            if count == 1 { "Wiring diagram".into() } else { format!("Wiring diagram, sheet {} of {count}", n + 1) };
        // As text it is one tree, however many sheets the drawing needs.
        let text = if n == 0 { text.clone() } else { String::new() };
        paper.blocks.push(Block::Drawing(Drawing { caption, svg, text }));
    }
}

/// What to lay.
fn lay(job: &Job) -> Table {
    let columns = [
        Column::text("run", "Run"),
        Column::text("from", "From"),
        Column::text("to", "To"),
        Column::number("length", "Length", Unit::Metre),
        Column::text("size", "Size"),
        Column::text("insulation", "Insulation"),
        Column::text("through", "Through"),
    ];
    let mut table = Table::new("runs", "What to lay; lengths are one way", &columns);
    for (n, run) in job.plan.runs.iter().enumerate() {
        let size = job.design.runs.get(n).and_then(|r| r.size.as_ref());
        table.row(vec![
            run_number(n).into(),
            run.from.as_str().into(),
            run.to.as_str().into(),
            Cell::of(run.length),
            size.map_or(Cell::Absent, |s| s.label.as_str().into()),
            run.insulation.as_str().into(),
            run.surroundings.as_str().into(),
        ]);
    }
    table
}

/// Why each size.
fn reasons(job: &Job) -> Table {
    let columns = [
        Column::text("run", "Run"),
        Column::text("size", "Size"),
        Column::text("ruling", "Decided by"),
        Column::number("current", "Current", Unit::Amp),
        Column::number("drop", "Drop", Unit::Volt),
        Column::number("drop_share", "", Unit::Share),
        Column::number("temperature", "Copper", Unit::Celsius),
        Column::number("ampacity", "Carries", Unit::Amp),
        Column::number("loss", "Lost a day", Unit::WattHour),
    ];
    let mut table = Table::new("run-reasons", "Why each size", &columns);
    for r in &job.design.runs {
        table.row(reason(r));
    }
    table
}

fn reason(r: &RunDesign) -> Vec<Cell> {
    let size = r.size.as_ref();
    vec![
        run_number(r.run).into(),
        size.map_or(Cell::Absent, |s| s.label.as_str().into()),
        if r.pinned { "given" } else { r.ruling }.into(),
        Cell::of(r.current),
        Cell::maybe(size.map(|s| s.drop)),
        Cell::maybe(size.map(|s| s.drop_share)),
        Cell::maybe(size.map(|s| s.temperature)),
        Cell::maybe_limit(size.map(|s| s.ampacity)),
        Cell::maybe(size.map(|s| s.loss)),
    ]
}

/// What to fit, one line for each fuse.
fn fuses(job: &Job) -> Table {
    let columns = [
        Column::text("run", "Run"),
        Column::text("at", "Source at"),
        Column::number("within", "Within", Unit::Metre),
        Column::text("style", "Style"),
        Column::number("rating", "Fuse", Unit::Amp),
        Column::text("ruling", "Decided by"),
    ];
    let mut table = Table::new("fuses", "What to fit, and how far from its source it may sit", &columns);
    for (run, fuse) in each(job) {
        table.row(vec![
            run_number(run).into(),
            fuse.at.as_str().into(),
            Cell::limit(fuse.within),
            fuse.style_name.as_str().into(),
            Cell::maybe(fuse.rating),
            if fuse.pinned { "given" } else { fuse.ruling }.into(),
        ]);
    }
    table
}

/// Between which bounds each lies, and whether it clears a fault.
fn fuse_reasons(job: &Job) -> Table {
    let columns = [
        Column::text("run", "Run"),
        Column::number("rating", "Fuse", Unit::Amp),
        Column::number("at_least", "From", Unit::Amp),
        Column::number("at_most", "To", Unit::Amp),
        Column::number("prospective", "Fault", Unit::Amp),
        Column::number("breaking", "Breaks", Unit::Amp),
        Column::number("far_fault", "Far fault", Unit::Amp),
        Column::number("opens_within", "Opens in", Unit::Second),
    ];
    let caption = "From the load to the cable: the bounds of its rating. Fault: the most that can flow at its place, \
                   and what it breaks. Far fault: the least at the far end, and how soon it opens then at the latest";
    let mut table = Table::new("fuse-reasons", caption, &columns);
    for (run, fuse) in each(job) {
        table.row(vec![
            run_number(run).into(),
            Cell::maybe(fuse.rating),
            Cell::of(fuse.at_least),
            Cell::limit(fuse.at_most),
            Cell::of(fuse.prospective),
            Cell::limit(fuse.breaking),
            Cell::of(fuse.far_fault),
            Cell::maybe(fuse.opens_within),
        ]);
    }
    table
}

/// All fuses with their run.
fn each<'a>(job: &'a Job) -> impl Iterator<Item = (usize, &'a FuseDesign)> {
    job.design.runs.iter().flat_map(|r| r.fuses.iter().map(|f| (r.run, f)))
}
