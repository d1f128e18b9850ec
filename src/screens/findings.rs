//! Findings: everything to mend, worst first, with the rule and what mends it; and what to look up where the vehicle is registered.

use super::action::Action;
use super::pane::{Body, Cell, Column, Offer, Pane, Row, Table, Text};
use super::scene::Scene;
use super::theme::Role;
use crate::catalogue::LookUp;
use crate::engine::{Finding, Remedy, Severity};
use crate::plan::{Place, Section};

/// Number of the pane that lists what mends the finding in hand.
pub const REMEDIES: usize = 2;

/// The panes: all findings, all that is said about the one in hand, what mends it, what to look up.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![list(scene), detail(scene), remedies(scene), to_look_up(scene)]
}

/// How a severity looks.
pub fn role(severity: Severity) -> Role {
    match severity {
        Severity::Stop => Role::Stop,
        Severity::Caution => Role::Caution,
        Severity::Note => Role::Note,
    }
}

/// How many rows the findings take: those that stand on every plan share the last.
pub fn rows(findings: &[Finding]) -> usize {
    let own = findings.iter().filter(|f| !f.everywhere()).count();
    (own + 1).min(findings.len())
}

/// What a row says: one finding, or those that stand on every plan.
fn said<'a>(scene: &Scene<'a>, row: usize) -> &'a [Finding] {
    let all = &scene.design().findings;
    match all.get(row) {
        Some(first) if first.everywhere() => &all[row..],
        Some(first) => std::slice::from_ref(first),
        None => &[],
    }
}

fn list(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![Column::label("Severity"), Column::words("About").widest(26), Column::words("What").widest(160)];
    let list = &scene.design().findings;
    let row = move |i: usize| match said(&scene, i) {
        [] => Row::default(),
        [one] => row(&scene, one),
        several => {
            let texts: Vec<String> = several.iter().map(|f| f.text.clone()).collect();
            let words = ["note".into(), "every plan".into(), scene.plain(texts.join("; "))];
            Row::new("every plan", words.map(|w| Cell::words(w).role(Role::Note)).into())
        }
    };
    let empty = "nothing to mend";
    Pane::table("Findings", Table { columns, rows: rows(list), row: Box::new(row), list: None, empty, start: 0 })
}

fn row(scene: &Scene<'_>, f: &Finding) -> Row {
    let role = role(f.severity);
    let about = scene.words(&f.subject);
    let text = scene.plain(f.text.clone());
    // What it is about stands before it.
    let what = text.strip_prefix(&about).and_then(|rest| rest.strip_prefix(' ')).unwrap_or(&text);
    let mut cells = vec![Cell::words(f.severity.word()).role(role), Cell::words(about.clone()), Cell::words(what)];
    if let Some(place) = f.place {
        for cell in &mut cells {
            cell.offer = Some(Offer::Go(place));
        }
    }
    Row::new(format!("{} {about}", f.kind.key()), cells)
}

/// The remedies of a finding that are shown: those that were tried, once they are; what stands on every plan is told
/// in words.
fn shown<'a>(scene: &Scene<'a>, finding: &'a Finding) -> &'a [Remedy] {
    match scene.tried {
        _ if finding.everywhere() => &finding.remedies,
        Some(tried) => &tried.remedies,
        None => &[],
    }
}

fn remedies(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![Column::words("").widest(120), Column::label("").widest(16)];
    let rows = said(&scene, scene.item).iter().flat_map(|f| shown(&scene, f)).map(|r| {
        let mut cell = Cell::words(scene.plain(r.says()));
        let can = !r.edits.is_empty();
        if can {
            let words = r.words.clone();
            let action = Box::new(Action::AskMend { edits: r.edits.clone(), words: words.clone() });
            cell = cell.offer(Offer::Do { action, words });
        }
        Row::new(r.words.clone(), vec![cell, Cell::words(if can { "Enter asks" } else { "" }).role(Role::Key)])
    });
    let mut table = Table::of(columns, rows.collect());
    table.empty = if scene.design().findings.is_empty() { "nothing to mend" } else { "being tried" };
    Pane::table("Remedies", table)
}

/// The program has not checked the plan against these.
fn to_look_up(scene: Scene<'_>) -> Pane<'_> {
    let region = scene.plan().job.region.as_deref();
    let catalogue = &scene.state.catalogue;
    let columns = vec![
        Column::words("Document").widest(60),
        Column::label("Is"),
        Column::words("Edition").widest(30),
        Column::words("Look for").widest(200),
    ];
    let edit = Offer::Go(Place::of(Section::Job, "region"));
    let row = |l: &LookUp| {
        let words = [l.document.clone(), l.standing.words().into(), l.edition.clone(), l.asks.clone()];
        let cells = words.into_iter().map(|w| Cell::words(scene.plain(w)).offer(edit.clone())).collect();
        Row::new(l.key.clone(), cells)
    };
    let rows = catalogue.to_look_up(region).map(row).collect();
    let title = match region.and_then(|key| catalogue.region(key)) {
        Some(region) => format!("To look up: {}", region.name),
        None => "To look up: give a region for more".into(),
    };
    Pane::table(title, Table::of(columns, rows))
}

fn detail(scene: Scene<'_>) -> Pane<'_> {
    let mut text = Text { wrap: true, ..Text::default() };
    for f in said(&scene, scene.item) {
        let about = if f.everywhere() { "every plan".into() } else { scene.words(&f.subject) };
        text.lines.push(vec![(f.severity.word().into(), role(f.severity)), (format!("  {about}"), Role::Heading)]);
        text.line(scene.plain(f.text.clone()), Role::Text);
        if !f.rule.is_empty() {
            text.line(format!("Rule: {}", scene.plain(f.rule.clone())), Role::Muted);
        }
        let harm = f.kind.harm();
        text.line(format!("Harms {}: {}", harm.word(), harm.words()), Role::Muted);
        text.line(format!("Name for scripts: {}", f.kind.key()), Role::Muted);
    }
    Pane { title: "What it says".into(), body: Body::Text(text) }
}
