//! Fuse-link styles: ratings, breaking capacity, operating-time gates, re-rating, cold resistance.

use super::faults::Faults;
use super::row::{Part, row};
use super::sourced::{Show, Shown};
use crate::quantity::*;
use itertools::Itertools;
use serde::Deserialize;

row! {
    /// One style of fuse-link.
    FuseStyle, FuseStyleFrom by key {
        /// Key in plan files, e.g. `blade-c`, `strip-30`, `bolt`, `cartridge-t`.
        key: String => text,
        /// Name as shown.
        name: String => text,
        /// Largest fault current it can clear, by voltage.
        breaking: Vec<Breaking>,
        /// Whether it sits on the stud of its source, with no lead before it.
        #[serde(default)]
        on_the_stud: bool,
        /// How a breaker is closed again; absent for links, which are renewed.
        reset: Option<Reset>,
        /// A breaker marked with a polarity, which must not stand where current runs both ways.
        #[serde(default)]
        polarised: bool,
        /// Chosen only where the plan, its board or its list of styles at hand names it.
        #[serde(default)]
        only_asked: bool,
        /// Preference when several styles fit: the lowest order is chosen.
        order: u32,
    }
    values {
        /// Standard ratings, ascending.
        ratings: Vec<Amps> = "ratings_a" => ascending,
        /// Highest circuit voltage.
        rated: Volts = "rated_v" => within(12.0, 1500.0),
        /// Operating-time gates, by growing percent. Empty where none is known.
        #[serde(default)]
        gates: Vec<Gate> = "gates",
        /// Share of the rating lost per kelvin above 25 °C.
        lost_per_k: f64 = "lost_per_k" in "per K" => within(0.0, 0.02),
        /// Voltage drop over link and holder at the rated current.
        drop_at_rating: Volts = "drop_at_rating_v" => within(0.0, 1.0),
        /// Resistance of the link alone, cold, at the least, times its rating: for the largest fault current. Not
        /// counted where it is left out.
        #[serde(default)]
        cold: Volts = "cold_v" => within(0.0, 1.0),
        /// Stud size of bolted styles, e.g. `M8`.
        stud: Option<String> = "stud",
    }
    and check_parts
    holds "breaking" of Breaking
}

row! {
    /// One breaking capacity.
    Breaking, BreakingFrom {
        /// Up to this voltage.
        at: Volts = "at_v" => within(1.0, 1500.0),
    }
    values {
        /// It clears this much.
        amps: Amps = "amps" => within(10.0, 500_000.0),
    }
}

/// At this multiple of its rating the link opens not before `min` and not after `max`.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gate {
    /// Multiple of the rating as a share: 1.35 is 135 %.
    pub of_rating: f64,
    /// Not before; zero where the standard sets none.
    #[serde(rename = "min_s")]
    pub min: Seconds,
    /// Not after; absent where the standard sets no limit.
    #[serde(rename = "max_s", default)]
    pub max: Option<Seconds>,
}

/// How a breaker is closed again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reset {
    /// By hand, and it opens even if the handle is held.
    Manual,
    /// By itself, again and again, while the fault stands (SAE J553 type 1).
    Automatic,
    /// By itself once the supply has been off (SAE J553 type 2).
    Modified,
}

impl Show for Vec<Gate> {
    fn shown(&self, _unit: &'static str) -> Option<Shown> {
        let gate = |g: &Gate| {
            let max = g.max.map_or(String::new(), |max| format!(" to {max}"));
            format!("{}: {}{max}", Share::new(g.of_rating), g.min)
        };
        (!self.is_empty()).then(|| Shown::Words(self.iter().map(gate).collect::<Vec<_>>().join(", ")))
    }
}

impl FuseStyle {
    fn check_parts(&self, faults: &mut Faults) {
        let none = "is empty; a fuse of unknown breaking capacity cannot be chosen";
        faults.need(!self.breaking.is_empty(), "breaking", none);
        for breaking in &self.breaking {
            faults.part("breaking", |own| breaking.check(own));
        }
        faults.need(self.breaking_at(self.rated).is_some(), "breaking", "must have a row at rated_v or above");
        self.check_gates(faults);
    }

    fn check_gates(&self, faults: &mut Faults) {
        for gate in &self.gates {
            faults.within("gates", &gate.of_rating, 0.5, 100.0);
            faults.within("gates", &gate.min, 0.0, 1e7);
            if let Some(max) = gate.max {
                faults.need(max.get() > gate.min.get(), "gates", "must have max_s above min_s");
            }
        }
        for (a, b) in self.gates.iter().tuple_windows() {
            faults.need(a.of_rating < b.of_rating, "gates", "must be by growing of_rating, each once");
            faults.need(a.min.get() >= b.min.get(), "gates", "must not open later at more current (min_s)");
            if let (Some(x), Some(y)) = (a.max, b.max) {
                faults.need(x.get() >= y.get(), "gates", "must not open later at more current (max_s)");
            }
        }
    }

    /// Where its operating times come from, in words.
    pub fn gates_words(&self) -> String {
        if self.gates.is_empty() { "none known".into() } else { self.from.gates.words() }
    }

    /// Breaking capacity at a circuit voltage: the row with the lowest voltage
    /// not under it. `None` when the style is not rated for that voltage.
    pub fn breaking_at(&self, circuit: Volts) -> Option<&Breaking> {
        self.breaking.iter().filter(|b| b.at.get() >= circuit.get()).min_by(|a, b| a.at.get().total_cmp(&b.at.get()))
    }

    /// Resistance of link and holder of a rating, warm: R = drop at rating / rating.
    pub fn warm_resistance(&self, rating: Amps) -> Ohms {
        if rating.get() > 0.0 { self.drop_at_rating / rating } else { Ohms::ZERO }
    }

    /// Least resistance of the link of a rating, cold, its holder left out.
    pub fn least_resistance(&self, rating: Amps) -> Ohms {
        if rating.get() > 0.0 { self.cold / rating } else { Ohms::ZERO }
    }
}
