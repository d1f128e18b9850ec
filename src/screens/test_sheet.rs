//! Test sheet: expected voltages at each point; measured ones in, bad joints out.

use super::form::{self, form};
use super::pane::{Body, Cell, Column, Pane, Row, Table, Text};
use super::results::Columns;
use super::scene::Scene;
use super::theme::Role;
use crate::engine::run_name;
use crate::engine::simulate::test_sheet::result::{
    Fault, NextReading, PointExpected, ReadingResult, ReadingState, RunExpected, Test, Verdict,
};
use crate::plan::{Place, Section};
use std::rc::Rc;

/// The panes: the readings, what they say, what to expect, each run, the meter.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![readings(scene), says(scene), expected(scene), runs(scene), form(scene, "Meter", &[Section::Meter], 0, meter)]
}

fn meter(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let sheet = scene.design().test_sheet();
    match place.key {
        "step_v" => Some(Cell::figure(scene, sheet.meter.step)),
        "digits" => Some(Cell::words(scene.digits(crate::quantity::Figure::number(sheet.meter.digits)))),
        "error" => Some(Cell::figure(scene, sheet.meter.reading)),
        "clamp_error" => Some(Cell::figure(scene, sheet.meter.clamp)),
        "air_c" => Some(Cell::figure(scene, sheet.air)),
        _ => None,
    }
}

fn readings(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Reading, key, form::nothing_chosen);
    let reading = move |i: usize| {
        let result = scene.design().test_sheet().readings.iter().find(|r| r.reading == i)?;
        Some((result, scene.at(i)))
    };
    let columns = Columns::new(scene)
        .own(Column::words("At").widest(18), field("at"))
        .own(Column::words("With").widest(18), field("with"))
        .own(Column::figures("Read"), field("voltage_v"))
        .own(Column::figures("Posts"), field("posts_v"))
        .own(Column::figures("Current"), field("current_a"))
        .facts([ReadingResult::DROP, ReadingResult::EXPECTED], reading)
        .own(Column::words("Verdict").widest(40), move |i| {
            let (words, role) = reading(i).map_or((String::new(), Role::Muted), |(r, _)| verdict(r));
            Cell::words(words).role(role)
        });
    let empty = "no readings yet; n adds one for the meter to fill";
    let table = columns.table(scene.plan().readings.len(), |i| format!("reading {i}"));
    Pane::table("Readings", Table { list: Some(Section::Reading), empty, ..table })
}

fn verdict(result: &ReadingResult) -> (String, Role) {
    let role = match (&result.state, result.within) {
        (ReadingState::Unusable(_), _) => Role::Caution,
        (ReadingState::Used | ReadingState::Compared, Some(true)) => Role::Good,
        (ReadingState::Used | ReadingState::Compared, Some(false)) => Role::Stop,
        _ => Role::Muted,
    };
    (result.words(), role)
}

fn says(scene: Scene<'_>) -> Pane<'_> {
    let mut text = Text { wrap: true, ..Text::default() };
    let sheet = scene.design().test_sheet();
    for (side, verdict) in [("From the service battery", &sheet.service), ("From the starter battery", &sheet.feed)] {
        text.line(side, Role::Heading);
        say(&scene, verdict, &mut text);
    }
    Pane { title: "What the readings say".into(), body: Body::Text(text) }
}

fn say(scene: &Scene<'_>, verdict: &Verdict, text: &mut Text) {
    let name = |run: &usize| run_name(&scene.design().installation.runs, *run);
    match verdict {
        Verdict::Nothing => text.line("no usable readings yet", Role::Muted),
        Verdict::Sound { notices, unseen } => {
            text.line("no run has more resistance than it should, as far as these readings see", Role::Good);
            for (run, least) in notices {
                text.line(format!("{}: an excess of {} would show", name(run), scene.show(*least)), Role::Text);
            }
            for run in unseen {
                text.line(format!("{}: no reading sees it", name(run)), Role::Caution);
            }
        }
        Verdict::Bad { fault, unless, next } => {
            bad(scene, fault, text);
            if let Some((a, b)) = unless {
                text.line(format!("unless {} and {} are bad both at once", name(a), name(b)), Role::Caution);
            }
            further(scene, next.as_ref(), text);
        }
        Verdict::BadTwice(a, b) => {
            bad(scene, a, text);
            bad(scene, b, text);
        }
        Verdict::Unclear { candidates, several, next } => {
            let more = if *several { "; it takes at least two bad joints" } else { "" };
            text.line(format!("the readings cannot tell these runs apart{more}"), Role::Caution);
            for f in candidates {
                text.line(format!("  {}: {} if it is the one", name(&f.run), scene.show(f.excess)), Role::Text);
            }
            further(scene, next.as_ref(), text);
        }
        Verdict::Dead(dead) => text.line(dead.words(&dead.runs.iter().map(name).collect::<Vec<_>>()), Role::Stop),
        Verdict::Contradiction => text.line("no bad joint explains these readings: measure again", Role::Stop),
    }
}

fn bad(scene: &Scene<'_>, fault: &Fault, text: &mut Text) {
    let (excess, error) = (scene.show(fault.excess), scene.show(fault.bound()));
    let (current, heat) = (scene.show(fault.current), scene.show(fault.heat));
    let run = run_name(&scene.design().installation.runs, fault.run);
    text.line(format!("{run} has {excess} (± {error}) too much; {current} heats that joint with {heat}"), Role::Stop);
    for place in &fault.look_at {
        text.line(format!("· look at {place}"), Role::Text);
    }
}

fn further(scene: &Scene<'_>, next: Option<&NextReading>, text: &mut Text) {
    let Some(next) = next else { return };
    let load = if next.test_load { "a test load at" } else { "the load" };
    let current = scene.show(next.current);
    text.line(format!("next reading: at {}, with {load} {} of {current} on", next.at, next.with), Role::Note);
}

/// What is switched on stands above its points, so that point, drop, volts and current have room side by side.
fn expected(scene: Scene<'_>) -> Pane<'_> {
    let tests = scene.design().test_sheet().tests.as_slice();
    // Each test is a heading, which has no point, and its points.
    let of = |(t, test): (usize, &Test)| {
        std::iter::once((t, None)).chain((0..test.points.len()).map(move |p| (t, Some(p)))).collect::<Vec<_>>()
    };
    let lines: Rc<[(usize, Option<usize>)]> = tests.iter().enumerate().flat_map(of).collect();
    let (count, in_points) = (lines.len(), Rc::clone(&lines));
    let line = move |i: usize| lines.get(i).and_then(|(t, p)| Some((tests.get(*t)?, *p)));
    let point = move |i: usize| {
        let (t, p) = in_points.get(i).copied()?;
        Some((tests.get(t)?.points.get(p?)?, scene.at(0)))
    };
    let (current, key) = (line.clone(), line.clone());
    let columns = Columns::new(scene)
        .fact(PointExpected::POINT, point.clone())
        .widest(22)
        .fact(PointExpected::DROP, point.clone())
        .fact(PointExpected::VOLTAGE, point)
        .fact(Test::CURRENT, move |i| current(i).map(|(t, _)| (t, scene.at(0))))
        // A test is told once, before its first point.
        .but({
            let line = line.clone();
            move |i, cell| if line(i).is_some_and(|(_, p)| p == Some(0)) { cell } else { Cell::default() }
        });
    let words = move |i: usize| {
        key(i).map_or_else(String::new, |(t, p)| match p.and_then(|p| t.points.get(p)) {
            Some(p) => format!("{} {}", t.with, p.point),
            None => t.with.clone(),
        })
    };
    let table = columns.table(count, words);
    let row = move |i: usize| match line(i) {
        Some((t, None)) => Row::heading(format!("With {}", t.with)),
        _ => (table.row)(i),
    };
    Pane::table("What to expect, one load on at a time", Table { row: Box::new(row), ..table })
}

fn runs(scene: Scene<'_>) -> Pane<'_> {
    let all = scene.design().test_sheet().runs.as_slice();
    let run = move |i: usize| Some((all.get(i)?, scene.at(i)));
    let name =
        move |i: usize| all.get(i).map_or_else(String::new, |r| run_name(&scene.design().installation.runs, r.run));
    let columns = Columns::new(scene)
        .own(Column::words(RunExpected::NUMBER.label).widest(24), move |i| Cell::words(name(i)))
        .facts([RunExpected::RESISTANCE, RunExpected::CURRENT, RunExpected::DROP], run);
    let key = move |i: usize| all.get(i).map_or_else(String::new, |r| format!("run {}", r.run));
    Pane::table("Each run by a volt-drop test", columns.table(all.len(), key))
}
