//! `cable`: every size side by side for one current and length.

use super::arguments::{Cable, Common};
use super::failure::Failure;
use super::status::Status;
use super::{input, output, typed};
use crate::catalogue::Catalogue;
use crate::engine::ask::cable::{CableQuestion, cable_question};
use crate::engine::design::results::fact::At;
use crate::papers;
use crate::plan::{Choice, Place, Section, SizeFamily, shorten};
use crate::quantity::{Share, Unit, parse};

/// Answer it.
pub fn run(asked: &Cable, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let question = question(asked, &catalogue)?;
    let answer = cable_question(&catalogue, &question);
    let at = At { workings: asked.told.workings, ..At::site(&answer.site) };
    output::answer(
        asked.told.form,
        common,
        || papers::json::answer(&answer, &at),
        || papers::cable_answer(&answer, asked.told.workings),
    )?;
    Ok(Status::of(&answer.findings))
}

fn question(asked: &Cable, catalogue: &Catalogue) -> Result<CableQuestion, Failure> {
    let run = |key| Place::run(0, key);
    let sizes = typed::word("sizes", &asked.sizes, Place::of(Section::Rules, "sizes"), catalogue)?;
    let sizes = SizeFamily::from_key(&sizes).unwrap_or_default();
    let air = match &asked.air {
        Some(text) => Some(typed::number("air", text, run("air_c"), catalogue)?),
        None => None,
    };
    let time = |name, text: &Option<String>, key| match text {
        Some(text) => typed::number(name, text, Place::load(0, key), catalogue).map(Some),
        None => Ok(None),
    };
    let cycle = time("on", &asked.on, "on_s")?.zip(time("off", &asked.off, "off_s")?);
    let current = typed::number("current", &asked.current, run("current_a"), catalogue);
    let swapped =
        || parse(&asked.current, Unit::Metre).is_ok() && parse(&asked.length, Unit::Amp).is_ok() && current.is_err();
    if swapped() {
        let (amps, length) = (shorten(&asked.length), shorten(&asked.current));
        let what = format!("current `{length}`: this is a length, and the current comes first");
        return Err(Failure::new(what, format!("loomwright cable {amps} {length}")));
    }
    Ok(CableQuestion {
        current: current?,
        length: typed::number("length", &asked.length, run("length_m"), catalogue)?,
        drop: drop(&asked.drop, catalogue)?,
        insulation: typed::word("insulation", &asked.insulation, run("insulation"), catalogue)?,
        place: typed::word("place", &asked.through, run("surroundings"), catalogue)?,
        air,
        bundled_with: asked.bundled_with,
        sizes,
        size: asked.size.as_ref().map(|s| typed::size(s, sizes.family(), catalogue)).transpose()?,
        cycle,
        chassis: asked.chassis,
        joints: if asked.cable_alone { 0 } else { asked.joints },
        fused: !asked.cable_alone,
        ..CableQuestion::default()
    })
}

/// A drop class by its name, or a share such as `2.5%`.
fn drop(text: &str, catalogue: &Catalogue) -> Result<Share, Failure> {
    if text.trim_end().ends_with('%') {
        let field = Place::of(Section::Rules, "drop_ordinary");
        return typed::number("drop", text, field, catalogue);
    }
    let key = typed::word("drop", text, Place::load(0, "drop"), catalogue).map_err(|failure| {
        match text.trim().replace(',', ".").parse::<f64>() {
            // A bare number may be a share or percent, and a class is no number.
            Ok(n) if n > 0.0 && n < 100.0 => {
                let percent = if n < 1.0 { n * 100.0 } else { n };
                let what = format!("drop `{}`: a share of the voltage is written with its sign", shorten(text));
                Failure::new(what, format!("did you mean {percent}%? Or name a class: critical, ordinary, tolerant"))
            }
            _ => failure,
        }
    })?;
    let limit = catalogue.rules.class(&key).map(|c| c.limit);
    limit.ok_or_else(|| Failure::new(format!("no loss allowed is called `{key}`"), "loomwright catalogue rules"))
}
