//! How grave is all that is wrong with a fuse?
//!
//! The findings in short, by the same limits, for whoever chooses among many.

use crate::engine::judge::finding::Severity;
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::judge::fuse::{breaker, breaking, chain, far_fault, window};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;

/// Of one fuse; `up` is the next one upstream.
pub fn fuse_grades(loops: &FaultLoops, fuse: &Fuse, up: Option<&Fuse>) -> impl Iterator<Item = Severity> {
    let limits = FuseLimits::of(&loops.site.catalogue);
    let unparted = up.is_some_and(|up| chain::is_unparted(loops, fuse, up));
    let own = [
        window::is_big(&limits, fuse).then_some(Severity::Stop),
        window::small_grade(fuse),
        window::fuse_start_grade(&limits, fuse),
        breaking::fuse_grade(loops, fuse),
        unparted.then_some(Severity::Caution),
    ];
    own.into_iter().flatten().chain(breaker::grades(loops, fuse, up)).chain(far_grade(loops, fuse))
}

/// Of a fault at the far end: too late, or more than the cable stands.
pub fn far_grade(loops: &FaultLoops, fuse: &Fuse) -> impl Iterator<Item = Severity> + use<> {
    let through = (!fuse.clearing.is_stood()).then_some(Severity::Stop);
    [far_fault::late_grade(loops, fuse), through].into_iter().flatten()
}

/// Of a run without a fuse of its own, behind one upstream.
pub fn reach_grade(loops: &FaultLoops, up: &Fuse, branch: usize) -> Option<Severity> {
    chain::reach_beyond(loops, up, branch).map(|_| Severity::Stop)
}
