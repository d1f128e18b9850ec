//! What rules, typical loads and device sizes must satisfy.

use super::Faults;
use crate::catalogue::read::Row;
use crate::catalogue::*;

impl Row for DropClass {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.within("limit", self.limit, 0.001, 0.5);
        f.source("", &self.from);
    }
}

impl Row for Placement {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.within("bare_m", self.bare, 0.0, 5.0);
        f.within("enclosed_m", self.enclosed, self.bare.get(), 20.0);
        f.source("", &self.from);
    }
}

/// Ranges of the named numbers, in the unit of [`NUMBER_KEYS`].
const NUMBER_RANGES: &[(&str, f64, f64)] = &[
    ("fuse-loading", 0.3, 1.0),
    ("fuse-air-c", 0.0, 60.0),
    ("fault-open-s", 0.01, 60.0),
    ("joint-mohm", 0.0, 20.0),
    ("joint-whole-mm2", 0.5, 500.0),
    ("joint-least-mohm", 0.0, 20.0),
    ("switch-mohm", 0.0, 50.0),
    ("smallest-mm2", 0.1, 10.0),
    ("alternator-idle-share", 0.0, 1.0),
    ("alternator-road-share", 0.1, 1.0),
    ("charger-input-low-v", 8.0, 14.0),
    ("variable-alternator-low-v", 10.0, 14.5),
    ("charge-below-v", 0.0, 1.5),
    ("solar-derating-mppt", 0.1, 1.0),
    ("solar-derating-shunt", 0.1, 1.0),
    ("overcharge-factor", 1.0, 2.0),
    ("ampacity-fuse-share", 0.3, 1.5),
    ("selectivity-ratio", 1.0, 10.0),
    ("start-pulse-share", 0.05, 1.0),
    ("limited-source-times", 1.0, 3.0),
    ("nut-factor", 0.05, 0.5),
    ("torque-scatter", 0.0, 0.6),
    ("preload-share", 0.1, 0.95),
    ("joint-share", 0.0, 1.0),
    ("slip-friction", 0.05, 0.8),
    ("bolt-partial-factor", 1.0, 3.0),
    ("steel-density-kg-m3", 1000.0, 12_000.0),
    ("strip-yield-mpa", 50.0, 1500.0),
    ("lift-one-kg", 5.0, 60.0),
    ("lift-two-kg", 10.0, 120.0),
    ("play-mm", 0.0, 100.0),
    ("copper-below", 0.0, 0.3),
    ("copper-above", 0.0, 0.3),
    ("link-scatter", 0.0, 2.0),
    ("joint-scatter", 0.0, 5.0),
    ("source-scatter", 0.0, 2.0),
    ("load-scatter", 0.0, 1.0),
    ("meter-reading", 0.0, 0.1),
    ("meter-step-v", 0.0001, 0.1),
    ("meter-digits", 0.0, 20.0),
    ("clamp-reading", 0.0, 0.2),
    ("clamp-zero-a", 0.0, 5.0),
    ("test-spread-k", 0.0, 60.0),
    ("joint-heat-w", 0.1, 100.0),
    ("joint-k-per-w", 0.1, 500.0),
    ("inverter-surge", 1.0, 10.0),
    ("cut-slack-share", 0.0, 1.0),
    ("cut-slack-end-m", 0.0, 2.0),
    ("cut-step-m", 0.001, 5.0),
    ("earth-lead-m", 0.05, 10.0),
    ("sleeve-length-mm", 5.0, 500.0),
    ("sleeve-over", 1.0, 3.0),
    ("spare-fuses", 0.0, 20.0),
    ("large-lug-mm2", 1.0, 1000.0),
    ("enable-wire-mm2", 0.2, 6.0),
    ("enable-fuse-a", 0.5, 10.0),
];

impl Row for NumberRule {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        match NUMBER_RANGES.iter().find(|(key, ..)| *key == self.key) {
            Some((_, low, high)) => f.number("value", self.value, *low, *high),
            None => {
                let keys = NUMBER_KEYS.join(", ");
                f.add("key", format!("is no number the program asks for; they are {keys}"));
            }
        }
        f.text("about", &self.about);
        f.source("", &self.from);
    }
}

const KINDS: [&str; 3] = ["constant-power", "constant-current", "resistance"];

impl Row for TypicalLoad {
    const KEY: &'static str = "name";

    fn key(&self) -> String {
        self.name.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("name", &self.name);
        f.text("group", &self.group);
        f.within("power_w", self.power, 0.01, 10_000.0);
        if !KINDS.contains(&self.kind.as_str()) {
            f.add("kind", format!("is “{}”; it must be one of {}", self.kind, KINDS.join(", ")));
        }
        f.share("share_on", self.share_on);
        f.within("hours_a_day", self.hours, 0.0, 24.0);
        f.number("start_times", self.start_times, 1.0, 20.0);
        f.within("start_s", self.start, 0.0, 600.0);
        if let Some(lowest) = self.lowest {
            f.within("lowest_v", lowest, 5.0, 14.0);
        }
        f.source("", &self.from);
    }
}

impl Row for SizeRow {
    const KEY: &'static str = "sizes";

    fn key(&self) -> String {
        String::new()
    }

    fn check(&self, f: &mut Faults) {
        f.ascending("sizes_a", &self.sizes);
        f.source("", &self.from);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_named_number_has_a_range() {
        for key in NUMBER_KEYS {
            assert!(NUMBER_RANGES.iter().any(|(k, ..)| k == key), "{key} has no range");
        }
    }
}
