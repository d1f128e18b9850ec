//! What a screen draws from: a state, the units wanted, and the item in hand.

use super::chances::Chances;
use super::days::Simulated;
use super::state::State;
use crate::engine::{Design, Finding, Span, Subject};
use crate::plan::{Place, Plan};
use crate::quantity::{Figure, UnitSystem};

/// Everything a screen may read to make its panes.
#[derive(Clone, Copy)]
pub struct Scene<'a> {
    /// The plan and its design.
    pub state: &'a State,
    /// Units to show.
    pub units: UnitSystem,
    /// Only ASCII may be shown.
    pub ascii: bool,
    /// The diagram in detail.
    pub detail: bool,
    /// Simulated days of this state.
    pub days: Option<&'a Simulated>,
    /// What is simulated.
    pub span: Span,
    /// How sure that is.
    pub chances: &'a Chances,
    /// The finding in hand with the remedies that were tried; `None` while they are tried.
    pub tried: Option<&'a Finding>,
    /// Row in hand of the screen's first pane.
    pub item: usize,
}

impl<'a> Scene<'a> {
    /// The plan.
    pub fn plan(&self) -> &'a Plan {
        &self.state.plan
    }

    /// The design.
    pub fn design(&self) -> &'a Design {
        &self.state.design
    }

    /// A number with its unit, or a dash when it is absent.
    pub fn show(&self, figure: impl Into<Figure>) -> String {
        self.plain(figure.into().show(self.units))
    }

    /// Only the digits; the unit stands in the column's head.
    pub fn digits(&self, figure: impl Into<Figure>) -> String {
        self.plain(figure.into().digits(self.units))
    }

    /// The symbol of a unit for column heads.
    pub fn symbol(&self, figure: impl Into<Figure>) -> String {
        self.plain(figure.into().symbol(self.units).to_string())
    }

    /// In ASCII, where two signs are needed for one.
    pub fn plain(&self, text: String) -> String {
        if self.ascii && !text.is_ascii() {
            text.replace("mΩ", "mohm").replace('Ω', "ohm").replace("°", "deg ")
        } else {
            text
        }
    }

    /// Whether the plan gives this key.
    pub fn is_given(&self, place: Place) -> bool {
        self.state.given.contains(&place)
    }

    /// A subject in words.
    pub fn words(&self, subject: &Subject) -> String {
        self.design().installation.name_of(subject)
    }
}
