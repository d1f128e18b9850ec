//! The table from keys to actions. The footer, `?`, the search and the tests read the same table.

use super::action::{Action, Way};
use super::bench::Question;
use super::screen::Screen;
use crate::catalogue::OwnKind;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

/// A key with what is held down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Key {
    code: KeyCode,
    held: Held,
}

/// What is held down with a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Held {
    Nothing,
    Ctrl,
    Alt,
    Shift,
}

const fn key(c: char) -> Key {
    Key { code: KeyCode::Char(c), held: Held::Nothing }
}
const fn ctrl(c: char) -> Key {
    Key { code: KeyCode::Char(c), held: Held::Ctrl }
}
const fn named(code: KeyCode) -> Key {
    Key { code, held: Held::Nothing }
}
const fn with(held: Held, code: KeyCode) -> Key {
    Key { code, held }
}

impl Key {
    /// The key of an event. Terminals differ in how they tell Shift with a
    /// letter or sign, so it is dropped there: the letter is large already.
    pub fn of(event: &KeyEvent) -> Key {
        let m = event.modifiers;
        let letter = matches!(event.code, KeyCode::Char(_));
        let held = if m.contains(KeyModifiers::CONTROL) {
            Held::Ctrl
        } else if m.contains(KeyModifiers::ALT) {
            Held::Alt
        } else if m.contains(KeyModifiers::SHIFT) && !letter {
            Held::Shift
        } else {
            Held::Nothing
        };
        match (event.code, held) {
            (KeyCode::BackTab, _) => Key { code: KeyCode::Tab, held: Held::Shift },
            (KeyCode::Char(c), Held::Ctrl) => Key { code: KeyCode::Char(c.to_ascii_lowercase()), held },
            (code, held) => Key { code, held },
        }
    }

    /// As written in hints.
    pub fn words(self) -> String {
        let name = match self.code {
            KeyCode::Char(' ') => "Space".into(),
            KeyCode::Char(c) if self.held == Held::Ctrl => c.to_ascii_uppercase().to_string(),
            KeyCode::Char(c) => c.to_string(),
            KeyCode::F(n) => format!("F{n}"),
            KeyCode::Up => "↑".into(),
            KeyCode::Down => "↓".into(),
            KeyCode::Left => "←".into(),
            KeyCode::Right => "→".into(),
            KeyCode::PageUp => "PgUp".into(),
            KeyCode::PageDown => "PgDn".into(),
            KeyCode::Delete => "Del".into(),
            KeyCode::Insert => "Ins".into(),
            KeyCode::Backspace => "Backspace".into(),
            code => format!("{code:?}"),
        };
        match self.held {
            Held::Nothing => name,
            Held::Ctrl => format!("Ctrl+{name}"),
            Held::Alt => format!("Alt+{name}"),
            Held::Shift => format!("Shift+{name}"),
        }
    }
}

/// Where the user is, as far as keys care.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Where {
    /// What takes the keys.
    pub mode: Mode,
    /// The pane in hand is a list whose rows can be copied and moved.
    pub list: bool,
    /// Rows can be added: to the list in hand, or else to the first of the screen.
    pub adds: bool,
    /// The cell in hand edits a field.
    pub field: bool,
    /// The cell in hand shows a number, or a field.
    pub number: bool,
    /// Enter does something here besides editing.
    pub offer: bool,
    /// The screen is Findings.
    pub findings: bool,
    /// The screen is Diagram.
    pub diagram: bool,
    /// The text to read is what the plan comes to.
    pub saves: bool,
}

/// What takes the keys.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mode {
    /// The screens.
    #[default]
    Browse,
    /// A field.
    Editing,
    /// A list to choose from, with a filter.
    Menu,
    /// A text to read.
    Reading,
    /// A working.
    Card,
    /// A question.
    Asking,
    /// A name to type.
    Typing,
    /// Values of a question without a plan.
    Bench,
    /// A row of one's own.
    Own,
    /// A reading, while a fault is looked for.
    Probing,
    /// A logger's file beside the plan.
    Log,
    /// How a logger's file is written.
    LogAsked,
}

/// When a binding holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// Whatever takes the keys.
    Anywhere,
    /// In a mode.
    In(Mode),
    /// On a list of the plan.
    List,
    /// On a screen with a list of the plan.
    Adds,
    /// On a field.
    Field,
    /// On a number or a field.
    Number,
    /// Where Enter uses or goes.
    Offer,
    /// On the Findings screen.
    Findings,
    /// On the Diagram screen.
    Diagram,
    /// Over the screens, on a text from which the plan is saved.
    Saves,
}

impl When {
    /// Whether it holds here.
    pub fn holds(self, here: Where) -> bool {
        let browse = here.mode == Mode::Browse;
        match self {
            When::Anywhere => true,
            When::In(mode) => here.mode == mode,
            When::List => browse && here.list,
            When::Adds => browse && here.adds,
            When::Field => browse && here.field,
            When::Number => browse && here.number,
            When::Offer => browse && here.offer,
            When::Findings => browse && here.findings,
            When::Diagram => browse && here.diagram,
            When::Saves => here.mode == Mode::Reading && here.saves,
        }
    }
}

/// One line of the table.
pub struct Binding {
    /// Keys that do it; the first is shown.
    pub keys: &'static [Key],
    /// What they do.
    pub action: Action,
    /// When.
    pub when: When,
    /// In words.
    pub words: &'static str,
    /// One word for the footer, in order of the table; empty to leave it out.
    pub hint: &'static str,
}

/// The action of a key.
pub fn action(event: &KeyEvent, here: Where) -> Option<Action> {
    let key = Key::of(event);
    BINDINGS.iter().find(|b| b.when.holds(here) && b.keys.contains(&key)).map(|b| b.action.clone())
}

/// The bindings that hold here.
pub fn here(here: Where) -> impl Iterator<Item = &'static Binding> {
    BINDINGS.iter().filter(move |b| b.when.holds(here))
}

const BROWSE: When = When::In(Mode::Browse);
const EDITING: When = When::In(Mode::Editing);
const MENU: When = When::In(Mode::Menu);
const READING: When = When::In(Mode::Reading);
const CARD: When = When::In(Mode::Card);
const ASKING: When = When::In(Mode::Asking);
const TYPING: When = When::In(Mode::Typing);
const BENCH: When = When::In(Mode::Bench);
const OWN: When = When::In(Mode::Own);
const PROBING: When = When::In(Mode::Probing);
const LOG: When = When::In(Mode::Log);
const LOG_ASKED: When = When::In(Mode::LogAsked);

macro_rules! bindings {
    ($($when:expr; [$($key:expr),*] => $action:expr, $words:expr, $hint:literal;)*) => {
        &[$(Binding { keys: &[$($key),*], action: $action, when: $when, words: $words, hint: $hint },)*]
    };
}

use KeyCode::{Backspace, Delete, Down, End, Enter, Esc, F, Home, Insert, Left, PageDown, PageUp, Right, Tab, Up};

/// The whole table, in the order of the footer and of `?`.
pub static BINDINGS: &[Binding] = bindings! {
    When::Offer; [named(Enter)] => Action::Open, "use this, or go to the field that mends it", "use";
    When::Field; [named(Enter), named(F(2)), key('e')] => Action::Edit, "edit the field; a digit begins too; Enter takes it, Esc puts it back", "edit";
    When::Field; [named(Backspace)] => Action::Clear, "empty the field: leave it to the program", "";
    When::Diagram; [named(Enter)] => Action::ToRun, "go to the run in hand; G comes back to it", "run";
    When::Diagram; [key('+'), key('-')] => Action::Detail, "overview or detail", "overview/detail";
    When::Findings; [key('a')] => Action::Apply, "apply the remedy of the finding in hand", "apply";
    When::Findings; [key('M')] => Action::Mend, "mend: the fewest edits after which no STOP is left, whole or line by line", "mend";
    When::Adds; [key('n'), named(Insert)] => Action::Add, "add a row to the list of this screen", "new";
    When::List; [key('c')] => Action::Copy, "copy the row", "copy";
    When::List; [key('d'), named(Delete)] => Action::Remove, "delete the row", "delete";
    When::List; [key('K'), with(Held::Alt, Up), with(Held::Shift, Up)] => Action::Shift(-1), "move the row up", "";
    When::List; [key('J'), with(Held::Alt, Down), with(Held::Shift, Down)] => Action::Shift(1), "move the row down", "";
    When::List; [key('k')] => Action::Keep, "keep the row as it is when the plan is mended, or no more", "";
    When::Number; [key('w')] => Action::Working, "how this number came about", "working";
    BROWSE; [named(Tab)] => Action::NextPane, "next pane", "pane";
    BROWSE; [with(Held::Shift, Tab)] => Action::PreviousPane, "pane before", "";
    BROWSE; [key('u')] => Action::Undo, "undo, without limit", "undo";
    BROWSE; [key('r'), ctrl('y')] => Action::Redo, "redo", "";
    BROWSE; [key('s'), ctrl('s')] => Action::Save, "save", "save";
    BROWSE; [key('A')] => Action::SaveAs, "save under another name", "";
    BROWSE; [key('P')] => Action::AskPapers, "write the papers for the workshop into a folder", "papers";
    BROWSE; [key('o'), ctrl('o')] => Action::AskOpen, "open a plan", "";
    BROWSE; [key('N')] => Action::Walk, "a new plan, question by question", "";
    BROWSE; [key('h')] => Action::Versions, "saved versions of this plan: compare, take back", "";
    BROWSE; [key('V')] => Action::Compare, "rivals: what else would do, one step more or less, what matters most", "";
    BROWSE; [key('m')] => Action::ToBuy, "what to buy", "";
    BROWSE; [key('b')] => Action::Bench(Question::Cable), "a question without a plan: which cable, which cut-off?", "";
    BROWSE; [key('y')] => Action::OwnRow(OwnKind::Battery), "a battery, charger, fuse or cable of your own, from its data sheet", "";
    BROWSE; [key('x')] => Action::Probe, "find a fault with a meter: what is dark, weak, flat, warm?", "";
    BROWSE; [key('i')] => Action::AskLog, "take in a logger's file (CSV): planned and measured side by side", "";
    BROWSE; [key('g')] => Action::NextFinding, "go to the field of the next finding", "";
    BROWSE; [key('v')] => Action::Changes, "what the last edit changed, or what differs from the pinned design", "";
    BROWSE; [key('p')] => Action::Pin, "pin this design to compare with; again to stop", "";
    BROWSE; [key('t')] => Action::Units, "metric or US units", "";
    BROWSE; [key('z')] => Action::Zoom, "this pane over the whole window, and back", "zoom";
    BROWSE; [key('/'), key(':'), ctrl('p')] => Action::Find, "find anything: fields, loads, runs, numbers, findings, keys", "";
    BROWSE; [key('?'), named(F(1))] => Action::Help, "this help", "keys";
    BROWSE; [key('q'), ctrl('c'), ctrl('q')] => Action::Quit, "leave; asks if something would be lost", "quit";
    When::Anywhere; [ctrl('l')] => Action::Redraw, "draw everything again", "";
    When::Anywhere; [ctrl('z')] => Action::Suspend, "give the terminal back to the shell; fg comes back", "";
    BROWSE; [key(Screen::Loads.key())] => Action::Show(Screen::Loads), Screen::Loads.title(), "";
    BROWSE; [key(Screen::Supply.key())] => Action::Show(Screen::Supply), Screen::Supply.title(), "";
    BROWSE; [key(Screen::Battery.key())] => Action::Show(Screen::Battery), Screen::Battery.title(), "";
    BROWSE; [key(Screen::Runs.key())] => Action::Show(Screen::Runs), Screen::Runs.title(), "";
    BROWSE; [key(Screen::CutOff.key())] => Action::Show(Screen::CutOff), Screen::CutOff.title(), "";
    BROWSE; [key(Screen::Endurance.key())] => Action::Show(Screen::Endurance), Screen::Endurance.title(), "";
    BROWSE; [key(Screen::Diagram.key())] => Action::Show(Screen::Diagram), Screen::Diagram.title(), "";
    BROWSE; [key(Screen::Carrier.key())] => Action::Show(Screen::Carrier), Screen::Carrier.title(), "";
    BROWSE; [key(Screen::Findings.key()), key('f')] => Action::Show(Screen::Findings), Screen::Findings.title(), "";
    BROWSE; [key(Screen::TestSheet.key())] => Action::Show(Screen::TestSheet), Screen::TestSheet.title(), "";
    BROWSE; [named(Up)] => Action::Move(Way::Up), "up", "";
    BROWSE; [named(Down)] => Action::Move(Way::Down), "down", "";
    BROWSE; [named(Left)] => Action::Move(Way::Left), "left", "";
    BROWSE; [named(Right)] => Action::Move(Way::Right), "right", "";
    BROWSE; [named(PageUp)] => Action::Move(Way::PageUp), "a page up", "";
    BROWSE; [named(PageDown)] => Action::Move(Way::PageDown), "a page down", "";
    BROWSE; [named(Home)] => Action::Move(Way::Start), "start of the row", "";
    BROWSE; [named(End)] => Action::Move(Way::End), "end of the row", "";
    BROWSE; [with(Held::Ctrl, Home)] => Action::Move(Way::First), "first row", "";
    BROWSE; [with(Held::Ctrl, End)] => Action::Move(Way::Last), "last row", "";
    BROWSE; [named(Esc)] => Action::Cancel, "back to the first pane", "";

    EDITING; [named(Enter)] => Action::Commit, "take it", "take it";
    EDITING; [named(Tab)] => Action::CommitNext, "take it and edit the next field", "take it, next field";
    EDITING; [named(Esc), ctrl('c')] => Action::Cancel, "put back what was there", "put back";
    EDITING; [named(Up)] => Action::Move(Way::Up), "up in the list", "";
    EDITING; [named(Down)] => Action::Move(Way::Down), "down in the list", "";
    EDITING; [named(PageUp)] => Action::Move(Way::PageUp), "a page up in the list", "";
    EDITING; [named(PageDown)] => Action::Move(Way::PageDown), "a page down in the list", "";

    MENU; [named(Enter), named(Tab)] => Action::Commit, "choose", "choose";
    MENU; [named(Esc), ctrl('c')] => Action::Cancel, "back", "back";
    MENU; [named(Up)] => Action::Move(Way::Up), "up", "";
    MENU; [named(Down)] => Action::Move(Way::Down), "down", "";
    MENU; [named(PageUp)] => Action::Move(Way::PageUp), "a page up", "";
    MENU; [named(PageDown)] => Action::Move(Way::PageDown), "a page down", "";

    READING; [named(Esc), named(Enter), key('q'), key('?'), key('v'), ctrl('c')] => Action::Cancel, "close", "close";
    When::Saves; [key('s'), ctrl('s')] => Action::Save, "save the plan", "save";
    READING; [named(Up)] => Action::Move(Way::Up), "up", "";
    READING; [named(Down)] => Action::Move(Way::Down), "down", "";
    READING; [named(PageUp)] => Action::Move(Way::PageUp), "a page up", "";
    READING; [named(PageDown), key(' ')] => Action::Move(Way::PageDown), "a page down", "";

    CARD; [named(Enter), named(Right)] => Action::Open, "step into the number in hand", "step into";
    CARD; [named(Backspace), named(Left)] => Action::Move(Way::Left), "back to the number it was stepped into from", "back";
    CARD; [named(Esc), key('w'), key('q'), ctrl('c')] => Action::Cancel, "close", "close";
    CARD; [named(Up)] => Action::Move(Way::Up), "up", "";
    CARD; [named(Down)] => Action::Move(Way::Down), "down", "";

    ASKING; [named(Enter)] => Action::Commit, "choose", "choose";
    ASKING; [named(Esc), ctrl('c')] => Action::Cancel, "stay", "stay";
    ASKING; [named(Up)] => Action::Move(Way::Up), "up", "";
    ASKING; [named(Down), named(Tab)] => Action::Move(Way::Down), "down", "";

    BENCH; [named(Enter), named(Tab), named(Down)] => Action::Move(Way::Down), "next value", "next";
    BENCH; [named(Up), with(Held::Shift, Tab)] => Action::Move(Way::Up), "value before", "";
    BENCH; [named(PageDown)] => Action::Move(Way::PageDown), "more of the answer", "more";
    BENCH; [named(PageUp)] => Action::Move(Way::PageUp), "back in the answer", "";
    BENCH; [ctrl('t')] => Action::TakeAnswer, "take the answer into the plan", "into the plan";
    BENCH; [named(Esc), ctrl('c')] => Action::Cancel, "close", "close";

    OWN; [named(Enter), named(Tab), named(Down)] => Action::Move(Way::Down), "next line", "next";
    OWN; [named(Up), with(Held::Shift, Tab)] => Action::Move(Way::Up), "line before", "";
    OWN; [ctrl('s')] => Action::KeepRow, "keep the row in your own folder of profiles", "keep it";
    OWN; [named(Esc), ctrl('c')] => Action::Cancel, "close without keeping it", "close";

    PROBING; [named(Enter)] => Action::Commit, "take the reading; Backspace on nothing takes the last one back", "take it";
    PROBING; [named(Tab)] => Action::Move(Way::Right), "cannot reach it: ask for another measurement", "cannot reach";
    PROBING; [named(Down)] => Action::Move(Way::Down), "down", "";
    PROBING; [named(Up)] => Action::Move(Way::Up), "up", "";
    PROBING; [named(PageDown)] => Action::Move(Way::PageDown), "a page down", "more";
    PROBING; [named(PageUp)] => Action::Move(Way::PageUp), "a page up", "";
    PROBING; [named(Esc), ctrl('c')] => Action::Cancel, "close; x goes on with it", "close";

    LOG_ASKED; [named(Enter)] => Action::Commit, "read the file as shown", "go on";
    LOG_ASKED; [named(Right)] => Action::Move(Way::Right), "read the row in hand another way", "change";
    LOG_ASKED; [named(Left)] => Action::Move(Way::Left), "read it the way before", "";
    LOG_ASKED; [named(Home)] => Action::Move(Way::Start), "recognise the file anew", "as recognised";
    LOG_ASKED; [named(Down), named(Tab)] => Action::Move(Way::Down), "down", "";
    LOG_ASKED; [named(Up)] => Action::Move(Way::Up), "up", "";
    LOG_ASKED; [named(Esc), key('q'), ctrl('c')] => Action::Cancel, "close", "close";

    LOG; [named(Enter)] => Action::Commit, "take the line in hand into the plan", "take";
    LOG; [named(Left)] => Action::Move(Way::Left), "along the curves", "";
    LOG; [named(Right)] => Action::Move(Way::Right), "along the curves", "";
    LOG; [named(Tab)] => Action::Move(Way::End), "the numbers, both curves, how it was read", "curves";
    LOG; [key('a')] => Action::TakeAnswer, "take all that differs, as one step", "take all";
    LOG; [key('u')] => Action::Undo, "take the last step back", "undo";
    LOG; [named(Down)] => Action::Move(Way::Down), "down", "";
    LOG; [named(Up)] => Action::Move(Way::Up), "up", "";
    LOG; [named(PageDown)] => Action::Move(Way::PageDown), "a page down", "";
    LOG; [named(PageUp)] => Action::Move(Way::PageUp), "a page up", "";
    LOG; [named(Esc), key('q'), ctrl('c')] => Action::Cancel, "close; i goes on with it", "close";

    TYPING; [named(Enter)] => Action::Commit, "take it", "take it";
    TYPING; [named(Esc), ctrl('c')] => Action::Cancel, "back", "back";
};
