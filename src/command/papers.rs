//! `papers`: everything the workshop needs, into a folder; and whether it still agrees with the plan.

use super::arguments::{Common, Papers};
use super::beside::Wanted;
use super::failure::Failure;
use super::folder::{into_folder, manifest};
use super::input::{self, Input};
use super::output;
use super::status::Status;
use super::table_arguments::Page;
use crate::engine::ask::mend::remedies::remedies;
use crate::engine::design;
use crate::engine::design::results::fact::At;
use crate::papers::json::{self, Written};
use crate::papers::{Job, Look, Manifest, PageSize, Stamp, VERSION, bundle, checksum};
use std::fs;
use std::path::Path;

/// Write them, or check those that are there.
pub fn run(papers: &Papers, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(papers.plan.plan.as_deref(), &catalogue)?;
    let common = &common.of(&input.read.plan);
    let mut design = design(&input.read.plan, &catalogue);
    design.findings = remedies(&input.read.plan, &catalogue, &design, &|| true);
    if let Some(folder) = &papers.check {
        let job = Job { plan: &input.read.plan, catalogue: &catalogue, design: &design, beside: &[] };
        return check(folder, &job, &input, common);
    }
    let wanted = Wanted { rivals: papers.rivals, beside: &papers.beside };
    let compared = wanted.compared(&input.read.plan, &catalogue, &design);
    let beside = wanted.of(&compared)?;
    let job = Job { plan: &input.read.plan, catalogue: &catalogue, design: &design, beside: &beside };
    let folder = papers.folder.as_ref().unwrap_or(&papers.into).clone();
    let page = if papers.page == Page::Letter { PageSize::Letter } else { PageSize::A4 };
    let look = Look { page, decimal_comma: papers.decimal_comma, bom: papers.bom, ..common.look() };
    let filed = into_folder(&job, &look, &input.stamp(), &folder, papers.replace)?;
    for name in &filed.kept {
        let kept =
            format!("kept {}: it was changed by hand, and is no paper of this plan\n", folder.join(name).display());
        output::message(&common.look().ink_lines(&kept), common.color);
    }
    if papers.form.json {
        let folder = folder.display().to_string();
        let written = Written { folder, files: filed.names };
        output::json(&json::answer(&written, &At::site(&job.design.installation)), common.color)?;
    } else {
        let list: String = filed.names.iter().map(|n| format!("{}\n", folder.join(n).display())).collect();
        output::result(&common.look().ink_lines(&list), common.color)?;
    }
    Ok(Status::of(&design.findings))
}

/// Whether the papers in a folder are those that the plan gives now.
fn check(folder: &Path, job: &Job<'_>, input: &Input, common: &Common) -> Result<Status, Failure> {
    let Some(manifest) = manifest(folder) else {
        let what = format!("{} holds no papers with a list of their files", folder.display());
        return Err(Failure::new(what, "write them with loomwright papers PLAN FOLDER"));
    };
    let wrong = differences(folder, &manifest, job, input);
    let sum = manifest.stamp.short();
    let told = if wrong.is_empty() {
        format!("{}: the papers are those of {}, checksum {sum}\n", folder.display(), input.name)
    } else {
        wrong.iter().map(|w| format!("{}: {w}\n", folder.display())).collect()
    };
    output::result(&common.look().ink_lines(&told), common.color)?;
    Ok(if wrong.is_empty() { Status::Fine } else { Status::Stop })
}

/// What does not agree, one sentence each.
fn differences(folder: &Path, manifest: &Manifest, job: &Job<'_>, input: &Input) -> Vec<String> {
    let mut wrong = Vec::new();
    for (name, sum) in &manifest.files {
        match fs::read(folder.join(name)) {
            Ok(data) if checksum(&data) == *sum => {}
            Ok(_) => wrong.push(format!("{name} was changed by hand")),
            Err(_) => wrong.push(format!("{name} is missing or cannot be read")),
        }
    }
    let now = Stamp::of(&input.text, None);
    if manifest.version != VERSION {
        wrong.push(format!("written by loomwright {}, and this is {VERSION}: write the papers anew", manifest.version));
    } else if manifest.stamp.checksum != now.checksum {
        let day = manifest.stamp.dated.as_ref().map_or_else(String::new, |day| format!(" of {day}"));
        wrong.push(format!(
            "of another text of the plan{day}: checksum {}, and {} has {}: write the papers anew",
            manifest.stamp.short(),
            input.name,
            now.short()
        ));
    } else {
        wrong.extend(by_other_profiles(manifest, job));
    }
    wrong
}

/// The same plan and version give other papers where the profiles are others.
fn by_other_profiles(manifest: &Manifest, job: &Job<'_>) -> Option<String> {
    let wanted = Wanted { rivals: false, beside: &manifest.beside };
    let compared = wanted.compared(job.plan, job.catalogue, job.design);
    // A number that there is no more gives another page, and so other papers.
    let beside = wanted.of(&compared).unwrap_or_default();
    let files = bundle(&Job { beside: &beside, ..*job }, &manifest.look, &manifest.stamp);
    let other = files.iter().find(|f| manifest.sum_of(&f.name) != Some(checksum(&f.content).as_str()))?;
    Some(format!("{} would read otherwise with the profiles in use now: write the papers anew", other.name))
}
