//! Every value of the catalogue with where it comes from, for listing and for the tests that walk them.

use super::row::{Part, Row};
use super::rows::Rows;
use super::sourced::Value;

/// A value under the name of its row: `agm.charge` and `max_v`.
#[derive(Clone, Debug)]
pub struct Listed<'a> {
    /// The row: `agm.charge`, `6 mm²`, `blade-c`, `rules`.
    pub row: String,
    /// The value within it.
    pub value: Value<'a>,
}

impl Listed<'_> {
    /// Row and value in one: `agm.charge.max_v`.
    pub fn path(&self) -> String {
        format!("{}.{}", self.row, self.value.key)
    }

    /// Whether a key asks for it: its path, that without unit, or the row or a part of it.
    fn answers(&self, key: &str) -> bool {
        let within = |path: &str| path.strip_prefix(key).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
        within(&self.path()) || format!("{}.{}", self.row, self.value.field) == key
    }
}

impl Rows {
    /// The values that a key asks for: `agm`, `agm.charge`, `agm.charge.max_v`, `agm.charge.max`.
    pub fn explain(&self, key: &str) -> Vec<Listed<'_>> {
        self.values().into_iter().filter(|v| v.answers(key)).collect()
    }

    /// Every value, in the order of the catalogue.
    pub fn values(&self) -> Vec<Listed<'_>> {
        let mut all = Listing::default();
        for chemistry in &self.chemistries {
            for (name, part) in chemistry.parts() {
                all.add(format!("{}.{name}", chemistry.key), part);
            }
        }
        all.rows("", &self.conductors);
        all.rows("", &self.insulations);
        let table = &self.ampacity;
        all.add("ampacity".into(), table);
        all.add("ampacity.engine_space".into(), &table.engine_space);
        for step in &table.bundle {
            all.add(format!("ampacity.bundle.{}", step.from_n), step);
        }
        all.rows("", &self.trade_labels);
        for style in &self.fuse_styles {
            all.add(style.key.clone(), style);
            for breaking in &style.breaking {
                all.add(format!("{}.breaking.{}", style.key, breaking.at.get()), breaking);
            }
        }
        all.rows("", &self.places);
        all.rows("look-up.", &self.look_ups);
        all.rows("", &self.loads);
        all.add("devices.chargers".into(), &self.devices.chargers);
        all.add("devices.mains_chargers".into(), &self.devices.mains_chargers);
        all.add("devices.cut_offs".into(), &self.devices.cut_offs);
        all.rows("charger.", &self.chargers);
        all.rows("", &self.studs);
        all.rows("", &self.stud_classes);
        all.rows("", &self.shocks);
        all.rows("stock.", &self.stocks);
        all.rows("angle.", &self.angles);
        all.rows("workshop.colour.", &self.workshop.colours);
        all.rows("workshop.lug.", &self.workshop.lugs);
        all.rows("workshop.post.", &self.workshop.posts);
        all.rows("workshop.pin.", &self.workshop.pins);
        all.rows("workshop.plug.", &self.workshop.plugs);
        all.rows("workshop.pull.", &self.workshop.pulls);
        all.rows("workshop.sleeve.", &self.workshop.sleeves);
        all.rows("workshop.sale.", &self.workshop.sales);
        all.rows("price.", &self.prices);
        all.rows("rules.drop_class.", &self.rules.drop_class);
        all.rows("rules.placement.", &self.rules.placement);
        all.0.extend(self.rules.numbers().into_iter().map(|n| Listed { row: "rules".into(), value: n.value }));
        all.0
    }
}

#[derive(Default)]
struct Listing<'a>(Vec<Listed<'a>>);

impl<'a> Listing<'a> {
    fn add(&mut self, row: String, part: &'a dyn Part) {
        self.0.extend(part.values().into_iter().map(|value| Listed { row: row.clone(), value }));
    }

    /// Rows under a name that ends in their key.
    fn rows<T: Row>(&mut self, prefix: &str, rows: &'a [T]) {
        for row in rows {
            self.add(format!("{prefix}{}", row.key()), row);
        }
    }
}
