//! How much resistance do the lugs of a run have?
//!
//! A sound crimped lug on its stud counts with `joint-mohm` up to copper of
//! `joint-whole-mm2`; above that its face and barrel grow with the copper, and
//! it counts with the less, r = r0 × S0 / S, but never with less than
//! `joint-least-mohm`. A joint that is not sound shows on the test sheet. Left
//! out: the two ends of a run may have different lugs; age.

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// The lugs of one run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joints {
    /// How many in the loop.
    pub count: u32,
    /// One of a small size.
    pub whole: Ohms,
    /// Copper up to which that counts.
    pub up_to: SquareMillimetres,
    /// The least of any size.
    pub least: Ohms,
}

impl Joints {
    /// All of them on copper of this area.
    pub fn of(&self, area: SquareMillimetres) -> Reckoned<Ohms, 5> {
        reckon!(Ohms: n * max(l, j * min(1.0, A / S)),
            n: "joints in the loop" = Figure::new(f64::from(self.count), Unit::Count),
            j: "one joint of a small size" = self.whole,
            A: "copper up to which that counts" = self.up_to,
            S: "copper of this size" = area,
            l: "least of any joint" = self.least)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 0.2 mΩ up to 16 mm²; 0.2 × 16 / 50 = 0.064 mΩ on 50 mm²; 0.2 × 16 / 120 = 0.027 mΩ, so the
    /// least of 0.03 mΩ, on 120 mm².
    #[test]
    fn large_lugs_have_less() {
        let joints = Joints {
            count: 4,
            whole: Ohms::from_milli(0.2),
            up_to: SquareMillimetres::new(16.0),
            least: Ohms::from_milli(0.03),
        };
        for (area, milli) in [(0.0, 0.2), (1.0, 0.2), (16.0, 0.2), (50.0, 0.064), (120.0, 0.03)] {
            let all = joints.of(SquareMillimetres::new(area)).value;
            assert!((all.get() * 1000.0 - 4.0 * milli).abs() < 1e-12, "{area} mm²: {all}");
        }
    }
}
