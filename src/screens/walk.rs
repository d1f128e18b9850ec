//! A new plan from a few questions, for the first visit.
//!
//! Each answer has a usual value, so that Enter each time gives a small plan
//! that works; everything can be changed on the screens afterwards.

use super::action::Action;
use super::answers::Answers;
use super::clash::{Checked, Clash, Open, Trial, Way};
use super::edit::{fits, type_over};
use super::keymap::Mode;
use crate::catalogue::{Catalogue, Chemistry, TypicalLoad};
use crate::engine::{FindingKind, suits};
use crate::plan::{BatteryPlace, Choice, Weekdays};
use crate::quantity::{Unit, parse};
use tui_input::{Input, InputRequest};

/// Said until it is known which other answers would do.
pub const TRYING: &str = "which other answers would do is being tried; Esc goes back";

/// How an answer of none is written.
const NONE: &str = "none";

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
                "Such as 3 m, or none where one box is enough. Loads can change their box later.",
            ),
            Question::Driving => (
                "How long does the engine run on a day with a drive?",
                "Such as 1h30, or none if it is not driven; typing replaces the answer.",
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

/// What an answer leads to.
pub enum Next {
    /// A question: the next, or the same again.
    Ask,
    /// First it is to be known whether the answers so far go together.
    Check(Trial),
    /// The plan, as text, or why there is none.
    Plan(Result<String, String>),
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
    /// The answers so far.
    pub answers: Answers,
    /// What does not go together in them, while it is asked what is to give way.
    pub clash: Option<Clash>,
    /// What is left so on purpose.
    left: Vec<FindingKind>,
    /// Whether the answers so far go together is being worked out.
    checking: bool,
    /// What was done meanwhile: it is for the next question.
    pub ahead: Vec<Action>,
}

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
            answers: Answers {
                title: String::new(),
                loads: vec![fridge],
                chemistry,
                length: 4.0,
                front: 0.0,
                driving: 1.5,
                days: Weekdays::all(),
                place: 0,
                coldest: -5.0,
            },
            clash: None,
            left: Vec::new(),
            checking: false,
            ahead: Vec::new(),
        }
    }

    /// How keys are taken.
    pub fn mode(&self) -> Mode {
        if self.is_list() { Mode::Menu } else { Mode::Typing }
    }

    /// What is asked, and how to answer it, or why it is asked.
    pub fn words(&self) -> (&'static str, Vec<String>) {
        match &self.clash {
            Some(clash) => {
                let why = clash.why.iter().map(|why| format!("· {why}"));
                ("These answers do not go together. What gives way?", why.collect())
            }
            None => {
                let (question, how) = self.question.words();
                (question, vec![how.to_string()])
            }
        }
    }

    /// Whether the question is answered from a list.
    pub fn is_list(&self) -> bool {
        self.clash.is_some() || matches!(self.question, Question::Loads | Question::Chemistry | Question::Place)
    }

    /// Whether a space takes the row in hand in or out: in a search it is a space.
    pub fn ticks(&self) -> bool {
        self.question == Question::Loads && self.input.value().is_empty()
    }

    /// Rows of the list that match what is typed: index, words, whether taken.
    pub fn rows(&self, catalogue: &Catalogue) -> Vec<(usize, String, bool)> {
        let typed = self.input.value();
        if let Some(clash) = &self.clash {
            let ways = clash.ways.iter().enumerate().map(|(n, way)| (n, way.words.clone(), false));
            return ways.filter(|(_, words, _)| fits(typed, &[words])).collect();
        }
        let row = |l: &TypicalLoad| format!("{} · {} · {}", l.name, l.group, l.power);
        let all: Vec<(usize, String, bool)> = match self.question {
            Question::Loads => {
                catalogue.loads.iter().enumerate().map(|(i, l)| (i, row(l), self.answers.loads.contains(&i))).collect()
            }
            Question::Chemistry => catalogue
                .chemistries
                .iter()
                .enumerate()
                .map(|(i, c)| (i, described(c), self.answers.chemistry == i))
                .collect(),
            Question::Place => {
                let words = BatteryPlace::words().into_iter().enumerate();
                words.map(|(i, (key, about))| (i, format!("{key} · {about}"), self.answers.place == i)).collect()
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
        let Some((index, _, _)) = self.rows(catalogue).into_iter().nth(self.pick).filter(|_| self.clash.is_none())
        else {
            return;
        };
        match self.question {
            Question::Loads if self.answers.loads.contains(&index) => self.answers.loads.retain(|i| *i != index),
            Question::Loads => self.answers.loads.push(index),
            Question::Place => self.answers.place = index,
            _ => self.answers.chemistry = index,
        }
    }

    /// Take the answer and go on.
    pub fn answer(&mut self, catalogue: &Catalogue) -> Next {
        self.error = None;
        let typed = self.input.value().trim().to_string();
        let in_hand = self.rows(catalogue).get(self.pick).map(|(index, _, _)| *index);
        if self.is_trying() {
            return self.refuse(TRYING.into());
        }
        if let Some(clash) = self.clash.take() {
            return self.give_way(clash, in_hand);
        }
        match self.question {
            Question::Title => self.answers.title = typed,
            // What was searched for is taken; the next search may follow.
            Question::Loads if !typed.is_empty() => return self.take_load(in_hand, &typed),
            Question::Loads => {}
            Question::Chemistry => match in_hand {
                Some(chemistry) => self.answers.chemistry = chemistry,
                None => return self.refuse(format!("no chemistry in the list is like “{typed}”")),
            },
            Question::Place => match in_hand {
                Some(place) => self.answers.place = place,
                None => return self.refuse(format!("no place in the list is like “{typed}”")),
            },
            Question::Distance => match number(&typed, Unit::Metre, 0.1, 50.0) {
                Ok(length) => self.answers.length = length,
                Err(reason) => return self.refuse(reason),
            },
            Question::Front => match number_or_none(&typed, Unit::Metre, 50.0) {
                Ok(length) => self.answers.front = length,
                Err(reason) => return self.refuse(reason),
            },
            Question::Days => match Weekdays::parse(&typed) {
                Ok(days) => self.answers.days = days,
                Err(reason) => return self.refuse(reason),
            },
            Question::Coldest => match number(&typed, Unit::Celsius, -60.0, 40.0) {
                Ok(coldest) => self.answers.coldest = coldest,
                Err(reason) => return self.refuse(reason),
            },
            Question::Driving => match number_or_none(&typed, Unit::Hour, 16.0) {
                Ok(hours) => self.answers.driving = hours,
                Err(reason) => return self.refuse(reason),
            },
        }
        let open = match self.question {
            Question::Chemistry => Some(Open::Chemistry),
            Question::Place => Some(Open::Place),
            last if last.after().is_none() => Some(Open::All),
            _ => None,
        };
        match open {
            Some(open) => {
                self.checking = true;
                Next::Check(Trial::new(&self.answers, open, &self.left))
            }
            None => self.go_on(Ok(String::new())),
        }
    }

    /// Whether they go together is known: go on, or ask what is to give way.
    pub fn checked(&mut self, checked: Checked) -> Next {
        self.checking = false;
        self.error = None;
        self.clash = checked.clash;
        if self.clash.is_none() {
            return self.go_on(checked.text);
        }
        // Nothing was typed for this question.
        self.ahead.clear();
        self.pick = 0;
        self.input.reset();
        Next::Ask
    }

    /// Whether it is being worked out if the answers so far go together.
    pub fn is_checking(&self) -> bool {
        self.checking
    }

    /// Whether a worker is waited for.
    pub fn waits(&self) -> bool {
        self.checking || self.is_trying()
    }

    /// What is to be tried before it can be answered what gives way.
    pub fn trial(&self) -> Option<Trial> {
        self.clash.as_ref().and_then(|clash| clash.trying.clone())
    }

    /// Whether it is being tried.
    pub fn is_trying(&self) -> bool {
        self.clash.as_ref().is_some_and(|clash| clash.trying.is_some())
    }

    /// Say how far the trials are.
    pub fn tell(&mut self, words: String) {
        self.error = Some(words);
    }

    /// The ways out that were found.
    pub fn take_ways(&mut self, ways: Vec<Way>) {
        if let Some(clash) = &mut self.clash {
            clash.found(ways);
            clash.trying = None;
            self.error = None;
            self.pick = 0;
        }
    }

    /// To the next question, or after the last to the plan.
    fn go_on(&mut self, plan: Result<String, String>) -> Next {
        let Some(next) = self.question.after() else { return Next::Plan(plan) };
        self.go(next);
        Next::Ask
    }

    /// Take one of the ways out of what does not go together, or leave it so.
    fn give_way(&mut self, clash: Clash, way: Option<usize>) -> Next {
        let Some((n, way)) = way.and_then(|n| Some((n, clash.ways.get(n)?))) else {
            self.clash = Some(clash);
            return self.refuse("nothing in the list is like that".into());
        };
        self.answers = way.answers.clone();
        if n + 1 == clash.ways.len() {
            self.left.extend(&clash.kinds);
        }
        self.go_on(Ok(way.text.clone()))
    }

    /// Take the load that a search has found in, and search anew.
    fn take_load(&mut self, found: Option<usize>, typed: &str) -> Next {
        let Some(load) = found else { return self.refuse(format!("no load in the list is like “{typed}”")) };
        if !self.answers.loads.contains(&load) {
            self.answers.loads.push(load);
        }
        self.input.reset();
        self.pick = load;
        Next::Ask
    }

    /// Back to the question before; false before the first.
    pub fn back(&mut self) -> bool {
        self.left.clear();
        self.ahead.clear();
        if std::mem::take(&mut self.checking) || self.clash.take().is_some() {
            self.go(self.question);
            return true;
        }
        let Some(before) = self.question.before() else { return false };
        self.go(before);
        true
    }

    fn refuse(&mut self, reason: String) -> Next {
        self.error = Some(reason);
        Next::Ask
    }

    fn go(&mut self, question: Question) {
        self.question = question;
        self.pick = match question {
            Question::Chemistry => self.answers.chemistry,
            Question::Place => self.answers.place,
            _ => 0,
        };
        self.error = None;
        self.fresh = true;
        self.input = Input::new(match question {
            Question::Title => self.answers.title.clone(),
            Question::Distance => format!("{} m", self.answers.length),
            Question::Front => or_none(self.answers.front, "m"),
            Question::Driving => or_none(self.answers.driving, "h"),
            Question::Days => self.answers.days.to_string(),
            Question::Coldest => format!("{} °C", self.answers.coldest),
            Question::Loads | Question::Chemistry | Question::Place => String::new(),
        });
    }
}

/// A chemistry, and whether it is one for a 12 V system at all.
fn described(chemistry: &Chemistry) -> String {
    let not = if suits(chemistry) { "" } else { "not for a plain 12 V system · " };
    format!("{} · {not}{}", chemistry.name, chemistry.about)
}

/// An answer that is 0 where there is none of it.
fn or_none(answer: f64, unit: &str) -> String {
    if answer > 0.0 { format!("{answer} {unit}") } else { NONE.into() }
}

fn number_or_none(typed: &str, unit: Unit, max: f64) -> Result<f64, String> {
    if typed.eq_ignore_ascii_case(NONE) { Ok(0.0) } else { number(typed, unit, 0.0, max) }
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
