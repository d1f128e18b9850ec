//! Which bank lasts the days without charge?
//!
//! Where it is free, it grows until it does: bank and cut-off are chosen alone and tried, with the circuits
//! as far as they are known, so that the whole design is made for a bank that lasts.

use crate::engine::choose::battery::criteria::sizing;
use crate::engine::choose::cut_off::{cut, waits};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::model::Tables;
use crate::engine::simulate::bank::Job;
use crate::engine::simulate::budget::budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::cut_off::case::Case;
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::days::scenario::{Counted, CutSettings};
use crate::engine::simulate::promise::{Trials, Uncut};
use crate::quantity::*;
use std::sync::Arc;

/// Most banks that are tried until one lasts.
const BANKS: usize = 6;
/// A bank that does not last is followed by one so much larger at least.
const LARGER: f64 = 1.1;

/// A bank that lasts.
pub struct Lasting {
    /// The capacity to ask for: nothing where the first bank lasts; of one that did not, something larger.
    pub asked: AmpHours,
    /// What lay before the sensing point.
    pub path: SensingPath,
    /// It, and its days without charge where no cut-off opens, so that they need not be gone through again.
    pub tried: (Bank, Uncut),
    /// The tables of its chemistry.
    pub tables: Arc<Tables>,
}

/// With a path to the sensing point that is guessed at. Where none lasts behind that, one may behind the path that
/// there will be.
pub fn lasting_behind(site: &Installation, guessed: SensingPath) -> Option<Lasting> {
    let none = SensingPath::default();
    lasting(site, None, guessed).or_else(|| (guessed != none).then(|| lasting(site, None, none))?)
}

/// With such a path to the sensing point, after a bank that did not last. `None` where the bank is given, and where
/// none of those tried lasts.
pub fn lasting(site: &Installation, did_not: Option<&Bank>, path: SensingPath) -> Option<Lasting> {
    let chemistry = site.chemistry().filter(|_| site.service_battery.capacity.is_none())?;
    let notes = &mut Notes::unkept();
    let needed = sizing(site, chemistry, notes).needed();
    let budget = budget(site, notes);
    let job = Job { site, chemistry, own: true, subject: Subject::ServiceBattery };
    let (delay, between) = (waits(site), path.between());
    let mut asked = did_not.map_or(AmpHours::ZERO, |bank| bank.capacity * LARGER);
    let mut trials = None;
    for _ in 0..BANKS {
        let bank = job.bank(needed.max(asked), notes)?;
        let trials = match &mut trials {
            Some(ready) => ready,
            none => none.insert(Trials::new(site, &bank, None)?),
        };
        let uncut = trials.uncut(&bank);
        let kept = uncut.highest(between, delay);
        let case = Case::of(site, chemistry, &budget, &bank, &ChargerDesign::default(), path, notes);
        let cut = cut(&case, kept).get();
        let counted = case.counter.map(|counter| Counted::of(&counter, bank.capacity));
        let tried = CutSettings { cut, reconnect: cut, delay: delay.get(), between: between.get(), counted };
        if kept.is_some_and(|kept| (cut <= kept.get() && counted.is_none()) || trials.hold(&bank, tried)) {
            return Some(Lasting { asked, path, tried: (bank, uncut), tables: Arc::clone(trials.tables()) });
        }
        asked = bank.capacity * LARGER;
    }
    None
}
