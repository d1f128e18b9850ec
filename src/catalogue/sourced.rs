//! How does each value of a row carry a source of its own?
//!
//! `row!` declares a row of a profile: fields without a source (keys, names)
//! and values with one. Beside every value `charge.max` stands its source,
//! `charge.from.max`. In the file one `how` and `source` speak for the whole
//! row, and each entry of `sources` for the values that it names:
//!
//! ```toml
//! float_v = 13.6
//! max_v = 14.8
//! how = "memory"
//! sources = [{ of = ["float_v"], how = "opened", source = "…" }]
//! ```

use super::curve::Curve;
use super::provenance::{How, Provenance};
use crate::quantity::{Figure, Quantity, UnitSystem};
use serde::Deserialize;
use serde::de::Error;
use std::fmt;

/// A value of a row as it is listed.
#[derive(Clone, Debug)]
pub struct Value<'a> {
    /// Its name in the file, with its unit: `max_v`.
    pub key: &'static str,
    /// Its name without unit: `max`.
    pub field: &'static str,
    /// The value itself.
    pub shown: Shown,
    #[allow(missing_docs)]
    pub from: &'a Provenance,
}

/// What a value is, for people and for other programs.
#[derive(Clone, Debug, PartialEq)]
pub enum Shown {
    /// A number; units that only the catalogue has follow as text.
    One(Figure, &'static str),
    /// A list of sizes.
    List(Vec<Figure>),
    /// A curve, point by point.
    Pairs(Vec<(Figure, Figure)>),
    /// Words, or a small table in words.
    Words(String),
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let exact = |figure: &Figure| figure.exact(UnitSystem::Metric);
        match self {
            Shown::One(figure, "") => f.write_str(&exact(figure)),
            Shown::One(figure, unit) => write!(f, "{} {unit}", exact(figure)),
            Shown::List(all) => f.write_str(&all.iter().map(exact).collect::<Vec<_>>().join(", ")),
            Shown::Pairs(all) => {
                let pair = |(x, y): &(Figure, Figure)| format!("{}: {}", exact(x), exact(y));
                f.write_str(&all.iter().map(pair).collect::<Vec<_>>().join(", "))
            }
            Shown::Words(words) => f.write_str(words),
        }
    }
}

/// What a type of value shows; `None` where the row leaves it out.
pub(super) trait Show {
    /// `unit` is for bare numbers whose unit no type carries.
    fn shown(&self, unit: &'static str) -> Option<Shown>;
}

impl<Q: Quantity> Show for Q {
    fn shown(&self, unit: &'static str) -> Option<Shown> {
        Some(Shown::One(figure(*self), unit))
    }
}

impl<T: Show> Show for Option<T> {
    fn shown(&self, unit: &'static str) -> Option<Shown> {
        self.as_ref()?.shown(unit)
    }
}

impl<Q: Quantity> Show for Vec<Q> {
    fn shown(&self, _unit: &'static str) -> Option<Shown> {
        Some(Shown::List(self.iter().map(|q| figure(*q)).collect()))
    }
}

impl<X: Quantity, Y: Quantity> Show for Curve<X, Y> {
    fn shown(&self, _unit: &'static str) -> Option<Shown> {
        Some(Shown::Pairs(self.points().iter().map(|(x, y)| (figure(*x), figure(*y))).collect()))
    }
}

impl Show for u32 {
    fn shown(&self, unit: &'static str) -> Option<Shown> {
        Some(Shown::One(Figure::number(f64::from(*self)), unit))
    }
}

impl Show for String {
    fn shown(&self, _unit: &'static str) -> Option<Shown> {
        Some(Shown::Words(self.clone()))
    }
}

fn figure<Q: Quantity>(q: Q) -> Figure {
    Figure::new(q.number(), Q::UNIT)
}

/// The keys by which a row states its sources: those of [`Stated`].
pub(super) const SOURCE_KEYS: [&str; 5] = ["how", "source", "note", "sources", "gates_from"];

/// The sources of a row as its file states them.
#[derive(Deserialize)]
pub(super) struct Stated {
    how: Option<How>,
    #[serde(default)]
    source: String,
    note: Option<String>,
    #[serde(default)]
    sources: Vec<Named>,
    /// Where the operating times of a fuse come from, as profiles said it before each value had its source.
    gates_from: Option<Provenance>,
}

/// The source of the values that it names.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Named {
    of: Vec<String>,
    #[serde(flatten)]
    from: Provenance,
}

impl Stated {
    /// Each name is a value of the row, and no value is named twice.
    pub fn names<E: Error>(&self, keys: &[&str]) -> Result<(), E> {
        if self.gates_from.is_some() && !keys.contains(&"gates") {
            return Err(E::unknown_field("gates_from", &[]));
        }
        let mut seen: Vec<&str> = Vec::new();
        for name in self.sources.iter().flat_map(|s| &s.of) {
            if !keys.contains(&name.as_str()) {
                let keys = keys.join(", ");
                return Err(E::custom(format!("`sources` names `{name}`, which is no value here; they are {keys}")));
            }
            if seen.contains(&name.as_str()) {
                return Err(E::custom(format!("`sources` names `{name}` twice; give each value one source")));
            }
            seen.push(name);
        }
        Ok(())
    }

    /// Source of the value with this key: its own, else that of the row.
    pub fn of<E: Error>(&self, key: &str) -> Result<Provenance, E> {
        if let Some(named) = self.sources.iter().find(|s| s.of.iter().any(|name| name == key)) {
            return Ok(named.from.clone());
        }
        if let Some(from) = self.gates_from.as_ref().filter(|_| key == "gates") {
            return Ok(from.clone());
        }
        let how = self.how.ok_or_else(|| {
            E::custom(
                "missing field `how`; say where it comes from: how = \"opened\" with a source, \"memory\", \
                 \"practice\" or \"user\"",
            )
        })?;
        Ok(Provenance { how, source: self.source.clone(), note: self.note.clone(), whole_row: true })
    }
}
