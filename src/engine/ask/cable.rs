//! A quick question without a plan: which size for this current and length?
//!
//! Answered by a plan of one run, so that it cannot differ from what the plan
//! of a whole vehicle would say.

use crate::catalogue::{Catalogue, Conductor};
use crate::engine::choose::circuit::sizing::size_runs;
use crate::engine::installation::Installation;
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::working::{Notes, Workings};
use crate::engine::judge::circuit;
use crate::engine::judge::finding::Finding;
use crate::engine::judge::harm::worst_first;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::{RunDesign, SizeRow};
use crate::plan::{ChargerKind, Load, LoadKind, Plan, ReturnPath, Run, SizeFamily, Start, point};
use crate::quantity::*;

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct CableQuestion {
    /// Steady current.
    pub current: Amps,
    /// One way.
    pub length: Metres,
    /// Most that may be lost, as a share of 12 V.
    pub drop: Share,
    /// Insulation class by its key.
    pub insulation: String,
    /// What it runs through, by its key.
    pub place: String,
    /// Air along it; the place's, with the usual hottest air, when `None`.
    pub air: Option<Celsius>,
    /// Other loaded cables in the bundle.
    pub bundled_with: u32,
    /// Which sizes may be used.
    pub sizes: SizeFamily,
    /// A size to check, by its label.
    pub size: Option<String>,
    /// It is on for so long, then off for so long.
    pub cycle: Option<(Seconds, Seconds)>,
    /// Multiple of the current at the start, and how long.
    pub start: Option<(f64, Seconds)>,
    /// Crimped joints in the loop.
    pub joints: u32,
    /// Whether it has a fuse, whose own resistance then counts.
    pub fused: bool,
    /// The vehicle's body brings the current back.
    pub chassis: bool,
}

impl Default for CableQuestion {
    fn default() -> Self {
        let run = Run::default();
        CableQuestion {
            current: Amps::new(10.0),
            length: Metres::new(5.0),
            drop: Share::percent(3.0),
            insulation: run.insulation,
            place: run.surroundings,
            air: None,
            bundled_with: 0,
            sizes: SizeFamily::Metric,
            size: None,
            cycle: None,
            start: None,
            joints: run.joints,
            fused: true,
            chassis: false,
        }
    }
}

/// The answer: one run, with all that the whole design would say of it.
#[derive(Clone, Debug, Default)]
pub struct CableAnswer {
    /// What was asked.
    pub question: CableQuestion,
    /// The one run that was asked.
    pub site: Installation,
    /// Size, every size side by side, and the inverse answers.
    pub run: RunDesign,
    /// The smallest size whose conductor alone, at 20 °C, loses no more: what tables of drop say. No heat, no joint,
    /// no fuse is in it.
    pub alone: Option<String>,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// How each number came about.
    pub workings: Workings,
}

impl CableAnswer {
    /// The size to take: one that the question gives, or one that fails nothing.
    pub fn take(&self) -> Option<&SizeRow> {
        self.run.size.as_ref().filter(|s| s.fails.is_empty() || self.run.pinned)
    }
}

/// Size one cable.
pub fn cable_question(catalogue: &Catalogue, question: &CableQuestion) -> CableAnswer {
    let plan = plan_of(question);
    let site = Installation::of(&plan, catalogue);
    let mut notes = Notes::kept();
    let mut findings = circuit::topology::check(&site);
    let (budget, battery, charger) = (Budget::default(), BatteryDesign::default(), ChargerDesign::default());
    let (mut sizing, known) = size_runs(&site, &budget, &battery, &charger, None, &mut notes);
    findings.extend(known.iter().flat_map(|(known, _)| circuit::check(known, &sizing)));
    drop(known);
    let run = if sizing.runs.is_empty() { RunDesign::default() } else { sizing.runs.swap_remove(0) };
    worst_first(&mut findings);
    let alone = alone(&site, question);
    CableAnswer { question: question.clone(), site, run, alone, findings, workings: notes.into_workings() }
}

/// I L R' n ≤ limit, with R' as published at 20 °C and n = 2 with a conductor back.
fn alone(site: &Installation, question: &CableQuestion) -> Option<String> {
    let ways = if question.chassis { 1.0 } else { 2.0 };
    let limit = NOMINAL * question.drop.get();
    let drop = |c: &&Conductor| question.current * (c.resistance * (question.length * ways)) <= limit;
    site.catalogue.sizes(site.family()).find(drop).map(|c| c.label.clone())
}

fn plan_of(question: &CableQuestion) -> Plan {
    let mut plan = Plan::default();
    // One cable from a battery: nothing else is there to be missed.
    plan.charger.kind = ChargerKind::None;
    plan.cut_off.senses_at = point::SERVICE_BATTERY.into();
    let (times, lasts) = question.start.unwrap_or((1.0, Seconds::ZERO));
    plan.rules.drop_ordinary = Some(question.drop);
    plan.rules.sizes = question.sizes;
    plan.runs.push(Run {
        name: "cable".into(),
        from: point::SERVICE_BATTERY.into(),
        to: "load".into(),
        length: question.length,
        size: question.size.clone(),
        insulation: question.insulation.clone(),
        surroundings: question.place.clone(),
        air: question.air,
        bundled_with: question.bundled_with,
        return_path: if question.chassis { ReturnPath::Chassis } else { ReturnPath::Cable },
        own_fuse: question.fused,
        joints: question.joints,
        ..Run::default()
    });
    plan.loads.push(Load {
        name: "load".into(),
        at: "load".into(),
        current: Some(question.current),
        kind: LoadKind::ConstantCurrent,
        start: Start { times, lasts },
        on: question.cycle.map(|c| c.0),
        off: question.cycle.map(|c| c.1),
        ..Load::default()
    });
    plan
}
