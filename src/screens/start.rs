//! The way in: which plan, which terminal, and what is left behind at the end.

use super::action::Action;
use super::app::{App, first};
use super::outside::{OwnRows, WritePapers};
use super::run::{Ended, run as run_loop};
use super::theme::Theme;
use super::update::files::opened;
use super::update::update;
use super::{events, terminal};
use crate::catalogue::Catalogue;
use crate::plan::{self, PlanFile};
use anyhow::{Context, bail};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use std::mem::ManuallyDrop;
use std::path::PathBuf;
use std::rc::Rc;

/// What a plan file that does not exist yet begins with.
const NEW: &str = "format = 2\n\n[service_battery]\nchemistry = \"lithium-iron-phosphate\"\n";

/// What the system says of a terminal that is gone (`EIO`).
const GONE: i32 = 5;

/// How to start the screens.
#[derive(Clone, Debug, Default)]
pub struct Start {
    /// The plan; an example when absent.
    pub file: Option<PathBuf>,
    /// What the trade knows.
    pub catalogue: Catalogue,
    /// Draw only ASCII.
    pub ascii: bool,
    /// Draw without colours.
    pub plain: bool,
    /// Leave the mouse to the terminal.
    pub no_mouse: bool,
    /// Where recovery files and locks are kept; none when absent.
    pub state_folder: Option<PathBuf>,
    /// Writes the papers of a plan into a folder.
    pub papers: Option<WritePapers>,
    /// Where rows of the user's own are kept.
    pub rows: Option<OwnRows>,
}

/// Show the screens until the user leaves.
///
/// # Errors
/// The plan cannot be read or has problems (all are told), or the terminal cannot be used.
pub fn run(start: Start) -> anyhow::Result<()> {
    let mut app = app(&start)?;
    // Without this, modifiers such as reverse are lost where NO_COLOR is set; our theme has no colours then.
    crossterm::style::force_color_output(true);
    let ended = {
        let _taken = terminal::Taken::new(app.mouse).context("the terminal cannot be used for the screens")?;
        // Dropping it would complain on a terminal that is gone, and fail at that; `Taken` puts everything back.
        let mut terminal = ManuallyDrop::new(Terminal::new(CrosstermBackend::new(terminal::writer()))?);
        let (sender, events) = events::listen();
        app.listener = Some(sender);
        run_loop(&mut app, &mut terminal, &events)
    };
    match ended {
        Ok(Ended::Left) => app.keeper.close(),
        Ok(Ended::Stopped(_)) | Err(_) if app.unsaved() => app.keeper.leave(),
        _ => app.keeper.close(),
    }
    match ended {
        Ok(Ended::Left) => {}
        Ok(Ended::Stopped(signal)) => events::die_of(signal),
        // The terminal went before its hang-up was heard.
        Err(e) if e.raw_os_error() == Some(GONE) => events::die_of(events::HANG_UP),
        Err(e) => return Err(e).context("drawing on the terminal"),
    }
    Ok(())
}

/// The app with the plan that was asked for.
fn app(start: &Start) -> anyhow::Result<App> {
    let catalogue = Rc::new(start.catalogue.clone());
    let (file, text) = match &start.file {
        Some(path) if !plan::is_there(path) => (Some(PlanFile::new(path)), NEW.to_string()),
        Some(path) => {
            let (file, bytes) = PlanFile::open(path)?;
            let read = plan::read_bytes(&bytes, &catalogue);
            if !read.problems.is_empty() {
                let all: Vec<String> = read.problems.iter().map(|p| format!("  {p}")).collect();
                bail!("{} has problems; nothing was changed\n{}", path.display(), all.join("\n"));
            }
            (Some(file), String::from_utf8_lossy(&bytes).into_owned())
        }
        None => (None, plan::default_example().text.to_string()),
    };
    let mut app = match App::new(&text, catalogue) {
        Ok(app) => app,
        Err(problems) => bail!(first(&problems)),
    };
    let new = start.file.as_ref().is_some_and(|p| !plan::is_there(p));
    app.file = file;
    app.theme = if start.plain { Theme::Plain } else { Theme::Colour };
    app.ascii = start.ascii;
    app.mouse = !start.no_mouse;
    app.papers = start.papers;
    app.rows.clone_from(&start.rows);
    app.keeper = super::keeper::Keeper::new(start.state_folder.clone());
    opened(&mut app, start.file.as_deref());
    if new && app.overlay.is_none() {
        update(&mut app, Action::Walk);
        app.saved = "".into();
    }
    if start.file.is_none() && app.overlay.is_none() {
        update(&mut app, Action::Welcome);
    }
    if start.file.is_none() && app.message.is_none() {
        app.say("An example plan. N: your own; b: a cable or a cut-off alone; ? shows all keys");
    }
    Ok(app)
}
