//! One plan's text and all that follows from it, recomputed as a whole at every change.

use crate::catalogue::Catalogue;
use crate::engine::{Design, design, design_after};
use crate::plan::{self, Place, Plan, Problem, Read};
use crate::quantity::Names;
use std::collections::BTreeSet;
use std::rc::Rc;

/// A plan's text, the plan read from it and the design that follows.
#[derive(Clone, Debug)]
pub struct State {
    /// The text: the only thing that is edited, saved and undone.
    pub text: Rc<str>,
    /// What it says.
    pub plan: Plan,
    /// The keys it gives; all others have their default or are chosen.
    pub given: BTreeSet<Place>,
    /// What follows.
    pub design: Design,
    /// What of it reads like a value and is a name.
    pub names: Names,
    /// What the trade knows.
    pub catalogue: Rc<Catalogue>,
}

impl State {
    /// Read and design.
    ///
    /// # Errors
    /// The problems of the text, if it has any: a plan with problems is not designed.
    pub fn read(text: Rc<str>, catalogue: &Rc<Catalogue>) -> Result<State, Vec<Problem>> {
        Self::read_by(text, catalogue, |plan| design(plan, catalogue))
    }

    /// The same of a text that was edited, without doing again what the edit does not touch.
    ///
    /// # Errors
    /// As [`State::read`].
    pub fn read_after(&self, text: Rc<str>) -> Result<State, Vec<Problem>> {
        Self::read_by(text, &self.catalogue, |plan| design_after(&self.design, plan, &self.catalogue))
    }

    fn read_by(
        text: Rc<str>,
        catalogue: &Rc<Catalogue>,
        designed: impl FnOnce(&Plan) -> Design,
    ) -> Result<State, Vec<Problem>> {
        let read = plan::read(&text, catalogue);
        if !read.problems.is_empty() {
            return Err(read.problems);
        }
        let design = designed(&read.plan);
        Ok(Self::of(text, read, design, catalogue))
    }

    /// Of a text without problems and the design that follows from it.
    pub fn of(text: Rc<str>, read: Read, design: Design, catalogue: &Rc<Catalogue>) -> State {
        let given = read.given.into_keys().collect();
        let names = read.plan.names();
        State { text, names, plan: read.plan, given, design, catalogue: Rc::clone(catalogue) }
    }
}
