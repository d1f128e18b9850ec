//! What can be done, in the user's words. Keys, the mouse, the search and the tests send these.

use super::bench::Question;
use super::chances::News;
use super::lognews::LogNews;
use super::screen::Screen;
use super::tried::Tried;
use crate::catalogue::OwnKind;
use crate::engine::{Edit, Span, Symptom};
use crate::plan::{Place, Value};
use std::path::PathBuf;
use tui_input::InputRequest;

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Show a screen.
    Show(Screen),
    /// Work in the next pane.
    NextPane,
    /// Work in the pane before.
    PreviousPane,
    /// Move in the pane.
    Move(Way),
    /// Stand on a cell of a pane.
    #[allow(missing_docs)]
    Stand { pane: usize, row: usize, column: usize },
    /// Stand on a cell of a pane of another screen.
    #[allow(missing_docs)]
    Jump { screen: Screen, pane: usize, row: usize, column: usize },
    /// Enter: edit, use, go to.
    Open,
    /// Edit the field in hand.
    Edit,
    /// Edit the field in hand, beginning with this.
    TypeHere(char),
    /// Leave the field in hand to the default or to the engine.
    Clear,
    /// Add an item to the list.
    Add,
    /// Copy the item in hand.
    Copy,
    /// Take the item in hand out.
    Remove,
    /// Move the item in hand.
    Shift(isize),
    /// Move an item of the list to another row.
    #[allow(missing_docs)]
    Drag { from: usize, to: usize },
    /// Put a value at a place.
    #[allow(missing_docs)]
    Put { place: Place, value: Option<Value>, words: String },
    /// Ask before a remedy changes the plan.
    #[allow(missing_docs)]
    AskMend { edits: Vec<Edit>, words: String },
    /// Put several values at their places, as one step.
    #[allow(missing_docs)]
    PutAll { edits: Vec<Edit>, words: String },
    /// The fewest edits that mend the plan.
    Mend,
    /// What else would do.
    Compare,
    /// Look for a fault with a meter.
    Probe,
    /// This is seen, of this load: what to measure?
    #[allow(missing_docs)]
    LookFor { symptom: Symptom, load: Option<usize> },
    /// Go on with the search for a fault that was left.
    GoOnProbing,
    /// Ask for a logger's file.
    AskLog,
    /// Take in this one.
    OpenLog(PathBuf),
    /// Go on with the one that was left.
    GoOnLogging,
    /// A page to read.
    #[allow(missing_docs)]
    Read { title: &'static str, lines: Vec<String> },
    /// One of them is taken; the rest is looked for again.
    #[allow(missing_docs)]
    TakeOne { edits: Vec<Edit>, words: String },
    /// Ask what shall become of a rival, by its place in the list.
    Rival(usize),
    /// Pin it, or pin it no more.
    PinRival(usize),
    /// The list of rivals once more.
    Rivals,
    /// Keep the row in hand as it is, or no more.
    Keep,
    /// Go to the field that mends something.
    Go(Place),
    /// Add a typical load by its row in the catalogue, or an unknown one by its name.
    AddLoad(Result<usize, String>),
    /// Make a point at which runs end a board, with a way for each circuit.
    MakeBoard(String),
    /// Take back the last edit.
    Undo,
    /// Do it again.
    Redo,

    /// Answer the question that lies over the screen.
    Choose(Box<Action>),
    /// Take what was typed.
    Commit,
    /// Take what was typed and edit the next field.
    CommitNext,
    /// Put back what was there; close what is open.
    Cancel,
    /// Change what is typed.
    Type(InputRequest),
    /// Insert a text.
    Paste(String),

    /// Save the plan.
    Save,
    /// Save the plan even though the file changed or exists.
    SaveOver,
    /// Ask for a name and save under it.
    SaveAs,
    /// Save under this name.
    SaveTo(PathBuf),
    /// Ask for a folder and write the papers into it.
    AskPapers,
    /// Write the papers into this folder, over those that are there or not.
    Papers(PathBuf, bool),
    /// Ask which plan to open.
    AskOpen,
    /// Open this plan.
    OpenPlan(PathBuf),
    /// Open an example plan.
    OpenExample(usize),
    /// Read the file again, as another program left it.
    Reload,
    /// The versions of this plan that were saved.
    Versions,
    /// Compare a saved version with the plan now.
    LookAtVersion(usize),
    /// Make a saved version the plan.
    TakeVersion(usize),
    /// Take the text kept when the program ended badly.
    Recover,
    /// Throw that text away.
    ForgetRecovered,
    /// Drop unsaved changes and go on with what was asked for.
    DropChanges,
    /// Leave, asking if something would be lost.
    Quit,
    /// Leave now.
    QuitNow,
    /// Save, then leave.
    SaveAndQuit,
    /// Build a plan from a few questions.
    Walk,
    /// Ask what is wanted, where no plan was named.
    Welcome,
    /// What to buy.
    ToBuy,
    /// Ask without a plan.
    Bench(Question),
    /// Make the answer of the bench a part of the plan.
    TakeAnswer,
    /// A part of one's own from its data sheet.
    OwnRow(OwnKind),
    /// Keep it in the user's folder.
    KeepRow,

    /// Keys of where you are.
    Help,
    /// How the number in hand came about.
    Working,
    /// All that can be done and all that stands on the screens, by name.
    Find,
    /// What the last edit changed.
    Changes,
    /// Go to the next finding's field.
    NextFinding,
    /// Apply the remedy of the finding in hand.
    Apply,
    /// Keep this design to compare with, or stop comparing.
    Pin,
    /// Metric or US units.
    Units,
    /// The pane in hand over the whole window, or back.
    Zoom,
    /// The diagram in overview or in detail.
    Detail,
    /// From the drawing to the run in hand.
    ToRun,
    /// Mouse on or off.
    Mouse,
    /// Simulate these days.
    Simulate(Span),
    /// Draw the chances, so many times.
    DrawChances(u32),
    /// News of a worker.
    Hear(News),
    /// News of what mends the plan.
    HearTried(Tried),
    /// News of a logger's file.
    HearLog(LogNews),
    /// Draw everything again.
    Redraw,
    /// Give the terminal back to the shell for a while.
    Suspend,
    /// The window was given back: look whether the file changed.
    Look,
}

/// A way to move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Way {
    Up,
    Down,
    Left,
    Right,
    PageUp,
    PageDown,
    First,
    Last,
    Start,
    End,
}
