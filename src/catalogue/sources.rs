//! Every value of the catalogue with where it comes from, for listing and for the tests that walk them.

use super::chemistry::Chemistry;
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
    pub fn values<'a>(&'a self) -> Vec<Listed<'a>> {
        let mut all = Vec::new();
        let mut add = |row: String, values: Vec<Value<'a>>| {
            all.extend(values.into_iter().map(|value| Listed { row: row.clone(), value }));
        };
        for chemistry in &self.chemistries {
            chemistry.parts().into_iter().for_each(|(part, values)| add(format!("{}.{part}", chemistry.key), values));
        }
        self.conductors.iter().for_each(|c| add(c.label.clone(), c.values()));
        self.insulations.iter().for_each(|i| add(i.key.clone(), i.values()));
        let table = &self.ampacity;
        add("ampacity".into(), table.values());
        add("ampacity.engine_space".into(), table.engine_space.values());
        table.bundle.iter().for_each(|b| add(format!("ampacity.bundle.{}", b.from_n), b.values()));
        self.trade_labels.iter().for_each(|l| add(l.label.clone(), l.values()));
        for style in &self.fuse_styles {
            add(style.key.clone(), style.values());
            style.breaking.iter().for_each(|b| add(format!("{}.breaking.{}", style.key, b.at.get()), b.values()));
        }
        self.places.iter().for_each(|p| add(p.key.clone(), p.values()));
        self.look_ups.iter().for_each(|l| add(format!("look-up.{}", l.key), l.values()));
        self.loads.iter().for_each(|l| add(l.name.clone(), l.values()));
        add("devices.chargers".into(), self.devices.chargers.values());
        add("devices.mains_chargers".into(), self.devices.mains_chargers.values());
        add("devices.cut_offs".into(), self.devices.cut_offs.values());
        self.studs.iter().for_each(|s| add(s.key.clone(), s.values()));
        self.stud_classes.iter().for_each(|c| add(c.key.clone(), c.values()));
        self.shocks.iter().for_each(|s| add(s.key.clone(), s.values()));
        let shop = &self.workshop;
        shop.colours.iter().for_each(|c| add(format!("workshop.colour.{}", c.conductor), c.values()));
        shop.lugs.iter().for_each(|l| add(format!("workshop.lug.{}", l.up_to.get()), l.values()));
        shop.posts.iter().for_each(|p| add(format!("workshop.post.{}", p.point), p.values()));
        shop.pins.iter().for_each(|p| add(format!("workshop.pin.{}", p.word), p.values()));
        shop.sleeves.iter().for_each(|s| add(format!("workshop.sleeve.{}", s.expanded.get()), s.values()));
        shop.sales.iter().for_each(|s| add(format!("workshop.sale.{}", s.what), s.values()));
        self.rules.drop_class.iter().for_each(|d| add(format!("rules.drop_class.{}", d.key), d.values()));
        self.rules.placement.iter().for_each(|p| add(format!("rules.placement.{}", p.key), p.values()));
        add("rules".into(), self.rules.numbers().into_iter().map(|n| n.value).collect());
        all
    }
}

impl Chemistry {
    /// The values of each part under its name in the file.
    fn parts(&self) -> [(&'static str, Vec<Value<'_>>); 9] {
        [
            ("resting", self.resting.values()),
            ("resistance", self.resistance.values()),
            ("rate", self.rate.values()),
            ("cold", self.cold.values()),
            ("life", self.life.values()),
            ("charge", self.charge.values()),
            ("limits", self.limits.values()),
            ("blocks", self.blocks.values()),
            ("low", self.low.values()),
        ]
    }
}
