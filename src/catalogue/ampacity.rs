//! What the ampacity table gives for a conductor, its air and its neighbours.
//!
//! Values between the table's sizes are read on straight lines between the
//! logarithms of area and current, on the copper that gives the published
//! resistance. Nothing is read above the largest row. Leaves out the heat
//! balance of a cable, which the engine does as the second opinion.

use super::conductor::{AmpacityRow, AmpacityTable, Conductor, Family};
use super::faults::Faults;
use super::row::Part;
use crate::quantity::*;
use itertools::Itertools;

/// A number with the words that say where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Cited<T> {
    /// The number.
    pub value: T,
    /// Publication or method, ready to show.
    pub source: String,
}

/// Least copper of a gauge size as a share of the solid one: the smallest that
/// SAE J1127 and J1128 allow is 0.893 (size 12), and 33 CFR 183.430 takes those
/// conductors for the same table (from memory).
pub const LEAST_OF_GAUGE: f64 = 0.89;

/// What an ambient factor rests on.
enum Why {
    Cool,
    TooHot,
    Printed,
    Law,
}

impl AmpacityTable {
    pub(super) fn check_table(&self, faults: &mut Faults) {
        faults.need(!self.row.is_empty(), "row", "is empty; give one row a gauge");
        for row in &self.row {
            self.check_row(row, faults);
        }
        for (a, b) in self.row.iter().tuple_windows() {
            let (thinner, thicker) = (awg_number(&a.awg), awg_number(&b.awg));
            faults.need(thinner > thicker, "row", "must go from the thinnest gauge to the thickest, each once");
            let grows = a.amps.iter().zip(&b.amps).all(|(x, y)| x.get() <= y.get());
            faults.need(grows, "row", "must not carry less amps than a thinner row");
        }
        for step in &self.bundle {
            faults.part("bundle", |own| step.check(own));
        }
        for (a, b) in self.bundle.iter().tuple_windows() {
            faults.need(a.from_n < b.from_n, "bundle", "must be by growing from_n, each once");
            faults.need(a.factor >= b.factor, "bundle", "must not grow with more conductors");
        }
        let hot = &self.engine_space;
        faults.within("engine_space.ambient_c", &hot.ambient, self.ambient.get(), 150.0);
        faults.need(hot.factors.len() == self.columns_c.len(), "engine_space.factors", "must be one for each column");
        faults.part("engine_space", |own| hot.check(own));
    }

    fn check_row(&self, row: &AmpacityRow, faults: &mut Faults) {
        let awg = &row.awg;
        if awg_number(awg).is_none() {
            faults.add("row", format!("has no gauge “{awg}”; write 18 to 1, 1/0 to 4/0"));
        }
        if row.amps.len() != self.columns_c.len() {
            let (n, columns) = (row.amps.len(), self.columns_c.len());
            faults.add("row", format!("{awg} has {n} amps for {columns} columns; give one for each"));
        }
        let rising = row.amps.iter().tuple_windows().all(|(a, b)| a.get() <= b.get());
        if !rising || row.amps.iter().any(|a| a.get() <= 0.0) {
            faults.add("row", format!("{awg} must carry more than zero and not less in a hotter column"));
        }
    }

    /// Position of the hottest column that is not above an insulation temperature.
    fn column_index(&self, column: Celsius) -> Option<usize> {
        self.columns_c.iter().rposition(|c| c.get() <= column.get())
    }

    /// Ampacity of a copper area (mm², see [`Conductor::copper`]) at the
    /// table's ambient, in the hottest column not above `column`.
    ///
    /// Between rows: ln I is linear in ln S, so never above the next larger
    /// row. Below the smallest row: in proportion to the area, which is lower
    /// than a thinner wire really carries since it cools better for its size.
    /// `None` above the largest row, for no area, or when no column is low enough.
    pub fn base(&self, copper: SquareMillimetres, column: Celsius) -> Option<Amps> {
        let column = self.column_index(column)?;
        let s = copper.get();
        if s.is_nan() || s <= 0.0 {
            return None;
        }
        let mut below: Option<(f64, f64)> = None;
        for row in &self.row {
            let area = awg_area(awg_number(&row.awg)?).get();
            let amps = row.amps.get(column)?.get();
            if s <= area {
                return match below {
                    None => Some(Amps::new(amps * s / area)),
                    Some((a0, i0)) => {
                        let share = (s / a0).ln() / (area / a0).ln();
                        Some(Amps::new(i0 * (amps / i0).powf(share)))
                    }
                };
            }
            below = Some((area, amps));
        }
        None
    }

    /// Ampacity of a conductor at the table's ambient: what the table gives it, or what its maker says where that is
    /// less. A maker's figure above the table's changes nothing.
    pub fn base_of(&self, conductor: &Conductor, column: Celsius) -> Option<Cited<Amps>> {
        let table = self.by_table(conductor, column);
        let maker = || conductor.carries.map(|value| Cited { value, source: conductor.from.carries.words() });
        table.into_iter().chain(maker()).reduce(|least, other| if other.value < least.value { other } else { least })
    }

    /// A gauge size by its own row, a metric size by [`AmpacityTable::base`] on its copper.
    ///
    /// A gauge size with less than [`LEAST_OF_GAUGE`] of its copper is read
    /// like a metric one: the row is not for cable that thin.
    fn by_table(&self, conductor: &Conductor, column: Celsius) -> Option<Cited<Amps>> {
        let table = self.from.row.words();
        if conductor.family == Family::Awg {
            let gauge = conductor.label.trim_end_matches("AWG").trim();
            let full = awg_number(gauge).is_some_and(|n| conductor.copper() / awg_area(n) >= LEAST_OF_GAUGE);
            if let Some(row) = self.row.iter().find(|r| full && r.awg == gauge) {
                let value = *row.amps.get(self.column_index(column)?)?;
                return Some(Cited { value, source: table });
            }
        }
        let value = self.base(conductor.copper(), column)?;
        let smallest = self.row.first().and_then(|r| awg_number(&r.awg)).map_or(0.0, |n| awg_area(n).get());
        let how = if conductor.copper().get() < smallest {
            "below its smallest row in proportion to the copper"
        } else {
            "between its rows by the copper that gives the conductor's resistance"
        };
        Some(Cited { value, source: format!("{table}, {how}") })
    }

    /// Factor for air other than the table's: √((Tc - Ta)/(Tc - T0)), from the
    /// heat balance with a loss proportional to the temperature difference.
    ///
    /// It reproduces the factors of IEC 60364-5-52 and IEC 60092 to 0.01. No
    /// credit is taken for air cooler than the table's; in air as hot as an
    /// engine space or hotter the table's own factor is used where it is
    /// smaller; zero once the air is as hot as the insulation may be.
    pub fn ambient_factor(&self, insulation_max: Celsius, air: Celsius) -> Cited<f64> {
        let (value, why) = self.ambient(insulation_max, air);
        let source = match why {
            Why::Cool => format!("air not above the table's {}: no credit taken", self.ambient),
            Why::TooHot => "air as hot as the insulation may be".into(),
            Why::Printed => self.engine_space.from.factors.words(),
            Why::Law => "√((Tc - Ta)/(Tc - T0)), as IEC 60364-5-52 and IEC 60092 to 0.01".into(),
        };
        Cited { value, source }
    }

    /// The value of [`AmpacityTable::ambient_factor`] without its words, for searches over the air.
    pub fn ambient_value(&self, insulation_max: Celsius, air: Celsius) -> f64 {
        self.ambient(insulation_max, air).0
    }

    fn ambient(&self, insulation_max: Celsius, air: Celsius) -> (f64, Why) {
        if air.get() <= self.ambient.get() {
            return (1.0, Why::Cool);
        }
        let (over, span) = ((insulation_max - air).get(), (insulation_max - self.ambient).get());
        if over <= 0.0 || span <= 0.0 {
            return (0.0, Why::TooHot);
        }
        let value = (over / span).sqrt();
        let printed = self.column_index(insulation_max).and_then(|i| self.engine_space.factors.get(i).copied());
        match printed {
            Some(factor) if air.get() >= self.engine_space.ambient.get() && factor < value => (factor, Why::Printed),
            _ => (value, Why::Law),
        }
    }

    /// Factor for `n` loaded conductors in one bundle; 1 for one or two.
    pub fn bundle_factor(&self, n: u32) -> Cited<f64> {
        match self.bundle.iter().filter(|b| b.from_n <= n).max_by_key(|b| b.from_n) {
            Some(step) => Cited { value: step.factor, source: step.from.factor.words() },
            None => Cited { value: 1.0, source: format!("{}: no factor for so few conductors", self.from.row.words()) },
        }
    }
}
