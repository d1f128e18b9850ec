//! Which blocks make up the bank.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::reserve_of;
use crate::engine::installation::place::{coldest, hottest};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::{Age, resistance_factor, resting_most};
use crate::engine::physics::reckon::Reckoned;
use crate::plan::{Choice, ShortCircuitBy};
use crate::quantity::*;
use crate::reckon;

/// Most blocks in parallel that are looked at.
pub(crate) const MOST: u32 = 12;

/// What a bank is built for.
pub(crate) struct Job<'a> {
    pub site: &'a Installation,
    pub chemistry: &'a Chemistry,
    /// Whether it is the plan's own: what is given and measured counts.
    pub own: bool,
    /// What its workings are filed under.
    pub subject: Subject,
}

impl Job<'_> {
    /// The bank as given, or of standard blocks: the fewest that reach `needed`, then the smallest.
    pub fn bank(&self, needed: AmpHours, notes: &mut Notes) -> Option<Bank> {
        let battery = &self.site.service_battery;
        let Some(given) = battery.capacity else { return self.standard(needed, battery.in_parallel, notes) };
        let same = reckon!(AmpHours: C, C: "given" = given);
        let capacity =
            notes.reckon(&self.subject, "capacity", same, |r| r.working("capacity of the bank").source("plan"));
        Some(self.build(capacity, battery.in_parallel.unwrap_or(1).max(1), notes))
    }

    /// A bank of standard blocks.
    pub fn standard(&self, needed: AmpHours, in_parallel: Option<u32>, notes: &mut Notes) -> Option<Bank> {
        let counts = match in_parallel {
            Some(n) => n.max(1)..=n.max(1),
            None => 1..=MOST,
        };
        let mut sizes = self.chemistry.blocks.sizes.clone();
        sizes.sort_by(|a, b| a.get().total_cmp(&b.get()));
        let (block, blocks) = counts.into_iter().find_map(|n| {
            let each = needed / f64::from(n);
            sizes.iter().find(|s| s.get() >= each.get() - 1e-9).map(|block| (*block, n))
        })?;
        let capacity = reckon!(AmpHours: n * B,
            n: "blocks in parallel" = Figure::number(f64::from(blocks)),
            B: "smallest block sold that is enough" = block);
        let capacity = notes.reckon(&self.subject, "capacity", capacity, |r| {
            r.working("capacity of the bank")
                .with_from("Q", "at least, by the biggest criterion", needed, self.subject.clone(), "needed")
                .source(self.chemistry.blocks.from.sizes.words())
                .note("the fewest blocks in parallel that are enough, then the smallest of them")
        });
        Some(self.build(capacity, blocks, notes))
    }

    fn build(&self, capacity: AmpHours, blocks: u32, notes: &mut Notes) -> Bank {
        let resistance = self.resistance(capacity, notes);
        let mut bank = Bank {
            chemistry: self.chemistry.key.clone(),
            capacity,
            blocks,
            block: capacity / f64::from(blocks),
            mass: self.mass(capacity, notes),
            resistance,
            ..Bank::default()
        };
        self.extremes(&mut bank, notes);
        bank
    }

    fn mass(&self, capacity: AmpHours, notes: &mut Notes) -> Kilograms {
        let (blocks, words) = (&self.chemistry.blocks, "mass of the bank");
        match self.site.service_battery.mass.filter(|_| self.own) {
            Some(given) => {
                let same = reckon!(Kilograms: m, m: "given" = given);
                notes.reckon(&self.subject, "mass", same, |r| r.working(words).source("plan"))
            }
            None => {
                let scaled = reckon!(Kilograms: m * (C / 100.0),
                    m: "mass of a 100 Ah block" = blocks.mass_100ah, C: "capacity of the bank" = capacity);
                notes.reckon(&self.subject, "mass", scaled, |r| {
                    r.working(words).from("C", self.subject.clone(), "capacity").source(blocks.from.mass_100ah.words())
                })
            }
        }
    }

    /// Working resistance, new, warm, half full: measured, or scaled from the chemistry's 100 Ah block.
    fn resistance(&self, capacity: AmpHours, notes: &mut Notes) -> Ohms {
        let (usual, words) = (&self.chemistry.resistance, "working internal resistance");
        match self.site.service_battery.resistance_mohm.filter(|_| self.own) {
            Some(given) => {
                let same = reckon!(Ohms: m / 1000.0, m: "measured" = given);
                notes.reckon(&self.subject, "resistance", same, |r| r.working(words).source("plan"))
            }
            None => {
                let scaled = reckon!(Ohms: m * 100.0 / C / 1000.0,
                    m: "of a 100 Ah block" = Figure::new(usual.working_mohm, Unit::Milliohm),
                    C: "capacity of the bank" = capacity);
                notes.reckon(&self.subject, "resistance", scaled, |r| {
                    r.working(words).from("C", self.subject.clone(), "capacity").source(usual.from.working_mohm.words())
                })
            }
        }
    }

    /// The most and the least that its resistance can be, and what flows in a short circuit.
    fn extremes(&self, bank: &mut Bank, notes: &mut Notes) {
        let (site, chemistry) = (self.site, self.chemistry);
        let reserve = if self.own { reserve_of(site, chemistry) } else { chemistry.low.reserve };
        let measured = site.service_battery.resistance_mohm.filter(|_| self.own);
        let subject = &self.subject;
        let worst = reckon!(Ohms: R * k,
            R: "working internal resistance" = bank.resistance,
            k: "factors of charge, temperature and age together" =
                Figure::number(resistance_factor(chemistry, reserve, coldest(site), Age::EndOfLife)));
        bank.resistance_worst = notes.reckon(subject, "worst resistance", worst, |r| {
            r.working("internal resistance at the reserve, coldest, aged")
                .from("R", subject.clone(), "resistance")
                .source(chemistry.resistance.words(measured, true))
        });
        let full = resting_most(chemistry, Share::FULL, hottest(site));
        bank.resistance_likely = self.likely(bank, full, notes);
        bank.resistance_fault = self.least(bank, full, notes);
        let fault = |inside: Ohms| reckon!(Amps: V / R, V: "resting voltage, full, hottest" = full, R: "internal resistance" = inside);
        if bank.resistance_fault.get() > 0.0 {
            bank.fault = notes.reckon(subject, "fault current", fault(bank.resistance_fault), |r| {
                r.working("short-circuit current at the posts")
                    .from("R", subject.clone(), "fault resistance")
                    .source("Ohm's law")
            });
            bank.fault_likely = notes.reckon(subject, "likely fault current", fault(bank.resistance_likely), |r| {
                r.working("likely short-circuit current at the posts")
                    .from("R", subject.clone(), "likely resistance")
                    .source("Ohm's law")
            });
        }
    }

    /// The resistance that a short-circuit current follows from.
    fn given(&self, full: Volts) -> Option<Reckoned<Ohms, 2>> {
        let given = self.site.service_battery.short_circuit.filter(|amps| self.own && amps.get() > 0.0)?;
        Some(reckon!(Ohms: V / I,
            V: "resting voltage, full, hottest" = full, I: "short-circuit current, given" = given))
    }

    /// Where a given short-circuit current comes from.
    fn given_words(&self) -> String {
        format!("entered by you: {}", self.site.service_battery.short_circuit_by.key())
    }

    /// In a short circuit, of a usual battery of its kind; what a sheet or a tester says of this one, where known.
    fn likely(&self, bank: &Bank, full: Volts, notes: &mut Notes) -> Ohms {
        let (name, words) = ("likely resistance", "likely internal resistance, for fault currents");
        if let Some(given) = self.given(full) {
            return notes.reckon(&self.subject, name, given, |r| r.working(words).source(self.given_words()));
        }
        if self.site.service_battery.resistance_mohm.is_some_and(|_| self.own) {
            let same = reckon!(Ohms: R, R: "measured" = bank.resistance);
            return notes.reckon(&self.subject, name, same, |r| r.working(words).source("entered by you"));
        }
        let usual = &self.chemistry.resistance;
        let likely = reckon!(Ohms: min(m * 100.0 / C / 1000.0, R),
            R: "working internal resistance" = bank.resistance,
            m: "of a usual 100 Ah block, full, warm" = Figure::new(usual.likely(), Unit::Milliohm),
            C: "capacity of the bank" = bank.capacity);
        notes.reckon(&self.subject, name, likely, |r| {
            r.working(words)
                .from("R", self.subject.clone(), "resistance")
                .from("C", self.subject.clone(), "capacity")
                .source(usual.from.likely_mohm.words())
        })
    }

    /// The least in a short circuit. A current by the test of IEC 60896-21 tells it; a battery of which a sheet or a
    /// tester tells may have been cold, low or badly clamped then, so that of its kind counts where it is less.
    fn least(&self, bank: &Bank, full: Volts, notes: &mut Notes) -> Ohms {
        let (name, words) = ("fault resistance", "least internal resistance, for fault currents");
        let tested = self.site.service_battery.short_circuit_by == ShortCircuitBy::Iec60896;
        if let Some(given) = self.given(full).filter(|_| tested) {
            return notes.reckon(&self.subject, name, given, |r| r.working(words).source(self.given_words()));
        }
        let usual = &self.chemistry.resistance;
        let least = reckon!(Ohms: min(m * 100.0 / C / 1000.0, min(R, L)),
            R: "working internal resistance" = bank.resistance,
            L: "likely internal resistance" = bank.resistance_likely,
            m: "of a 100 Ah block, full, warm" = Figure::new(usual.fault_mohm, Unit::Milliohm),
            C: "capacity of the bank" = bank.capacity);
        notes.reckon(&self.subject, name, least, |r| {
            r.working(words)
                .from("R", self.subject.clone(), "resistance")
                .from("L", self.subject.clone(), "likely resistance")
                .from("C", self.subject.clone(), "capacity")
                .source(usual.from.fault_mohm.words())
        })
    }
}
