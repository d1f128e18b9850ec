//! How many blocks, each behind a device of its own, make a bank whose short circuit the devices at its posts stand?

use crate::catalogue::FuseStyle;
use crate::engine::judge::fuse::limits::{BACKED_CAUTION, FuseLimits};
use crate::engine::judge::remedy::{Edit, Remedy};
use crate::engine::physics::fuse_link::rating::{breaking, styles};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Section, Value, point};
use crate::quantity::Amps;

/// The fewest blocks in parallel behind devices of their own that help one which cannot break what the whole bank is
/// likely to give; `None` where the blocks have devices, and where none helps within so many as may be in parallel.
pub fn behind_devices(loops: &FaultLoops, fuse: &Fuse, breaks: Amps) -> Option<Remedy> {
    let (site, battery) = (loops.site, &loops.site.service_battery);
    let (bank, most) = (loops.sources.service?, site.chemistry()?.blocks.max_parallel);
    let helps = fuse.prospective.amps <= breaks * BACKED_CAUTION;
    if !loops.is_service(fuse.branch) || battery.block_fuse.is_some() || !helps || !site.blocks.is_empty() {
        return None;
    }
    // Fewer than it has would not hold what is needed.
    let least = loops.sources.in_parallel.max(2);
    let (count, style, rating) = (least..=most).find_map(|n| {
        let each = bank.full / bank.likely / f64::from(n);
        let (style, rating) = device(loops, fuse, each)?;
        Some((n, style, rating))
    })?;
    let edit =
        |key, value: f64| Edit { place: Place::of(Section::ServiceBattery, key), value: Some(Value::Number(value)) };
    let words = format!(
        "{count} blocks in parallel with a {} of {rating} at the plus of each, which breaks what one block is likely to give",
        style.name
    );
    let edits = vec![edit("in_parallel", f64::from(count)), edit("block_fuse_a", rating.get())];
    Some(Remedy { edits, ..Remedy::words(words) })
}

/// The smallest that breaks what a block is likely to give, and opens later than any device at the posts.
fn device<'a>(loops: &FaultLoops<'a, '_>, fuse: &Fuse, each: Amps) -> Option<(&'a FuseStyle, Amps)> {
    let catalogue = &loops.site.catalogue;
    let at_posts = loops.runs.iter().flat_map(|run| &run.fuses).filter(|f| f.at == point::SERVICE_BATTERY);
    let own = fuse.fitted().map_or(Amps::ZERO, |(_, rating)| rating);
    let largest = at_posts.filter_map(|f| f.rating).fold(own, Amps::max);
    let wanted = largest * FuseLimits::of(catalogue).selectivity();
    let breaking = styles(catalogue, None).filter(|s| s.reset.is_none() && breaking(s, loops.sources.highest) >= each);
    let made = breaking.flat_map(|s| s.ratings.iter().map(move |r| (s, *r)));
    made.filter(|(_, r)| *r >= wanted).reduce(|a, b| if b.1 < a.1 { b } else { a })
}
