//! Fuse-link styles: ratings, breaking capacity, operating-time gates, re-rating, cold resistance.

use super::provenance::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// One style of fuse-link.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FuseStyle {
    /// Key in plan files, e.g. `blade-c`, `strip-30`, `bolt`, `cartridge-t`.
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Standard ratings, ascending.
    #[serde(rename = "ratings_a")]
    pub ratings: Vec<Amps>,
    /// Highest circuit voltage.
    #[serde(rename = "rated_v")]
    pub rated: Volts,
    /// Largest fault current it can clear, by voltage.
    pub breaking: Vec<Breaking>,
    /// Operating-time gates, by growing percent. Empty where none is known.
    #[serde(default)]
    pub gates: Vec<Gate>,
    /// Where the gates come from.
    #[serde(default)]
    pub gates_from: Option<Provenance>,
    /// Share of the rating lost per kelvin above 25 °C.
    pub lost_per_k: f64,
    /// Voltage drop over link and holder at the rated current.
    #[serde(rename = "drop_at_rating_v")]
    pub drop_at_rating: Volts,
    /// Stud size of bolted styles, e.g. `M8`.
    #[serde(default)]
    pub stud: Option<String>,
    /// Whether it sits on the stud of its source, with no lead before it.
    #[serde(default)]
    pub on_the_stud: bool,
    /// Preference when several styles fit: the lowest order is chosen.
    pub order: u32,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// One breaking capacity.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Breaking {
    /// Up to this voltage.
    #[serde(rename = "at_v")]
    pub at: Volts,
    /// It clears this much.
    #[serde(rename = "amps")]
    pub amps: Amps,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
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

impl FuseStyle {
    /// Breaking capacity at a circuit voltage: the row with the lowest voltage
    /// not under it. `None` when the style is not rated for that voltage.
    pub fn breaking_at(&self, circuit: Volts) -> Option<&Breaking> {
        self.breaking.iter().filter(|b| b.at.get() >= circuit.get()).min_by(|a, b| a.at.get().total_cmp(&b.at.get()))
    }

    /// Resistance of link and holder of a rating, cold: R = drop at rating / rating.
    pub fn cold_resistance(&self, rating: Amps) -> Ohms {
        if rating.get() > 0.0 { self.drop_at_rating / rating } else { Ohms::ZERO }
    }
}
