//! The list of what else would do: read whole, or one taken over, as one step.

use crate::engine::ask::rivals::cross::Rivals;
use crate::engine::ask::rivals::variant::{Sums, Variant};
use crate::papers::{Job, rivals_paper};
use crate::quantity::counted;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::overlay::{Entry, Menu, Overlay};
use crate::screens::sheet;
use crate::screens::theme::Role;
use crate::screens::tried::What;
use std::rc::Rc;

pub const TITLE: &str = "Rivals: what else would do";

/// So many are listed.
const LISTED: usize = 20;

/// Look for them.
pub fn open(app: &mut App) {
    let state = Rc::clone(&app.now);
    let mut menu = Menu::new(TITLE, Vec::new());
    menu.error = Some("being designed; Esc stops".into());
    app.overlay = Some(Overlay::Menu(menu));
    if let Some(What::Compared(found)) = app.mends.compare(&state, app.listener.as_ref()) {
        list(app, *found);
    }
}

/// Those found, the plan in hand before them.
pub fn list(app: &mut App, found: Rivals) {
    let state = &app.now;
    let job = Job { plan: &state.plan, catalogue: &state.catalogue, design: &state.design };
    let lines = sheet::lines(app, &rivals_paper(&job, &found), sheet::PAGE);
    let words = "read it all: to decide, one step more or less, what matters most";
    let all = Entry { words: words.into(), extra: String::new(), action: Action::Read { title: "To decide", lines } };
    let designs = found.designs.iter().take(LISTED).map(|v| entry(app, v));
    let entries = std::iter::once(all).chain(designs).collect();
    app.overlay = Some(Overlay::Menu(Menu::new(TITLE, entries)));
}

fn entry(app: &App, variant: &Variant) -> Entry {
    let words = app.scene().plain(variant.words.clone());
    let extra = app.scene().plain(sums(&variant.sums));
    let action = match variant.edits.as_slice() {
        [] => Action::Cancel,
        edits => Action::PutAll { edits: edits.to_vec(), words: words.clone() },
    };
    let words = if variant.unbeaten { format!("{words} (nothing beats it)") } else { words };
    Entry { words, extra, action }
}

/// What cannot be built first: the line may be cut at its end.
fn sums(sums: &Sums) -> String {
    let price = sums.price.map_or(String::new(), |p| format!(", battery {p} by your prices"));
    let cautions = counted(sums.cautions, "caution");
    format!("{} STOP, {cautions}, {}, {}, {}{price}", sums.stops, sums.capacity, sums.mass, sums.years)
}

/// A page to read.
pub fn read(app: &mut App, title: &'static str, lines: Vec<String>) {
    let lines = lines.into_iter().map(|l| (l, Role::Text)).collect();
    app.overlay = Some(Overlay::Text { title: title.into(), lines, scroll: 0 });
}
