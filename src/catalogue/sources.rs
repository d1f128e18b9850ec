//! Every number of the catalogue with where it comes from, for listing and for the tests that walk them.

use super::chemistry::Chemistry;
use super::provenance::Provenance;
use super::rows::Rows;

impl Rows {
    /// Each row (`chemistry agm, rate`, `conductor 6 mm²`, …) with its source, in the order of the catalogue.
    pub fn sources(&self) -> Vec<(String, &Provenance)> {
        let mut all: Vec<(String, &Provenance)> = self.chemistries.iter().flat_map(Chemistry::sources).collect();
        all.extend(self.conductors.iter().map(|c| (format!("conductor {}", c.label), &c.from)));
        all.extend(self.insulations.iter().map(|i| (format!("insulation {}", i.key), &i.from)));
        all.push(("ampacity table".into(), &self.ampacity.from));
        all.push(("ampacity in engine spaces".into(), &self.ampacity.engine_space.from));
        all.extend(self.ampacity.bundle.iter().map(|b| (format!("bundle from {}", b.from_n), &b.from)));
        all.extend(self.trade_labels.iter().map(|l| (format!("label {}", l.label), &l.from)));
        for style in &self.fuse_styles {
            all.push((format!("fuse style {}", style.key), &style.from));
            let breaking = style.breaking.iter();
            all.extend(breaking.map(|b| (format!("fuse style {}, breaking capacity at {}", style.key, b.at), &b.from)));
            all.extend(style.gates_from.iter().map(|from| (format!("fuse style {}, gates", style.key), from)));
        }
        all.extend(self.places.iter().map(|p| (format!("place {}", p.key), &p.from)));
        all.extend(self.loads.iter().map(|l| (format!("load {}", l.name), &l.from)));
        let devices = &self.devices;
        all.push(("charger sizes".into(), &devices.chargers.from));
        all.push(("mains charger sizes".into(), &devices.mains_chargers.from));
        all.push(("cut-off sizes".into(), &devices.cut_offs.from));
        let shop = &self.workshop;
        all.extend(shop.colours.iter().map(|c| (format!("colour {}", c.conductor), &c.from)));
        all.extend(shop.lugs.iter().map(|l| (format!("lug up to {}", l.up_to), &l.from)));
        all.extend(shop.posts.iter().map(|p| (format!("post {}", p.point), &p.from)));
        all.extend(shop.pins.iter().map(|p| (format!("pins at a {}", p.word), &p.from)));
        all.extend(shop.sleeves.iter().map(|s| (format!("sleeve {}", s.expanded), &s.from)));
        all.extend(shop.sales.iter().map(|s| (format!("sale {}", s.what), &s.from)));
        let rules = &self.rules;
        all.extend(rules.drop_class.iter().map(|d| (format!("drop class {}", d.key), &d.from)));
        all.extend(rules.placement.iter().map(|p| (format!("fuse placement {}", p.key), &p.from)));
        all.extend(rules.numbers().into_iter().map(|n| (format!("number {}", n.key), n.from)));
        all
    }
}

impl Chemistry {
    fn sources(&self) -> Vec<(String, &Provenance)> {
        let parts = [
            ("resting voltage", &self.resting.from),
            ("resistance", &self.resistance.from),
            ("rate", &self.rate.from),
            ("cold", &self.cold.from),
            ("life", &self.life.from),
            ("charge", &self.charge.from),
            ("limits", &self.limits.from),
            ("blocks", &self.blocks.from),
            ("low end", &self.low.from),
        ];
        parts.map(|(part, from)| (format!("chemistry {}, {part}", self.key), from)).into()
    }
}
