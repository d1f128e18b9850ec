//! Working at the bench: moving between the values, typing, and taking the answer into the plan.

use super::list::numbered;
use crate::engine::CutOffAnswer;
use crate::plan::{self, CutOffBy, EditError, Place, Section, Value, point};
use crate::quantity::Quantity;
use crate::screens::action::{Action, Way};
use crate::screens::app::App;
use crate::screens::bench::{Bench, Question};
use crate::screens::overlay::Overlay;
use std::collections::BTreeMap;
use tui_input::InputRequest;

/// Ask a question.
pub fn open(app: &mut App, question: Question) {
    app.message = None;
    app.overlay = Some(Overlay::Bench(Box::new(Bench::new(&app.scene(), question))));
}

/// Do an action at the bench.
pub fn update(app: &mut App, mut bench: Box<Bench>, action: Action) {
    match action {
        Action::Cancel => return,
        Action::Move(way) => step(app, &mut bench, way),
        Action::Commit | Action::Open => step(app, &mut bench, Way::Down),
        Action::Type(request) => type_in(app, &mut bench, request),
        Action::Paste(text) => {
            let line = text.lines().next().unwrap_or_default();
            line.chars().take(200).for_each(|c| type_in(app, &mut bench, InputRequest::InsertChar(c)));
        }
        Action::TakeAnswer => match take(app, &bench) {
            Ok(()) => return,
            Err(reason) => app.refuse(reason),
        },
        _ => {}
    }
    app.overlay = Some(Overlay::Bench(bench));
}

fn step(app: &App, bench: &mut Bench, way: Way) {
    let rows = bench.asked.len() + 1;
    bench.leave(&app.scene());
    match way {
        Way::Up => bench.pick = (bench.pick + rows - 1) % rows,
        Way::Down => bench.pick = (bench.pick + 1) % rows,
        Way::PageUp => bench.scroll = bench.scroll.saturating_sub(5),
        Way::PageDown => bench.scroll += 5,
        _ => return,
    }
    if let Some(edit) = bench.in_hand() {
        edit.fresh = true;
    }
}

fn type_in(app: &App, bench: &mut Box<Bench>, request: InputRequest) {
    let by = match request {
        InputRequest::GoToPrevChar => -1,
        InputRequest::GoToNextChar => 1,
        _ => 0,
    };
    let question = bench.question;
    match bench.in_hand() {
        // Two questions: either way leads to the other.
        None if by != 0 => {
            let other = Question::ALL.into_iter().find(|q| *q != question).unwrap_or(question);
            **bench = Bench { pick: 0, ..Bench::new(&app.scene(), other) };
            return;
        }
        None => return,
        Some(edit) if by != 0 && edit.is_closed() => edit.turn(by),
        Some(edit) => edit.type_in(request),
    }
    bench.work_out(&app.scene());
}

/// Make what was asked a part of the plan: one step of history.
fn take(app: &mut App, bench: &Bench) -> Result<(), String> {
    let values = bench.values(&app.scene()).map_err(|(_, why)| why)?;
    let answer = bench.answer.as_ref().map_err(|(_, why)| why.clone())?;
    let (text, words) = match (&answer.settings, bench.question) {
        (_, Question::Cable) => new_run(app, &values),
        (Some(answer), _) => settings(app, &values, answer),
        (None, _) => return Err("there is no setting to take".into()),
    }
    .map_err(|e| e.to_string())?;
    app.apply(text, words.clone(), None)?;
    app.say(format!("{words}; u takes it back"));
    Ok(())
}

/// A run from the cut-off to a new point, and a load there.
fn new_run(app: &App, values: &BTreeMap<&'static str, Value>) -> Result<(String, String), EditError> {
    let plan = &app.now.plan;
    let to = numbered("new point", |name| plan.runs.iter().any(|r| r.to == name || r.from == name));
    let load = numbered("new load", |name| plan.loads.iter().any(|l| l.name == name));
    let given = |keys: &[&'static str]| {
        keys.iter().filter_map(|key| values.get(key).map(|v| (*key, v.clone()))).collect::<Vec<_>>()
    };
    let mut run = vec![("from", Value::Text(point::CUT_OFF.into())), ("to", Value::Text(to.clone()))];
    run.extend(given(&["length_m", "surroundings", "insulation", "air_c", "bundled_with"]));
    let mut there = vec![("name", Value::Text(load.clone())), ("at", Value::Text(to.clone()))];
    there.extend(given(&["current_a", "on_s", "off_s"]));
    let text = plan::insert(&app.now.text, Section::Run, usize::MAX, &run)?;
    let text = plan::insert(&text, Section::Load, usize::MAX, &there)?;
    Ok((text, format!("new run to “{to}”, and “{load}” there: say where it goes and how long it is on")))
}

/// Chemistry, capacity and the settings.
fn settings(
    app: &App,
    values: &BTreeMap<&'static str, Value>,
    answer: &CutOffAnswer,
) -> Result<(String, String), EditError> {
    let design = &answer.design;
    let volts = |v: crate::quantity::Volts| Value::Number(v.number());
    let mut edits = vec![
        (Place::of(Section::CutOff, "cut_v"), volts(design.cut)),
        (Place::of(Section::CutOff, "reconnect_v"), volts(design.reconnect)),
        (Place::of(Section::CutOff, "delay_s"), Value::Number(design.delay.number())),
    ];
    for (section, key) in
        [(Section::ServiceBattery, "chemistry"), (Section::ServiceBattery, "capacity_ah"), (Section::CutOff, "reserve")]
    {
        edits.extend(values.get(key).map(|v| (Place::of(section, key), v.clone())));
    }
    let by = answer.question.by;
    if by == CutOffBy::Signal {
        // The battery says when: nothing is set.
        edits.retain(|(place, _)| place.section != Section::CutOff);
    }
    if by != CutOffBy::Voltage {
        let keys = ["acts_by", "drift", "reset_error"].map(|key| Place::of(Section::CutOff, key));
        edits.extend(keys.into_iter().filter_map(|place| Some((place, values.get(place.key)?.clone()))));
    }
    edits.extend(design.counter.map(|c| (Place::of(Section::CutOff, "opens_at"), Value::Number(c.opens.number()))));
    let text = edits
        .iter()
        .try_fold(app.now.text.to_string(), |text, (place, value)| plan::set(&text, *place, Some(value)))?;
    Ok((text, format!("cut-off set to open at {} and close at {}", design.opens(), design.closes())))
}
