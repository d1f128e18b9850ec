//! What does a changed plan come to, beside the one in hand?

use crate::catalogue::Catalogue;
use crate::engine::ask::mend::changes::changes;
use crate::engine::ask::mend::tally::Tally;
use crate::engine::ask::workshop::cut::cut_list;
use crate::engine::ask::workshop::parts::{parts_list, total};
use crate::engine::design::{Design, design};
use crate::engine::judge::finding::Severity;
use crate::engine::judge::remedy::Edit;
use crate::plan::Plan;
use crate::quantity::*;

/// What a design comes to, in the numbers by which designs are compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Sums {
    /// Key of the battery's chemistry.
    pub chemistry: String,
    /// Capacity of the whole bank.
    pub capacity: AmpHours,
    /// Output of the charger; `None` without one.
    pub charger: Option<Amps>,
    /// Rated power of all panels.
    pub array: Watts,
    /// Price of the bank by the user's own prices; `None` where none is entered.
    pub price: Option<Money>,
    /// All parts of the list that have a price by the user's own; `None` where none has.
    pub total: Option<Money>,
    /// Parts that have none.
    pub unpriced: usize,
    /// Mass of the bank.
    pub mass: Kilograms,
    /// Until power first fails without charge, in the hardest trial; all of the planned days where it lasts them.
    pub lasts: Days,
    /// Years to the end of the battery's life.
    pub years: Years,
    /// Copper of all runs.
    pub copper: Kilograms,
    /// How many different things are bought.
    pub parts: usize,
    /// Findings that forbid it.
    pub stops: usize,
    /// Findings to think about.
    pub cautions: usize,
}

impl Sums {
    /// What is found, in words: `no STOP, 5 cautions`.
    pub fn findings(&self) -> String {
        let stops = if self.stops == 0 { "no STOP".into() } else { format!("{} STOP", self.stops) };
        let cautions = if self.cautions == 0 { "no caution".into() } else { counted(self.cautions, "caution") };
        format!("{stops}, {cautions}")
    }

    /// Of a design.
    pub fn of(design: &Design) -> Sums {
        let bank = design.battery.bank.as_ref();
        let own = design.battery.candidates.iter().find(|c| c.chosen);
        let trials = design.promise.without_charge.iter();
        let lasts = trials.map(|t| t.failed_at.unwrap_or(t.tried)).reduce(Hours::min).unwrap_or(Hours::ZERO);
        let parts = parts_list(design, &cut_list(design).cuts);
        let all = total(&parts);
        Sums {
            chemistry: bank.map_or_else(String::new, |b| b.chemistry.clone()),
            capacity: bank.map_or(AmpHours::ZERO, |b| b.capacity),
            charger: design.charger.current,
            array: design.installation.solar.array,
            price: own.and_then(|c| c.price),
            mass: bank.map_or(Kilograms::ZERO, |b| b.mass),
            lasts: Days::new(lasts.get() / 24.0),
            years: own.map_or(Years::ZERO, |c| c.years),
            copper: design.copper.mass,
            total: all.sum,
            unpriced: all.unpriced,
            parts: parts.len(),
            stops: design.count(Severity::Stop),
            cautions: design.count(Severity::Caution),
        }
    }

    /// What both cost: all parts where every one has a price in both, else the bank where both have one.
    fn costs(&self, other: &Sums) -> Option<(f64, f64)> {
        let whole = self.total.zip(other.total).filter(|_| self.unpriced + other.unpriced == 0);
        whole.or(self.price.zip(other.price)).map(|(a, b)| (a.get(), b.get()))
    }

    /// Whether this is nowhere worse than another and somewhere better. Prices count where both have one.
    pub fn beats(&self, other: &Sums) -> bool {
        let count = |n: usize| n as f64;
        let pairs = [
            (count(self.stops), count(other.stops)),
            (count(self.cautions), count(other.cautions)),
            (self.mass.get(), other.mass.get()),
            (self.copper.get(), other.copper.get()),
            (count(self.parts), count(other.parts)),
            (-self.lasts.get(), -other.lasts.get()),
            (-self.years.get(), -other.years.get()),
        ];
        let mut all = pairs.into_iter().chain(self.costs(other));
        let (mut worse, mut better) = (false, false);
        all.by_ref().for_each(|(a, b)| (worse, better) = (worse || a > b, better || a < b));
        better && !worse
    }
}

/// A changed plan, designed.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// What is changed, in words.
    pub words: String,
    /// The same as edits; none for the plan in hand.
    pub edits: Vec<Edit>,
    /// What it comes to.
    pub sums: Sums,
    /// What it saves and costs beside the plan in hand.
    pub changes: Vec<String>,
    /// The stops and cautions that it brings.
    pub breaks: Vec<String>,
    /// Whether no other of those compared is nowhere worse and somewhere better; never of one with stops beside one
    /// without.
    pub unbeaten: bool,
}

/// Where variants are tried.
pub struct Bench<'a> {
    /// The plan in hand.
    pub plan: &'a Plan,
    /// What the trade knows.
    pub catalogue: &'a Catalogue,
    /// What follows from the plan in hand.
    pub before: &'a Design,
    /// Asked before each design; it may end the work.
    pub go_on: &'a dyn Fn() -> bool,
}

impl Bench<'_> {
    /// The design of the plan with these edits; `None` where they cannot be made, or where all shall end.
    pub fn design(&self, edits: &[Edit]) -> Option<Design> {
        let put = |plan: Plan, e: &Edit| plan.with(e.place, e.value.as_ref());
        let plan = edits.iter().try_fold(self.plan.clone(), put)?;
        (self.go_on)().then(|| design(&plan, self.catalogue))
    }

    /// A variant with what it changes.
    pub fn variant(&self, words: String, edits: Vec<Edit>) -> Option<Variant> {
        let after = self.design(&edits)?;
        Some(self.told(words, edits, &after))
    }

    /// The same of a design that is made already.
    pub fn told(&self, words: String, edits: Vec<Edit>, after: &Design) -> Variant {
        let before = Tally::of(&self.before.installation, &self.before.findings);
        let tally = Tally::of(&after.installation, &after.findings);
        let new = before.new_of(&after.installation, &after.findings, &tally);
        Variant {
            words,
            edits,
            sums: Sums::of(after),
            changes: changes(self.before, after),
            breaks: new.into_iter().map(|f| format!("{}: {}", f.severity.word(), f.text)).collect(),
            unbeaten: false,
        }
    }
}
