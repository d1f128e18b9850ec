//! The papers for the workshop, written from the screens.

use super::files::{at_home, slug};
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::outside::NotWritten;
use crate::screens::overlay::{Ask, Menu, Other, Overlay};
use std::path::Path;

/// Ask for a folder; beside the plan's file, named after the plan.
pub fn ask(app: &mut App) {
    let beside = app.file.as_ref().and_then(|f| f.path().parent()).unwrap_or(Path::new(""));
    let folder = beside.join(format!("{}-papers", slug(&app.now.plan.job.title)));
    let menu = Menu::new("Papers: folder to write them into", Vec::new());
    app.overlay = Some(Overlay::Menu(menu.or(Other::PapersTo, folder.display().to_string())));
}

/// Write them; what is there is replaced only after asking.
pub fn write(app: &mut App, folder: &Path, replace: bool) {
    let folder = at_home(folder);
    app.overlay = None;
    let Some(papers) = app.papers else { return app.refuse("papers are written by the program's own screens only") };
    let pinned = app.mends.pinned_of(&app.now);
    let beside = if pinned.is_empty() { "" } else { ", the pinned rivals side by side" };
    match papers(&app.now, &pinned, &folder, replace) {
        Ok(count) => app.say(format!("{count} papers in {}{beside}; report.html prints", folder.display())),
        Err(NotWritten::Exists(there)) => {
            let lines = [format!("{} exists already.", there.display())];
            let over = Action::Papers(folder, true);
            let choices = [
                ('a', "write them into another folder", Action::AskPapers),
                ('o', "write over the papers there", over),
            ];
            app.overlay = Some(Overlay::Ask(Ask::new("There are papers already", &lines, &choices)));
        }
        Err(NotWritten::Failed(reason)) => app.refuse(reason),
    }
}
