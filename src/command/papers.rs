//! `papers`: everything the workshop needs, into a folder.

use super::arguments::{Common, Papers};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::engine::ask::mend::remedies::remedies;
use crate::engine::design;
use crate::engine::design::results::fact::At;
use crate::papers::json::{self, Written};
use crate::papers::{Job, Look, PaperFile, bundle};
use crate::plan::{reason, write_whole};
use std::fs;
use std::path::{Path, PathBuf};

/// Write them.
pub fn run(papers: &Papers, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(papers.plan.plan.as_deref(), &catalogue)?;
    let mut design = design(&input.read.plan, &catalogue);
    design.findings = remedies(&input.read.plan, &catalogue, &design, &|| true);
    let job = Job { plan: &input.read.plan, catalogue: &catalogue, design: &design };
    let folder = papers.folder.as_ref().unwrap_or(&papers.into).clone();
    let names = into_folder(&job, &common.look(), &folder, papers.replace)?;
    if papers.form.json {
        let folder = folder.display().to_string();
        let written = Written { folder, files: names };
        output::json(&json::answer(&written, &At::site(&job.design.installation)), common.color)?;
    } else {
        let list: String = names.iter().map(|n| format!("{}\n", folder.join(n).display())).collect();
        output::result(&common.look().ink_lines(&list), common.color)?;
    }
    Ok(Status::of(&design.findings))
}

/// A folder cannot be made where a file of that name is, nor within one.
fn refuse_a_file(folder: &Path) -> Result<(), Failure> {
    match folder.ancestors().find(|p| p.exists()).filter(|p| !p.is_dir()) {
        Some(file) => Err(Failure::new(
            format!("{} is a file, and the papers need a folder", file.display()),
            "name a folder, such as van-papers; it is made when it is not there",
        )),
        None => Ok(()),
    }
}

/// Why papers are not written.
pub(super) enum Refused {
    /// Nothing is lost by a slip in the folder's name: this file is there already.
    Exists(PathBuf),
    /// Anything else.
    Failed(Failure),
}

impl From<Failure> for Refused {
    fn from(failure: Failure) -> Refused {
        Refused::Failed(failure)
    }
}

impl From<Refused> for Failure {
    fn from(refused: Refused) -> Failure {
        match refused {
            Refused::Exists(there) => Failure::new(
                format!("{} exists already", there.display()),
                "name another folder with --into, or add --replace to write over the papers in this one",
            ),
            Refused::Failed(failure) => failure,
        }
    }
}

/// Write all papers into a folder; gives their names. Without `replace` nothing that is there is written over.
pub(super) fn into_folder(job: &Job<'_>, look: &Look, folder: &Path, replace: bool) -> Result<Vec<String>, Refused> {
    refuse_a_file(folder)?;
    let files = bundle(job, look);
    let there = files.iter().map(|f| folder.join(&f.name)).find(|p| p.exists());
    if let Some(there) = there.filter(|_| !replace) {
        return Err(Refused::Exists(there));
    }
    for file in &files {
        write(folder, file)?;
    }
    Ok(files.into_iter().map(|f| f.name).collect())
}

fn write(folder: &Path, file: &PaperFile) -> Result<(), Failure> {
    let path = folder.join(&file.name);
    let made = path.parent().map_or(Ok(()), fs::create_dir_all);
    made.and_then(|()| write_whole(&path, file.content.as_bytes())).map_err(|e| {
        let what = format!("cannot write {}: {}", path.display(), reason(&e));
        Failure::new(what, "name a folder you may write into with --into, and see that the disk has room")
    })
}
