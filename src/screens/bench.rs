//! Questions of the bench: which cable, which cut-off, without a plan? Answered while the values are typed.
//!
//! They are the questions of the shell, read by the same fields of the plan and
//! answered in the same words.

use super::edit::{Edit, Typed, exact};
use super::scene::Scene;
use crate::engine::ask::cable::{CableQuestion, cable_question};
use crate::engine::{CutOffAnswer, CutOffQuestion, Severity, cut_off_question};
use crate::papers::{Document, cable_answer, cut_off_answer};
use crate::plan::{Choice, CutOffBy, Load, Place, Plan, Run, Section, SizeFamily, Value, field_at};
use crate::quantity::{Amps, Metres, Quantity};
use std::collections::BTreeMap;

/// Which question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// Which cable for this current and length?
    Cable,
    /// Where to disconnect this battery?
    CutOff,
}

/// A value that is asked for: where a plan keeps one that is read alike, what it is called here, and
/// what stands there first; without that the usual value does.
struct Asks(Place, &'static str, Option<&'static str>);

/// What a value means here, where the plan's field that reads it means something else.
const MEANS: &[(Question, &str, &str)] = &[
    (Question::Cable, "current_a", "What flows through it."),
    (Question::Cable, "drop_ordinary", "What it may lose, out and back, of 12 V."),
    (Question::CutOff, "current_a", "What flows most of the time."),
    (Question::CutOff, "own_draw_a", "The least that flows; else a fifth of the usual current."),
    (Question::CutOff, "rating_a", "The most that flows for minutes; else three times the usual."),
    (Question::CutOff, "coldest_c", "Air at the battery; 25 °C when left out."),
    (Question::CutOff, "cut_v", "A setting to judge instead of choosing one; by signal, where the battery's comes."),
    (
        Question::CutOff,
        "days_without_charge",
        "From one full battery, which sets a counter right, to the next; one when left out.",
    ),
];

const fn run(key: &'static str) -> Place {
    Place::run(0, key)
}

const CABLE: &[Asks] = &[
    Asks(run("current_a"), "Current", Some("20 A")),
    Asks(run("length_m"), "Length one way", Some("5 m")),
    Asks(Place::of(Section::Rules, "drop_ordinary"), "Loss allowed", Some("3 %")),
    Asks(run("surroundings"), "Runs through", None),
    Asks(run("insulation"), "Insulation", None),
    Asks(run("air_c"), "Hottest air", None),
    Asks(run("bundled_with"), "Others bundled", None),
    Asks(Place::of(Section::Rules, "sizes"), "Sizes", None),
    Asks(Place::load(0, "on_s"), "On for at most", None),
    Asks(Place::load(0, "off_s"), "Then off for", None),
];

const CUT_OFF: &[Asks] = &[
    Asks(Place::of(Section::ServiceBattery, "chemistry"), "Chemistry", None),
    Asks(Place::of(Section::ServiceBattery, "capacity_ah"), "Capacity", Some("100 Ah")),
    Asks(run("current_a"), "Usual current", Some("8 A")),
    Asks(Place::of(Section::CutOff, "reserve"), "Charge to keep", None),
    Asks(Place::of(Section::Vehicle, "own_draw_a"), "Light current", Some("")),
    Asks(Place::of(Section::CutOff, "rating_a"), "Heavy current", None),
    Asks(Place::of(Section::Surroundings, "coldest_c"), "Air", Some("")),
    Asks(Place::of(Section::CutOff, "cut_v"), "Judge a setting", None),
    Asks(Place::of(Section::CutOff, "acts_by"), "Acts by", None),
    Asks(Place::of(Section::CutOff, "drift"), "Counter's drift a day", None),
    Asks(Place::of(Section::CutOff, "reset_error"), "Off when full", None),
    Asks(Place::of(Section::ServiceBattery, "days_without_charge"), "Days between fulls", None),
];

impl Question {
    /// Both, in the order offered.
    pub const ALL: [Question; 2] = [Question::Cable, Question::CutOff];

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Question::Cable => "check a cable",
            Question::CutOff => "pick a cut-off",
        }
    }

    /// What taking the answer into the plan does.
    pub fn takes(self) -> &'static str {
        match self {
            Question::Cable => "Ctrl+T: take it into the plan as a new run, with a load of this current",
            Question::CutOff => "Ctrl+T: take battery and settings into the plan",
        }
    }

    fn asks(self) -> &'static [Asks] {
        match self {
            Question::Cable => CABLE,
            Question::CutOff => CUT_OFF,
        }
    }
}

/// A question with the values typed so far.
#[derive(Clone, Debug)]
pub struct Bench {
    /// Which question.
    pub question: Question,
    /// Its values.
    pub asked: Vec<Edit>,
    /// Row in hand: the question itself, then its values.
    pub pick: usize,
    /// First line of the answer that is shown.
    pub scroll: usize,
    /// The answer, or why there is none and by which value.
    pub answer: Result<Answer, (usize, String)>,
}

/// An answer, and what of it a plan can take.
#[derive(Clone, Debug)]
pub struct Answer {
    /// In the words of the shell.
    pub paper: Document,
    /// The settings, unless something forbids them.
    pub settings: Option<Box<CutOffAnswer>>,
}

impl Bench {
    /// Begin with usual values; the chemistry is that of the plan in hand.
    pub fn new(scene: &Scene<'_>, question: Question) -> Bench {
        let mut usual = Plan { runs: vec![Run::default()], ..Plan::default() };
        usual.loads.push(Load::default());
        usual.service_battery.chemistry.clone_from(&scene.plan().service_battery.chemistry);
        let first = |Asks(place, _, first): &Asks| {
            let field = field_at(*place)?;
            let own = || field.get(&usual, 0).map_or_else(String::new, |v| exact(field, &v, scene.units));
            Edit::with(scene, *place, first.map_or_else(own, String::from))
        };
        let asked = question.asks().iter().filter_map(first).collect();
        let mut bench = Bench { question, asked, pick: 1, scroll: 0, answer: Err((0, String::new())) };
        bench.work_out(scene);
        bench
    }

    /// What a value is called here.
    pub fn label(&self, n: usize) -> &'static str {
        self.question.asks().get(n).map_or("", |Asks(_, label, _)| label)
    }

    /// What stands where nothing was typed.
    pub fn unsaid(&self, n: usize) -> &'static str {
        match self.asked.get(n).map(|edit| edit.place.key) {
            Some("on_s") => "steady",
            Some("off_s" | "cut_v") => "–",
            _ => "usual",
        }
    }

    /// What is to be known of the row in hand.
    pub fn about(&self) -> String {
        let edit = self.pick.checked_sub(1).and_then(|n| Some((n, self.asked.get(n)?)));
        match edit.and_then(|(n, edit)| Some((n, field_at(edit.place)?))) {
            Some((n, field)) => {
                let means = MEANS.iter().find(|(of, key, _)| (*of, *key) == (self.question, field.key));
                format!("{}: {}", self.label(n), means.map_or(field.help, |(.., means)| means))
            }
            None => self.question.takes().into(),
        }
    }

    /// The value in hand; none on the question itself.
    pub fn in_hand(&mut self) -> Option<&mut Edit> {
        self.asked.get_mut(self.pick.checked_sub(1)?)
    }

    /// The value in hand is left: what was found by typing stands there whole, a number with its unit.
    pub fn leave(&mut self, scene: &Scene<'_>) {
        let Some(edit) = self.in_hand() else { return };
        let found = edit.picked().map(str::to_string);
        let number = || match edit.value(&scene.state.catalogue, scene.units) {
            Ok(Typed::Value(value @ Value::Number(_))) => Some(exact(field_at(edit.place)?, &value, scene.units)),
            _ => None,
        };
        if let Some(whole) = found.or_else(number) {
            edit.input = whole.into();
        }
    }

    /// The values by their keys.
    ///
    /// # Errors
    /// Which value cannot be read, and why.
    pub fn values(&self, scene: &Scene<'_>) -> Result<BTreeMap<&'static str, Value>, (usize, String)> {
        let mut values = BTreeMap::new();
        for (n, edit) in self.asked.iter().enumerate() {
            if let Some(value) = self.value(scene, n, edit).map_err(|why| (n, why))? {
                values.insert(edit.place.key, value);
            }
        }
        Ok(values)
    }

    fn value(&self, scene: &Scene<'_>, n: usize, edit: &Edit) -> Result<Option<Value>, String> {
        let field = field_at(edit.place).ok_or_else(String::new)?;
        let label = self.label(n);
        let read = |text: &str| match text.trim() {
            "" => Ok(None),
            text => field.parse(text, &scene.state.catalogue).map(Some).map_err(|why| why.explain(label)),
        };
        let value = match edit.value(&scene.state.catalogue, scene.units)? {
            Typed::Same => read(&edit.initial)?,
            Typed::Nothing => None,
            Typed::Value(value) => Some(value),
        };
        let needed = self.question.asks().get(n).is_some_and(|Asks(_, _, first)| first.is_some_and(|f| !f.is_empty()));
        match value {
            None if needed => Err(format!("{label} must be given: {}", field.accepted(&scene.state.catalogue))),
            value => Ok(value),
        }
    }

    /// Answer what is typed.
    pub fn work_out(&mut self, scene: &Scene<'_>) {
        self.scroll = 0;
        self.answer = self.values(scene).and_then(|values| match self.question {
            Question::Cable => Ok(cable(scene, &values)),
            Question::CutOff => cut_off(scene, &values).ok_or((0, "there is no such chemistry".into())),
        });
    }
}

fn number<Q: Quantity>(values: &BTreeMap<&str, Value>, key: &str) -> Option<Q> {
    match values.get(key) {
        Some(Value::Number(n)) => Some(Q::of(*n)),
        _ => None,
    }
}

fn word(values: &BTreeMap<&str, Value>, key: &str) -> Option<String> {
    match values.get(key) {
        Some(Value::Text(t)) => Some(t.clone()),
        _ => None,
    }
}

fn cable(scene: &Scene<'_>, values: &BTreeMap<&str, Value>) -> Answer {
    let usual = CableQuestion::default();
    let bundled_with = match values.get("bundled_with") {
        Some(Value::Number(n)) => *n as u32,
        _ => usual.bundled_with,
    };
    let question = CableQuestion {
        current: number(values, "current_a").unwrap_or(Amps::ZERO),
        length: number(values, "length_m").unwrap_or(Metres::ZERO),
        drop: number(values, "drop_ordinary").unwrap_or(usual.drop),
        place: word(values, "surroundings").unwrap_or_else(|| usual.place.clone()),
        insulation: word(values, "insulation").unwrap_or_else(|| usual.insulation.clone()),
        air: number(values, "air_c"),
        cycle: number(values, "on_s").zip(number(values, "off_s")),
        bundled_with,
        sizes: word(values, "sizes").and_then(|s| SizeFamily::from_key(&s)).unwrap_or_default(),
        ..usual
    };
    let answer = cable_question(&scene.state.catalogue, &question);
    Answer { paper: cable_answer(&answer, false), settings: None }
}

fn cut_off(scene: &Scene<'_>, values: &BTreeMap<&str, Value>) -> Option<Answer> {
    let question = CutOffQuestion {
        chemistry: word(values, "chemistry")?,
        capacity: number(values, "capacity_ah")?,
        current: number(values, "current_a")?,
        reserve: number(values, "reserve"),
        light: number(values, "own_draw_a"),
        heavy: number(values, "rating_a"),
        air: number(values, "coldest_c"),
        at: number(values, "cut_v"),
        by: word(values, "acts_by").and_then(|w| CutOffBy::from_key(&w)).unwrap_or_default(),
        drift: number(values, "drift"),
        off: number(values, "reset_error"),
        days: number(values, "days_without_charge"),
    };
    let answer = cut_off_question(&scene.state.catalogue, &question)?;
    let paper = cut_off_answer(&answer, false);
    let forbidden = answer.findings.iter().any(|f| f.severity == Severity::Stop);
    Some(Answer { paper, settings: (!forbidden).then(|| Box::new(answer)) })
}
