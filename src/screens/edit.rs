//! The one field being edited: what is typed, what it would mean, what is wrong with it.

use super::scene::Scene;
use crate::catalogue::Catalogue;
use crate::plan::{Absent, Field, Kind, Place, Value, field_at, point};
use crate::quantity::{Figure, UnitSystem};
use tui_input::{Input, InputRequest};

/// Longest text that a field takes, whatever is pasted.
const LONGEST: usize = 2000;

/// A field being edited.
#[derive(Clone, Debug)]
pub struct Edit {
    /// Which.
    pub place: Place,
    /// What is typed.
    pub input: Input,
    /// Nothing was typed yet: the first letter replaces all.
    pub fresh: bool,
    /// What stood there.
    pub initial: String,
    /// Keys and words to pick from.
    pub options: Vec<(String, String)>,
    /// Row in hand among those that match what is typed.
    pub pick: Option<usize>,
    /// The row was gone to, not only found by typing.
    pub moved: bool,
    /// Why it was refused.
    pub error: Option<String>,
}

/// What committing gives.
#[derive(Clone, Debug, PartialEq)]
pub enum Typed {
    /// The same as before.
    Same,
    /// Nothing: leave it to the default or to the engine.
    Nothing,
    /// A value.
    Value(Value),
}

impl Edit {
    /// Begin on a field of the plan.
    pub fn new(scene: &Scene<'_>, place: Place) -> Option<Edit> {
        let field = field_at(place)?;
        let value =
            field.get(scene.plan(), place.index).filter(|_| scene.is_given(place) || field.absent != Absent::Chosen);
        Edit::with(scene, place, value.map_or_else(String::new, |v| exact(field, &v, scene.units)))
    }

    /// Begin on a field in which this stands.
    pub fn with(scene: &Scene<'_>, place: Place, initial: String) -> Option<Edit> {
        let field = field_at(place)?;
        let options = options(scene, field);
        let pick = if free(field) { None } else { options.iter().position(|(key, _)| *key == initial) };
        Some(Edit {
            place,
            input: Input::new(initial.clone()),
            fresh: true,
            initial,
            options,
            pick,
            moved: false,
            error: None,
        })
    }

    /// Indices of the options that fit what is typed.
    pub fn matches(&self) -> Vec<usize> {
        let all = 0..self.options.len();
        if self.fresh || self.input.value().trim().is_empty() {
            return all.collect();
        }
        let typed = self.input.value();
        all.filter(|&i| self.options.get(i).is_some_and(|(key, words)| fits(typed, &[key, words]))).collect()
    }

    /// Change what is typed.
    pub fn type_in(&mut self, request: InputRequest) {
        type_over(&mut self.input, self.fresh, request);
        self.fresh = false;
        self.error = None;
        self.moved = false;
        let closed = field_at(self.place).is_some_and(|f| !free(f));
        self.pick = (closed && !self.options.is_empty() && !self.input.value().is_empty()).then_some(0);
    }

    /// Move in the list of options.
    pub fn move_pick(&mut self, by: isize) {
        self.moved = true;
        let last = self.matches().len().checked_sub(1);
        self.pick = last.map(|last| match self.pick {
            Some(p) => p.saturating_add_signed(by).min(last),
            None if by < 0 => last,
            None => 0,
        });
        self.error = None;
    }

    /// Whether it takes only what its list holds.
    pub fn is_closed(&self) -> bool {
        !self.options.is_empty() && field_at(self.place).is_some_and(|f| !free(f))
    }

    /// Take the next option of the list, or the one before, going round.
    pub fn turn(&mut self, by: isize) {
        let count = self.options.len().max(1) as isize;
        let at = self.options.iter().position(|(key, _)| key == self.input.value()).map_or(-1, |n| n as isize);
        let next = (at + by).rem_euclid(count) as usize;
        if let Some((key, _)) = self.options.get(next) {
            (self.input, self.pick, self.fresh) = (Input::new(key.clone()), Some(next), true);
        }
    }

    /// The option in hand.
    pub fn picked(&self) -> Option<&str> {
        let index = *self.matches().get(self.pick?)?;
        self.options.get(index).map(|(key, _)| key.as_str())
    }

    /// Whether any name is taken, known or not.
    pub fn names_a_point(&self) -> bool {
        field_at(self.place).is_some_and(|f| matches!(f.kind, Kind::Point))
    }

    /// What is typed, as a value.
    ///
    /// # Errors
    /// Why it cannot be one, and what is accepted.
    pub fn value(&self, catalogue: &Catalogue, units: UnitSystem) -> Result<Typed, String> {
        let field = field_at(self.place).ok_or("there is nothing here to edit")?;
        let typed = self.input.value().trim();
        // A whole word of the list is meant itself, though others hold it too.
        let said = !self.moved && !self.fresh && field.parse(typed, catalogue).is_ok();
        let text = match self.picked() {
            Some(key) if !said && (!self.fresh || key != self.initial) => key.to_string(),
            _ => typed.to_string(),
        };
        if text == self.initial.trim() {
            return Ok(Typed::Same);
        }
        if text.is_empty() && field.absent == Absent::NotAllowed {
            return Err(format!("{} must be given: {}", field.words(), field.accepted(catalogue)));
        }
        if text.is_empty() {
            return Ok(Typed::Nothing);
        }
        let value = field.parse(&in_units(field, &text, units), catalogue);
        value.map(Typed::Value).map_err(|why| why.explain(&field.words()))
    }

    /// What is typed, as it would be shown, if that says more than the typing.
    pub fn preview(&self, scene: &Scene<'_>) -> Option<String> {
        let field = field_at(self.place)?;
        match self.value(&scene.state.catalogue, scene.units) {
            Ok(Typed::Value(v)) => Some(scene.plain(field.show(&v, scene.units))),
            Ok(Typed::Nothing) if field.absent == Absent::Chosen => Some("left to the program".into()),
            Ok(Typed::Nothing) => Some("back to the usual value".into()),
            _ => None,
        }
        .filter(|shown| shown != self.input.value())
    }
}

/// Type into a field; the first letter replaces what stood there before anything was typed.
pub fn type_over(input: &mut Input, fresh: bool, request: InputRequest) {
    let writes = matches!(request, InputRequest::InsertChar(_));
    let takes = matches!(request, InputRequest::DeletePrevChar | InputRequest::DeleteNextChar);
    if fresh && (writes || takes) {
        input.reset();
    }
    let full = input.value().chars().count() >= LONGEST;
    let control = matches!(request, InputRequest::InsertChar(c) if c.is_control());
    if !(control || writes && full) {
        input.handle(request);
    }
}

/// Whether words of the list are only proposals: other text is taken too.
fn free(field: &Field) -> bool {
    matches!(
        field.kind,
        Kind::Point
            | Kind::Size
            | Kind::Number { .. }
            | Kind::Text { .. }
            | Kind::Windows
            | Kind::Weekdays
            | Kind::Months
            | Kind::Words(_)
            | Kind::Picks(_)
    )
}

fn options(scene: &Scene<'_>, field: &Field) -> Vec<(String, String)> {
    if !matches!(field.kind, Kind::Point) {
        return field.options(&scene.state.catalogue);
    }
    let plan = scene.plan();
    let fixed = [point::SERVICE_BATTERY, point::STARTER_BATTERY, point::CHARGER, point::CUT_OFF];
    let ends = plan.runs.iter().flat_map(|r| [r.from.as_str(), r.to.as_str()]);
    let mut names: Vec<(String, String)> = Vec::new();
    for name in fixed.into_iter().chain(ends).filter(|n| !n.is_empty()) {
        if !names.iter().any(|(n, _)| n == name) {
            names.push((name.to_string(), String::new()));
        }
    }
    names
}

/// Whether each typed word is in one of the texts; signs and case do not count.
pub fn fits(typed: &str, texts: &[&str]) -> bool {
    let plain = |t: &str| t.to_lowercase().replace('²', "2").replace(['-', '_'], " ");
    let texts: Vec<String> = texts.iter().map(|t| plain(t)).collect();
    plain(typed)
        .split_whitespace()
        .all(|word| texts.iter().any(|t| t.contains(word) || t.replace(' ', "").contains(word)))
}

/// The value as it is edited: all digits, so that taking it unchanged changes nothing.
pub fn exact(field: &Field, value: &Value, units: UnitSystem) -> String {
    match (value, field.unit()) {
        (Value::Number(n), Some(unit)) => Figure::new(*n, unit).exact(units),
        _ => field.show(value, units),
    }
}

/// A bare number is meant in the units shown.
fn in_units(field: &Field, text: &str, units: UnitSystem) -> String {
    let bare = text.replace(',', ".").parse::<f64>().is_ok();
    match field.unit() {
        Some(unit) if bare && units == UnitSystem::Us => {
            let symbol = Figure::new(1.0, unit).symbol(units);
            if symbol == Figure::new(1.0, unit).symbol(UnitSystem::Metric) {
                text.to_string()
            } else {
                format!("{text} {symbol}")
            }
        }
        _ => text.to_string(),
    }
}
