//! How are the screens opened from the shell?

use super::arguments::{Color, Common};
use super::failure::Failure;
use super::folder::{Refused, into_folder};
use super::input;
use super::status::Status;
use crate::catalogue::user_folder;
use crate::engine::ask::mend::remedies::remedies;
use crate::engine::ask::rivals::variant::Variant;
use crate::papers::{Job, Look, Stamp};
use crate::plan::is_there;
use crate::screens::{NotWritten, OwnRows, Start, State, run as show};
use etcetera::BaseStrategy;
use std::io::IsTerminal;
use std::path::{Path, PathBuf};

/// Show the screens of a plan, of a new one when there is no such file, or of an example.
pub fn run(plan: Option<PathBuf>, common: &Common) -> Result<Status, Failure> {
    if !(std::io::stdin().is_terminal() && std::io::stdout().is_terminal()) {
        return Err(Failure::new("the screens need a terminal, and there is none here", ELSE));
    }
    if variable("TERM") == "dumb" {
        return Err(Failure::new("this terminal says it cannot show screens (TERM is `dumb`)", ELSE));
    }
    let catalogue = input::catalogue(common)?;
    // Problems of the file are told with its lines, which the screens have no room for.
    if let Some(path) = plan.as_deref().filter(|p| is_there(p)) {
        input::plan(Some(path), &catalogue)?;
    }
    let no_color = common.color == Color::Never || (common.color == Color::Auto && !variable("NO_COLOR").is_empty());
    let start = Start {
        file: plan,
        catalogue,
        ascii: common.ascii || !locale_is_utf8(),
        plain: no_color,
        no_mouse: false,
        state_folder: state_folder(),
        papers: Some(write_papers),
        rows: user_folder().map(|folder| OwnRows { folder, others: common.profiles.clone() }),
    };
    show(start)?;
    Ok(Status::Fine)
}

/// The papers of the plan on the screens, for a key of theirs.
fn write_papers(
    state: &State,
    beside: &[(usize, &Variant)],
    folder: &Path,
    replace: bool,
) -> Result<usize, NotWritten> {
    let mut design = state.design.clone();
    design.findings = remedies(&state.plan, &state.catalogue, &design, &|| true);
    let job = Job { plan: &state.plan, catalogue: &state.catalogue, design: &design, beside };
    // What is on the screens need not be saved, so the file's day would say nothing.
    let stamp = Stamp::of(&state.text, None);
    let look = Look { system: state.plan.job.units.system(), ..Look::default() };
    let written = into_folder(&job, &look, &stamp, folder, replace);
    written.map(|filed| filed.names.len()).map_err(|refused| match refused {
        Refused::Exists(there) => NotWritten::Exists(there),
        Refused::Failed(Failure::One { what, .. }) => NotWritten::Failed(what),
        Refused::Failed(other) => NotWritten::Failed(other.show(&Look::default())),
    })
}

const ELSE: &str = "loomwright report PLAN prints the design of a plan, loomwright --help shows all commands";

fn variable(name: &str) -> String {
    std::env::var(name).unwrap_or_default()
}

/// Whether the locale can show more than ASCII; where none is set it is taken to.
fn locale_is_utf8() -> bool {
    let first = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().map(variable).find(|v| !v.is_empty());
    first.is_none_or(|v| {
        let v = v.to_lowercase().replace('-', "");
        v.contains("utf8") || !(v == "c" || v == "posix" || v.contains('.'))
    })
}

/// Where recovery files and locks are kept.
fn state_folder() -> Option<PathBuf> {
    let base = etcetera::choose_base_strategy().ok()?;
    Some(base.state_dir().unwrap_or_else(|| base.data_dir()).join("loomwright"))
}
