//! What still fits, once the carrier has come out a little otherwise than planned?
//!
//! Inside: as measured, and where it was not measured as planned. Holes: the measured ones are laid over the planned
//! pattern by the shift and the turn that bring them nearest (least squares of the distances, the plane problem that
//! has a closed form), and what each is then still off is held against the play that a bolt has in two holes of the
//! medium series. Left out: metal that came out thinner, which belongs into the plan's own thickness.

use crate::catalogue::StudSize;
use crate::engine::physics::steel::sharing::Pattern;
use crate::engine::simulate::hold_down::result::{Box3, Built, BuiltHole, Shape};
use crate::plan::{AsBuilt, Drilled, HoldDown};
use crate::quantity::*;

/// What was measured; `None` where nothing was.
pub(crate) fn built(
    wanted: &HoldDown,
    measured: &AsBuilt,
    drilled: &[Drilled],
    shape: &Shape,
    pattern: &Pattern,
    size: &StudSize,
) -> Option<Built> {
    let any = [measured.length, measured.width, measured.height].iter().any(Option::is_some);
    if !any && drilled.is_empty() {
        return None;
    }
    let planned = &shape.inside;
    let inside = Box3 {
        along: measured.length.unwrap_or(planned.along),
        across: measured.width.unwrap_or(planned.across),
        upright: measured.height.unwrap_or(planned.upright),
    };
    let gap = shape.battery.map(|b| Box3 {
        along: (inside.along - b.along) / 2.0,
        across: (inside.across - b.across) / 2.0,
        upright: inside.upright - b.upright,
    });
    let less = |length: Millimetres, gaps: f64| (length - wanted.clearance * gaps).max(Millimetres::ZERO);
    let largest =
        Box3 { along: less(inside.along, 2.0), across: less(inside.across, 2.0), upright: less(inside.upright, 1.0) };
    let height_left = shape.height_left.map(|left| left - (inside.upright - planned.upright));
    Some(Built { inside, gap, largest, height_left, holes: holes(drilled, pattern, size) })
}

/// A stud's number, where it is planned and where its hole was measured, along and across.
type Measured = (u32, (f64, f64), (f64, f64));

/// A hole further off than this was mistaken for another one, or measured from elsewhere; common practice, no source.
const WANDERS: Millimetres = Millimetres::new(20.0);

/// Each measured hole against its stud, the whole laid on as well as it can be.
fn holes(drilled: &[Drilled], pattern: &Pattern, size: &StudSize) -> Vec<BuiltHole> {
    let pair = |d: &Drilled| {
        let stud = *pattern.studs.get((d.stud as usize).checked_sub(1)?)?;
        Some((d.stud, stud, (d.along.get(), d.across.get())))
    };
    let pairs: Vec<_> = drilled.iter().filter_map(pair).collect();
    let n = pairs.len().max(1) as f64;
    let middle = |of: fn(&Measured) -> (f64, f64)| {
        let sum = pairs.iter().map(of).fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
        (sum.0 / n, sum.1 / n)
    };
    let (to, from) = (middle(|p| p.1), middle(|p| p.2));
    let arms = |p: &Measured| ((p.1.0 - to.0, p.1.1 - to.1), (p.2.0 - from.0, p.2.1 - from.1));
    // Turn that makes the sum of squared distances least: atan2 of the sums of the cross and the dot products.
    let (cross, dot) =
        pairs.iter().map(arms).fold((0.0, 0.0), |s, (a, b)| (s.0 + b.0 * a.1 - b.1 * a.0, s.1 + b.0 * a.0 + b.1 * a.1));
    let (sin, cos) = if cross == 0.0 && dot == 0.0 { (0.0, 1.0) } else { cross.atan2(dot).sin_cos() };
    let play = (size.hole - size.diameter).max(Millimetres::ZERO);
    let hole = |p: &Measured| {
        let (a, b) = arms(p);
        let off = (b.0 * cos - b.1 * sin - a.0).hypot(b.0 * sin + b.1 * cos - a.1);
        let off = Millimetres::new(off);
        // A bolt goes through two holes; a file makes one of them wider by twice what is missing.
        let open = size.hole + (off - play).max(Millimetres::ZERO) * 2.0;
        BuiltHole { stud: p.0, off, play, open: (off <= WANDERS).then_some(open) }
    };
    pairs.iter().map(hole).collect()
}
