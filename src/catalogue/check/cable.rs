//! What conductors, insulation, ampacity, places, labels and fuse-links must satisfy.

use crate::catalogue::conductor::*;
use crate::catalogue::faults::Faults;
use crate::catalogue::fuse::FuseStyle;
use crate::catalogue::row::Row;
use crate::quantity::*;

impl Row for Conductor {
    const KEY: &'static str = "label";

    fn key(&self) -> String {
        self.label.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("label", &self.label);
        f.within("area_mm2", self.area, 0.05, 1000.0);
        f.within("ohm_per_km_20c", self.resistance, 0.01, 400.0);
        f.within("outside_mm", self.outside, 0.5, 100.0);
        f.sources("", &self.values());
        let share = self.copper() / self.area;
        if !(0.6..=1.1).contains(&share) && share.is_finite() {
            let copper = self.copper();
            f.add(
                "ohm_per_km_20c",
                format!(
                    "means {copper} of copper for a label of {}; check the unit (ohms per kilometre at 20 °C) and the area",
                    self.area
                ),
            );
        }
        if self.family == Family::Awg && gauge(&self.label).is_none() {
            f.add("label", "is no gauge; write it as `10 AWG` or `2/0 AWG`");
        }
    }
}

fn gauge(label: &str) -> Option<i32> {
    awg_number(label.strip_suffix("AWG")?)
}

impl Row for Insulation {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
        f.within("max_c", self.max, 40.0, 400.0);
        f.within("table_column_c", self.column, 40.0, self.max.get());
        f.number("adiabatic_k", self.adiabatic_k, 20.0, 200.0);
        f.number("conductivity_w_per_mk", self.conductivity_w_per_mk, 0.05, 2.0);
        f.number("emissivity", self.emissivity, 0.1, 1.0);
        f.number("heat_j_per_m3k", self.heat_store.unwrap_or(1e6), 0.5e6, 5e6);
        f.sources("", &self.values());
    }
}

impl Row for AmpacityTable {
    const KEY: &'static str = "ampacity";

    fn key(&self) -> String {
        String::new()
    }

    fn check(&self, f: &mut Faults) {
        f.within("ambient_c", self.ambient, 0.0, 60.0);
        f.ascending("columns_c", &self.columns_c);
        f.need(!self.row.is_empty(), "row", "is empty; give one row a gauge");
        for row in &self.row {
            self.check_row(row, f);
        }
        for (a, b) in self.row.iter().zip(self.row.iter().skip(1)) {
            let (thinner, thicker) = (awg_number(&a.awg), awg_number(&b.awg));
            f.need(thinner > thicker, "row", "must go from the thinnest gauge to the thickest, each once");
            let grows = a.amps.iter().zip(&b.amps).all(|(x, y)| x.get() <= y.get());
            f.need(grows, "row", "must not carry less amps than a thinner row");
        }
        for step in &self.bundle {
            f.need(step.from_n >= 2, "bundle", "must begin at 2 conductors or more");
            f.number("bundle", step.factor, 0.05, 1.0);
            f.sources("bundle", &step.values());
        }
        for (a, b) in self.bundle.iter().zip(self.bundle.iter().skip(1)) {
            f.need(a.from_n < b.from_n, "bundle", "must be by growing from_n, each once");
            f.need(a.factor >= b.factor, "bundle", "must not grow with more conductors");
        }
        let hot = &self.engine_space;
        f.within("engine_space.ambient_c", hot.ambient, self.ambient.get(), 150.0);
        f.need(hot.factors.len() == self.columns_c.len(), "engine_space.factors", "must be one for each column");
        for factor in &hot.factors {
            f.number("engine_space.factors", *factor, 0.0, 1.0);
        }
        f.sources("engine_space", &hot.values());
        f.sources("", &self.values());
    }
}

impl AmpacityTable {
    fn check_row(&self, row: &AmpacityRow, f: &mut Faults) {
        let awg = &row.awg;
        if awg_number(awg).is_none() {
            f.add("row", format!("has no gauge “{awg}”; write 18 to 1, 1/0 to 4/0"));
        }
        if row.amps.len() != self.columns_c.len() {
            let (n, columns) = (row.amps.len(), self.columns_c.len());
            f.add("row", format!("{awg} has {n} amps for {columns} columns; give one for each"));
        }
        let rising = row.amps.iter().zip(row.amps.iter().skip(1)).all(|(a, b)| a.get() <= b.get());
        if !rising || row.amps.iter().any(|a| a.get() <= 0.0) {
            f.add("row", format!("{awg} must carry more than zero and not less in a hotter column"));
        }
    }
}

impl Row for CablePlace {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
        f.within("warmer_k", self.warmer, 0.0, 100.0);
        f.number("cooling", self.cooling, 0.05, 1.0);
        f.sources("", &self.values());
    }
}

impl Row for TradeLabel {
    const KEY: &'static str = "label";

    fn key(&self) -> String {
        self.label.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("label", &self.label);
        f.text("trap", &self.trap);
        f.within("copper_mm2", self.copper, 0.05, 1000.0);
        f.sources("", &self.values());
    }
}

impl Row for FuseStyle {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
        f.ascending("ratings_a", &self.ratings);
        f.within("rated_v", self.rated, 12.0, 1500.0);
        f.need(!self.breaking.is_empty(), "breaking", "is empty; a fuse of unknown breaking capacity cannot be chosen");
        for b in &self.breaking {
            f.within("breaking", b.at, 1.0, 1500.0);
            f.within("breaking", b.amps, 10.0, 500_000.0);
            f.sources("breaking", &b.values());
        }
        let covered = self.breaking.iter().any(|b| b.at.get() >= self.rated.get());
        f.need(covered, "breaking", "must have a row at rated_v or above");
        self.check_gates(f);
        f.number("lost_per_k", self.lost_per_k, 0.0, 0.02);
        f.within("drop_at_rating_v", self.drop_at_rating, 0.0, 1.0);
        f.sources("", &self.values());
    }
}

impl FuseStyle {
    fn check_gates(&self, f: &mut Faults) {
        for gate in &self.gates {
            f.number("gates", gate.of_rating, 0.5, 100.0);
            f.within("gates", gate.min, 0.0, 1e7);
            if let Some(max) = gate.max {
                f.need(max.get() > gate.min.get(), "gates", "must have max_s above min_s");
            }
        }
        for (a, b) in self.gates.iter().zip(self.gates.iter().skip(1)) {
            f.need(a.of_rating < b.of_rating, "gates", "must be by growing of_rating, each once");
            f.need(a.min.get() >= b.min.get(), "gates", "must not open later at more current (min_s)");
            if let (Some(x), Some(y)) = (a.max, b.max) {
                f.need(x.get() >= y.get(), "gates", "must not open later at more current (max_s)");
            }
        }
    }
}
