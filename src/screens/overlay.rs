//! What can lie over a screen: help, a working, a list to choose from, a question, a walk-through.

use super::action::Action;
use super::edit::fits;
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
    },
    /// A new plan in five questions.
    Walk(Walk),
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
    /// What can be chosen.
    pub entries: Vec<Entry>,
    /// The entry in hand among those that match.
    pub pick: usize,
    /// What is done with a text that matches nothing.
    pub other: Option<Other>,
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

impl Menu {
    /// A list with nothing typed.
    pub fn new(title: impl Into<String>, entries: Vec<Entry>) -> Self {
        Menu { title: title.into(), input: Input::default(), entries, pick: 0, other: None, error: None }
    }

    /// With what is done with another text.
    pub fn or(mut self, other: Other, text: impl Into<String>) -> Self {
        self.other = Some(other);
        self.input = Input::new(text.into());
        self
    }

    /// Indices of the entries that match what is typed.
    pub fn matches(&self) -> Vec<usize> {
        let typed = self.input.value();
        let fit = |e: &Entry| fits(typed, &[&e.words, &e.extra]);
        self.entries.iter().enumerate().filter(|(_, e)| fit(e)).map(|(i, _)| i).collect()
    }

    /// What choosing now does.
    pub fn chosen(&self) -> Option<Action> {
        let typed = self.input.value().trim();
        let entry = self.matches().get(self.pick).and_then(|&i| self.entries.get(i));
        match (entry, self.other) {
            (Some(entry), _) => Some(entry.action.clone()),
            (None, _) if typed.is_empty() => None,
            (None, Some(Other::SaveTo)) => Some(Action::SaveTo(typed.into())),
            (None, Some(Other::PapersTo)) => Some(Action::Papers(typed.into(), false)),
            (None, Some(Other::Open)) => Some(Action::OpenPlan(typed.into())),
            (None, Some(Other::LoadName)) => Some(Action::AddLoad(Err(typed.into()))),
            (None, None) => None,
        }
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
