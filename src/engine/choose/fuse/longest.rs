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

use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::let_through::{energy, let_through};
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::fault::faults::FarFault;
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

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

/// By branch, the longest length that the fuses at and beyond it allow, with its working; nothing where
/// another rule stops it sooner.
pub(crate) fn longest<'a>(
    ground: &Ground<'a>,
    near: &[Option<Fuse<'a>>],
    far: &[Option<Fuse<'a>>],
) -> Vec<Option<(Metres, Working)>> {
    let rooms = rooms(ground, near, far);
    rooms.into_iter().enumerate().map(|(branch, room)| limit(ground, branch, &room?)).collect()
}

/// By branch, what the weakest fuse at or beyond it leaves.
fn rooms<'a>(ground: &Ground<'a>, near: &[Option<Fuse<'a>>], far: &[Option<Fuse<'a>>]) -> Vec<Option<Room>> {
    let mut rooms: Vec<Option<Room>> = vec![None; ground.links.len()];
    let mut keep = |branch: usize, room: Room| {
        if let Some(place) = rooms.get_mut(branch)
            && place.is_none_or(|least| room.more < least.more)
        {
            *place = Some(room);
        }
    };
    for fuse in near.iter().flatten() {
        let Some((style, rating)) = fuse.fitted() else { continue };
        let links = fuse.clearing.links_before + style.cold_resistance(rating);
        for end in ground.zone(fuse.branch) {
            let fault = ground.far_fault(end, links);
            let Some(room) = fault.and_then(|far| room(fuse, ground.fault_open, far)) else { continue };
            ground.upward(end).for_each(|branch| keep(branch, room));
        }
    }
    for fuse in far.iter().flatten() {
        if let Some(room) = fuse.clearing.far.and_then(|far| room(fuse, ground.fault_open, far)) {
            keep(fuse.branch, room);
        }
    }
    rooms
}

/// The length that follows, where no other rule stops the run sooner.
fn limit(ground: &Ground, branch: usize, room: &Room) -> Option<(Metres, Working)> {
    let (link, design) = (ground.link(branch)?, ground.design(branch)?);
    let per_metre = link.hot_per_metre();
    if per_metre <= 0.0 {
        return None;
    }
    let longest = Metres::new((link.length.get() + room.more.get() / per_metre).max(0.0));
    if design.longest.is_some_and(|(other, _)| other <= longest) {
        return None;
    }
    let (_, whose) = ground.run_of(room.fuse);
    let words = "longest length one way in this size";
    let working = Working::new(words, "max(L + (E / I - r - R) / p, 0)", longest)
        .with("L", "length one way", link.length)
        .with("E", "resting voltage of the battery at its reserve, cold", room.far.emf)
        .with("I", format!("least far-end fault with which the fuse of {whose} keeps every rule"), room.needs)
        .with("r", "internal resistance of the battery then, aged", room.far.internal)
        .with("R", "path of that fault as it is, hot", room.far.path)
        .with("p", "copper out and back as hot as its insulation stands, for each metre", Ohms::new(per_metre))
        .source("a far-end fault opens the fuse before the cable is harmed; operating times of its style")
        .note(format!("stopped by: {FAR_END}; the other runs as they are"));
    Some((
        longest,
        match design.longest {
            Some((other, stop)) => working.note(format!("{stop} would allow {other}")),
            None => working,
        },
    ))
}

/// Beside the longest length: up to where a far-end fault opens the run's fuse in time, if that is less.
pub(crate) fn note_late(run: &RunDesign, book: &mut Book) {
    let Some((in_time, (longest, _))) = run.in_time_to().zip(run.longest) else { return };
    let subject = Subject::Run(run.run);
    if let Some(working) = book.notes.workings().and_then(|w| w.get(&subject, "longest")).cloned() {
        let words = format!(
            "a far-end fault opens its fuse in time up to {in_time}; from there to {longest} the cable stands it until the fuse opens"
        );
        book.work(subject, "longest", working.note(words));
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
