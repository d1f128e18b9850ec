//! From which sizes may a carrier be chosen, and what is a step larger?

use crate::catalogue::{
    SHEET_THICKNESS, SPREADER, SPREADER_THICKNESS, STRIP_THICKNESS, STRIP_WIDTH, WELD_LENGTH, WELD_THROAT,
};
use crate::engine::installation::Installation;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::simulate::hold_down::chain::result::Link;
use crate::engine::simulate::hold_down::{spacer, weld};
use crate::plan::{HoldDown, HoldDownStyle};
use crate::quantity::*;

/// Rows of studs to choose from.
const ROWS: [u32; 3] = [2, 3, 4];
/// A throat that any joint gets where its metal bears it (EN 1993-1-8 4.5.2 asks 3 mm; from memory).
const USUAL_THROAT: Millimetres = Millimetres::new(3.0);
/// The tightest bend that is chosen; common practice, no source.
pub(crate) const RADIUS: Millimetres = Millimetres::new(6.0);

/// What the plan gives, and usual sizes for the rest.
pub(crate) fn usual(site: &Installation) -> Sizes {
    let (wanted, rules) = (&site.hold_down, &site.catalogue.rules);
    let mm = Millimetres::new;
    let thickness = wanted.thickness.unwrap_or(mm(4.0));
    let mut sizes = Sizes {
        stud: wanted.stud.clone().unwrap_or_else(|| "M8".into()),
        rows: wanted.studs_along.unwrap_or(2),
        strip_width: wanted.strip_width.unwrap_or(mm(40.0)),
        thickness,
        bend_radius: wanted.bend_radius.unwrap_or(RADIUS.max(thickness)),
        strap_leg: wanted.strap_leg.unwrap_or(mm(40.0)),
        strap_thickness: wanted.strap_thickness.unwrap_or(mm(4.0)),
        weld_length: wanted.weld_length.unwrap_or(mm(80.0)),
        weld_throat: wanted.weld_throat.unwrap_or(USUAL_THROAT),
        rod: wanted.rod.clone().unwrap_or_else(|| "M8".into()),
        spacer: spacer::length(wanted, rules),
        spreader: wanted.spreader.unwrap_or(mm(80.0)),
        spreader_thickness: wanted.spreader_thickness.unwrap_or(mm(6.0)),
    };
    if wanted.weld_throat.is_none() {
        sizes.weld_throat = USUAL_THROAT.min(weld::thickest(wanted.style, &sizes, rules));
    }
    sizes
}

/// The inside radius of its bends, where the plan leaves that open.
pub(crate) fn bend(wanted: &HoldDown, sizes: &mut Sizes) {
    sizes.bend_radius = wanted.bend_radius.unwrap_or(RADIUS.max(sizes.thickness));
}

/// What there is to choose from, each from small to large; what the plan gives stands alone.
pub(crate) struct Offers<'a> {
    site: &'a Installation,
    pub studs: Vec<String>,
    pub rods: Vec<String>,
    pub rows: Vec<u32>,
    pub widths: Vec<Millimetres>,
    pub thicknesses: Vec<Millimetres>,
    pub angles: Vec<(Millimetres, Millimetres)>,
    pub welds: Vec<Millimetres>,
    pub throats: Vec<Millimetres>,
    pub spreaders: Vec<Millimetres>,
    pub plates: Vec<Millimetres>,
}

impl<'a> Offers<'a> {
    pub fn of(site: &'a Installation) -> Offers<'a> {
        let (wanted, usual) = (&site.hold_down, usual(site));
        let basket = wanted.style == HoldDownStyle::StripBasket;
        let offer = |given: Option<Millimetres>, key: &str, usual: Millimetres| match (given, site.catalogue.stock(key))
        {
            (None, Some(stock)) if !stock.sizes.is_empty() => stock.sizes.clone(),
            _ => vec![usual],
        };
        let fits = |given: Option<Millimetres>, size: Millimetres| given.is_none_or(|given| given == size);
        let angles: Vec<_> = site.catalogue.angles.iter().map(|a| (a.leg, a.thickness)).collect();
        let mut angles: Vec<_> =
            angles.into_iter().filter(|a| fits(wanted.strap_leg, a.0) && fits(wanted.strap_thickness, a.1)).collect();
        let no_strap = !basket || wanted.straps == 0;
        if angles.is_empty() || no_strap {
            angles = vec![(usual.strap_leg, usual.strap_thickness)];
        }
        let threads = |given: &Option<String>| match given {
            Some(given) => vec![given.clone()],
            None => site.catalogue.studs.iter().map(|s| s.key.clone()).collect(),
        };
        let has_rods = !basket && wanted.rods > 0;
        let welded = wanted.style == HoldDownStyle::Cabinet || !no_strap;
        let sheet = if basket { STRIP_THICKNESS } else { SHEET_THICKNESS };
        Offers {
            site,
            studs: threads(&wanted.stud),
            rods: if has_rods { threads(&wanted.rod) } else { vec![usual.rod] },
            rows: match wanted.studs_along {
                Some(rows) => vec![rows],
                None if site.studs.is_empty() => ROWS.to_vec(),
                None => vec![usual.rows],
            },
            widths: if basket {
                offer(wanted.strip_width, STRIP_WIDTH, usual.strip_width)
            } else {
                vec![usual.strip_width]
            },
            thicknesses: offer(wanted.thickness, sheet, usual.thickness),
            angles,
            welds: if no_strap {
                vec![usual.weld_length]
            } else {
                offer(wanted.weld_length, WELD_LENGTH, usual.weld_length)
            },
            throats: if welded {
                offer(wanted.weld_throat, WELD_THROAT, usual.weld_throat)
            } else {
                vec![usual.weld_throat]
            },
            spreaders: offer(wanted.spreader, SPREADER, usual.spreader),
            plates: offer(wanted.spreader_thickness, SPREADER_THICKNESS, usual.spreader_thickness),
        }
    }

    /// Whether anything but the metal strengthens a link.
    pub fn steps(&self, link: Link) -> bool {
        matches!(
            link,
            Link::Stud
                | Link::Nut
                | Link::Strap
                | Link::Weld
                | Link::Spreader
                | Link::Deck
                | Link::Floor
                | Link::Rib
                | Link::Wood
                | Link::Rods
                | Link::Hook
        )
    }

    /// A step larger of what strengthens a link; `false` where that is the metal, or there is none larger.
    pub fn step(&self, sizes: &mut Sizes, link: Link) -> bool {
        match link {
            Link::Stud | Link::Nut => next(&self.studs, &mut sizes.stud),
            Link::Strap => self.larger_angle(sizes),
            Link::Rods | Link::Hook => next(&self.rods, &mut sizes.rod),
            Link::Weld => self.longer_weld(sizes) || self.thicker_throat(sizes) || self.larger_angle(sizes),
            Link::Spreader => next(&self.plates, &mut sizes.spreader_thickness),
            Link::Deck | Link::Floor | Link::Rib | Link::Wood => next(&self.spreaders, &mut sizes.spreader),
            _ => false,
        }
    }

    /// Where there is room for it.
    fn longer_weld(&self, sizes: &mut Sizes) -> bool {
        let mut longer = sizes.weld_length;
        let there = next(&self.welds, &mut longer) && longer <= weld::room(sizes);
        if there {
            sizes.weld_length = longer;
        }
        there
    }

    /// Where the metal bears it, and the weld stays long enough for it.
    fn thicker_throat(&self, sizes: &mut Sizes) -> bool {
        let (mut thicker, rules) = (sizes.weld_throat, &self.site.catalogue.rules);
        let wanted = &self.site.hold_down;
        let there = next(&self.throats, &mut thicker) && thicker <= weld::thickest(wanted.style, sizes, rules);
        if there {
            sizes.weld_throat = thicker;
        }
        there
    }

    /// No throat thinner than the usual one, where the metal bears that.
    pub fn least_throat(&self, sizes: &mut Sizes) {
        let (wanted, rules) = (&self.site.hold_down, &self.site.catalogue.rules);
        let bears = USUAL_THROAT.min(weld::thickest(wanted.style, sizes, rules));
        let least = self.throats.iter().rev().find(|throat| **throat <= bears);
        sizes.weld_throat = least.map_or(sizes.weld_throat, |least| sizes.weld_throat.max(*least));
    }

    fn larger_angle(&self, sizes: &mut Sizes) -> bool {
        let now = (sizes.strap_leg, sizes.strap_thickness);
        let at = self.angles.iter().position(|a| *a == now);
        let larger = at.and_then(|at| self.angles.get(at + 1));
        let larger = larger.inspect(|a| (sizes.strap_leg, sizes.strap_thickness) = **a).is_some();
        self.least_throat(sizes);
        larger
    }
}

/// The next larger offer, if there is one.
fn next<T: Clone + PartialEq>(offers: &[T], now: &mut T) -> bool {
    let at = offers.iter().position(|o| o == now);
    match at.and_then(|at| offers.get(at + 1)) {
        Some(larger) => {
            *now = larger.clone();
            true
        }
        None => false,
    }
}
