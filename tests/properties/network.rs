//! Properties of the network solution on generated trees.

use crate::generated_network::{Recipe, loaded_to, network, scaled};
use loomwright::engine::physics::network::circuit::{Branch, Network, Point, Source};
use loomwright::engine::physics::network::collapse::Demand;
use loomwright::engine::physics::network::load::Load;
use loomwright::engine::physics::network::solution::Solution;
use loomwright::engine::physics::network::solve::NoSolution;
use loomwright::engine::physics::network::warming::Warming;
use loomwright::quantity::*;
use proptest::prelude::*;

fn recipes(most: usize) -> impl Strategy<Value = Recipe> {
    (any::<u64>(), 1..=most, any::<bool>(), any::<bool>()).prop_map(|(seed, branches, warming, fed_in)| Recipe {
        seed,
        branches,
        warming,
        fed_in,
    })
}

fn all_finite(solution: &Solution) -> bool {
    solution.branches.iter().all(|s| s.voltage.is_finite() && s.current.is_finite() && s.temperature.is_finite())
        && solution.terminals.is_finite()
        && solution.current.is_finite()
}

/// Share of the power put in that is not found again in loads and heat, by Tellegen's theorem on the solved
/// voltages and currents: nothing but rounding.
fn unaccounted(plan: &Network, solution: &Solution) -> f64 {
    let (mut put_in, mut taken) = (plan.source.voltage.get() * solution.current.get(), 0.0);
    let mut loads = |loads: &[Load], volts: f64| {
        for load in loads {
            let power = load.current(Volts::new(volts)).get() * volts;
            if power < 0.0 { put_in -= power } else { taken += power }
        }
    };
    loads(&plan.loads, solution.terminals.get());
    plan.branches.iter().zip(&solution.branches).for_each(|(b, s)| loads(&b.loads, s.voltage.get()));
    taken += plan.source.internal.get() * solution.current.get().powi(2);
    for (branch, state) in plan.branches.iter().zip(&solution.branches) {
        let near = match branch.from {
            Point::Terminals => solution.terminals,
            Point::End(from) => solution.branches[from].voltage,
        };
        taken += (near - state.voltage).get() * state.current.get();
    }
    let through = put_in.abs().max(taken.abs());
    if through > 0.0 { ((put_in - taken) / through).abs() } else { 0.0 }
}

proptest! {
    /// Every tree up to 1,000 branches, loaded to any share of its own limit, is solved to 1 nV and its power balance closes.
    #[test]
    fn converges_and_closes(recipe in recipes(1000), share in 0.02..0.999f64) {
        let plan = loaded_to(&network(recipe), share);
        let solution = plan.solve().map_err(|e| TestCaseError::fail(format!("{e:?}")))?;
        prop_assert!(all_finite(&solution));
        prop_assert!(unaccounted(&plan, &solution) < 1e-9);
        prop_assert!(solution.branches.iter().all(|b| b.voltage > Volts::ZERO) && solution.terminals > Volts::ZERO);
    }

    /// Past its limit every tree says so: a share below all, a load named, everything finite.
    #[test]
    fn collapse_is_explained(recipe in recipes(300), beyond in 1.001..1e4f64) {
        let plan = scaled(&loaded_to(&network(recipe), 1.0), beyond);
        let insists = plan.branches.iter().flat_map(|b| &b.loads).chain(&plan.loads).any(|load| match load {
            Load::Power(power) => power.get() > 0.0,
            Load::Current(current) => current.get() > 0.0,
            Load::Resistance { .. } => false,
        });
        prop_assume!(insists);
        match plan.solve() {
            Err(NoSolution::Collapse(collapse)) => {
                prop_assert!((0.0..1.0).contains(&collapse.share.get()));
                prop_assert!((collapse.share.get() * beyond - 1.0).abs() < 1.1e-3, "{} × {beyond}", collapse.share.get());
                let (asked, largest) = match (collapse.asked, collapse.largest) {
                    (Demand::Power(a), Demand::Power(b)) => (a.get(), b.get()),
                    (Demand::Current(a), Demand::Current(b)) => (a.get(), b.get()),
                    other => panic!("{other:?}"),
                };
                prop_assert!((0.0..asked).contains(&largest), "{largest} of {asked}");
            }
            other => prop_assert!(false, "{other:?}"),
        }
    }

    /// A longer cable never raises a voltage behind it; a bigger conductor never lowers one.
    #[test]
    fn longer_is_lower_and_bigger_is_higher(recipe in recipes(60), share in 0.05..0.9f64, which in any::<prop::sample::Index>(), factor in 1.01..3.0f64) {
        let plan = loaded_to(&network(Recipe { fed_in: false, ..recipe }), share);
        let index = which.index(plan.branches.len());
        let mut bigger = plan.clone();
        bigger.branches[index].copper = bigger.branches[index].copper * (1.0 / factor);
        let (before, after) = (plan.solve().unwrap(), bigger.solve().unwrap());
        let behind = |far: usize| {
            let parent = |at: &usize| match plan.branches[*at].from {
                Point::Terminals => None,
                Point::End(from) => Some(from),
            };
            std::iter::successors(Some(far), parent).any(|at| at == index)
        };
        for far in (0..plan.branches.len()).filter(|far| behind(*far)) {
            prop_assert!(after.branches[far].voltage >= before.branches[far].voltage - Volts::new(1e-9));
        }
    }

    /// The limit is the true one: a plain backward and forward sweep, relaxed and with nothing shared
    /// with the solver, settles just under it and runs away just over it.
    #[test]
    fn limit_against_a_plain_sweep(recipe in recipes(40)) {
        let limit = loaded_to(&network(recipe), 1.0);
        prop_assume!(limit.solve().is_ok());
        prop_assume!(scaled(&limit, 1.01).solve().is_err());
        let under = scaled(&limit, 0.99);
        let swept = sweep(&under);
        prop_assert!(swept.is_some(), "the sweep finds nothing at 99 %");
        let solved = under.solve().unwrap();
        for (volts, state) in swept.unwrap().iter().zip(&solved.branches) {
            prop_assert!((volts - state.voltage.get()).abs() < 1e-6, "{volts} V swept, {:?}", state.voltage);
        }
        prop_assert!(sweep(&scaled(&limit, 1.01)).is_none(), "the sweep settles at 101 %");
    }

    /// Whatever figures within the accepted ranges: an answer that closes, or a collapse; never NaN.
    #[test]
    fn wild_figures_never_break_it(recipe in recipes(30), power in -9.0..9.0f64, ohms in -9.0..6.0f64, fed in 0.0..4.0f64) {
        let mut plan = scaled(&network(recipe), 10f64.powf(power));
        for (index, branch) in plan.branches.iter_mut().enumerate() {
            branch.copper = branch.copper * 10f64.powf(ohms);
            branch.fixed = if index % 3 == 0 { Ohms::ZERO } else { branch.fixed };
            if recipe.fed_in && index % 5 == 0 {
                branch.loads.push(Load::Current(Amps::new(-10f64.powf(fed))));
            }
        }
        match plan.solve() {
            Ok(solution) => {
                prop_assert!(all_finite(&solution));
                prop_assert!(unaccounted(&plan, &solution) < 1e-9);
            }
            Err(NoSolution::Collapse(collapse)) => {
                let words = format!("{collapse:?}");
                prop_assert!(!words.contains("NaN") && !words.contains("inf"), "{words}");
            }
            Err(other) => prop_assert!(false, "{other:?}"),
        }
    }

    /// The order in which branches and loads are entered does not matter.
    #[test]
    fn order_does_not_matter(recipe in recipes(120), share in 0.05..0.95f64) {
        let plan = loaded_to(&network(recipe), share);
        let count = plan.branches.len();
        let mut turned = plan.clone();
        turned.branches.reverse();
        turned.loads.reverse();
        for branch in &mut turned.branches {
            branch.loads.reverse();
            if let Point::End(from) = branch.from {
                branch.from = Point::End(count - 1 - from);
            }
        }
        let (a, b) = (plan.solve().unwrap(), turned.solve().unwrap());
        for (one, other) in a.branches.iter().zip(b.branches.iter().rev()) {
            prop_assert!((one.voltage - other.voltage).get().abs() < 2e-9);
        }
    }

    /// One run and one load of constant power: V = (E + √(E² - 4RP)) / 2, and no more than E² / 4R.
    #[test]
    fn one_run_against_the_closed_form(e in 10.0..60.0f64, r in 0.001..2.0f64, share in 0.0..1.3f64) {
        prop_assume!((share - 1.0).abs() > 1e-6);
        let most = e * e / (4.0 * r);
        let power = share * most;
        let plan = one_run(e, r, power);
        match plan.solve() {
            Ok(solution) => {
                prop_assert!(share < 1.0);
                let exact = (e + (e * e - 4.0 * r * power).sqrt()) / 2.0;
                prop_assert!((solution.branches[0].voltage.get() - exact).abs() < 1e-9);
            }
            Err(NoSolution::Collapse(collapse)) => {
                prop_assert!(share > 1.0);
                prop_assert_eq!(collapse.at, Point::End(0));
                let Demand::Power(largest) = collapse.largest else { return Err(TestCaseError::fail("a power")) };
                prop_assert!((largest.get() / most - 1.0).abs() < 1e-8, "{largest:?} of {most}");
                prop_assert!((collapse.share.get() * share - 1.0).abs() < 1e-8);
            }
            Err(other) => prop_assert!(false, "{other:?}"),
        }
    }
}

/// Voltages by the plainest method there is, or `None` when one falls to nothing or never settles.
/// Parents come before children in generated networks.
fn sweep(plan: &Network) -> Option<Vec<f64>> {
    let count = plan.branches.len();
    let (e, inside) = (plan.source.voltage.get(), plan.source.internal.get());
    let parent = |index: usize| match plan.branches[index].from {
        Point::Terminals => count,
        Point::End(from) => from,
    };
    let mut volts = vec![e; count + 1];
    let mut amps = vec![0.0; count + 1];
    let draw = |loads: &[Load], v: f64| loads.iter().map(|l| l.current(Volts::new(v)).get()).sum::<f64>();
    for _ in 0..200_000 {
        let mut sums: Vec<f64> = (0..count).map(|k| draw(&plan.branches[k].loads, volts[k])).collect();
        sums.push(draw(&plan.loads, volts[count]));
        (0..count).rev().for_each(|k| sums[parent(k)] += sums[k]);
        amps.iter_mut().zip(&sums).for_each(|(now, new)| *now += 0.3 * (new - *now));
        let before = volts.clone();
        volts[count] = e - inside * amps[count];
        for k in 0..count {
            let branch = &plan.branches[k];
            let t = branch.warming.temperature(branch.copper, Amps::new(amps[k])).get();
            let ohms = branch.fixed.get() + branch.copper.get() * (234.5 + t) / 254.5;
            volts[k] = volts[parent(k)] - ohms * amps[k];
        }
        if volts.iter().any(|v| *v <= 0.0 || !v.is_finite()) {
            return None;
        }
        if volts.iter().zip(&before).all(|(a, b)| (a - b).abs() < 1e-11) {
            volts.pop();
            return Some(volts);
        }
    }
    None
}

fn one_run(e: f64, r: f64, power: f64) -> Network {
    let branch = Branch {
        from: Point::Terminals,
        copper: Ohms::new(r),
        fixed: Ohms::ZERO,
        warming: Warming::Held(Celsius::new(20.0)),
        loads: vec![Load::Power(Watts::new(power))],
    };
    Network { source: Source { voltage: Volts::new(e), internal: Ohms::ZERO }, loads: vec![], branches: vec![branch] }
}
