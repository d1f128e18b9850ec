//! What does a field accept, from a file or as a person types it, and why is something refused?

use super::choice::FORMER;
use super::field::{Field, Kind, Pick};
use super::fields::fields_of;
use super::months::Months;
use super::problem::nearest;
use super::text::shorten;
use super::value::Value;
use super::weekdays::Weekdays;
use super::windows::Windows;
use crate::catalogue::Catalogue;
use crate::quantity::{Figure, Unit, parse};

/// Why a value was refused.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// What it must be or have: `be from 1 A to 20 A`.
    Must(String),
    /// A sentence of its own.
    Because(String),
}

impl Refusal {
    /// In words, of something called `who`: `length must be from 0.05 m to 1000 m`.
    pub fn explain(&self, who: &str) -> String {
        match self {
            Refusal::Must(otherwise) => format!("{who} must {otherwise}"),
            Refusal::Because(sentence) => sentence.clone(),
        }
    }
}

impl From<String> for Refusal {
    fn from(sentence: String) -> Self {
        Refusal::Because(sentence)
    }
}

impl Field {
    /// Read what a person typed. The problem, and the accepted range, in words.
    pub fn parse(&self, text: &str, catalogue: &Catalogue) -> Result<Value, Refusal> {
        let text = text.trim();
        let value = match self.kind {
            Kind::Number { unit, .. } => Value::Number(parse(text, unit).map_err(|e| match self.sibling(text) {
                Some(other) => format!("this is no {}; the field {} takes it", self.words(), other.label),
                None => e.explain(unit),
            })?),
            Kind::Flag => match text.to_lowercase().as_str() {
                "yes" | "y" | "true" | "on" => Value::Flag(true),
                "no" | "n" | "false" | "off" => Value::Flag(false),
                _ => return Err(format!("`{}` is neither yes nor no", shorten(text)).into()),
            },
            Kind::Windows => Value::Windows(Windows::parse(text)?),
            Kind::Weekdays => Value::Weekdays(Weekdays::parse(text)?),
            Kind::Months => Value::Months(Months::parse(text)?),
            _ => Value::Text(text.to_string()),
        };
        self.accept(value, catalogue)
    }

    /// Check a value against the field's range or list; gives it back in the
    /// form that is kept (canonical key of a pick).
    pub fn accept(&self, value: Value, catalogue: &Catalogue) -> Result<Value, Refusal> {
        match (&value, self.kind) {
            (Value::Number(n), Kind::Number { unit, min, max, whole }) => {
                // `95%` is read as 0.9500000000000001: a bound typed in another unit is still the bound.
                let hair = 1e-12 * min.abs().max(max.abs());
                if !n.is_finite() || *n < min - hair || *n > max + hair {
                    return Err(self.out_of_range(catalogue));
                }
                if whole && n.fract() != 0.0 {
                    return Err(Refusal::Must("be a whole number".into()));
                }
                let n = n.clamp(min, max);
                if n.abs() >= unit.smallest() || min > 0.0 {
                    Ok(Value::Number(n))
                } else if n == 0.0 || min < 0.0 {
                    // A temperature or an offset may be as near to zero as it likes; it is zero then.
                    Ok(Value::Number(0.0))
                } else {
                    Err(Refusal::Must(format!("be 0, or at least {}", Figure::new(unit.smallest(), unit))))
                }
            }
            (Value::Text(t), Kind::Text { longest, required }) => {
                if required && t.trim().is_empty() {
                    return Err(Refusal::Must("not be empty".into()));
                }
                if t.chars().count() > longest {
                    return Err(Refusal::Must(format!("have at most {longest} characters")));
                }
                Ok(value)
            }
            (Value::Text(t), Kind::Point) if t.chars().count() <= 60 => Ok(Value::Text(t.trim().to_string())),
            (Value::Text(_), Kind::Point) => {
                Err(String::from("the name of a point must have at most 60 characters").into())
            }
            (Value::Text(t), Kind::Size) => Ok(Value::Text(size_label(t, catalogue)?)),
            (Value::Text(t), Kind::Words(_) | Kind::Picks(_)) => {
                let words = t.split(',').map(str::trim).filter(|word| !word.is_empty());
                let words: Result<Vec<String>, Refusal> = words.map(|word| self.choose(word, catalogue)).collect();
                Ok(Value::Text(words?.join(", ")))
            }
            (Value::Text(t), Kind::Choice(_) | Kind::Pick(_)) => self.choose(t, catalogue).map(Value::Text),
            (Value::Flag(_), Kind::Flag)
            | (Value::Windows(_), Kind::Windows)
            | (Value::Weekdays(_), Kind::Weekdays)
            | (Value::Months(_), Kind::Months) => Ok(value),
            _ => Err(self.out_of_range(catalogue)),
        }
    }

    fn out_of_range(&self, catalogue: &Catalogue) -> Refusal {
        Refusal::Must(format!("be {}", self.accepted(catalogue)))
    }

    fn choose(&self, typed: &str, catalogue: &Catalogue) -> Result<String, Refusal> {
        let options = self.options(catalogue);
        let now = FORMER.iter().find(|(old, _)| plain(old) == plain(typed)).map_or(typed, |(_, now)| now);
        let wanted = plain(now);
        let means = |(key, name): &&(String, String)| {
            plain(key) == wanted
                || plain(name) == wanted
                || short_name(name).is_some_and(|short| plain(short) == wanted)
        };
        if let Some((key, _)) = options.iter().find(means) {
            return Ok(key.clone());
        }
        let near = nearest(typed, options.iter().map(|(k, _)| k.as_str()));
        let meant = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
        Err(format!("`{}` is not known{meant}", shorten(typed)).into())
    }

    /// Keys and words to pick from; empty for other kinds.
    pub fn options(&self, catalogue: &Catalogue) -> Vec<(String, String)> {
        let own = |key: &str, words: &str| (key.to_string(), words.to_string());
        match self.kind {
            Kind::Choice(words) | Kind::Words(words) => words().into_iter().map(|(k, w)| own(k, w)).collect(),
            Kind::Pick(pick) | Kind::Picks(pick) => listed(pick, catalogue),
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
            Kind::Words(words) => {
                let keys: Vec<_> = words().into_iter().map(|(key, _)| key).collect();
                format!("a list of {}", keys.join(", "))
            }
            Kind::Picks(_) => {
                let keys: Vec<_> = self.options(catalogue).into_iter().map(|(k, _)| k).collect();
                format!("a list of {}", keys.join(", "))
            }
            Kind::Weekdays => "weekdays such as [\"mon\", \"wed\"], \"every other day\", or \"A: sat; B: wed, sat\" where weeks differ".into(),
            Kind::Months => "months such as [\"nov-mar\"], or \"all year\"".into(),
            Kind::Choice(_) | Kind::Pick(_) => {
                let keys: Vec<_> = self.options(catalogue).into_iter().map(|(k, _)| k).collect();
                format!("one of {}", keys.join(", "))
            }
        }
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
}

/// The keys of a list of the catalogue, each with its words.
fn listed(pick: Pick, catalogue: &Catalogue) -> Vec<(String, String)> {
    let own = |key: &str, words: &str| (key.to_string(), words.to_string());
    match pick {
        Pick::Chemistry => catalogue.chemistries.iter().map(|c| own(&c.key, &c.name)).collect(),
        Pick::Insulation => catalogue.insulations.iter().map(|i| own(&i.key, &i.name)).collect(),
        Pick::CablePlace => catalogue.places.iter().map(|p| own(&p.key, &p.name)).collect(),
        Pick::FuseStyle => catalogue.fuse_styles.iter().map(|f| own(&f.key, &f.name)).collect(),
        Pick::DropClass => catalogue.rules.drop_class.iter().map(|d| own(&d.key, &d.about)).collect(),
        Pick::Placement => catalogue.rules.placement.iter().map(|p| own(&p.key, &p.from.enclosed.source)).collect(),
        Pick::Plug => catalogue.workshop.plugs.iter().map(|p| own(&p.key, &p.name)).collect(),
        Pick::Region => catalogue.regions.iter().map(|r| own(&r.key, &r.name)).collect(),
        Pick::Stud => catalogue.studs.iter().map(|s| own(&s.key, &s.from.stress_area.source)).collect(),
        Pick::StudClass => catalogue.stud_classes.iter().map(|c| own(&c.key, &c.name)).collect(),
        Pick::Shock => catalogue.shocks.iter().map(|s| own(&s.key, &s.name)).collect(),
    }
}

/// The canonical label of a size as typed: a catalogue label, a trade label, or millimetres squared.
fn size_label(typed: &str, catalogue: &Catalogue) -> Result<String, String> {
    let wanted = plain(typed);
    // What is sold as B&S may hold less than that gauge: the label itself, before the gauge it claims.
    let sold = catalogue.trade_labels.iter().find(|t| t.label.eq_ignore_ascii_case(typed.trim()));
    if let Some(sold) = sold {
        return Ok(sold.label.clone());
    }
    if let Some(why) = misleading(&wanted, catalogue) {
        return Err(why);
    }
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

/// Why a size cannot be read, where it is one that misleads: a diameter, or a number that two scales have.
fn misleading(wanted: &str, catalogue: &Catalogue) -> Option<String> {
    if let Some(number) = wanted.strip_suffix("mm").filter(|n| n.parse::<f64>().is_ok()) {
        let sold = catalogue.trade_labels.iter().find(|t| plain(&t.label) == format!("{number}mmauto"));
        let holds = sold.map_or_else(String::new, |t| format!(", which holds {}", t.copper));
        return Some(format!(
            "`{number} mm` is a diameter: write `{number} mm2` for that much copper, or `{number} mm auto` for cable sold \
             by its outside{holds}"
        ));
    }
    let gauge = catalogue.conductors.iter().find(|c| c.label == format!("{wanted} AWG"))?;
    Some(format!(
        "`{wanted}` may be {wanted} mm² or {}, which has {}: write `{wanted} mm2` or `{}`",
        gauge.label, gauge.area, gauge.label
    ))
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
