//! May the blocks of a bank stand in parallel behind one main fuse alone?
//!
//! A short circuit within one block is fed by all the others, and the main fuse
//! is not in their way.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::parts::battery::Bank;
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::fault::sources::{block_fuses, highest};
use crate::plan::{Place, Section};

/// A large bank in parallel wants a fuse at each block.
pub fn check(site: &Installation, bank: &Bank) -> Option<Finding> {
    let limit = &site.catalogue.rules.block_fuse;
    if bank.blocks < 2 || bank.capacity <= limit.value {
        return None;
    }
    let others = f64::from(bank.blocks - 1) / f64::from(bank.blocks);
    let (most, likely) = (bank.fault * others, bank.fault_likely * others);
    let fitted = block_fuses(site, bank).map(|f| (f, breaking(f.style, highest(site))));
    let text = format!(
        "{} blocks make {}, more than {}: into a short circuit within one the others push up to {most}, likely {likely}, \
         past the main fuse",
        bank.blocks, bank.capacity, limit.value
    );
    let finding = |text| {
        Finding::new(Kind::BlockFuses, Subject::ServiceBattery, text)
            .rule(format!("a fuse at each block, before the main one: {}", limit.from.words()))
            .at(Place::of(Section::ServiceBattery, "block_fuse_a"))
    };
    match fitted {
        Some((_, breaks)) if breaks >= most => None,
        Some((fuses, breaks)) if breaks >= likely => Some(
            finding(format!("{text}; the {} of {} at each breaks {breaks}: the likely, not the most", fuses.style.name, fuses.rating))
                .remedy("enter the maker's short-circuit current of a block by the test of IEC 60896-21, where it is less"),
        ),
        _ => Some(finding(text).remedy(format!(
            "put a high-breaking fuse at the post of each of the {} blocks, one that breaks at least {likely}, beside the \
             main fuse, and enter its rating",
            bank.blocks
        ))),
    }
}
