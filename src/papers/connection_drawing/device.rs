//! How is a device drawn that has several terminals: which stud takes what?

use super::words::{LINE, fit, wrapped};
use crate::engine::{
    BODY, Connections, ControlWire, Joins, Joint, PANELS, PANELS_DEVICE, Part, Stud, Terminal, is_block,
};
use crate::papers::diagram::symbol;
use crate::papers::job::Job;
use crate::papers::pen::Pen;
use crate::plan::{ChargerKind, point};
use itertools::Itertools;

/// Width of a box; two stand side by side.
pub const BOX: f64 = 87.0;
/// Room for the symbol.
const SYMBOL: f64 = 13.0;

/// A device with its words.
pub struct Device {
    /// Its name, by which runs find it.
    pub at: String,
    lines: Vec<String>,
    symbol: Option<Symbol>,
}

#[derive(Clone, Copy)]
enum Symbol {
    Battery,
    CutOff,
    Relay,
    Converter { from_ac: bool, to_ac: bool },
    Solar,
    Frame,
}

/// All that has terminals of its own, in the order of the list.
pub fn devices(job: &Job, list: &Connections, control: &[ControlWire]) -> Vec<Device> {
    let studs = list.studs();
    let names: Vec<&str> = studs.iter().map(|s| place(&s.terminal)).unique().collect();
    let of = |at: &&str| {
        let own: Vec<&Stud> = studs.iter().filter(|s| place(&s.terminal) == *at).collect();
        let joints: Vec<&Joint> =
            own.iter().flat_map(|s| &s.joints).unique().filter_map(|n| list.joints.get(*n)).collect();
        let many = own.iter().any(|s| matches!(s.terminal.part, Part::Way(_) | Part::Stud(_) | Part::Earth));
        let fuse = *at == PANELS_DEVICE || joints.iter().any(|j| j.run.is_some() && j.name == *at);
        let device = joints.iter().any(|j| j.run.is_none() && j.joins != Joins::Load);
        if fuse || !(many || device) {
            return None;
        }
        let what = joints.iter().filter(|j| j.run.is_none() && j.joins != Joins::Vehicle);
        let mut lines: Vec<String> = what
            .flat_map(|j| {
                wrapped(
                    &if j.name == *at { j.what.clone() } else { format!("{}: {}", j.name, j.what) },
                    BOX - SYMBOL - 4.0,
                )
            })
            .collect();
        lines.extend(own.iter().flat_map(|s| stud(list, s)));
        for wire in control.iter().filter(|w| w.device == *at) {
            lines.push(format!("{}: {}, behind {}", wire.name, wire.from, wire.fuse));
        }
        Some(Device { at: (*at).into(), lines, symbol: symbol_of(job, at, &joints) })
    };
    names.iter().filter_map(of).collect()
}

/// In whose box a terminal stands: all points of the body in one.
fn place(terminal: &Terminal) -> &str {
    if terminal.part == Part::Earth { BODY } else { &terminal.at }
}

/// `OUT M8: R3 + 1, F4 5 A`.
fn stud(list: &Connections, stud: &Stud) -> Vec<String> {
    let wires = stud.wires.iter().filter_map(|n| list.wires.get(*n)).map(|w| format!("{} {}", w.name, w.cut.size));
    let joints = || stud.joints.iter().filter_map(|n| list.joints.get(*n));
    let fuses = joints().filter(|j| j.run.is_some());
    let fuses = fuses.map(|j| format!("{} {}", j.name, j.what.split(',').next().unwrap_or_default()));
    let fuses = fuses.chain(joints().filter(|j| j.joins == Joins::Vehicle).map(|j| j.name.clone()));
    let mark = match stud.terminal.part {
        Part::Earth => stud.terminal.at.trim_start_matches(BODY).trim_start().to_string(),
        _ => stud.terminal.mark(),
    };
    let all = wires.chain(fuses).join("; ");
    let thread = stud.thread.as_ref().map_or_else(String::new, |t| format!(" {t}"));
    wrapped(&format!("{mark}{thread}: {}", if all.is_empty() { "–".into() } else { all }), BOX - SYMBOL - 4.0)
}

fn symbol_of(job: &Job, at: &str, joints: &[&Joint]) -> Option<Symbol> {
    let is = |name: &str| joints.iter().any(|j| j.name == name);
    Some(match at {
        point::SERVICE_BATTERY | point::STARTER_BATTERY => Symbol::Battery,
        point::CUT_OFF => Symbol::CutOff,
        point::CHARGER if job.plan.charger.kind == ChargerKind::Relay => Symbol::Relay,
        point::CHARGER => Symbol::Converter { from_ac: false, to_ac: false },
        _ if is("solar controller") => Symbol::Solar,
        _ if is("mains charger") => Symbol::Converter { from_ac: true, to_ac: false },
        _ if is("inverter") => Symbol::Converter { from_ac: false, to_ac: true },
        _ if at == BODY => Symbol::Frame,
        _ if is_block(at) => Symbol::Battery,
        PANELS => Symbol::Solar,
        _ => return None,
    })
}

impl Device {
    /// Its height.
    pub fn height(&self) -> f64 {
        let lines = LINE * (self.lines.len() as f64 + 1.0) + 2.5;
        if self.symbol.is_some() { lines.max(17.0) } else { lines }
    }

    /// Draw it with its left upper corner at zero.
    pub fn draw(&self) -> Pen {
        let mut pen = Pen::default();
        pen.rect(0.0, 0.0, BOX, self.height());
        fit(&mut pen, 1.5, LINE + 0.3, BOX - SYMBOL - 3.0, &self.at, true);
        for (n, line) in self.lines.iter().enumerate() {
            fit(&mut pen, 1.5, LINE * (n as f64 + 2.0) + 0.3, BOX - SYMBOL - 3.0, line, false);
        }
        let (x, middle) = (BOX - SYMBOL + 1.0, 9.0);
        match self.symbol {
            Some(Symbol::Battery) => symbol::battery(&mut pen, x, 2.0),
            Some(Symbol::CutOff) => symbol::cut_off(&mut pen, x, middle + 3.0),
            Some(Symbol::Relay) => symbol::relay(&mut pen, x, middle),
            Some(Symbol::Converter { from_ac, to_ac }) => symbol::converter(&mut pen, x, middle, from_ac, to_ac),
            Some(Symbol::Solar) => symbol::solar(&mut pen, x, middle),
            Some(Symbol::Frame) => symbol::frame(&mut pen, x + 5.0, middle - 2.0),
            None => {}
        }
        pen
    }
}
