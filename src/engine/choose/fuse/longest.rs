//! How long may a run become before a fault at a far end is a STOP or a caution?
//!
//! A longer run lets less fault current through to all that lies beyond it. A
//! fuse fails once the least current may never open it, opens it too late for
//! its cable to stand the wait, or lets through more than its cable stands. All
//! three follow from the current alone, and change for the worse only where
//! the current falls below a gate; so the gates are looked at one by one. What
//! the weakest fuse at or beyond a run leaves, R, gives L = L0 + R / R', with
//! R' the hot copper of a metre out and back. Where the fault burns longer than
//! it should but harms no cable (a note), the length is not limited.
//!
//! Left out: faults fed from beyond, except through a fuse at that end.

use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::let_through::{energy, let_through};
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::fault::current::FarFault;
use crate::engine::simulate::fault::fuse::{Fuse, Fuses};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;
use crate::reckon;

/// What stops a longer run, in words.
pub(crate) const FAR_END: &str = "far-end fault";

/// How much longer the way of one fault may be.
#[derive(Clone, Copy, Debug)]
struct Room {
    /// More resistance; negative where there is too much already.
    more: Ohms,
    /// Least current that keeps every rule.
    needs: Amps,
    far: FarFault,
    /// The branch whose fuse it is.
    fuse: usize,
}

/// By branch, the longest length that the fuses at and beyond it allow, where no other rule stops it sooner.
pub(crate) fn longest(loops: &FaultLoops, fuses: &Fuses, notes: &mut Notes) -> Vec<Option<Metres>> {
    let rooms = rooms(loops, fuses);
    rooms.into_iter().enumerate().map(|(branch, room)| limit(loops, branch, &room?, notes)).collect()
}

/// By branch, what the weakest fuse at or beyond it leaves.
fn rooms(loops: &FaultLoops, fuses: &Fuses) -> Vec<Option<Room>> {
    let mut rooms: Vec<Option<Room>> = vec![None; loops.links.len()];
    let mut keep = |branch: usize, room: Room| {
        if let Some(place) = rooms.get_mut(branch)
            && place.is_none_or(|least| room.more < least.more)
        {
            *place = Some(room);
        }
    };
    for fuse in fuses.near.iter().flatten() {
        let Some((style, rating)) = fuse.fitted() else { continue };
        let links = fuse.clearing.links_before + style.warm_resistance(rating);
        for end in loops.zone(fuse.branch) {
            let fault = loops.far_fault(end, links);
            let Some(room) = fault.and_then(|far| room(fuse, loops.fault_open, far)) else { continue };
            loops.upward(end).for_each(|branch| keep(branch, room));
        }
    }
    for fuse in fuses.far.iter().flatten() {
        if let Some(room) = fuse.clearing.far.and_then(|far| room(fuse, loops.fault_open, far)) {
            keep(fuse.branch, room);
        }
    }
    rooms
}

/// The length that follows, where no other rule stops the run sooner.
fn limit(loops: &FaultLoops, branch: usize, room: &Room, notes: &mut Notes) -> Option<Metres> {
    let (link, design) = (loops.link(branch)?, loops.design(branch)?);
    let per_metre = link.hot_per_metre();
    if per_metre <= 0.0 {
        return None;
    }
    let longest = reckon!(Metres: max(L + (E / I - r - R) / p, 0.0),
        L: "length one way" = link.length,
        E: "resting voltage of the battery at its reserve, cold" = room.far.emf,
        I: "least far-end fault with which the fuse keeps every rule" = room.needs,
        r: "internal resistance of the battery then, aged" = room.far.internal,
        R: "path of that fault as it is, hot" = room.far.path,
        p: "copper out and back as hot as its insulation stands, for each metre" = Ohms::new(per_metre));
    if design.longest.is_some_and(|(other, _)| other <= longest.value) {
        return None;
    }
    let run = loops.run_of(branch).0;
    Some(notes.reckon(&Subject::Run(run), "longest", longest, |r| {
        let working = r
            .working("longest length one way in this size")
            .source("a far-end fault opens the fuse before the cable is harmed; operating times of its style")
            .note(format!("the fuse is that of {}", loops.run_of(room.fuse).1))
            .note(format!("stopped by: {FAR_END}; the other runs as they are"));
        match design.longest {
            Some((other, stop)) => working.note(format!("{stop} would allow {other}")),
            None => working,
        }
    }))
}

/// Beside the longest length: up to where a far-end fault opens the run's fuse in time, if that is less.
pub(crate) fn note_late(run: &RunDesign, notes: &mut Notes) {
    let Some((in_time, (longest, _))) = run.in_time_to().zip(run.longest) else { return };
    let subject = Subject::Run(run.run);
    if let Some(working) = notes.workings().and_then(|w| w.get(&subject, "longest")).cloned() {
        let words = format!(
            "a far-end fault opens its fuse in time up to {in_time}; from there to {longest} the cable stands it until the fuse opens"
        );
        notes.add(subject, "longest", || working.note(words));
    }
}

/// What the way of a fault may have more, so that the fuse keeps every rule.
fn room(fuse: &Fuse, within: Seconds, far: FarFault) -> Option<Room> {
    let needs = least(fuse, within, far.amps)?;
    let more = far.emf / needs - far.internal - far.path;
    Some(Room { more, needs, far, fuse: fuse.branch })
}

/// Just above and just below a gate.
const ASIDE: f64 = 1e-9;

/// The least fault current down to which the fuse keeps every rule, from the one that flows; where it keeps
/// them not even now, the next larger one with which it does. `None` where no gate promises it.
fn least(fuse: &Fuse, within: Seconds, now: Amps) -> Option<Amps> {
    let (style, rating) = fuse.fitted()?;
    let carried = rating * fuse.clearing.slow;
    let edge = |of_rating: f64| carried * (of_rating * (1.0 + ASIDE));
    let edges = style.gates.iter().map(|g| edge(g.of_rating));
    if fails(fuse, within, now) {
        return edges.filter(|e| *e > now).find(|e| !fails(fuse, within, *e));
    }
    edges.rev().filter(|e| *e <= now).find(|e| fails(fuse, within, *e * (1.0 - 3.0 * ASIDE)))
}

/// Whether a far-end fault of this current is a STOP or a caution.
fn fails(fuse: &Fuse, within: Seconds, amps: Amps) -> bool {
    let Some((style, rating)) = fuse.fitted() else { return false };
    let (clearing, carried) = (&fuse.clearing, rating * fuse.clearing.slow);
    let opens = latest(&style.gates, amps / carried);
    let stands = |through: AmpsSquaredSeconds| through.get() <= clearing.stands.get();
    let late = opens.is_none_or(|time| time.get() > within.get() && !stands(energy(amps, time)));
    let through = let_through(style, rating, clearing.slow, amps, fuse.prospective.amps.max(amps));
    late || through.is_some_and(|t| !stands(t.energy))
}
