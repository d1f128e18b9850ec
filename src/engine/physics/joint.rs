//! How much resistance do the lugs of a run have?
//!
//! A sound crimped lug on its stud counts with `joint-mohm` up to copper of
//! `joint-whole-mm2`; above that its face and barrel grow with the copper, and
//! it counts with the less, r = r0 × S0 / S, but never with less than
//! `joint-least-mohm`. A joint that is not sound shows on the test sheet. Left
//! out: the two ends of a run may have different lugs; age.

use crate::quantity::*;

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
    /// One of them on copper of this area.
    pub fn one(&self, area: SquareMillimetres) -> Ohms {
        let share = if area > self.up_to { self.up_to / area } else { 1.0 };
        (self.whole * share).max(self.least)
    }

    /// All of them.
    pub fn of(&self, area: SquareMillimetres) -> Ohms {
        self.one(area) * f64::from(self.count)
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
            let (one, all) = (joints.one(SquareMillimetres::new(area)), joints.of(SquareMillimetres::new(area)));
            assert!((one.get() * 1000.0 - milli).abs() < 1e-12, "{area} mm²: {one}");
            assert!((all.get() / one.get() - 4.0).abs() < 1e-12);
        }
    }
}
