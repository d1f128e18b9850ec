//! Growing the trees from both batteries, and saying what does not fit.

use crate::engine::installation::circuits::{Branch, Side, Topology};
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind};
use crate::plan::{ChargerKind, Place, Plan, Section, Value, nearest, point};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Find the trees, and what does not fit into them.
pub fn topology(plan: &Plan) -> (Topology, Vec<Finding>) {
    let mut grow = Grow::new(plan);
    grow.tree(Side::Service, point::SERVICE_BATTERY);
    grow.cut_off_at_posts();
    grow.tree(Side::Feed, point::STARTER_BATTERY);
    grow.left_over();
    grow.mark_sources();
    grow.loads();
    grow.idle();
    grow.devices();
    (grow.out, grow.findings)
}

struct Grow<'a> {
    plan: &'a Plan,
    /// Runs that have two different ends.
    usable: Vec<bool>,
    /// Runs at each point.
    at: BTreeMap<&'a str, Vec<usize>>,
    out: Topology,
    findings: Vec<Finding>,
}

impl<'a> Grow<'a> {
    fn new(plan: &'a Plan) -> Self {
        let mut at: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        let mut findings = Vec::new();
        let mut usable = vec![true; plan.runs.len()];
        for (i, run) in plan.runs.iter().enumerate() {
            let key = if run.from.is_empty() { "from" } else { "to" };
            if run.from.is_empty() || run.to.is_empty() || run.from == run.to {
                usable[i] = false;
                let what = if run.from == run.to { "begins and ends at the same point" } else { "leads nowhere" };
                findings.push(
                    Finding::new(Kind::RunNowhere, Subject::Run(i), format!("{} {what}", run_name(&plan.runs, i)))
                        .rule("every run joins two points")
                        .at(Place::run(i, key))
                        .remedy(format!(
                            "name the point at its other end, one of the {} in the plan or a new one",
                            plan.runs.len() + 1
                        )),
                );
                continue;
            }
            at.entry(&run.from).or_default().push(i);
            at.entry(&run.to).or_default().push(i);
        }
        let out = Topology { of_run: vec![None; plan.runs.len()], ..Topology::default() };
        Grow { plan, usable, at, out, findings }
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
                    self.looped(run, far, other_battery);
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
        self.findings.push(
            Finding::new(
                Kind::CutOffLoose,
                Subject::CutOff,
                "no run joins the service battery to the cut-off; it is taken to sit at the posts",
            )
            .rule("the drop between the posts and the cut-off counts too")
            .at(Place::run(run, "from"))
            .remedy(format!(
                "add 1 run from `{}` to `{}` with its length",
                point::SERVICE_BATTERY,
                point::CUT_OFF
            )),
        );
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

    fn looped(&mut self, run: usize, far: &str, battery: bool) {
        self.usable[run] = false;
        let name = run_name(&self.plan.runs, run);
        let text = if battery {
            format!("{name} joins both batteries without the charger between them")
        } else {
            format!("{name} is a second way to `{far}`")
        };
        self.findings.push(
            Finding::new(Kind::RunLoop, Subject::Run(run), text)
                .rule("runs form a tree from each battery; a loop would share its current by chance and pass a fuse by")
                .at(Place::run(run, "to"))
                .remedy(format!("take out run R{} or lead it to another point", run + 1)),
        );
    }

    fn left_over(&mut self) {
        for run in 0..self.plan.runs.len() {
            if self.usable[run] && self.out.of_run[run].is_none() {
                let name = run_name(&self.plan.runs, run);
                let text = format!("{name} hangs together with neither battery");
                self.findings.push(
                    Finding::new(Kind::RunLoose, Subject::Run(run), text)
                        .rule(format!(
                            "every run must be reached from `{}` or `{}`",
                            point::SERVICE_BATTERY,
                            point::STARTER_BATTERY
                        ))
                        .at(Place::run(run, "from"))
                        .remedy(format!(
                            "let R{} begin at a point that another run reaches; mind the spelling",
                            run + 1
                        )),
                );
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
            self.findings.push(
                Finding::new(Kind::NoLoads, Subject::Plan, "there is nothing to feed yet")
                    .rule("a battery is sized from what uses its energy")
                    .remedy("add at least 1 load"),
            );
        }
        for (i, load) in plan.loads.iter().enumerate() {
            if load.inverter || self.out.has_point(&load.at) || self.out.to_feed_point.contains_key(&load.at) {
                continue;
            }
            let text = if load.at.is_empty() {
                format!("{} is connected to no point", load.name)
            } else {
                format!("{} is at `{}`, which no run reaches", load.name, load.at)
            };
            let known = self.out.to_point.keys().map(String::as_str);
            let near = nearest(&load.at, known).map(str::to_string);
            let finding = Finding::new(Kind::LoadLoose, Subject::Load(i), text)
                .rule("every load hangs on a point that a run reaches")
                .at(Place::load(i, "at"));
            self.findings.push(match near {
                Some(near) => {
                    let value = Value::Text(near.clone());
                    finding.remedy_edit(
                        format!("connect it to `{near}`, where {} ends", self.run_to(&near)),
                        Place::load(i, "at"),
                        Some(value),
                    )
                }
                None if load.at.is_empty() => finding.remedy(format!(
                    "name the point it hangs on; the plan's {} runs end at such points",
                    plan.runs.len()
                )),
                None => finding
                    .remedy(format!("add 1 run that ends at `{}`, or connect it where another run ends", load.at)),
            });
        }
        if plan.inverter.rating.get() > 0.0 && !self.out.has_point(&plan.inverter.at) {
            self.findings.push(
                Finding::new(
                    Kind::LoadLoose,
                    Subject::Inverter,
                    format!("the inverter is at `{}`, which no run reaches", plan.inverter.at),
                )
                .rule("the inverter hangs on a point that a run reaches")
                .at(Place::of(Section::Inverter, "at"))
                .remedy("add 1 run that ends at the inverter's point"),
            );
        }
    }

    /// `R4`, the run that ends at a point of the service side.
    fn run_to(&self, name: &str) -> String {
        let branch = self.out.to_point.get(name).and_then(|&b| self.out.branches.get(b));
        branch.map_or_else(|| "1 run".into(), |b| format!("R{}", b.run + 1))
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
            let text = format!(
                "{} feeds nothing: no load, charger or other device is at or beyond `{}`",
                run_name(&plan.runs, run),
                self.out.branches[branch].far
            );
            self.findings.push(
                Finding::new(Kind::RunIdle, Subject::Run(run), text)
                    .rule("a live cable that ends in nothing can chafe and short without ever being missed")
                    .at(Place::run(run, "to"))
                    .remedy(format!(
                        "take R{} out, connect a load to its end, or say what current it is to be sized for",
                        run + 1
                    )),
            );
        }
    }

    /// The charger wants both its sides connected, the cut-off a point to watch.
    fn devices(&mut self) {
        let plan = self.plan;
        if plan.charger.kind != ChargerKind::None {
            let sides = [
                (self.out.to_feed_point.contains_key(point::CHARGER), point::STARTER_BATTERY, "input"),
                (self.out.has_point(point::CHARGER), point::SERVICE_BATTERY, "output"),
            ];
            for (_, battery, side) in sides.into_iter().filter(|(connected, ..)| !connected) {
                let text = format!("no run joins the charger's {side} to the {battery}");
                self.findings.push(
                    Finding::new(Kind::ChargerLoose, Subject::Charger, text)
                        .rule(format!(
                            "the charger stands between `{}` and `{}`",
                            point::STARTER_BATTERY,
                            point::SERVICE_BATTERY
                        ))
                        .at(Place::of(Section::Charger, "kind"))
                        .remedy(format!(
                            "add 1 run from `{battery}` to `{}`, or set the charger to none",
                            point::CHARGER
                        )),
                );
            }
        }
        let sensing = &plan.cut_off.senses_at;
        if !self.out.has_point(sensing) {
            let place = Place::of(Section::CutOff, "senses_at");
            let posts = Value::Text(point::SERVICE_BATTERY.into());
            self.findings.push(
                Finding::new(
                    Kind::SensingLoose,
                    Subject::CutOff,
                    format!("the cut-off watches `{sensing}`, which no run reaches"),
                )
                .rule("the voltage it watches must be that of a point of the plan; until then the posts are taken")
                .at(place)
                .remedy_edit(
                    "let it watch the posts, with 0 m of cable between".to_string(),
                    place,
                    Some(posts),
                ),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::plan::{default_example, read};

    const HEAD: &str = "format = 1\n[service_battery]\nchemistry = \"agm\"\n[charger]\nkind = \"none\"\n[cut_off]\nsenses_at = \"service battery\"\n";

    fn run(from: &str, to: &str) -> String {
        format!("[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = 1\n")
    }

    fn load(at: &str) -> String {
        format!("[[load]]\nname = \"lamp at {at}\"\nat = \"{at}\"\npower_w = 5\n")
    }

    /// The kinds found in a plan of these parts, in order, each once.
    #[track_caller]
    fn kinds(parts: &[String]) -> Vec<Kind> {
        let catalogue = Catalogue::embedded().unwrap();
        let text = format!("{HEAD}{}", parts.concat());
        let read = read(&text, &catalogue);
        assert_eq!(read.problems, [], "{text}");
        let (_, findings) = topology(&read.plan);
        for finding in &findings {
            assert!(!finding.remedies.is_empty() && !finding.rule.is_empty(), "{finding:?}");
            assert!(finding.remedies.iter().all(|r| r.words.chars().any(|c| c.is_ascii_digit())), "{finding:?}");
        }
        let mut kinds: Vec<_> = findings.iter().map(|f| f.kind).collect();
        kinds.dedup();
        kinds
    }

    fn sound() -> Vec<String> {
        vec![run("service battery", "cut-off"), run("cut-off", "panel"), load("panel")]
    }

    #[test]
    fn a_sound_plan_has_no_findings() {
        assert_eq!(kinds(&sound()), []);
    }

    #[test]
    fn what_does_not_hang_together_is_found_and_the_rest_stands() {
        let with = |more: &[String]| kinds(&[sound(), more.to_vec()].concat());
        assert_eq!(with(&[run("cut-off", "")]), [Kind::RunNowhere]);
        assert_eq!(with(&[run("panel", "panel")]), [Kind::RunNowhere]);
        assert_eq!(with(&[run("lost", "found")]), [Kind::RunLoose]);
        assert_eq!(with(&[run("service battery", "panel")]), [Kind::RunLoop], "two runs into one point");
        assert_eq!(
            with(&[run("panel", "a"), run("a", "b"), run("b", "panel"), load("a"), load("b")]),
            [Kind::RunLoop],
            "a loop of runs"
        );
        assert_eq!(with(&[run("panel", "starter battery")]), [Kind::RunLoop], "both batteries joined");
        assert_eq!(with(&[run("panel", "spare")]), [Kind::RunIdle], "a run that feeds nothing");
        assert_eq!(with(&[load("pannel")]), [Kind::LoadLoose]);
        assert_eq!(with(&[load("")]), [Kind::LoadLoose]);
        assert_eq!(kinds(&[run("service battery", "cut-off")]), [Kind::NoLoads]);
    }

    /// Runs that begin at the cut-off with none that leads to it: it sits at the posts.
    #[test]
    fn a_cut_off_without_a_run_sits_at_the_posts() {
        assert_eq!(kinds(&[run("cut-off", "panel"), load("panel")]), [Kind::CutOffLoose]);
        assert_eq!(kinds(&sound()), []);
    }

    #[test]
    fn devices_want_their_connections() {
        let catalogue = Catalogue::embedded().unwrap();
        let text = format!("{HEAD}{}", sound().concat())
            .replace("kind = \"none\"", "kind = \"dc-dc\"")
            .replace("senses_at = \"service battery\"", "senses_at = \"elsewhere\"");
        let (_, findings) = topology(&read(&text, &catalogue).plan);
        let kinds: Vec<_> = findings.iter().map(|f| f.kind).collect();
        assert_eq!(kinds, [Kind::ChargerLoose, Kind::ChargerLoose, Kind::SensingLoose]);
    }

    #[test]
    fn runs_are_taken_in_any_order_and_direction() {
        let forward = kinds(&[run("service battery", "a"), run("a", "b"), run("b", "c"), load("c")]);
        let backward = kinds(&[load("c"), run("c", "b"), run("b", "a"), run("a", "service battery")]);
        assert_eq!(forward, backward);
    }

    #[test]
    fn the_example_has_two_trees_with_the_charger_between() {
        let catalogue = Catalogue::embedded().unwrap();
        let plan = read(default_example().text, &catalogue).plan;
        let (found, findings) = topology(&plan);
        assert_eq!(findings, []);
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
