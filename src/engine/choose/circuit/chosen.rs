//! Sizes and devices as the search found them, and what they were found for.

use crate::engine::choose::circuit::basis::Basis;
use crate::engine::choose::circuit::offer::Asked;
use crate::engine::choose::circuit::standing::set;
use crate::engine::choose::circuit::together::Found;
use crate::engine::choose::fuse::options::Device;
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::circuit::demand::Demand;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::Amps;

/// What the search found, for the next time that the same is asked.
#[derive(Clone, Debug)]
pub struct Chosen {
    bank: Option<Bank>,
    /// What the charger adds to a fault; of it only that counts here, and what is in demand and levels.
    charging: Option<Amps>,
    demand: Demand,
    levels: Levels,
    cable: Vec<usize>,
    /// By branch, the place of its style in the catalogue, and the rating.
    device: Vec<Option<(usize, Amps)>>,
    wrong: f64,
    exact: bool,
    tried: usize,
}

impl Chosen {
    /// As found for what it rests on.
    pub fn of(basis: &Basis<'_, '_>, found: &Found<'_>) -> Self {
        let styles = &basis.site.catalogue.fuse_styles;
        let place = |(style, rating): Device<'_>| Some((styles.iter().position(|s| std::ptr::eq(s, style))?, rating));
        Chosen {
            bank: basis.battery.bank.clone(),
            charging: basis.charger.current,
            demand: basis.demand.clone(),
            levels: basis.levels,
            cable: found.cable.clone(),
            device: found.device.iter().map(|d| d.and_then(place)).collect(),
            wrong: found.wrong,
            exact: found.exact,
            tried: found.tried,
        }
    }

    /// Whether the search would find it again, in an installation that is the same in all that cables rest on.
    pub fn rests_on(&self, basis: &Basis<'_, '_>) -> bool {
        self.bank == basis.battery.bank
            && self.charging == basis.charger.current
            && self.demand == *basis.demand
            && self.levels == basis.levels
    }

    /// As the search gives it: `loops` has each branch in its chosen cable afterwards.
    pub fn again<'a>(&self, loops: &mut FaultLoops<'a, '_>, asked: &[Asked]) -> Option<Found<'a>> {
        let links: Option<Vec<_>> =
            asked.iter().zip(&self.cable).map(|(a, at)| Some(a.cables.get(*at)?.link)).collect();
        for (branch, link) in links?.into_iter().enumerate() {
            set(loops, branch, link);
        }
        let styles = &loops.site.catalogue.fuse_styles;
        let device = |d: &Option<(usize, Amps)>| d.and_then(|(style, rating)| Some((styles.get(style)?, rating)));
        Some(Found {
            cable: self.cable.clone(),
            device: self.device.iter().map(device).collect(),
            wrong: self.wrong,
            exact: self.exact,
            tried: self.tried,
        })
    }
}
