//! How far is a stud used by pull and sideways force together?
//!
//! Two methods, the worse rules:
//! - no lasting stretch: von Mises stress on the stress area against the proof
//!   stress, √(T² + 3 V²) / (Sp × As) (machine-design handbooks);
//! - strength of bolts in steel structures: V / Fv + T / (1.4 Ft), and T / Ft
//!   alone, with Fv = share × fub × As / γ and Ft = 0.9 × fub × As / γ
//!   (EN 1993-1-8 table 3.4).
//!
//! The preload is not added: it fades as the outside pull stretches the stud.
//! Left out: bearing in the hole, bending of a stud with a gap under its nut.

use crate::catalogue::{StudClass, StudSize};
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// A stud's strengths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Strengths {
    /// Proof stress × stress area.
    pub proof: Newtons,
    /// Yield × stress area.
    pub yields: Newtons,
    /// Design tension resistance, 0.9 fub As / γ.
    pub tension: Newtons,
    /// Design shear resistance through the thread.
    pub shear: Newtons,
}

/// Strength of the weaker criterion in tension, of EN 1993-1-8 table 3.4.
pub(crate) const TENSION_SHARE: f64 = 0.9;
/// Reduction of tension in the combined check, of the same table.
const COMBINED: f64 = 1.4;

impl Strengths {
    pub(crate) fn of(size: &StudSize, class: &StudClass, partial_factor: f64) -> Self {
        let area = size.stress_area.get();
        let ultimate = class.tensile.get() * area / partial_factor.max(1.0);
        Strengths {
            proof: Strengths::proof_load(size, class).value,
            yields: Newtons::new(class.yields.get() * area),
            tension: Newtons::new(TENSION_SHARE * ultimate),
            shear: Newtons::new(class.shear_share.get() * ultimate),
        }
    }

    /// Force that it stands without lasting stretch.
    pub(crate) fn proof_load(size: &StudSize, class: &StudClass) -> Reckoned<Newtons, 2> {
        reckon!(Newtons: Sp * As,
            Sp: "stress under proof load" = class.proof, As: "stress area of the thread" = size.stress_area)
    }

    /// Against lasting stretch.
    pub(crate) fn by_proof(&self, tension: Newtons, shear: Newtons) -> Reckoned<Share, 3> {
        reckon!(Share: sqrt(T * T + 3.0 * V * V) / P,
            T: "pull" = tension, V: "sideways force" = shear, P: "proof load" = self.proof)
    }

    /// As a bolt of a steel structure.
    pub(crate) fn by_structure(&self, tension: Newtons, shear: Newtons) -> Reckoned<Share, 5> {
        reckon!(Share: max(V / Fv + T / (c * Ft), T / Ft),
            T: "pull" = tension, V: "sideways force" = shear,
            Fv: "shear resistance of the thread" = self.shear,
            Ft: "tension resistance" = self.tension,
            c: "reduction in the combined check" = Figure::number(COMBINED))
    }

    /// The worse of both.
    pub(crate) fn used(&self, tension: Newtons, shear: Newtons) -> Share {
        self.by_proof(tension, shear).value.max(self.by_structure(tension, shear).value)
    }
}
