//! What do sections, bends, plates and welds of the carrier stand?
//!
//! Handbook formulas, each with its source. Lengths in millimetres, forces in
//! newtons, stresses in megapascals. Left out: plastic reserve (a flat bar has
//! half as much again before it folds; nothing here counts on it).

use std::f64::consts::PI;

/// Moment that a flat bar stands per megapascal: b t² / 6.
pub(crate) fn flat(width: f64, thickness: f64) -> f64 {
    width * thickness * thickness / 6.0
}

/// Elastic section modulus of an equal angle, bent about an axis along a leg; mm³. The rounded toes of a rolled
/// angle take up to a twentieth off what sharp corners have (EN 10056-1 tables, from memory), so that is taken off.
pub(crate) fn angle_modulus(leg: f64, thickness: f64) -> f64 {
    let (a, t) = (leg, thickness.min(leg * 0.99));
    let axis = angle_centre(a, t);
    let second = (t * (a - axis).powi(3) + a * axis.powi(3) - (a - t) * (axis - t).powi(3)) / 3.0;
    0.95 * second / (a - axis)
}

/// How far the centre of an equal angle's section lies from the back of either leg.
pub(crate) fn angle_centre(leg: f64, thickness: f64) -> f64 {
    let (a, t) = (leg, thickness.min(leg * 0.99));
    (a * a + a * t - t * t) / (2.0 * (2.0 * a - t))
}

/// Area of an equal angle.
pub(crate) fn angle_area(leg: f64, thickness: f64) -> f64 {
    thickness * (2.0 * leg - thickness).max(0.0)
}

/// Thickness that is left in a bend: the metal keeps its volume while its middle is drawn around the neutral line.
pub(crate) fn drawn(thickness: f64, radius: f64, k: f64) -> f64 {
    thickness * ((radius + k * thickness) / (radius + thickness / 2.0)).min(1.0)
}

/// Stress at the inner face of a curved bar over that of a straight one (Winkler; Roark's Formulas, curved beams).
pub(crate) fn curved(thickness: f64, radius: f64) -> f64 {
    let (r, t) = (radius, thickness);
    let middle = r + t / 2.0;
    let neutral = t / ((r + t) / r).ln();
    let off = middle - neutral;
    if off > 1e-9 * t { ((neutral - r) / (off * r) * t / 6.0).max(1.0) } else { 1.0 }
}

/// Inside radius of a hook over the diameter of its rod: what a cold bend of mild steel stands without cracking.
pub(crate) const HOOK: f64 = 1.0;

/// Stress at the inner face of a hook bent from a round rod, for each newton that pulls at it: N / A + k M / W with
/// the pull in the middle of the half circle (Winkler; Roark's Formulas, curved beams of round section).
pub(crate) fn hook_stress(diameter: f64) -> f64 {
    let c = diameter / 2.0;
    let middle = HOOK * diameter + c;
    let off = 0.5 * (middle - (middle * middle - c * c).sqrt());
    let inner = (1.0 - off / c) / (middle / c - 1.0) / (4.0 * off / c);
    let (area, modulus) = (PI * c * c, PI * c.powi(3) / 4.0);
    1.0 / area + inner * middle / modulus
}

/// Force in the middle that bends a round plate of `span`, its edge clamped, by a millimetre; the force is spread over
/// a circle as large as a square of `pad` (Timoshenko, Theory of Plates, clamped plate under a central patch).
pub(crate) fn plate_stiffness(modulus: f64, thickness: f64, span: f64, pad: f64) -> f64 {
    let a = span / 2.0;
    let c = (pad / PI.sqrt()).min(a);
    // Poisson's ratio of metals; for wood it hardly matters.
    let bending = modulus * thickness.powi(3) / (12.0 * (1.0 - 0.3 * 0.3));
    64.0 * PI * bending / (4.0 * a * a - 4.0 * c * c * (a / c).ln() - 3.0 * c * c).max(1e-9)
}

/// Greatest stress of a round plate of `span`, its edge clamped, under a force spread over a circle as large as a
/// square of `pad` (Timoshenko, Theory of Plates; Roark's Formulas, circular plates), for each newton.
pub(crate) fn plate_stress(thickness: f64, span: f64, pad: f64) -> f64 {
    let (a, t) = (span / 2.0, thickness);
    let r = (pad / PI.sqrt()).min(a);
    let middle = 1.3 * ((a / r).ln() + r * r / (4.0 * a * a));
    let edge = 1.0 - r * r / (2.0 * a * a);
    6.0 / (t * t) * middle.max(edge) / (4.0 * PI)
}

/// Pull that a base of `thickness` stands around one stud at first yield: two thirds of mode 1 of a T-stub with
/// the circular pattern, 4 × (2 π m t² / 4 × fy) / m (EN 1993-1-8 tables 6.2 and 6.4).
pub(crate) fn base_pull(thickness: f64, yields: f64) -> f64 {
    4.0 / 3.0 * PI * thickness * thickness * yields
}

/// Force that a web stands which is pressed between two plates over `pad` of its length, one on each edge: L t fy with
/// L the stiff bearing and twice the face's thickness, less its buckling, 0.5 / √(L t fy / Fcr), Fcr = 0.9 × 3.5 E t³ / h
/// (EN 1993-1-5 6.4 and 6.5, load case b; EN 1999-1-1 6.7.5 has it the same; from memory). `yields` with its factor off.
pub(crate) fn web_stands(modulus: f64, yields: f64, thickness: f64, high: f64, (pad, face): (f64, f64)) -> f64 {
    let squash = (pad + 2.0 * face) * thickness * yields;
    let buckles = 0.9 * 3.5 * modulus * thickness.powi(3) / high.max(1.0);
    squash * (0.5 / (squash / buckles).sqrt()).min(1.0)
}

/// How far a plate bears on something softer beyond what presses it: t √(fy / (3 fj)) (EN 1993-1-8 6.2.5, from memory).
pub(crate) fn bears_out(thickness: f64, yields: f64, softer: f64) -> f64 {
    thickness * (yields / (3.0 * softer)).sqrt()
}

/// Design shear strength of a fillet weld's throat: fu / (√3 βw γM2) (EN 1993-1-8 4.5.3.3).
pub(crate) fn weld_strength(tensile: f64, correlation: f64, factor: f64) -> f64 {
    tensile / (3f64.sqrt() * correlation * factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(got: f64, expected: f64, share: f64) {
        assert!((got - expected).abs() <= share * expected, "{got}, expected {expected}");
    }

    /// EN 10056-1 angles, elastic modulus in mm³ (from memory; rounded corners): L 30 × 3: 649, L 40 × 4: 1550,
    /// L 50 × 5: 3050, L 60 × 6: 5290.
    #[test]
    fn angles_are_as_in_the_table() {
        for (leg, t, modulus) in [(30.0, 3.0, 649.0), (40.0, 4.0, 1550.0), (50.0, 5.0, 3050.0), (60.0, 6.0, 5290.0)] {
            near(angle_modulus(leg, t), modulus, 0.025);
            assert!(angle_modulus(leg, t) <= modulus);
        }
        near(angle_area(40.0, 4.0), 308.0, 0.02);
    }

    /// Roark's Formulas, curved beams of rectangular section, inner face (from memory): R/c = 2: 1.52, 3: 1.30, 4: 1.20.
    #[test]
    fn a_curved_bar_is_stressed_more_inside() {
        for (ratio, factor) in [(2.0, 1.52), (3.0, 1.30), (4.0, 1.20)] {
            near(curved(2.0, ratio - 1.0), factor, 0.01);
        }
        assert!(drawn(4.0, 6.0, 0.37) < 4.0 && drawn(4.0, 40.0, 0.5) == 4.0);
    }

    /// By hand: a = 150, r = 45.1, t = 3: middle 1.3 × (1.2014 + 0.0226) = 1.591, edge 0.955: 6 / 9 × 1.591 / 12.566.
    #[test]
    fn a_plate_is_as_in_the_handbook() {
        near(plate_stress(3.0, 300.0, 80.0), 0.0844, 0.005);
        // All of the plate loaded: the edge rules, q a² / 8 (Roark, case 10b): 1 N on π a² gives 1 / (8 π) each mm.
        near(plate_stress(1.0, 100.0, 200.0), 6.0 / (8.0 * PI), 1e-9);
    }

    /// Roark's Formulas, curved beams of round section, inner face (from memory): R/c = 3 has 1.33. M8, bent around
    /// 8 mm: R = 12, c = 4: 1 / 50.27 + 1.33 × 12 / 50.27 mm³ by hand.
    #[test]
    fn a_hook_opens_early() {
        near(hook_stress(8.0), 1.0 / 50.27 + 1.33 * 12.0 / 50.27, 0.005);
    }

    /// Timoshenko: a force in the middle bends a clamped plate by P a² / (16 π D), an even load by q a⁴ / (64 D).
    /// Steel, 2 mm, a = 100: D = 153,846 N mm.
    #[test]
    fn a_plate_bends_as_in_the_handbook() {
        near(plate_stiffness(210_000.0, 2.0, 200.0, 0.01), 16.0 * PI * 153_846.0 / 1e4, 0.001);
        near(plate_stiffness(210_000.0, 2.0, 200.0, 300.0), 64.0 * PI * 153_846.0 / 1e4, 0.001);
    }

    /// By hand: 1 mm of S 235 over 1.1, 36 mm high between faces of 2 mm, under a plate of 100 mm: 104 × 213.6 = 22,218 N
    /// squashed, 0.9 × 3.5 × 210,000 / 36 = 18,375 N buckled, λ = 1.0996, 0.4547 × 22,218 N. It is less than the ideal
    /// buckling force of a strip as wide as its stiff bearing and its height, held flat at both faces (Timoshenko:
    /// 4 π² E t³ / (12 (1 - ν²) h²) for each mm of it: 80 kN), and a thick web is squashed.
    #[test]
    fn a_web_buckles_before_it_is_squashed() {
        let yields = 235.0 / 1.1;
        let thin = web_stands(210_000.0, yields, 1.0, 36.0, (100.0, 2.0));
        near(thin, 10_103.0, 0.001);
        let ideal = 4.0 * PI * PI * 210_000.0 / (12.0 * 0.91) / (36.0 * 36.0) * (100.0 + 36.0);
        assert!(thin < ideal);
        near(web_stands(210_000.0, yields, 6.0, 36.0, (100.0, 2.0)), 104.0 * 6.0 * yields, 1e-9);
    }

    /// By hand: a base plate of 20 mm, 235 MPa on concrete of 13.3 MPa bears 48.5 mm out, as worked examples of EN 1993-1-8
    /// have it (from memory). An angle's centre, EN 10056-1 (from memory; its rounded toes pull it in a little): L 40 × 4: 11.2 mm, L 60 × 6: 16.9 mm.
    #[test]
    fn plates_bear_out_and_angles_have_a_centre() {
        near(bears_out(20.0, 235.0, 13.3), 48.5, 0.002);
        near(angle_centre(40.0, 4.0), 11.2, 0.03);
        near(angle_centre(60.0, 6.0), 16.9, 0.03);
    }

    /// EN 1993-1-8: S 235, βw 0.8, γM2 1.25 gives 207.8 MPa, as every design table of fillet welds prints.
    #[test]
    fn welds_are_as_in_the_tables() {
        near(weld_strength(360.0, 0.8, 1.25), 207.8, 0.001);
        near(base_pull(3.0, 235.0), 8859.0, 0.001);
    }
}
