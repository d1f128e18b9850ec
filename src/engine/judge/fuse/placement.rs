//! How far from its source may a fuse sit?
//!
//! The stretch of cable before the fuse is protected by nothing, so it is kept
//! short, and may be longer only where it is sheathed or enclosed all the way:
//! 7 in and 40 in by 33 CFR 183.455(b), or another rule of the catalogue.

use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::fault::ground::Ground;
use crate::plan::{Place, Value};
use crate::quantity::*;

impl Ground<'_> {
    /// Whether the run counts as sheathed or enclosed the whole way.
    fn is_enclosed(&self, branch: usize) -> bool {
        self.run(branch).and_then(|r| self.site.catalogue.place(&r.surroundings)).is_some_and(|p| p.enclosed)
    }

    /// How far from its source the fuse of a branch may sit; `None` where the catalogue has no rule.
    pub fn within(&self, branch: usize) -> Option<Metres> {
        self.placement.map(|p| if self.is_enclosed(branch) { p.enclosed } else { p.bare })
    }
}

/// Judge the distance of one fuse.
pub(crate) fn find(ground: &Ground, fuse: &Fuse, book: &mut Book) {
    let (Some(rule), Some(within), Some(run)) = (ground.placement, ground.within(fuse.branch), ground.run(fuse.branch))
    else {
        return;
    };
    if run.fuse_distance.get() <= within.get() {
        return;
    }
    let (index, name) = ground.run_of(fuse.branch);
    let enclosed = ground.is_enclosed(fuse.branch);
    let how = if enclosed { "sheathed or enclosed" } else { "bare" };
    let text = format!(
        "the fuse of {name} sits {} from `{}`; a {how} cable may have it within {within}",
        run.fuse_distance,
        ground.place_of(fuse)
    );
    let mut finding = Finding::new(Kind::FuseFar, Subject::Run(index), text)
        .rule(format!(
            "{} bare, {} sheathed or enclosed the whole way; {}",
            rule.bare,
            rule.enclosed,
            if enclosed { rule.from.enclosed.words() } else { rule.from.bare.words() }
        ))
        .at(Place::run(index, "fuse_distance_m"))
        .remedy_edit(
            format!("move it to within {within} of the source"),
            Place::run(index, "fuse_distance_m"),
            Some(Value::Number(within.get())),
        );
    if !enclosed && run.fuse_distance.get() <= rule.enclosed.get() {
        finding = finding.remedy(format!("or enclose the cable the whole way: then {} is allowed", rule.enclosed));
    }
    book.find(finding);
}
