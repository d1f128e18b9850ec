//! Looking for a fault with a meter: what is seen, what was read so far, and what the readings make of it.

use super::state::State;
use crate::engine::{Measurement, Symptom, Taken, TroubleAnswer, trouble};
use crate::papers::{Block, Document, trouble_answer};
use crate::quantity::{Unit, parse};
use std::rc::Rc;
use tui_input::Input;

/// A search for a fault under way.
#[derive(Clone, Debug)]
pub struct Probing {
    /// The circuit is that of this plan.
    of: Rc<State>,
    /// What is seen.
    symptom: Symptom,
    /// Of which load.
    load: Option<usize>,
    taken: Vec<(Taken, String)>,
    skipped: Vec<Measurement>,
    answer: TroubleAnswer,
    /// What is typed: the next reading.
    pub input: Input,
    /// First line that is shown.
    pub scroll: usize,
    /// Why what was typed is no reading.
    pub error: Option<String>,
}

impl Probing {
    /// Nothing is read yet.
    pub fn new(of: &Rc<State>, symptom: Symptom, load: Option<usize>) -> Probing {
        let mut new = Probing {
            of: Rc::clone(of),
            symptom,
            load,
            taken: Vec::new(),
            skipped: Vec::new(),
            answer: TroubleAnswer::default(),
            input: Input::default(),
            scroll: 0,
            error: None,
        };
        new.think();
        new
    }

    /// Whether it is about this very plan.
    pub fn is_of(&self, state: &Rc<State>) -> bool {
        Rc::ptr_eq(&self.of, state)
    }

    /// In a few words: `Fridge: a load does nothing, 3 readings`.
    pub fn title(&self) -> String {
        let of = if self.answer.load.is_empty() { String::new() } else { format!("{}: ", self.answer.load) };
        format!("{of}{}", self.answer.symptom)
    }

    /// How many readings were taken.
    pub fn readings(&self) -> usize {
        self.taken.len()
    }

    /// Whether a measurement is asked for.
    pub fn asks(&self) -> bool {
        self.answer.next.is_some()
    }

    /// What is known now, and what was read.
    pub fn paper(&self) -> Document {
        let mut paper = trouble_answer(&self.answer);
        if !self.taken.is_empty() {
            paper.blocks.push(Block::Heading(1, "Read so far".into()));
            paper.blocks.push(Block::List(self.taken.iter().map(|(_, words)| words.clone()).collect()));
        }
        paper
    }

    /// Take what is typed as the reading that is asked for.
    pub fn take(&mut self) {
        let Some(step) = &self.answer.next else { return };
        let typed = self.input.value().trim().trim_end_matches(['V', 'v', 'A', 'a']).trim_end();
        if typed.is_empty() {
            self.error = Some("type what the meter shows, such as 12.4, or press Tab where you cannot reach it".into());
            return;
        }
        match parse(typed, Unit::Number) {
            Ok(shown) => {
                let words = format!("{}; {}: {typed}", step.on, step.probes);
                self.taken.push((Taken { what: step.what, shown }, words));
                self.think();
            }
            Err(why) => self.error = Some(why.explain(Unit::Number)),
        }
    }

    /// The place cannot be reached: another measurement is asked for.
    pub fn skip(&mut self) {
        if let Some(step) = &self.answer.next {
            self.skipped.push(step.what);
            self.think();
        }
    }

    /// Take the last reading back.
    pub fn back(&mut self) {
        if self.taken.pop().is_some() {
            self.skipped.clear();
            self.think();
        }
    }

    fn think(&mut self) {
        let taken: Vec<Taken> = self.taken.iter().map(|(taken, _)| *taken).collect();
        let wired = self.of.design.wired();
        self.answer = trouble(&wired, (self.symptom, self.load), &taken, &self.skipped);
        (self.input, self.scroll, self.error) = (Input::default(), 0, None);
    }
}
