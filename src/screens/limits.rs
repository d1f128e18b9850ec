//! The fuses of a run with the room each rule leaves, and the limits of its size.

use super::pane::{Body, Cell, Pane, Text};
use super::results::Facts;
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::design::results::fact::{At, Fact};
use crate::engine::simulate::circuit::warming::CYCLE;
use crate::engine::{FarEnd, FuseDesign, RunDesign, SizeRow, run_name, which_fuse};

/// Fuses and limits of the run in hand.
pub fn pane<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let mut facts = Facts::new(scene);
    let Some(design) = scene.design().runs.get(scene.item) else { return facts.pane("Fuses and limits") };
    for f in &design.fuses {
        fuse(&scene, f, &mut facts);
    }
    far_end(&scene, design.far_end, &mut facts);
    limits(&scene, design, &mut facts);
    facts.pane(format!("Fuses and limits of {name}"))
}

/// Why each fuse of the run in hand is the one it is.
pub fn which<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let mut text = Text { wrap: true, ..Text::default() };
    let which = which_fuse(scene.design(), scene.item);
    if which.is_empty() {
        text.line("no fuse of its own", Role::Muted);
    }
    for fuse in which {
        text.line(format!("Fuse at {}", fuse.at), Role::Heading);
        fuse.sentences.into_iter().for_each(|s| text.line(format!("· {}", scene.plain(s)), Role::Text));
    }
    Pane { title: format!("Which fuse for {name}"), body: Body::Text(text) }
}

fn fuse(scene: &Scene<'_>, f: &FuseDesign, facts: &mut Facts) {
    let at = At { within: scene.item, ..scene.at(0) };
    facts.heading(format!("Fuse at {}", f.at));
    let rating = Cell::fact(scene, FuseDesign::RATING, f, at);
    let rating = if f.rating.is_some() { rating } else { Cell::words("none fits").role(Role::Stop) };
    let decides = if f.ruling.is_empty() { String::new() } else { format!("{} decides", f.ruling) };
    facts.remark("Rating", rating, decides, Role::Muted);
    facts.remark("Style", Cell::words(""), f.style_name.clone(), Role::Text);
    facts.list(
        f,
        at,
        &[
            FuseDesign::AT_LEAST,
            FuseDesign::AT_MOST,
            FuseDesign::PROSPECTIVE,
            FuseDesign::BREAKING,
            FuseDesign::FAR_FAULT,
        ],
    );
    let opens = Cell::fact(scene, FuseDesign::OPENS_WITHIN, f, at);
    let opens = if f.opens_within.is_some() { opens } else { Cell::words("not known") };
    facts.add(FuseDesign::OPENS_WITHIN.label, opens);
    facts.list(f, at, &[FuseDesign::WITHIN]);
    for m in f.margins.iter().filter(|m| !m.holds()) {
        let sign = if m.at_least { "at least" } else { "at most" };
        let remark = format!("{sign} {} wanted", scene.show(m.need));
        facts.remark(format!("Broken: {}", m.rule), Cell::figure(scene, m.have), remark, Role::Stop);
    }
}

fn far_end(scene: &Scene<'_>, end: FarEnd, facts: &mut Facts) {
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

fn limits(scene: &Scene<'_>, d: &RunDesign, facts: &mut Facts) {
    let at = scene.at(scene.item);
    facts.heading("Limits at this size");
    let mut limit = |fact: Fact<RunDesign>, stops: Option<&'static str>| {
        let words = stops.map_or_else(String::new, |stops| format!("{} stops there", capital(stops)));
        facts.told(d, at, fact, words, Role::Muted);
    };
    limit(RunDesign::LONGEST, d.longest.map(|l| l.1));
    limit(RunDesign::BIGGEST, d.biggest.map(|l| l.1));
    limit(RunDesign::WARMEST, d.warmest.map(|l| l.1));
    if d.in_time_to().is_some() {
        let words = "a far-end fault opens the fuse in time; beyond, the cable stands it till then";
        facts.told(d, at, RunDesign::IN_TIME_TO, words, Role::Muted);
    }
    facts.list(d, at, &[RunDesign::SURGE, RunDesign::DROP_ALLOWED]);
    if d.equal_share.is_some() {
        facts.told(d, at, RunDesign::EQUAL_SHARE, "the usual way to share a path's drop", Role::Muted);
    }
    if let Some(size) = &d.size {
        facts.list(size, At { within: scene.item, ..at }, &[SizeRow::RESISTANCE]);
    }
    facts.list(d, at, &[RunDesign::SETTLED, RunDesign::TIME_CONSTANT, RunDesign::AFTER_START]);
    let lasts = format!("for {}", scene.show(d.short_time.start_lasts));
    facts.told(d, at, RunDesign::SHORT_TIME, lasts, Role::Muted);
    let cycle = format!("{} on, {} off", scene.show(CYCLE.on), scene.show(CYCLE.off));
    facts.told(d, at, RunDesign::INTERMITTENT, cycle, Role::Muted);
    if d.pulsed.is_some() {
        facts.list(d, at, &[RunDesign::ON, RunDesign::OFF, RunDesign::PEAK]);
        facts.list(d, at, &[RunDesign::RUNS_ON]);
    }
}
