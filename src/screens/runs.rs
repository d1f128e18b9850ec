//! Runs: size, drop, heat and fuse of each; and for the run in hand every size side by side.

use super::action::Action;
use super::form::{self, form};
use super::pane::{Cell, Column, Offer, Pane, Row, Table};
use super::results::{Columns, Facts};
use super::scene::Scene;
use super::theme::Role;
use super::{limits, strip};
use crate::engine::design::results::fact::At;
use crate::engine::parts::bond::Bond;
use crate::engine::simulate::circuit::candidate::Fails;
use crate::engine::{FuseDesign, RunDesign, SizeRow, Subject, run_name};
use crate::plan::{Place, Section, Value};
use crate::quantity::{Figure, Unit};

/// The panes: all runs, every size for the run in hand, its fuses and limits,
/// the voltages along its path, why each fuse, its fields, the rules, the boards, the plugs, the bond.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    let name = if scene.item < scene.design().installation.runs.len() {
        run_name(&scene.design().installation.runs, scene.item)
    } else {
        "the run".into()
    };
    vec![
        table(scene),
        sizes(scene, &name),
        fields(scene, &name),
        limits::pane(scene, &name),
        strip::pane(scene, scene.item),
        limits::which(scene, &name),
        form(scene, "Rules, bond, main switch", &[Section::Rules, Section::Bond, Section::MainSwitch], 0, rule),
        boards(scene),
        plugs(scene),
        bond(scene),
    ]
}

/// What is entered for the run in hand; a lead is entered with its load.
fn fields<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let title = format!("Fields of {name}");
    match scene.design().installation.load_of(scene.item) {
        Some(load) => form(scene, title, &[Section::Load], load, chosen),
        None => form(scene, title, &[Section::Run], scene.item, chosen),
    }
}

fn table(scene: Scene<'_>) -> Pane<'_> {
    let design = scene.design();
    let run = move |i: usize| Some((design.runs.get(i)?, scene.at(i)));
    let size = move |i: usize| Some((design.runs.get(i)?.size.as_ref()?, At { within: i, ..scene.at(0) }));
    let field = move |key: &'static str| {
        move |i: usize| {
            // A way that several leads share is entered with one of their loads, and yet is a run of its own.
            let own = || chosen_of(&scene, i, key).map(|cell| cell.role(Role::Chosen));
            match design.installation.place_of(Place::run(i, key)) {
                Some(place) if scene.is_given(place) => form::cell(&scene, place, chosen),
                Some(place) => own().map_or_else(|| form::cell(&scene, place, chosen), |cell| cell.place(place)),
                None => own().unwrap_or_else(Cell::dash),
            }
        }
    };
    let columns = Columns::new(scene)
        .own(Column::label("Run"), move |i| {
            // A lead stands under the run that feeds its board, a little to the right.
            let under = if i < design.installation.own_runs() { "" } else { " " };
            Cell::words(format!("{under}{}", design.installation.run_number(i))).role(Role::Muted)
        })
        .own(Column::words("From").widest(15), field("from"))
        .own(Column::words("To").widest(16), field("to"))
        .own(Column::figures("Length"), field("length_m"))
        .own(Column::figures("Size").widest(12), field("size"))
        .own(Column::figures("Fuse"), field("fuse_a"))
        .fact(RunDesign::SIZED_FOR, run)
        .fact(SizeRow::DROP, size)
        .fact(RunDesign::RULING, run)
        .widest(20)
        .facts([SizeRow::DROP_SHARE.called(design.installation.share_of()), SizeRow::TEMPERATURE], size)
        .own(Column::words("Name").widest(18), field("name"));
    let order = design.installation.listed_runs();
    let table = columns.table(order.len(), |i| design.installation.run_number(i));
    let row: Box<dyn Fn(usize) -> Row + '_> = table.row;
    let row = Box::new(move |n: usize| order.get(n).map_or_else(Row::default, |&run| row(run)));
    let table = Table { row, ..table };
    Pane::table("Runs", Table { list: Some(Section::Run), empty: "no runs yet; N adds one", ..table })
}

/// The boards: what each is, its ways, and how many circuits begin at it; then points that could be one.
fn boards(scene: Scene<'_>) -> Pane<'_> {
    let site = &scene.design().installation;
    let plain = site.plain_points();
    let points = plain.clone();
    let count = site.boards.len();
    let field = move |key: &'static str| {
        move |i: usize| form::cell(&scene, Place { section: Section::Board, index: i, key }, form::nothing_chosen)
    };
    let begin = move |i: usize| {
        let count = site.boards.get(i).map_or(0, |b| site.circuits_at(&b.name));
        Cell::digits(&scene, Figure::new(count as f64, Unit::Count))
    };
    let columns = Columns::new(scene)
        .own(Column::words("Board").widest(22), field("name"))
        .own(Column::words("Kind").widest(14), field("kind"))
        .own(Column::figures("Circuits"), begin)
        .own(Column::figures("Ways"), field("ways"))
        .own(Column::words("Fuse style").widest(14), field("style"))
        .own(Column::figures("Rating"), field("rating_a"));
    let name = move |i: usize| site.boards.get(i).map_or_else(String::new, |b| b.name.clone());
    let table = columns.table(count + plain.len(), name);
    let board: Box<dyn Fn(usize) -> Row + '_> = table.row;
    let row = Box::new(move |i: usize| match i.checked_sub(count).and_then(|n| points.get(n)) {
        Some(point) => could_be_one(point),
        None => board(i),
    });
    let empty = "no boards yet; n adds one";
    Pane::table("Boards", Table { row, list: Some(Section::Board), empty, ..table })
}

/// A plain point at which Enter puts a board.
fn could_be_one(point: &str) -> Row {
    let offer =
        Offer::Do { action: Box::new(Action::MakeBoard(point.into())), words: format!("make `{point}` a fuse box") };
    let words = [point, "no board"];
    let cells = words.map(|text| Cell { offer: Some(offer.clone()), ..Cell::words(text).role(Role::Muted) });
    Row::new(point.to_string(), cells.into_iter().chain((2..6).map(|_| Cell::dash())).collect())
}

/// The conductor from the battery's minus to the body, with what it has to bear.
fn bond(scene: Scene<'_>) -> Pane<'_> {
    let (bond, at) = (&scene.design().bond, scene.at(0));
    let mut facts = Facts::new(scene);
    facts.list(bond, at, &[Bond::SIZE, Bond::AREA, Bond::LENGTH, Bond::RULING]);
    facts.list(bond, at, &[Bond::STANDS, Bond::ENERGY, Bond::ENERGY_BY, Bond::LARGEST, Bond::LARGEST_BY]);
    facts.list(bond, at, &[Bond::AMPACITY, Bond::LOAD]);
    facts.pane("Bond to the body")
}

/// The plugs to a trailer.
fn plugs(scene: Scene<'_>) -> Pane<'_> {
    let plugs = &scene.design().installation.plugs;
    let field = move |key: &'static str| {
        move |i: usize| form::cell(&scene, Place { section: Section::Plug, index: i, key }, form::nothing_chosen)
    };
    let columns = Columns::new(scene)
        .own(Column::words("Plug").widest(20), field("name"))
        .own(Column::words("Kind").widest(30), field("kind"));
    let name = move |i: usize| plugs.get(i).map_or_else(String::new, |p| p.name.clone());
    let table = columns.table(plugs.len(), name);
    Pane::table("Plugs", Table { list: Some(Section::Plug), empty: "no plugs; n adds one", ..table })
}

/// What was chosen for a field of a run, or of a load's lead, that the plan leaves out.
pub(super) fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let run = match place.section {
        Section::Load => scene.design().installation.lead_of(place.index)?,
        _ => place.index,
    };
    chosen_of(scene, run, place.key.trim_start_matches("lead_"))
}

/// What was chosen for a run.
fn chosen_of(scene: &Scene<'_>, run: usize, key: &str) -> Option<Cell> {
    let design = scene.design().runs.get(run)?;
    let result = |fact| Some(Cell::fact(scene, fact, design, scene.at(run)));
    let within = At { within: run, ..scene.at(0) };
    let of_fuse = |fact| Some(Cell::fact(scene, fact, design.fuses.first()?, within));
    match key {
        "size" => {
            let size = Cell::fact(scene, SizeRow::LABEL, design.size.as_ref()?, within);
            Some(size.topic(Subject::Run(run), "drop allowed"))
        }
        "fuse_a" => of_fuse(FuseDesign::RATING).filter(|_| design.fuses.first().is_some_and(|f| f.rating.is_some())),
        "fuse_style" => of_fuse(FuseDesign::STYLE_NAME),
        "air_c" => result(RunDesign::AIR),
        "current_a" => result(RunDesign::SIZED_FOR),
        _ => None,
    }
}

/// The catalogue's rule where the plan has none of its own.
fn rule(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let rules = &scene.state.catalogue.rules;
    let class = |key: &str| Some(Cell::figure(scene, rules.class(key)?.limit));
    if place.section == Section::Bond && place.key == "size" {
        return Some(Cell::words(scene.design().bond.size.clone()?));
    }
    match place.key {
        "placement" => Some(Cell::words(rules.placement.first()?.key.clone())),
        "fuse_loading" => Some(Cell::figure(scene, rules.fuse_loading.value)),
        "drop_critical" => class("critical"),
        "drop_ordinary" => class("ordinary"),
        "drop_tolerant" => class("tolerant"),
        "smallest_mm2" => Some(Cell::figure(scene, rules.smallest.value)),
        "most_sizes" => Some(Cell::words("as many as needed")),
        _ => None,
    }
}

fn sizes<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let design = scene.design().runs.get(scene.item);
    let sizes = design.map_or(&[][..], |d| d.sizes.as_slice());
    let size = move |i: usize| Some((sizes.get(i)?, At { within: scene.item, ..scene.at(i) }));
    let possible = move |i: usize| size(i).and_then(|(row, at)| Some((row.possible()?, at)));
    let label = move |i: usize| sizes.get(i).map_or_else(String::new, |s| s.label.clone());
    let share_of = scene.design().installation.share_of();
    let columns = Columns::new(scene)
        .fact(SizeRow::LABEL, size)
        .widest(12)
        .but(move |i, cell| cell.role(if sizes.get(i).is_some_and(|s| s.used) { Role::Heading } else { Role::Text }))
        .facts([SizeRow::DROP, SizeRow::DROP_SHARE.called(share_of), SizeRow::TEMPERATURE], possible)
        .facts([SizeRow::AMPACITY, SizeRow::FUSE], size)
        .own(Column::words("Verdict").widest(34), move |i| match design.and_then(|d| Some((d, d.sizes.get(i)?))) {
            Some((d, s)) => verdict(d, s),
            None => Cell::dash(),
        })
        .fact(SizeRow::COPPER, size)
        .fact(SizeRow::LOSS, possible)
        .facts([SizeRow::AMPACITY_TABLE, SizeRow::AMPACITY_HEAT], size)
        .offer(move |i| offer(&scene, design?, sizes.get(i)?))
        .why(move |i| design.and_then(|d| Some(why(&scene, d, d.sizes.get(i)?))).unwrap_or_default());
    let start = sizes.iter().position(|s| s.used).unwrap_or(0);
    let table = columns.table(sizes.len(), label);
    let empty = "no size could be computed; see Findings";
    Pane::table(format!("Every size for {name}"), Table { empty, start, ..table })
}

/// Enter uses a size; on the one that the plan gives it leaves the size to the program.
fn offer(scene: &Scene<'_>, design: &RunDesign, s: &SizeRow) -> Option<Offer> {
    let pinned = s.used && design.pinned;
    let value = (!pinned).then(|| Value::Text(s.label.clone()));
    let words = if pinned { "leave the size to the program".into() } else { format!("use {}", s.label) };
    let place = scene.design().installation.place_of(Place::run(design.run, "size"))?;
    Some(Offer::Put { place, value, words })
}

/// Why a size is refused, passes or is used, with the numbers that its row and its run have.
fn why(scene: &Scene<'_>, d: &RunDesign, s: &SizeRow) -> String {
    let at = At { within: d.run, ..scene.at(d.run) };
    let of_run = |fact| Cell::fact(scene, fact, d, at).text;
    let (carries, flows, allowed) = (
        Cell::fact(scene, SizeRow::AMPACITY, s, at).text,
        of_run(RunDesign::SIZED_FOR),
        of_run(RunDesign::DROP_ALLOWED),
    );
    let reason = |fails: &Fails| match fails {
        Fails::Heat => format!("heat, it carries {carries} where {flows} flow or a start warms it more"),
        Fails::Fuse => format!("fuse, none that bears {flows} protects a cable of {carries}"),
        Fails::Thin => "thinner than the smallest size wanted".to_string(),
        Fails::Drop if s.possible().is_none() => format!("voltage drop, far beyond the {allowed} left on its path"),
        Fails::Drop => format!("voltage drop, {} where {allowed} are left on its path", scene.show(s.drop)),
    };
    let reasons: Vec<String> = s.fails.iter().map(reason).collect();
    let said = match (s.used, reasons.is_empty()) {
        (true, true) if d.pinned => format!("{} is given, and passes", s.label),
        (true, true) => format!("{} is the thinnest that passes; {} rules out the next below", s.label, d.ruling),
        (false, true) => format!("{} passes", s.label),
        (_, false) => format!("{} fails: {}", s.label, reasons.join("; ")),
    };
    scene.plain(said)
}

fn verdict(design: &RunDesign, s: &SizeRow) -> Cell {
    let fails = s.fails.iter().map(|f| f.word()).collect::<Vec<_>>().join(", ");
    let (words, role) = match (s.used, s.fails.is_empty()) {
        (true, true) if design.pinned => ("given, and it passes".into(), Role::Good),
        (true, true) => (format!("used: {} decides", design.ruling), Role::Good),
        (true, false) => (format!("used, but fails: {fails}"), Role::Stop),
        (false, true) => ("passes".into(), Role::Text),
        (false, false) => (format!("fails: {fails}"), Role::Muted),
    };
    Cell::words(words).role(role)
}
