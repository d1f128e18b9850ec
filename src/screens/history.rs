//! Undo and redo without limit: the text now, and for each step what it changed.
//!
//! A step keeps only the piece of the text that it changed, before and after, so that thousands of them weigh little;
//! undo gives the earlier text back byte for byte.

use crate::plan::Place;
use std::rc::Rc;

/// What was done, and where.
#[derive(Clone, Debug)]
pub struct Step {
    /// In words: `fridge power: 45 W → 60 W`.
    pub title: String,
    /// Where it was done.
    pub place: Option<Place>,
}

/// A step, and the one piece of the text that it changed.
#[derive(Clone, Debug)]
struct Change {
    step: Step,
    /// Where the piece begins, in bytes.
    at: usize,
    before: Box<str>,
    after: Box<str>,
}

/// The steps so far.
#[derive(Clone, Debug)]
pub struct History {
    text: Rc<str>,
    changes: Vec<Change>,
    /// How many of them are done and not undone.
    done: usize,
}

impl History {
    /// Begin with a text.
    pub fn new(text: Rc<str>) -> Self {
        History { text, changes: Vec::new(), done: 0 }
    }

    /// The text now.
    pub fn text(&self) -> &Rc<str> {
        &self.text
    }

    /// A new step, and the text after it; what had been undone is forgotten.
    pub fn push(&mut self, text: Rc<str>, step: Step) {
        let (at, before, after) = changed(&self.text, &text);
        self.changes.truncate(self.done);
        self.changes.push(Change { step, at, before: before.into(), after: after.into() });
        self.done += 1;
        self.text = text;
    }

    /// One step back: the step that was undone.
    pub fn undo(&mut self) -> Option<&Step> {
        self.done = self.done.checked_sub(1)?;
        let Change { step, at, before, after } = self.changes.get(self.done)?;
        self.text = replaced(&self.text, *at, after, before);
        Some(step)
    }

    /// One step forward again: the step that was redone.
    pub fn redo(&mut self) -> Option<&Step> {
        let Change { step, at, before, after } = self.changes.get(self.done)?;
        self.text = replaced(&self.text, *at, before, after);
        self.done += 1;
        Some(step)
    }
}

/// Where two texts begin to differ, and what of each differs from there: whole characters.
fn changed<'a>(old: &'a str, new: &'a str) -> (usize, &'a str, &'a str) {
    let alike = |(a, b): &((usize, char), char)| a.1 == *b;
    let begins = |text: &str, of: &str| {
        let same = text.char_indices().zip(of.chars()).take_while(alike);
        same.last().map_or(0, |((at, c), _)| at + c.len_utf8())
    };
    let at = begins(old, new);
    let ends = || old[at..].chars().rev().zip(new[at..].chars().rev()).take_while(|(a, b)| a == b);
    let end: usize = ends().map(|(c, _)| c.len_utf8()).sum();
    (at, &old[at..old.len() - end], &new[at..new.len() - end])
}

/// A text with one piece at a place instead of another.
fn replaced(text: &str, at: usize, piece: &str, with: &str) -> Rc<str> {
    let mut out = String::with_capacity(text.len() - piece.len() + with.len());
    out.push_str(&text[..at]);
    out.push_str(with);
    out.push_str(&text[at + piece.len()..]);
    out.into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn step(title: &str) -> Step {
        Step { title: title.into(), place: None }
    }

    #[test]
    fn goes_back_and_forth() {
        let mut history = History::new("a".into());
        assert!(history.undo().is_none() && history.redo().is_none());
        history.push("b".into(), step("b"));
        history.push("c".into(), step("c"));
        assert_eq!(history.undo().map(|s| s.title.as_str()), Some("c"));
        assert_eq!(&**history.text(), "b");
        assert_eq!(history.redo().map(|s| s.title.as_str()), Some("c"));
        history.undo();
        history.undo();
        assert_eq!(&**history.text(), "a");
        history.push("d".into(), step("d"));
        assert!(history.redo().is_none());
        assert_eq!(&**history.text(), "d");
    }

    /// A step weighs what it changed, not what the text is long.
    #[test]
    fn a_step_keeps_only_what_it_changed() {
        let (old, new) = ("power_w = 45 # µ\nlead_m = 3\n", "power_w = 460 # µ\nlead_m = 3\n");
        assert_eq!(changed(old, new), (11, "5", "60"));
        assert_eq!(changed("aä", "aö"), (1, "ä", "ö"));
        assert_eq!(changed("aa", "aaa"), (2, "", "a"));
        assert_eq!(changed(new, new), (new.len(), "", ""));
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        /// Any texts, of characters of one to four bytes, come back byte for byte.
        #[test]
        fn every_text_comes_back(texts in prop::collection::vec("[aä€😀\n]{0,12}", 1..12)) {
            let mut history = History::new(texts[0].as_str().into());
            texts[1..].iter().for_each(|text| history.push(text.as_str().into(), step(text)));
            for text in texts.iter().rev().skip(1) {
                history.undo();
                prop_assert_eq!(&**history.text(), text.as_str());
            }
            prop_assert!(history.undo().is_none());
            for text in &texts[1..] {
                prop_assert_eq!(history.redo().map(|s| s.title.clone()), Some(text.clone()));
                prop_assert_eq!(&**history.text(), text.as_str());
            }
            prop_assert!(history.redo().is_none());
        }
    }
}
