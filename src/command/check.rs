//! `check`: what is wrong or doubtful in a plan, with an exit status.

use super::arguments::{Check, Common};
use super::failure::Failure;
use super::input::Input;
use super::status::{Status, verdict};
use super::{input, mend, output, readings};
use crate::catalogue::Catalogue;
use crate::engine::ask::mend::remedies::remedies;
use crate::engine::design::results::Counts;
use crate::engine::design::results::fact::At;
use crate::engine::{Finding, Severity, design};
use crate::papers::columns::wrap;
use crate::papers::json::{self, Checked};
use crate::papers::{everywhere, notice, notices};
use std::path::Path;

/// Print the findings of each plan, worst first. A plan that cannot be read is told and the others
/// are still checked; the worst counts.
pub fn run(check: &Check, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    match check.plans.as_slice() {
        [] => one(check, None, common, &catalogue),
        [plan] => one(check, Some(plan), common, &catalogue),
        _ if check.mend.is_some() => {
            Err(Failure::new("one plan is mended at a time, and there are several", "mend that plan by itself"))
        }
        _ if check.readings.file.is_some() => {
            Err(Failure::new("readings belong to one plan, and there are several", "check that plan by itself"))
        }
        plans => {
            Ok(plans.iter().map(|plan| one_of_many(check, plan, common, &catalogue)).max().unwrap_or(Status::Fine))
        }
    }
}

fn one_of_many(check: &Check, plan: &Path, common: &Common, catalogue: &Catalogue) -> Status {
    one(check, Some(plan), common, catalogue).unwrap_or_else(|failure| {
        output::message(&failure.show(&common.look()), common.color);
        Status::Unreadable
    })
}

fn one(check: &Check, plan: Option<&Path>, common: &Common, catalogue: &Catalogue) -> Result<Status, Failure> {
    let input = readings::plan(plan, &check.readings, catalogue)?;
    let plan = &input.read.plan;
    let common = &common.of(plan);
    let mut design = design(plan, catalogue);
    if let Some(out) = &check.mend {
        return mend::run(check, &input, &design, catalogue, out, common);
    }
    if !check.quiet {
        design.findings = remedies(plan, catalogue, &design, &|| true);
    }
    let down_to = if check.no_notes { Severity::Caution } else { Severity::Note };
    let shown = design.findings.iter().filter(|f| f.severity <= down_to && !check.quiet);
    let look = common.look();
    if check.form.json {
        let at = At { spot: &|place| input.spot(place), ..At::site(&design.installation) };
        let counts = Counts::of(&design.findings);
        let checked = Checked { plan: input.name.clone(), counts, findings: shown.cloned().collect() };
        output::json(&json::answer(&checked, &at), common.color)?;
        return Ok(Status::of(&design.findings));
    }
    let mut out = String::new();
    for (finding, mut shown) in notices(shown.filter(|f| !f.everywhere()), &design.installation) {
        if let Some(at) = where_in_file(finding, &input) {
            shown.lines.insert(0, ("at".into(), at));
        }
        notice(&mut out, &shown, &look);
        out.push('\n');
    }
    if !check.quiet {
        let everywhere = everywhere(&design.findings).filter(|_| !check.no_notes);
        for line in everywhere.iter().flat_map(|said| wrap(&look.ink(said), look.width)) {
            out.push_str(&line);
            out.push('\n');
        }
        if everywhere.is_some() {
            out.push('\n');
        }
        for line in wrap(&look.ink(&verdict(&input.name, &design)), look.width) {
            out.push_str(&line);
            out.push('\n');
        }
    }
    output::result(&out, common.color)?;
    Ok(Status::of(&design.findings))
}

/// `van.toml:41:12 length_m = 6.2`, where the file has the field or its item.
fn where_in_file(finding: &Finding, input: &Input) -> Option<String> {
    let spot = input.spot(finding.place?)?;
    let line = input.text.lines().nth(spot.line.saturating_sub(1)).unwrap_or("").trim();
    Some(format!("{}:{}:{} `{line}`", input.name, spot.line, spot.column))
}
