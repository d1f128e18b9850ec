//! Two pieces of work at once, where the machine has two cores.
//!
//! Both work on values alone and have ended when the call returns, so the
//! answers are the same as one after the other. The threads are those of the
//! library: they wait between one pass and the next, which costs a tenth of what
//! it costs to make them anew.

use rayon::prelude::*;

/// So many calls within each other any thread has room for,
const SHALLOW: usize = 100;
/// each with so many bytes: a search's own, a few times over for builds that are not optimised.
const A_CALL: usize = 16 << 10;
/// No thread asks for more.
const MOST_ROOM: usize = 1 << 30;

/// The answers of both.
pub fn side_by_side<A: Send, B: Send>(one: impl FnOnce() -> A + Send, other: impl FnOnce() -> B + Send) -> (A, B) {
    let (other, one) = rayon::join(other, one);
    (one, other)
}

/// Work done where others wait to take a part of it: going there once is less than going there for every part.
pub fn among_many<A: Send>(work: impl FnOnce() -> A + Send) -> A {
    rayon::join(work, || ()).0
}

/// Work that calls itself so deep, on a thread with room for that. It must not share out parts of itself: those threads
/// may all be waiting for others like it. Where no such thread can be had it is done in place.
pub fn with_room<A: Send>(deep: usize, work: impl FnOnce() -> Option<A> + Send) -> Option<A> {
    let (mut work, mut out) = (Some(work), None);
    if deep > SHALLOW {
        let room = std::thread::Builder::new().stack_size((deep * A_CALL).min(MOST_ROOM));
        std::thread::scope(|scope| {
            let once = || out = work.take().and_then(|work| work());
            if let Ok(Err(panicked)) = room.spawn_scoped(scope, once).map(|thread| thread.join()) {
                std::panic::resume_unwind(panicked);
            }
        });
    }
    work.map_or(out, |work| work())
}

/// One answer for each of so many pieces, in their order; shared out where there are as many as that is `worth`.
pub fn in_parts<A: Send>(pieces: usize, worth: usize, one: impl Fn(usize) -> A + Sync + Send) -> Vec<A> {
    if pieces < worth {
        return (0..pieces).map(one).collect();
    }
    (0..pieces).into_par_iter().with_min_len(worth / 4).map(one).collect()
}
