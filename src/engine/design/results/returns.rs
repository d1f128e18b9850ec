//! Results of the minus side: the bond to the body.

use super::fact::{At, facts};
use crate::engine::installation::subject::Subject;
use crate::engine::parts::bond::Bond;
use crate::quantity::*;

fn number(run: Option<usize>, at: &At<'_>) -> Option<String> {
    Some(at.site.run_number(run?))
}

facts! { Bond, "bond", "the conductor from the service battery's minus to the body", |_, _| Subject::Bond;
    LENGTH: Metres = "length_m", "Length", "as entered", |b, _| b.length;
    SIZE: Option<String> = "size", "Size", "null where none is enough or nothing is fed", |b, _| b.size.clone();
    AREA: Option<SquareMillimetres> = "area_mm2", "Copper", "of that size", |b, _| b.size.as_ref().map(|_| b.area), "size";
    PINNED: bool = "pinned", "Given", "whether the plan gives the size", |b, _| b.pinned;
    RULING: &'static str = "ruling", "Decided by", "what decided the size", |b, _| b.ruling;
    LOAD: Amps = "load_a", "Comes back", "all that comes back through the body", |b, _| b.load, "load";
    AMPACITY: Amps = "ampacity_a", "Carries", "for ever", |b, _| b.ampacity, "ampacity";
    ENERGY: AmpsSquaredSeconds = "let_through_a2s", "Let through", "the most that a device lets through into the body", |b, _| b.energy, "let-through";
    ENERGY_BY: Option<String> = "let_through_by", "By the fuse of", "the run with that device", |b, at| number(b.energy_by, at);
    STANDS: AmpsSquaredSeconds = "stands_a2s", "Stands", "until the device has opened", |b, _| b.stands, "stands";
    LARGEST: SquareMillimetres = "largest_mm2", "Largest positive", "that can touch the body", |b, _| b.largest, "largest";
    LARGEST_BY: Option<String> = "largest_by", "That is", "the run with it", |b, at| number(b.largest_by, at);
}
