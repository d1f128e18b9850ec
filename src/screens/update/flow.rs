//! What comes after an action?

use crate::screens::action::Action;

/// Whether to go on.
#[derive(Clone, Debug, PartialEq)]
pub enum Flow {
    /// Go on.
    On,
    /// Do this next.
    Then(Action),
    /// Leave.
    Quit,
}
