//! Cut-off: where to disconnect and reconnect, and what each current makes of it.

use super::form::form;
use super::pane::{Body, Cell, Column, Pane, Plot, Table, marks};
use super::results::{Columns, Facts};
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::simulate::cut_off::result::{Actor, Acts, Draw};
use crate::engine::{AtCurrent, CutOffDesign};
use crate::plan::{Place, Section};
use crate::quantity::{Figure, Volts};

/// The panes: the settings, the curve under load, what each current makes of them, what acts when.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![form(scene, "Cut-off", &[Section::CutOff], 0, chosen), currents(scene), curve(scene), order(scene)]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let c = &scene.design().cut_off;
    let of = |fact| Some(Cell::fact(scene, fact, c, scene.at(0)));
    match place.key {
        "cut_v" => of(CutOffDesign::CUT),
        "opens_at" if c.counter.is_some() => of(CutOffDesign::OPENS_AT),
        "closes_at" if c.counter.is_some() => of(CutOffDesign::CLOSES_AT),
        "reconnect_v" => of(CutOffDesign::RECONNECT),
        "delay_s" => of(CutOffDesign::DELAY),
        "reserve" => of(CutOffDesign::RESERVE),
        "rating_a" if c.rating.is_some() => of(CutOffDesign::RATING),
        _ => None,
    }
}

fn currents(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().cut_off;
    let current = move |i: usize| Some((c.at_currents.get(i)?, scene.at(i)));
    let name = move |i: usize| c.at_currents.get(i).map_or("", |a| a.name.word());
    let usual = Draw::Usual.word();
    let columns = Columns::new(scene)
        .own(Column::label("With").widest(9), move |i| {
            Cell::words(capital(name(i))).role(if name(i) == usual { Role::Heading } else { Role::Text })
        })
        .facts([AtCurrent::CURRENT, AtCurrent::POSTS, AtCurrent::SENSING], current)
        .fact(AtCurrent::TRIPS_AT, current)
        .but(move |i, cell| match c.at_currents.get(i) {
            Some(a) if a.trips_at.is_none() => Cell { text: "never".into(), ..cell }.role(Role::Text),
            _ => cell,
        });
    let table = columns.table(c.at_currents.len(), move |i| name(i).to_string());
    let empty = "no discharge curve could be computed; see Findings";
    Pane::table(format!("At {} charge; {usual} decides", scene.show(c.reserve)), Table { empty, ..table })
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
        across: marks(5, 0.0, 100.0, |share| scene.digits(Figure::number(share))),
        up: marks(3, low, high, tick),
        ..Plot::default()
    };
    Pane { title: "Voltage under load, V".into(), body: Body::Plot(plot) }
}

fn order(scene: Scene<'_>) -> Pane<'_> {
    let (c, at) = (&scene.design().cut_off, scene.at(0));
    let mut facts = Facts::new(scene);
    let beside = match c.counter {
        Some(_) => format!("by voltage alone {}", scene.show(c.exact)),
        None => format!("{} unrounded", scene.show(c.exact)),
    };
    facts.told(c, at, CutOffDesign::CUT, beside, Role::Muted);
    facts.list(c, at, &[CutOffDesign::RECONNECT, CutOffDesign::HYSTERESIS]);
    facts.told(c, at, CutOffDesign::DELAY, format!("{} needed", scene.show(c.delay_needed)), Role::Muted);
    facts.list(c, at, &[CutOffDesign::RATING, CutOffDesign::CURRENT]);
    if c.counter.is_some() {
        let counted =
            [CutOffDesign::OPENS_AT, CutOffDesign::CLOSES_AT, CutOffDesign::COUNTS_ON, CutOffDesign::COUNTER_ERROR];
        facts.list(c, at, &counted);
    }
    facts.heading("Around it");
    facts.list(
        c,
        at,
        &[
            CutOffDesign::SURGE,
            CutOffDesign::AFTER,
            CutOffDesign::REBOUND,
            CutOffDesign::CHARGING,
            CutOffDesign::DAYS_TO_HARM,
        ],
    );
    facts.heading("What acts first, as it falls");
    for acts in &c.order {
        let role = if acts.what == Actor::CutOff { Role::Heading } else { Role::Text };
        facts.remark(capital(&acts.what.words()), Cell::fact(&scene, Acts::AT, acts, at), "", role);
    }
    facts.pane("Settings and order")
}
