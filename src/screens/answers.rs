//! Which plan follows from a few answers?
//!
//! Each has a usual value; everything can be changed on the screens afterwards.

use crate::catalogue::{Catalogue, TypicalLoad};
use crate::engine::{Design, Finding, Severity, design};
use crate::plan::{
    self, BatteryPlace, Choice, EditError, LoadKind, Place, Section, Value, Weekdays, Window, Windows, point,
};
use strum::VariantArray;

const PANEL: &str = "panel";
const FRONT: &str = "front panel";
/// Typical loads that hang on the second fuse box where there is one.
const IN_FRONT: [&str; 2] = ["light", "electronics"];
/// What a usual fuse box takes.
pub const STYLE: &str = "blade-c";
/// From the fuse box to a load, until it is measured, metres.
pub const LEAD: f64 = 2.0;
/// Mean air of a plan that says nothing of it.
const MEAN: f64 = 12.0;

/// Days without charge that a bank is planned for, where one for fewer has a stop. Common practice, no source.
const DAYS: f64 = 2.0;

/// What a new plan is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct Answers {
    /// What it is for.
    pub title: String,
    /// Typical loads taken, by their row in the catalogue.
    pub loads: Vec<usize>,
    /// Row of the chemistry.
    pub chemistry: usize,
    /// From the battery to the loads, metres.
    pub length: f64,
    /// From the battery to a second fuse box, metres; 0 for none.
    pub front: f64,
    /// Engine running on a day with a drive, hours.
    pub driving: f64,
    /// Days with a drive.
    pub days: Weekdays,
    /// Where it stands, by the order of the choice.
    pub place: usize,
    /// Coldest air.
    pub coldest: f64,
}

/// A plan that follows from answers, as text and worked out.
pub struct Answered {
    /// Its text.
    pub text: String,
    /// What follows from it.
    pub design: Design,
}

impl Answered {
    fn of(text: String, catalogue: &Catalogue) -> Answered {
        let design = design(&plan::read(&text, catalogue).plan, catalogue);
        Answered { text, design }
    }

    /// What must not be built.
    pub fn stops(&self) -> impl Iterator<Item = &Finding> {
        self.design.findings.iter().filter(|f| f.severity == Severity::Stop)
    }

    /// Another, where that leaves fewer stops.
    fn or(self, other: impl Fn(&Answered) -> Result<Option<Answered>, EditError>) -> Result<Answered, EditError> {
        if self.stops().next().is_none() {
            return Ok(self);
        }
        let better = other(&self)?.filter(|other| other.stops().count() < self.stops().count());
        Ok(better.unwrap_or(self))
    }

    /// With a bank for [`DAYS`] without charge: one for less may be too small for what is drawn at once.
    fn larger(&self, catalogue: &Catalogue) -> Result<Option<Answered>, EditError> {
        if self.design.installation.days_without_charge.get() >= DAYS {
            return Ok(None);
        }
        let days = Place::of(Section::ServiceBattery, "days_without_charge");
        let text = plan::set(&self.text, days, Some(&Value::Number(DAYS)))?;
        Ok(Some(Answered::of(text, catalogue)))
    }

    /// With the bank in as many blocks, each behind a device of its own, as a stop asks for; `None` where none does.
    fn in_blocks(&self, catalogue: &Catalogue) -> Result<Option<Answered>, EditError> {
        let blocks = Place::of(Section::ServiceBattery, "in_parallel");
        let mut offered = self.stops().flat_map(|f| &f.remedies);
        let Some(remedy) = offered.find(|r| r.edits.iter().any(|e| e.place == blocks && e.value.is_some())) else {
            return Ok(None);
        };
        let mut text = self.text.clone();
        for edit in &remedy.edits {
            text = plan::set(&text, edit.place, edit.value.as_ref())?;
        }
        Ok(Some(Answered::of(text, catalogue)))
    }
}

impl Answers {
    /// The plan.
    ///
    /// # Errors
    /// Never with the catalogue of the program; the edits are those of the screens.
    pub fn plan(&self, catalogue: &Catalogue) -> Result<Answered, EditError> {
        let plan = Answered::of(self.text(catalogue)?, catalogue);
        let plan = plan.or(|p| p.larger(catalogue))?;
        plan.or(|p| p.in_blocks(catalogue))
    }

    fn text(&self, catalogue: &Catalogue) -> Result<String, EditError> {
        let mut text = String::from("format = 2\n");
        let mut set = |place: Place, value: Value| -> Result<(), EditError> {
            text = plan::set(&text, place, Some(&value))?;
            Ok(())
        };
        set(Place::of(Section::Job, "title"), Value::Text(self.title.clone()))?;
        let minutes = (self.driving * 60.0).round() as u16;
        if minutes > 0 {
            let from = 7 * 60;
            let windows = Windows(vec![Window { from, to: from + minutes }]);
            set(Place::of(Section::Vehicle, "driving"), Value::Windows(windows))?;
        }
        if let Some(chemistry) = catalogue.chemistries.get(self.chemistry) {
            set(Place::of(Section::ServiceBattery, "chemistry"), Value::Text(chemistry.key.clone()))?;
            if self.coldest < chemistry.limits.charge_min.get() {
                // It could not be charged else; the finding about the heater's draw tells of it.
                set(Place::of(Section::ServiceBattery, "heated"), Value::Flag(true))?;
            }
        }
        if let Some(place) = BatteryPlace::VARIANTS.get(self.place).filter(|p| **p != BatteryPlace::Cabin) {
            set(Place::of(Section::ServiceBattery, "place"), Value::Text(place.key().into()))?;
        }
        set(Place::of(Section::Charger, "enable_signal"), Value::Flag(true))?;
        set(Place::of(Section::CutOff, "senses_at"), Value::Text(point::CUT_OFF.into()))?;
        set(Place::of(Section::Surroundings, "coldest_c"), Value::Number(self.coldest))?;
        if self.coldest > MEAN {
            set(Place::of(Section::Surroundings, "mean_c"), Value::Number(self.coldest))?;
        }
        if self.days != Weekdays::all() && minutes > 0 {
            set(Place::of(Section::Vehicle, "driving_days"), Value::Weekdays(self.days))?;
        }
        let loads: Vec<&TypicalLoad> = self.loads.iter().filter_map(|n| catalogue.loads.get(*n)).collect();
        let in_front = |load: &TypicalLoad| self.front > 0.0 && IN_FRONT.contains(&load.group.as_str());
        // A box is there when something hangs on it; without a load the first is there for those to come.
        let boxes = [(PANEL, self.length, false), (FRONT, self.front, true)];
        let hangs = |front: bool| loads.is_empty() && !front || loads.iter().any(|l| in_front(l) == front);
        let boxes = boxes.into_iter().filter(|(_, _, front)| hangs(*front));
        let boxes: Vec<(&str, f64, bool)> = boxes.collect();
        for (name, _, _) in &boxes {
            let board = [
                ("name", Value::Text((*name).into())),
                ("kind", Value::Text("fuse-box".into())),
                ("style", Value::Text(STYLE.into())),
            ];
            text = plan::insert(&text, Section::Board, usize::MAX, &board)?;
        }
        for load in &loads {
            let mut values = load_values(load, &load.name, if in_front(load) { FRONT } else { PANEL });
            if !load.inverter {
                values.push(("lead_m", Value::Number(LEAD)));
            }
            text = plan::insert(&text, Section::Load, usize::MAX, &values)?;
        }
        let runs = [
            (point::STARTER_BATTERY, point::CHARGER, 4.0, "engine-bay"),
            (point::SERVICE_BATTERY, point::CHARGER, 0.8, "cabin"),
            (point::SERVICE_BATTERY, point::CUT_OFF, 0.5, "cabin"),
        ];
        let to_boxes = boxes.iter().map(|(name, length, _)| (point::CUT_OFF, *name, *length, "cabin"));
        for (from, to, length, through) in runs.into_iter().chain(to_boxes) {
            let values = [
                ("from", Value::Text(from.into())),
                ("to", Value::Text(to.into())),
                ("length_m", Value::Number(length)),
                ("surroundings", Value::Text(through.into())),
            ];
            text = plan::insert(&text, Section::Run, usize::MAX, &values)?;
        }
        Ok(text)
    }
}

/// The fields of a load taken from the catalogue.
pub fn load_values(load: &TypicalLoad, name: &str, at: &str) -> Vec<(&'static str, Value)> {
    let mut values = vec![
        ("name", Value::Text(name.into())),
        ("at", Value::Text(at.into())),
        ("power_w", Value::Number(load.power.get())),
    ];
    if load.kind != LoadKind::default().key() {
        values.push(("kind", Value::Text(load.kind.clone())));
    }
    if load.inverter {
        values.push(("inverter", Value::Flag(true)));
    }
    if load.hours.get() < 24.0 {
        values.push(("duty.hours_a_day", Value::Number(load.hours.get())));
    }
    if load.share_on.get() < 1.0 {
        values.push(("duty.share_on", Value::Number(load.share_on.get())));
    }
    if load.start_times > 1.0 {
        values.push(("start.times", Value::Number(load.start_times)));
        values.push(("start.seconds", Value::Number(load.start.get())));
    }
    let cycle = [("on_s", load.on), ("off_s", load.off)];
    values.extend(cycle.into_iter().filter_map(|(key, time)| Some((key, Value::Number(time?.get())))));
    values.push(("drop", Value::Text(load.drop.clone())));
    if let Some(lowest) = load.lowest {
        values.push(("lowest_v", Value::Number(lowest.get())));
    }
    values
}
