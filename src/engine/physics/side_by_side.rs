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
