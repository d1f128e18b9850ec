//! A new plan from a few questions, for the first visit.
//!
//! Each answer has a usual value, so that Enter each time gives a small plan
//! that works; everything can be changed on the screens afterwards.

use super::edit::{fits, type_over};
use super::keymap::Mode;
use crate::catalogue::{Catalogue, TypicalLoad};
use crate::plan::{
    self, BatteryPlace, Choice, EditError, LoadKind, Place, Section, Value, Weekdays, Window, Windows, point,
};
use crate::quantity::{Unit, parse};
use strum::VariantArray;
use tui_input::{Input, InputRequest};

/// A question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // the words say it
pub enum Question {
    Title,
    Loads,
    Chemistry,
    Distance,
    Front,
    Driving,
    Days,
    Place,
    Coldest,
}

impl Question {
    /// All of them, in the order they are asked.
    pub const ALL: &'static [Question] = &[
        Question::Title,
        Question::Loads,
        Question::Chemistry,
        Question::Distance,
        Question::Front,
        Question::Driving,
        Question::Days,
        Question::Place,
        Question::Coldest,
    ];

    /// Its number, from 1.
    pub fn number(self) -> usize {
        Question::ALL.iter().position(|q| *q == self).map_or(1, |n| n + 1)
    }

    /// What is asked, and how to answer it.
    pub fn words(self) -> (&'static str, &'static str) {
        match self {
            Question::Title => ("What is the plan for?", "Type a title in place of this one."),
            Question::Loads => {
                ("Which loads will it feed?", "Space ticks, typing searches; Enter takes what is found, then goes on.")
            }
            Question::Chemistry => {
                ("Which battery chemistry?", "Choose one; the Battery screen compares them side by side later.")
            }
            Question::Distance => (
                "How far is it from the battery to the fuse box?",
                "One way along the cable, such as 4 m or 13 ft; typing replaces the answer.",
            ),
            Question::Front => (
                "And to a second fuse box, for lights and electronics?",
                "Such as 3 m; 0 where one box is enough. Loads can change their box later.",
            ),
            Question::Driving => (
                "How long does the engine run on a day with a drive?",
                "Such as 1h30, or 0 if it is not driven; typing replaces the answer.",
            ),
            Question::Days => (
                "On which days is it driven?",
                "Such as every day, every other day, mon-fri, or A: sat for each second week.",
            ),
            Question::Place => (
                "Where does the battery stand?",
                "Choose one: it decides on air, gas and guards; the Battery screen has the rest.",
            ),
            Question::Coldest => (
                "How cold does it get where the battery stands?",
                "Such as -5 °C or 23 °F. Where it is too cold to charge, a heater pad is planned.",
            ),
        }
    }

    fn after(self) -> Option<Question> {
        Question::ALL.get(self.number()).copied()
    }

    fn before(self) -> Option<Question> {
        Question::ALL.get(self.number().checked_sub(2)?).copied()
    }
}

/// The answers so far.
#[derive(Clone, Debug)]
pub struct Walk {
    /// What is asked now.
    pub question: Question,
    /// What is typed: the answer, or the filter of a list.
    pub input: Input,
    /// Nothing was typed yet: the first letter replaces the usual answer.
    pub fresh: bool,
    /// Row in hand of a list, among those that match.
    pub pick: usize,
    /// Why the answer was not taken.
    pub error: Option<String>,
    /// What it is for.
    title: String,
    /// Typical loads taken, by their row in the catalogue.
    pub loads: Vec<usize>,
    /// Row of the chemistry.
    pub chemistry: usize,
    /// From the battery to the loads, metres.
    length: f64,
    /// From the battery to a second fuse box, metres; 0 for none.
    front: f64,
    /// Engine running on a day with a drive, hours.
    driving: f64,
    /// Days with a drive.
    days: Weekdays,
    /// Where it stands, by the order of the choice.
    place: usize,
    /// Coldest air.
    coldest: f64,
}

const PANEL: &str = "panel";
const FRONT: &str = "front panel";
/// Typical loads that hang on the second fuse box where there is one.
const IN_FRONT: [&str; 2] = ["light", "electronics"];
/// What a usual fuse box takes.
pub const STYLE: &str = "blade-c";
/// From the fuse box to a load, until it is measured, metres.
pub const LEAD: f64 = 2.0;

impl Walk {
    /// Before the first answer.
    pub fn new(catalogue: &Catalogue) -> Walk {
        let fridge = catalogue.loads.iter().position(|l| l.name.contains("fridge")).unwrap_or(0);
        let chemistry = catalogue.chemistries.iter().position(|c| c.key == "lithium-iron-phosphate").unwrap_or(0);
        Walk {
            question: Question::Title,
            input: Input::new("My van".into()),
            fresh: true,
            pick: 0,
            error: None,
            title: String::new(),
            loads: vec![fridge],
            chemistry,
            length: 4.0,
            front: 0.0,
            driving: 1.5,
            days: Weekdays::all(),
            place: 0,
            coldest: -5.0,
        }
    }

    /// How keys are taken.
    pub fn mode(&self) -> Mode {
        if self.is_list() { Mode::Menu } else { Mode::Typing }
    }

    /// Whether the question is answered from a list.
    pub fn is_list(&self) -> bool {
        matches!(self.question, Question::Loads | Question::Chemistry | Question::Place)
    }

    /// Whether a space takes the row in hand in or out: in a search it is a space.
    pub fn ticks(&self) -> bool {
        self.question == Question::Loads && self.input.value().is_empty()
    }

    /// Rows of the list that match what is typed: index, words, whether taken.
    pub fn rows(&self, catalogue: &Catalogue) -> Vec<(usize, String, bool)> {
        let typed = self.input.value();
        let row = |l: &TypicalLoad| format!("{} · {} · {}", l.name, l.group, l.power);
        let all: Vec<(usize, String, bool)> = match self.question {
            Question::Loads => {
                catalogue.loads.iter().enumerate().map(|(i, l)| (i, row(l), self.loads.contains(&i))).collect()
            }
            Question::Chemistry => catalogue
                .chemistries
                .iter()
                .enumerate()
                .map(|(i, c)| (i, format!("{} · {}", c.name, c.about), self.chemistry == i))
                .collect(),
            Question::Place => {
                let words = BatteryPlace::words().into_iter().enumerate();
                words.map(|(i, (key, about))| (i, format!("{key} · {about}"), self.place == i)).collect()
            }
            _ => Vec::new(),
        };
        all.into_iter().filter(|(_, words, _)| fits(typed, &[words])).collect()
    }

    /// Change what is typed.
    pub fn type_in(&mut self, request: InputRequest) {
        type_over(&mut self.input, self.fresh, request);
        self.fresh = false;
        self.pick = 0;
        self.error = None;
    }

    /// Take the row in hand in or out.
    pub fn toggle(&mut self, catalogue: &Catalogue) {
        let Some((index, _, _)) = self.rows(catalogue).into_iter().nth(self.pick) else { return };
        match self.question {
            Question::Loads if self.loads.contains(&index) => self.loads.retain(|i| *i != index),
            Question::Loads => self.loads.push(index),
            Question::Place => self.place = index,
            _ => self.chemistry = index,
        }
    }

    /// Take the answer and go on. True after the last.
    pub fn answer(&mut self, catalogue: &Catalogue) -> bool {
        self.error = None;
        let typed = self.input.value().trim().to_string();
        let in_hand = self.rows(catalogue).get(self.pick).map(|(index, _, _)| *index);
        match self.question {
            Question::Title => self.title = typed,
            // What was searched for is taken; the next search may follow.
            Question::Loads if !typed.is_empty() => return self.take_load(in_hand, &typed),
            Question::Loads => {}
            Question::Chemistry => match in_hand {
                Some(chemistry) => self.chemistry = chemistry,
                None => return self.refuse(format!("no chemistry in the list is like “{typed}”")),
            },
            Question::Place => match in_hand {
                Some(place) => self.place = place,
                None => return self.refuse(format!("no place in the list is like “{typed}”")),
            },
            Question::Distance => match number(&typed, Unit::Metre, 0.1, 50.0) {
                Ok(length) => self.length = length,
                Err(reason) => return self.refuse(reason),
            },
            Question::Front => match number(&typed, Unit::Metre, 0.0, 50.0) {
                Ok(length) => self.front = length,
                Err(reason) => return self.refuse(reason),
            },
            Question::Days => match Weekdays::parse(&typed) {
                Ok(days) => self.days = days,
                Err(reason) => return self.refuse(reason),
            },
            Question::Coldest => match number(&typed, Unit::Celsius, -60.0, 40.0) {
                Ok(coldest) => self.coldest = coldest,
                Err(reason) => return self.refuse(reason),
            },
            Question::Driving => match number(&typed, Unit::Hour, 0.0, 16.0) {
                Ok(hours) => self.driving = hours,
                Err(reason) => return self.refuse(reason),
            },
        }
        match self.question.after() {
            Some(next) => self.go(next),
            None => return true,
        }
        false
    }

    /// Take the load that a search has found in, and search anew.
    fn take_load(&mut self, found: Option<usize>, typed: &str) -> bool {
        let Some(load) = found else { return self.refuse(format!("no load in the list is like “{typed}”")) };
        if !self.loads.contains(&load) {
            self.loads.push(load);
        }
        self.input.reset();
        self.pick = load;
        false
    }

    /// Back to the question before; false before the first.
    pub fn back(&mut self) -> bool {
        let Some(before) = self.question.before() else { return false };
        self.go(before);
        true
    }

    fn refuse(&mut self, reason: String) -> bool {
        self.error = Some(reason);
        false
    }

    fn go(&mut self, question: Question) {
        self.question = question;
        self.pick = match question {
            Question::Chemistry => self.chemistry,
            Question::Place => self.place,
            _ => 0,
        };
        self.error = None;
        self.fresh = true;
        self.input = Input::new(match question {
            Question::Title => self.title.clone(),
            Question::Distance => format!("{} m", self.length),
            Question::Front => format!("{} m", self.front),
            Question::Driving => format!("{} h", self.driving),
            Question::Days => self.days.to_string(),
            Question::Coldest => format!("{} °C", self.coldest),
            Question::Loads | Question::Chemistry | Question::Place => String::new(),
        });
    }

    /// The text of the plan.
    ///
    /// # Errors
    /// Never with the catalogue of the program; the edits are those of the screens.
    pub fn text(&self, catalogue: &Catalogue) -> Result<String, EditError> {
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

fn number(typed: &str, unit: Unit, min: f64, max: f64) -> Result<f64, String> {
    let value = parse(typed, unit).map_err(|e| e.explain(unit))?;
    if (min..=max).contains(&value) {
        Ok(value)
    } else {
        let figure = |n| crate::quantity::Figure::new(n, unit);
        Err(format!("{} is out of range; it can be from {} to {}", figure(value), figure(min), figure(max)))
    }
}
