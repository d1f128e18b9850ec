//! Which bank gives what its own heater pad takes?
//!
//! A pad grows with the bank that it keeps warm. Where the bank is free it is sized with the pad of the bank before, until
//! it grows no more: then it is the smallest that gives what loads and its own pad ask for.

use crate::engine::choose::battery::criteria::sizing;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::simulate::bank::Job;
use crate::quantity::*;

/// Most banks that are sized until one needs no larger one; each is larger by a block that is sold.
const BANKS: usize = 24;

/// The same, with the bank that its pad keeps warm, of at least what is asked. Where the pad of each takes more than the
/// bank has more to give, no bank is known: then it is sized with the pad of 100 Ah, and the trials tell.
pub fn settled(mut site: Installation, asked: AmpHours) -> Installation {
    if site.service_battery.heated && site.service_battery.capacity.is_none() {
        site.kept_warm = Some(AmpHours::ZERO);
        site.kept_warm = settle(&mut site, asked);
    }
    site
}

fn settle(site: &mut Installation, asked: AmpHours) -> Option<AmpHours> {
    let notes = &mut Notes::unkept();
    for _ in 0..BANKS {
        let chemistry = site.chemistry()?;
        let needed = sizing(site, chemistry, notes).needed().max(asked);
        let job = Job { site, chemistry, own: true, subject: Subject::ServiceBattery };
        let bank = job.standard(needed, site.service_battery.in_parallel, notes)?.capacity;
        if site.kept_warm.is_some_and(|warm| bank <= warm) {
            return site.kept_warm;
        }
        site.kept_warm = Some(bank);
    }
    None
}
