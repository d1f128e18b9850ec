//! Endurance: days of use as curves: charge, voltage, what was cut and when, and how sure that is.

use super::action::Action;
use super::chances::Chances;
use super::days::Simulated;
use super::pane::{Body, Cell, Column, Offer, Pane, Plot, Row, Scatter, Table, marks};
use super::promise;
use super::results::{Columns, Facts};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::simulate::chance::Uncertainty;
use crate::engine::simulate::days::result::{EnduranceDay, Ledger, LoadHours};
use crate::engine::{Endurance, Span};
use crate::quantity::{Figure, Hours, Share};

/// The panes: what to simulate, the charge, what came of it, the chances, each
/// load, the voltage, each day.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![choices(scene), charge(scene), facts(scene), chances(scene), loads(scene), voltage(scene), by_day(scene)]
}

fn result<'a>(scene: &Scene<'a>) -> Option<&'a Endurance> {
    scene.days.and_then(|d| d.result.as_ref().ok())
}

/// Why there is nothing to see.
fn why_not(scene: &Scene<'_>) -> String {
    match scene.days.map(|d| &d.result) {
        Some(Err(reason)) => reason.clone(),
        _ => "not simulated".into(),
    }
}

fn choices(scene: Scene<'_>) -> Pane<'_> {
    let now = scene.span;
    let spans = |label: &str, all: &[(&str, Span)]| {
        let cell = |(words, span): &(&str, Span)| {
            choice(words, *span == now, Action::Simulate(*span), format!("simulate: {words}"))
        };
        row(label, all.iter().map(cell).collect())
    };
    let chemistry = scene.state.catalogue.chemistry(&scene.plan().service_battery.chemistry);
    let old = chemistry.map_or(Share::new(0.8), |c| c.life.end_of_life);
    let reserve = scene.design().cut_off.reserve;
    let days = |days| Span { days, ..now };
    let first = |first_day| Span { first_day, ..now };
    let draws = |count: u32, words: &str| {
        choice(words, false, Action::DrawChances(count), format!("work the chances out by {words}"))
    };
    let rows = vec![
        spans("For", &[("7 days", days(7)), ("14 days", days(14)), ("30 days", days(30)), ("a year", days(365))]),
        spans(
            "From",
            &[
                ("mid-January", first(15)),
                ("mid-April", first(105)),
                ("mid-July", first(196)),
                ("mid-October", first(288)),
            ],
        ),
        spans(
            "Beginning",
            &[
                ("full", Span { from: Share::FULL, ..now }),
                ("half full", Span { from: Share::new(0.5), ..now }),
                ("at the reserve", Span { from: reserve, ..now }),
            ],
        ),
        spans(
            "Battery",
            &[("new", Span { health: Share::FULL, ..now }), ("at its end of life", Span { health: old, ..now })],
        ),
        row("Chances", vec![draws(300, "300 trials"), draws(1000, "1000 trials"), draws(10_000, "10 000 trials")]),
    ];
    let columns = vec![Column::label(""), Column::words(""), Column::words(""), Column::words(""), Column::words("")];
    Pane::table("What to simulate", Table::of(columns, rows))
}

fn choice(words: &str, chosen: bool, action: Action, offer: String) -> Cell {
    let shown = if chosen { format!("[{words}]") } else { format!(" {words} ") };
    let role = if chosen { Role::Heading } else { Role::Text };
    Cell::words(shown).role(role).offer(Offer::Do { action: Box::new(action), words: offer })
}

fn row(label: &str, mut cells: Vec<Cell>) -> Row {
    cells.insert(0, Cell::words(label));
    cells.resize(5, Cell::default());
    Row::new(label, cells)
}

/// A plot over the days: curve, times without power, levels.
fn plot(scene: &Scene<'_>, y: (String, f64, f64), of: fn(&crate::engine::EndurancePoint) -> f64) -> Plot {
    let Some(e) = result(scene) else { return Plot { empty: why_not(scene), ..Plot::default() } };
    let point = |p: &crate::engine::EndurancePoint| (p.at.get() / 24.0, of(p));
    let days = f64::from(e.days);
    let cut: Vec<_> = e.points.iter().filter(|p| p.cut).map(point).collect();
    let open =
        if cut.is_empty() { Vec::new() } else { vec![Scatter { name: "cut off".into(), sign: 'x', points: cut }] };
    let tick = |v: f64| scene.digits(Figure::number(v));
    let across = match e.days {
        0..=14 => (0..e.days).map(|day| (f64::from(day), weekday(f64::from(day)).into())).collect(),
        n => (0..=n).step_by(if n > 60 { 30 } else { 5 }).map(|day| (f64::from(day), tick(f64::from(day)))).collect(),
    };
    Plot {
        curves: vec![(y.0.clone(), e.points.iter().map(point).collect())],
        marks: open,
        x: ("Days".into(), 0.0, days),
        across,
        up: marks(3, y.1, y.2, tick),
        read: Some(moment),
        y,
        ..Plot::default()
    }
}

/// The weekday of a day since the beginning, which is a Monday.
fn weekday(day: f64) -> &'static str {
    const NAMES: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    NAMES[day.max(0.0) as usize % NAMES.len()]
}

/// A moment in words: `day 3, Wed 14:00`.
fn moment(days: f64) -> String {
    let minutes = (days * 24.0 * 60.0).round() as u64;
    let (day, minute) = (minutes / 1440, minutes % 1440);
    format!("day {}, {} {:02}:{:02}", day + 1, weekday(day as f64), minute / 60, minute % 60)
}

fn charge(scene: Scene<'_>) -> Pane<'_> {
    let mut plot = plot(&scene, ("State of charge, %".into(), 0.0, 100.0), |p| p.charge.get() * 100.0);
    let reserve = scene.design().cut_off.reserve;
    plot.levels = vec![(format!("reserve {}", scene.show(reserve)), reserve.get() * 100.0)];
    if let Some(e) = result(&scene) {
        let starter = e.points.iter().map(|p| (p.at.get() / 24.0, p.starter.get() * 100.0));
        plot.curves.push(("starter battery".into(), starter.collect()));
        plot.bars = without_power(&scene, e);
    }
    Pane { title: "Charge, %".into(), body: Body::Plot(plot) }
}

/// When each load stood without power, those that stood longest first.
fn without_power(scene: &Scene<'_>, e: &Endurance) -> Vec<(String, Vec<(f64, f64)>)> {
    let mut loads: Vec<usize> = (0..e.loads.len()).filter(|&n| e.loads[n].unserved > Hours::ZERO).collect();
    loads.sort_by(|&a, &b| e.loads[b].unserved.get().total_cmp(&e.loads[a].unserved.get()));
    let days = |h: Hours| h.get() / 24.0;
    let bar = |load: usize| {
        let own = e.outages.iter().filter(|o| o.load == load).map(|o| (days(o.from), days(o.until)));
        Some((scene.design().installation.loads.get(load)?.name.clone(), own.collect()))
    };
    loads.into_iter().filter_map(bar).collect()
}

fn voltage(scene: Scene<'_>) -> Pane<'_> {
    let volts = |e: &Endurance| e.points.iter().map(|p| p.volts.get()).collect::<Vec<_>>();
    let all = result(&scene).map(volts).unwrap_or_default();
    let low = all.iter().copied().fold(12.0, f64::min).max(8.0).floor();
    let high = all.iter().copied().fold(14.0, f64::max).ceil();
    let mut plot = plot(&scene, ("Volts at the posts".into(), low, high), |p| p.volts.get());
    let cut = scene.design().cut_off.cut;
    plot.levels = vec![(format!("cut-off {}", scene.show(cut)), cut.get())];
    Pane { title: "Voltage, V".into(), body: Body::Plot(plot) }
}

fn facts(scene: Scene<'_>) -> Pane<'_> {
    let (mut facts, at) = (Facts::new(scene), scene.at(0));
    promise::hardest(&scene, &mut facts);
    let Some(e) = result(&scene) else {
        facts.remark("Nothing simulated", Cell::words(""), why_not(&scene), Role::Caution);
        return facts.pane("Outcome");
    };
    facts.heading("As simulated here");
    facts.told(e, at, Endurance::LOWEST, format!("after {}", scene.show(e.lowest_at)), Role::Muted);
    let (cuts, role) =
        if e.cuts == 0 { ("never".into(), Role::Good) } else { (format!("{} times", e.cuts), Role::Stop) };
    let first = e.first_cut.map_or_else(String::new, |at| format!("first after {}", scene.show(at)));
    facts.remark("Cut off", Cell::words(cuts).role(role), first, Role::Muted);
    if e.cut_hours > Hours::ZERO {
        facts.list(e, at, &[Endurance::CUT_HOURS]);
    }
    for (fact, hours, why) in
        [(Endurance::DEAD, e.dead_hours, ""), (Endurance::REFUSED, e.refused_hours, "too cold or too hot")]
    {
        let (cell, is) = (Cell::fact(&scene, fact, e, at), hours > Hours::ZERO);
        facts.remark(fact.label, if is { cell } else { never(cell) }, if is { why } else { "" }, Role::Muted);
    }
    facts.told(e, at, Endurance::STARTER_LOWEST, lost(&scene, e), Role::Stop);
    promise::remedies(&scene, &mut facts);
    facts.heading("Balance");
    facts.list(e, at, &[Endurance::WEEKLY]);
    facts.told(e, at, Endurance::DRIFT, "below 0 it runs down", Role::Muted);
    // The books of the battery balance; what is offered and not taken is in none of them.
    facts.list(&e.ledger, at, &[Ledger::CHARGED, Ledger::DRAWN, Ledger::LOST, Ledger::MISSING]);
    facts.heading("Offered and used");
    facts.list(
        &e.ledger,
        at,
        &[Ledger::FROM_DRIVING, Ledger::FROM_STARTER, Ledger::FROM_SUN, Ledger::FROM_MAINS, Ledger::USED],
    );
    facts.heading("Wear a year");
    facts.list(e, at, &[Endurance::CYCLES, Endurance::WEAR_CYCLES, Endurance::WEAR_CALENDAR]);
    found(&scene, scene.days, &mut facts);
    facts.pane("Outcome")
}

/// No hours at all, in a word.
fn never(cell: Cell) -> Cell {
    Cell { text: "never".into(), ..cell }
}

/// When the engine may first not start.
fn lost(scene: &Scene<'_>, e: &Endurance) -> String {
    e.start_lost.map_or_else(String::new, |at| format!("may not start after {}", scene.show(at)))
}

fn found(scene: &Scene<'_>, days: Option<&Simulated>, facts: &mut Facts<'_>) {
    let findings = days.map_or(&[][..], |d| d.findings.as_slice());
    if !findings.is_empty() {
        facts.heading("Found");
    }
    for f in findings {
        let role = super::findings::role(f.severity);
        let remedy = f.remedies.first().map_or_else(String::new, |r| format!("; {}", r.words));
        let words = scene.plain(format!("{}{remedy}", f.text));
        facts.remark(f.severity.word(), Cell::words(""), words, role);
    }
}

fn chances(scene: Scene<'_>) -> Pane<'_> {
    let mut facts = Facts::new(scene);
    match scene.chances {
        Chances::Unknown => {
            facts.remark("Not drawn", Cell::words(""), "choose how many trials under Chances", Role::Muted);
        }
        Chances::Drawing { done, count } => {
            facts.remark("Drawing", Cell::words(format!("{done} of {count}")), "", Role::Text);
        }
        Chances::Failed(reason) => facts.remark("Not drawn", Cell::words(""), reason.clone(), Role::Stop),
        Chances::Said(said) => say(&scene, said, &mut facts),
    }
    facts.pane("How sure it is")
}

fn say(scene: &Scene<'_>, said: &Uncertainty, facts: &mut Facts<'_>) {
    facts.heading(format!("Of {} trials", said.draws));
    facts.list(said, scene.at(0), &[Uncertainty::UNCUT]);
    facts.heading(Uncertainty::LOWEST.label);
    for (words, share) in ["1 of 20 lower than", "half lower than", "19 of 20 lower than"].iter().zip(said.lowest) {
        facts.add(super::supply::capital(words), Cell::figure(scene, share));
    }
    facts.heading(format!("{} (lowest charge)", Uncertainty::INPUTS.label));
    for bar in &said.tornado {
        let range = format!("with {} to {}", scene.show(bar.low.0), scene.show(bar.high.0));
        let moved = format!("{} to {}", scene.digits(bar.low.1), scene.show(bar.high.1));
        facts.remark(super::supply::capital(bar.input.words()), Cell::words(moved), range, Role::Muted);
    }
    facts.heading("Night by night");
    for (n, (night, by)) in said.cut_at_night.iter().zip(&said.cut_by).enumerate().take(31) {
        let until = format!("{} by then", scene.show(*by));
        facts.remark(format!("Cut in night {}", n + 1), Cell::figure(scene, *night), until, Role::Muted);
    }
}

fn loads(scene: Scene<'_>) -> Pane<'_> {
    let all = result(&scene).map_or(&[][..], |e| e.loads.as_slice());
    let hours = move |i: usize| Some((all.get(i)?, scene.at(i)));
    let without = move |i: usize| all.get(i).is_some_and(|h| h.unserved > Hours::ZERO);
    let columns = Columns::new(scene)
        .fact(LoadHours::NAME, hours)
        .widest(24)
        .fact(LoadHours::WANTED, hours)
        .fact(LoadHours::UNSERVED, hours)
        .but(move |i, cell| if without(i) { cell.role(Role::Stop) } else { never(cell) });
    let name = move |i: usize| scene.plan().loads.get(i).map_or_else(String::new, |l| l.name.clone());
    let empty = "nothing was simulated";
    Pane::table("Each load", Table { empty, ..columns.table(all.len(), name) })
}

fn by_day(scene: Scene<'_>) -> Pane<'_> {
    let days = result(&scene).map_or(&[][..], |e| e.by_day.as_slice());
    let day = move |i: usize| Some((days.get(i)?, scene.at(i)));
    let open = move |i: usize| days.get(i).is_some_and(|d| d.cut_hours > Hours::ZERO);
    let columns = Columns::new(scene)
        .own(Column::label("Day"), |i| Cell::words((i + 1).to_string()))
        .facts([EnduranceDay::LOWEST, EnduranceDay::END, EnduranceDay::CHARGED, EnduranceDay::DRAWN], day)
        .fact(EnduranceDay::CUT, day)
        .but(move |i, cell| if open(i) { cell } else { never(cell) });
    let empty = "nothing was simulated";
    Pane::table("Each day", Table { empty, ..columns.table(days.len(), |i| i.to_string()) })
}
