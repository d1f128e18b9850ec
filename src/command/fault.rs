//! `fault`: which cause is likely, and what to measure next.

use super::arguments::{Common, Fault};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::engine::design::results::fact::At;
use crate::engine::{
    Measurement, On, Pole, Probe, Side, Symptom, Taken, TroubleAnswer, Wired, design, numbered, trouble,
};
use crate::papers::{self, trouble_answer};
use crate::plan::{nearest, point, shorten};
use crate::quantity::{Unit, parse};
use std::io::BufRead;

/// Answer it, or ask for readings until it is found.
pub fn run(asked: &Fault, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(Some(&asked.plan), &catalogue)?;
    let common = &common.of(&input.read.plan);
    let design = design(&input.read.plan, &catalogue);
    let wired = design.wired();
    let symptom = symptom(&asked.symptom)?;
    let load = load(&wired, symptom, asked.load.as_deref())?;
    let all = numbered(&wired, symptom, load);
    let mut taken = Vec::new();
    for text in &asked.readings {
        taken.push(at_point(&wired, load, text)?);
    }
    for (names, shown) in [(&asked.works, 1.0), (&asked.dim, 0.5), (&asked.fails, 0.0)] {
        for name in names {
            let other = named(&wired, name)?;
            taken.push(Taken { what: Measurement { on: On::Load(other), probe: Probe::Works }, shown });
        }
    }
    for text in &asked.found {
        let (number, shown) = value(text)?;
        let number = number.trim().parse().ok().and_then(|n: usize| n.checked_sub(1));
        let Some(what) = number.and_then(|n| all.get(n)) else {
            return Err(Failure::new(
                format!("there is no measurement `{}`", shorten(text)),
                format!("measurements are numbered 1 to {}", all.len()),
            ));
        };
        taken.push(Taken { what: *what, shown });
    }
    let mut skipped: Vec<Measurement> = asked.skip.iter().filter_map(|n| all.get(n.checked_sub(1)?)).copied().collect();
    let told = |taken: &[Taken], skipped: &[Measurement]| trouble(&wired, (symptom, load), taken, skipped);
    if asked.ask {
        let mut lines = std::io::stdin().lock().lines();
        loop {
            let answer = told(&taken, &skipped);
            show(&answer, common)?;
            let Some(step) = answer.next else { break };
            let Some(Ok(line)) = lines.next() else { break };
            match line.trim() {
                "" => break,
                "?" => skipped.push(step.what),
                typed => match parse(typed, Unit::Number) {
                    Ok(shown) => taken.push(Taken { what: step.what, shown }),
                    Err(why) => output::message(&format!("{}\n", why.explain(Unit::Number)), common.color),
                },
            }
        }
        return Ok(Status::of(&[]));
    }
    let answer = told(&taken, &skipped);
    let at = At::site(&design.installation);
    output::answer(asked.form, common, || papers::json::answer(&answer, &at), || trouble_answer(&answer))?;
    Ok(Status::of(&[]))
}

fn show(answer: &TroubleAnswer, common: &Common) -> anyhow::Result<()> {
    output::result(&papers::plain(&trouble_answer(answer), &common.look()), common.color)
}

fn symptom(word: &str) -> Result<Symptom, Failure> {
    let words = || Symptom::ALL.iter().map(|s| s.word());
    Symptom::ALL.into_iter().find(|s| s.word() == word.trim().to_lowercase()).ok_or_else(|| {
        let help = match nearest(word, words()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => Symptom::ALL.map(|s| format!("{} ({})", s.word(), s.words())).join(", "),
        };
        Failure::new(format!("there is no symptom `{}`", shorten(word)), help)
    })
}

fn load(wired: &Wired<'_>, symptom: Symptom, name: Option<&str>) -> Result<Option<usize>, Failure> {
    match name {
        Some(name) => Ok(Some(named(wired, name)?)),
        None if symptom.is_of_a_load() => {
            let help = format!("add --load NAME; {}", listed(wired));
            Err(Failure::new(format!("{}: which load?", symptom.words()), help))
        }
        None => Ok(None),
    }
}

/// By its name, or by a part of it that only one load's name has: `fridge` for `Compressor fridge, 50 L`.
fn named(wired: &Wired<'_>, name: &str) -> Result<usize, Failure> {
    let (loads, typed) = (&wired.site.loads, name.trim().to_lowercase());
    if let Some(same) = loads.iter().position(|l| l.name.to_lowercase() == typed) {
        return Ok(same);
    }
    let mut has = loads.iter().enumerate().filter(|(_, l)| !typed.is_empty() && l.name.to_lowercase().contains(&typed));
    match (has.next(), has.next()) {
        (Some((only, _)), None) => Ok(only),
        (Some(_), Some(_)) => {
            Err(Failure::new(format!("several loads have `{}` in their name", shorten(name)), listed(wired)))
        }
        (None, _) => Err(Failure::new(format!("the plan has no load `{}`", shorten(name)), listed(wired))),
    }
}

fn listed(wired: &Wired<'_>) -> String {
    format!("loads are {}", wired.site.loads.iter().map(|l| l.name.as_str()).collect::<Vec<_>>().join(", "))
}

/// What stands before the sign, and the number behind it.
fn value(text: &str) -> Result<(&str, f64), Failure> {
    let help = "write it as 17=12.4, or \"rear panel=11.6\"";
    let failed = |why: String| Failure::new(format!("reading `{}`: {why}", shorten(text)), help);
    let (before, number) = text.rsplit_once('=').ok_or_else(|| failed("it has no `=`".into()))?;
    let number = number.trim().trim_end_matches(['V', 'A', 'v', 'a']).trim();
    let number = parse(number, Unit::Number).map_err(|e| failed(e.explain(Unit::Number)))?;
    Ok((before, number))
}

/// A voltage at a point, plus to minus.
fn at_point(wired: &Wired<'_>, load: Option<usize>, text: &str) -> Result<Taken, Failure> {
    let (name, shown) = value(text)?;
    let name = name.trim();
    let side = if name == point::STARTER_BATTERY { Side::Feed } else { Side::Service };
    let spots = if name == point::SERVICE_BATTERY || name == point::STARTER_BATTERY {
        Some((Wired::post(side, Pole::Plus), Wired::post(side, Pole::Minus)))
    } else {
        let branch = wired.site.branch_to(name);
        branch.and_then(|b| Some((wired.far_end(b, Pole::Plus)?, wired.far_end(b, Pole::Minus)?)))
    };
    let Some((red, black)) = spots else {
        let points = wired.site.circuits.branches.iter().map(|b| b.far.as_str()).collect::<Vec<_>>();
        return Err(Failure::new(
            format!("no run leads to `{}`", shorten(name)),
            format!("points are {}, {}", point::SERVICE_BATTERY, points.join(", ")),
        ));
    };
    let on = load.map_or(On::Rest, On::Load);
    Ok(Taken { what: Measurement { on, probe: Probe::Between(red, black) }, shown })
}
