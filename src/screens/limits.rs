//! The fuses of a run with the room each rule leaves, and the limits of its size.

use super::form::Facts;
use super::pane::{Cell, Pane};
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::simulate::circuit::warming::CYCLE;
use crate::engine::{FarEnd, FuseDesign, Subject, run_name};
use crate::quantity::Figure;

/// Fuses and limits of the run in hand.
pub fn pane<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let mut facts = Facts::of(scene, Subject::Run(scene.item));
    let Some(design) = scene.design().runs.get(scene.item) else { return facts.pane("Fuses and limits") };
    for f in &design.fuses {
        fuse(&scene, f, &mut facts);
    }
    far_end(&scene, design.far_end, &mut facts);
    limits(&scene, &mut facts);
    facts.pane(format!("Fuses and limits of {name}"))
}

fn fuse(scene: &Scene<'_>, f: &FuseDesign, facts: &mut Facts<'_>) {
    facts.heading(format!("Fuse at {}", f.at));
    let rating = f.rating.map_or_else(|| Cell::words("none fits").role(Role::Stop), |a| facts.cell(a, "fuse at least"));
    let decides = if f.ruling.is_empty() { String::new() } else { format!("{} decides", f.ruling) };
    facts.remark("Rating", rating, decides, Role::Muted);
    facts.remark("Style", Cell::words(""), f.style_name.clone(), Role::Text);
    facts.number("At least", f.at_least, "fuse at least");
    facts.number("At most", f.at_most, "fuse at most");
    facts.number("Fault current here", f.prospective, "prospective");
    facts.add("It can break", Cell::figure(scene, f.breaking));
    facts.number("Fault at the far end", f.far_fault, "far fault");
    let opens = f.opens_within.map_or_else(|| Cell::words("not known"), |s| facts.cell(s, "opens within"));
    facts.add("Then opens within", opens);
    facts.add("Sits within", Cell::figure(scene, f.within));
    for m in f.margins.iter().filter(|m| !m.holds()) {
        let sign = if m.at_least { "at least" } else { "at most" };
        let remark = format!("{sign} {} wanted", scene.show(m.need));
        facts.remark(format!("Broken: {}", m.rule), Cell::figure(scene, m.have), remark, Role::Stop);
    }
}

fn far_end(scene: &Scene<'_>, end: FarEnd, facts: &mut Facts<'_>) {
    let (words, role) = match end {
        FarEnd::Dead | FarEnd::Fused => return,
        FarEnd::Guarded { run, rating } => (
            format!(
                "guarded by the {} fuse of {}",
                scene.show(rating),
                run_name(&scene.design().installation.runs, run)
            ),
            Role::Good,
        ),
        FarEnd::Limited(amps) => (format!("its sources push {} at most", scene.show(amps)), Role::Good),
        FarEnd::Open => ("not protected from there".into(), Role::Stop),
    };
    facts.remark("Far end", Cell::words(""), words, role);
}

fn limits(scene: &Scene<'_>, facts: &mut Facts<'_>) {
    let Some(d) = scene.design().runs.get(scene.item) else { return };
    facts.heading("Limits at this size");
    let mut limit = |label: &str, figure: Option<Figure>, stops: &str, number: &'static str| match figure {
        Some(figure) => {
            facts.remark(label, facts.cell(figure, number), format!("{} stops there", capital(stops)), Role::Muted)
        }
        None => facts.add(label, Cell::dash()),
    };
    let stops = |what: Option<&'static str>| what.unwrap_or("");
    limit("Longest length", d.longest.map(|l| l.0.into()), stops(d.longest.map(|l| l.1)), "longest");
    limit("Biggest current", d.biggest.map(|l| l.0.into()), stops(d.biggest.map(|l| l.1)), "biggest");
    limit("Warmest air", d.warmest.map(|l| l.0.into()), stops(d.warmest.map(|l| l.1)), "warmest");
    if let Some(length) = d.in_time_to() {
        let words = "a far-end fault opens the fuse in time; beyond, the cable stands it till then";
        facts.remark("In time to", Cell::figure(scene, length), words, Role::Muted);
    }
    facts.number("Short current on top", d.surge, "surge");
    facts.number("Drop it may have", d.drop_allowed, "drop allowed");
    if let Some(share) = d.equal_share {
        facts.remark(
            "By equal shares",
            facts.cell(share, "equal share"),
            "the usual way to share a path's drop",
            Role::Muted,
        );
    }
    facts.add(
        "Resistance, hot",
        Cell::maybe(scene, d.size.as_ref().map(|s| s.resistance)).topic(Subject::Run(scene.item), "resistance"),
    );
    let short = &d.short_time;
    facts.number("Warms in", short.time_constant, "time constant");
    facts.number("Warm after a start", short.after_start, "after start");
    let lasts = format!("for {}", scene.show(short.start_lasts));
    facts.remark("Largest start", facts.cell(short.start, "short-time rating"), lasts, Role::Muted);
    let cycle = format!("{} on, {} off", scene.show(CYCLE.on), scene.show(CYCLE.off));
    facts.remark("Off and on", facts.cell(short.intermittent, "intermittent rating"), cycle, Role::Muted);
}
