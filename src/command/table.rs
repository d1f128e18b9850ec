//! `table`: loads or runs for a spreadsheet, and back from there.

use super::arguments::Common;
use super::failure::Failure;
use super::status::{Status, verdict};
use super::table_arguments::{List, TableCommand};
use super::{input, output};
use crate::engine::design;
use crate::plan::{self, Section, SheetStyle, from_sheet, read_file, to_sheet};
use std::path::Path;

/// Print the list, or take it from a file.
pub fn run(asked: &TableCommand, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    if [&asked.plan, &asked.from].into_iter().all(|path| path.as_deref().is_some_and(output::is_dash)) {
        let what = "plan and table cannot both come from standard input";
        return Err(Failure::new(what, "name a file for one of them"));
    }
    let input = input::plan(asked.plan.as_deref(), &catalogue)?;
    let section = match asked.list {
        List::Loads => Section::Load,
        List::Runs => Section::Run,
    };
    let (Some(from), Some(to)) = (&asked.from, &asked.to) else {
        let style = SheetStyle { every_column: asked.every_column, decimal_comma: asked.decimal_comma };
        let mark = if asked.bom { "\u{feff}" } else { "" };
        output::result(&format!("{mark}{}", to_sheet(&input.read.plan, section, style)), common.color)?;
        return Ok(Status::Fine);
    };
    let text = from_sheet(&input.text, section, &sheet(from)?, &catalogue).map_err(|wrong| {
        let what = format!("{} cannot be taken: {}", from.display(), wrong.join("; "));
        Failure::new(what, "columns are the keys of a plan, as `loomwright table loads --every-column` prints them")
    })?;
    let read = plan::read(&text, &catalogue);
    if !read.problems.is_empty() {
        return Err(Failure::Problems { name: from.display().to_string(), text, problems: read.problems });
    }
    let design = design(&read.plan, &catalogue);
    let name = if output::is_dash(to) { "standard output".into() } else { to.display().to_string() };
    let done = format!("{}\n", verdict(&name, &design));
    output::plan(to, &text, "--to", "", common.color)?;
    output::message(&common.look().ink_lines(&done), common.color);
    Ok(Status::of(&design.findings))
}

fn sheet(from: &Path) -> Result<String, Failure> {
    let help = "save it as CSV in UTF-8";
    let bytes = match output::is_dash(from) {
        true => input::standard_input()?,
        false => read_file(from).map_err(|e| Failure::new(e.to_string(), help))?,
    };
    String::from_utf8(bytes).map_err(|_| Failure::new(format!("{} is not UTF-8", from.display()), help))
}
