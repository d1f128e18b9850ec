//! Which bad joint explains the readings, and which others would too?
//!
//! Each reading is a drop that the sum of current × resistance along its way
//! must give. The resistances are known within a tolerance, the readings
//! within the meter's error: both together are the covariance by which least
//! squares weighs the readings (chi-square). A bad joint only adds, so each
//! run in turn is given an excess of zero or more, the best in least squares;
//! what explains the readings as well as the best stays a candidate. A run is
//! named only when nothing else remains. Two bad joints are tried when one is
//! not enough. Left out: three at once, and readings gone wrong by more than
//! the meter's error (they end as contradiction, or are told by a second reading).

use crate::engine::physics::linear::{chi_square_limit, cholesky, dot, forward};

/// Readings as equations; volts, amps, ohms.
pub(crate) struct Equations {
    /// Measured drop less the expected one, of each reading.
    pub surplus: Vec<f64>,
    /// Current through each run on the reading's way: by reading, then by run.
    pub currents: Vec<Vec<f64>>,
    /// Covariance of the surplus: meter, current and tolerance of the resistances.
    pub covariance: Vec<Vec<f64>>,
}

/// An excess in a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Excess {
    pub run: usize,
    /// In ohms.
    pub ohms: f64,
    /// Standard error of it, in ohms.
    pub error: f64,
}

/// What explains the readings.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Explanation {
    /// There are no readings.
    Nothing,
    /// No bad joint is needed. The excess that would have been noticed in each run; infinite where none reading sees it.
    Sound(Vec<f64>),
    /// One, and only this one; and two others that would explain the readings together, if there are such.
    One(Excess, Option<(Excess, Excess)>),
    /// Two, and only these.
    Two(Excess, Excess),
    /// One of these (or two of them, when one is not enough).
    Unclear { candidates: Vec<Excess>, several: bool },
    /// Nothing explains them.
    Contradiction,
}

/// An excess counts from this many standard errors.
const NOTICED: f64 = 4.0;
/// Rivals whose chi-square is higher by less than this are not ruled out (3.5 standard errors).
const RULED_OUT: f64 = 12.0;
/// A pair this much worse than a single one is still worth mentioning beside it.
const PAIR_AS_GOOD: f64 = 6.0;

/// Readings with independent errors of one.
struct White {
    z: Vec<f64>,
    columns: Vec<Vec<f64>>,
    chi: f64,
}

pub(crate) fn explain(equations: &Equations) -> Explanation {
    if equations.surplus.is_empty() {
        return Explanation::Nothing;
    }
    let Some(white) = White::of(equations) else { return Explanation::Contradiction };
    let n = white.z.len();
    let singles: Vec<(Excess, f64)> = (0..white.columns.len()).filter_map(|run| white.single(run)).collect();
    let best = singles.iter().map(|s| s.1).fold(f64::INFINITY, f64::min);
    if white.chi - best < NOTICED * NOTICED {
        return if white.chi <= chi_square_limit(n) {
            Explanation::Sound(white.columns.iter().map(|c| NOTICED / dot(c, c).sqrt()).collect())
        } else {
            Explanation::Contradiction
        };
    }
    let fits = |chi: f64, freedom: usize| chi <= chi_square_limit(freedom) && chi <= best.max(0.0) + RULED_OUT;
    let mut candidates: Vec<Excess> = singles.iter().filter(|s| fits(s.1, n - 1)).map(|s| s.0).collect();
    match candidates.len() {
        0 => white.pairs(),
        1 => Explanation::One(candidates[0], white.pair_instead(candidates[0].run, best)),
        _ => {
            candidates.sort_by_key(|c| c.run);
            Explanation::Unclear { candidates, several: false }
        }
    }
}

impl White {
    fn of(equations: &Equations) -> Option<Self> {
        let lower = cholesky(&equations.covariance)?;
        let z = forward(&lower, &equations.surplus);
        let runs = equations.currents.first().map_or(0, Vec::len);
        let column = |run: usize| {
            let raw: Vec<f64> = equations.currents.iter().map(|r| r.get(run).copied().unwrap_or(0.0)).collect();
            forward(&lower, &raw)
        };
        let columns = (0..runs).map(column).collect();
        let chi = dot(&z, &z);
        Some(White { z, columns, chi })
    }

    /// The best excess of one run, with the chi-square it leaves; `None` when it explains nothing.
    fn single(&self, run: usize) -> Option<(Excess, f64)> {
        let column = self.columns.get(run)?;
        let (square, along) = (dot(column, column), dot(column, &self.z));
        if square <= 0.0 || along <= 0.0 {
            return None;
        }
        let excess = Excess { run, ohms: along / square, error: 1.0 / square.sqrt() };
        Some((excess, (self.chi - along * along / square).max(0.0)))
    }

    /// The best excesses of two runs, both more than `least` standard errors; `None` when one alone does as well.
    fn pair(&self, a: usize, b: usize, least: f64) -> Option<((Excess, Excess), f64)> {
        let (ca, cb) = (self.columns.get(a)?, self.columns.get(b)?);
        let (aa, bb, ab) = (dot(ca, ca), dot(cb, cb), dot(ca, cb));
        let determinant = aa * bb - ab * ab;
        if determinant <= 1e-9 * aa * bb {
            return None;
        }
        let (za, zb) = (dot(ca, &self.z), dot(cb, &self.z));
        let (xa, xb) = ((bb * za - ab * zb) / determinant, (aa * zb - ab * za) / determinant);
        let (ea, eb) = ((bb / determinant).sqrt(), (aa / determinant).sqrt());
        if xa <= least * ea || xb <= least * eb {
            return None;
        }
        let pair = (Excess { run: a, ohms: xa, error: ea }, Excess { run: b, ohms: xb, error: eb });
        Some((pair, (self.chi - xa * za - xb * zb).max(0.0)))
    }

    fn all_pairs(&self, least: f64) -> Vec<((Excess, Excess), f64)> {
        let runs: Vec<usize> = (0..self.columns.len()).filter(|r| self.columns[*r].iter().any(|c| *c != 0.0)).collect();
        let after = |n: usize| runs.iter().skip(n + 1).copied();
        runs.iter().enumerate().flat_map(|(n, a)| after(n).filter_map(|b| self.pair(*a, b, least))).collect()
    }

    /// Two others that explain the readings about as well as the single run named.
    fn pair_instead(&self, named: usize, chi: f64) -> Option<(Excess, Excess)> {
        let pairs = self.all_pairs(2.0).into_iter();
        let others = pairs.filter(|((a, b), c)| a.run != named && b.run != named && *c <= chi + PAIR_AS_GOOD);
        others.min_by(|a, b| a.1.total_cmp(&b.1)).map(|p| p.0)
    }

    /// When one is not enough.
    fn pairs(&self) -> Explanation {
        let n = self.z.len();
        if n < 3 {
            return Explanation::Contradiction;
        }
        let pairs = self.all_pairs(0.0);
        let best = pairs.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
        let limit = chi_square_limit(n - 2).min(best + RULED_OUT);
        let fitting: Vec<_> = pairs.into_iter().filter(|p| p.1 <= limit).map(|p| p.0).collect();
        match fitting.as_slice() {
            [] => Explanation::Contradiction,
            [(a, b)] => Explanation::Two(*a, *b),
            many => {
                let mut candidates: Vec<Excess> = many.iter().flat_map(|(a, b)| [*a, *b]).collect();
                candidates.sort_by(|a, b| a.run.cmp(&b.run).then(b.ohms.total_cmp(&a.ohms)));
                candidates.dedup_by_key(|e| e.run);
                Explanation::Unclear { candidates, several: true }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Readings with independent errors of `error` volts.
    fn equations(surplus: &[f64], currents: &[&[f64]], error: f64) -> Equations {
        let n = surplus.len();
        let covariance = (0..n).map(|i| (0..n).map(|j| if i == j { error * error } else { 0.0 }).collect()).collect();
        Equations { surplus: surplus.to_vec(), currents: currents.iter().map(|c| c.to_vec()).collect(), covariance }
    }

    /// A trunk and two branches, 10 A each way, 20 mΩ too much in the second branch: only the second reading is off.
    #[test]
    fn the_branch_is_named() {
        let found = explain(&equations(&[0.0, 0.2], &[&[10.0, 10.0, 0.0], &[10.0, 0.0, 10.0]], 0.005));
        let Explanation::One(excess, None) = found else { panic!("{found:?}") };
        assert_eq!(excess.run, 2);
        assert!((excess.ohms - 0.02).abs() < 1e-9 && (excess.error - 0.0005).abs() < 1e-9);
    }

    /// The same drop too much in both: the trunk, or both branches together.
    #[test]
    fn the_trunk_is_named_with_what_else_it_could_be() {
        let found = explain(&equations(&[0.2, 0.2], &[&[10.0, 10.0, 0.0], &[10.0, 0.0, 10.0]], 0.005));
        let Explanation::One(excess, Some((a, b))) = found else { panic!("{found:?}") };
        assert_eq!((excess.run, a.run, b.run), (0, 1, 2));
    }

    /// Two runs in a row with one reading at the end cannot be told apart.
    #[test]
    fn runs_in_a_row_stay_unclear() {
        let found = explain(&equations(&[0.2], &[&[10.0, 10.0]], 0.005));
        let Explanation::Unclear { candidates, several: false } = found else { panic!("{found:?}") };
        assert_eq!(candidates.iter().map(|c| c.run).collect::<Vec<_>>(), [0, 1]);
    }

    #[test]
    fn sound_wiring_says_what_it_would_have_noticed() {
        let found = explain(&equations(&[0.004], &[&[10.0, 0.0]], 0.005));
        let Explanation::Sound(noticed) = found else { panic!("{found:?}") };
        assert!((noticed[0] - 0.002).abs() < 1e-9 && noticed[1].is_infinite());
    }

    /// Less drop than there can be is no bad joint.
    #[test]
    fn too_little_drop_is_a_contradiction() {
        assert_eq!(explain(&equations(&[-0.2, 0.0], &[&[10.0], &[5.0]], 0.005)), Explanation::Contradiction);
        assert_eq!(explain(&equations(&[], &[], 0.005)), Explanation::Nothing);
    }

    /// Three branches read one by one, two of them bad.
    #[test]
    fn two_bad_joints_are_told() {
        let rows: [&[f64]; 4] =
            [&[10.0, 10.0, 0.0, 0.0], &[10.0, 0.0, 10.0, 0.0], &[10.0, 0.0, 0.0, 10.0], &[10.0, 0.0, 0.0, 0.0]];
        let found = explain(&equations(&[0.0, 0.2, 0.3, 0.0], &rows, 0.005));
        let Explanation::Two(a, b) = found else { panic!("{found:?}") };
        assert_eq!((a.run, b.run), (2, 3));
    }
}
