//! What studs, property classes and shocks must satisfy.

use crate::catalogue::carrier::*;
use crate::catalogue::faults::Faults;
use crate::catalogue::row::Row;

impl Row for StudSize {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        let d = self.diameter.get();
        f.within("diameter_mm", self.diameter, 3.0, 36.0);
        f.within("pitch_mm", self.pitch, 0.3, 5.0);
        // Between half of the plain shank and all of it: a diameter typed for an area is caught.
        let shank = std::f64::consts::FRAC_PI_4 * d * d;
        f.within("stress_area_mm2", self.stress_area, (0.5 * shank).floor(), shank.ceil());
        f.within("hole_mm", self.hole, d, 1.5 * d);
        f.sources("", &self.values());
    }
}

impl Row for StudClass {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
        f.within("tensile_mpa", self.tensile, 100.0, 1600.0);
        f.within("yield_mpa", self.yields, 50.0, self.tensile.get());
        f.within("proof_mpa", self.proof, 50.0, self.yields.get());
        f.number("shear_share", self.shear_share.get(), 0.3, 0.7);
        f.sources("", &self.values());
    }
}

impl Row for Shock {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
        f.within("along_g", self.along, 0.5, 60.0);
        f.within("across_g", self.across, 0.5, 60.0);
        f.within("vertical_g", self.vertical, 0.5, 60.0);
        f.sources("", &self.values());
    }
}
