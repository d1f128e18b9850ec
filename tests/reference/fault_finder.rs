//! The fault finder against networks solved by ngspice with a bad joint planted.
//!
//! Random trees of 3 to 9 runs. Their true resistances are drawn here from
//! published ohms per kilometre (IEC 60228 class 5) within the tolerance that
//! the catalogue names, their voltages are worked out by the circuit simulator
//! (Debian package `ngspice`) and read with the errors of a hand-held meter and
//! a clamp. The finder knows only the plan and the readings. Where the readings
//! suffice it must name the run; it must never name a sound one.
//!
//! The program is run when it is there; otherwise its output stored in
//! `data/ngspice/` is read. To store anew:
//! `LOOMWRIGHT_STORE_NGSPICE=1 cargo test --test reference fault_finder`.

use crate::ngspice::{fingerprint, output, version};
use crate::program::{Verdict, design};
use loomwright::catalogue::Catalogue;
use loomwright::plan::{Load, Plan, Reading, Run, point};
use loomwright::quantity::*;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::sync::OnceLock;

crate::tests![
    the_bad_joint_is_named_when_the_readings_suffice,
    never_a_wrong_name_when_the_readings_do_not_suffice,
    two_bad_joints_are_never_one_for_certain,
    the_next_reading_narrows_it_down,
];

/// IEC 60228 class 5, plain copper, greatest ohms per kilometre at 20 °C.
const SIZES: [(&str, f64); 4] = [("4 mm²", 4.95), ("6 mm²", 3.30), ("10 mm²", 1.91), ("16 mm²", 1.21)];
/// Posts of the battery in every test.
const POSTS: f64 = 12.7;
/// Air of the test.
const AIR: f64 = 15.0;
/// Temperature coefficient of copper at 20 °C, 1/K (IEC 60028).
const ALPHA: f64 = 0.00393;

struct Trial {
    plan: Plan,
    /// True resistance of each run, the bad joints included.
    ohms: Vec<f64>,
    /// Which runs are bad, and by how much.
    bad: Vec<(usize, f64)>,
    /// Which run ends at each point: run n leads to point n, from its parent's point.
    parents: Vec<Option<usize>>,
    dice: ChaCha8Rng,
}

fn name(point: Option<usize>) -> String {
    point.map_or(point::SERVICE_BATTERY.into(), |n| format!("point {n}"))
}

fn trial(seed: u64, bad: usize) -> Trial {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let count: usize = dice.random_range(3..=9);
    let mut plan = Plan::default();
    plan.meter.air = Some(Celsius::new(AIR));
    let (mut ohms, mut parents) = (Vec::new(), Vec::new());
    for index in 0..count {
        let parent = if index == 0 { None } else { Some(dice.random_range(index.saturating_sub(3)..index)) };
        let (size, per_km) = SIZES[dice.random_range(0..SIZES.len())];
        let length = f64::from(dice.random_range(4..60)) / 10.0;
        let joints = dice.random_range(2..=6);
        plan.runs.push(Run {
            from: name(parent),
            to: name(Some(index)),
            length: Metres::new(length),
            size: Some(size.into()),
            joints,
            own_fuse: false,
            ..Run::default()
        });
        let warm = 1.0 + ALPHA * (AIR + dice.random_range(-10.0..10.0) - 20.0);
        let copper = per_km * 2.0 * length / 1000.0 * dice.random_range(0.94..1.03) * warm;
        let contacts: f64 = (0..joints).map(|_| 0.0002 * dice.random_range(0.25..1.75)).sum();
        ohms.push(copper + contacts);
        parents.push(parent);
    }
    let mut planted: Vec<(usize, f64)> = Vec::new();
    while planted.len() < bad.min(count) {
        let run = dice.random_range(0..count);
        if planted.iter().all(|b| b.0 != run) {
            let excess = 0.004 * 40f64.powf(dice.random_range(0.0..1.0));
            ohms[run] += excess;
            planted.push((run, excess));
        }
    }
    let mut trial = Trial { plan, ohms, bad: planted, parents, dice };
    let leaves = (0..count).filter(|n| !trial.parents.contains(&Some(*n)));
    for leaf in leaves.collect::<Vec<_>>() {
        let whole: f64 = trial.way(leaf).iter().map(|n| trial.ohms[*n]).sum();
        // Well below what the way can feed at all, V² / 4R.
        let most = 0.35 * POSTS * POSTS / (4.0 * whole);
        let power = trial.dice.random_range(60.0..240f64).min(most).round();
        let at = name(Some(leaf));
        trial.plan.loads.push(Load {
            name: format!("load {leaf}"),
            at,
            power: Some(Watts::new(power)),
            ..Load::default()
        });
    }
    trial
}

impl Trial {
    fn leaf(&self, load: usize) -> usize {
        self.plan.loads[load].at.trim_start_matches("point ").parse().unwrap()
    }

    /// Points from the posts to a leaf, nearest first.
    fn way(&self, leaf: usize) -> Vec<usize> {
        let mut way = vec![leaf];
        while let Some(parent) = self.parents[way[way.len() - 1]] {
            way.push(parent);
        }
        way.reverse();
        way
    }

    /// One circuit for each load alone.
    fn netlist(&self, number: usize, out: &mut String) {
        for load in 0..self.plan.loads.len() {
            let node =
                |point: Option<usize>| point.map_or(format!("p{number}x{load}"), |n| format!("n{number}x{load}x{n}"));
            writeln!(out, "v{number}x{load} p{number}x{load} 0 dc {POSTS}").unwrap();
            for point in self.way(self.leaf(load)) {
                let (near, far) = (node(self.parents[point]), node(Some(point)));
                writeln!(out, "r{number}x{load}x{point} {near} {far} {:.9}", self.ohms[point]).unwrap();
                writeln!(out, ".nodeset v({far})={POSTS}").unwrap();
            }
            let (end, power) = (node(Some(self.leaf(load))), self.plan.loads[load].power.unwrap().get());
            writeln!(out, "b{number}x{load} {end} 0 i={power}/v({end})").unwrap();
        }
    }

    /// Voltages and current of each load's test, read with a meter that is off within its bounds.
    fn read(&mut self, number: usize, answers: &BTreeMap<String, f64>, wanted: impl Fn(usize, usize) -> bool) {
        let (scale, clamp) = (1.0 + self.dice.random_range(-0.005..0.005), 1.0 + self.dice.random_range(-0.03..0.03));
        for load in 0..self.plan.loads.len() {
            let way = self.way(self.leaf(load));
            let amps = self.plan.loads[load].power.unwrap().get()
                / answers[&format!("n{number}x{load}x{}", way[way.len() - 1])];
            for point in way {
                let volts = answers[&format!("n{number}x{load}x{point}")];
                let mut meter = |v: f64| {
                    let shown = v * scale + 0.01 * self.dice.random_range(-2.0..2.0);
                    Some(Volts::new((shown * 100.0).round() / 100.0))
                };
                let (posts, voltage) = (meter(POSTS), meter(volts));
                let shown = amps * clamp + self.dice.random_range(-0.1..0.1);
                let reading = Reading {
                    at: name(Some(point)),
                    with: self.plan.loads[load].name.clone(),
                    voltage,
                    posts,
                    current: Some(Amps::new((shown * 10.0).round() / 10.0)),
                };
                if wanted(load, point) {
                    self.plan.readings.push(reading);
                }
            }
        }
    }

    fn verdict(&self, catalogue: &Catalogue) -> Verdict {
        design(&self.plan, catalogue).test_sheet().service.clone()
    }

    /// Whether full readings suffice for this excess, by a rule of thumb that knows nothing of the finder:
    /// with a load beyond it, the excess drops more than four meter bounds (two at each end of the run)
    /// and a tenth of the way's whole drop.
    fn suffices(&self, answers: &BTreeMap<String, f64>, number: usize, (run, excess): (usize, f64)) -> bool {
        (0..self.plan.loads.len()).any(|load| {
            let way = self.way(self.leaf(load));
            let end = answers[&format!("n{number}x{load}x{}", way[way.len() - 1])];
            let amps = self.plan.loads[load].power.unwrap().get() / end;
            way.contains(&run) && amps * excess >= 4.0 * 0.02 + 0.1 * (POSTS - end)
        })
    }
}

/// A third is for readings that suffice, a third with some left out, a third with two bad joints or none.
fn trials() -> Vec<Trial> {
    let single = (0..300).map(|seed| trial(seed, 1));
    let double = (300..360).map(|seed| trial(seed, 2));
    single.chain(double).chain((360..420).map(|seed| trial(seed, 0))).collect()
}

/// Node voltages of all circuits, worked out once.
fn answers() -> &'static BTreeMap<String, f64> {
    static ANSWERS: OnceLock<BTreeMap<String, f64>> = OnceLock::new();
    ANSWERS.get_or_init(|| solve(&trials()))
}

fn solve(trials: &[Trial]) -> BTreeMap<String, f64> {
    let mut netlist = String::from("* test loads on trees of runs, some with a bad joint: volts, amps, ohms\n");
    trials.iter().enumerate().for_each(|(n, t)| t.netlist(n, &mut netlist));
    netlist.push_str(".options reltol=1e-9 abstol=1e-12 vntol=1e-12 itl1=1000\n");
    netlist.push_str(".control\nop\nset numdgt=9\nprint all\n.endc\n.end\n");
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/data/ngspice/bad_joints.txt");
    let print = fingerprint(&netlist);
    if let Some(version) = version() {
        let found = read(&output(&netlist));
        if std::env::var_os("LOOMWRIGHT_STORE_NGSPICE").is_some() {
            let mut text = format!(
                "# Node voltages by {version} (Debian package ngspice), circuits of tests/reference/fault_finder.rs\nnetlist {print}\n"
            );
            found.iter().for_each(|(node, volts)| writeln!(text, "{node} = {volts:.6}").unwrap());
            std::fs::write(&file, text).unwrap();
        }
        return found;
    }
    let text = std::fs::read_to_string(&file).unwrap();
    assert!(text.contains(&format!("netlist {print}\n")), "the stored output is of another netlist; store it anew");
    read(&text)
}

/// Lines `n3x0x2 = 12.34`.
fn read(text: &str) -> BTreeMap<String, f64> {
    let lines = text.lines().filter_map(|l| l.split_once('='));
    let pairs = lines.map(|(name, value)| (name.trim().to_string(), value.trim().parse()));
    pairs.filter(|(name, _)| name.starts_with('n')).filter_map(|(name, value)| Some((name, value.ok()?))).collect()
}

#[derive(Debug, Default)]
struct Score {
    tried: usize,
    named: usize,
    unclear: usize,
    missed: usize,
    wrong: Vec<String>,
    /// Largest error of the milliohms named, in standard errors.
    off: f64,
}

impl Score {
    fn note(&mut self, number: usize, trial: &Trial, verdict: &Verdict) {
        self.tried += 1;
        let bad = |run: usize| trial.bad.iter().find(|b| b.0 == run);
        let mut wrong = |what: String| self.wrong.push(format!("trial {number}: {what}, planted {:?}", trial.bad));
        match verdict {
            Verdict::Bad { fault, .. } => match bad(fault.run) {
                Some((_, excess)) => {
                    self.named += 1;
                    self.off = self.off.max((fault.excess.get() - excess).abs() / fault.error.get());
                }
                None => wrong(format!("named R{} with {}", fault.run + 1, fault.excess)),
            },
            Verdict::BadTwice(a, b) => {
                if bad(a.run).is_some() && bad(b.run).is_some() {
                    self.named += 1;
                } else {
                    wrong(format!("named R{} and R{}", a.run + 1, b.run + 1));
                }
            }
            Verdict::Unclear { candidates, .. } => {
                self.unclear += 1;
                if !candidates.iter().any(|c| bad(c.run).is_some()) {
                    wrong(format!("candidates {:?}", candidates.iter().map(|c| c.run).collect::<Vec<_>>()));
                }
            }
            Verdict::Sound { .. } | Verdict::Nothing | Verdict::Dead(_) | Verdict::Contradiction => self.missed += 1,
        }
    }
}

/// All trials with all readings.
fn the_bad_joint_is_named_when_the_readings_suffice() {
    let (catalogue, mut trials) = (Catalogue::embedded().unwrap(), trials());
    let answers = answers();
    let (mut enough, mut others, mut twice) = (Score::default(), Score::default(), Score::default());
    for (number, trial) in trials.iter_mut().enumerate() {
        let suffices = trial.bad.first().is_some_and(|b| trial.suffices(answers, number, *b));
        trial.read(number, answers, |_, _| true);
        let verdict = trial.verdict(&catalogue);
        match trial.bad.len() {
            1 if suffices => enough.note(number, trial, &verdict),
            1 => others.note(number, trial, &verdict),
            2 => twice.note(number, trial, &verdict),
            _ => assert!(matches!(verdict, Verdict::Sound { .. }), "trial {number} is sound: {verdict:?}"),
        }
    }
    println!("suffice {enough:?}\nsmaller {others:?}\ntwo bad {twice:?}");
    assert!(enough.tried >= 120, "only {} trials suffice", enough.tried);
    assert!(enough.named * 100 >= enough.tried * 95, "{enough:?}");
    for score in [&enough, &others, &twice] {
        assert!(score.wrong.is_empty(), "{score:?}");
    }
    assert!(enough.off < 4.0, "milliohms off by {} standard errors", enough.off);
}

/// All trials with one bad joint again, with most readings left out: silence and doubt are fine, a wrong name is not.
fn never_a_wrong_name_when_the_readings_do_not_suffice() {
    let (catalogue, answers) = (Catalogue::embedded().unwrap(), answers());
    let leave: [fn(usize, usize, usize) -> bool; 3] = [
        // Only the far ends.
        |_, _, ends| ends == 1,
        // Only the first load.
        |load, _, _| load == 0,
        // Every second point.
        |_, point, _| point % 2 == 0,
    ];
    for (n, kept) in leave.iter().enumerate() {
        let mut score = Score::default();
        let mut next = (0, 0);
        for (number, trial) in trials().iter_mut().enumerate().filter(|(_, t)| t.bad.len() == 1) {
            let leaves: Vec<usize> = (0..trial.plan.loads.len()).map(|l| trial.leaf(l)).collect();
            trial.read(number, answers, |load, point| kept(load, point, usize::from(leaves[load] == point)));
            let verdict = trial.verdict(&catalogue);
            score.note(number, trial, &verdict);
            if let Verdict::Unclear { next: reading, .. } = &verdict {
                next = (next.0 + usize::from(reading.is_some()), next.1 + 1);
            }
        }
        println!("left out {n}: {score:?}; next reading offered {} of {}", next.0, next.1);
        assert!(score.wrong.is_empty(), "{score:?}");
        assert!(score.unclear + score.missed > 100, "little was unclear, so the test says little: {score:?}");
    }
}

/// Two bad joints seen from the far ends alone may look like one: then the name comes with what else it could be.
fn two_bad_joints_are_never_one_for_certain() {
    let (catalogue, answers) = (Catalogue::embedded().unwrap(), answers());
    let (mut tried, mut doubted) = (0, 0);
    for (number, trial) in trials().iter_mut().enumerate().filter(|(_, t)| t.bad.len() == 2) {
        let leaves: Vec<usize> = (0..trial.plan.loads.len()).map(|l| trial.leaf(l)).collect();
        trial.read(number, answers, |load, point| leaves[load] == point);
        tried += 1;
        if let Verdict::Bad { fault, unless, .. } = trial.verdict(&catalogue) {
            let right = trial.bad.iter().any(|b| b.0 == fault.run);
            assert!(right || unless.is_some(), "trial {number}: {fault:?}, planted {:?}", trial.bad);
            doubted += usize::from(unless.is_some());
        }
    }
    println!("two bad joints, far ends only: {tried}, of them named with a doubt {doubted}");
    assert!(tried >= 50);
}

/// The next reading that is proposed really tells the candidates apart, once taken.
fn the_next_reading_narrows_it_down() {
    let (catalogue, answers) = (Catalogue::embedded().unwrap(), answers());
    let (mut tried, mut solved) = (0, 0);
    for (number, trial) in trials().iter_mut().enumerate().filter(|(_, t)| t.bad.len() == 1) {
        let leaves: Vec<usize> = (0..trial.plan.loads.len()).map(|l| trial.leaf(l)).collect();
        trial.read(number, answers, |load, point| leaves[load] == point);
        let few = trial.plan.readings.clone();
        let Verdict::Unclear { candidates, next: Some(next), .. } = trial.verdict(&catalogue) else { continue };
        if next.test_load || !next.decides {
            continue;
        }
        // The full set holds it; take just this one more.
        trial.plan.readings.clear();
        trial.read(number, answers, |_, _| true);
        let more = trial.plan.readings.iter().find(|r| r.at == next.at && r.with == next.with).cloned().unwrap();
        trial.plan.readings = few;
        trial.plan.readings.push(more);
        tried += 1;
        match trial.verdict(&catalogue) {
            Verdict::Bad { fault, .. } => {
                assert_eq!(fault.run, trial.bad[0].0, "trial {number}");
                solved += 1;
            }
            Verdict::Unclear { candidates: left, .. } => {
                assert!(left.iter().any(|c| c.run == trial.bad[0].0), "trial {number}");
                solved += usize::from(left.len() < candidates.len());
            }
            other => assert!(!matches!(other, Verdict::BadTwice(..)), "trial {number}: {other:?}"),
        }
    }
    println!("next reading: {solved} of {tried} narrowed down");
    assert!(tried >= 20 && solved * 100 >= tried * 90, "{solved} of {tried}");
}
