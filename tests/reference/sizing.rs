//! Sizes of runs against published tables, worked examples and exhaustive search.

use crate::check::{check, independent};
use crate::program::{Answer, Choice, Node, different_sizes, few_sizes, lightest, mass_if_kept};
use crate::stored::lines;
use loomwright::catalogue::Catalogue;
use loomwright::quantity::*;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

crate::tests![
    least_copper_of_an_independent_solver,
    least_copper_is_the_least_there_is,
    pruning_by_a_known_answer_loses_nothing,
    few_sizes_are_the_lightest_of_all_few,
];

/// A generated tree of 1 to 7 branches with real sizes' resistance and mass, drop limits at some points.
fn generated(seed: u64, catalogue: &Catalogue) -> Vec<Node> {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let count = dice.random_range(1..=7);
    let sizes = dice.random_range(2..=if count > 5 { 4 } else { 6 });
    (0..count)
        .map(|index| {
            let length = Metres::new(dice.random_range(0.3..9.0));
            let amps = Amps::new(dice.random_range(1.0..60.0));
            let fixed = Ohms::from_milli(dice.random_range(0.2..3.0));
            let first = dice.random_range(2..8);
            let options = catalogue.sizes(loomwright::catalogue::Family::Metric).skip(first).take(sizes);
            let option = |c: &loomwright::catalogue::Conductor| Choice {
                drop: amps * (c.resistance * (length * 2.0) + fixed),
                mass: c.copper_mass() * (length * 2.0),
            };
            Node {
                parent: (index > 0 && dice.random_bool(0.85)).then(|| dice.random_range(0..index)),
                room: dice.random_bool(0.7).then(|| Volts::new(dice.random_range(0.3..6.0))),
                options: options.map(option).collect(),
            }
        })
        .collect()
}

/// The lightest answer by trying every combination.
fn by_trying_all(nodes: &[Node]) -> Option<Answer> {
    let mut best: Option<Answer> = None;
    let mut choice = vec![0; nodes.len()];
    loop {
        let mass = mass_if_kept(nodes, &choice).filter(|mass| best.as_ref().is_none_or(|b| *mass < b.mass));
        if let Some(mass) = mass {
            best = Some(Answer { choice: choice.clone(), mass, exact: true });
        }
        let Some(next) = (0..nodes.len()).find(|i| choice[*i] + 1 < nodes[*i].options.len()) else { return best };
        choice[next] += 1;
        choice[..next].fill(0);
    }
}

/// The least copper equals that found by trying every combination, on 1,000 generated trees.
fn least_copper_is_the_least_there_is() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut solved, mut impossible) = (0, 0);
    for seed in 0..1000 {
        let nodes = generated(seed, &catalogue);
        match (lightest(&nodes, None), by_trying_all(&nodes)) {
            (Some(found), Some(best)) => {
                assert!(found.exact);
                let kept = mass_if_kept(&nodes, &found.choice).expect("the answer keeps every limit");
                assert!((kept - best.mass).get().abs() < 1e-12, "seed {seed}: {kept}, by trying all {}", best.mass);
                assert!((found.mass - best.mass).get().abs() < 1e-12, "seed {seed}");
                solved += 1;
            }
            (None, None) => impossible += 1,
            (found, best) => panic!("seed {seed}: {found:?}, by trying all {best:?}"),
        }
    }
    assert!(solved >= 500, "{solved} trees with an answer, {impossible} without");
}

/// Trees and their least copper by a public solver of mixed integer programs (`scripts/copper_least.py`).
fn least_copper_of_an_independent_solver() {
    let highs = independent("scipy 1.17.1 milp (HiGHS): least copper of generated trees");
    let mut nodes: Vec<Node> = Vec::new();
    let mut impossible = 0;
    for line in lines(include_str!("data/copper_least.csv"), ',') {
        let number: f64 = line[2].parse().unwrap();
        if line[1] == "least" {
            match lightest(&nodes, None) {
                Some(found) => check(highs, &format!("tree {}, kg", line[0]), number, found.mass.get(), 1e-6),
                None => {
                    assert_eq!(number, 0.0, "tree {} has an answer", line[0]);
                    impossible += 1;
                }
            }
            nodes.clear();
            continue;
        }
        let limit: f64 = line[3].parse().unwrap();
        let option = |pair: &&str| {
            let (drop, mass) = pair.split_once(':').unwrap();
            Choice { drop: Volts::new(drop.parse().unwrap()), mass: Kilograms::new(mass.parse().unwrap()) }
        };
        nodes.push(Node {
            parent: (number >= 0.0).then_some(number as usize),
            room: (limit > 0.0).then(|| Volts::new(limit)),
            options: line[4..].iter().map(option).collect(),
        });
    }
    assert!(impossible > 5, "{impossible} trees without an answer");
}

/// A known answer to prune by does not change the result.
fn pruning_by_a_known_answer_loses_nothing() {
    let catalogue = Catalogue::embedded().unwrap();
    for seed in 1000..1200 {
        let nodes = generated(seed, &catalogue);
        let free = lightest(&nodes, None);
        let known = free.as_ref().map(|a| a.mass);
        let pruned = lightest(&nodes, known);
        assert_eq!(free.map(|a| a.mass), pruned.map(|a| a.mass), "seed {seed}");
    }
}

/// With at most so many sizes: equal to trying every combination that uses no more.
fn few_sizes_are_the_lightest_of_all_few() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut compared = 0;
    for seed in 2000..2400 {
        let nodes = generated(seed, &catalogue);
        let Some(best) = lightest(&nodes, None) else { continue };
        // The same mass per length is the same size.
        let mut sorts: Vec<u64> = Vec::new();
        let labels: Vec<Vec<usize>> = nodes
            .iter()
            .map(|n| {
                let first = n.options[0].mass.get();
                let of = |o: &Choice| {
                    let key = (o.mass.get() / first * 1000.0).round() as u64;
                    sorts.iter().position(|s| *s == key).unwrap_or_else(|| {
                        sorts.push(key);
                        sorts.len() - 1
                    })
                };
                n.options.iter().map(of).collect()
            })
            .collect();
        for most in 1..=2 {
            let found = few_sizes(&nodes, &labels, &best, most).map(|a| a.mass.get());
            let expected = lightest_of_few(&nodes, &labels, most);
            match (found, expected) {
                (Some(found), Some(expected)) => assert!((found - expected).abs() < 1e-12, "seed {seed}, {most}"),
                (found, expected) => assert_eq!(found, expected, "seed {seed}, {most}"),
            }
            compared += 1;
        }
        assert!(different_sizes(&labels, &best.choice) >= 1);
    }
    assert!(compared > 300, "{compared}");
}

/// By trying every combination.
fn lightest_of_few(nodes: &[Node], labels: &[Vec<usize>], most: usize) -> Option<f64> {
    let mut best: Option<f64> = None;
    let mut choice = vec![0; nodes.len()];
    loop {
        if different_sizes(labels, &choice) <= most
            && let Some(mass) = mass_if_kept(nodes, &choice)
        {
            best = Some(best.map_or(mass.get(), |b: f64| b.min(mass.get())));
        }
        let next = (0..nodes.len()).find(|i| choice[*i] + 1 < nodes[*i].options.len())?;
        choice[next] += 1;
        choice[..next].fill(0);
        if choice.iter().zip(nodes).all(|(c, n)| c + 1 == n.options.len()) {
            if different_sizes(labels, &choice) <= most
                && let Some(mass) = mass_if_kept(nodes, &choice)
            {
                best = Some(best.map_or(mass.get(), |b: f64| b.min(mass.get())));
            }
            return best;
        }
    }
}
