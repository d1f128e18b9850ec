//! May the blocks of a bank stand in parallel behind one main fuse alone?
//!
//! A short circuit within one block is fed by all the others, and the main fuse
//! is not in their way.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::parts::battery::Bank;
use crate::plan::{Place, Section};

/// A large bank in parallel wants a fuse at each block.
pub fn check(site: &Installation, bank: &Bank) -> Option<Finding> {
    let limit = &site.catalogue.rules.block_fuse;
    if bank.blocks < 2 || bank.capacity <= limit.value {
        return None;
    }
    let others = bank.fault * (f64::from(bank.blocks - 1) / f64::from(bank.blocks));
    let text = format!(
        "{} blocks make {}, more than {}: into a short circuit within one the others push up to {others}, past the main fuse",
        bank.blocks, bank.capacity, limit.value
    );
    Some(
        Finding::new(Kind::BlockFuses, Subject::ServiceBattery, text)
            .rule(format!("a fuse at each block, before the main one: {}", limit.from.words()))
            .at(Place::of(Section::ServiceBattery, "in_parallel"))
            .remedy(format!(
                "put a high-breaking fuse at the post of each of the {} blocks, one that breaks at least {others}, beside the main fuse",
                bank.blocks
            )),
    )
}
