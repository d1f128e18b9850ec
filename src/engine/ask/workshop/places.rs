//! On which terminal does each end of a run sit?
//!
//! A branch begins on the terminal that leads away from its battery and ends on
//! the one that leads toward it: of the cut-off IN and OUT, of a charger IN on
//! the starter's side and OUT on the service's, of a board IN and one of its ways.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::{Branch, Side};
use crate::engine::parts::terminal::{Part, Terminal};
use crate::plan::{BoardKind, point};
use std::collections::BTreeMap;

/// The main switch as a device with two studs.
pub const MAIN_SWITCH: &str = "main switch";

/// Terminals of an installation.
pub struct Places<'a> {
    site: &'a Installation,
    /// Which way or stud of its board each run takes.
    ways: BTreeMap<usize, u32>,
}

impl<'a> Places<'a> {
    /// Ways are counted from 1 in the order of the branches.
    pub fn of(site: &'a Installation) -> Self {
        let mut taken: BTreeMap<&str, u32> = BTreeMap::new();
        let mut ways = BTreeMap::new();
        for branch in site.circuits.branches.iter().filter(|b| site.boards.iter().any(|board| board.name == b.near)) {
            let way = taken.entry(&branch.near).or_default();
            *way += 1;
            ways.insert(branch.run, *way);
        }
        Places { site, ways }
    }

    /// How a fuse is called, by the number of its run: `F3`, and `F3b` at the far end.
    pub fn fuse_name(&self, run: usize, far_end: bool) -> String {
        let number = self.site.run_number(run);
        format!("F{}{}", number.trim_start_matches('R'), if far_end { "b" } else { "" })
    }

    /// One side of a fuse: IN is toward the near end of its run.
    pub fn fuse_side(&self, run: usize, far_end: bool, part: Part) -> Terminal {
        Terminal::plus(self.fuse_name(run, far_end), part)
    }

    /// Where the positive of a branch begins, before any fuse on its stud.
    pub fn begins(&self, branch: &Branch) -> Terminal {
        let (site, near) = (self.site, branch.near.as_str());
        let shared = |run: &usize| site.is_way(*run) && site.runs.get(*run).is_some_and(|r| r.to == near);
        if let Some(way) = (site.own_runs()..site.runs.len()).find(shared) {
            return self.behind_way(way);
        }
        if site.in_way(branch.run) {
            return self.away(near, branch.side, branch.run);
        }
        if self.switched(near) && !site.main_switch.in_minus {
            return Terminal::plus(MAIN_SWITCH, Part::Out);
        }
        self.away(near, branch.side, branch.run)
    }

    /// Whether the main switch sits at a point.
    fn switched(&self, at: &str) -> bool {
        self.site.main_switch.rating.is_some() && self.site.main_switch.at == at
    }

    /// Where the device of a shared way lets its leads begin.
    fn behind_way(&self, way: usize) -> Terminal {
        let board = self.site.runs.get(way).map(|r| r.from.as_str()).unwrap_or_default();
        match self.ways.get(&way) {
            Some(n) if self.site.in_way(way) => Terminal::plus(board, Part::Way(*n)),
            _ => self.fuse_side(way, false, Part::Out),
        }
    }

    fn away(&self, near: &str, side: Side, run: usize) -> Terminal {
        let part = match near {
            // In the minus alone it lets the plus pass: through one stud, or past it from the post.
            point::CUT_OFF if self.cut_off_in_minus() && self.site.circuits.cut_off_at_posts => {
                return Terminal::plus(point::SERVICE_BATTERY, Part::Post);
            }
            point::CUT_OFF if self.cut_off_in_minus() => Part::Post,
            point::CUT_OFF => Part::Out,
            point::CHARGER => of_charger(side),
            _ if self.site.plugs.iter().any(|p| p.name == near) => Part::Out,
            _ => match self.ways.get(&run) {
                // Stud 1 of a bar has its feed.
                Some(n) if self.bar(near) => Part::Stud(n + 1),
                Some(n) => Part::Way(*n),
                None => Part::Post,
            },
        };
        Terminal::plus(near, part)
    }

    /// What feeds the devices in the ways of the board at which a branch begins.
    pub fn bar_of(&self, branch: &Branch) -> Terminal {
        if self.switched(&branch.near) && !self.site.main_switch.in_minus {
            return Terminal::plus(MAIN_SWITCH, Part::Out);
        }
        self.feed(&branch.near, branch.side)
    }

    /// Where the positive of a branch ends.
    pub fn ends(&self, branch: &Branch) -> Terminal {
        self.feed(&branch.far, branch.side)
    }

    /// The terminal by which a point is fed, and on which hangs what has no cable of its own there.
    pub fn feed(&self, at: &str, side: Side) -> Terminal {
        let part = match at {
            point::CUT_OFF if self.cut_off_in_minus() => Part::Post,
            point::CUT_OFF => Part::In,
            point::CHARGER => of_charger(side),
            _ if self.site.plugs.iter().any(|p| p.name == at) => Part::In,
            _ if self.bar(at) => Part::Stud(1),
            _ if self.site.boards.iter().any(|b| b.name == at) => Part::In,
            _ => Part::Post,
        };
        Terminal::plus(at, part)
    }

    /// The terminal of the return at one end of a branch, before several that meet get a bar.
    pub fn back(&self, at: &str, far: bool) -> Terminal {
        if self.switched(at) && self.site.main_switch.in_minus && !far {
            return Terminal::minus(MAIN_SWITCH, Part::Out);
        }
        let two = self.site.plugs.iter().any(|p| p.name == at) || at == point::CUT_OFF && self.cut_off_in_minus();
        Terminal::minus(
            at,
            if !two {
                Part::Post
            } else if far {
                Part::In
            } else {
                Part::Out
            },
        )
    }

    /// Whether the cut-off opens the minus.
    pub fn cut_off_in_minus(&self) -> bool {
        self.site.cut_off.in_minus
    }

    fn bar(&self, at: &str) -> bool {
        self.site.boards.iter().any(|b| b.name == at && b.kind == BoardKind::BusBar)
    }
}

fn of_charger(side: Side) -> Part {
    if side == Side::Feed { Part::In } else { Part::Out }
}
