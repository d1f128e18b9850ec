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
    if job.design.findings.is_empty() {
        paper.paragraph("Nothing to object to.");
    }
}

/// The findings down to a severity, as notices.
pub fn findings<'a>(job: &'a Job, down_to: Severity) -> impl Iterator<Item = Notice> + 'a {
    job.design
        .findings
        .iter()
        .filter(move |f| f.severity <= down_to)
        .map(|f| finding_notice(f, &job.design.installation))
}

/// One finding: its sentence, what it is about, its rule and what helps.
pub fn finding_notice(finding: &Finding, site: &Installation) -> Notice {
    let mut lines = vec![("about".to_string(), site.name_of(&finding.subject))];
    if !finding.rule.is_empty() {
        lines.push(("rule".into(), finding.rule.clone()));
    }
    lines.extend(finding.remedies.iter().map(|r| ("remedy".to_string(), r.words.clone())));
    Notice { severity: finding.severity, text: finding.text.clone(), lines }
}
