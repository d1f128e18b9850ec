//! Growing the trees from both batteries, and keeping what does not fit.

use crate::engine::installation::circuits::misfit::Misfit;
use crate::engine::installation::circuits::{Branch, Side, Topology};
use crate::plan::{ChargerKind, Plan, nearest, point};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Find the trees, and what does not fit into them.
pub fn topology(plan: &Plan) -> Topology {
    let mut grow = Grow::new(plan);
    grow.tree(Side::Service, point::SERVICE_BATTERY);
    grow.cut_off_at_posts();
    grow.tree(Side::Feed, point::STARTER_BATTERY);
    grow.left_over();
    grow.mark_sources();
    grow.loads();
    grow.idle();
    grow.devices();
    grow.out
}

struct Grow<'a> {
    plan: &'a Plan,
    /// Runs that have two different ends.
    usable: Vec<bool>,
    /// Runs at each point.
    at: BTreeMap<&'a str, Vec<usize>>,
    out: Topology,
}

impl<'a> Grow<'a> {
    fn new(plan: &'a Plan) -> Self {
        let mut at: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        let mut misfits = Vec::new();
        let mut usable = vec![true; plan.runs.len()];
        for (i, run) in plan.runs.iter().enumerate() {
            if run.from.is_empty() || run.to.is_empty() || run.from == run.to {
                usable[i] = false;
                misfits.push(if run.from == run.to { Misfit::SameEnds { run: i } } else { Misfit::Nowhere { run: i } });
                continue;
            }
            at.entry(&run.from).or_default().push(i);
            at.entry(&run.to).or_default().push(i);
        }
        let out = Topology { of_run: vec![None; plan.runs.len()], misfits, ..Topology::default() };
        Grow { plan, usable, at, out }
    }

    /// Breadth first from a battery; the charger ends a tree.
    fn tree(&mut self, side: Side, root: &'a str) {
        let mut reached: BTreeSet<&str> = BTreeSet::from([root]);
        let mut queue: VecDeque<(&'a str, Option<usize>)> = [(root, None)].into();
        while let Some((here, parent)) = queue.pop_front() {
            if here == point::CHARGER {
                continue;
            }
            for run in self.at.get(here).cloned().unwrap_or_default() {
                if self.out.of_run[run].is_some() || !self.usable[run] {
                    continue;
                }
                let plan = self.plan;
                let far: &'a str = if plan.runs[run].from == here { &plan.runs[run].to } else { &plan.runs[run].from };
                let other_battery = far == point::SERVICE_BATTERY || far == point::STARTER_BATTERY;
                if !reached.insert(far) || other_battery {
                    self.usable[run] = false;
                    self.out.misfits.push(match other_battery {
                        true => Misfit::JoinsBatteries { run },
                        false => Misfit::SecondWay { run, to: far.into() },
                    });
                    continue;
                }
                let branch = self.add(run, side, here, far, parent);
                queue.push_back((far, Some(branch)));
            }
        }
    }

    /// A plan whose runs begin at the cut-off but that has none from the battery
    /// to it: the cut-off is taken to sit at the posts, and the plan says so.
    fn cut_off_at_posts(&mut self) {
        let Some(run) = self.at.get(point::CUT_OFF).and_then(|runs| runs.iter().find(|r| self.usable[**r])).copied()
        else {
            return;
        };
        if self.out.to_point.contains_key(point::CUT_OFF) || self.plan.runs[run].to == point::CUT_OFF {
            return;
        }
        self.out.cut_off_at_posts = true;
        self.tree(Side::Service, point::CUT_OFF);
        self.out.misfits.push(Misfit::CutOffAtPosts { run });
    }

    fn add(&mut self, run: usize, side: Side, near: &str, far: &str, parent: Option<usize>) -> usize {
        let index = self.out.branches.len();
        let behind = near == point::CUT_OFF || parent.is_some_and(|p| self.out.branches[p].behind_cut_off);
        self.out.branches.push(Branch {
            run,
            side,
            near: near.into(),
            far: far.into(),
            parent,
            children: Vec::new(),
            source_beyond: false,
            behind_cut_off: side == Side::Service && behind,
        });
        if let Some(p) = parent {
            self.out.branches[p].children.push(index);
        }
        self.out.of_run[run] = Some(index);
        match side {
            Side::Service => self.out.to_point.insert(far.into(), index),
            Side::Feed => self.out.to_feed_point.insert(far.into(), index),
        };
        index
    }

    fn left_over(&mut self) {
        for run in 0..self.plan.runs.len() {
            if self.usable[run] && self.out.of_run[run].is_none() {
                self.out.misfits.push(Misfit::Loose { run });
            }
        }
    }

    fn mark_sources(&mut self) {
        let plan = self.plan;
        let mut sources: Vec<&str> = vec![point::CHARGER];
        if plan.solar.array.get() > 0.0 {
            sources.push(&plan.solar.at);
        }
        if plan.mains.current.get() > 0.0 {
            sources.push(&plan.mains.at);
        }
        for source in sources {
            if let Some(path) = self.out.path_to(source) {
                for branch in path {
                    self.out.branches[branch].source_beyond = true;
                }
            }
        }
        // A relay passes the service battery's current back to the starter side.
        if plan.charger.kind == ChargerKind::Relay {
            for branch in self.out.feed_path().unwrap_or_default() {
                self.out.branches[branch].source_beyond = true;
            }
        }
    }

    fn loads(&mut self) {
        let plan = self.plan;
        if plan.loads.is_empty() {
            self.out.misfits.push(Misfit::NoLoads);
        }
        for (i, load) in plan.loads.iter().enumerate() {
            if load.inverter || self.out.has_point(&load.at) || self.out.to_feed_point.contains_key(&load.at) {
                continue;
            }
            let near = nearest(&load.at, self.out.to_point.keys().map(String::as_str)).map(str::to_string);
            self.out.misfits.push(Misfit::LoadLoose { load: i, near });
        }
        if plan.inverter.rating.get() > 0.0 && !self.out.has_point(&plan.inverter.at) {
            self.out.misfits.push(Misfit::InverterLoose);
        }
    }

    /// A run with nothing at or beyond its far end is live copper for no use:
    /// often one that was begun and forgotten.
    fn idle(&mut self) {
        let plan = self.plan;
        let mut used: BTreeSet<&str> =
            BTreeSet::from([point::CHARGER, point::CUT_OFF, plan.cut_off.senses_at.as_str()]);
        used.extend(plan.loads.iter().filter(|l| !l.inverter).map(|l| l.at.as_str()));
        let devices = [
            (plan.inverter.rating.get(), &plan.inverter.at),
            (plan.solar.array.get(), &plan.solar.at),
            (plan.mains.current.get(), &plan.mains.at),
        ];
        used.extend(devices.into_iter().filter(|(size, _)| *size > 0.0).map(|(_, at)| at.as_str()));
        let mut busy: Vec<bool> = self.out.branches.iter().map(|b| used.contains(b.far.as_str())).collect();
        for branch in (0..busy.len()).rev() {
            if let (true, Some(parent)) = (busy[branch], self.out.branches[branch].parent) {
                busy[parent] = true;
            }
        }
        for branch in (0..busy.len()).filter(|&b| !busy[b]) {
            let run = self.out.branches[branch].run;
            if plan.runs[run].current.is_some() {
                continue;
            }
            self.out.misfits.push(Misfit::Idle { run, far: self.out.branches[branch].far.clone() });
        }
    }

    /// The charger wants both its sides connected, the cut-off a point to watch.
    fn devices(&mut self) {
        let plan = self.plan;
        if plan.charger.kind != ChargerKind::None {
            if !self.out.to_feed_point.contains_key(point::CHARGER) {
                self.out.misfits.push(Misfit::ChargerInputLoose);
            }
            if !self.out.has_point(point::CHARGER) {
                self.out.misfits.push(Misfit::ChargerOutputLoose);
            }
        }
        if !self.out.has_point(&plan.cut_off.senses_at) {
            self.out.misfits.push(Misfit::SensingLoose);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::plan::{default_example, read};

    #[test]
    fn the_example_has_two_trees_with_the_charger_between() {
        let catalogue = Catalogue::embedded().unwrap();
        let plan = read(default_example().text, &catalogue).plan;
        let found = topology(&plan);
        assert_eq!(found.misfits, []);
        assert!(found.of_run.iter().all(Option::is_some));
        assert_eq!(found.feed_path().map(|p| p.len()), Some(1));
        let rear = found.path_to("rear panel").unwrap();
        let names: Vec<_> = rear.iter().map(|&b| found.branches[b].far.as_str()).collect();
        assert_eq!(names, ["cut-off", "rear panel"]);
        assert!(found.branches[rear[1]].behind_cut_off && !found.branches[rear[0]].behind_cut_off);
        let charger = found.path_to(point::CHARGER).unwrap();
        assert!(found.branches[charger[0]].source_beyond);
        for (i, branch) in found.branches.iter().enumerate() {
            assert!(branch.parent.is_none_or(|p| p < i), "parents come first");
        }
    }
}
