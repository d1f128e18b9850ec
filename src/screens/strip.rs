//! The voltages from the battery to the far end of a run, point by point.

use super::pane::{Cell, Column, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::{Side, Subject, run_name};
use crate::plan::point;

/// One row for each point on the way, and one for each load at the last.
pub fn pane(scene: Scene<'_>, run: usize) -> Pane<'_> {
    let columns = vec![
        Column::label("Point").widest(30),
        Column::figures("Volts"),
        Column::figures("Lost on the way"),
        Column::label("By").widest(40),
    ];
    let mut table = Table::of(columns, rows(&scene, run));
    table.empty = "this run is not connected to a battery";
    Pane::table("Voltages on the way", table)
}

fn rows(scene: &Scene<'_>, run: usize) -> Vec<Row> {
    let design = scene.design();
    let topology = &design.installation.circuits;
    let Some(branch) = topology.of_run.get(run).copied().flatten() else { return Vec::new() };
    let path: Vec<_> = topology.path_of(branch).iter().filter_map(|&b| topology.branches.get(b)).collect();
    let mut rows = Vec::new();
    for (n, b) in path.iter().enumerate() {
        let Some(d) = design.runs.get(b.run) else { continue };
        if n == 0 {
            let start = if b.side == Side::Service { point::SERVICE_BATTERY } else { point::STARTER_BATTERY };
            let volts = Cell::figure(scene, d.settled.near).topic(Subject::Run(b.run), "far voltage");
            rows.push(Row::new(start, vec![Cell::words(start), volts, Cell::dash(), Cell::words("")]));
        }
        let drop = d.size.as_ref().map(|s| s.drop);
        rows.push(Row::new(
            b.far.clone(),
            vec![
                Cell::words(b.far.clone()),
                Cell::figure(scene, d.settled.far).topic(Subject::Run(b.run), "far voltage"),
                Cell::maybe(scene, drop).topic(Subject::Run(b.run), "drop"),
                Cell::words(run_name(&scene.design().installation.runs, b.run)).role(Role::Muted),
            ],
        ));
    }
    let Some(last) = path.last() else { return rows };
    for (i, load) in scene.plan().loads.iter().enumerate().filter(|(_, l)| l.at == last.far) {
        let Some(s) = design.loads.get(i) else { continue };
        let subject = if load.inverter { Subject::Inverter } else { Subject::Load(i) };
        let role = if s.fits { Role::Muted } else { Role::Stop };
        let class = format!("{} of {} allowed", scene.show(s.drop_share), scene.show(s.limit));
        rows.push(Row::new(
            load.name.clone(),
            vec![
                Cell::words(format!("  {}", load.name)),
                Cell::maybe(scene, s.voltage).topic(subject.clone(), "voltage"),
                Cell::figure(scene, s.drop).topic(subject, "drop"),
                Cell::words(class).role(role),
            ],
        ));
    }
    rows
}
