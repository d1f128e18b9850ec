//! How do the studs share a force that acts at the centre of the mass?
//!
//! The elastic bolt group under a rigid plate: the force at its lever is moved
//! to the middle of the group; pull is shared evenly and then in proportion to
//! the distance from the middle, sideways force evenly and then by the torsion
//! around it. Pull and push are both carried at the studs, which puts the
//! pivot at the middle and so gives more pull than a plate that tips over its
//! edge. A pattern without width in a direction tips over the edge of the
//! carrier instead. Source: machine-design handbooks, bolt groups in shear and
//! in tension. Left out: bending of the plate, play in the holes.

use crate::engine::physics::steel::shock::Force;
use crate::quantity::*;

/// Where the studs are and how the mass lies to them; millimetres.
#[derive(Clone, Debug)]
pub(crate) struct Pattern {
    /// Along and across of each stud.
    pub studs: Vec<(f64, f64)>,
    /// Centre of the mass along, across, and up from the plane of the studs.
    pub centre: (f64, f64, f64),
    /// Half of what the carrier stands or hangs on, along and across: where it tips when the studs have no width.
    pub edge: (f64, f64),
    /// It hangs: a force downward pulls the studs.
    pub hangs: bool,
}

/// What each stud gets.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Shared {
    pub tension: Vec<Newtons>,
    pub shear: Vec<Newtons>,
}

/// A direction in which the studs have no width, so that the plate tips or turns on them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Weakness {
    /// One stud alone.
    Single,
    /// All in one line.
    Line,
}

/// Second moments smaller than this (mm²) count as none: studs 1 mm apart hold nothing upright.
const NO_WIDTH: f64 = 1.0;

impl Pattern {
    fn middle(&self) -> (f64, f64) {
        let n = self.studs.len().max(1) as f64;
        let sum = self.studs.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
        (sum.0 / n, sum.1 / n)
    }

    /// Principal axes with their second moments Σu².
    fn axes(&self) -> [((f64, f64), f64); 2] {
        let (mx, my) = self.middle();
        let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
        for (x, y) in &self.studs {
            xx += (x - mx) * (x - mx);
            yy += (y - my) * (y - my);
            xy += (x - mx) * (y - my);
        }
        let turn = 0.5 * (2.0 * xy).atan2(xx - yy);
        let (sin, cos) = turn.sin_cos();
        let along = xx * cos * cos + 2.0 * xy * sin * cos + yy * sin * sin;
        [((cos, sin), along), ((-sin, cos), (xx + yy - along).max(0.0))]
    }

    /// Whether the pattern has no width in some direction.
    pub(crate) fn weakness(&self) -> Option<Weakness> {
        match self.axes().iter().filter(|(_, moment)| *moment < NO_WIDTH).count() {
            0 => None,
            1 => Some(Weakness::Line),
            _ => Some(Weakness::Single),
        }
    }

    /// Share out one force.
    pub(crate) fn share(&self, force: &Force) -> Shared {
        let count = self.studs.len();
        let n = count.max(1) as f64;
        let (mx, my) = self.middle();
        let lever = (self.centre.0 - mx, self.centre.1 - my, self.centre.2);
        let (fx, fy, fz) = (force.along.get(), force.across.get(), force.upright.get());
        // Σ p x and Σ p y of the upward pulls p that balance the force at its lever.
        let moment = (lever.0 * fz - lever.2 * fx, lever.1 * fz - lever.2 * fy);
        let mut pull = vec![fz / n; count];
        let mut tipping = 0.0;
        for ((ux, uy), second) in self.axes() {
            let along = moment.0 * ux + moment.1 * uy;
            if second >= NO_WIDTH {
                for (p, (x, y)) in pull.iter_mut().zip(&self.studs) {
                    *p += along * ((x - mx) * ux + (y - my) * uy) / second;
                }
            } else {
                let edge = (ux.abs() * self.edge.0 + uy.abs() * self.edge.1).max(1.0);
                tipping += along.abs() / edge / n;
            }
        }
        let polar: f64 = self.axes().iter().map(|a| a.1).sum();
        let torsion = lever.0 * fy - lever.1 * fx;
        let twist = if polar >= NO_WIDTH { torsion / polar } else { 0.0 };
        let sign = if self.hangs { -1.0 } else { 1.0 };
        let tension = pull.iter().map(|p| Newtons::new((sign * p).max(0.0) + tipping)).collect();
        let shear = self.studs.iter().map(|(x, y)| {
            let (qx, qy) = (fx / n - twist * (y - my), fy / n + twist * (x - mx));
            Newtons::new(qx.hypot(qy))
        });
        Shared { tension, shear: shear.collect() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::physics::steel::shock::Thrown;

    fn force(along: f64, across: f64, upright: f64) -> Force {
        let n = Newtons::new;
        let (thrown, level) = (Thrown::Forward, Gravities::new(1.0));
        Force { thrown, level, along: n(along), across: n(across), upright: n(upright) }
    }

    fn square(half: f64, centre: (f64, f64, f64), hangs: bool) -> Pattern {
        let studs = vec![(-half, -half), (half, -half), (half, half), (-half, half)];
        Pattern { studs, centre, edge: (half, half), hangs }
    }

    #[track_caller]
    fn check(got: &[Newtons], expected: &[f64]) {
        assert_eq!(got.len(), expected.len());
        for (g, e) in got.iter().zip(expected) {
            assert!((g.get() - e).abs() < 1e-6 * e.abs().max(1.0), "{got:?}, expected {expected:?}");
        }
    }

    /// By hand: 1000 N at 100 mm over four studs at ±50 mm: moment 100 Nm, two at 100 mm apart each row:
    /// 100 / 0.1 / 2 = 500 N in each rear stud; 250 N sideways each.
    #[test]
    fn a_standing_tray_pulls_its_rear_studs() {
        let shared = square(50.0, (0.0, 0.0, 100.0), false).share(&force(1000.0, 0.0, 0.0));
        check(&shared.tension, &[500.0, 0.0, 0.0, 500.0]);
        check(&shared.shear, &[250.0; 4]);
    }

    /// A force downward pulls a hanging basket and only presses a tray.
    #[test]
    fn hanging_and_standing_differ() {
        check(&square(50.0, (0.0, 0.0, -100.0), true).share(&force(0.0, 0.0, -400.0)).tension, &[100.0; 4]);
        check(&square(50.0, (0.0, 0.0, 100.0), false).share(&force(0.0, 0.0, -400.0)).tension, &[0.0; 4]);
        check(&square(50.0, (0.0, 0.0, 100.0), false).share(&force(0.0, 0.0, 400.0)).tension, &[100.0; 4]);
    }

    /// Off centre by the distance of the studs: all of a lift hangs on those two, and a sideways force turns it.
    /// Shear by hand: torsion 50 mm × 1000 N = 50 Nm, polar 4 × (2 × 50²) = 20,000 mm²: 2.5 N/mm × 50 mm = 125 N
    /// each way beside the even 250 N.
    #[test]
    fn off_centre_mass_loads_the_near_studs() {
        let pattern = square(50.0, (50.0, 0.0, 0.0), false);
        check(&pattern.share(&force(0.0, 0.0, 400.0)).tension, &[0.0, 200.0, 200.0, 0.0]);
        let shear = pattern.share(&force(0.0, 1000.0, 0.0)).shear;
        check(&shear, &[125f64.hypot(125.0), 375f64.hypot(125.0), 375f64.hypot(125.0), 125f64.hypot(125.0)]);
    }

    #[test]
    fn studs_in_line_tip_over_the_edge() {
        let line = Pattern {
            studs: vec![(0.0, -50.0), (0.0, 50.0)],
            centre: (0.0, 0.0, 100.0),
            edge: (80.0, 60.0),
            hangs: false,
        };
        assert_eq!(line.weakness(), Some(Weakness::Line));
        check(&line.share(&force(800.0, 0.0, 0.0)).tension, &[500.0, 500.0]);
        let one = Pattern { studs: vec![(0.0, 0.0)], ..line };
        assert_eq!(one.weakness(), Some(Weakness::Single));
        check(&one.share(&force(800.0, 0.0, 0.0)).tension, &[1000.0]);
        assert_eq!(square(50.0, (0.0, 0.0, 0.0), false).weakness(), None);
    }

    /// On a diagonal line only the pull across it tips; forces balance whatever the pattern.
    #[test]
    fn pulls_balance_the_force_for_uneven_patterns() {
        let studs = vec![(0.0, 0.0), (120.0, 10.0), (60.0, 90.0), (-40.0, 55.0), (200.0, 130.0)];
        let pattern = Pattern { studs: studs.clone(), centre: (70.0, 20.0, 0.0), edge: (1.0, 1.0), hangs: false };
        // All pulls positive for a lift near the middle, so that the clamp at zero does not act.
        let shared = pattern.share(&force(0.0, 0.0, 1000.0));
        let sum: f64 = shared.tension.iter().map(|t| t.get()).sum();
        let moment: f64 = shared.tension.iter().zip(&studs).map(|(t, s)| t.get() * s.0).sum();
        assert!((sum - 1000.0).abs() < 1e-9 && (moment - 70_000.0).abs() < 1e-6, "{shared:?}");
    }
}
