//! `check --mend`: the plan with the fewest edits after which nothing is left that must not be built.

use super::arguments::{Check, Common};
use super::failure::Failure;
use super::input::Input;
use super::output;
use super::progress::Progress;
use super::status::{Status, verdict};
use crate::catalogue::Catalogue;
use crate::engine::ask::mend::exclude::Exclusion;
use crate::engine::ask::mend::fewest::{Mend, Step, mend};
use crate::engine::{Design, Severity, design};
use crate::papers::columns::wrap;
use crate::plan;
use crate::quantity::counted;
use std::path::Path;

/// Mend it, write the new plan and print the edits; the status is that of the new plan.
pub fn run(
    check: &Check,
    input: &Input,
    before: &Design,
    catalogue: &Catalogue,
    out: &Path,
    common: &Common,
) -> Result<Status, Failure> {
    let down_to = if check.cautions { Severity::Caution } else { Severity::Stop };
    let progress = Progress::default();
    let mended = mend(&input.read.plan, catalogue, before, down_to, &|| progress.one_more());
    progress.end();
    let put = |text: String, step: &Step| plan::set(&text, step.edit.place, step.edit.value.as_ref());
    let text = mended.steps.iter().try_fold(input.text.clone(), put);
    let text = text.map_err(|e| Failure::new(e.to_string(), "check the plan by itself first"))?;
    let after = design(&plan::read(&text, catalogue).plan, catalogue);
    let look = common.look();
    let mut lines: Vec<String> = said(&mended).iter().flat_map(|line| wrap(&look.ink(line), look.width)).collect();
    let name = if output::is_dash(out) { "standard output".into() } else { out.display().to_string() };
    lines.extend(wrap(&look.ink(&verdict(&name, &after)), look.width));
    output::plan(out, &text, "--mend", &format!("{}\n", lines.join("\n")), common.color)?;
    Ok(Status::of(&after.findings))
}

/// The edits, what they change, and what none takes away.
fn said(mended: &Mend) -> Vec<String> {
    let mut lines = vec![match mended.steps.len() {
        0 => "nothing is changed".to_string(),
        n => format!("{}:", counted(n, "edit")),
    }];
    lines.extend(mended.steps.iter().map(|s| format!("- {}", s.words)));
    if !mended.changes.is_empty() {
        lines.push(format!("then {}", mended.changes.join("; ")));
    }
    let left = |e: &Exclusion| format!("not mended: {}", e.sentence());
    lines.extend(mended.left.iter().map(left));
    lines.push(String::new());
    lines
}
