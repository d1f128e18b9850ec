//! Diagram: how it is all connected, drawn as one tree from the starter battery through the charger to the service
//! battery and all that it feeds. Boards are boxes around their ways.
//!
//! In overview a line for each run; in detail the loads and the voltages too.

use super::pane::{Body, Pane, Text};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::installation::Installation;
use crate::engine::installation::lead::Beyond;
use crate::engine::{Branch, FuseDesign, Side};
use crate::plan::{BoardKind, point};
use unicode_width::UnicodeWidthStr;

/// The one pane: the drawing.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    let rows = drawing(&scene);
    let runs = rows.iter().map(|row| row.run).collect();
    let mut text = Text { wrap: false, lines: rows.into_iter().map(|row| row.line).collect(), runs };
    if scene.detail {
        text.line("", Role::Text);
        text.line(
            "[ ] fuse with its rating   ══ run with length and size   * load with the voltage it gets",
            Role::Muted,
        );
    }
    let title = if scene.detail { "Diagram, in detail" } else { "Diagram, overview" };
    vec![Pane { title: title.into(), body: Body::Text(text) }]
}

/// In which line of the drawing a run stands.
pub fn line_of(scene: &Scene<'_>, run: usize) -> Option<usize> {
    drawing(scene).iter().position(|row| row.run == Some(run))
}

type Line = Vec<(String, Role)>;

/// A line of the drawing.
#[derive(Clone, Debug, Default)]
struct Row {
    line: Line,
    /// The run it is about.
    run: Option<usize>,
}

impl Row {
    fn of(words: impl Into<String>, role: Role) -> Row {
        Row { line: vec![(words.into(), role)], run: None }
    }

    /// The same with something before it.
    fn behind(mut self, stem: &str) -> Row {
        self.line.insert(0, (stem.into(), Role::Muted));
        self
    }

    fn width(&self) -> usize {
        self.line.iter().map(|(words, _)| words.width()).sum()
    }
}

/// Both trees, joined at the charger, and what hangs together with neither battery.
fn drawing(scene: &Scene<'_>) -> Vec<Row> {
    let draw = Draw { scene, site: &scene.design().installation };
    let joined = draw.feeds_the_charger();
    let mut out = draw.battery(Side::Feed, point::STARTER_BATTERY);
    if !joined {
        out.push(Row::default());
        out.extend(draw.battery(Side::Service, point::SERVICE_BATTERY));
    }
    let loose: Vec<usize> = (0..draw.site.runs.len()).filter(|r| draw.site.circuits.index_of(*r).is_none()).collect();
    if !loose.is_empty() {
        out.push(Row::default());
        out.push(Row::of("not connected to any battery", Role::Stop));
        let name = |run: usize| format!("  {}", crate::engine::run_name(&draw.site.runs, run));
        out.extend(loose.into_iter().map(|run| Row { run: Some(run), ..Row::of(name(run), Role::Stop) }));
    }
    out
}

struct Draw<'a, 'b> {
    scene: &'b Scene<'a>,
    site: &'b Installation,
}

impl Draw<'_, '_> {
    /// Whether a run from the starter battery and one from the service battery meet at the charger.
    fn feeds_the_charger(&self) -> bool {
        let circuits = &self.site.circuits;
        circuits.to_point.contains_key(point::CHARGER) && circuits.to_feed_point.contains_key(point::CHARGER)
    }

    /// A battery and all that hangs on it.
    fn battery(&self, side: Side, name: &str) -> Vec<Row> {
        let mut out = vec![Row { line: self.point(name), run: None }];
        out.extend(self.beyond(side, name, None, None));
        out
    }

    /// What hangs on a point, but for one branch: its loads, then each run that begins there.
    fn beyond(&self, side: Side, name: &str, parent: Option<usize>, but: Option<usize>) -> Vec<Row> {
        let all = self.site.circuits.branches.iter().enumerate();
        let here = all.filter(|(n, b)| b.side == side && b.parent == parent && Some(*n) != but);
        let mut arms: Vec<Vec<Row>> = here.map(|(n, b)| self.arm(n, b)).collect();
        if side == Side::Feed && name == point::CHARGER && self.feeds_the_charger() {
            arms.extend(self.site.circuits.to_point.get(point::CHARGER).map(|&b| self.onward(b)));
        }
        let loads = if side == Side::Service { self.loads(name) } else { Vec::new() };
        if self.site.boards.iter().any(|b| b.name == name) {
            return framed(loads.into_iter().chain(arms.into_iter().flatten()).collect());
        }
        let mut out: Vec<Row> = Vec::new();
        let stem = if arms.is_empty() { "  " } else { "  │ " };
        out.extend(loads.into_iter().map(|row| row.behind(stem)));
        let last = arms.len();
        for (n, arm) in arms.into_iter().enumerate() {
            if self.scene.detail {
                out.push(Row::of("  │", Role::Muted));
            }
            let (corner, under) = if n + 1 == last { ("  └─", "    ") } else { ("  ├─", "  │ ") };
            out.extend(arm.into_iter().enumerate().map(|(i, row)| row.behind(if i == 0 { corner } else { under })));
        }
        out
    }

    /// A run away from its battery, and what lies behind it.
    fn arm(&self, index: usize, branch: &Branch) -> Vec<Row> {
        let mut head = self.run(branch, true);
        match self.site.load_of(branch.run) {
            Some(load) if !self.site.is_way(branch.run) => {
                head.line.extend(self.load(load));
                return vec![head];
            }
            // The device of several leads: what is behind it has no name of its own in the workshop.
            Some(_) => head.line.clear(),
            None => head.line.extend(self.point(&branch.far)),
        }
        if self.site.is_way(branch.run) {
            head.line = self.way(branch);
        }
        let mut out = vec![head];
        out.extend(self.beyond(branch.side, &branch.far, Some(index), None));
        out
    }

    /// From the charger towards the service battery: a run against its direction, then all else that hangs there.
    fn onward(&self, index: usize) -> Vec<Row> {
        let Some(branch) = self.site.circuits.branches.get(index) else { return Vec::new() };
        let mut head = self.run(branch, false);
        head.line.extend(self.point(&branch.near));
        let mut out = vec![head];
        out.extend(self.beyond(branch.side, &branch.near, branch.parent, Some(index)));
        if let Some(parent) = branch.parent {
            out.extend(self.onward(parent).into_iter().map(|row| row.behind("  ")));
        }
        out
    }

    /// `[60 A]══ R2, 0.8 m, 16 mm² ══`, its near end first or its far one.
    fn run(&self, branch: &Branch, outward: bool) -> Row {
        let scene = self.scene;
        let Some(run) = self.site.runs.get(branch.run) else { return Row::default() };
        let design = scene.design().runs.get(branch.run);
        let fuses = design.map_or(&[][..], |d| d.fuses.as_slice());
        let first = |f: &&FuseDesign| (f.at == branch.near) == outward;
        let size = design.and_then(|d| d.size.as_ref()).map_or("size ?".to_string(), |s| s.label.clone());
        let number = self.site.run_number(branch.run);
        let own = branch.run < self.site.own_runs();
        let name = if run.name.is_empty() || !scene.detail || !own { number } else { format!("{number} {}", run.name) };
        let words = format!("══ {name}, {}, {} ══", scene.show(run.length), scene.plain(size));
        let failing = design.and_then(|d| d.size.as_ref()).is_some_and(|s| !s.fails.is_empty());
        let mut line: Line = fuses.iter().filter(first).map(|f| self.fuse(f)).collect();
        line.push((words, if failing { Role::Stop } else { Role::Text }));
        line.extend(fuses.iter().filter(|f| !first(f)).map(|f| self.fuse(f)));
        line.push((" ".into(), Role::Text));
        Row { line, run: Some(branch.run) }
    }

    /// `[15 A] way “table”`: a device that several leads share.
    fn way(&self, branch: &Branch) -> Line {
        let design = self.scene.design().runs.get(branch.run);
        let mut line: Line = design.into_iter().flat_map(|d| &d.fuses).map(|f| self.fuse(f)).collect();
        let name = self.site.runs.get(branch.run).map_or("", |r| r.name.as_str());
        line.push((format!(" {} {name}", self.site.run_number(branch.run)), Role::Text));
        line
    }

    fn fuse(&self, fuse: &FuseDesign) -> (String, Role) {
        match fuse.rating {
            Some(rating) => (format!("[{}]", self.scene.show(rating)), Role::Heading),
            None => ("[no fuse fits]".into(), Role::Stop),
        }
    }

    /// The name of a point and what stands there.
    fn point(&self, name: &str) -> Line {
        let scene = self.scene;
        let (plan, design) = (scene.plan(), scene.design());
        let about = match name {
            point::SERVICE_BATTERY => design.battery.bank.as_ref().map(|b| {
                let chemistry = scene.state.catalogue.chemistry(&b.chemistry).map_or("", |c| c.name.as_str());
                format!("{}, {chemistry}", scene.show(b.capacity))
            }),
            point::STARTER_BATTERY => Some(format!(
                "{}; alternator {}",
                scene.show(plan.starter_battery.capacity),
                scene.show(plan.vehicle.alternator_rating)
            )),
            point::CHARGER => design.charger.current.map(|a| scene.show(a)),
            point::CUT_OFF => {
                let c = &design.cut_off;
                Some(format!("opens at {}, closes at {}", scene.show(c.cut), scene.show(c.reconnect)))
            }
            _ if name == plan.solar.at && plan.solar.array.get() > 0.0 => {
                Some(format!("solar {}", scene.show(plan.solar.array)))
            }
            _ if name == plan.inverter.at && plan.inverter.rating.get() > 0.0 => {
                Some(format!("inverter {}", scene.show(plan.inverter.rating)))
            }
            _ => self.site.boards.iter().find(|b| b.name == name).map(|b| {
                match b.kind {
                    BoardKind::FuseBox => "fuse box",
                    BoardKind::BreakerPanel => "breaker panel",
                    BoardKind::BusBar => "bus bar",
                }
                .to_string()
            }),
        };
        let mut line = vec![(format!("▐ {name} ▌"), Role::Heading)];
        line.extend(about.map(|about| (format!(" {about}"), Role::Text)));
        line
    }

    /// The loads at a point that have no lead of their own: their names in overview, each in detail.
    fn loads(&self, name: &str) -> Vec<Row> {
        let plan = self.scene.plan();
        let leads = |n: usize| self.site.beyond.contains(&Beyond::Lead(n));
        let here: Vec<usize> = (0..plan.loads.len()).filter(|&n| plan.loads[n].at == name && !leads(n)).collect();
        if self.scene.detail {
            return here.into_iter().map(|n| Row { line: self.load(n), run: None }).collect();
        }
        let names: Vec<&str> = here.iter().map(|&n| plan.loads[n].name.as_str()).collect();
        if names.is_empty() { Vec::new() } else { vec![Row::of(names.join(", "), Role::Muted)] }
    }

    /// `fridge`, and in detail what it draws and gets.
    fn load(&self, index: usize) -> Line {
        let scene = self.scene;
        let Some(load) = scene.plan().loads.get(index) else { return Line::new() };
        if !scene.detail {
            return vec![(load.name.clone(), Role::Heading)];
        }
        let count = if load.count == 1 { String::new() } else { format!("{} × ", load.count) };
        let draws = load.power.map(|p| scene.show(p)).or(load.current.map(|a| scene.show(a))).unwrap_or_default();
        let mut line = vec![(format!("* {} {count}{draws}", load.name), Role::Text)];
        if let Some(s) = scene.design().loads.get(index) {
            let role = if s.fits { Role::Good } else { Role::Stop };
            let gets = match s.voltage.zip(s.drop_share) {
                Some((volts, share)) => format!("{}, drop {}", scene.show(volts), scene.show(share)),
                None => "cannot be fed".into(),
            };
            line.push((format!("  {gets}"), role));
        }
        line
    }
}

/// Rows in a box.
fn framed(rows: Vec<Row>) -> Vec<Row> {
    let widest = rows.iter().map(Row::width).max().unwrap_or(0);
    let edge = |left: &str, right: &str| Row::of(format!("  {left}{}{right}", "─".repeat(widest + 2)), Role::Muted);
    let inside = |row: Row| {
        let gap = " ".repeat(widest - row.width());
        let mut row = row.behind("  │ ");
        row.line.push((format!("{gap} │"), Role::Muted));
        row
    };
    std::iter::once(edge("┌", "┐")).chain(rows.into_iter().map(inside)).chain([edge("└", "┘")]).collect()
}
