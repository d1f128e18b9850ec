//! Moving: between screens, panes and cells, and to the field that mends something.

use crate::plan::{Place, Section};
use crate::screens::action::Way;
use crate::screens::app::{App, Spot};
use crate::screens::diagram;
use crate::screens::pane::{Body, PLACES, Table};
use crate::screens::screen::Screen;

const PAGE: isize = 10;

/// Show a screen; the drawing and the runs show each other's run in hand.
pub fn show(app: &mut App, screen: Screen) {
    let (from, run) = (app.screen, run_in_hand(app));
    app.screen = screen;
    match (screen, run) {
        (Screen::Diagram, Some(run)) if from != Screen::Diagram => on_diagram(app, run),
        (Screen::Runs, Some(run)) if from == Screen::Diagram => {
            let row = row_of(app, Section::Run, run);
            let column = app.spots.get(&(Screen::Runs, 0)).map_or(0, |s| s.column);
            place_at(app, 0, Spot { row, column });
        }
        _ => {}
    }
    app.zoom = false;
    // A pane left behind would take keys meant for what one sees first.
    app.panes.remove(&screen);
}

/// The run in hand: of the list, of the drawing, or the lead of the load in hand.
fn run_in_hand(app: &App) -> Option<usize> {
    match app.screen {
        Screen::Runs => Some(app.scene().item),
        Screen::Loads => app.now.design.installation.lead_of(app.scene().item),
        Screen::Diagram => {
            let row = app.spots.get(&(Screen::Diagram, 0)).map_or(0, |s| s.row);
            let panes = app.all_panes();
            match panes.first().map(|p| &p.body) {
                Some(Body::Text(text)) => text.runs.get(row).copied().flatten(),
                _ => None,
            }
        }
        _ => None,
    }
}

/// Stand on the line of a run.
fn on_diagram(app: &mut App, run: usize) {
    if let Some(row) = diagram::line_of(&app.scene(), run) {
        app.spots.insert((Screen::Diagram, 0), Spot { row, column: 0 });
    }
}

/// Overview or detail, with the same run in hand.
pub fn detail(app: &mut App) {
    let run = run_in_hand(app);
    app.detail = !app.detail;
    run.into_iter().for_each(|run| on_diagram(app, run));
}

/// From the drawing to the run in hand.
pub fn to_run(app: &mut App) {
    match run_in_hand(app) {
        Some(_) => show(app, Screen::Runs),
        None => app.say("this line is no run; the arrows go to one"),
    }
}

/// Work in another pane.
pub fn pane(app: &mut App, by: isize) {
    let count = app.all_panes().len();
    let next = (app.pane() as isize + by).rem_euclid(count.max(1) as isize) as usize;
    in_pane(app, next);
}

/// Work in this pane.
pub fn in_pane(app: &mut App, pane: usize) {
    app.panes.insert(app.screen, pane);
    if pane > 0 {
        app.seconds.insert(app.screen, pane);
    }
}

/// Back to the first pane, out of zoom, or the message away.
pub fn cancel(app: &mut App) {
    if app.editing.take().is_some() {
        return;
    }
    if app.zoom {
        app.zoom = false;
    } else if app.pane() != 0 {
        in_pane(app, 0);
    }
    app.message = None;
}

/// Stand on a cell.
pub fn stand(app: &mut App, pane: usize, row: usize, column: usize) {
    in_pane(app, pane);
    place_at(app, pane, Spot { row, column });
}

/// Move in the pane in hand.
pub fn step(app: &mut App, way: Way) {
    let pane = app.pane();
    let panes = app.all_panes();
    let next = match panes.get(pane).map(|p| &p.body) {
        Some(Body::Table(table)) => in_table(table, app.spot(pane, table), way),
        Some(Body::Plot(_)) => {
            let spot = app.spots.get(&(app.screen, pane)).copied().unwrap_or_default();
            on_plot(spot, way)
        }
        Some(Body::Text(text)) => {
            let spot = app.spots.get(&(app.screen, pane)).copied().unwrap_or_default();
            in_text(text.lines.len(), spot, way)
        }
        None => return,
    };
    drop(panes);
    place_at(app, pane, next);
}

/// Stand on a cell; another row of the first pane begins anew in the panes that tell more about it.
fn place_at(app: &mut App, pane: usize, next: Spot) {
    let screen = app.screen;
    let before = app.spots.insert((screen, pane), next).unwrap_or_default();
    if pane == 0 && before.row != next.row {
        app.spots.retain(|(s, p), _| *s != screen || *p == 0);
    }
}

fn in_table(table: &Table<'_>, spot: Spot, way: Way) -> Spot {
    let by = match way {
        Way::Up => -1,
        Way::Down => 1,
        Way::PageUp => -PAGE,
        Way::PageDown => PAGE,
        Way::First => return Spot { row: 0, ..spot },
        Way::Last => return Spot { row: table.rows.saturating_sub(1), ..spot },
        Way::Left => return Spot { column: stop(table, spot.column, -1), ..spot },
        Way::Right => return Spot { column: stop(table, spot.column, 1), ..spot },
        Way::Start => return Spot { column: 0, ..spot },
        Way::End => return Spot { column: table.columns.len().saturating_sub(1), ..spot },
    };
    let last = table.rows.saturating_sub(1);
    let mut row = spot.row.saturating_add_signed(by).min(last);
    // Over headings, in the direction of travel; none beyond: stay.
    while table.at(row).is_some_and(|r| r.heading) {
        let Some(next) = row.checked_add_signed(by.signum()).filter(|r| *r <= last) else { return spot };
        row = next;
    }
    Spot { row, ..spot }
}

/// The next column in which the cursor can stand; the same if there is none.
fn stop(table: &Table<'_>, column: usize, by: isize) -> usize {
    let mut at = column;
    while let Some(next) = at.checked_add_signed(by).filter(|c| *c < table.columns.len()) {
        at = next;
        if table.columns.get(at).is_some_and(|c| c.stops) {
            return at;
        }
    }
    column
}

/// The cursor along a plot.
fn on_plot(spot: Spot, way: Way) -> Spot {
    let by = |n: isize| Spot { column: spot.column.saturating_add_signed(n).min(PLACES), ..spot };
    match way {
        Way::Left => by(-1),
        Way::Right => by(1),
        Way::Up | Way::PageUp => by(-12),
        Way::Down | Way::PageDown => by(12),
        Way::Start | Way::First => Spot { column: 0, ..spot },
        Way::End | Way::Last => Spot { column: PLACES, ..spot },
    }
}

fn in_text(lines: usize, spot: Spot, way: Way) -> Spot {
    let last = lines.saturating_sub(1);
    let down = |n: isize| Spot { row: spot.row.saturating_add_signed(n).min(last), ..spot };
    let right = |n: isize| Spot { column: spot.column.saturating_add_signed(n).min(1000), ..spot };
    match way {
        Way::Up => down(-1),
        Way::Down => down(1),
        Way::PageUp => down(-PAGE),
        Way::PageDown => down(PAGE),
        Way::Left => right(-8),
        Way::Right => right(8),
        Way::Start => Spot { column: 0, ..spot },
        Way::First => Spot::default(),
        Way::Last | Way::End => Spot { row: last, ..spot },
    }
}

/// The screen on which a section is edited.
pub fn screen_of(section: Section) -> Screen {
    match section {
        Section::Job | Section::Load | Section::Inverter => Screen::Loads,
        Section::Vehicle | Section::Charger | Section::Solar | Section::Mains | Section::StarterBattery => {
            Screen::Supply
        }
        Section::ServiceBattery
        | Section::Standing
        | Section::Surroundings
        | Section::Block
        | Section::Price
        | Section::Measured => Screen::Battery,
        Section::Board | Section::Plug | Section::Run | Section::Rules | Section::Bond | Section::MainSwitch => {
            Screen::Runs
        }
        Section::CutOff => Screen::CutOff,
        Section::HoldDown
        | Section::Stud
        | Section::Beneath
        | Section::AsBuilt
        | Section::Drilled
        | Section::Mounted => Screen::Carrier,
        Section::Meter | Section::Reading => Screen::TestSheet,
    }
}

/// In which row an item of a list stands.
pub fn row_of(app: &App, section: Section, item: usize) -> usize {
    let listed = || app.now.design.installation.listed_runs().iter().position(|run| *run == item);
    if section == Section::Run { listed().unwrap_or(item) } else { item }
}

/// Stand on the cell that edits a field: in the first pane if it is there, else in the form that has it.
pub fn go(app: &mut App, place: Place) {
    show(app, screen_of(place.section));
    let first = place.section.is_list() && !matches!(place.section, Section::Board | Section::Plug);
    if first {
        let column = app.spots.get(&(app.screen, 0)).map_or(0, |s| s.column);
        let row = row_of(app, place.section, place.index);
        place_at(app, 0, Spot { row, column });
    }
    let found = app.all_panes().iter().enumerate().find_map(|(n, pane)| {
        let table = pane.as_table()?;
        let rows: Vec<usize> =
            if n == 0 && first { vec![row_of(app, place.section, place.index)] } else { (0..table.rows).collect() };
        rows.into_iter().find_map(|r| {
            let cells = table.at(r)?.cells;
            cells.iter().position(|c| c.place == Some(place)).map(|column| (n, r, column))
        })
    });
    if let Some((pane, row, column)) = found {
        stand(app, pane, row, column);
    }
}

/// Go to the field of the next finding.
pub fn next_finding(app: &mut App) {
    let findings = &app.now.design.findings;
    if findings.is_empty() {
        return app.say("nothing to mend");
    }
    let next = app.finding.map_or(0, |n| (n + 1) % crate::screens::findings::rows(findings));
    let Some(finding) = findings.get(next) else { return };
    let text = format!("{}: {}", finding.severity.word(), finding.text);
    let role = crate::screens::findings::role(finding.severity);
    let place = finding.place;
    app.finding = Some(next);
    app.spots.retain(|(s, _), _| *s != Screen::Findings);
    app.spots.insert((Screen::Findings, 0), Spot { row: next, column: 1 });
    match place {
        Some(place) => go(app, place),
        None => show(app, Screen::Findings),
    }
    app.message = Some(crate::screens::app::Message { text, role });
}
