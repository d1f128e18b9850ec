//! Diagram: how it is all connected, drawn as trees from each battery.
//!
//! In overview a line for each run; in detail the loads and the voltages too.

use super::pane::{Body, Pane, Text};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::{Branch, FuseDesign, Side};
use crate::plan::point;

/// The one pane: the drawing.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    let mut text = Text { wrap: false, lines: drawing(&scene) };
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

type Line = Vec<(String, Role)>;

/// Both trees, and what hangs together with neither.
pub fn drawing(scene: &Scene<'_>) -> Vec<Line> {
    let mut out = Vec::new();
    for (side, name) in [(Side::Service, point::SERVICE_BATTERY), (Side::Feed, point::STARTER_BATTERY)] {
        if side == Side::Feed {
            out.push(Vec::new());
        }
        let draw = Draw { scene, side };
        out.push(draw.point(name));
        draw.loads(name, "  ", true, &mut out);
        let roots: Vec<usize> = draw.branches(None);
        draw.children(&roots, "  ", &mut out);
    }
    let loose: Vec<usize> = (0..scene.design().installation.runs.len())
        .filter(|r| scene.design().installation.circuits.index_of(*r).is_none())
        .collect();
    if !loose.is_empty() {
        out.push(Vec::new());
        out.push(vec![("not connected to any battery".into(), Role::Stop)]);
        for run in loose {
            out.push(vec![(
                format!("  {}", crate::engine::run_name(&scene.design().installation.runs, run)),
                Role::Stop,
            )]);
        }
    }
    out
}

struct Draw<'a, 'b> {
    scene: &'b Scene<'a>,
    side: Side,
}

impl Draw<'_, '_> {
    /// Branches that hang on another one, or on the battery.
    fn branches(&self, parent: Option<usize>) -> Vec<usize> {
        let all = self.scene.design().installation.circuits.branches.iter().enumerate();
        all.filter(|(_, b)| b.side == self.side && b.parent == parent).map(|(n, _)| n).collect()
    }

    fn children(&self, branches: &[usize], indent: &str, out: &mut Vec<Line>) {
        for (n, &index) in branches.iter().enumerate() {
            let Some(branch) = self.scene.design().installation.circuits.branches.get(index) else { continue };
            let last = n + 1 == branches.len();
            if self.scene.detail {
                out.push(vec![(format!("{indent}│"), Role::Muted)]);
            }
            let corner = if last { "└─" } else { "├─" };
            let mut line = vec![(format!("{indent}{corner}"), Role::Muted)];
            line.extend(self.run(branch));
            line.extend(self.point(&branch.far));
            out.push(line);
            let deeper = format!("{indent}{}", if last { "    " } else { "│   " });
            let under = self.branches(Some(index));
            self.loads(&branch.far, &deeper, under.is_empty(), out);
            self.children(&under, &deeper, out);
        }
    }

    /// `[60 A]══ R2 0.8 m 16 mm² ══`
    fn run(&self, branch: &Branch) -> Line {
        let scene = self.scene;
        let Some(run) = scene.design().installation.runs.get(branch.run) else { return Vec::new() };
        let design = scene.design().runs.get(branch.run);
        let fuses = design.map_or(&[][..], |d| d.fuses.as_slice());
        let near = fuses.iter().filter(|f| f.at == branch.near);
        let far = fuses.iter().filter(|f| f.at != branch.near);
        let size = design.and_then(|d| d.size.as_ref()).map_or("size ?".to_string(), |s| s.label.clone());
        let number = scene.design().installation.run_number(branch.run);
        let name = if run.name.is_empty() || !scene.detail { number } else { format!("{number} {}", run.name) };
        let words = format!("══ {name}, {}, {} ══", scene.show(run.length), scene.plain(size));
        let failing = design.and_then(|d| d.size.as_ref()).is_some_and(|s| !s.fails.is_empty());
        let mut line: Line = near.map(|f| self.fuse(f)).collect();
        line.push((words, if failing { Role::Stop } else { Role::Text }));
        line.extend(far.map(|f| self.fuse(f)));
        line.push((" ".into(), Role::Text));
        line
    }

    fn fuse(&self, fuse: &FuseDesign) -> (String, Role) {
        match fuse.rating {
            Some(rating) => (format!("[{}]", self.scene.show(rating)), Role::Caution),
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
            _ => None,
        };
        let mut line = vec![(format!("▐ {name} ▌"), Role::Heading)];
        if let Some(about) = about {
            line.push((format!(" {about}"), Role::Text));
        }
        line
    }

    /// The loads at a point: their number in overview, each in detail.
    fn loads(&self, name: &str, indent: &str, last: bool, out: &mut Vec<Line>) {
        let scene = self.scene;
        if self.side == Side::Feed {
            return;
        }
        let plan = scene.plan();
        let at = |l: &crate::plan::Load| l.at == name;
        let here: Vec<_> = plan.loads.iter().enumerate().filter(|(_, l)| at(l)).collect();
        if !scene.detail {
            let names: Vec<&str> = here.iter().map(|(_, l)| l.name.as_str()).collect();
            if !names.is_empty() {
                let stem = if last { "" } else { "│ " };
                out.push(vec![(format!("{indent}{stem}"), Role::Muted), (names.join(", "), Role::Muted)]);
            }
            return;
        }
        let stem = if last { "" } else { "│ " };
        for (n, load) in here {
            let count = if load.count == 1 { String::new() } else { format!("{} × ", load.count) };
            let draws = load.power.map(|p| scene.show(p)).or(load.current.map(|a| scene.show(a))).unwrap_or_default();
            let mut line =
                vec![(format!("{indent}{stem}"), Role::Muted), (format!("* {} {count}{draws}", load.name), Role::Text)];
            if let Some(s) = scene.design().loads.get(n) {
                let role = if s.fits { Role::Good } else { Role::Stop };
                let volts = s.voltage.map_or("cannot be fed".to_string(), |v| scene.show(v));
                line.push((format!("  {volts}, drop {}", scene.show(s.drop_share)), role));
            }
            out.push(line);
        }
    }
}
