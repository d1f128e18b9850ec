//! How grave is all that is wrong with a fuse?
//!
//! The findings in short, by the same limits, for whoever chooses among many.

use crate::engine::judge::finding::{Grade, Kind, Severity};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::judge::fuse::{breaker, breaking, chain, far_fault, window};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;

/// Of one fuse; `up` is the next one upstream.
pub fn fuse_grades(loops: &FaultLoops, fuse: &Fuse, up: Option<&Fuse>) -> impl Iterator<Item = Grade> {
    let limits = FuseLimits::of(&loops.site.catalogue);
    let unparted = up.is_some_and(|up| chain::is_unparted(loops, fuse, up));
    let own = [
        (Kind::FuseBig, window::is_big(&limits, fuse).then_some(Severity::Stop)),
        (Kind::FuseSmall, window::small_grade(fuse)),
        (Kind::FuseSurge, window::fuse_start_grade(&limits, fuse)),
        (Kind::FuseBreaking, breaking::fuse_grade(loops, fuse)),
        (Kind::FuseSelective, unparted.then_some(Severity::Caution)),
    ];
    let own = own.into_iter().filter_map(|(kind, severity)| Some((kind, severity?)));
    own.chain(breaker::grades(loops, fuse, up)).chain(far_grade(loops, fuse))
}

/// Of a fault at the far end: too late, or more than the cable stands.
pub fn far_grade(loops: &FaultLoops, fuse: &Fuse) -> impl Iterator<Item = Grade> + use<> {
    let late = far_fault::late_grade(loops, fuse).map(|severity| (Kind::FuseFarFault, severity));
    let through = (!fuse.clearing.is_stood()).then_some((Kind::LetThrough, Severity::Stop));
    [late, through].into_iter().flatten()
}

/// Of a run without a fuse of its own, behind one upstream.
pub fn reach_grade(loops: &FaultLoops, up: &Fuse, branch: usize) -> Option<Grade> {
    chain::reach_beyond(loops, up, branch).map(|_| (Kind::FuseMissing, Severity::Stop))
}
