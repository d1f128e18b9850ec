//! Test sheet: expected voltages at each point; measured ones in, bad joints out.

use super::form::{self, form};
use super::pane::{Body, Cell, Column, Pane, Row, Table, Text};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::simulate::test_sheet::result::{Band, Fault, NextReading, ReadingResult, ReadingState, Verdict};
use crate::engine::{Subject, run_name};
use crate::plan::{Place, Section};
use crate::quantity::{Amps, Ohms, Volts};

/// The panes: the readings, what they say, what to expect, each run, the meter.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![readings(scene), says(scene), expected(scene), runs(scene), form(scene, "Meter", &[Section::Meter], 0, meter)]
}

fn meter(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let sheet = &scene.design().test_sheet;
    match place.key {
        "step_v" => Some(Cell::figure(scene, sheet.meter.step)),
        "digits" => Some(Cell::words(scene.digits(crate::quantity::Figure::number(sheet.meter.digits)))),
        "error" => Some(Cell::figure(scene, sheet.meter.reading)),
        "clamp_error" => Some(Cell::figure(scene, sheet.meter.clamp)),
        "air_c" => Some(Cell::figure(scene, sheet.air)),
        _ => None,
    }
}

fn band<Q: Copy + Into<crate::quantity::Figure>>(scene: &Scene<'_>, band: Band<Q>) -> String {
    format!("{} to {}", scene.digits(band.low), scene.digits(band.high))
}

fn readings(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::words("At").widest(18),
        Column::words("With").widest(18),
        Column::figures("Read"),
        Column::figures("Posts"),
        Column::figures("Current"),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Expected").unit(scene.symbol(Volts::ZERO)),
        Column::words("Verdict").widest(40),
    ];
    let row = move |i: usize| {
        let field = |key: &'static str| {
            form::cell(&scene, Place { section: Section::Reading, index: i, key }, form::nothing_chosen)
        };
        let result = scene.design().test_sheet.readings.iter().find(|r| r.reading == i);
        let mut cells = vec![field("at"), field("with"), field("voltage_v"), field("posts_v"), field("current_a")];
        cells.push(result.and_then(|r| r.drop).map_or_else(Cell::dash, |d| Cell::digits(&scene, d)));
        let expected = result.and_then(|r| r.expected);
        cells.push(expected.map_or_else(Cell::dash, |b| Cell::words(band(&scene, b))));
        let (words, role) = result.map_or((String::new(), Role::Muted), verdict);
        cells.push(Cell::words(words).role(role));
        Row::new(format!("reading {i}"), cells)
    };
    let rows = scene.plan().readings.len();
    let empty = "no readings yet; n adds one for the meter to fill";
    let list = Some(Section::Reading);
    Pane::table("Readings", Table { columns, rows, row: Box::new(row), list, empty, start: 0 })
}

fn verdict(result: &ReadingResult) -> (String, Role) {
    match (&result.state, result.within) {
        (ReadingState::Unusable(why), _) => (format!("not used: {why}"), Role::Caution),
        (ReadingState::Waiting(what), _) => (format!("waits for {what}"), Role::Muted),
        (ReadingState::Posts, _) => ("the posts, for the others".into(), Role::Muted),
        (ReadingState::Idle, _) => ("nothing was on".into(), Role::Muted),
        (_, Some(true)) => ("as expected".into(), Role::Good),
        (_, Some(false)) => ("OUTSIDE".into(), Role::Stop),
        (_, None) => (String::new(), Role::Muted),
    }
}

fn says(scene: Scene<'_>) -> Pane<'_> {
    let mut text = Text { wrap: true, ..Text::default() };
    let sheet = &scene.design().test_sheet;
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

fn expected(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::words("With").widest(20),
        Column::figures("Current").unit(scene.symbol(Amps::ZERO)),
        Column::words("Point").widest(18),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Volts").unit(scene.symbol(Volts::ZERO)),
    ];
    let tests = scene.design().test_sheet.tests.iter();
    let rows = tests.flat_map(|t| {
        t.points.iter().enumerate().map(move |(n, p)| {
            let first = n == 0;
            Row::new(
                format!("{} {}", t.with, p.point),
                vec![
                    Cell::words(if first { t.with.clone() } else { String::new() }),
                    if first { Cell::digits(&scene, t.current) } else { Cell::words("") },
                    Cell::words(p.point.clone()),
                    Cell::words(band(&scene, p.drop)),
                    Cell::words(band(&scene, p.voltage)),
                ],
            )
        })
    });
    Pane::table("What to expect, one load on at a time", Table::of(columns, rows.collect()))
}

fn runs(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::words("Run").widest(24),
        Column::figures("Resistance").unit(scene.symbol(Ohms::ZERO)),
        Column::figures("With").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
    ];
    let rows = scene.design().test_sheet.runs.iter().map(|r| {
        Row::new(
            format!("run {}", r.run),
            vec![
                Cell::words(run_name(&scene.design().installation.runs, r.run)),
                Cell::words(band(&scene, r.resistance)).topic(Subject::Run(r.run), "test drop"),
                Cell::digits(&scene, r.current).topic(Subject::Run(r.run), "test drop"),
                Cell::words(band(&scene, r.drop)).topic(Subject::Run(r.run), "test drop"),
            ],
        )
    });
    Pane::table("Each run by a volt-drop test", Table::of(columns, rows.collect()))
}
