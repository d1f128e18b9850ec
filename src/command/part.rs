//! Which part of the catalogue is asked for?

use crate::papers::Shelf;
use clap::ValueEnum;
use clap::builder::PossibleValue;

/// What of the catalogue is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A shelf of it.
    Shelf(Shelf),
    /// One row or value, with the source of each.
    Explain,
    /// Rows of the user's own, or the file of one of them.
    Own,
}

impl ValueEnum for Part {
    fn value_variants<'a>() -> &'a [Self] {
        const { &Part::all() }
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        let (word, about) = match self {
            Part::Shelf(shelf) => (shelf.word(), shelf.about()),
            Part::Explain => ("explain", "One row or value, with the source of each"),
            Part::Own => ("own", "Rows of your own; with a key the file of one, to give away"),
        };
        Some(PossibleValue::new(word).help(about))
    }
}

impl Part {
    const fn all() -> [Part; Shelf::ALL.len() + 2] {
        let mut all = [Part::Explain; Shelf::ALL.len() + 2];
        all[Shelf::ALL.len()] = Part::Own;
        let mut n = 0;
        while n < Shelf::ALL.len() {
            all[n] = Part::Shelf(Shelf::ALL[n]);
            n += 1;
        }
        all
    }
}
