//! The voltages from the battery to the far end of a run, point by point.

use super::pane::{Cell, Column, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::design::results::fact::At;
use crate::engine::{LoadSupply, RunDesign, SizeRow, run_name};

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
    let Some(branch) = topology.index_of(run) else { return Vec::new() };
    let path: Vec<_> = topology.path_of(branch).iter().filter_map(|&b| topology.branches.get(b)).collect();
    let mut rows = Vec::new();
    for (n, b) in path.iter().enumerate() {
        let Some(d) = design.runs.get(b.run) else { continue };
        let run = |fact| Cell::fact(scene, fact, d, scene.at(b.run));
        if n == 0 {
            let start = b.side.battery();
            let near = run(RunDesign::NEAR_VOLTAGE);
            rows.push(Row::new(start, vec![Cell::words(start), near, Cell::dash(), Cell::words("")]));
        }
        let within = At { within: b.run, ..scene.at(0) };
        let drop = d.size.as_ref().map_or_else(Cell::dash, |size| Cell::fact(scene, SizeRow::DROP, size, within));
        let by = Cell::words(run_name(&design.installation.runs, b.run)).role(Role::Muted);
        rows.push(Row::new(b.far.clone(), vec![Cell::words(b.far.clone()), run(RunDesign::FAR_VOLTAGE), drop, by]));
    }
    let Some(last) = path.last() else { return rows };
    for (i, load) in design.installation.loads.iter().enumerate().filter(|(_, l)| l.at == last.far) {
        let Some(s) = design.loads.get(i) else { continue };
        let role = if s.fits { Role::Muted } else { Role::Stop };
        let class = match s.drop_share {
            Some(share) => format!("{} of {} allowed", scene.show(share), scene.show(s.limit)),
            None => "cannot be fed".into(),
        };
        let supply = |fact| Cell::fact(scene, fact, s, scene.at(i));
        let cells = vec![
            Cell::words(format!("  {}", load.name)),
            supply(LoadSupply::VOLTAGE),
            supply(LoadSupply::DROP),
            Cell::words(class).role(role),
        ];
        rows.push(Row::new(load.name.clone(), cells));
    }
    rows
}
