//! A field as data: key, label, unit, range, help, how to get and set it.
//!
//! Reading, writing, messages, table columns, the schema and `?` help all come
//! from these, so that none can say something else than the others.

use super::fields;
use super::model::Plan;
use super::section::{Place, Section};
use super::value::Value;
use super::windows::{Weekdays, Windows};
use crate::catalogue::Catalogue;
use crate::quantity::{Figure, Unit, UnitSystem, parse};

/// What a field holds and what it accepts.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A number in a unit, within a range; `whole` for counts.
    #[allow(missing_docs)]
    Number { unit: Unit, min: f64, max: f64, whole: bool },
    /// Free text of at most so many characters; `required` text may not be empty.
    #[allow(missing_docs)]
    Text { longest: usize, required: bool },
    /// One of a closed set of words.
    Choice(fn() -> Vec<(&'static str, &'static str)>),
    /// A key of the catalogue.
    Pick(Pick),
    /// The name of a point.
    Point,
    /// A conductor size, in any notation.
    Size,
    /// Yes or no.
    Flag,
    /// Spans of the day.
    Windows,
    /// Days of the week.
    Weekdays,
}

/// A list of the catalogue that a field picks from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Pick {
    Chemistry,
    Insulation,
    CablePlace,
    FuseStyle,
    DropClass,
    Placement,
    Stud,
    StudClass,
    Shock,
}

/// What an absent key means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Absent {
    /// The key must be there.
    NotAllowed,
    /// The model's default holds.
    Default,
    /// The engine chooses, or the catalogue's figure holds.
    Chosen,
}

/// One field of a plan.
pub struct Field {
    /// The table it belongs to.
    pub section: Section,
    /// Key in the file, dotted for nested tables.
    pub key: &'static str,
    /// Label for people.
    pub label: &'static str,
    /// What it accepts.
    pub kind: Kind,
    /// What it means if the key is absent.
    pub absent: Absent,
    /// One sentence of help.
    pub help: &'static str,
    pub(super) get: fn(&Plan, usize) -> Option<Value>,
    pub(super) set: fn(&mut Plan, usize, Value),
}

/// All fields of a section, in the order of the file and the screens.
pub fn fields_of(section: Section) -> impl Iterator<Item = &'static Field> {
    fields::ALL.iter().flat_map(|group| group.iter()).filter(move |f| f.section == section)
}

/// The field of a place.
pub fn field_at(place: Place) -> Option<&'static Field> {
    fields_of(place.section).find(|f| f.key == place.key)
}

/// First letter small, unless it begins a word that is all capitals: for use within a sentence.
pub(super) fn small(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), chars.clone().next()) {
        (Some(_), Some(second)) if second.is_uppercase() => text.to_string(),
        (Some(first), _) => first.to_lowercase().chain(chars).collect(),
        (None, _) => String::new(),
    }
}

impl Field {
    /// Its label within a sentence: `Design margin` as `design margin`.
    pub fn words(&self) -> String {
        small(self.label)
    }

    /// The value in a plan; `None` when left to the engine, or when there is no such item.
    pub fn get(&self, plan: &Plan, index: usize) -> Option<Value> {
        (self.get)(plan, index)
    }

    /// The value a new plan has.
    pub fn default_value(&self) -> Option<Value> {
        let mut plan = Plan::default();
        self.section.grow(&mut plan);
        self.get(&plan, 0).filter(|v| !matches!(v, Value::Text(t) if t.is_empty()))
    }

    /// The place of this field in item `index`.
    pub fn place(&self, index: usize) -> Place {
        Place { section: self.section, index, key: self.key }
    }

    /// The field that a text is meant for when it is typed into its twin: a current typed as power.
    fn sibling(&self, text: &str) -> Option<&'static Field> {
        let twin = match self.key {
            "power_w" => "current_a",
            "current_a" => "power_w",
            _ => return None,
        };
        let twin = fields_of(self.section).find(|f| f.key == twin)?;
        twin.unit().filter(|unit| parse(text, *unit).is_ok()).map(|_| twin)
    }

    /// The unit of a number field.
    pub fn unit(&self) -> Option<Unit> {
        match self.kind {
            Kind::Number { unit, .. } => Some(unit),
            _ => None,
        }
    }

    /// Read what a person typed. The problem, and the accepted range, in words.
    pub fn parse(&self, text: &str, catalogue: &Catalogue) -> Result<Value, String> {
        let text = text.trim();
        let value = match self.kind {
            Kind::Number { unit, .. } => Value::Number(parse(text, unit).map_err(|e| match self.sibling(text) {
                Some(other) => format!("this is no {}; the field {} takes it", self.words(), other.label),
                None => e.explain(unit),
            })?),
            Kind::Flag => match text.to_lowercase().as_str() {
                "yes" | "y" | "true" | "on" => Value::Flag(true),
                "no" | "n" | "false" | "off" => Value::Flag(false),
                _ => return Err(format!("`{text}` is neither yes nor no")),
            },
            Kind::Windows => Value::Windows(Windows::parse(text)?),
            Kind::Weekdays => Value::Weekdays(Weekdays::parse(text)?),
            _ => Value::Text(text.to_string()),
        };
        self.accept(value, catalogue)
    }

    /// Check a value against the field's range or list; gives it back in the
    /// form that is kept (canonical key of a pick).
    pub fn accept(&self, value: Value, catalogue: &Catalogue) -> Result<Value, String> {
        match (&value, self.kind) {
            (Value::Number(n), Kind::Number { min, max, whole, .. }) => {
                // `95%` is read as 0.9500000000000001: a bound typed in another unit is still the bound.
                let hair = 1e-12 * min.abs().max(max.abs());
                if !n.is_finite() || *n < min - hair || *n > max + hair {
                    return Err(format!("{} must be {}", self.words(), self.accepted(catalogue)));
                }
                if whole && n.fract() != 0.0 {
                    return Err(format!("{} must be a whole number", self.words()));
                }
                let n = n.clamp(min, max);
                Ok(Value::Number(if n == 0.0 { 0.0 } else { n }))
            }
            (Value::Text(t), Kind::Text { longest, required }) => {
                if required && t.trim().is_empty() {
                    return Err(format!("{} must not be empty", self.words()));
                }
                if t.chars().count() > longest {
                    return Err(format!("{} must have at most {longest} characters", self.words()));
                }
                Ok(value)
            }
            (Value::Text(t), Kind::Point) if t.chars().count() <= 60 => Ok(Value::Text(t.trim().to_string())),
            (Value::Text(_), Kind::Point) => Err("the name of a point must have at most 60 characters".into()),
            (Value::Text(t), Kind::Size) => size_label(t, catalogue).map(Value::Text),
            (Value::Text(t), Kind::Choice(_) | Kind::Pick(_)) => self.choose(t, catalogue).map(Value::Text),
            (Value::Flag(_), Kind::Flag)
            | (Value::Windows(_), Kind::Windows)
            | (Value::Weekdays(_), Kind::Weekdays) => Ok(value),
            _ => Err(format!("{} must be {}", self.words(), self.accepted(catalogue))),
        }
    }

    fn choose(&self, typed: &str, catalogue: &Catalogue) -> Result<String, String> {
        let options = self.options(catalogue);
        let wanted = plain(typed);
        let means = |(key, name): &&(String, String)| {
            plain(key) == wanted
                || plain(name) == wanted
                || short_name(name).is_some_and(|short| plain(short) == wanted)
        };
        if let Some((key, _)) = options.iter().find(means) {
            return Ok(key.clone());
        }
        let near = super::problem::nearest(typed, options.iter().map(|(k, _)| k.as_str()));
        Err(match near {
            Some(near) => format!("`{typed}` is not known; did you mean `{near}`?"),
            None => format!("`{typed}` is not known"),
        })
    }

    /// Keys and words to pick from; empty for other kinds.
    pub fn options(&self, catalogue: &Catalogue) -> Vec<(String, String)> {
        let own = |key: &str, words: &str| (key.to_string(), words.to_string());
        match self.kind {
            Kind::Choice(words) => words().into_iter().map(|(k, w)| own(k, w)).collect(),
            Kind::Pick(Pick::Chemistry) => catalogue.chemistries.iter().map(|c| own(&c.key, &c.name)).collect(),
            Kind::Pick(Pick::Insulation) => catalogue.insulations.iter().map(|i| own(&i.key, &i.name)).collect(),
            Kind::Pick(Pick::CablePlace) => catalogue.places.iter().map(|p| own(&p.key, &p.name)).collect(),
            Kind::Pick(Pick::FuseStyle) => catalogue.fuse_styles.iter().map(|f| own(&f.key, &f.name)).collect(),
            Kind::Pick(Pick::DropClass) => catalogue.rules.drop_class.iter().map(|d| own(&d.key, &d.about)).collect(),
            Kind::Pick(Pick::Placement) => {
                catalogue.rules.placement.iter().map(|p| own(&p.key, &p.from.enclosed.source)).collect()
            }
            Kind::Pick(Pick::Stud) => catalogue.studs.iter().map(|s| own(&s.key, &s.from.stress_area.source)).collect(),
            Kind::Pick(Pick::StudClass) => catalogue.stud_classes.iter().map(|c| own(&c.key, &c.name)).collect(),
            Kind::Pick(Pick::Shock) => catalogue.shocks.iter().map(|s| own(&s.key, &s.name)).collect(),
            Kind::Size => {
                let sizes = catalogue.conductors.iter().map(|c| own(&c.label, "copper conductor"));
                sizes.chain(catalogue.trade_labels.iter().map(|t| own(&t.label, &t.trap))).collect()
            }
            Kind::Flag => vec![own("yes", ""), own("no", "")],
            _ => Vec::new(),
        }
    }

    /// The accepted range or list in words.
    pub fn accepted(&self, catalogue: &Catalogue) -> String {
        match self.kind {
            Kind::Number { unit, min, max, whole } => {
                let number = if whole { "a whole number " } else { "" };
                format!("{number}from {} to {}", Figure::new(min, unit), Figure::new(max, unit))
            }
            Kind::Text { longest, .. } => format!("text of at most {longest} characters"),
            Kind::Point => "the name of a point, in quotes".into(),
            Kind::Size => "a conductor size such as \"6 mm2\" or \"10 AWG\"".into(),
            Kind::Flag => "true or false".into(),
            Kind::Windows => "spans of the day such as [\"07:00-08:30\", \"16:30-17:30\"]".into(),
            Kind::Weekdays => "weekdays such as [\"mon\", \"wed\"]".into(),
            Kind::Choice(_) | Kind::Pick(_) => {
                let keys: Vec<_> = self.options(catalogue).into_iter().map(|(k, _)| k).collect();
                format!("one of {}", keys.join(", "))
            }
        }
    }

    /// The value as shown in a table cell, with its unit.
    pub fn show(&self, value: &Value, system: UnitSystem) -> String {
        match (value, self.kind) {
            (Value::Number(n), Kind::Number { unit, .. }) => Figure::new(*n, unit).show(system),
            (Value::Number(n), _) => Figure::number(*n).show(system),
            (Value::Text(t), _) => t.clone(),
            (Value::Flag(b), _) => if *b { "yes" } else { "no" }.into(),
            (Value::Windows(w), _) => w.to_string(),
            (Value::Weekdays(d), _) => d.to_string(),
        }
    }
}

/// The canonical label of a size as typed: a catalogue label, a trade label, or millimetres squared.
fn size_label(typed: &str, catalogue: &Catalogue) -> Result<String, String> {
    let wanted = plain(typed);
    let labels = catalogue.conductors.iter().map(|c| &c.label).chain(catalogue.trade_labels.iter().map(|t| &t.label));
    if let Some(label) = labels.into_iter().find(|l| plain(l) == wanted) {
        return Ok(label.clone());
    }
    let area = parse(typed, Unit::SquareMillimetre).map_err(|e| e.explain(Unit::SquareMillimetre))?;
    let near = catalogue.conductors.iter().filter(|c| (c.area.get() - area).abs() <= 0.002 * area);
    near.map(|c| c.label.clone())
        .next()
        .ok_or_else(|| format!("no conductor of {} is in the catalogue", Figure::new(area, Unit::SquareMillimetre)))
}

/// The short name in a name: `LFP` in `Lithium iron phosphate (LFP)`.
fn short_name(name: &str) -> Option<&str> {
    let (_, rest) = name.split_once('(')?;
    Some(rest.split_once(')')?.0)
}

/// For comparing words: lower case, blanks and hyphens alike, ² as 2.
fn plain(text: &str) -> String {
    text.trim().to_lowercase().replace([' ', '_', '-'], "").replace('²', "2").replace("b&s", "awg")
}
