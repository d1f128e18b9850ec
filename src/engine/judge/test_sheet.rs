//! What do the readings say about joints and cables?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::test_sheet::result::{
    Fault, Missing, NextReading, ReadingResult, ReadingState, TestSheet, Verdict,
};
use crate::plan::{Place, Section};
use crate::quantity::*;

const RULE: &str = "least squares on the runs' resistances, weighed by the meter's error and the cable's tolerance";

/// What the readings and the verdicts on them ask for.
pub(crate) fn check(site: &Installation, sheet: &TestSheet) -> Vec<Finding> {
    let mut findings = Vec::new();
    for result in &sheet.readings {
        let place = |key| Place { section: Section::Reading, index: result.reading, key };
        let number = result.reading + 1;
        let finding = match &result.state {
            ReadingState::Unusable(why) => Finding::new(Kind::ReadingLoose, Subject::TestSheet, {
                format!("reading {number} cannot be used: {why}")
            })
            .rule("a reading needs a point that a run reaches and something that draws current")
            .at(place("at"))
            .remedy(format!("correct the point or the load of reading {number}, or take it out")),
            ReadingState::Waiting(what) => {
                let key = match what {
                    Missing::Voltage => "voltage_v",
                    Missing::Current => "current_a",
                    Missing::Posts => "posts_v",
                };
                let what = what.words();
                Finding::new(
                    Kind::ReadingIncomplete,
                    Subject::TestSheet,
                    format!("reading {number} waits for its {what}"),
                )
                .rule("drop = posts less point, at one current")
                .at(place(key))
                .remedy(format!("fill in the {what} of reading {number}"))
            }
            ReadingState::Compared if result.within == Some(false) => match outside(site, result) {
                Some(finding) => finding.at(place("voltage_v")),
                None => continue,
            },
            _ => continue,
        };
        findings.push(finding);
    }
    findings.extend(unbuilt(site, sheet));
    for verdict in [&sheet.service, &sheet.feed] {
        findings.extend(Judge { site, sheet }.verdict(verdict));
    }
    findings
}

/// A size that the program chose follows the plan; what was measured is a cable that stays.
fn unbuilt(site: &Installation, sheet: &TestSheet) -> Option<Finding> {
    let used = sheet.readings.iter().any(|r| matches!(r.state, ReadingState::Used | ReadingState::Compared));
    let free: Vec<usize> = (0..site.runs.len()).filter(|&i| site.runs[i].size.is_none()).collect();
    let (Some(&first), true) = (free.first(), used) else { return None };
    let text = format!(
        "the readings are compared with the planned sizes, and {} of {} are still chosen by the program",
        free.len(),
        site.runs.len()
    );
    Some(
        Finding::new(Kind::ReadingUnbuilt, Subject::TestSheet, text)
            .rule("a change of the plan changes a size that is not given, and with it what a reading should be")
            .at(Place::run(first, "size"))
            .remedy(format!("give each run the size that was built, beginning with {}", site.run_number(first))),
    )
}

/// A reading with all loads on cannot name a run, but it can be wrong.
fn outside(site: &Installation, result: &ReadingResult) -> Option<Finding> {
    let (drop, band) = (result.drop?, result.expected?);
    let at = &site.readings.get(result.reading)?.at;
    let (least, most) = (band.low.max(Volts::ZERO), band.high);
    let text = format!("with all loads on {drop} are lost on the way to `{at}`, {least} to {most} would be sound");
    let finding = Finding::new(Kind::ReadingOutside, Subject::TestSheet, text)
        .rule("Ohm's law over the runs of the way; the band is two standard errors of cable, joints, meter and loads");
    Some(finding.remedy(format!("read `{at}` and the posts again with one load on at a time, which tells the run")))
}

struct Judge<'a> {
    site: &'a Installation,
    sheet: &'a TestSheet,
}

impl Judge<'_> {
    fn verdict(&self, verdict: &Verdict) -> Vec<Finding> {
        match verdict {
            Verdict::Nothing | Verdict::Sound { .. } => Vec::new(),
            Verdict::Dead(dead) => {
                let names: Vec<String> = dead.runs.iter().map(|r| run_name(&self.site.runs, *r)).collect();
                vec![
                    Finding::new(Kind::ReadingsContradict, Subject::TestSheet, dead.words(&names))
                        .rule("what has less than half of the posts' voltage hangs on no sound wiring")
                        .remedy("look at fuses and switches on the way first; `loomwright fault` leads from reading to reading"),
                ]
            }
            Verdict::Contradiction => {
                let used = self.sheet.readings.iter().filter(|r| r.state == ReadingState::Used).count();
                let text =
                    format!("no bad joint explains the {used} readings: one may be wrong, or something else was on");
                vec![
                    Finding::new(Kind::ReadingsContradict, Subject::TestSheet, text)
                        .rule(RULE)
                        .remedy("read posts and point again at the same moment, one load on, the rest off")
                        .remedy("if they stay so it is no joint: `loomwright fault` looks for what else it can be"),
                ]
            }
            Verdict::Bad { fault, unless, next } => {
                let mut finding = self.bad(fault);
                if let Some((a, b)) = unless {
                    let (a, b) = (run_name(&self.site.runs, *a), run_name(&self.site.runs, *b));
                    finding =
                        finding.remedy(format!("if instead both {a} and {b} are bad (2 joints), it reads the same"));
                }
                if let Some(next) = next {
                    finding = finding.remedy(self.next_words(next));
                }
                vec![finding]
            }
            Verdict::BadTwice(a, b) => vec![self.bad(a), self.bad(b)],
            Verdict::Unclear { candidates, several, next } => {
                vec![self.unclear(candidates, *several, next.as_ref())]
            }
        }
    }

    fn bad(&self, fault: &Fault) -> Finding {
        let name = run_name(&self.site.runs, fault.run);
        let text = format!(
            "{name} has {} (±{}) more than it should: {} of heat in that joint at the {} read, {} at {}, then about {} hotter than around it",
            fault.excess,
            fault.bound(),
            fault.heat,
            fault.current,
            fault.full_heat,
            fault.full,
            fault.warming
        );
        let hot = self.site.catalogue.rules.joint_heat.value;
        let severity = if fault.full_heat >= hot { Severity::Stop } else { Severity::Caution };
        let mut finding = Finding::new(Kind::JointBad, Subject::Run(fault.run), text)
            .as_severity(severity)
            .rule(format!("{RULE}; {hot} in one joint harms: {}", self.site.catalogue.rules.joint_heat.from.words()));
        for (n, look) in fault.look_at.iter().enumerate() {
            finding = finding.remedy(format!("{}. look at {look}", n + 1));
        }
        if fault.readings < 2 {
            finding = finding.remedy("only one reading sees this run: read it again before taking it apart");
        }
        finding
    }

    fn unclear(&self, candidates: &[Fault], several: bool, next: Option<&NextReading>) -> Finding {
        let each: Vec<String> =
            candidates.iter().map(|f| format!("{} ({})", run_name(&self.site.runs, f.run), f.excess)).collect();
        let what = if several { "at least two joints are bad, among" } else { "a joint is bad, in one of" };
        let finding =
            Finding::new(Kind::JointUnclear, Subject::TestSheet, format!("{what}: {}", each.join(", "))).rule(RULE);
        match next {
            Some(next) => finding.remedy(self.next_words(next)),
            None => finding.remedy(
                "no reading with these loads tells them apart: take a test load of 10 A or more, or read across each joint",
            ),
        }
    }

    fn next_words(&self, next: &NextReading) -> String {
        let what = if next.test_load {
            format!("a test load of {} at `{}`", next.current, next.with)
        } else {
            format!("`{}` on ({})", next.with, next.current)
        };
        let each: Vec<String> = next
            .drops
            .iter()
            .map(|(run, drop)| format!("{drop} if it is {}", run_name(&self.site.runs, *run)))
            .collect();
        let tells = if next.decides { "tells them apart" } else { "narrows it down" };
        format!("with {what}, read `{}` and the posts, which {tells}: a drop of {}", next.at, each.join(", "))
    }
}
