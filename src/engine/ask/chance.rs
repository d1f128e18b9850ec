//! How sure are the days of use?

use crate::engine::ask::days::scenario;
use crate::engine::design::Design;
use crate::engine::simulate::chance::draw::Draws;
use crate::engine::simulate::chance::{Uncertainty, UncertaintyError, uncertainty as drawn};

/// Draw a design's days on `threads` cores. `watch` hears after each draw how many are done, on
/// whichever core did it; when it returns false the rest is left undone.
///
/// # Errors
/// When the count, a range or the span is outside what is accepted, or there is no battery.
pub fn uncertainty(
    design: &Design,
    draws: Draws,
    threads: usize,
    watch: &(dyn Fn(u32) -> bool + Sync),
) -> Result<Uncertainty, UncertaintyError> {
    drawn(&scenario(design).map_err(UncertaintyError::Endurance)?, draws, threads, watch)
}
