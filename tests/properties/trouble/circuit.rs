//! A circuit node by node, solved by nodal analysis: nothing of the program's own network.

/// A circuit as resistors and current sources between nodes; node 0 is the battery's minus post.
#[derive(Clone)]
pub struct Circuit {
    pub nodes: usize,
    pub resistors: Vec<(usize, usize, f64)>,
    /// A battery: plus node, volts, ohms inside, minus node.
    pub sources: Vec<(usize, f64, f64, usize)>,
}

impl Circuit {
    pub fn node(&mut self) -> usize {
        self.nodes += 1;
        self.nodes - 1
    }

    /// Node voltages, with what a consumer draws from one node to another.
    pub fn solve(&self, drawn: &[(usize, usize, f64)]) -> Vec<f64> {
        let n = self.nodes;
        let mut m = vec![vec![0.0; n + 1]; n];
        let conduct = |m: &mut Vec<Vec<f64>>, a: usize, b: usize, g: f64| {
            m[a][a] += g;
            m[b][b] += g;
            m[a][b] -= g;
            m[b][a] -= g;
        };
        self.resistors.iter().for_each(|(a, b, r)| conduct(&mut m, *a, *b, 1.0 / r.max(1e-7)));
        for (plus, volts, inside, minus) in &self.sources {
            conduct(&mut m, *plus, *minus, 1.0 / inside);
            m[*plus][n] += volts / inside;
            m[*minus][n] -= volts / inside;
        }
        for (from, to, amps) in drawn {
            m[*from][n] -= amps;
            m[*to][n] += amps;
        }
        // The reference node, and a trace of leakage so that nothing hangs in the air.
        m[0][0] += 1e9;
        (0..n).for_each(|i| m[i][i] += 1e-11);
        for i in 0..n {
            let pivot = (i..n).max_by(|a, b| m[*a][i].abs().total_cmp(&m[*b][i].abs())).unwrap();
            m.swap(i, pivot);
            for row in i + 1..n {
                let by = m[row][i] / m[i][i];
                if by != 0.0 {
                    let (above, below) = m.split_at_mut(row);
                    let pairs = below[0][i..].iter_mut().zip(&above[i][i..]);
                    pairs.for_each(|(value, of_pivot)| *value -= by * of_pivot);
                }
            }
        }
        let mut x = vec![0.0; n];
        for i in (0..n).rev() {
            let known: f64 = (i + 1..n).map(|j| m[i][j] * x[j]).sum();
            x[i] = (m[i][n] - known) / m[i][i];
        }
        x
    }
}
