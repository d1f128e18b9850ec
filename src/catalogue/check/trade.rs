//! What rules, typical loads and device sizes must satisfy.

use crate::catalogue::devices::{SizeRow, TypicalLoad};
use crate::catalogue::faults::Faults;
use crate::catalogue::row::Row;
use crate::catalogue::rules::{DropClass, NUMBERS, NumberRow, Placement, RETIRED};

impl Row for DropClass {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.within("limit", self.limit, 0.001, 0.5);
        f.sources("", &self.values());
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
        f.sources("", &self.values());
    }
}

impl Row for NumberRow {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        match NUMBERS.iter().find(|n| n.key == self.key) {
            Some(known) => f.number("value", self.value, known.low, known.high),
            None if RETIRED.contains(&self.key.as_str()) => {}
            None => {
                let keys: Vec<&str> = NUMBERS.iter().map(|n| n.key).collect();
                f.add("key", format!("is no number the program asks for; they are {}", keys.join(", ")));
            }
        }
        f.text("about", &self.about);
        if self.from.is_nameless() {
            f.nameless("how");
        }
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
        f.sources("", &self.values());
    }
}

impl Row for SizeRow {
    const KEY: &'static str = "sizes";

    fn key(&self) -> String {
        String::new()
    }

    fn check(&self, f: &mut Faults) {
        f.ascending("sizes_a", &self.sizes);
        f.sources("", &self.values());
    }
}
