//! Are the fuses right?
//!
//! Operating times may raise a finding; they never take away one that a rule
//! without them raises: the rating against the ampacity, the breaking capacity,
//! the fuse's place and the runs without a fuse are judged without gates.

pub mod blocks;
pub mod breaker;
pub mod breaking;
pub mod chain;
pub mod far_end;
pub mod far_fault;
pub mod faults;
pub mod limits;
pub mod margins;
pub mod memory;
pub mod placement;
pub mod unmade;
pub mod window;

use crate::engine::judge::finding::Finding;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::engine::simulate::fault::loops::FaultLoops;

/// Judge all fuses, and the runs that should have one; `known` is what was found of the sizes.
pub fn check(loops: &FaultLoops, fuses: &Fuses, known: &[Finding]) -> Vec<Finding> {
    let mut found = Vec::new();
    for (branch, guard) in fuses.far_ends.iter().enumerate() {
        let both = [fuses.near.get(branch), fuses.far.get(branch)];
        for fuse in both.into_iter().flatten().flatten() {
            let up = loops.upstream(branch, &fuses.near).filter(|_| !fuse.far_end);
            found.extend(unmade::check(loops, fuse));
            found.extend(window::check_none(loops, fuse, known));
            found.extend(window::check_big(loops, fuse));
            found.extend(window::check_small(loops, fuse));
            found.extend(window::check_start(loops, fuse));
            found.extend(breaker::check_alone(loops, fuse, up));
            found.extend(breaker::check_reversed(loops, fuse));
            found.extend(breaking::check(loops, fuse));
            found.extend(far_fault::check_late(loops, fuse));
            found.extend(far_fault::check_through(loops, fuse));
            found.extend(placement::check(loops, fuse));
            found.extend(up.and_then(|up| chain::check(loops, fuse, up)));
        }
        // A fuse that is missing is said once.
        let unfused = loops.run(branch).is_some_and(|r| !r.own_fuse);
        let missing = if unfused { chain::check_unfused(loops, branch, &fuses.near) } else { None };
        found.extend(missing.or_else(|| far_end::check(loops, branch, *guard)));
    }
    found.extend(memory::check(loops, fuses.near.iter().chain(&fuses.far).flatten()));
    found
}
