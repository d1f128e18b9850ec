//! How long must a strip be cut so that it is right once bent?
//!
//! Only the neutral line keeps its length. Flat length = straight parts, plus
//! for each bend the arc of the neutral line: BA = angle × (r + K t), with r
//! the inside radius, t the thickness and K the place of the neutral line in
//! it. K from DIN 6935 when not given: K = (0.65 + 0.5 lg(r/t)) / 2, at most
//! 0.5 (from memory; the workshop's own test bend is better). Left out:
//! springback, which changes the angle and not the length.

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// Length of the neutral line in a bend by `angle` (the angle bent through, 0 to 180°).
pub fn bend_allowance(
    angle: Degrees,
    radius: Millimetres,
    thickness: Millimetres,
    k: Share,
) -> Reckoned<Millimetres, 5> {
    reckon!(Millimetres: angle * pi / 180.0 * (r + K * t),
        angle: "angle bent through" = angle,
        pi: "circle number" = Figure::number(std::f64::consts::PI),
        r: "inside radius" = radius, K: "K-factor" = k, t: "thickness" = thickness)
}

/// K-factor of DIN 6935 for plain steel, 0.2 to 0.5.
pub fn k_factor(radius: Millimetres, thickness: Millimetres) -> Reckoned<Share, 2> {
    reckon!(Share: min(max((0.65 + 0.5 * ln(min(r / t, 5.0)) / ln(10.0)) / 2.0, 0.2), 0.5),
        r: "inside radius" = radius, t: "thickness" = thickness)
}

/// Straight parts between 90° bends, all alike.
pub(crate) struct Bends {
    pub radius: Millimetres,
    pub thickness: Millimetres,
    pub allowance: Millimetres,
}

impl Bends {
    /// Flat length and the middle of each bend, or `None` when a straight part would be shorter than nothing.
    pub(crate) fn flat(&self, straights: &[Millimetres]) -> Option<(Millimetres, Vec<Millimetres>)> {
        let mut at = Millimetres::ZERO;
        let mut marks = Vec::new();
        for (n, straight) in straights.iter().enumerate() {
            if straight.get() < 0.0 {
                return None;
            }
            if n > 0 {
                marks.push(at + self.allowance / 2.0);
                at += self.allowance;
            }
            at += *straight;
        }
        Some((at, marks))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: DIN 6935 has k = 0.65 at r = t, 1 from r = 5 t on, and K is half of k.
    #[test]
    fn neutral_line_moves_to_the_middle_for_wide_bends() {
        let k = |r: f64, t: f64| k_factor(Millimetres::new(r), Millimetres::new(t)).value.get();
        assert!((k(4.0, 4.0) - 0.325).abs() < 1e-12);
        assert!((k(20.0, 4.0) - 0.5).abs() < 1e-3);
        assert_eq!(k(100.0, 4.0), k(20.0, 4.0));
        assert_eq!(k(0.1, 20.0), 0.2);
    }

    #[test]
    fn marks_lie_in_the_middle_of_the_bends() {
        let mm = Millimetres::new;
        let bends = Bends { radius: mm(4.0), thickness: mm(2.0), allowance: mm(8.0) };
        let (flat, marks) = bends.flat(&[mm(30.0), mm(50.0), mm(30.0)]).unwrap();
        assert_eq!(flat, mm(126.0));
        assert_eq!(marks, [mm(34.0), mm(92.0)]);
        assert_eq!(bends.flat(&[mm(30.0), mm(-1.0)]), None);
    }
}
