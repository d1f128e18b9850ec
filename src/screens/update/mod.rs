//! What each action does: one short arm each, the work in the file of its question.

mod bench;
mod card;
mod editing;
pub(super) mod files;
mod find;
mod flow;
mod list;
mod logging;
mod mend;
mod moving;
mod numbers;
mod overlays;
mod own;
mod papers;
mod probing;
mod rivals;
mod versions;
mod walk;

use super::action::Action;
use super::app::App;
use super::overlay::Overlay;
use super::tried::Tried;

pub use flow::Flow;

/// Do an action, and those that follow from it.
pub fn update(app: &mut App, action: Action) -> Flow {
    let mut flow = act(app, action);
    while let Flow::Then(next) = flow {
        app.settle();
        flow = act(app, next);
    }
    logging::follow(app);
    app.settle();
    match flow {
        Flow::On if app.then == Some(Action::QuitNow) && app.overlay.is_none() && !app.unsaved() => Flow::Quit,
        flow => flow,
    }
}

fn act(app: &mut App, action: Action) -> Flow {
    // What was said is for the moment; after a move the cell in hand is explained.
    if matches!(
        action,
        Action::Show(_) | Action::NextPane | Action::PreviousPane | Action::Move(_) | Action::Stand { .. }
    ) {
        app.message = None;
    }
    match &app.overlay {
        Some(Overlay::Walk(_)) if overlays::takes(&action) => {
            walk::step(app, action);
            return Flow::On;
        }
        Some(_) if overlays::takes(&action) => return overlays::update(app, action),
        _ => {}
    }
    match action {
        Action::Show(screen) => {
            moving::show(app, screen);
            files::look_in_passing(app);
        }
        Action::NextPane => moving::pane(app, 1),
        Action::PreviousPane => moving::pane(app, -1),
        Action::Move(way) if app.editing.is_some() => editing::move_pick(app, way),
        Action::Move(way) => moving::step(app, way),
        Action::Stand { pane, row, column } => moving::stand(app, pane, row, column),
        Action::Jump { screen, pane, row, column } => {
            moving::show(app, screen);
            moving::stand(app, pane, row, column);
        }
        Action::Open => return editing::open(app),
        Action::Edit => editing::begin_here(app),
        Action::TypeHere(letter) => editing::begin_with(app, letter),
        Action::Clear => editing::clear(app),
        Action::Add => list::add(app),
        Action::Copy => list::copy(app),
        Action::Remove => list::remove(app),
        Action::Shift(by) => list::shift(app, by),
        Action::Drag { from, to } => list::drag(app, from, to),
        Action::AddLoad(which) => list::add_load(app, which),
        Action::MakeBoard(point) => list::make_board(app, &point),
        Action::Put { place, value, words } => editing::put(app, place, value.as_ref(), words),
        Action::AskMend { edits, words } => mend::ask(app, edits, words),
        Action::PutAll { edits, words } => mend::put_all(app, &edits, words),
        Action::Mend => mend::open(app),
        Action::Compare => rivals::open(app),
        Action::Probe => probing::open(app),
        Action::LookFor { symptom, load } => probing::look_for(app, symptom, load),
        Action::GoOnProbing => probing::go_on(app),
        Action::AskLog => logging::ask(app),
        Action::OpenLog(path) => logging::open(app, &path),
        Action::GoOnLogging => logging::go_on(app),
        Action::Read { title, lines } => rivals::read(app, title, lines),
        Action::Rival(number) => rivals::ask(app, number),
        Action::PinRival(number) => rivals::pin(app, number),
        Action::Rivals => rivals::again(app),
        Action::TakeOne { edits, words } => mend::take_one(app, &edits, words),
        Action::Keep => list::keep(app),
        Action::Go(place) => moving::go(app, place),
        Action::Undo => editing::undo(app),
        Action::Redo => editing::redo(app),
        Action::Choose(action) => return overlays::choose(app, *action),
        Action::Commit => editing::commit(app),
        Action::CommitNext => editing::commit_next(app),
        Action::Cancel => moving::cancel(app),
        Action::Type(request) => editing::type_in(app, request),
        Action::Paste(text) => editing::paste(app, &text),
        Action::Save => return files::save(app),
        Action::SaveOver => return files::save_over(app),
        Action::SaveAs => files::ask_save_as(app),
        Action::AskPapers => papers::ask(app),
        Action::Papers(folder, replace) => papers::write(app, &folder, replace),
        Action::SaveTo(path) => return files::save_to(app, &path),
        Action::AskOpen => files::ask_open(app),
        Action::OpenPlan(path) => files::open(app, &path),
        Action::OpenExample(n) => files::open_example(app, n),
        Action::Reload => files::reload(app),
        Action::Versions => versions::open(app),
        Action::LookAtVersion(n) => versions::look_at(app, n),
        Action::TakeVersion(n) => versions::take(app, n),
        Action::Recover => files::recover(app),
        Action::ForgetRecovered => files::forget(app),
        Action::DropChanges => return files::drop_changes(app),
        Action::Quit => return files::quit(app),
        Action::QuitNow => return Flow::Quit,
        Action::SaveAndQuit => return files::save_and_quit(app),
        Action::Walk => walk::open(app),
        Action::Welcome => overlays::welcome(app),
        Action::ToBuy => overlays::to_buy(app),
        Action::Bench(question) => bench::open(app, question),
        Action::OwnRow(kind) => own::open(app, kind),
        // Only the bench has an answer to take, and a form a row to keep.
        Action::TakeAnswer | Action::KeepRow => {}
        Action::Help => overlays::help(app),
        Action::Working => card::open(app),
        Action::Find => find::open(app),
        Action::Changes => overlays::changes(app),
        Action::NextFinding => moving::next_finding(app),
        Action::Apply => list::apply_remedy(app),
        Action::Pin => overlays::pin(app),
        Action::Units => overlays::units(app),
        Action::Zoom => app.zoom = !app.zoom,
        Action::Detail => moving::detail(app),
        Action::ToRun => moving::to_run(app),
        Action::Mouse => overlays::mouse(app),
        Action::Simulate(span) => app.days.span = span,
        Action::DrawChances(count) => overlays::draw_chances(app, count),
        Action::Hear(news) => app.days.hear(news),
        Action::HearTried(news) => hear(app, news),
        Action::HearLog(news) => logging::hear(app, news),
        Action::Redraw => app.redraw = true,
        Action::Suspend => app.suspend = true,
        Action::Look => files::look(app),
    }
    Flow::On
}

/// News of a worker that tries what mends the plan, or the answers of a new one.
fn hear(app: &mut App, news: Tried) {
    match app.mends.hear(news) {
        Some(what) if matches!(app.overlay, Some(Overlay::Walk(_))) => walk::hear(app, what),
        Some(what) => mend::hear(app, what),
        None => {}
    }
}
