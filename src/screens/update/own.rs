//! A row of one's own: typing it, keeping it in the user's folder, and taking it into the plan.

use crate::catalogue::{BoughtCharger, Catalogue, Layer, OwnFile, OwnKind};
use crate::engine::Edit;
use crate::plan::{Place, Section, Value, reason, write_whole};
use crate::quantity::Quantity;
use crate::screens::action::{Action, Way};
use crate::screens::app::{App, first};
use crate::screens::outside::OwnRows;
use crate::screens::overlay::{Ask, Overlay};
use crate::screens::own::{Own, Row};
use crate::screens::state::State;
use std::fs;
use std::path::Path;
use std::rc::Rc;
use tui_input::InputRequest;

/// Begin one.
pub fn open(app: &mut App, kind: OwnKind) {
    app.message = None;
    app.overlay = Some(Overlay::Own(Box::new(Own::new(&app.catalogue, kind))));
}

/// Do an action in the form.
pub fn update(app: &mut App, mut own: Box<Own>, action: Action) {
    let catalogue = Rc::clone(&app.catalogue);
    match action {
        Action::Cancel => return,
        Action::Move(Way::Up) => own.step(-1),
        Action::Move(Way::Down) | Action::Commit | Action::Open => own.step(1),
        Action::Type(request) => own.type_in(&catalogue, request),
        Action::Paste(text) => {
            let line = text.lines().next().unwrap_or_default();
            line.chars().take(60).for_each(|c| own.type_in(&catalogue, InputRequest::InsertChar(c)));
        }
        Action::KeepRow => match keep(app, &mut own) {
            Ok(file) => return kept(app, &own, &file),
            Err(why) => app.refuse(why),
        },
        _ => {}
    }
    app.overlay = Some(Overlay::Own(own));
}

/// Write it into the user's folder, and read the catalogue with it.
fn keep(app: &mut App, own: &mut Own) -> Result<OwnFile, String> {
    let file = match &own.row {
        Row::Missing(why) | Row::Refused(_, why) => return Err(why.clone()),
        Row::Made(file, _) => (**file).clone(),
    };
    let rows = app.rows.clone().ok_or("there is no folder of yours to keep it in")?;
    let path = rows.folder.join(&file.name);
    if !own.warned && fs::symlink_metadata(&path).is_ok() {
        own.warned = true;
        return Err(format!("there is a row in {} already; Ctrl+S again replaces it", path.display()));
    }
    let catalogue = Rc::new(with(&rows, &file)?);
    // What the plan has must still be there.
    let state = State::read(Rc::clone(&app.now.text), &catalogue);
    let state = state.map_err(|problems| format!("with this row the plan could not be read: {}", first(&problems)))?;
    write(&path, &file.text).map_err(|e| format!("{} cannot be written: {}", path.display(), reason(&e)))?;
    app.catalogue = catalogue;
    app.now = Rc::new(state);
    Ok(file)
}

/// The catalogue with the file among those of the user's folder.
fn with(rows: &OwnRows, file: &OwnFile) -> Result<Catalogue, String> {
    let read = |folder: &Path| {
        Layer::from_folder(folder).map_err(|e| format!("{} cannot be read: {}", folder.display(), reason(&e)))
    };
    let mut own = if rows.folder.is_dir() {
        read(&rows.folder)?
    } else {
        Layer { origin: rows.folder.display().to_string(), files: Vec::new() }
    };
    own.files.retain(|(name, _)| *name != file.name);
    own.files.push((file.name.clone(), file.text.clone()));
    let mut layers = vec![own];
    for folder in &rows.others {
        layers.push(read(folder)?);
    }
    Catalogue::with_layers(&layers).map_err(|errors| errors.first().map_or_else(String::new, ToString::to_string))
}

fn write(path: &Path, text: &str) -> std::io::Result<()> {
    path.parent().map_or(Ok(()), fs::create_dir_all)?;
    write_whole(path, text.as_bytes())
}

/// It is there: ask whether the plan takes it, where that is one step.
fn kept(app: &mut App, own: &Own, file: &OwnFile) {
    let place = app.rows.as_ref().map_or_else(String::new, |rows| rows.folder.join(&file.name).display().to_string());
    let edits = match own.kind {
        OwnKind::Battery => battery(&app.catalogue, &file.key),
        OwnKind::Charger => app.catalogue.chargers.iter().find(|c| c.key == file.key).map(charger).unwrap_or_default(),
        OwnKind::Fuse => {
            return app.say(format!("kept; choose `{}` as the style of a fuse or board. {place}", file.key));
        }
        OwnKind::Cable => return app.say(format!("kept; choose `{}` as the size of a run. {place}", file.key)),
    };
    let words = format!("{} {}", own.kind.word(), file.key);
    let lines = [format!("The row is kept in {place}."), format!("Is this plan to use the {words}?")];
    let choices = [
        ('n', "not now", Action::Cancel),
        ('t', "take it into the plan; u takes it back", Action::PutAll { edits, words }),
    ];
    app.overlay = Some(Overlay::Ask(Ask::new("Kept", &lines, &choices)));
}

/// What makes a battery of one's own the service battery.
fn battery(catalogue: &Catalogue, key: &str) -> Vec<Edit> {
    let size = catalogue.chemistry(key).and_then(|c| c.blocks.sizes.first().copied());
    let edit = |key, value| Edit { place: Place::of(Section::ServiceBattery, key), value };
    vec![
        edit("chemistry", Some(Value::Text(key.into()))),
        edit("capacity_ah", size.map(|ah| Value::Number(ah.number()))),
        edit("in_parallel", None),
    ]
}

/// What makes the plan's charger this one: all that its sheet says.
pub fn charger(row: &BoughtCharger) -> Vec<Edit> {
    let mains = row.kind == "mains";
    let section = if mains { Section::Mains } else { Section::Charger };
    let put = |key, value| Edit { place: Place::of(section, key), value: Some(value) };
    let mut edits = Vec::new();
    if !mains {
        edits.push(put("kind", Value::Text(row.kind.clone())));
    }
    edits.push(put("current_a", Value::Number(row.output.number())));
    let number = |value: Option<f64>| value.map(Value::Number);
    let more = [
        ("output_v", number(row.charge.map(|v| v.number()))),
        ("efficiency", number(row.efficiency.map(|v| v.number()))),
        ("lowest_input_v", number(row.lowest_input.map(|v| v.number()))),
        ("standing_draw_a", number(row.standing_draw.map(|v| v.number()))),
    ];
    edits.extend(more.into_iter().filter(|_| !mains).filter_map(|(key, value)| Some(put(key, value?))));
    edits
}
