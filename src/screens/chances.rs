//! How sure the simulated days are, and how a worker tells it.

use crate::engine::simulate::chance::Uncertainty;

/// How sure it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Chances {
    /// Not asked for.
    #[default]
    Unknown,
    /// Being drawn.
    Drawing {
        /// Draws made.
        done: u32,
        /// Draws wanted.
        count: u32,
    },
    /// Drawn.
    Said(Box<Uncertainty>),
    /// Why it could not be drawn.
    Failed(String),
}

/// News of a worker.
#[derive(Clone, Debug, PartialEq)]
pub struct News {
    /// Whose work it is of: what an earlier plan asked for is not listened to.
    pub ticket: u64,
    /// How far it has come.
    pub chances: Chances,
}
