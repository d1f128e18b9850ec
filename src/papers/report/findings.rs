//! What the builder must know first: the findings, worst first.

use crate::engine::installation::Installation;
use crate::engine::{Finding, Severity};
use crate::papers::document::{Block, Document, Notice};
use crate::papers::job::Job;

const RULE: &str = "rule";

/// All findings as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    paper.heading(1, "Findings");
    if job.design.has_stop() {
        paper.paragraph("Do not build this plan as it is: at least one finding below says STOP.");
    }
    paper.blocks.extend(findings(job, Severity::Note).map(Block::Notice));
    paper.blocks.extend(everywhere(&job.design.findings).map(Block::Paragraph));
    if job.design.findings.is_empty() {
        paper.paragraph("Nothing to object to.");
    }
}

/// The findings down to a severity, as notices.
pub fn findings<'a>(job: &'a Job, down_to: Severity) -> impl Iterator<Item = Notice> + 'a {
    let told = job.design.findings.iter().filter(move |f| f.severity <= down_to && !f.everywhere());
    notices(told, &job.design.installation).map(|(_, notice)| notice)
}

/// Findings one below the other: a rule that the one above has too is not said again.
pub fn notices<'a>(
    findings: impl Iterator<Item = &'a Finding> + 'a,
    site: &'a Installation,
) -> impl Iterator<Item = (&'a Finding, Notice)> + 'a {
    let mut above = "";
    findings.map(move |finding| {
        let mut notice = finding_notice(finding, site);
        let again = finding.rule == above;
        above = &finding.rule;
        for (_, words) in notice.lines.iter_mut().filter(|line| again && line.0 == RULE) {
            *words = "as above".into();
        }
        (finding, notice)
    })
}

/// What stands on every plan, in one line.
pub fn everywhere(findings: &[Finding]) -> Option<String> {
    let said: Vec<&str> = findings.iter().filter(|f| f.everywhere()).map(|f| f.text.as_str()).collect();
    (!said.is_empty()).then(|| format!("As on every plan: {}.", said.join("; ")))
}

/// One finding: its sentence, what it is about, its rule and what helps.
fn finding_notice(finding: &Finding, site: &Installation) -> Notice {
    let mut lines = vec![("about".to_string(), site.name_of(&finding.subject))];
    if !finding.rule.is_empty() {
        lines.push((RULE.into(), finding.rule.clone()));
    }
    lines.extend(finding.remedies.iter().map(|r| ("remedy".to_string(), r.says())));
    Notice { severity: finding.severity, text: finding.text.clone(), lines }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::FindingKind as Kind;
    use crate::engine::Subject;

    #[test]
    fn a_rule_is_said_once_of_those_that_follow_each_other() {
        let of = |rule: &str| Finding::new(Kind::FuseBreaking, Subject::Run(0), "too little").rule(rule);
        let all = [of("one rule"), of("one rule"), of("another"), of("one rule"), of(""), of("")];
        let site = Installation::default();
        let rules = notices(all.iter(), &site).map(|(_, notice)| {
            let rule = notice.lines.into_iter().find(|line| line.0 == RULE);
            rule.map_or(String::new(), |line| line.1)
        });
        assert_eq!(rules.collect::<Vec<_>>(), ["one rule", "as above", "another", "one rule", "", ""]);
    }
}
