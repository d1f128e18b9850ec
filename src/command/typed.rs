//! Values typed on the command line, read by the same fields as a plan's.

use super::failure::Failure;
use crate::catalogue::{Catalogue, Family};
use crate::plan::{Place, Section, Value, field_at, nearest, shorten};
use crate::quantity::{Quantity, Share, Unit, parse};

/// Read a number for a field of the plan.
pub fn number<Q: Quantity>(name: &str, text: &str, place: Place, catalogue: &Catalogue) -> Result<Q, Failure> {
    match value(name, text, place, catalogue)? {
        Value::Number(n) => Ok(Q::of(n)),
        _ => Err(Failure::new(format!("{name} `{}` is no number", shorten(text)), "")),
    }
}

/// Read a word for a field of the plan.
pub fn word(name: &str, text: &str, place: Place, catalogue: &Catalogue) -> Result<String, Failure> {
    match value(name, text, place, catalogue)? {
        Value::Text(t) => Ok(t),
        _ => Err(Failure::new(format!("{name} `{}` is no word", shorten(text)), "")),
    }
}

/// Read a share of a whole, `0.4`, `40%` or `40`.
pub fn share(name: &str, text: &str) -> Result<Share, Failure> {
    let help = format!("{name} is from 0 % to 100 %, such as 80% or 0.8");
    let failed = |why: String| Failure::new(format!("{name} `{}`: {why}", shorten(text)), help.clone());
    let share = parse(text, Unit::Share).map_err(|e| failed(e.explain(Unit::Share)))?;
    if (0.0..=1.0).contains(&share) { Ok(Share::new(share)) } else { Err(failed("this is no share of a whole".into())) }
}

/// What shops call the chemistries. `lithium` alone has two meanings; the
/// batteries sold for vehicles are of the first.
const CALLED: [(&str, &str); 6] = [
    ("lithium", "lithium-iron-phosphate"),
    ("lifepo4", "lithium-iron-phosphate"),
    ("life", "lithium-iron-phosphate"),
    ("lfp", "lithium-iron-phosphate"),
    ("nmc", "lithium-nmc"),
    ("wet", "flooded"),
];

/// Read a chemistry, and what to say when its word may mean another.
pub fn chemistry(text: &str, catalogue: &Catalogue) -> Result<(String, Option<String>), Failure> {
    let typed = text.trim().to_lowercase();
    let called = CALLED.iter().find(|c| c.0 == typed);
    // A profile of the user's own may bear that very name.
    let called = called.filter(|c| catalogue.chemistry(c.0).is_none() && catalogue.chemistry(c.1).is_some());
    match called {
        Some((word, key)) => {
            let note = (*word == "lithium").then(|| {
                format!(
                    "`lithium` is read as {key}, what is sold for vehicles; write lithium-nmc where the label says NMC"
                )
            });
            Ok(((*key).to_string(), note))
        }
        None => {
            let key = word("chemistry", text, Place::of(Section::ServiceBattery, "chemistry"), catalogue);
            // What shops call it may be misspelt as well.
            let meant = nearest(&typed, CALLED.iter().map(|c| c.0));
            let hinted = |failure: Failure| match (failure, meant) {
                (Failure::One { what, help }, Some(near)) if !what.contains("did you mean") => {
                    Failure::One { what: format!("{what}; did you mean `{near}`?"), help }
                }
                (failure, _) => failure,
            };
            Ok((key.map_err(hinted)?, None))
        }
    }
}

/// A value of several words as one, for shells: `6mm2` for `6 mm²`.
pub fn joined(label: &str) -> String {
    label.replace(' ', "").replace('²', "2")
}

/// Read a conductor size; one that is not sold names its neighbours.
pub fn size(text: &str, family: Family, catalogue: &Catalogue) -> Result<String, Failure> {
    let place = Place::run(0, "size");
    let failure = match word("size", text, place, catalogue) {
        Ok(label) => return Ok(label),
        Err(failure) => failure,
    };
    let Ok(area) = parse(text, Unit::SquareMillimetre) else { return Err(failure) };
    let mut sold: Vec<_> = catalogue.conductors.iter().filter(|c| c.family == family).collect();
    sold.sort_by(|a, b| a.area.get().total_cmp(&b.area.get()));
    let below = sold.iter().rev().find(|c| c.area.get() < area).map(|c| c.label.as_str());
    let above = sold.iter().find(|c| c.area.get() > area).map(|c| c.label.as_str());
    let nearest = match (below, above) {
        (Some(below), Some(above)) => format!("the nearest are {below} and {above}; take the larger"),
        (Some(largest), None) => format!("the largest is {largest}"),
        (None, Some(smallest)) => format!("the smallest is {smallest}"),
        (None, None) => "write it like \"6 mm2\" or \"10 AWG\"".into(),
    };
    Err(Failure::new(format!("size `{}`: no conductor of this area is sold", shorten(text)), nearest))
}

fn value(name: &str, text: &str, place: Place, catalogue: &Catalogue) -> Result<Value, Failure> {
    let Some(field) = field_at(place) else {
        return Err(Failure::new(format!("{name} cannot be read here"), ""));
    };
    field.parse(text, catalogue).map_err(|why| {
        // The field of a plan may be called something else than what was asked here.
        let what = format!("{name} `{}`: {}", shorten(text), why.explain("it"));
        Failure::new(what, format!("{name} is {}", field.accepted(catalogue)))
    })
}
