//! Two pieces of work at once, where the machine has two cores.
//!
//! Both work on values alone and have ended when the call returns, so the
//! answers are the same as one after the other.

/// The answers of both.
pub fn side_by_side<A: Send, B>(one: impl FnOnce() -> A + Send, other: impl FnOnce() -> B) -> (A, B) {
    std::thread::scope(|scope| {
        let one = scope.spawn(one);
        let other = other();
        match one.join() {
            Ok(one) => (one, other),
            Err(panic) => std::panic::resume_unwind(panic),
        }
    })
}

/// One answer for each of so many pieces, in their order; by two threads where there are as many as a second is `worth`.
pub fn in_halves<A: Send>(pieces: usize, worth: usize, one: impl Fn(usize) -> A + Sync) -> Vec<A> {
    let some = |pieces: std::ops::Range<usize>| pieces.map(&one).collect::<Vec<A>>();
    if pieces < worth {
        return some(0..pieces);
    }
    let (mut all, rest) = side_by_side(|| some(0..pieces / 2), || some(pieces / 2..pieces));
    all.extend(rest);
    all
}
