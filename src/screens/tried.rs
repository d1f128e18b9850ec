//! What does a worker tell that tries what mends the plan, or the answers of a new one?

use super::clash::{Checked, Way};
use crate::engine::Finding;
use crate::engine::ask::mend::fewest::Mend;
use crate::engine::ask::rivals::cross::Rivals;

/// News of the worker.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// Whose work it is of: what an earlier plan asked for is not listened to.
    pub ticket: u64,
    /// What came out.
    pub what: What,
}

/// What a worker has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// The remedies of the finding in this place.
    Remedies(usize, Box<Finding>),
    /// So many designs have been made.
    Trying(usize),
    /// How the whole plan is mended.
    Mended(Box<Mend>),
    /// What else would do.
    Compared(Box<Rivals>),
    /// Whether answers go together.
    Checked(Box<Checked>),
    /// Which other answers go together.
    Ways(Vec<Way>),
}
