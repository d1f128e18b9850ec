//! What does one load get at the end of one resistance?
//!
//! The network of one source and one load has its solution in closed form: of constant power the higher of the two
//! voltages at which it can exist, V = (E + √(E² - 4 R P)) / 2; of constant current E - R I; of a resistance the
//! divided voltage. For what is solved many thousand times; a tree of loads is a [`super::circuit::Network`].

use crate::engine::physics::network::load::Load;
use crate::quantity::{Amps, Ohms, Volts, Watts};

/// Voltage at the load and the current that flows, from a source of `voltage` behind `whole`, its own resistance
/// counted; `None` where no voltage exists at which the load gets what it asks for.
pub fn single(voltage: Volts, whole: Ohms, load: Load) -> Option<(Volts, Amps)> {
    let (e, r) = (voltage.get(), whole.get().max(0.0));
    let at = match load {
        Load::Power(power) if power <= Watts::ZERO => e,
        Load::Power(power) => {
            let root = e * e - 4.0 * r * power.get();
            if root < 0.0 {
                return None;
            }
            (e + root.sqrt()) / 2.0
        }
        Load::Current(current) => e - r * current.get(),
        Load::Resistance { rated, nominal } => {
            let conducts = rated.get() / (nominal.get() * nominal.get());
            e / (1.0 + r * conducts)
        }
    };
    if !(at > 0.0 && at.is_finite()) {
        return None;
    }
    let amps = match load {
        Load::Power(power) if power <= Watts::ZERO => Amps::ZERO,
        load => load.current(Volts::new(at)),
    };
    Some((Volts::new(at), amps))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 12 V behind 0.1 Ω. 90 W: x² - 12 x + 9 = 0, x = 6 + √27 = 11.196; 5 A: 11.5 V; 144 W at 12 V is 1 Ω.
    #[test]
    fn one_load_by_hand() {
        let got = |load| single(Volts::new(12.0), Ohms::new(0.1), load);
        let near = |found: Option<(Volts, Amps)>, volts: f64, amps: f64| {
            let (v, i) = found.unwrap();
            assert!((v.get() - volts).abs() < 1e-3 && (i.get() - amps).abs() < 1e-3, "{v} {i}");
        };
        near(got(Load::Power(Watts::new(90.0))), 11.196, 8.038);
        near(got(Load::Current(Amps::new(5.0))), 11.5, 5.0);
        near(got(Load::Resistance { rated: Watts::new(144.0), nominal: Volts::new(12.0) }), 10.909, 10.909);
    }

    /// E² / 4R = 360 W is the most; one watt more, and more current than E / R, cannot be fed.
    #[test]
    fn too_much_has_no_voltage() {
        let got = |load| single(Volts::new(12.0), Ohms::new(0.1), load);
        assert!(got(Load::Power(Watts::new(359.0))).is_some());
        assert_eq!(got(Load::Power(Watts::new(361.0))), None);
        assert_eq!(got(Load::Current(Amps::new(121.0))), None);
    }
}
