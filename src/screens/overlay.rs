//! What can lie over a screen: help, a working, a list to choose from, a question, a walk-through.

use super::action::Action;
use super::bench::Bench;
use super::edit::fits;
use super::logging::Logging;
use super::own::Own;
use super::probing::Probing;
use super::theme::Role;
use super::walk::Walk;
use crate::engine::Topic;
use tui_input::Input;

/// What lies over the screen.
#[derive(Clone, Debug)]
pub enum Overlay {
    /// Keys of where you are.
    Help {
        /// First line shown.
        scroll: usize,
    },
    /// How a number came about.
    Card(Card),
    /// A list to choose from.
    Menu(Menu),
    /// A question.
    Ask(Ask),
    /// A text to read.
    Text {
        /// Title.
        title: String,
        /// Lines with their roles.
        lines: Vec<(String, Role)>,
        /// First line shown.
        scroll: usize,
        /// The plan is saved from here: it is what the plan comes to.
        saves: bool,
    },
    /// A new plan from a few questions.
    Walk(Box<Walk>),
    /// A question without a plan.
    Bench(Box<Bench>),
    /// A row of one's own.
    Own(Box<Own>),
    /// A search for a fault.
    Probing(Box<Probing>),
    /// A logger's file.
    Log(Box<Logging>),
}

/// Workings, stepped into one after the other.
#[derive(Clone, Debug)]
pub struct Card {
    /// The last is shown.
    pub stack: Vec<Topic>,
    /// The number in hand among those put in.
    pub pick: usize,
}

/// A list to choose from, with a filter.
#[derive(Clone, Debug)]
pub struct Menu {
    /// Title.
    pub title: String,
    /// What is typed.
    pub input: Input,
    /// Nothing was typed yet: the first letter replaces all.
    pub fresh: bool,
    /// What can be chosen.
    pub entries: Vec<Entry>,
    /// The entry in hand among those that match.
    pub pick: usize,
    /// What can be done with the text itself.
    pub other: Option<Other>,
    /// The text itself stands before what it matches: it names a thing that is there.
    pub own_first: bool,
    /// What went wrong with it.
    pub error: Option<String>,
}

/// What a text that matches no entry is taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Other {
    /// A file to save to.
    SaveTo,
    /// A file to open.
    Open,
    /// A folder for the papers.
    PapersTo,
    /// The name of a new load.
    LoadName,
    /// A logger's file.
    Log,
}

/// One thing to choose.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Shown on the left.
    pub words: String,
    /// Shown on the right.
    pub extra: String,
    /// What choosing does.
    pub action: Action,
}

/// A row of a list: an entry, or the text itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Shown on the left.
    pub words: String,
    /// Shown on the right.
    pub extra: String,
    /// What choosing does.
    pub action: Action,
}

impl Other {
    /// What is done with a text, in words, and by which action.
    fn with(self, text: &str) -> (String, Action) {
        match self {
            Other::SaveTo => (format!("save as “{text}”"), Action::SaveTo(text.into())),
            Other::Log => (format!("the file “{text}”"), Action::OpenLog(text.into())),
            Other::Open => (format!("the file “{text}”"), Action::OpenPlan(text.into())),
            Other::PapersTo => (format!("into the folder “{text}”"), Action::Papers(text.into(), false)),
            Other::LoadName => (format!("a load of your own: “{text}”"), Action::AddLoad(Err(text.into()))),
        }
    }
}

impl Menu {
    /// A list with nothing typed.
    pub fn new(title: impl Into<String>, entries: Vec<Entry>) -> Self {
        let (input, other) = (Input::default(), None);
        Menu { title: title.into(), input, fresh: true, entries, pick: 0, other, own_first: false, error: None }
    }

    /// With what can be done with another text.
    pub fn or(mut self, other: Other, text: impl Into<String>) -> Self {
        self.other = Some(other);
        self.input = Input::new(text.into());
        self
    }

    /// The rows now: entries that match what is typed, and the text itself unless it is one of them.
    pub fn choices(&self) -> Vec<Choice> {
        let typed = self.input.value().trim();
        let entries = self.entries.iter().filter(|e| fits(typed, &[&e.words, &e.extra]));
        let choice = |e: &Entry| Choice { words: e.words.clone(), extra: e.extra.clone(), action: e.action.clone() };
        let mut rows: Vec<Choice> = entries.map(choice).collect();
        // The entry that is meant word for word before those that only hold the words.
        rows.sort_by_key(|r| !r.words.eq_ignore_ascii_case(typed));
        let named = rows.first().is_some_and(|r| r.words.eq_ignore_ascii_case(typed));
        if let (Some(other), false, false) = (self.other, typed.is_empty(), named) {
            let (words, action) = other.with(typed);
            let own = Choice { words, extra: String::new(), action };
            rows.insert(if self.own_first { 0 } else { rows.len() }, own);
        }
        rows
    }

    /// What choosing now does.
    pub fn chosen(&self) -> Option<Action> {
        self.choices().into_iter().nth(self.pick).map(|c| c.action)
    }
}

/// A question with a few answers.
#[derive(Clone, Debug)]
pub struct Ask {
    /// Title.
    pub title: String,
    /// What is asked, one paragraph each.
    pub lines: Vec<String>,
    /// Letter, words and action of each answer.
    pub choices: Vec<(char, String, Action)>,
    /// The answer in hand.
    pub pick: usize,
}

impl Ask {
    /// A question; the first answer is the safe one.
    pub fn new(title: &str, lines: &[String], choices: &[(char, &str, Action)]) -> Self {
        Ask {
            title: title.into(),
            lines: lines.to_vec(),
            choices: choices.iter().map(|(c, w, a)| (*c, w.to_string(), a.clone())).collect(),
            pick: 0,
        }
    }

    /// The action of a letter.
    pub fn answer(&self, letter: char) -> Option<Action> {
        let small = letter.to_ascii_lowercase();
        self.choices.iter().find(|(c, _, _)| *c == small).map(|(_, _, a)| a.clone())
    }
}
