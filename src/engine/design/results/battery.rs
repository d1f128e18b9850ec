//! Results of the service battery: the bank, what each criterion asks for, every chemistry beside it.

use super::fact::{At, Many, One, facts, many, one};
use crate::engine::installation::subject::Subject;
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::battery::BySheets;
use crate::engine::simulate::battery::{BatteryDesign, Candidate, Criterion, SizedBy};
use crate::engine::simulate::standing::Standing;
use crate::plan::Choice;
use crate::quantity::*;

facts! { BatteryDesign, "battery", "the service battery", |_, _| Subject::ServiceBattery;
    BANK: Option<One<Bank>> = "bank", "Bank", "as given or sized; null when none is big enough", |b, at| b.bank.as_ref().map(|bank| one(bank, at));
    NEEDED: AmpHours = "needed_ah", "Needed", "by the ruling criterion", |b, _| b.needed, "needed";
    DEPTH: Share = "depth", "Planned depth", "share of the charge that is planned to be used", |b, _| b.depth, "depth";
    RULING: Option<&'static str> = "ruling", "Decided by", "name of that criterion", |b, _| b.ruling.map(SizedBy::name);
    CRITERIA: Many<Criterion> = "criteria", "Criteria", "what each criterion asks for", |b, at| many(&b.criteria, at);
    USABLE: WattHours = "usable_wh", "Usable energy", "new and at 25 °C", |b, _| b.usable, "usable energy";
    DEPTH_REACHED: Share = "depth_reached", "Depth reached, cold, aged", "share of the charge used after the days without charge, cold and aged", |b, _| b.depth_reached, "depth reached";
    PLACE: &'static str = "place", "Stands", "where it stands: as given, or as the hold-down suggests", |b, _| b.place.key();
    VENT_AIR: CubicMetresPerHour = "vent_air_m3_per_h", "Air to change", "while it is charged; 0 for a kind that gives off no gas", |b, _| b.vent_air, "vent air";
    VENT_OPENING: SquareCentimetres = "vent_opening_cm2", "Vent, low and high each", "free area of an inlet, and of an outlet, to the outside", |b, _| b.vent_opening, "vent opening";
    CANDIDATES: Many<Candidate> = "candidates", "Candidates", "every chemistry side by side", |b, at| many(&b.candidates, at);
}

facts! { Criterion, "criterion", "one criterion of size", |_, _| Subject::ServiceBattery;
    NAME: &'static str = "name", "Criterion", "the criterion", |c, _| c.by.name();
    NEEDED: AmpHours = "needed_ah", "Asks for", "what it asks for", |c, _| c.needed, [Subject::ServiceBattery, c.by.name()];
}

/// What the bank's mass is worked out for: the battery, or a chemistry beside it.
fn owner(at: &At<'_>) -> Subject {
    at.candidate.map_or(Subject::ServiceBattery, |key| Subject::Candidate(key.into()))
}

/// What the rest of it is worked out for: the battery alone.
fn planned(at: &At<'_>) -> Option<Subject> {
    at.candidate.is_none().then_some(Subject::ServiceBattery)
}

facts! { Bank, "bank", "equal blocks in parallel", |_, at| owner(at);
    CHEMISTRY: String = "chemistry", "Chemistry", "key", |b, _| b.chemistry.clone();
    CAPACITY: AmpHours = "capacity_ah", "Capacity", "of the whole bank", |b, at| b.capacity, [planned(at), "capacity"];
    BLOCKS: u32 = "blocks", "Blocks", "in parallel", |b, _| b.blocks;
    BLOCK: AmpHours = "block_ah", "Block", "capacity of one", |b, _| b.block;
    MASS: Kilograms = "mass_kg", "Mass", "of the whole bank", |b, _| b.mass, "mass";
    RESISTANCE: Ohms = "resistance_ohm", "Resistance, warm, new", "internal, new and warm", |b, at| b.resistance, [planned(at), "resistance"];
    RESISTANCE_WORST: Ohms = "resistance_worst_ohm", "Resistance, cold, aged", "internal, cold, aged, at the reserve", |b, at| b.resistance_worst, [planned(at), "worst resistance"];
    RESISTANCE_FAULT: Ohms = "resistance_fault_ohm", "Least resistance", "the least it can be", |b, at| b.resistance_fault, [planned(at), "fault resistance"];
    FAULT_LIKELY: Amps = "fault_likely_a", "Likely short circuit", "short circuit at the posts that is likely", |b, at| b.fault_likely, [planned(at), "likely fault current"];
    FAULT: Amps = "fault_a", "Short circuit at the posts", "short circuit at the posts", |b, at| b.fault, [planned(at), "fault current"];
}

facts! { Candidate, "candidate", "one chemistry for this job", |c, _| Subject::Candidate(c.chemistry.clone());
    CHEMISTRY: String = "chemistry", "Key", "key", |c, _| c.chemistry.clone();
    NAME: String = "name", "Chemistry", "as shown", |c, _| c.name.clone();
    CHOSEN: bool = "chosen", "Planned", "whether the plan has it", |c, _| c.chosen;
    NEEDED: AmpHours = "needed_ah", "Needed", "capacity needed", |c, _| c.needed, "needed";
    RULING: &'static str = "ruling", "Decided by", "by which criterion", |c, _| c.ruling;
    BANK: Option<One<Bank>> = "bank", "Bank", "of standard blocks; null when none is big enough", |c, at| c.bank.as_ref().map(|bank| one(bank, &At { candidate: Some(&c.chemistry), ..*at })), "needed";
    USABLE: WattHours = "usable_wh", "Usable", "of that bank", |c, _| c.usable, "usable energy";
    LASTS: Years = "lasts_years", "Lasts", "to its end of life, by cycles and calendar together", |c, _| c.years, "years";
    CYCLES_LAST: Years = "cycles_last_years", "By cycles", "to its end of life by cycles alone", |c, _| c.years_cycles, "years by cycles";
    CHARGES_COLD: bool = "charges_cold", "Charges cold", "whether it charges at the coldest of the plan", |c, _| c.charges_cold;
    CHARGE_MIN: Celsius = "charge_min_c", "Charges from", "coldest at which it may be charged", |c, _| c.charge_min;
    RECHARGE: Option<Hours> = "recharge_h", "To 90 %", "from the planned depth to 90 %; null when never", |c, _| c.recharge, "recharge";
    CHARGE_MAX: Amps = "charge_max_a", "Takes", "highest charge current it takes", |c, _| c.charge_max, "highest charge current";
    CHARGER: Option<Amps> = "charger_a", "Charger", "output of the charger for it; null without one", |c, _| c.charger;
    PRICE: Option<Money> = "price", "Price", "of the bank by the user's own prices, in its currency; null where none is entered", |c, _| c.price, "price";
    PRICE_A_YEAR: Option<Money> = "price_a_year", "A year", "that over the years it lasts", |c, _| c.price_a_year, "price a year";
}

facts! { Standing, "standing", "the service battery left without use", |_, _| Subject::ServiceBattery;
    DAYS: Days = "days_d", "Left for", "as given, or three months", |s, _| s.days;
    DRAW: Amps = "draw_a", "Drawn meanwhile", "its own electronics included, self-discharge not", |s, _| s.draw;
    LEAK: Share = "leak_month", "Lost by itself a month", "share of what is there, in the mean air", |s, _| s.leak;
    LEFT: Share = "left", "Left then", "charge at the end; 0 where it is empty before", |s, _| s.left, "left standing";
    GOOD_FOR: Option<Days> = "good_for_d", "Good for", "until it is lower than what it may stand at; null when never", |s, _| s.good_for;
    EMPTY_AFTER: Option<Days> = "empty_after_d", "Empty after", "null when never", |s, _| s.empty_after;
    FREEZES: Option<Celsius> = "freezes_c", "Freezes at", "with what is left; null for a kind that does not", |s, _| s.freezes;
}

facts! { BySheets, "by-sheets", "what the chemistry gives in an hour, by the model that sizes it and by cell sheets", |_, _| Subject::ServiceBattery;
    MODEL: Share = "model", "In an hour, by the model", "share of its rating, by the model that sizes it", |s, _| s.model;
    SHEETS: Share = "sheets", "By cell sheets", "share of its rating", |s, _| s.sheets;
    BANK: Option<One<Bank>> = "bank", "Would do by sheets", "the smaller bank that would do; null where it is the same, or given", |s, at| s.bank.as_ref().map(|bank| one(bank, at));
}
