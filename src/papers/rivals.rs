//! The page to decide by: what is bought, what else would do, what one step changes, and what matters most.

use super::beside::beside;
use super::document::{Cell, Column, Document};
use super::facts::Columns;
use super::job::Job;
use super::parts_list::{all_of, cost};
use super::report::summary::decided;
use crate::engine::ask::rivals::cross::Rivals;
use crate::engine::ask::rivals::matters::Matter;
use crate::engine::ask::rivals::variant::{Sums, Variant};
use crate::engine::ask::workshop::parts::Part;
use crate::engine::{Severity, cut_list, parts_list};
use crate::quantity::{Unit, counted};

/// So many rivals are shown beside the plan in hand.
const SHOWN: usize = 15;

/// All of it; `pinned` stand side by side, by their numbers in the list.
pub fn rivals_paper(job: &Job, rivals: &Rivals, pinned: &[usize]) -> Document {
    let mut paper = Document::new(format!("To decide – {}", job.title()));
    decision(job, rivals, &mut paper);
    others(rivals, &mut paper);
    let pinned: Vec<&Variant> = pinned.iter().filter_map(|n| rivals.designs.get(n.checked_sub(1)?)).collect();
    if !pinned.is_empty() {
        beside(&pinned, &mut paper);
    }
    steps(rivals, &mut paper);
    matters(rivals, &mut paper);
    paper
}

/// What is bought, and whether it may be built.
fn decision(job: &Job, rivals: &Rivals, paper: &mut Document) {
    let design = job.design;
    let mut facts = decided(job);
    let promise = if design.promise.held() { "kept" } else { "not kept; see the findings" };
    facts.push(("Days without charge", format!("{}: {promise}", design.installation.days_without_charge)));
    let price = rivals.designs.first().and_then(|d| d.sums.price);
    facts.push((
        "Battery",
        price.map_or("no price is entered for this chemistry".into(), |p| format!("{p} by your prices")),
    ));
    let parts = parts_list(design, &cut_list(design).cuts);
    facts.push(("Parts", all_of(&parts)));
    paper.facts(facts);
    let stops = design.findings.iter().filter(|f| f.severity == Severity::Stop);
    let stops: Vec<String> = stops.map(|f| format!("STOP: {}", f.text)).collect();
    if !stops.is_empty() {
        paper.list(stops);
    }
    let bought = parts.iter().filter(|p| matches!(p.group, "device" | "cable" | "fuse"));
    let table = Columns::new()
        .text("group", "", |p: &Part| p.group)
        .text("what", "What", |p| &p.what)
        .words("needed", "Needed", |p| p.needed.to_string())
        .own(Column::number("price", "Price", Unit::Price), |p, _| Cell::maybe(cost(p)))
        .list("decision", "What is bought: devices, cable by the metre, fuses; the parts list has the rest", bought);
    paper.table(table);
}

fn others(rivals: &Rivals, paper: &mut Document) {
    paper.heading(1, "What else would do");
    paper.paragraph(
        "Each is a whole design, with its own cables, fuses and settings: other chemistries with the bank that is \
         taken then, the next larger bank, charger and feed, 100 W more sun, each with each; the \
         loads on a board more or one less, that alone.",
    );
    let unbeaten = |v: &Variant| if v.unbeaten { "nothing beats it" } else { "" }.to_string();
    let sums: fn(&Variant) -> Option<&Sums> = |v| Some(&v.sums);
    let number = |v: &Variant| rivals.designs.iter().position(|d| std::ptr::eq(d, v)).map_or(0, |n| n + 1);
    let table = Columns::new()
        .words("number", "No.", |v| number(v).to_string())
        .fact(Variant::WORDS)
        .within(sums, Sums::CAPACITY)
        .within(sums, Sums::PRICE)
        .within(sums, Sums::TOTAL)
        .within(sums, Sums::MASS)
        .within(sums, Sums::LASTS)
        .within(sums, Sums::YEARS)
        .within(sums, Sums::COPPER)
        .within(sums, Sums::PARTS)
        .within(sums, Sums::STOPS)
        .within(sums, Sums::CAUTIONS)
        .words("unbeaten", "", unbeaten)
        .list("rivals", "Beside the plan in hand", rivals.designs.iter().take(SHOWN + 1));
    paper.table(table);
    let more = rivals.designs.len().saturating_sub(SHOWN + 1);
    if more > 0 {
        paper.paragraph(format!("{} more in the JSON.", counted(more, "design")));
    }
}

fn steps(rivals: &Rivals, paper: &mut Document) {
    paper.heading(1, "One step more, one step less");
    let table = Columns::new()
        .fact(Variant::WORDS)
        .words("changes", "Then", |v: &Variant| joined(&v.changes, "nothing else changes"))
        .words("breaks", "Breaks", |v| joined(&v.breaks, "no rule"))
        .list("steps", "Each part alone, everything else as it is planned", &rivals.steps);
    paper.table(table);
}

fn matters(rivals: &Rivals, paper: &mut Document) {
    paper.heading(1, "What matters most");
    let (list, tried) = (&rivals.matters.list, rivals.matters.tried);
    paper.paragraph(format!(
        "Of {} of your own, each a tenth off (a temperature: 3 K), {} would change what is bought.",
        counted(tried, "number"),
        list.len(),
    ));
    if list.is_empty() {
        return;
    }
    let table = Columns::new()
        .fact(Matter::WORDS)
        .words("less", "A tenth less", |m: &Matter| joined(&m.less, "nothing"))
        .words("more", "A tenth more", |m| joined(&m.more, "nothing"))
        .list("matters", "What else would be bought", list);
    paper.table(table);
}

fn joined(list: &[String], none: &str) -> String {
    if list.is_empty() { none.to_string() } else { list.join("; ") }
}
