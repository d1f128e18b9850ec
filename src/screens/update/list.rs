//! Rows of the plan's lists: add, copy, delete, move. And remedies.

use crate::engine::installation::subject::Subject;
use crate::plan::{self, Place, Section, Value, field_at, point};
use crate::screens::action::Action;
use crate::screens::answers::{LEAD, STYLE, load_values};
use crate::screens::app::App;
use crate::screens::findings::REMEDIES;
use crate::screens::overlay::{Entry, Menu, Other, Overlay};
use crate::screens::pane::Pane;
use crate::screens::screen::Screen;
use crate::screens::update::{editing, mend, moving, numbers};

/// The list in hand, its row and its length.
fn in_hand(app: &App) -> Option<(Section, usize, usize)> {
    let panes = app.all_panes();
    let table = panes.get(app.pane()).and_then(Pane::as_table)?;
    let section = table.list?;
    Some((section, item_of(app, section, app.spot(app.pane(), table).row), section.count(&app.now.plan)))
}

/// Which item of its list a row is: leads stand under the run that feeds their board.
fn item_of(app: &App, section: Section, row: usize) -> usize {
    match section {
        Section::Run => app.now.design.installation.listed_runs().get(row).copied().unwrap_or(row),
        _ => row,
    }
}

/// The row in hand, where it can be copied, moved or taken out: a lead is entered with its load.
fn own_row(app: &mut App) -> Option<(Section, usize, usize)> {
    let (section, row, rows) = in_hand(app)?;
    if row < rows {
        return Some((section, row, rows));
    }
    if section == Section::Run && row < app.now.design.installation.runs.len() {
        app.say("a lead is entered with its load: on Loads, under Lead");
    }
    None
}

/// Keep the row in hand as it is when the plan is mended, or no more.
pub fn keep(app: &mut App) {
    let Some((section, index, _)) = own_row(app) else { return };
    let place = Place { section, index, key: "keep" };
    let Some(field) = field_at(place) else { return app.say("mending changes nothing in this list") };
    let kept = field.get(&app.now.plan, index) == Some(Value::Flag(true));
    let words = if kept { "mending may change this row again" } else { "kept: mending leaves this row as it is" };
    editing::put(app, place, Some(&Value::Flag(!kept)), words.into());
}

/// Work in the first list of the screen, unless one is in hand.
fn to_a_list(app: &mut App) {
    if in_hand(app).is_none() {
        let panes = app.all_panes();
        let list = panes.iter().position(|p| p.as_table().is_some_and(|t| t.list.is_some()));
        drop(panes);
        list.into_iter().for_each(|list| moving::in_pane(app, list));
    }
}

/// Make an edit of the list and stand on a row of it. `moved` says which row each old one is then.
fn apply(
    app: &mut App,
    text: Result<String, plan::EditError>,
    title: String,
    section: Section,
    item: usize,
    moved: impl Fn(usize) -> Option<usize>,
) -> bool {
    let of = |place: Place| if place.section == section { moved(place.index) } else { Some(place.index) };
    let done = text
        .map_err(|e| e.to_string())
        .map(|text| if matches!(section, Section::Run | Section::Load) { numbers::kept(app, text, of) } else { text })
        .and_then(|text| app.apply(text, title, None));
    match done {
        Ok(()) => {
            let screen = moving::screen_of(section);
            let pane = if matches!(
                section,
                Section::Stud
                    | Section::Drilled
                    | Section::Mounted
                    | Section::Block
                    | Section::Price
                    | Section::Measured
                    | Section::Board
                    | Section::Plug
            ) {
                app.pane()
            } else {
                0
            };
            let column = app.spots.get(&(screen, pane)).map_or(0, |s| s.column);
            let row = moving::row_of(app, section, item);
            app.spots.insert((screen, pane), crate::screens::app::Spot { row, column });
            true
        }
        Err(reason) => {
            app.refuse(reason);
            false
        }
    }
}

/// Add a row: a load from the list of typical ones, or a run.
pub fn add(app: &mut App) {
    to_a_list(app);
    match in_hand(app) {
        Some((Section::Load, _, _)) => {
            let entry = |(n, l): (usize, &crate::catalogue::TypicalLoad)| Entry {
                words: l.name.clone(),
                extra: format!("{} · {}", l.group, l.power),
                action: Action::AddLoad(Ok(n)),
            };
            let entries = app.catalogue.loads.iter().enumerate().map(entry).collect();
            let title = "New load: type to search, or type another name";
            app.overlay = Some(Overlay::Menu(Menu::new(title, entries).or(Other::LoadName, "")));
        }
        Some((Section::Run, row, rows)) => add_run(app, row, rows),
        Some((Section::Board, row, rows)) => {
            let name = numbered("board", |n| app.now.plan.boards.iter().any(|b| b.name == n));
            let values = [("name", Value::Text(name)), ("kind", Value::Text("fuse-box".into()))];
            add_plain(app, Section::Board, row, rows, &values);
        }
        Some((Section::Plug, row, rows)) => {
            let name = numbered("plug", |n| app.now.plan.plugs.iter().any(|p| p.name == n));
            add_plain(app, Section::Plug, row, rows, &[("name", Value::Text(name))]);
        }
        Some((Section::Stud, row, rows)) => {
            let values = [("along_mm", Value::Number(0.0)), ("across_mm", Value::Number(0.0))];
            add_plain(app, Section::Stud, row, rows, &values);
        }
        Some((Section::Drilled, row, rows)) => {
            // The next stud, at the place where it was planned.
            let stud = app.now.plan.drilled.iter().map(|d| d.stud).max().unwrap_or(0) + 1;
            let strength = app.now.design.carrier.as_ref().and_then(|c| c.strength.as_ref());
            let planned = strength.and_then(|s| s.studs.get(stud as usize - 1));
            let at = planned.map_or((0.0, 0.0), |s| (s.along.get(), s.across.get()));
            let values = [
                ("stud", Value::Number(f64::from(stud))),
                ("along_mm", Value::Number(at.0)),
                ("across_mm", Value::Number(at.1)),
            ];
            add_plain(app, Section::Drilled, row, rows, &values);
        }
        Some((Section::Mounted, row, rows)) => {
            // First the charger, then the cut-off.
            let device = if rows == 0 { "charger" } else { "cut-off" };
            add_plain(app, Section::Mounted, row, rows, &[("device", Value::Text(device.into()))]);
        }
        Some((Section::Reading, row, rows)) => {
            let last = app.now.plan.readings.get(row);
            let at = last.map(|r| r.at.clone()).or_else(|| app.now.plan.runs.last().map(|r| r.to.clone()));
            let with = last.map(|r| r.with.clone()).unwrap_or_default();
            let values = [("at", Value::Text(at.unwrap_or_default())), ("with", Value::Text(with))];
            add_plain(app, Section::Reading, row, rows, &values);
        }
        Some((Section::Block, row, rows)) => {
            add_plain(app, Section::Block, row, rows, &[("capacity_ah", Value::Number(100.0))]);
        }
        Some((Section::Measured, row, rows)) => {
            let last = app.now.plan.measured.get(row).cloned().unwrap_or_default();
            let values = [
                ("year", Value::Number(f64::from(last.year + u32::from(rows > 0)))),
                ("month", Value::Number(f64::from(last.month))),
            ];
            add_plain(app, Section::Measured, row, rows, &values);
        }
        Some((Section::Price, row, rows)) => {
            // The planned chemistry first, then one that has no price yet.
            let planned = app.now.plan.service_battery.chemistry.clone();
            let all = app.catalogue.chemistries.iter().map(|c| c.key.clone());
            let priced = |key: &String| app.now.plan.prices.iter().any(|p| p.chemistry.as_ref() == Some(key));
            let next = std::iter::once(planned.clone()).chain(all).find(|key| !priced(key)).unwrap_or(planned);
            let values = [("chemistry", Value::Text(next)), ("per_100ah", Value::Number(0.0))];
            add_plain(app, Section::Price, row, rows, &values);
            let added = app.now.plan.prices.len() > rows;
            let price = Place { section: Section::Price, index: if rows == 0 { 0 } else { row + 1 }, key: "per_100ah" };
            if added {
                moving::go(app, price);
                editing::begin(app, price);
            }
        }
        _ => {}
    }
}

/// Add a load behind the one in hand, at the same point.
pub fn add_load(app: &mut App, which: Result<usize, String>) {
    let rows = app.now.plan.loads.len();
    let row = app.scene().item;
    let at = app.now.plan.loads.get(row).map(|l| l.at.clone());
    let at = at.or_else(|| app.now.plan.runs.last().map(|r| r.to.clone())).unwrap_or_default();
    let typical = which.as_ref().ok().and_then(|n| app.catalogue.loads.get(*n)).cloned();
    let (name, values) = match (typical, which) {
        (Some(typical), _) => {
            let name = free_name(app, &typical.name);
            let mut values = load_values(&typical, &name, &at);
            if !typical.inverter && app.now.plan.boards.iter().any(|b| b.name == at) {
                values.push(("lead_m", Value::Number(LEAD)));
            }
            (name, values)
        }
        (None, Err(name)) => {
            let name = free_name(app, &name);
            let values = vec![
                ("name", Value::Text(name.clone())),
                ("at", Value::Text(at)),
                ("power_w", Value::Number(10.0)),
                ("duty.hours_a_day", Value::Number(1.0)),
            ];
            (name, values)
        }
        (None, Ok(_)) => return,
    };
    let row = if rows == 0 { 0 } else { row + 1 };
    let text = plan::insert(&app.now.text, Section::Load, row, &values);
    apply(app, text, format!("new load: {name}"), Section::Load, row, behind(row));
}

/// Make a plain point a fuse box, last of the boards.
pub fn make_board(app: &mut App, point: &str) {
    let rows = app.now.plan.boards.len();
    let values = [
        ("name", Value::Text(point.into())),
        ("kind", Value::Text("fuse-box".into())),
        ("style", Value::Text(STYLE.into())),
    ];
    let text = plan::insert(&app.now.text, Section::Board, usize::MAX, &values);
    apply(app, text, format!("`{point}` as a fuse box"), Section::Board, rows, Some);
}

/// Add a row behind the one in hand, with values to be changed.
fn add_plain(app: &mut App, section: Section, row: usize, rows: usize, values: &[(&'static str, Value)]) {
    let row = if rows == 0 { 0 } else { row + 1 };
    let text = plan::insert(&app.now.text, section, row, values);
    apply(app, text, format!("new {}", section.title().to_lowercase()), section, row, behind(row));
}

fn add_run(app: &mut App, row: usize, rows: usize) {
    let from = app.now.plan.runs.get(row).map_or_else(|| point::CUT_OFF.to_string(), |r| r.from.clone());
    let taken = |name: &str| app.now.plan.runs.iter().any(|r| r.to == name || r.from == name);
    let to = numbered("new point", taken);
    let values = [("from", Value::Text(from)), ("to", Value::Text(to)), ("length_m", Value::Number(1.0))];
    let row = if rows == 0 { 0 } else { row + 1 };
    let text = plan::insert(&app.now.text, Section::Run, row, &values);
    if apply(app, text, "new run".into(), Section::Run, row, behind(row)) {
        let number = app.now.design.installation.run_number(row);
        app.add(format!("new run {number}"));
        moving::go(app, Place::run(row, "to"));
        editing::begin(app, Place::run(row, "to"));
    }
}

/// Where each old row is when a new one stands at `row`.
fn behind(row: usize) -> impl Fn(usize) -> Option<usize> {
    move |old| Some(old + usize::from(old >= row))
}

/// Copy the row in hand.
pub fn copy(app: &mut App) {
    let Some((section, row, _)) = own_row(app) else { return };
    let (name, words) = match section {
        Section::Load => {
            let name = app.now.plan.loads.get(row).map_or_else(String::new, |l| free_name(app, &l.name));
            (Some(name.clone()), name)
        }
        Section::Run => (None, "a new run".into()),
        section => (None, format!("{} {}", section.title().to_lowercase(), row + 2)),
    };
    let text = plan::copy(&app.now.text, section, row, name.as_deref());
    apply(app, text, format!("copied as {words}"), section, row + 1, behind(row + 1));
}

/// Take the row in hand out.
pub fn remove(app: &mut App) {
    let Some((section, row, rows)) = own_row(app) else { return };
    let name = named(app, section, row);
    let text = plan::remove(&app.now.text, section, row);
    let less = move |old: usize| if old == row { None } else { Some(old - usize::from(old > row)) };
    let row = row.min(rows.saturating_sub(2));
    if apply(app, text, format!("delete {name}"), section, row, less) {
        app.add(format!("deleted: {name}; u brings it back"));
    }
}

/// What a row is called.
fn named(app: &App, section: Section, row: usize) -> String {
    match section {
        Section::Load => app.scene().words(&Subject::Load(row)),
        Section::Run => app.scene().words(&Subject::Run(row)),
        section => format!("{} {}", section.title().to_lowercase(), row + 1),
    }
}

/// Move the row in hand.
pub fn shift(app: &mut App, by: isize) {
    let Some((section, row, rows)) = own_row(app) else { return };
    if let Some(to) = row.checked_add_signed(by).filter(|to| *to < rows) {
        let [from, to] = [row, to].map(|item| moving::row_of(app, section, item));
        drag(app, from, to);
    }
}

/// Move a row to another place.
pub fn drag(app: &mut App, from: usize, to: usize) {
    let Some((section, _, rows)) = in_hand(app) else { return };
    let [from, to] = [from, to].map(|row| item_of(app, section, row));
    if from == to || from >= rows || to >= rows {
        return;
    }
    let text = plan::shift(&app.now.text, section, from, to);
    let word = if to < from { "up" } else { "down" };
    // What lies between the two places makes room by one.
    let moved = move |old: usize| {
        Some(match old {
            _ if old == from => to,
            _ if from < old && old <= to => old - 1,
            _ if to <= old && old < from => old + 1,
            _ => old,
        })
    };
    let name = named(app, section, from);
    apply(app, text, format!("{name}: moved {word}"), section, to, moved);
}

/// Apply the remedy the cursor is on; from the list of findings the first that one edit does.
pub fn apply_remedy(app: &mut App) {
    if app.screen != Screen::Findings {
        return;
    }
    let Some(finding) = app.scene().tried.cloned() else { return app.say("still being tried") };
    let with_edit = |r: &&crate::engine::Remedy| !r.edits.is_empty();
    let remedy = if app.pane() == REMEDIES {
        let row = app.spots.get(&(Screen::Findings, REMEDIES)).map_or(0, |s| s.row);
        finding.remedies.get(row).filter(with_edit)
    } else {
        finding.remedies.iter().find(with_edit)
    };
    let Some((words, edits)) = remedy.map(|r| (r.words.clone(), r.edits.clone())) else {
        return app.say("no edit mends this; the remedies say what to do");
    };
    mend::put_all(app, &edits, words);
}

/// A name that no load has: `fridge`, `fridge 2`, …
fn free_name(app: &App, name: &str) -> String {
    numbered(name, |n| app.now.plan.loads.iter().any(|l| l.name.eq_ignore_ascii_case(n)))
}

/// The name itself, or with the first number that is free.
pub(super) fn numbered(name: &str, taken: impl Fn(&str) -> bool) -> String {
    if !taken(name) {
        return name.to_string();
    }
    let stem = name.trim_end_matches(|c: char| c.is_ascii_digit()).trim_end();
    (2..).map(|n| format!("{stem} {n}")).find(|n| !taken(n)).unwrap_or_default()
}
