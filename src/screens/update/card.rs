//! The working of the number in hand, and stepping into the numbers it was built from.

use crate::engine::ask::work_out::work_out_size;
use crate::engine::{Subject, Topic};
use crate::screens::action::Way;
use crate::screens::app::App;
use crate::screens::overlay::{Card, Overlay};
use std::rc::Rc;

/// Show the working of the number in hand.
pub fn open(app: &mut App) {
    let Some(cell) = app.cell() else { return };
    if let Some(Topic { subject: Subject::Size(run, label), .. }) = &cell.topic {
        // Sizes side by side are explained only when somebody asks.
        let state = Rc::make_mut(&mut app.now);
        if let Some(workings) = work_out_size(&state.design, *run, label) {
            state.design.add_workings(workings);
        }
    }
    match cell.topic {
        Some(topic) if app.working(&topic).is_some() => {
            app.overlay = Some(Overlay::Card(Card { stack: vec![topic], pick: 0 }));
        }
        _ => match cell.place.and_then(crate::plan::field_at) {
            Some(field) => {
                let accepted = field.accepted(&app.catalogue);
                app.say(format!("{}: entered, not worked out; it can be {accepted}", field.label));
            }
            None if !cell.why.is_empty() => app.say(cell.why),
            None => app.say("nothing was worked out for this"),
        },
    }
}

/// Move among the numbers put in, or back.
pub fn step(app: &mut App, way: Way) {
    let count = shown(app).map_or(0, |t| app.working(t).map_or(0, |w| w.inputs.len()));
    let Some(Overlay::Card(card)) = &mut app.overlay else { return };
    match way {
        Way::Up => card.pick = card.pick.saturating_sub(1),
        Way::Down => card.pick = (card.pick + 1).min(count.saturating_sub(1)),
        Way::Left => {
            if card.stack.len() > 1 {
                card.stack.pop();
                card.pick = 0;
            } else {
                app.overlay = None;
            }
        }
        _ => {}
    }
}

/// Step into the number in hand.
pub fn into(app: &mut App) {
    let Some(topic) = shown(app) else { return };
    let Some(Overlay::Card(card)) = &app.overlay else { return };
    let working = app.working(topic);
    let from = working.and_then(|w| w.inputs.get(card.pick)).and_then(|i| i.from.clone());
    let from = from.filter(|t| app.working(t).is_some());
    match (from, &mut app.overlay) {
        (Some(from), Some(Overlay::Card(card))) => {
            card.stack.push(from);
            card.pick = 0;
        }
        _ => app.say("this number was entered or read from a table; there is nothing under it"),
    }
}

fn shown(app: &App) -> Option<&Topic> {
    match &app.overlay {
        Some(Overlay::Card(card)) => card.stack.last(),
        _ => None,
    }
}
