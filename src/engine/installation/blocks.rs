//! Which bank do blocks make that are told one by one?

use crate::plan::Outfit;

/// Blocks that are told one by one make the bank, where the plan does not say it as a whole.
pub(crate) fn of_blocks(outfit: &mut Outfit) {
    if outfit.blocks.is_empty() {
        return;
    }
    let all = outfit.blocks.iter().map(|block| block.capacity).sum();
    let battery = &mut outfit.service_battery;
    battery.capacity.get_or_insert(all);
    battery.in_parallel.get_or_insert(outfit.blocks.len() as u32);
}
