//! What does the user pay where they buy? Prices of their own for every plan, from `prices.toml` in a folder of theirs.
//!
//! The rows are those of a plan's `[[price]]`, which count before them. None is built in.

use super::faults::Faults;
use super::provenance::{How, Provenance};
use super::row::{Part, Row};
use super::sourced::{Show, Value};
use crate::quantity::Money;
use serde::Deserialize;
use toml::Spanned;

/// What a battery of 100 Ah of a chemistry costs, or a part as it is sold.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnPrice {
    pub(super) chemistry: Option<Spanned<String>>,
    pub(super) part: Option<Spanned<String>>,
    /// Of a battery of 100 Ah.
    pub per_100ah: Option<Money>,
    /// Of one as it is sold.
    pub each: Option<Money>,
    #[serde(skip, default = "entered")]
    from: Provenance,
}

fn entered() -> Provenance {
    Provenance { how: How::User, whole_row: true, ..Provenance::default() }
}

impl OwnPrice {
    /// The chemistry whose battery is priced.
    pub fn chemistry(&self) -> Option<&str> {
        self.chemistry.as_ref().map(|c| c.get_ref().as_str())
    }

    /// Words of the parts list that name a part.
    pub fn part(&self) -> Option<&str> {
        self.part.as_ref().map(|p| p.get_ref().as_str())
    }
}

impl Part for OwnPrice {
    fn values(&self) -> Vec<Value<'_>> {
        let value = |key, price: Option<Money>| {
            price.and_then(|p| Some(Value { key, field: key, shown: p.shown("")?, from: &self.from }))
        };
        [value("per_100ah", self.per_100ah), value("each", self.each)].into_iter().flatten().collect()
    }

    fn check(&self, faults: &mut Faults) {
        faults.within("per_100ah", &self.per_100ah, 0.0, 1e6);
        faults.within("each", &self.each, 0.0, 1e6);
        if let Some(part) = self.part() {
            faults.need(line_words(part).next().is_some(), "part", "is empty; write words of a line of the parts list");
        }
        let pairs = [
            ("chemistry", self.chemistry.is_some(), "per_100ah", self.per_100ah.is_some()),
            ("part", self.part.is_some(), "each", self.each.is_some()),
        ];
        for (what, named, price, priced) in pairs {
            faults.need(!named || priced, what, &format!("is given without its price, `{price}`"));
            faults.need(!priced || named, price, &format!("is given without its `{what}`"));
        }
        faults.need(
            pairs.iter().any(|p| p.1 || p.3),
            "",
            "a price needs `chemistry` and `per_100ah`, or `part` and `each`",
        );
    }
}

impl Row for OwnPrice {
    const KEY: &'static str = "chemistry or part";
    const KEYS: &'static [&'static str] = &["chemistry", "part", "per_100ah", "each"];

    fn key(&self) -> String {
        let part = self.part().map(|p| line_words(p).collect::<Vec<_>>().join(" "));
        [self.chemistry().map(str::to_string), part].into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// The words of a line of the parts list, or of what names one; small, without the signs between.
pub fn line_words(text: &str) -> impl Iterator<Item = String> + '_ {
    let ends = |c: char| c.is_whitespace() || ",;:()".contains(c);
    text.split(ends).filter(|word| !word.is_empty()).map(str::to_lowercase)
}
