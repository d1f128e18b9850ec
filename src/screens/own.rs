//! A row of one's own from a data sheet: what is asked, what is typed, and what the row would say.

use super::edit::type_over;
use crate::catalogue::{Asked, Catalogue, Given, Layer, OwnFile, OwnKind, own_file};
use crate::engine::{Doubt, doubts};
use std::collections::BTreeMap;
use tui_input::{Input, InputRequest};

/// The form.
#[derive(Clone, Debug)]
pub struct Own {
    /// What it is.
    pub kind: OwnKind,
    /// What is typed, in the order asked.
    pub typed: Vec<Input>,
    /// Row in hand: the kind itself, then what is asked.
    pub pick: usize,
    /// Nothing was typed into the row in hand yet.
    pub fresh: bool,
    /// The row as far as it is known.
    pub row: Row,
    /// A file of that name is there, and was told of.
    pub warned: bool,
}

/// What the answers make.
#[derive(Clone, Debug)]
pub enum Row {
    /// Something that is needed was not given yet.
    Missing(String),
    /// An answer is refused: which, and why.
    Refused(usize, String),
    /// A file, and what in it can hardly be.
    Made(Box<OwnFile>, Vec<Doubt>),
}

impl Own {
    /// With nothing typed; where one of a list is asked for, the first stands there.
    pub fn new(catalogue: &Catalogue, kind: OwnKind) -> Own {
        let first =
            |asked: &Asked| asked.options(catalogue).into_iter().next().map_or_else(String::new, |(key, _)| key);
        let typed = kind.asked().iter().map(|asked| Input::new(first(asked))).collect();
        let mut own = Own { kind, typed, pick: 1, fresh: true, row: Row::Missing(String::new()), warned: false };
        own.work_out(catalogue);
        own
    }

    /// What the row in hand asks for; nothing on the kind itself.
    pub fn asked(&self) -> Option<&'static Asked> {
        self.kind.asked().get(self.pick.checked_sub(1)?)
    }

    /// Where on the sheet the row in hand stands.
    pub fn about(&self) -> String {
        match self.asked() {
            Some(asked) => format!("{}: {}", asked.label, asked.find),
            None => "What was bought: what its sheet does not say is that of a usual one of its kind".into(),
        }
    }

    /// What stands in a row: as it is understood, once the row is left.
    pub fn shown(&self, catalogue: &Catalogue, n: usize) -> String {
        let typed = self.typed.get(n).map_or("", Input::value);
        let read = || self.kind.asked().get(n)?.shown(typed, catalogue);
        if self.pick == n + 1 { typed.into() } else { read().unwrap_or_else(|| typed.into()) }
    }

    /// Stand on another row.
    pub fn step(&mut self, by: isize) {
        let rows = self.typed.len() as isize + 1;
        self.pick = (self.pick as isize + by).rem_euclid(rows) as usize;
        self.fresh = true;
    }

    /// Another kind, with nothing typed but the name.
    pub fn turn(&mut self, catalogue: &Catalogue, by: isize) {
        let all = OwnKind::ALL;
        let at = all.iter().position(|kind| *kind == self.kind).unwrap_or(0) as isize;
        let next = all.get((at + by).rem_euclid(all.len() as isize) as usize).copied().unwrap_or(self.kind);
        *self = Own { pick: 0, ..Own::new(catalogue, next) };
    }

    /// Type into the row in hand; where one of a list is asked for, go through the list.
    pub fn type_in(&mut self, catalogue: &Catalogue, request: InputRequest) {
        let by = match request {
            InputRequest::GoToPrevChar => -1,
            InputRequest::GoToNextChar => 1,
            _ => 0,
        };
        let Some(asked) = self.asked() else {
            if by != 0 {
                self.turn(catalogue, by);
            }
            return;
        };
        let options = asked.options(catalogue);
        let Some(input) = self.pick.checked_sub(1).and_then(|n| self.typed.get_mut(n)) else { return };
        if options.is_empty() {
            type_over(input, self.fresh, request);
        } else if by != 0 {
            let at = options.iter().position(|(key, _)| key == input.value()).unwrap_or(0) as isize;
            let next = (at + by).rem_euclid(options.len() as isize) as usize;
            *input = Input::new(options.into_iter().nth(next).map_or_else(String::new, |(key, _)| key));
        }
        self.fresh = false;
        self.warned = false;
        self.work_out(catalogue);
    }

    /// The answers.
    ///
    /// # Errors
    /// Which is refused or missing.
    pub fn answers(&self, catalogue: &Catalogue) -> Result<BTreeMap<&'static str, Given>, Row> {
        let mut all = BTreeMap::new();
        let mut missing = None;
        for (n, (asked, input)) in self.kind.asked().iter().zip(&self.typed).enumerate() {
            match asked.read(input.value(), catalogue) {
                Ok(given) => all.extend(given.map(|given| (asked.key, given))),
                Err(why) if input.value().trim().is_empty() => missing = missing.or(Some(why)),
                Err(why) => return Err(Row::Refused(n, why)),
            }
        }
        missing.map_or(Ok(all), |why| Err(Row::Missing(why)))
    }

    fn work_out(&mut self, catalogue: &Catalogue) {
        self.row = self.made(catalogue).unwrap_or_else(|row| row);
    }

    fn made(&self, catalogue: &Catalogue) -> Result<Row, Row> {
        let refused = |why: String| Row::Refused(self.pick.saturating_sub(1), why);
        let file = own_file(self.kind, &self.answers(catalogue)?).map_err(refused)?;
        let alone = Layer { origin: "your row".into(), files: vec![(file.name.clone(), file.text.clone())] };
        let read = Catalogue::with_layers(&[alone]);
        let with_it = read.map_err(|errors| refused(errors.first().map_or_else(String::new, |e| e.message.clone())))?;
        let doubts = doubts(&with_it, self.kind, &file.key);
        Ok(Row::Made(Box::new(file), doubts))
    }
}
