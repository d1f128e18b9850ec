//! Values typed on the command line, read by the same fields as a plan's.

use super::failure::Failure;
use crate::catalogue::Catalogue;
use crate::plan::{Place, Value, field_at};
use crate::quantity::{Quantity, Share, Unit, parse};

/// Read a number for a field of the plan.
pub fn number<Q: Quantity>(name: &str, text: &str, place: Place, catalogue: &Catalogue) -> Result<Q, Failure> {
    match value(name, text, place, catalogue)? {
        Value::Number(n) => Ok(Q::of(n)),
        _ => Err(Failure::new(format!("{name} `{text}` is no number"), "")),
    }
}

/// Read a word for a field of the plan.
pub fn word(name: &str, text: &str, place: Place, catalogue: &Catalogue) -> Result<String, Failure> {
    match value(name, text, place, catalogue)? {
        Value::Text(t) => Ok(t),
        _ => Err(Failure::new(format!("{name} `{text}` is no word"), "")),
    }
}

/// Read a share of a whole, `0.4` or `40%`.
pub fn share(name: &str, text: &str) -> Result<Share, Failure> {
    let help = format!("{name} is from 0 % to 100 %, such as 80% or 0.8");
    let failed = |why: String| Failure::new(format!("{name} `{text}`: {why}"), help.clone());
    let share = parse(text, Unit::Share).map_err(|e| failed(e.explain(Unit::Share)))?;
    if (0.0..=1.0).contains(&share) { Ok(Share::new(share)) } else { Err(failed("this is no share of a whole".into())) }
}

fn value(name: &str, text: &str, place: Place, catalogue: &Catalogue) -> Result<Value, Failure> {
    let Some(field) = field_at(place) else {
        return Err(Failure::new(format!("{name} cannot be read here"), ""));
    };
    field.parse(text, catalogue).map_err(|why| {
        Failure::new(format!("{name} `{text}`: {why}"), format!("{name} is {}", field.accepted(catalogue)))
    })
}
