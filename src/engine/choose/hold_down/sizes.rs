//! Which stock sizes make the lightest carrier that holds?
//!
//! For each number of rows, widths and thicknesses of strip or sheet are walked through. With each,
//! whatever else does not hold is taken a step larger until it does: stud, strap, weld, spreader
//! plate. The lightest metal in all that holds is taken; where none holds, the lightest in which
//! no part of the metal itself fails; else the strongest in stock. What the plan gives stays.
//! Without a mass or a size nothing can be reckoned, and usual sizes stand.

use crate::catalogue::StudSize;
use crate::engine::choose::hold_down::offers::{Offers, bend, usual};
use crate::engine::choose::hold_down::torque::torque;
use crate::engine::installation::working::Notes;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::simulate::hold_down::build::Build;
use crate::engine::simulate::hold_down::chain::found::{Found, Throw};
use crate::engine::simulate::hold_down::chain::links::{distinct, of_case};
use crate::engine::simulate::hold_down::chain::metal::Metal;
use crate::engine::simulate::hold_down::chain::result::{Link, LinkUse};
use crate::engine::simulate::hold_down::result::{Shape, Torque};
use crate::engine::simulate::hold_down::spacer::length;
use crate::engine::simulate::hold_down::strength::shared;
use crate::quantity::*;

/// What there is to choose for this battery; `None` where all is given, or nothing can be reckoned.
pub(crate) fn choice<'a>(build: &'a Build<'a>, battery: Option<Kilograms>) -> Option<Choice<'a>> {
    let wanted = &build.site.hold_down;
    let lengths = [wanted.strip_width, wanted.thickness, wanted.strap_leg, wanted.strap_thickness, wanted.weld_length];
    let welds = [wanted.weld_throat];
    let plates = [wanted.spreader, wanted.spreader_thickness];
    let free = [wanted.stud.is_none(), wanted.rod.is_none(), wanted.studs_along.is_none()].contains(&true)
        || lengths.iter().chain(&welds).chain(&plates).any(Option::is_none);
    let known = battery.filter(|_| free && build.shape(&usual(build.site), &mut Notes::unkept()).is_some());
    known.map(|battery| Choice { build, battery, offers: Offers::of(build.site) })
}

/// Which links may fail in the sizes that are looked for.
type Allowed = fn(Link) -> bool;

/// First none but those that no size here strengthens; then a floor that its own spacer crushes; then all that no thicker
/// or wider metal strengthens.
const ALLOWED: [Allowed; 3] = [
    |link| matches!(link, Link::Case | Link::Rods | Link::Hook),
    |link| matches!(link, Link::Case | Link::Rods | Link::Hook | Link::Floor | Link::Rib),
    |link| {
        !matches!(
            link,
            Link::Strip | Link::Leg | Link::Bend | Link::Ear | Link::Rim | Link::Base | Link::Foot | Link::Nut
        )
    },
];

/// What is chosen for, and from what.
pub(crate) struct Choice<'a> {
    build: &'a Build<'a>,
    battery: Kilograms,
    offers: Offers<'a>,
}

impl Choice<'_> {
    /// Strips or sheet of these, everything else at its smallest; `None` where it does not bend so.
    fn metal(&self, rows: u32, strip_width: Millimetres, thickness: Millimetres) -> Option<Sizes> {
        let offers = &self.offers;
        let first = |of: &[Millimetres]| of.first().copied().unwrap_or_default();
        let (strap_leg, strap_thickness) = *offers.angles.first()?;
        let mut sizes = Sizes {
            stud: offers.studs.first()?.clone(),
            rows,
            strip_width,
            thickness,
            bend_radius: thickness,
            strap_leg,
            strap_thickness,
            weld_length: first(&offers.welds),
            weld_throat: first(&offers.throats),
            rod: offers.rods.first()?.clone(),
            spacer: length(&self.build.site.hold_down, &self.build.site.catalogue.rules),
            spreader: first(&offers.spreaders),
            spreader_thickness: first(&offers.plates),
        };
        bend(&self.build.site.hold_down, &mut sizes);
        offers.least_throat(&mut sizes);
        Some(sizes)
    }

    /// Of the metals in which only what is allowed fails the lightest; else the strongest.
    pub fn lightest(&self) -> Option<Sizes> {
        let mut first = 0;
        for roomy in [true, false] {
            for allowed in ALLOWED {
                let each = self.offers.rows.iter();
                let best = each.fold(None, |best, rows| self.of_rows(*rows, best, allowed, roomy, &mut first));
                if let Some((sizes, _)) = best {
                    return Some(sizes);
                }
            }
        }
        let (rows, width, t) = (self.offers.rows.last()?, self.offers.widths.last()?, self.offers.thicknesses.last()?);
        self.raised(self.metal(*rows, *width, *t)?, |_| true, &mut first)
    }

    /// Down the stairs from the widest and thinnest metal: thicker where it fails, narrower where it holds or is
    /// heavier than the best. What is wider and thicker than a metal that holds, holds too. `roomy`: under the deck.
    fn of_rows(
        &self,
        rows: u32,
        mut best: Option<(Sizes, Kilograms)>,
        allowed: Allowed,
        roomy: bool,
        first: &mut usize,
    ) -> Option<(Sizes, Kilograms)> {
        let (widths, thicknesses) = (&self.offers.widths, &self.offers.thicknesses);
        let (mut width, mut thick) = (widths.len(), 0);
        while width > 0 && thick < thicknesses.len() {
            let sizes = self.metal(rows, widths[width - 1], thicknesses[thick]);
            let Some(shape) = sizes.as_ref().and_then(|s| self.shape(s)) else {
                thick += 1;
                continue;
            };
            if roomy && shape.height_left.is_some_and(|left| left.get() < 0.0) {
                break;
            }
            let lighter = |mass: Kilograms| best.as_ref().is_none_or(|b| mass < b.1);
            if !lighter(shape.steel_mass) {
                width -= 1;
                continue;
            }
            match sizes.and_then(|sizes| self.raised(sizes, allowed, first)) {
                Some(sizes) => {
                    let mass = self.shape(&sizes).map_or(shape.steel_mass, |s| s.steel_mass);
                    if lighter(mass) {
                        best = Some((sizes, mass));
                    }
                    width -= 1;
                }
                None => thick += 1,
            }
        }
        best
    }

    fn shape(&self, sizes: &Sizes) -> Option<Shape> {
        self.build.shape(sizes, &mut Notes::unkept()).filter(|s| !s.blanks.is_empty())
    }

    /// Everything beside the metal as large as it must be; `None` where what is not allowed fails.
    fn raised(&self, mut sizes: Sizes, allowed: Allowed, first: &mut usize) -> Option<Sizes> {
        let mut failed: Vec<Link> = Vec::new();
        loop {
            let weak = self.weak(&sizes, &failed, first)?;
            if weak.is_empty() {
                return Some(sizes);
            }
            // One step of each at a time; a stud and a strap mend two links.
            let twice = |link: &Link| match link {
                Link::Nut => weak.contains(&Link::Stud),
                Link::Weld => weak.contains(&Link::Strap),
                Link::Rods => weak.contains(&Link::Hook),
                Link::Deck => [Link::Floor, Link::Rib, Link::Wood].iter().any(|link| weak.contains(link)),
                Link::Rib => weak.contains(&Link::Floor),
                _ => false,
            };
            let metal = weak.iter().filter(|link| !self.offers.steps(**link));
            let rest = weak.iter().filter(|link| self.offers.steps(**link) && !twice(link));
            for link in metal.chain(rest) {
                if !self.offers.step(&mut sizes, *link) {
                    if !allowed(*link) {
                        return None;
                    }
                    failed.push(*link);
                }
            }
        }
    }

    /// Links that do not hold in the first direction in which any does not, those known aside; `first` is looked at first.
    fn weak(&self, sizes: &Sizes, known: &[Link], first: &mut usize) -> Option<Vec<Link>> {
        let quiet = &mut Notes::unkept();
        let shape = self.shape(sizes)?;
        let torque = self.torque(self.build.site.catalogue.stud(&sizes.stud)?, quiet);
        let (given, pattern) = self.build.fixing(sizes, &shape, &torque, self.battery)?;
        let strength = shared(&given, &pattern, quiet);
        let metal = Metal::of(given.carrier.metal, given.rules);
        let cases = distinct(&strength.cases);
        for n in 0..cases.len() {
            let at = (n + *first) % cases.len();
            let mut found = Found { links: Vec::new() };
            of_case(Throw { given: &given, strength: &strength, case: cases[at], metal: &metal }, &mut found);
            let links = found.links.iter().filter(|l| l.used.get() > 1.0).map(|l| l.link);
            let weak: Vec<Link> = links.filter(|link| !known.contains(link)).collect();
            if !weak.is_empty() {
                *first = at;
                return Some(weak);
            }
        }
        Some(Vec::new())
    }

    /// The weakest link of some sizes, and their metal.
    pub fn weakest(&self, sizes: &Sizes) -> Option<(LinkUse, Kilograms)> {
        let quiet = &mut Notes::unkept();
        let shape = self.shape(sizes)?;
        let torque = self.torque(self.build.site.catalogue.stud(&sizes.stud)?, quiet);
        let strength = self.build.strength(sizes, &shape, &torque, self.battery, quiet)?;
        Some((strength.chain.weakest()?.clone(), shape.steel_mass))
    }

    fn torque(&self, size: &StudSize, notes: &mut Notes) -> Torque {
        let (site, studs) = (self.build.site, self.build.studs(size));
        torque(site.hold_down.torque, size, &studs, &site.catalogue.rules, notes)
    }
}
