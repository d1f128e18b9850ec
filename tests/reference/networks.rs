//! Voltages, currents and the edge of collapse on trees of cables, against scipy's solution of Kirchhoff's laws.

use crate::check::{Source, check, check_share, independent};
use crate::generated_network::multiple;
use crate::program::{Branch, Network, NetworkLoad, NetworkSource, Point, Warming};
use crate::stored::{lines, numbers};
use loomwright::quantity::*;

crate::tests![trees_of_loads];

const VOLTAGES: Source =
    independent("scipy 1.17.1 fsolve, trees of cables with loads of every kind: voltages and currents");
const MULTIPLE: Source = independent("scipy 1.17.1 fsolve, the same trees: how many times the loads can be fed");

fn branch(row: &[f64]) -> Branch {
    let [parent, ohm, celsius, watts, amps, load] = row[..] else { panic!("{row:?}") };
    let mut loads = vec![NetworkLoad::Power(Watts::new(watts)), NetworkLoad::Current(Amps::new(amps))];
    if load > 0.0 {
        loads.push(NetworkLoad::Resistance { rated: Watts::new(144.0 / load), nominal: Volts::new(12.0) });
    }
    Branch {
        from: if parent < 0.0 { Point::Terminals } else { Point::End(parent as usize) },
        copper: Ohms::new(ohm),
        fixed: Ohms::ZERO,
        warming: Warming::Held(Celsius::new(celsius)),
        loads,
    }
}

/// The two copper laws, 0.00393 per kelvin and 1/254.5, differ by 0.02 %, which is a few millivolts at most.
/// Where the script found no edge it stored 0.
fn trees_of_loads() {
    let mut network: Option<Network> = None;
    for line in lines(include_str!("data/trees_of_loads.csv"), ',') {
        let row = numbers(&line[1..]).unwrap();
        match (line[0], &mut network) {
            ("tree", any) => {
                let source = NetworkSource { voltage: Volts::new(row[1]), internal: Ohms::new(row[2]) };
                *any = Some(Network { source, loads: vec![], branches: vec![] });
            }
            ("branch", Some(network)) => network.branches.push(branch(&row)),
            ("volts", Some(network)) => {
                let solved = network.solve().unwrap();
                check(VOLTAGES, "terminals, V", row[0], solved.terminals.get(), 0.002);
                for (n, (volts, state)) in row[1..].iter().zip(&solved.branches).enumerate() {
                    check(VOLTAGES, &format!("end of branch {n}, V"), *volts, state.voltage.get(), 0.002);
                }
            }
            ("amps", Some(network)) => {
                for (n, (amps, state)) in row.iter().zip(&network.solve().unwrap().branches).enumerate() {
                    check(VOLTAGES, &format!("branch {n}, A"), *amps, state.current.get(), 0.005);
                }
            }
            ("multiple", Some(network)) if row[0] > 0.0 => {
                check_share(MULTIPLE, "times all loads", row[0], multiple(network, 100.0).unwrap_or(100.0), 0.001);
            }
            _ => {}
        }
    }
}
