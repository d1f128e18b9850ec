//! From which sizes may a carrier be chosen, and what is a step larger?

use crate::catalogue::{SHEET_THICKNESS, SPREADER, SPREADER_THICKNESS, STRIP_THICKNESS, STRIP_WIDTH, WELD_LENGTH};
use crate::engine::installation::Installation;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::simulate::hold_down::chain::result::Link;
use crate::plan::{HoldDown, HoldDownStyle};
use crate::quantity::*;

/// Rows of studs to choose from.
const ROWS: [u32; 3] = [2, 3, 4];
/// The tightest bend that is chosen; common practice, no source.
pub(crate) const RADIUS: Millimetres = Millimetres::new(6.0);

/// What the plan gives, and usual sizes for the rest.
pub(crate) fn usual(wanted: &HoldDown) -> Sizes {
    let mm = Millimetres::new;
    let thickness = wanted.thickness.unwrap_or(mm(4.0));
    Sizes {
        stud: wanted.stud.clone().unwrap_or_else(|| "M8".into()),
        rows: wanted.studs_along.unwrap_or(2),
        strip_width: wanted.strip_width.unwrap_or(mm(40.0)),
        thickness,
        bend_radius: wanted.bend_radius.unwrap_or(RADIUS.max(thickness)),
        strap_leg: wanted.strap_leg.unwrap_or(mm(40.0)),
        strap_thickness: wanted.strap_thickness.unwrap_or(mm(4.0)),
        weld_length: wanted.weld_length.unwrap_or(mm(80.0)),
        spreader: wanted.spreader.unwrap_or(mm(80.0)),
        spreader_thickness: wanted.spreader_thickness.unwrap_or(mm(6.0)),
    }
}

/// The inside radius of its bends, where the plan leaves that open.
pub(crate) fn bend(wanted: &HoldDown, sizes: &mut Sizes) {
    sizes.bend_radius = wanted.bend_radius.unwrap_or(RADIUS.max(sizes.thickness));
}

/// What there is to choose from, each from small to large; what the plan gives stands alone.
pub(crate) struct Offers {
    pub studs: Vec<String>,
    pub rows: Vec<u32>,
    pub widths: Vec<Millimetres>,
    pub thicknesses: Vec<Millimetres>,
    pub angles: Vec<(Millimetres, Millimetres)>,
    pub welds: Vec<Millimetres>,
    pub spreaders: Vec<Millimetres>,
    pub plates: Vec<Millimetres>,
}

impl Offers {
    pub fn of(site: &Installation) -> Offers {
        let (wanted, usual) = (&site.hold_down, usual(&site.hold_down));
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
        let mut studs: Vec<String> = site.catalogue.studs.iter().map(|s| s.key.clone()).collect();
        if let Some(stud) = &wanted.stud {
            studs = vec![stud.clone()];
        }
        let sheet = if basket { STRIP_THICKNESS } else { SHEET_THICKNESS };
        Offers {
            studs,
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
            spreaders: offer(wanted.spreader, SPREADER, usual.spreader),
            plates: offer(wanted.spreader_thickness, SPREADER_THICKNESS, usual.spreader_thickness),
        }
    }

    /// Whether anything but the metal strengthens a link.
    pub fn steps(&self, link: Link) -> bool {
        matches!(link, Link::Stud | Link::Nut | Link::Strap | Link::Weld | Link::Spreader | Link::Deck)
    }

    /// A step larger of what strengthens a link; `false` where that is the metal, or there is none larger.
    pub fn step(&self, sizes: &mut Sizes, link: Link, weld_given: bool) -> bool {
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
        match link {
            Link::Stud | Link::Nut => next(&self.studs, &mut sizes.stud),
            Link::Strap => self.larger_angle(sizes),
            Link::Weld => {
                // Along both edges of a strip, and along both legs of a corner.
                let room = 2.0 * sizes.strip_width.min(sizes.strap_leg);
                let before = sizes.weld_length;
                let longer = next(&self.welds, &mut sizes.weld_length);
                if longer && (weld_given || sizes.weld_length <= room) {
                    return true;
                }
                sizes.weld_length = before;
                self.larger_angle(sizes)
            }
            Link::Spreader => next(&self.plates, &mut sizes.spreader_thickness),
            Link::Deck => next(&self.spreaders, &mut sizes.spreader),
            _ => false,
        }
    }

    fn larger_angle(&self, sizes: &mut Sizes) -> bool {
        let now = (sizes.strap_leg, sizes.strap_thickness);
        let at = self.angles.iter().position(|a| *a == now);
        let larger = at.and_then(|at| self.angles.get(at + 1));
        larger.inspect(|a| (sizes.strap_leg, sizes.strap_thickness) = **a).is_some()
    }
}
