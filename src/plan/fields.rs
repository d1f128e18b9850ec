//! Every field of a plan, with where its value stands.

use super::beneath::{AsBuilt, Beneath, Drilled};
use super::block::Block;
use super::board::Board;
use super::cut_off::CutOff;
use super::field::{Absent, Field};
use super::hold_down::{HoldDown, Stud};
use super::load::Load;
use super::measured::Measured;
use super::model::{
    Charger, Inverter, Job, Mains, Plan, PlanRules, ServiceBattery, Solar, Standing, StarterBattery, Surroundings,
    Vehicle,
};
use super::mounted::Mounted;
use super::price::Price;
use super::reading::{Meter, Reading};
use super::returns::{Bond, MainSwitch, Plug};
use super::run::Run;
use super::section::{Place, Section};
use super::table::Item;
use super::value::Value;

/// All fields of a section, in the order of the file and the screens.
pub fn fields_of(section: Section) -> impl Iterator<Item = &'static Field> {
    ALL.iter().flat_map(|group| group.iter()).filter(move |f| f.section == section)
}

/// The field of a place.
pub fn field_at(place: Place) -> Option<&'static Field> {
    fields_of(place.section).find(|f| f.key == place.key)
}

/// Every field, grouped by section in the order of the file.
static ALL: &[&[Field]] = &[
    Job::FIELDS,
    Surroundings::FIELDS,
    Vehicle::FIELDS,
    StarterBattery::FIELDS,
    ServiceBattery::FIELDS,
    Charger::FIELDS,
    CutOff::FIELDS,
    Solar::FIELDS,
    Mains::FIELDS,
    Inverter::FIELDS,
    Bond::FIELDS,
    MainSwitch::FIELDS,
    HoldDown::FIELDS,
    Beneath::FIELDS,
    AsBuilt::FIELDS,
    Meter::FIELDS,
    Standing::FIELDS,
    PlanRules::FIELDS,
    Board::FIELDS,
    Plug::FIELDS,
    Load::FIELDS,
    Run::FIELDS,
    Stud::FIELDS,
    Drilled::FIELDS,
    Mounted::FIELDS,
    Reading::FIELDS,
    Block::FIELDS,
    Price::FIELDS,
    Measured::FIELDS,
];

macro_rules! items {
    ($(one $section:ident $part:ident;)* $(many $list:ident $parts:ident: $type:ident;)*) => {
        impl Section {
            /// How many of it a plan has; 1 for the sections that are no lists.
            pub fn count(self, plan: &Plan) -> usize {
                match self {
                    $(Section::$list => plan.$parts.len(),)*
                    _ => 1,
                }
            }

            /// Append an empty item to a list.
            pub(super) fn grow(self, plan: &mut Plan) {
                match self {
                    $(Section::$list => plan.$parts.push($type::default()),)*
                    _ => {}
                }
            }

            /// Take an item out of a list.
            fn shrink(self, plan: &mut Plan, index: usize) {
                match self {
                    $(Section::$list if index < plan.$parts.len() => drop(plan.$parts.remove(index)),)*
                    _ => {}
                }
            }

            fn item(self, plan: &Plan, index: usize) -> Option<&dyn Item> {
                match self {
                    $(Section::$section => Some(&plan.$part),)*
                    $(Section::$list => plan.$parts.get(index).map(|item| item as &dyn Item),)*
                }
            }

            fn item_mut(self, plan: &mut Plan, index: usize) -> Option<&mut dyn Item> {
                match self {
                    $(Section::$section => Some(&mut plan.$part),)*
                    $(Section::$list => plan.$parts.get_mut(index).map(|item| item as &mut dyn Item),)*
                }
            }
        }
    };
}

items! {
    one Job job;
    one Surroundings surroundings;
    one Vehicle vehicle;
    one StarterBattery starter_battery;
    one ServiceBattery service_battery;
    one Charger charger;
    one CutOff cut_off;
    one Solar solar;
    one Mains mains;
    one Inverter inverter;
    one Bond bond;
    one MainSwitch main_switch;
    one HoldDown hold_down;
    one Beneath beneath;
    one AsBuilt as_built;
    one Meter meter;
    one Standing standing;
    one Rules rules;
    many Board boards: Board;
    many Plug plugs: Plug;
    many Load loads: Load;
    many Run runs: Run;
    many Stud studs: Stud;
    many Drilled drilled: Drilled;
    many Mounted mounted: Mounted;
    many Reading readings: Reading;
    many Block blocks: Block;
    many Price prices: Price;
    many Measured measured: Measured;
}

impl Field {
    /// The value in a plan; `None` when left to the engine, or when there is no such item.
    pub fn get(&self, plan: &Plan, index: usize) -> Option<Value> {
        self.section.item(plan, index)?.slot(self.key)?.read()
    }

    /// Put a value in.
    pub(super) fn put(&self, plan: &mut Plan, index: usize, value: Value) {
        if let Some(slot) = self.section.item_mut(plan, index).and_then(|item| item.slot_mut(self.key)) {
            slot.write(value);
        }
    }

    /// The value a new plan has.
    pub fn default_value(&self) -> Option<Value> {
        self.left_out().filter(|v| !matches!(v, Value::Text(t) if t.is_empty()))
    }

    /// The value of a key that is not there; `None` where the engine chooses then.
    fn left_out(&self) -> Option<Value> {
        let mut plan = Plan::default();
        self.section.grow(&mut plan);
        self.get(&plan, 0)
    }
}

/// Whether an edit takes a whole item out of its list: it is none without this key.
pub(super) fn takes_out(field: &Field, value: Option<&Value>) -> bool {
    value.is_none() && field.absent == Absent::NotAllowed && field.section.is_list()
}

impl Plan {
    /// The plan that its text gives after the same edit ([`super::edit::put`]), for trying it out; `None` as value
    /// takes the key out. `None` where there is no such field.
    pub fn with(&self, place: Place, value: Option<&Value>) -> Option<Plan> {
        let mut plan = self.clone();
        let field = field_at(place)?;
        if takes_out(field, value) {
            field.section.item(&plan, place.index)?;
            field.section.shrink(&mut plan, place.index);
            return Some(plan);
        }
        if place.index == field.section.count(&plan) {
            field.section.grow(&mut plan);
        }
        let other = match place.key {
            // A load is given by power or by current.
            "power_w" if value.is_some() => Some("current_a"),
            "current_a" if place.section == Section::Load && value.is_some() => Some("power_w"),
            _ => None,
        };
        if let Some(key) = other {
            place.section.item_mut(&mut plan, place.index)?.slot_mut(key)?.empty();
        }
        let slot = place.section.item_mut(&mut plan, place.index)?.slot_mut(place.key)?;
        match value.cloned().or_else(|| field.left_out()) {
            Some(value) => slot.write(value),
            None => slot.empty(),
        }
        Some(plan)
    }
}
