//! What does a carrier of these sizes do?

use crate::catalogue::{Shock, StudClass, StudSize};
use crate::engine::installation::Installation;
use crate::engine::installation::working::Notes;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::sharing::Pattern;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::chain::strips::Frames;
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::mounted::borne;
use crate::engine::simulate::hold_down::result::{Shape, Strength, Torque};
use crate::engine::simulate::hold_down::{shape, strength};
use crate::plan::HoldDownStyle;
use crate::quantity::Kilograms;

/// What any carrier of a plan is built from, whatever its sizes.
pub(crate) struct Build<'a> {
    pub site: &'a Installation,
    pub class: &'a StudClass,
    shock: &'a Shock,
    frames: Frames,
}

impl<'a> Build<'a> {
    /// `None` when the plan has no carrier, or names what the catalogue does not have.
    pub fn of(site: &'a Installation) -> Option<Build<'a>> {
        let (wanted, catalogue) = (&site.hold_down, &site.catalogue);
        if wanted.style == HoldDownStyle::None {
            return None;
        }
        let class = catalogue.stud_class(&wanted.stud_class)?;
        Some(Build { site, class, shock: catalogue.shock(&wanted.shock)?, frames: Frames::default() })
    }

    /// Dimensions and metal; `None` when neither inside nor battery dimensions say how big it is.
    pub fn shape(&self, sizes: &Sizes, notes: &mut Notes) -> Option<Shape> {
        shape::shape(&self.site.hold_down, sizes, &self.site.catalogue.rules, notes)
    }

    /// What studs of one size stand.
    pub fn studs(&self, size: &StudSize) -> Strengths {
        Strengths::of(size, self.class, self.site.catalogue.rules.bolt_partial.value)
    }

    /// What the strength of these sizes is worked out from, and where the studs are.
    pub fn fixing<'s>(
        &'s self,
        sizes: &'s Sizes,
        shape: &'s Shape,
        torque: &'s Torque,
        battery: Kilograms,
    ) -> Option<(Fixing<'s>, Pattern)> {
        let (carrier, rules) = (&self.site.hold_down, &self.site.catalogue.rules);
        let size = self.site.catalogue.stud(&sizes.stud)?;
        let rod = self.site.catalogue.stud(&sizes.rod)?;
        let besides = borne(self.site);
        let given = Fixing {
            carrier,
            sizes,
            rules,
            shape,
            carried: battery + besides,
            besides,
            shock: self.shock,
            size,
            studs: self.studs(size),
            rod,
            rod_yields: self.class.yields,
            rods: self.studs(rod),
            torque,
            frames: &self.frames,
        };
        Some((given, strength::pattern(carrier, sizes, &self.site.studs, shape, size)))
    }

    /// How they hold.
    pub fn strength(
        &self,
        sizes: &Sizes,
        shape: &Shape,
        torque: &Torque,
        battery: Kilograms,
        notes: &mut Notes,
    ) -> Option<Strength> {
        let (given, pattern) = self.fixing(sizes, shape, torque, battery)?;
        Some(strength::strength(&given, &pattern, notes))
    }
}
