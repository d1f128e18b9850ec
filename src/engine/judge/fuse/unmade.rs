//! Finding: is the given rating made at all?

use crate::catalogue::cite;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::limits::breaks;
use crate::engine::physics::fuse_link::rating::{breaking, made_near, styles};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// Whether no style of the catalogue, or not the pinned one, has the given rating.
pub fn is_unmade(loops: &FaultLoops, fuse: &Fuse) -> bool {
    let of_style = || styles(&loops.site.catalogue, loops.style_pin(fuse.branch));
    let made = |rating: Amps| of_style().any(|s| s.ratings.contains(&rating));
    fuse.pinned && fuse.rating.is_some_and(|rating| !made(rating))
}

/// A rating that cannot be bought.
pub fn check(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let rating = fuse.rating.filter(|_| is_unmade(loops, fuse))?;
    let (run, name) = loops.run_of(fuse.branch);
    let pin = loops.style_pin(fuse.branch);
    let whose = match fuse.style.filter(|_| pin.is_some()) {
        Some(style) => format!("no {} is", style.name),
        None => "no fuse-link of the catalogue is".to_string(),
    };
    let all = || styles(&loops.site.catalogue, pin);
    let (near, sound) = (made_near(all(), rating), made_near(all().filter(|s| breaks(s, &fuse.need)), rating));
    let mut finding =
        Finding::new(Kind::FuseUnmade, Subject::Run(run), format!("{whose} made for {rating}, as given for {name}"))
            .rule(format!(
                "fuse-links are made in standard ratings only; {}",
                cite(near.iter().flatten().map(|(style, _)| &style.from.ratings))
            ))
            .at(Place::run(run, "fuse_a"));
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
    Some(finding)
}
