//! Everything the screens hold. No drawing, no keys: who changes it is `update`, who shows it is `draw`.

use super::action::Action;
use super::ahead::Ahead;
use super::contents;
use super::days::Days;
use super::edit::Edit;
use super::events::Event;
use super::history::{History, Step};
use super::keeper::Keeper;
use super::keymap::{Mode, Where};
use super::logging::{Logging, Stage};
use super::logs::Logs;
use super::mends::Mends;
use super::outside::{OwnRows, WritePapers};
use super::overlay::Overlay;
use super::pane::{Cell, Pane, Table};
use super::probing::Probing;
use super::scene::Scene;
use super::screen::Screen;
use super::state::State;
use super::theme::{Role, Theme};
use crate::catalogue::Catalogue;
use crate::engine::{Topic, Working};
use crate::plan::{Place, PlanFile, Problem};
use crate::quantity::UnitSystem;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::mpsc::Sender;

/// Everything the screens hold.
pub struct App {
    /// What the trade knows.
    pub catalogue: Rc<Catalogue>,
    /// All texts so far.
    pub history: History,
    /// The plan and the design now.
    pub now: Rc<State>,
    /// Before the last edit.
    pub before: Option<Rc<State>>,
    /// Kept to compare with.
    pub pinned: Option<Rc<State>>,
    /// Where it is saved; none for an example or a new plan.
    pub file: Option<PlanFile>,
    /// Where it is to be saved, while something about that is asked.
    pub saving_to: Option<PlanFile>,
    /// The text as last saved or opened.
    pub saved: Rc<str>,
    /// Writes the papers, where there is somebody to do it.
    pub papers: Option<WritePapers>,
    /// Where rows of the user's own are kept; none without a home folder.
    pub rows: Option<OwnRows>,
    /// The recovery file and the lock.
    pub keeper: Keeper,
    /// The screen shown.
    pub screen: Screen,
    /// The cell in hand of each pane.
    pub spots: BTreeMap<(Screen, usize), Spot>,
    /// The pane in hand of each screen.
    pub panes: BTreeMap<Screen, usize>,
    /// The pane last in hand besides the first, shown where there is room for one only.
    pub seconds: BTreeMap<Screen, usize>,
    /// The field being edited.
    pub editing: Option<Edit>,
    /// What lies over the screen.
    pub overlay: Option<Overlay>,
    /// A search for a fault that was left.
    pub probing: Option<Box<Probing>>,
    /// A logger's file that was left.
    pub logging: Option<Box<Logging>>,
    /// Who reads logger's files.
    pub logs: Logs,
    /// The last thing said.
    pub message: Option<Message>,
    /// Units shown.
    pub units: UnitSystem,
    /// Colours.
    pub theme: Theme,
    /// Only ASCII is drawn.
    pub ascii: bool,
    /// The pane in hand takes the whole window.
    pub zoom: bool,
    /// The diagram is drawn in detail.
    pub detail: bool,
    /// The mouse is listened to.
    pub mouse: bool,
    /// Finding last gone to.
    pub finding: Option<usize>,
    /// Where to work in after a file question is answered.
    pub then: Option<Action>,
    /// Draw everything again.
    pub redraw: bool,
    /// Give the terminal back to the shell until the program is wanted again.
    pub suspend: bool,
    /// What is being typed, designed ahead.
    pub ahead: Ahead,
    /// Simulated days.
    pub days: Days,
    /// What mends the plan.
    pub mends: Mends,
    /// Where workers send their news; without it they work at once.
    pub listener: Option<Sender<Event>>,
}

/// A cell of a pane.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    /// Row; in a text the first line shown.
    pub row: usize,
    /// Column; in a drawing the first column shown.
    pub column: usize,
}

/// Something said to the user.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// One sentence.
    pub text: String,
    /// How it looks.
    pub role: Role,
}

impl App {
    /// Begin with a plan's text.
    ///
    /// # Errors
    /// The problems of the text.
    pub fn new(text: &str, catalogue: Rc<Catalogue>) -> Result<App, Vec<Problem>> {
        let text: Rc<str> = text.into();
        let now = Rc::new(State::read(Rc::clone(&text), &catalogue)?);
        let units = now.plan.job.units.system();
        Ok(App {
            catalogue,
            history: History::new(Rc::clone(&text)),
            now,
            before: None,
            pinned: None,
            file: None,
            saving_to: None,
            papers: None,
            rows: None,
            saved: text,
            keeper: Keeper::default(),
            screen: Screen::Loads,
            spots: BTreeMap::new(),
            panes: BTreeMap::new(),
            seconds: BTreeMap::new(),
            editing: None,
            overlay: None,
            probing: None,
            logging: None,
            logs: Logs::default(),
            message: None,
            units,
            theme: Theme::Colour,
            ascii: false,
            zoom: false,
            detail: false,
            mouse: true,
            finding: None,
            then: None,
            redraw: false,
            suspend: false,
            ahead: Ahead::default(),
            days: Days::default(),
            mends: Mends::default(),
            listener: None,
        })
    }

    /// What the screens draw from.
    pub fn scene(&self) -> Scene<'_> {
        self.scene_on(self.screen, &self.now)
    }

    /// The same of another screen or state.
    pub fn scene_on<'a>(&'a self, screen: Screen, state: &'a State) -> Scene<'a> {
        let (days, span, chances) = (self.days.of(state), self.days.span, &self.days.chances);
        let item = self.spots.get(&(screen, 0)).map_or(0, |s| s.row);
        let rows = match screen {
            Screen::Loads => state.plan.loads.len(),
            Screen::Runs => state.design.installation.runs.len(),
            Screen::Findings => super::findings::rows(&state.design.findings),
            _ => 1,
        };
        let item = listed(screen, state, item.min(rows.saturating_sub(1)));
        Scene {
            state,
            units: self.units,
            ascii: self.ascii,
            detail: self.detail,
            days,
            span,
            chances,
            item,
            tried: self.mends.of(state, item),
        }
    }

    /// The panes of the screen shown.
    pub fn all_panes(&self) -> Vec<Pane<'_>> {
        contents::panes(self.screen, self.scene())
    }

    /// What to compare with: the pinned design, else the one before the last edit.
    pub fn baseline(&self) -> Option<&Rc<State>> {
        self.pinned.as_ref().or(self.before.as_ref())
    }

    /// How a number came about.
    pub fn working(&self, topic: &Topic) -> Option<&Working> {
        let days = || self.days.of(&self.now).and_then(|d| d.workings.at(topic));
        self.now.design.workings().at(topic).or_else(days)
    }

    /// Simulate what the screen in hand shows.
    pub fn settle(&mut self) {
        if self.screen == Screen::Endurance {
            let states: Vec<&Rc<State>> =
                [Some(&self.now), self.pinned.as_ref().or(self.before.as_ref())].into_iter().flatten().collect();
            self.days.settle(&states);
        }
        if self.screen == Screen::Findings && self.overlay.is_none() {
            let (now, finding) = (Rc::clone(&self.now), self.scene().item);
            self.mends.settle(&now, finding, self.listener.as_ref());
        }
    }

    /// Number of the pane in hand.
    pub fn pane(&self) -> usize {
        self.panes.get(&self.screen).copied().unwrap_or(0)
    }

    /// The cell in hand of a pane, within what it has.
    pub fn spot(&self, pane: usize, table: &Table<'_>) -> Spot {
        let start = Spot { row: table.start, column: 0 };
        let spot = self.spots.get(&(self.screen, pane)).copied().unwrap_or(start);
        let row = nearest_row(table, spot.row.min(table.rows.saturating_sub(1)));
        Spot { row, column: nearest_stop(table, spot.column) }
    }

    /// The cell in hand.
    pub fn cell(&self) -> Option<Cell> {
        let panes = self.all_panes();
        let table = panes.get(self.pane())?.as_table()?;
        let spot = self.spot(self.pane(), table);
        table.at(spot.row)?.cells.into_iter().nth(spot.column)
    }

    /// Whether something would be lost by leaving.
    pub fn unsaved(&self) -> bool {
        *self.now.text != *self.saved
    }

    /// Name of the plan's file, or what it is instead.
    pub fn file_name(&self) -> String {
        match &self.file {
            Some(file) => file.path().file_name().unwrap_or_default().to_string_lossy().into_owned(),
            None => "no file yet".into(),
        }
    }

    /// Say something.
    pub fn say(&mut self, text: impl Into<String>) {
        self.message = Some(Message { text: text.into(), role: Role::Text });
    }

    /// Say more of what was just done, unless something of it did not work.
    pub fn add(&mut self, text: impl Into<String>) {
        if self.message.as_ref().is_none_or(|m| m.role != Role::Stop) {
            self.say(text);
        }
    }

    /// Say that something did not work.
    pub fn refuse(&mut self, text: impl Into<String>) {
        self.message = Some(Message { text: text.into(), role: Role::Stop });
    }

    /// Make a new text the plan: one step of history.
    ///
    /// # Errors
    /// Why it is refused: the new text would have problems. Nothing changes then.
    pub fn apply(&mut self, text: String, title: String, place: Option<Place>) -> Result<(), String> {
        if *text == *self.now.text {
            return Ok(());
        }
        let text: Rc<str> = text.into();
        // Said first: that the work cannot be kept is worth more.
        let said = self.message.take();
        self.say(title.clone());
        if let Err(problems) = self.take(Rc::clone(&text)) {
            self.message = said;
            return Err(first(&problems));
        }
        self.history.push(text, Step { title, place });
        Ok(())
    }

    /// Make a text that is in the history, or known to be good, the plan.
    ///
    /// # Errors
    /// The problems of the text.
    pub fn take(&mut self, text: Rc<str>) -> Result<(), Vec<Problem>> {
        let next = match self.ahead.made(&text, &self.catalogue) {
            Some(made) => State::of(text, made.read, made.design, &self.catalogue),
            None => self.now.read_after(text)?,
        };
        let next = Rc::new(next);
        // A key changes the units shown; a plan that says others is heard.
        if next.plan.job.units != self.now.plan.job.units {
            self.units = next.plan.job.units.system();
        }
        self.before = Some(std::mem::replace(&mut self.now, next));
        let unsaved = self.unsaved();
        let text = Rc::clone(&self.now.text);
        match self.keeper.keep(unsaved.then_some(&text)) {
            Ok(()) => self.keeper.told = false,
            Err(reason) if !std::mem::replace(&mut self.keeper.told, true) => {
                self.refuse(format!("the recovery file cannot be written, so save often: {reason}"));
            }
            Err(_) => {}
        }
        Ok(())
    }

    /// Where the user is, as far as keys care.
    pub fn here(&self) -> Where {
        let mode = match (&self.editing, &self.overlay) {
            (Some(_), _) => Mode::Editing,
            (None, Some(Overlay::Help { .. } | Overlay::Text { .. })) => Mode::Reading,
            (None, Some(Overlay::Card(_))) => Mode::Card,
            (None, Some(Overlay::Menu(_))) => Mode::Menu,
            (None, Some(Overlay::Walk(walk))) => walk.mode(),
            (None, Some(Overlay::Bench(_))) => Mode::Bench,
            (None, Some(Overlay::Own(_))) => Mode::Own,
            (None, Some(Overlay::Probing(_))) => Mode::Probing,
            (None, Some(Overlay::Log(log))) if matches!(log.stage, Stage::Asking(_)) => Mode::LogAsked,
            (None, Some(Overlay::Log(_))) => Mode::Log,
            (None, Some(Overlay::Ask(_))) => Mode::Asking,
            (None, None) => Mode::Browse,
        };
        let panes = self.all_panes();
        let table = panes.get(self.pane()).and_then(Pane::as_table);
        let cell = if mode == Mode::Browse { self.cell() } else { None };
        Where {
            mode,
            list: table.is_some_and(|t| t.list.is_some()),
            adds: panes.iter().filter_map(Pane::as_table).any(|t| t.list.is_some()),
            field: cell.as_ref().is_some_and(|c| c.place.is_some()),
            number: cell.as_ref().is_some_and(|c| c.topic.is_some() || c.place.is_some() || !c.why.is_empty()),
            offer: cell.as_ref().is_some_and(|c| c.offer.is_some()),
            findings: self.screen == Screen::Findings,
            diagram: self.screen == Screen::Diagram,
            saves: matches!(self.overlay, Some(Overlay::Text { saves: true, .. })),
        }
    }
}

/// Which item a row of the first list is: leads stand under the run that feeds their board.
fn listed(screen: Screen, state: &State, row: usize) -> usize {
    match screen {
        Screen::Runs => state.design.installation.listed_runs().get(row).copied().unwrap_or(row),
        _ => row,
    }
}

/// The first problem, and how many more.
pub fn first(problems: &[Problem]) -> String {
    let more = match problems.len() {
        0 | 1 => String::new(),
        n => format!(" (and {} more)", n - 1),
    };
    problems.first().map_or_else(String::new, |p| {
        let accepted = if p.label.is_empty() { String::new() } else { format!("; accepted: {}", p.label) };
        format!("{}{accepted}; {}{more}", p.what, p.help)
    })
}

/// The row itself, or the next one that is no heading.
fn nearest_row(table: &Table<'_>, row: usize) -> usize {
    let heading = |r: usize| table.at(r).is_some_and(|r| r.heading);
    (row..table.rows).find(|&r| !heading(r)).or_else(|| (0..row).rev().find(|&r| !heading(r))).unwrap_or(row)
}

/// The column itself, or the nearest in which the cursor can stand.
fn nearest_stop(table: &Table<'_>, column: usize) -> usize {
    let stops = |c: &usize| table.columns.get(*c).is_some_and(|c| c.stops);
    let last = table.columns.len().saturating_sub(1);
    let column = column.min(last);
    (column..=last).find(stops).or_else(|| (0..column).rev().find(stops)).unwrap_or(0)
}
