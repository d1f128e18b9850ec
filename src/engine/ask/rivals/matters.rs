//! Which of the user's own numbers, if it is a tenth off, changes what is bought?

use super::variant::Bench;
use crate::engine::ask::mend::allowed::is_part;
use crate::engine::ask::mend::changes::purchases;
use crate::engine::ask::mend::words::demand;
use crate::engine::judge::remedy::Edit;
use crate::plan::{Kind, Place, Section, Value, fields_of};
use crate::quantity::Unit;

/// So far a number may be off, as a share of it.
const OFF: f64 = 0.1;
/// So far a temperature may be off, kelvin: a tenth of a number in °C means nothing. Common practice, no source.
const OFF_K: f64 = 3.0;

/// The sections in which the user says what the plan is for and where.
const SECTIONS: [Section; 10] = [
    Section::Surroundings,
    Section::Vehicle,
    Section::StarterBattery,
    Section::ServiceBattery,
    Section::CutOff,
    Section::Solar,
    Section::Mains,
    Section::Inverter,
    Section::Load,
    Section::Run,
];

/// A number of the user's, and what else would be bought if it were off.
#[derive(Clone, Debug, PartialEq)]
pub struct Matter {
    /// The number: `fridge, power 45 W`.
    pub words: String,
    /// Where it stands.
    pub place: Place,
    /// What changes where it is less.
    pub less: Vec<String>,
    /// What changes where it is more.
    pub more: Vec<String>,
}

/// What matters most, and of how many numbers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Matters {
    /// Those that change a purchase, that which changes most first.
    pub list: Vec<Matter>,
    /// How many numbers were tried, each a tenth less and a tenth more.
    pub tried: usize,
}

/// Try each number that the plan gives otherwise than a new plan has it.
pub fn matters(bench: &Bench) -> Matters {
    let mut out = Matters::default();
    for section in SECTIONS {
        for index in 0..section.count(bench.plan) {
            for field in fields_of(section) {
                let place = Place { section, index, key: field.key };
                let value = field.get(bench.plan, index);
                let Kind::Number { unit, min, max, whole: false } = field.kind else { continue };
                let Some(Value::Number(now)) = value.clone().filter(|v| field.default_value().as_ref() != Some(v))
                else {
                    continue;
                };
                if is_part(place) {
                    continue;
                }
                let by = if unit == Unit::Celsius { OFF_K } else { now.abs() * OFF };
                let bought = |number: f64| {
                    let value = Some(Value::Number(number.clamp(min, max)));
                    let after = bench.design(&[Edit { place, value }]);
                    after.map_or_else(Vec::new, |after| purchases(bench.before, &after))
                };
                let (less, more) = (bought(now - by), bought(now + by));
                out.tried += 1;
                if !less.is_empty() || !more.is_empty() {
                    let words = demand(&bench.before.installation, bench.plan, place);
                    out.list.push(Matter { words, place, less, more });
                }
            }
        }
    }
    out.list.sort_by_key(|m| std::cmp::Reverse(m.less.len() + m.more.len()));
    out
}
