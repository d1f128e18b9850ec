//! `report`: the whole design of a plan.

use super::arguments::{Common, Format, Report};
use super::failure::Failure;
use super::status::Status;
use super::{beside, input, output, readings};
use crate::engine::ask::mend::remedies::remedies;
use crate::engine::ask::work_out::work_out_sizes;
use crate::engine::design;
use crate::engine::design::results::fact::At;
use crate::papers::{self, Job};

/// Print it.
pub fn run(report: &Report, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = readings::plan(report.plan.plan.plan.as_deref(), &report.plan.readings, &catalogue)?;
    let common = &common.of(&input.read.plan);
    let mut design = design(&input.read.plan, &catalogue);
    design.findings = remedies(&input.read.plan, &catalogue, &design, &|| true);
    if report.told.form.json && report.told.workings {
        design.add_workings(work_out_sizes(&design));
    }
    let wanted = beside::Wanted { rivals: report.rivals, beside: &report.beside };
    let compared = wanted.compared(&input.read.plan, &catalogue, &design);
    let beside = wanted.of(&compared)?;
    let job = Job { plan: &input.read.plan, catalogue: &catalogue, design: &design, beside: &beside };
    if report.told.form.json {
        let at =
            At { workings: report.told.workings, spot: &|place| input.spot(place), ..At::site(&design.installation) };
        output::json(&papers::json::answer(&design, &at), common.color)?;
        return Ok(Status::of(&design.findings));
    }
    let paper = papers::report(&job, report.told.workings);
    let text = match report.format {
        Format::Text => papers::plain(&paper, &common.look()),
        Format::Markdown => papers::markdown(&paper, &common.look()),
        Format::Html => papers::html_page(job.title(), &[paper], &common.look(), &input.stamp()),
    };
    output::result(&text, common.color)?;
    Ok(Status::of(&design.findings))
}
