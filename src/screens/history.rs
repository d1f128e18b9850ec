//! Undo and redo without limit: a line of whole texts, each with its title and place.
//!
//! A text of a few kilobytes a step is cheap, and undo gives the earlier text
//! back byte for byte.

use crate::plan::Place;
use std::rc::Rc;

/// One text and how it came about.
#[derive(Clone, Debug)]
pub struct Step {
    /// The text after the step.
    pub text: Rc<str>,
    /// What was done, in words: `fridge power: 45 W → 60 W`.
    pub title: String,
    /// Where it was done.
    pub place: Option<Place>,
}

/// The steps so far. There is always at least one: the text as opened.
#[derive(Clone, Debug)]
pub struct History {
    steps: Vec<Step>,
    now: usize,
}

impl History {
    /// Begin with a text.
    pub fn new(text: Rc<str>) -> Self {
        History { steps: vec![Step { text, title: String::new(), place: None }], now: 0 }
    }

    /// The text now.
    pub fn text(&self) -> &Rc<str> {
        // `now` always points at a step; `new` makes the first and nothing takes it away.
        &self.steps[self.now].text
    }

    /// A new step; what had been undone is forgotten.
    pub fn push(&mut self, step: Step) {
        self.steps.truncate(self.now + 1);
        self.steps.push(step);
        self.now += 1;
    }

    /// One step back: the step that was undone.
    pub fn undo(&mut self) -> Option<&Step> {
        self.now = self.now.checked_sub(1)?;
        self.steps.get(self.now + 1)
    }

    /// One step forward again: the step that was redone.
    pub fn redo(&mut self) -> Option<&Step> {
        let step = self.steps.get(self.now + 1)?;
        self.now += 1;
        Some(step)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(text: &str) -> Step {
        Step { text: text.into(), title: text.into(), place: None }
    }

    #[test]
    fn goes_back_and_forth() {
        let mut history = History::new("a".into());
        assert!(history.undo().is_none() && history.redo().is_none());
        history.push(step("b"));
        history.push(step("c"));
        assert_eq!(history.undo().map(|s| s.title.as_str()), Some("c"));
        assert_eq!(&**history.text(), "b");
        assert_eq!(history.redo().map(|s| s.title.as_str()), Some("c"));
        history.undo();
        history.undo();
        assert_eq!(&**history.text(), "a");
        history.push(step("d"));
        assert!(history.redo().is_none());
        assert_eq!(&**history.text(), "d");
    }
}
