//! What does the array bring to its own cable and its controller?
//!
//! Left out: light beyond full sun, which the factor of 1.25 on the current stands for.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::plan::SolarController;
use crate::quantity::*;
use crate::reckon;

/// An open voltage rises by so much of itself for each kelvin below 25 °C: within 0.01 of the factors of NFPA 70
/// table 690.7(A), from memory.
pub const COLD: f64 = 0.004;
/// Open voltage over that at maximum power, of usual panels: from memory.
const OPEN: f64 = 1.2;

/// The array's side of its controller. Nothing where there is no array.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Array {
    /// Voltage with nothing connected on the coldest day.
    pub open: Option<Volts>,
    /// What its cable carries at least before corrections for air and bundle, and its device is rated for.
    pub cable: Option<Amps>,
    /// What its cable carries at least after them.
    pub corrected: Option<Amps>,
    /// What the other strings can drive back into one that has a fault.
    pub backward: Option<Amps>,
    /// Share of its power that a controller without tracking passes on.
    pub passed: Option<Share>,
}

/// Of a plan.
pub(crate) fn array(site: &Installation, charging: Volts, notes: &mut Notes) -> Array {
    let (solar, about) = (&site.solar, &Subject::Solar);
    if solar.array.get() <= 0.0 {
        return Array::default();
    }
    let (series, strings) = (Figure::number(f64::from(solar.in_series)), Figure::number(f64::from(solar.strings)));
    let panel = solar.panel_open.unwrap_or(solar.array_voltage * OPEN / f64::from(solar.in_series.max(1)));
    let open = reckon!(Volts: n * U * (1.0 + k * max(25.0 - T, 0.0)),
        n: "panels in series" = series,
        U: "one panel, open, at 25 °C: its label, or 1.2 times its share of the array's voltage" = panel,
        k: "for each kelvin colder" = Figure::number(COLD),
        T: "coldest air" = site.surroundings.coldest);
    let open = notes.reckon(about, "open voltage", open, |r| {
        r.working("array's voltage with nothing connected, coldest")
            .source("NFPA 70, 690.7: 0.4 % for each kelvin, from memory")
    });
    let current = |name: &'static str, times: f64, strings: Figure, notes: &mut Notes| {
        let short = solar.panel_short?;
        let amps = reckon!(Amps: k * n * I,
            k: "factor" = Figure::number(times), n: "strings" = strings, I: "one panel, shorted" = short);
        Some(notes.reckon(about, name, amps, |r| r.working(name).source("NFPA 70, 690.8 and 690.9")))
    };
    let others = Figure::number(f64::from(solar.strings.saturating_sub(1)));
    let passed = Share::new((charging / solar.array_voltage.max(Volts::new(1.0))).min(1.0));
    Array {
        open: Some(open),
        cable: current("array cable", 1.56, strings, notes),
        corrected: current("array cable after corrections", 1.25, strings, notes),
        backward: current("back into one string", 1.25, others, notes),
        passed: (solar.controller == SolarController::Shunt).then_some(passed),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NFPA 70 table 690.7(A), from memory: factors at the cold end of each band of 5 K.
    #[test]
    fn cold_raises_the_open_voltage_as_the_table_says() {
        let table =
            [(20.0, 1.02), (10.0, 1.06), (0.0, 1.10), (-10.0, 1.14), (-20.0, 1.18), (-25.0, 1.20), (-40.0, 1.25)];
        for (air, factor) in table {
            assert!((1.0 + COLD * (25.0 - air) - factor).abs() < 0.011, "{air} °C");
        }
    }
}
