//! Small dense linear algebra: what weighted least squares needs.
//!
//! Cholesky factor of a covariance and the solution of its lower triangle:
//! with them, readings with errors that hang together become readings with
//! independent errors of one.

/// Lower Cholesky factor of a symmetric positive definite matrix, or `None` when it is not one.
pub(crate) fn cholesky(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let n = matrix.len();
    let mut lower = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            let known: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
            let rest = matrix[i][j] - known;
            if i == j {
                if rest.is_nan() || rest <= 0.0 {
                    return None;
                }
                lower[i][i] = rest.sqrt();
            } else {
                lower[i][j] = rest / lower[j][j];
            }
        }
    }
    Some(lower)
}

/// Solve L x = b for a lower triangle.
pub(crate) fn forward(lower: &[Vec<f64>], b: &[f64]) -> Vec<f64> {
    let mut x: Vec<f64> = Vec::with_capacity(b.len());
    for (row, b) in lower.iter().zip(b) {
        let known: f64 = row.iter().zip(&x).map(|(l, x)| l * x).sum();
        let diagonal = row.get(x.len()).copied().unwrap_or(1.0);
        x.push((b - known) / diagonal);
    }
    x
}

/// Product of two vectors.
pub(crate) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The value that chi-square with `freedom` degrees exceeds once in 2,000 times: Wilson and Hilferty's approximation.
pub(crate) fn chi_square_limit(freedom: usize) -> f64 {
    if freedom == 0 {
        // Nothing is left to disagree; rounding only.
        return 1e-6;
    }
    let n = freedom as f64;
    let spread = 2.0 / (9.0 * n);
    n * (1.0 - spread + 3.29 * spread.sqrt()).powi(3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_times_itself_is_the_matrix() {
        let m = vec![vec![4.0, 2.0, 0.4], vec![2.0, 3.0, 0.1], vec![0.4, 0.1, 1.0]];
        let l = cholesky(&m).unwrap();
        for i in 0..3 {
            for j in 0..3 {
                assert!((dot(&l[i], &l[j]) - m[i][j]).abs() < 1e-12);
            }
        }
        let x = forward(&l, &[1.0, 2.0, 3.0]);
        assert!((dot(&l[2], &x) - 3.0).abs() < 1e-12);
        assert_eq!(cholesky(&[vec![1.0, 2.0], vec![2.0, 1.0]]), None);
    }

    /// Printed tables of chi-square at 0.0005: 12.12 (1), 15.20 (2), 22.11 (5), 31.42 (10), 45.97 (20). From memory.
    #[test]
    fn chi_square_against_tables() {
        for (n, table) in [(1, 12.12), (2, 15.20), (5, 22.11), (10, 31.42), (20, 45.97)] {
            let got = chi_square_limit(n);
            assert!((got / table - 1.0).abs() < 0.05, "{n}: {got}, table {table}");
        }
    }
}
