//! What the builder must know first: the findings, worst first.

use crate::engine::installation::Installation;
use crate::engine::{Finding, Severity};
use crate::papers::document::{Block, Document, Notice};
use crate::papers::job::Job;

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
    job.design
        .findings
        .iter()
        .filter(move |f| f.severity <= down_to && !f.everywhere())
        .map(|f| finding_notice(f, &job.design.installation))
}

/// What stands on every plan, in one line.
pub fn everywhere(findings: &[Finding]) -> Option<String> {
    let said: Vec<&str> = findings.iter().filter(|f| f.everywhere()).map(|f| f.text.as_str()).collect();
    (!said.is_empty()).then(|| format!("As on every plan: {}.", said.join("; ")))
}

/// One finding: its sentence, what it is about, its rule and what helps.
pub fn finding_notice(finding: &Finding, site: &Installation) -> Notice {
    let mut lines = vec![("about".to_string(), site.name_of(&finding.subject))];
    if !finding.rule.is_empty() {
        lines.push(("rule".into(), finding.rule.clone()));
    }
    lines.extend(finding.remedies.iter().map(|r| ("remedy".to_string(), r.says())));
    Notice { severity: finding.severity, text: finding.text.clone(), lines }
}
