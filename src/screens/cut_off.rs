//! Cut-off: where to disconnect and reconnect, and what each current makes of it.

use super::form::{Facts, form};
use super::pane::{Body, Cell, Column, Pane, Plot, Row, Table};
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::Subject;
use crate::plan::{Place, Section};
use crate::quantity::{Amps, Share, Volts};

/// The panes: the settings, the curve under load, what each current makes of them, what acts when.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![form(scene, "Cut-off", &[Section::CutOff], 0, chosen), currents(scene), curve(scene), order(scene)]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let c = &scene.design().cut_off;
    let of = |figure: crate::quantity::Figure, number: &'static str| {
        Some(Cell::figure(scene, figure).topic(Subject::CutOff, number))
    };
    match place.key {
        "cut_v" => of(c.cut.into(), "cut"),
        "reconnect_v" => of(c.reconnect.into(), "reconnect"),
        "delay_s" => of(c.delay.into(), "delay"),
        "reserve" => Some(Cell::figure(scene, c.reserve)),
        "rating_a" => of(c.rating?.into(), "rating"),
        _ => None,
    }
}

fn currents(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().cut_off;
    let columns = vec![
        Column::label("With").widest(9),
        Column::figures("Current").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Posts").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Sensed").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Cuts at").unit(scene.symbol(Share::ZERO)),
    ];
    let row = |(i, a): (usize, &crate::engine::AtCurrent)| {
        let role = if i == c.usual { Role::Heading } else { Role::Text };
        let of = |figure: crate::quantity::Figure, number: &str| {
            Cell::digits(&scene, figure).topic(Subject::CutOff, format!("{number}, {}", a.name))
        };
        let trips = match a.trips_at {
            Some(share) => of(share.into(), "trips"),
            None => Cell::words("never").topic(Subject::CutOff, format!("trips, {}", a.name)),
        };
        Row::new(
            a.name,
            vec![
                Cell::words(capital(a.name)).role(role),
                Cell::digits(&scene, a.current).topic(Subject::Budget, current_topic(a.name)),
                of(a.posts.into(), "posts"),
                of(a.sensing.into(), "sensing"),
                trips,
            ],
        )
    };
    let rows = c.at_currents.iter().enumerate().map(row).collect();
    let mut table = Table::of(columns, rows);
    table.empty = "no discharge curve could be computed; see Findings";
    let usual = c.at_currents.get(c.usual).map_or("usual", |a| a.name);
    Pane::table(format!("At {}; {usual} decides", scene.show(c.reserve)), table)
}

/// The heavy current is that of all loads together.
fn current_topic(name: &'static str) -> String {
    if name == "heavy" { "peak current".into() } else { format!("{name} current") }
}

fn curve(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().cut_off;
    let charge = |p: &crate::engine::CurvePoint| p.charge.get() * 100.0;
    let mut curves: Vec<(String, Vec<(f64, f64)>)> =
        vec![("resting".to_string(), c.curve.iter().map(|p| (charge(p), p.resting.get())).collect())];
    for (n, a) in c.at_currents.iter().enumerate() {
        let points = c.curve.iter().filter_map(|p| Some((charge(p), p.sensing.get(n)?.get()))).collect();
        curves.push((format!("{} {}", a.name, scene.show(a.current)), points));
    }
    let volts = |points: &[(f64, f64)]| points.iter().map(|p| p.1).collect::<Vec<_>>();
    let all: Vec<f64> = curves.iter().flat_map(|(_, p)| volts(p)).chain([c.cut.get(), c.reconnect.get()]).collect();
    // The fall at the very end is left out of the picture: what matters lies around the cut-off.
    let lowest = all.iter().copied().filter(|v| *v > 0.0).fold(f64::INFINITY, f64::min);
    let low = lowest.max(c.cut.get() - 1.0).max(8.0);
    let high = all.iter().copied().fold(low + 0.5, f64::max);
    let (low, high) = ((low * 2.0).floor() / 2.0, (high * 2.0).ceil() / 2.0);
    let tick = |v: f64| scene.digits(Volts::new(v));
    let plot = Plot {
        curves,
        levels: vec![
            (format!("cut {}", scene.show(c.cut)), c.cut.get()),
            (format!("reconnect {}", scene.show(c.reconnect)), c.reconnect.get()),
        ],
        x: ("State of charge, %".into(), 0.0, 100.0),
        y: ("Volts".into(), low, high),
        ticks: (
            ["0", "25", "50", "75", "100"].map(String::from).to_vec(),
            vec![tick(low), tick(low + (high - low) / 2.0), tick(high)],
        ),
        ..Plot::default()
    };
    Pane { title: "Voltage under load, V".into(), body: Body::Plot(plot) }
}

fn order(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().cut_off;
    let mut facts = Facts::of(scene, Subject::CutOff);
    facts.heading("Settings");
    let exact = format!("{} before rounding", scene.show(c.exact));
    facts.remark("Cut-off", facts.cell(c.cut, "cut"), exact, Role::Muted);
    facts.number("Reconnect", c.reconnect, "reconnect");
    facts.number("Least between them", c.hysteresis_needed, "hysteresis");
    let needed = format!("{} needed", scene.show(c.delay_needed));
    facts.remark("Delay", facts.cell(c.delay, "delay"), needed, Role::Muted);
    facts.add("Rating", Cell::maybe(&scene, c.rating).topic(Subject::CutOff, "rating"));
    facts.number("Carries", c.current, "current");
    facts.heading("Around it");
    facts.number("In the worst start", c.surge_voltage, "surge voltage");
    facts.number("Drawn after it", c.after, "after");
    facts.number("Rebounds to", c.rebound, "rebound");
    facts.number("Charging reaches", c.charging, "charging");
    let days = c.days_to_harm.map_or_else(Cell::dash, |d| Cell::words(format!("{} days", scene.digits(d))));
    facts.add("Then harm after", days.topic(Subject::CutOff, "days to harm"));
    facts.heading("What acts first, as it falls");
    for acts in &c.order {
        let role = if acts.what == "cut-off" { Role::Heading } else { Role::Text };
        facts.remark(capital(&acts.what), Cell::figure(&scene, acts.at), "", role);
    }
    facts.pane("Settings and order")
}
