//! What is a used battery still worth?
//!
//! How full it is comes from a hydrometer or a rested voltage, what it still holds from a discharge that was timed:
//! either down to where it is called empty, or from full to a charge that is measured after a rest. Each answer has
//! bounds; what narrows them is said.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::physics::cell::acid;
use crate::engine::physics::cell::gas::VALVE_REGULATED;
use crate::engine::physics::cell::store::cold_factor;
use crate::quantity::*;

/// What was measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct UsedQuestion {
    /// Chemistry by its key.
    pub chemistry: String,
    /// Rated capacity.
    pub capacity: AmpHours,
    /// Voltage at the posts, with nothing drawn or charged for some hours.
    pub rested: Option<Volts>,
    /// For so many hours.
    pub rest: Option<Hours>,
    /// Densities of the acid, cell by cell, as read.
    pub densities: Vec<f64>,
    /// Temperature of the battery and its acid; 25 °C when `None`.
    pub air: Option<Celsius>,
    /// Steady current of a discharge from full.
    pub drawn: Option<Amps>,
    /// For so long.
    pub lasted: Option<Hours>,
}

/// A number with its bounds.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Between<Q> {
    /// Not less.
    pub least: Q,
    /// Most likely.
    pub likely: Q,
    /// Not more.
    pub most: Q,
}

/// What follows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct UsedAnswer {
    /// What was measured.
    pub question: UsedQuestion,
    /// Name of the chemistry.
    pub name: String,
    /// How full it is; `None` where nothing tells.
    pub charge: Option<Between<Share>>,
    /// What it still holds at the rated hours and 25 °C; `None` without a timed discharge.
    pub holds: Option<Between<AmpHours>>,
    /// The same of the rated capacity.
    pub health: Option<Between<Share>>,
    /// Where it is to be replaced.
    pub end_of_life: Share,
    /// What speaks against the battery, or makes the answer worse than it could be.
    pub remarks: Vec<String>,
}

/// A meter in the hand, and the last digit. Common practice, no source.
const METER: f64 = 0.02;
/// A timed discharge: its current and its time together. Common practice, no source.
const TIMED: f64 = 0.03;
/// Rest after which lead-acid stands still within [`METER`]. Common practice, no source.
const RESTED: Hours = Hours::new(4.0);
/// How far it may be off before, either way.
const UNRESTED: f64 = 0.1;
/// A charge known no better than this does not divide a discharge into a capacity.
const VAGUE: f64 = 0.4;

/// Judge a used battery; `None` for an unknown chemistry.
pub fn used_question(catalogue: &Catalogue, question: &UsedQuestion) -> Option<UsedAnswer> {
    let chemistry = catalogue.chemistry(&question.chemistry)?;
    let mut out = UsedAnswer {
        question: question.clone(),
        name: chemistry.name.clone(),
        end_of_life: chemistry.life.end_of_life,
        ..UsedAnswer::default()
    };
    out.charge = [by_voltage(chemistry, question, &mut out.remarks), by_density(chemistry, question, &mut out.remarks)]
        .into_iter()
        .flatten()
        .reduce(|a, b| if width(a) <= width(b) { a } else { b });
    out.holds = holds(chemistry, &mut out);
    let rated = question.capacity.max(AmpHours::new(1e-3));
    out.health = out.holds.map(|holds| holds.each(|held| Share::new(held / rated)));
    out.remarks.extend(out.health.and_then(|health| worn(health, out.end_of_life)));
    Some(out)
}

impl<Q: Copy> Between<Q> {
    fn each<R>(self, f: impl Fn(Q) -> R) -> Between<R> {
        Between { least: f(self.least), likely: f(self.likely), most: f(self.most) }
    }
}

fn width(charge: Between<Share>) -> f64 {
    (charge.most - charge.least).get()
}

/// Read backwards in both tables of the chemistry.
fn by_voltage(chemistry: &Chemistry, question: &UsedQuestion, remarks: &mut Vec<String>) -> Option<Between<Share>> {
    let rested = question.rested?;
    let rest = question.rest.unwrap_or(RESTED);
    let off = METER + chemistry.resting.hysteresis.get() + if rest < RESTED { UNRESTED } else { 0.0 };
    if rest < RESTED {
        remarks.push(format!("rested for {rest} only: after {RESTED} without current its voltage tells more"));
    }
    let warmer = chemistry.resting.v_per_k * (question.air.unwrap_or(Celsius::new(25.0)).get() - 25.0);
    let at = |volts: f64| chemistry.resting.charges(Volts::new(volts - warmer));
    let (low, mid, high) = (at(rested.get() - off), at(rested.get()), at(rested.get() + off));
    let (low, mid, high) = (low?, mid?, high?);
    let charge = Between { least: low.0, likely: (mid.0 + mid.1) * 0.5, most: high.1 };
    if width(charge) > VAGUE {
        remarks.push(format!(
            "{rested} may be anything from {} to {}: this kind does not tell its charge by its voltage there",
            charge.least, charge.most
        ));
    }
    Some(charge)
}

/// The weakest cell gives out first, so the lowest density counts.
fn by_density(chemistry: &Chemistry, question: &UsedQuestion, remarks: &mut Vec<String>) -> Option<Between<Share>> {
    let lowest = question.densities.iter().copied().reduce(f64::min)?;
    let highest = question.densities.iter().copied().fold(lowest, f64::max);
    if chemistry.charge.gas.is_none_or(|gas| gas <= VALVE_REGULATED) {
        remarks.push(format!("{} has no free acid that a hydrometer could reach", chemistry.name));
        return None;
    }
    if highest - lowest > acid::SPREAD {
        remarks.push(format!(
            "the cells differ by {:.3}, more than {:.3}: charge it to full with an equalising charge; if they differ then, \
             a cell is gone",
            highest - lowest,
            acid::SPREAD
        ));
    }
    let density = acid::corrected(lowest, question.air.unwrap_or(Celsius::new(25.0)));
    let [least, likely, most] = acid::charge(density);
    Some(Between { least, likely, most })
}

/// What it holds, from a discharge that was timed.
fn holds(chemistry: &Chemistry, out: &mut UsedAnswer) -> Option<Between<AmpHours>> {
    let (drawn, lasted) = (out.question.drawn?, out.question.lasted?);
    let charge = drawn * lasted;
    match out.charge {
        Some(after) if width(after) > VAGUE || after.most.get() > 0.8 => {
            out.remarks.push(
                "too little is known of the charge after the discharge: draw it further, to where it is called empty, and \
                 leave the voltage out"
                    .into(),
            );
            None
        }
        Some(after) => {
            let by = |left: Share, off: f64| charge * ((1.0 + off) / (1.0 - left.get()).max(0.05));
            Some(Between { least: by(after.least, -TIMED), likely: by(after.likely, 0.0), most: by(after.most, TIMED) })
        }
        None => Some(down_to_empty(chemistry, &out.question, charge)),
    }
}

/// At the rated hours and 25 °C, by Peukert's law and by what cold leaves.
fn down_to_empty(chemistry: &Chemistry, question: &UsedQuestion, charge: AmpHours) -> Between<AmpHours> {
    let (rated, air) = (chemistry.rate.rated, question.air.unwrap_or(Celsius::new(25.0)));
    let lasted = question.lasted.unwrap_or(rated).max(Hours::new(0.01));
    let faster = (rated.get() / lasted.get()).max(1.0);
    let by_rate = faster.powf(1.0 - 1.0 / chemistry.rate.peukert.max(1.0));
    let by_air = |off: f64| 1.0 / cold_factor(chemistry, air + Kelvins::new(off)).get();
    // Half of the law either way: the exponent differs from battery to battery.
    let (less, more) = (by_rate.sqrt(), by_rate.powf(1.5));
    Between {
        least: charge * (less * by_air(3.0) * (1.0 - TIMED)),
        likely: charge * (by_rate * by_air(0.0)),
        most: charge * (more * by_air(-3.0) * (1.0 + TIMED)),
    }
}

fn worn(health: Between<Share>, end: Share) -> Option<String> {
    let still = format!("it still holds {} of its rating ({} to {})", health.likely, health.least, health.most);
    if health.most < end {
        Some(format!("{still}, under the {end} at which it is replaced: do not build on it"))
    } else if health.least < end {
        Some(format!("{still}; it may be under the {end} at which it is replaced: plan with the lowest"))
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::design;
    use crate::plan::read;

    fn ask(chemistry: &str, capacity: f64) -> UsedQuestion {
        UsedQuestion { chemistry: chemistry.into(), capacity: AmpHours::new(capacity), ..UsedQuestion::default() }
    }

    fn judged(question: &UsedQuestion) -> UsedAnswer {
        used_question(&Catalogue::embedded().unwrap(), question).unwrap()
    }

    /// Trojan Battery Company, data sheet T-105 (year not recorded): 185 Ah in 5 h, 207 Ah in 10 h, 225 Ah in 20 h, of
    /// one and the same new battery. IEEE Std 485 Table 1: at 4.4 °C it gives 76.9 %.
    #[test]
    fn a_new_battery_by_its_sheet_holds_its_rating() {
        for (charge, hours, air) in
            [(185.0, 5.0, 25.0), (207.0, 10.0, 25.0), (225.0, 20.0, 25.0), (225.0 * 0.769, 20.0, 4.4)]
        {
            let question = UsedQuestion {
                drawn: Some(Amps::new(charge / hours)),
                lasted: Some(Hours::new(hours)),
                air: Some(Celsius::new(air)),
                ..ask("flooded", 225.0)
            };
            let holds = judged(&question).holds.unwrap();
            assert!(holds.least.get() <= 225.0 && 225.0 <= holds.most.get(), "{hours} h: {holds:?}");
            assert!((holds.likely.get() / 225.0 - 1.0).abs() < 0.05, "{hours} h: {holds:?}");
        }
    }

    /// US Army TM 5-3805-262-20 p. 5-142: 12.6 V is full, 12.4 V 75 %, 12.2 V 50 %, 12.0 V 25 %.
    #[test]
    fn a_rested_voltage_tells_what_the_army_reads_from_it() {
        for (volts, share) in [(12.6, 1.0), (12.4, 0.75), (12.2, 0.5), (12.0, 0.25)] {
            let charge =
                judged(&UsedQuestion { rested: Some(Volts::new(volts)), ..ask("flooded", 100.0) }).charge.unwrap();
            assert!(charge.least.get() <= share && share <= charge.most.get(), "{volts} V: {charge:?}");
            assert!((charge.likely.get() - share).abs() < 0.05, "{volts} V: {charge:?}");
        }
    }

    /// 40 Ah drawn from full leave 50 % of what an 80 Ah battery holds: 12.2 V.
    #[test]
    fn a_discharge_that_stops_half_way_tells_too() {
        let question = UsedQuestion {
            rested: Some(Volts::new(12.2)),
            drawn: Some(Amps::new(4.0)),
            lasted: Some(Hours::new(10.0)),
            ..ask("flooded", 100.0)
        };
        let answer = judged(&question);
        let (holds, health) = (answer.holds.unwrap(), answer.health.unwrap());
        assert!(holds.least.get() < 80.0 && 80.0 < holds.most.get(), "{holds:?}");
        assert!((health.likely.get() - 0.8).abs() < 0.05 && !answer.remarks.is_empty(), "{answer:?}");
    }

    /// A flat voltage tells nothing, and says so; nor has a closed battery acid to measure.
    #[test]
    fn what_cannot_be_told_is_not_told() {
        let half_way = UsedQuestion {
            rested: Some(Volts::new(13.2)),
            drawn: Some(Amps::new(10.0)),
            lasted: Some(Hours::new(4.0)),
            ..ask("lithium-iron-phosphate", 100.0)
        };
        let answer = judged(&half_way);
        assert!(
            width(answer.charge.unwrap()) > VAGUE && answer.holds.is_none() && answer.remarks.len() == 2,
            "{answer:?}"
        );
        let closed = judged(&UsedQuestion { densities: vec![1.25], ..ask("agm", 100.0) });
        assert!(closed.charge.is_none() && !closed.remarks.is_empty());
    }

    /// A cell that is 0.05 lower than the rest decides, and is told.
    #[test]
    fn the_weakest_cell_counts() {
        let cells = |last: f64| UsedQuestion { densities: vec![1.265, 1.265, 1.265, last], ..ask("flooded", 100.0) };
        let (weak, even) = (judged(&cells(1.215)), judged(&cells(1.265)));
        assert!(weak.charge.unwrap().most < even.charge.unwrap().likely);
        assert_eq!((weak.remarks.len(), even.remarks.len()), (1, 0));
    }

    /// 70 Ah left of 100 Ah, where 80 Ah were counted on: 8/7 of the capacity is asked for.
    #[test]
    fn what_a_test_found_sizes_the_plan() {
        let catalogue = Catalogue::embedded().unwrap();
        let needed = |tested: &str| {
            let text = format!(
                "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n{tested}\n[[load]]\nname = \"lamp\"\ncurrent_a = 1\n"
            );
            design(&read(&text, &catalogue).plan, &catalogue).battery.needed.get()
        };
        assert!((needed("tested_ah = 70") / needed("") - 8.0 / 7.0).abs() < 0.005);
        assert_eq!(needed("tested_ah = 95"), needed(""));
        // A measurement with its month counts before a test without one, the last of several.
        let measured = |ah: u32, year: u32| format!("[[measured]]\nyear = {year}\nmonth = 3\ncapacity_ah = {ah}\n");
        let twice = format!("tested_ah = 95\n{}{}", measured(70, 2026), measured(90, 2024));
        assert_eq!(needed(&twice), needed("tested_ah = 70"));
    }
}
