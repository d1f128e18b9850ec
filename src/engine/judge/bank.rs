//! May the blocks of a bank stand in parallel behind one main fuse alone?
//!
//! A short circuit within one block is fed by all the others, and the main fuse
//! is not in their way.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::battery::Bank;
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::fault::sources::{block_fuses, highest};
use crate::plan::{Block, Place, Section};
use crate::quantity::{AmpHours, Years};

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

/// Blocks of so different an age are not alike. Common practice, no source.
const YOUNGER: Years = Years::new(0.5);

/// Blocks in parallel that are not alike.
pub fn mixed(site: &Installation) -> Option<Finding> {
    let blocks = &site.blocks;
    let own = &site.service_battery.chemistry;
    let first = blocks.first()?;
    let kind =
        |block: &Block| site.catalogue.chemistry(block.chemistry.as_ref().unwrap_or(own)).map(|c| c.name.clone());
    let other = blocks.iter().position(|b| kind(b) != kind(first));
    let sizes = blocks.iter().map(|b| b.capacity);
    let (least, most) = (sizes.clone().reduce(AmpHours::min)?, sizes.clone().reduce(AmpHours::max)?);
    let ages = blocks.iter().map(|b| b.age);
    let (young, old) = (ages.clone().reduce(Years::min)?, ages.reduce(Years::max)?);
    let (severity, text) = if let Some(n) = other {
        let names = [kind(first), kind(&blocks[n])].map(Option::unwrap_or_default);
        (
            Severity::Stop,
            format!("block 1 is {}, block {} {}: one voltage cannot charge both", names[0], n + 1, names[1]),
        )
    } else if old - young > YOUNGER {
        (
            Severity::Caution,
            format!("the {} blocks are {young} to {old} old: the oldest drags the others down", blocks.len()),
        )
    } else if least < most {
        let text =
            format!("the {} blocks have {least} to {most}: each takes another share of the current", blocks.len());
        (Severity::Caution, text)
    } else {
        return None;
    };
    Some(
        Finding::new(Kind::BlocksMixed, Subject::ServiceBattery, text)
            .as_severity(severity)
            .rule("blocks in parallel are of one kind, size, age and make (common practice, no source)")
            .at(Place { section: Section::Block, index: other.unwrap_or(0), key: "capacity_ah" })
            .remedy(format!("buy {} alike, or let a switch take one at a time", blocks.len())),
    )
}
