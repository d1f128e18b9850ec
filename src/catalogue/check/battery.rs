//! What a battery chemistry must satisfy.

use crate::catalogue::chemistry::*;
use crate::catalogue::faults::{Faults, Trend};
use crate::catalogue::row::Row;
use serde::de::DeserializeOwned;
use toml::de::{DeTable, DeValue, ValueDeserializer};

/// Block voltages that a 12 V system can meet at all.
const VOLTS: (f64, f64) = (5.0, 18.0);
/// Temperatures a vehicle can meet.
const AIR: (f64, f64) = (-60.0, 100.0);
const SHARE: (f64, f64) = (0.0, 1.0);

impl Row for Chemistry {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn check(&self, f: &mut Faults) {
        f.text("key", &self.key);
        f.text("name", &self.name);
        f.need((1..=12).contains(&self.cells), "cells", "must be from 1 to 12 in series");
        f.within("nominal_v", self.nominal, 9.0, 16.0);
        self.check_resting(f);
        self.check_resistance(f);
        self.check_rate(f);
        self.check_cold(f);
        self.check_life(f);
        self.check_charge(f);
        self.check_rest(f);
    }

    fn part_errors(whole: &DeTable<'_>) -> Vec<toml::de::Error> {
        let mut errors = Vec::new();
        part::<Resting>(whole, "resting", &mut errors);
        part::<Resistance>(whole, "resistance", &mut errors);
        part::<Rate>(whole, "rate", &mut errors);
        part::<Cold>(whole, "cold", &mut errors);
        part::<Life>(whole, "life", &mut errors);
        part::<Charge>(whole, "charge", &mut errors);
        part::<Limits>(whole, "limits", &mut errors);
        part::<Blocks>(whole, "blocks", &mut errors);
        part::<LowEnd>(whole, "low", &mut errors);
        errors
    }
}

fn part<T: DeserializeOwned>(whole: &DeTable<'_>, name: &str, errors: &mut Vec<toml::de::Error>) {
    let Some(value) = whole.get(name) else { return };
    if !matches!(value.get_ref(), DeValue::Table(_)) {
        return;
    }
    if let Err(error) = T::deserialize(ValueDeserializer::from(value.clone())) {
        errors.push(error);
    }
}

impl Chemistry {
    fn check_resting(&self, f: &mut Faults) {
        let r = &self.resting;
        f.curve("resting.soc_v", &r.curve, SHARE, VOLTS, Trend::Rises);
        if let Some(other) = &r.other {
            f.curve("resting.other_soc_v", other, SHARE, VOLTS, Trend::Rises);
        }
        f.number("resting.v_per_k", r.v_per_k, -0.05, 0.05);
        f.within("resting.hysteresis_v", r.hysteresis, 0.0, 1.0);
        f.sources("resting", &r.values());
    }

    fn check_resistance(&self, f: &mut Faults) {
        let r = &self.resistance;
        f.number("resistance.working_mohm", r.working_mohm, 0.2, 100.0);
        f.number("resistance.fault_mohm", r.fault_mohm, 0.2, 100.0);
        f.need(
            r.fault_mohm <= r.working_mohm,
            "resistance.fault_mohm",
            "must not be above working_mohm: it is the least the block can have",
        );
        f.curve("resistance.by_soc", &r.by_soc, SHARE, (0.1, 20.0), Trend::NeverRises);
        f.curve("resistance.by_temperature", &r.by_temperature, AIR, (0.1, 50.0), Trend::NeverRises);
        f.number("resistance.aged_factor", r.aged_factor, 1.0, 10.0);
        f.sources("resistance", &r.values());
    }

    fn check_rate(&self, f: &mut Faults) {
        let r = &self.rate;
        f.within("rate.rated_h", r.rated, 0.5, 120.0);
        f.number("rate.peukert", r.peukert, 1.0, 1.6);
        f.number("rate.kinetic_c", r.kinetic_c, 0.01, 1.0);
        f.number("rate.kinetic_k_per_h", r.kinetic_k_per_h, 0.001, 100.0);
        f.number("rate.max_c", r.max_c, 0.02, 50.0);
        f.number("rate.max_short_c", r.max_short_c, r.max_c, 100.0);
        f.sources("rate", &r.values());
    }

    fn check_cold(&self, f: &mut Faults) {
        f.curve("cold.capacity", &self.cold.capacity, AIR, (0.001, 1.2), Trend::NeverFalls);
        if let Some(freezing) = &self.cold.freezing {
            f.curve("cold.freezing", freezing, SHARE, (-100.0, 0.0), Trend::NeverRises);
        }
        f.sources("cold", &self.cold.values());
    }

    fn check_life(&self, f: &mut Faults) {
        let l = &self.life;
        f.within("life.depth", l.depth, 0.05, 1.0);
        f.within("life.deepest", l.deepest, 0.05, 1.0);
        f.need(l.depth.get() <= l.deepest.get(), "life.deepest", "must not be below depth");
        f.within("life.end_of_life", l.end_of_life, 0.3, 1.0);
        f.curve("life.cycles", &l.cycles, SHARE, (1.0, 100_000.0), Trend::NeverRises);
        f.within("life.calendar_y", l.calendar, 0.5, 50.0);
        f.share("life.self_discharge_month", l.self_discharge);
        f.sources("life", &l.values());
    }

    fn check_charge(&self, f: &mut Faults) {
        let c = &self.charge;
        f.within("charge.absorption_v", c.absorption, VOLTS.0, VOLTS.1);
        f.within("charge.float_v", c.float, VOLTS.0, c.absorption.get());
        f.within("charge.max_v", c.max, c.absorption.get(), VOLTS.1);
        f.number("charge.v_per_k", c.v_per_k, -0.1, 0.0);
        f.number("charge.min_c", c.min_c, 0.001, 10.0);
        f.number("charge.max_c", c.max_c, c.min_c, 10.0);
        f.within("charge.bulk_to", c.bulk_to, 0.1, 1.0);
        f.number("charge.tail_c", c.tail_c, 0.001, c.max_c);
        f.within("charge.coulombic", c.coulombic, 0.3, 1.0);
        if let Some(gassing) = c.gassing {
            f.within("charge.gassing_v", gassing, VOLTS.0, VOLTS.1);
        }
        f.sources("charge", &c.values());
    }

    fn check_rest(&self, f: &mut Faults) {
        let (l, b, low) = (&self.limits, &self.blocks, &self.low);
        f.within("limits.charge_min_c", l.charge_min, AIR.0, AIR.1);
        f.within("limits.charge_max_c", l.charge_max, l.charge_min.get(), AIR.1);
        f.within("limits.discharge_min_c", l.discharge_min, AIR.0, AIR.1);
        f.within("limits.discharge_max_c", l.discharge_max, l.discharge_min.get(), AIR.1);
        f.sources("limits", &l.values());
        f.within("blocks.kg_per_100ah", b.mass_100ah, 1.0, 200.0);
        f.ascending("blocks.sizes_ah", &b.sizes);
        f.need(b.max_parallel >= 1, "blocks.max_parallel", "must be 1 or more");
        f.sources("blocks", &b.values());
        f.within("low.damage_v", low.damage, VOLTS.0, self.nominal.get());
        if let Some(own) = low.own_protection {
            f.within("low.own_protection_v", own, VOLTS.0, self.nominal.get());
        }
        f.share("low.stand_above", low.stand_above);
        f.share("low.reserve", low.reserve);
        f.within("low.own_draw_a", low.own_draw, 0.0, 5.0);
        f.sources("low", &low.values());
    }
}
