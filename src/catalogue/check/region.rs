//! What the rows about regions must satisfy.

use crate::catalogue::faults::Faults;
use crate::catalogue::region::{LookUp, Region};
use crate::catalogue::row::Row;

impl Row for Region {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
    }
}

impl Row for LookUp {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("document", &self.document);
        f.text("edition", &self.edition);
        f.text("asks", &self.asks);
        f.sources("", &self.values());
    }
}
