//! Two pieces of work at once, where the machine has two cores.
//!
//! Both work on values alone and have ended when the call returns, so the
//! answers are the same as one after the other. The threads are those of the
//! library: they wait between one pass and the next, which costs a tenth of what
//! it costs to make them anew.

use rayon::prelude::*;

/// The answers of both.
pub fn side_by_side<A: Send, B: Send>(one: impl FnOnce() -> A + Send, other: impl FnOnce() -> B + Send) -> (A, B) {
    let (other, one) = rayon::join(other, one);
    (one, other)
}

/// Work done where others wait to take a part of it: going there once is less than going there for every part.
pub fn among_many<A: Send>(work: impl FnOnce() -> A + Send) -> A {
    rayon::join(work, || ()).0
}

/// One answer for each of so many pieces, in their order; shared out where there are as many as that is `worth`.
pub fn in_parts<A: Send>(pieces: usize, worth: usize, one: impl Fn(usize) -> A + Sync + Send) -> Vec<A> {
    if pieces < worth {
        return (0..pieces).map(one).collect();
    }
    (0..pieces).into_par_iter().with_min_len(worth / 4).map(one).collect()
}
