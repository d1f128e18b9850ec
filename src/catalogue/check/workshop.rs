//! What the rows about cutting and buying must satisfy.

use crate::catalogue::faults::Faults;
use crate::catalogue::row::Row;
use crate::catalogue::workshop::*;

impl Row for ConductorColour {
    const KEY: &'static str = "conductor";

    fn key(&self) -> String {
        self.conductor.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.need(matches!(self.conductor.as_str(), "positive" | "negative"), "conductor", "must be positive or negative");
        f.text("colour", &self.colour);
        f.sources("", &self.values());
    }
}

impl Row for LugStud {
    const KEY: &'static str = "up_to_mm2";

    fn key(&self) -> String {
        self.up_to.get().to_string()
    }

    fn check(&self, f: &mut Faults) {
        f.within("up_to_mm2", self.up_to, 0.1, 1000.0);
        f.text("stud", &self.stud);
        f.sources("", &self.values());
    }
}

impl Row for PostStud {
    const KEY: &'static str = "point";

    fn key(&self) -> String {
        self.point.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("point", &self.point);
        f.text("stud", &self.stud);
        f.sources("", &self.values());
    }
}

impl Row for PinWord {
    const KEY: &'static str = "word";

    fn key(&self) -> String {
        self.word.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("word", &self.word);
        f.sources("", &self.values());
    }
}

impl Row for Sleeve {
    const KEY: &'static str = "expanded_mm";

    fn key(&self) -> String {
        self.expanded.get().to_string()
    }

    fn check(&self, f: &mut Faults) {
        f.within("expanded_mm", self.expanded, 1.0, 200.0);
        f.within("shrunk_mm", self.shrunk, 0.1, self.expanded.get());
        f.sources("", &self.values());
    }
}

impl Row for Sale {
    const KEY: &'static str = "what";

    fn key(&self) -> String {
        self.what.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("what", &self.what);
        f.number("pack", self.pack, 0.01, 10_000.0);
        f.need(matches!(self.unit.as_str(), "m" | "piece"), "unit", "must be m or piece");
        f.sources("", &self.values());
    }
}
