//! Finding: is the given rating made at all?

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::choice::{breaking, breaks, styles};
use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::fault::ground::Ground;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// The nearest rating made above and below, each in the first style that has it.
pub(crate) fn made_near<'c>(
    styles: impl Iterator<Item = &'c FuseStyle> + Clone,
    rating: Amps,
) -> [Option<(&'c FuseStyle, Amps)>; 2] {
    let made = || styles.clone().flat_map(|s| s.ratings.iter().map(move |r| (s, *r)));
    let (above, below) = (made().filter(|m| m.1 > rating), made().filter(|m| m.1 < rating));
    [above.reduce(|a, b| if b.1 < a.1 { b } else { a }), below.reduce(|a, b| if b.1 > a.1 { b } else { a })]
}

/// Whether no style of the catalogue, or not the pinned one, has the given rating.
pub(crate) fn is_unmade(ground: &Ground, fuse: &Fuse) -> bool {
    let pin = ground.run(fuse.branch).and_then(|r| r.fuse_style.as_deref());
    let made = |rating: Amps| styles(&ground.site.catalogue, pin).any(|s| s.ratings.contains(&rating));
    fuse.pinned && fuse.rating.is_some_and(|rating| !made(rating))
}

/// Tell of a rating that cannot be bought.
pub(crate) fn find(ground: &Ground, fuse: &Fuse, book: &mut Book) {
    let (Some(rating), true) = (fuse.rating, is_unmade(ground, fuse)) else { return };
    let (run, name) = ground.run_of(fuse.branch);
    let pin = ground.run(fuse.branch).and_then(|r| r.fuse_style.as_deref());
    let whose = match fuse.style.filter(|_| pin.is_some()) {
        Some(style) => format!("no {} is", style.name),
        None => "no fuse-link of the catalogue is".to_string(),
    };
    let mut finding =
        Finding::new(Kind::FuseUnmade, Subject::Run(run), format!("{whose} made for {rating}, as given for {name}"))
            .rule("fuse-links are made in standard ratings only; ratings by the catalogue's `fuse-links`")
            .at(Place::run(run, "fuse_a"));
    let all = || styles(&ground.site.catalogue, pin);
    let (near, sound) = (made_near(all(), rating), made_near(all().filter(|s| breaks(s, &fuse.need)), rating));
    let mut offered: Vec<Amps> = Vec::new();
    for (style, near) in near.into_iter().chain(sound).flatten() {
        if offered.contains(&near) {
            continue;
        }
        offered.push(near);
        let weak = if breaks(style, &fuse.need) {
            String::new()
        } else {
            let breaks = breaking(style, fuse.need.circuit);
            format!(", though it breaks {breaks} of the {} at its place", fuse.prospective.amps)
        };
        let value = Some(Value::Number(near.get()));
        finding = finding.remedy_edit(format!("{near}: {}{weak}", style.name), Place::run(run, "fuse_a"), value);
    }
    if finding.remedies.is_empty() {
        finding = finding
            .remedy(format!("leave {rating} out, or put the style that has it into `fuse-links` of your own profiles"));
    }
    book.find(finding);
}
