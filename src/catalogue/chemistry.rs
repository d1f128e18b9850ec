//! Battery chemistries: everything the engine needs to know of one, per 12 V block.
//!
//! One file each in `profiles/chemistries/`. Voltages are for the whole block,
//! resistances for a block of 100 Ah (scaled by 100/Ah elsewhere).

use super::curve::Curve;
use super::faults::{Faults, Trend};
use super::provenance::{Provenance, cite};
use super::row::{Part, Row, row};
use crate::quantity::*;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use toml::de::{DeTable, DeValue, ValueDeserializer};

/// Block voltages that a 12 V system can meet at all.
const VOLTS: (f64, f64) = (5.0, 18.0);
/// Temperatures a vehicle can meet.
const AIR: (f64, f64) = (-60.0, 100.0);
const SHARE: (f64, f64) = (0.0, 1.0);

/// Broad family, for the rules that differ between lead and lithium.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)]
pub enum Chemical {
    LeadAcid,
    Lithium,
    SodiumIon,
}

/// One battery chemistry.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chemistry {
    /// Key in plan files: `flooded`, `agm`, `gel`, `lithium-iron-phosphate`, `lithium-nmc`.
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Lead or lithium.
    pub chemical: Chemical,
    /// Cells in series in a 12 V block.
    pub cells: u32,
    /// Nominal block voltage.
    #[serde(rename = "nominal_v")]
    pub nominal: Volts,
    /// One sentence for the pick list.
    pub about: String,
    /// Cautions special to this chemistry, in plain words.
    pub cautions: Vec<String>,
    /// Resting voltage by state of charge.
    pub resting: Resting,
    /// Internal resistance.
    pub resistance: Resistance,
    /// What a faster discharge delivers.
    pub rate: Rate,
    /// What cold leaves of the capacity.
    pub cold: Cold,
    /// How deep to discharge, and how it wears.
    pub life: Life,
    /// How to charge it.
    pub charge: Charge,
    /// Temperatures it may be used at.
    pub limits: Limits,
    /// Mass and sizes sold.
    pub blocks: Blocks,
    /// Voltages at the low end.
    pub low: LowEnd,
}

impl Part for Chemistry {
    fn check(&self, faults: &mut Faults) {
        faults.text("key", &self.key);
        faults.text("name", &self.name);
        faults.need((1..=12).contains(&self.cells), "cells", "must be from 1 to 12 in series");
        faults.within("nominal_v", &self.nominal, 9.0, 16.0);
        for (name, part) in self.parts() {
            faults.part(name, |own| part.check(own));
        }
        faults.within("low.damage_v", &self.low.damage, VOLTS.0, self.nominal.get());
        faults.within("low.own_protection_v", &self.low.own_protection, VOLTS.0, self.nominal.get());
    }
}

impl Row for Chemistry {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }

    fn parts_keys() -> &'static [(&'static str, &'static [&'static str])] {
        &[
            ("resting", Resting::KEYS),
            ("resistance", Resistance::KEYS),
            ("rate", Rate::KEYS),
            ("cold", Cold::KEYS),
            ("life", Life::KEYS),
            ("charge", Charge::KEYS),
            ("limits", Limits::KEYS),
            ("blocks", Blocks::KEYS),
            ("low", LowEnd::KEYS),
        ]
    }

    fn part_errors(whole: &DeTable<'_>) -> Vec<toml::de::Error> {
        let errors = [
            part_error::<Resting>(whole, "resting"),
            part_error::<Resistance>(whole, "resistance"),
            part_error::<Rate>(whole, "rate"),
            part_error::<Cold>(whole, "cold"),
            part_error::<Life>(whole, "life"),
            part_error::<Charge>(whole, "charge"),
            part_error::<Limits>(whole, "limits"),
            part_error::<Blocks>(whole, "blocks"),
            part_error::<LowEnd>(whole, "low"),
        ];
        errors.into_iter().flatten().collect()
    }
}

fn part_error<T: DeserializeOwned>(whole: &DeTable<'_>, name: &str) -> Option<toml::de::Error> {
    let value = whole.get(name).filter(|value| matches!(value.get_ref(), DeValue::Table(_)))?;
    T::deserialize(ValueDeserializer::from(value.clone())).err()
}

impl Chemistry {
    /// Its parts by name, each with its own sources.
    pub(super) fn parts(&self) -> [(&'static str, &dyn Part); 9] {
        [
            ("resting", &self.resting),
            ("resistance", &self.resistance),
            ("rate", &self.rate),
            ("cold", &self.cold),
            ("life", &self.life),
            ("charge", &self.charge),
            ("limits", &self.limits),
            ("blocks", &self.blocks),
            ("low", &self.low),
        ]
    }
}

impl Resting {
    fn curves(&self) -> impl Iterator<Item = &Curve<Share, Volts>> {
        std::iter::once(&self.curve).chain(&self.other)
    }

    /// The least that the curves show at a charge: what a load still gets.
    pub fn least(&self, charge: Share) -> Option<Volts> {
        self.curves().filter_map(|c| c.at(charge)).reduce(Volts::min)
    }

    /// The same for one charge after the other, each no smaller than the last.
    pub fn least_growing(&self) -> impl FnMut(Share) -> Option<Volts> + '_ {
        let mut all: Vec<_> = self.curves().map(Curve::growing).collect();
        move |charge| all.iter_mut().filter_map(|at| at(charge)).reduce(Volts::min)
    }

    /// The most that they show: what a cut-off is set by.
    pub fn most(&self, charge: Share) -> Option<Volts> {
        self.curves().filter_map(|c| c.at(charge)).reduce(Volts::max)
    }

    /// The least charge that a voltage tells.
    pub fn charge(&self, volts: Volts) -> Option<Share> {
        self.curves().filter_map(|c| c.inverse(volts)).reduce(Share::min)
    }

    /// The least and the most charge that a voltage tells.
    pub fn charges(&self, volts: Volts) -> Option<(Share, Share)> {
        let all = || self.curves().filter_map(|c| c.inverse(volts));
        all().reduce(Share::min).zip(all().reduce(Share::max))
    }

    /// Charges at which a curve bends.
    pub fn bends(&self) -> Vec<Share> {
        let mut all: Vec<Share> = self.curves().flat_map(|c| c.points()).map(|(charge, _)| *charge).collect();
        all.sort_by(|a, b| a.get().total_cmp(&b.get()));
        all
    }

    /// Where the curves come from.
    pub fn words(&self) -> String {
        cite(std::iter::once(&self.from.curve).chain(self.other.as_ref().map(|_| &self.from.other)))
    }
}

impl Resistance {
    /// Usual resistance of a full, warm block of 100 Ah, in milliohm.
    pub fn likely(&self) -> f64 {
        self.likely_mohm.max(self.fault_mohm)
    }

    /// Least resistance of a block of 100 Ah that is made to start engines, in milliohm.
    pub fn starter(&self) -> f64 {
        if self.starter_mohm > 0.0 { self.starter_mohm } else { self.fault_mohm }
    }

    /// Where the resistance at some charge and temperature comes from; an aged block is counted with its factor too.
    /// Of a battery that was measured the factors alone are the catalogue's.
    pub fn words(&self, measured: Option<Milliohms>, aged: bool) -> String {
        let from = &self.from;
        let age = aged.then_some(&from.aged_factor);
        let factors = [&from.by_soc, &from.by_temperature].into_iter().chain(age);
        match measured {
            Some(_) => format!("entered by you; {}", cite(factors)),
            None => cite(std::iter::once(&from.working_mohm).chain(factors)),
        }
    }

    fn check_least(&self, faults: &mut Faults) {
        let least = "must not be above working_mohm: it is the least the block can have";
        faults.need(self.fault_mohm <= self.working_mohm, "fault_mohm", least);
    }
}

impl Life {
    fn check_depth(&self, faults: &mut Faults) {
        faults.need(self.depth <= self.deepest, "deepest", "must not be below depth");
    }
}

impl Charge {
    /// Where a charge that falls from constant current to its tail comes from.
    pub fn falling_words(&self) -> String {
        cite([&self.from.bulk_to, &self.from.tail_c, &self.from.coulombic])
    }
}

impl LowEnd {
    /// The voltage that no current may pull it to, and its source: harm, or its own protection if that is higher.
    pub fn floor(&self) -> (Volts, &Provenance) {
        match self.own_protection {
            Some(own) if own > self.damage => (own, &self.from.own_protection),
            _ => (self.damage, &self.from.damage),
        }
    }
}

row! {
    /// Resting (open-circuit) block voltage at 25 °C.
    Resting, RestingFrom {}
    values {
        /// State of charge (share of the rated-hour capacity) against volts.
        curve: Curve<Share, Volts> = "soc_v" => curve(SHARE, VOLTS, Trend::Rises),
        /// The same of another cell, where two were measured: the higher decides a cut-off, the lower what a load gets.
        other: Option<Curve<Share, Volts>> = "other_soc_v" => curve(SHARE, VOLTS, Trend::Rises),
        /// Change of the block's resting voltage with temperature, in volts per kelvin.
        v_per_k: f64 = "v_per_k" in "V/K" => within(-0.05, 0.05),
        /// Half-width of the gap between resting after charge and after discharge.
        #[serde(default)]
        hysteresis: Volts = "hysteresis_v" => within(0.0, 1.0),
    }
}

row! {
    /// Internal resistance of a 100 Ah block, posts to posts, at 25 °C.
    Resistance, ResistanceFrom {}
    values {
        /// Ohmic and slow polarisation together, new, at 50 % or fuller: milliohm for 100 Ah. Used for voltage under load.
        working_mohm: f64 = "working_mohm" in "mΩ" => within(0.001, 1000.0),
        /// Purely ohmic, new, full, warm: the least it can be; used for the largest prospective fault current.
        fault_mohm: f64 = "fault_mohm" in "mΩ" => within(0.001, 1000.0),
        /// The same of a usual block; used for the likely prospective fault current. The least, where it is left out.
        #[serde(default)]
        likely_mohm: f64 = "likely_mohm" in "mΩ" => within(0.0, 1000.0),
        /// The least of a block made to start engines; that of any block, where it is left out.
        #[serde(default)]
        starter_mohm: f64 = "starter_mohm" in "mΩ" => within(0.0, 1000.0),
        /// Factor by state of charge.
        by_soc: Curve<Share, Share> = "by_soc" => curve(SHARE, (0.1, 20.0), Trend::NeverRises),
        /// Factor by temperature.
        by_temperature: Curve<Celsius, Share> = "by_temperature" => curve(AIR, (0.1, 50.0), Trend::NeverRises),
        /// Factor at end of life.
        aged_factor: f64 = "aged_factor" => within(1.0, 10.0),
    }
    and check_least
}

row! {
    /// Delivered capacity against rate.
    Rate, RateFrom {}
    values of row {
        /// Hours of the rating (20 for lead-acid, often 5 for lithium).
        rated: Hours = "rated_h" => within(0.5, 120.0),
        /// Peukert exponent for currents above the rated one.
        peukert: f64 = "peukert" => within(1.0, 1.6),
        /// Kinetic battery model: share of the charge that is at hand at once.
        kinetic_c: f64 = "kinetic_c" => within(0.01, 1.0),
        /// Kinetic battery model: rate constant k' per hour.
        kinetic_k_per_h: f64 = "kinetic_k_per_h" in "per hour" => within(0.001, 100.0),
        /// Share of its rating that cell sheets say it gives in an hour, where that is more than the model says.
        sheet_1h: Option<Share> = "sheet_1h" => within(0.3, 1.0),
        /// Highest continuous discharge in multiples of the capacity per hour.
        max_c: f64 = "max_c" in "C" => within(0.02, 50.0),
        /// Highest discharge for ten seconds.
        max_short_c: f64 = "max_short_c" in "C" => within(row.max_c, 100.0),
    }
}

row! {
    /// Capacity at a temperature as a share of that at 25 °C.
    Cold, ColdFrom {}
    values {
        /// Temperature against share of the capacity.
        capacity: Curve<Celsius, Share> = "capacity" => curve(AIR, (0.001, 1.2), Trend::NeverFalls),
        /// Freezing point of the electrolyte by state of charge, where it can freeze.
        freezing: Option<Curve<Share, Celsius>> = "freezing" => curve(SHARE, (-100.0, 0.0), Trend::NeverRises),
    }
}

row! {
    /// Depth, cycles, years.
    Life, LifeFrom {}
    values {
        /// Depth of discharge to plan with.
        depth: Share = "depth" => within(0.05, 1.0),
        /// Deepest that a plan may choose without a caution.
        deepest: Share = "deepest" => within(0.05, 1.0),
        /// Share of the rated capacity left when it is replaced.
        end_of_life: Share = "end_of_life" => within(0.3, 1.0),
        /// Depth of a daily cycle against cycles to that end of life.
        cycles: Curve<Share, CycleCount> = "cycles" => curve(SHARE, (1.0, 100_000.0), Trend::NeverRises),
        /// Years to end of life by calendar alone at 25 °C.
        calendar: Years = "calendar_y" => within(0.5, 50.0),
        /// Self-discharge a month (30 days) at 25 °C.
        self_discharge: Share = "self_discharge_month" => share,
    }
    and check_depth
}

row! {
    /// Charging.
    Charge, ChargeFrom {}
    values of row {
        /// Constant-voltage (absorption) stage.
        absorption: Volts = "absorption_v" => within(VOLTS.0, VOLTS.1),
        /// Float stage, or the storage voltage where float is not wanted.
        float: Volts = "float_v" => within(VOLTS.0, row.absorption.get()),
        /// Never above this at the posts.
        max: Volts = "max_v" => within(row.absorption.get(), VOLTS.1),
        /// Temperature compensation, volts per kelvin for the whole block (negative or zero).
        v_per_k: f64 = "v_per_k" in "V/K" => within(-0.1, 0.0),
        /// Lowest useful charge current in multiples of the capacity per hour.
        min_c: f64 = "min_c" in "C" => within(0.001, 10.0),
        /// Highest charge current to plan with.
        max_c: f64 = "max_c" in "C" => within(row.min_c, 10.0),
        /// State of charge where constant current ends at about 0.2 C.
        bulk_to: Share = "bulk_to" => within(0.1, 1.0),
        /// Tail current that ends absorption.
        tail_c: f64 = "tail_c" in "C" => within(0.001, row.max_c),
        /// Current that makes gas while it is charged at its charge voltage, for each ampere-hour; none for a kind
        /// that gives none off.
        #[serde(default)]
        gas: Option<f64> = "gas_ma_per_ah" in "mA/Ah" => within(0.0, 100.0),
        /// Charge put in per charge got back, as a share (0.9 means 10 % lost).
        coulombic: Share = "coulombic" => within(0.3, 1.0),
        /// Block voltage where gassing begins at 25 °C; absent where there is none.
        gassing: Option<Volts> = "gassing_v" => within(VOLTS.0, VOLTS.1),
    }
}

row! {
    /// Temperature limits of the cells.
    Limits, LimitsFrom {}
    values of row {
        /// Coldest at which it may be charged.
        charge_min: Celsius = "charge_min_c" => within(AIR.0, AIR.1),
        /// Hottest at which it may be charged.
        charge_max: Celsius = "charge_max_c" => within(row.charge_min.get(), AIR.1),
        /// Coldest at which it may be discharged.
        discharge_min: Celsius = "discharge_min_c" => within(AIR.0, AIR.1),
        /// Hottest at which it may be discharged.
        discharge_max: Celsius = "discharge_max_c" => within(row.discharge_min.get(), AIR.1),
    }
}

row! {
    /// Mass and the sizes sold.
    Blocks, BlocksFrom {}
    values {
        /// Mass of a 100 Ah block.
        mass_100ah: Kilograms = "kg_per_100ah" => within(1.0, 200.0),
        /// Capacities sold as one block.
        sizes: Vec<AmpHours> = "sizes_ah" => ascending,
        /// Most blocks in parallel without a caution.
        max_parallel: u32 = "max_parallel" => at_least(1),
    }
}

row! {
    /// The low end: where harm begins.
    LowEnd, LowEndFrom {}
    values {
        /// Resting or lightly loaded voltage below which the block is harmed.
        damage: Volts = "damage_v",
        /// Where the block's own protection opens, if it has one.
        own_protection: Option<Volts> = "own_protection_v",
        /// State of charge below which leaving it standing harms it.
        stand_above: Share = "stand_above" => share,
        /// Reserve left at the cut-off if the plan does not say.
        reserve: Share = "reserve" => share,
        /// Current of the block's own electronics for 100 Ah.
        #[serde(default)]
        own_draw: Amps = "own_draw_a" => within(0.0, 5.0),
    }
}
