//! Which numbers satisfy the equations of a least-squares fit?

/// By elimination; the equations are those of a fit, so the diagonal does not vanish where each number is seen.
pub fn solve<const N: usize>(mut rows: [[f64; N]; N], mut right: [f64; N]) -> [f64; N] {
    for n in 0..N {
        let (top, end) = (rows[n], right[n]);
        for m in n + 1..N {
            let times = rows[m][n] / top[n];
            rows[m].iter_mut().zip(top).for_each(|(r, t)| *r -= times * t);
            right[m] -= times * end;
        }
    }
    let mut out = [0.0; N];
    for n in (0..N).rev() {
        let known: f64 = (n + 1..N).map(|m| rows[n][m] * out[m]).sum();
        out[n] = (right[n] - known) / rows[n][n];
    }
    out
}

/// A row of the inverse of equations that are symmetrical.
pub fn inverse<const N: usize>(rows: [[f64; N]; N], which: usize) -> [f64; N] {
    let mut right = [0.0; N];
    right[which] = 1.0;
    solve(rows, right)
}

/// One more observation in the equations: by how much each number moves it, and its weight.
pub fn add<const N: usize>(rows: &mut [[f64; N]; N], by: &[f64; N], weight: f64) {
    for (row, a) in rows.iter_mut().zip(by) {
        row.iter_mut().zip(by).for_each(|(r, b)| *r += weight * a * b);
    }
}
