//! What if the loads had a board more, or one less? The same loads at the same places, with other leads and feeds.

use super::variant::Bench;
use crate::engine::judge::remedy::Edit;
use crate::plan::{Choice, Load, Place, Run, Value, field_at};
use crate::quantity::Metres;

/// So many loads with leads make a second board worth a thought. Common practice, no source.
const WORTH: usize = 4;
/// A second board sits so far before the nearest of the loads that it feeds,
const BEFORE: Metres = Metres::new(0.5);
/// and so far from the first at least.
const APART: Metres = Metres::new(1.0);

/// A second board for the farther half of the loads of one, as far along as the nearest of them: their leads are so much
/// shorter, and a run of its own leads to it beside that of the first.
pub fn two_boards(bench: &Bench) -> Option<(String, Vec<Edit>)> {
    let plan = bench.plan;
    let (board, feed) = plan.boards.iter().find_map(|b| Some((b, plan.runs.iter().position(|r| r.to == b.name)?)))?;
    if plan.boards.len() > 1 {
        return None;
    }
    let mut led: Vec<(usize, Metres)> =
        led_from(&plan.loads, &board.name).filter(|(n, _)| alone(&plan.loads[*n])).collect();
    led.sort_by(|a, b| a.1.get().total_cmp(&b.1.get()));
    let far = led.split_off(led.len() / 2);
    let apart = Metres::new(((far.first()?.1 - BEFORE).get() * 10.0).floor() / 10.0);
    if far.len() * 2 < WORTH || apart < APART {
        return None;
    }
    let name = (2..)
        .map(|n| format!("{} {n}", board.name))
        .find(|name| !bench.before.installation.circuits.has_point(name))?;
    let (of, new) = (plan.boards.len(), plan.runs.len());
    let text = |words: &str| Some(Value::Text(words.into()));
    let mut edits = vec![
        Edit { place: Place::board(of, "name"), value: text(&name) },
        Edit { place: Place::board(of, "kind"), value: text(board.kind.key()) },
        Edit { place: Place::run(new, "from"), value: text(&plan.runs[feed].from) },
        Edit { place: Place::run(new, "to"), value: text(&name) },
        Edit { place: Place::run(new, "length_m"), value: metres(plan.runs[feed].length + apart) },
    ];
    edits.extend(board.style.as_deref().map(|style| Edit { place: Place::board(of, "style"), value: text(style) }));
    for key in ["insulation", "surroundings", "return"] {
        let place = Place::run(feed, key);
        let value = field_at(place).and_then(|f| f.get(plan, feed));
        edits.extend(value.map(|v| Edit { place: Place { index: new, ..place }, value: Some(v) }));
    }
    for (load, lead) in &far {
        edits.push(Edit { place: Place::load(*load, "at"), value: text(&name) });
        edits.push(Edit { place: Place::load(*load, "lead_m"), value: metres(*lead - apart) });
    }
    Some((format!("two boards: `{name}`, {apart} on, for {} of the loads", far.len()), edits))
}

/// The loads of one board on another: their leads are longer by the way between the two, and the board and its run go.
pub fn one_board(bench: &Bench) -> Option<(String, Vec<Edit>)> {
    let plan = bench.plan;
    let fed = |name: &str| plan.runs.iter().position(|r| r.to == name);
    let boards: Vec<(usize, usize)> =
        plan.boards.iter().enumerate().filter_map(|(n, b)| Some((n, fed(&b.name)?))).collect();
    let (keeps, stays) =
        *boards.iter().max_by_key(|(n, _)| plan.loads.iter().filter(|l| l.at == plan.boards[*n].name).count())?;
    let others = boards.iter().filter(|(n, run)| *n != keeps && !plan.boards[*n].keep && !plan.runs[*run].keep);
    let (goes, run) = *others
        .filter(|(n, _)| only_leads(bench, &plan.boards[*n].name))
        .min_by_key(|(n, _)| plan.loads.iter().filter(|l| l.at == plan.boards[*n].name).count())?;
    let between = between(&plan.runs[stays], &plan.runs[run])?;
    let name = &plan.boards[keeps].name;
    let ways = |at: &str| plan.loads.iter().filter(|l| l.at == at).filter_map(|l| l.way.clone()).collect::<Vec<_>>();
    let here = ways(name);
    // Ways of one word would become one way.
    if ways(&plan.boards[goes].name).iter().any(|way| here.contains(way)) {
        return None;
    }
    let mut edits = Vec::new();
    for (load, lead) in led_from(&plan.loads, &plan.boards[goes].name) {
        edits.push(Edit { place: Place::load(load, "at"), value: Some(Value::Text(name.clone())) });
        edits.push(Edit { place: Place::load(load, "lead_m"), value: metres(lead + between) });
    }
    edits.push(Edit { place: Place::run(run, "from"), value: None });
    edits.push(Edit { place: Place::board(goes, "name"), value: None });
    Some((format!("one board fewer: all of `{}` at `{name}`, {between} farther", plan.boards[goes].name), edits))
}

/// The loads that hang at a point by leads of their own, each with its length.
fn led_from<'a>(loads: &'a [Load], at: &'a str) -> impl Iterator<Item = (usize, Metres)> + 'a {
    loads.iter().enumerate().filter(move |(_, l)| l.at == at).filter_map(|(n, l)| Some((n, l.lead.length?)))
}

/// Whether a load may move alone: it shares no way, and nobody wants it left as it is.
fn alone(load: &Load) -> bool {
    load.way.is_none() && !load.keep
}

/// Whether nothing but loads by leads of their own hangs at a board, so that nothing is cut off without it.
fn only_leads(bench: &Bench, at: &str) -> bool {
    let plan = bench.plan;
    let sources = [&plan.inverter.at, &plan.solar.at, &plan.mains.at];
    let mut here = plan.loads.iter().filter(|l| l.at == at).peekable();
    here.peek().is_some()
        && here.all(|l| l.lead.length.is_some() && !l.keep)
        && plan.runs.iter().all(|r| r.from != at)
        && plan.runs.iter().filter(|r| r.to == at).count() == 1
        && plan.plugs.iter().all(|p| p.name != at)
        && sources.into_iter().all(|s| s != at)
}

/// The way from one board to another: along the run between them, or back along one's run and out along the other's.
fn between(stays: &Run, goes: &Run) -> Option<Metres> {
    let longer = if goes.from == stays.to {
        goes.length
    } else if goes.from == stays.from {
        stays.length + goes.length
    } else {
        return None;
    };
    Some(Metres::new((longer.get() * 10.0).ceil() / 10.0))
}

fn metres(length: Metres) -> Option<Value> {
    Some(Value::Number((length.get() * 1000.0).round() / 1000.0))
}
