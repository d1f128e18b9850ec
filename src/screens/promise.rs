//! Is the promise held? How the days without charge and the usual week went with these very settings.

use super::findings::role;
use super::pane::Cell;
use super::results::Facts;
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::simulate::promise::Trial;
use crate::engine::{Finding, FindingKind};

/// Every trial.
pub fn trials(scene: &Scene<'_>, facts: &mut Facts<'_>) {
    let promise = &scene.design().promise;
    if promise.without_charge.is_empty() {
        return;
    }
    facts.heading(title(scene));
    promise.without_charge.iter().for_each(|t| trial(scene, facts, "", t));
    promise.usual.iter().for_each(|t| trial(scene, facts, "week, ", t));
    remedies(scene, facts);
}

/// The hardest only, without what mends it.
pub fn hardest(scene: &Scene<'_>, facts: &mut Facts<'_>) {
    let promise = &scene.design().promise;
    let Some(hardest) = promise.hardest() else { return };
    facts.heading(title(scene));
    trial(scene, facts, "", hardest);
    promise.unusual().filter(|_| promise.held()).into_iter().for_each(|t| trial(scene, facts, "week, ", t));
}

fn title(scene: &Scene<'_>) -> String {
    format!("Promised: {} without charge, from full", scene.show(scene.design().installation.days_without_charge))
}

fn trial(scene: &Scene<'_>, facts: &mut Facts<'_>, of: &str, t: &Trial) {
    let (words, role) = match t.failed_at {
        None => ("held".to_string(), Role::Good),
        Some(at) => (scene.show(at), Role::Stop),
    };
    let name = capital(&format!("{of}{}", t.conditions.brief()));
    facts.remark(name, Cell::words(words).role(role), remark(scene, t), Role::Muted);
}

/// Who stood without power, or how close it was.
fn remark(scene: &Scene<'_>, t: &Trial) -> String {
    let worst = t.worst.and_then(|(load, hours)| Some((scene.design().installation.loads.get(load)?, hours)));
    match (t.held(), worst, t.sensed) {
        (false, Some((load, hours)), _) => scene.plain(format!("then fails: {} off {}", load.name, scene.show(hours))),
        (false, None, _) => "then fails".into(),
        (true, _, Some((lowest, at))) => {
            let (lowest, at) = (scene.show(lowest), scene.show(at));
            format!("{lowest} at {at}, cut {}; {} left", scene.show(t.cut), scene.show(t.lowest))
        }
        (true, _, None) => format!("{} at {}", scene.show(t.lowest), scene.show(t.lowest_at)),
    }
}

/// What helps, in words; an edit is told on Findings alone, where each is tried before.
pub fn remedies(scene: &Scene<'_>, facts: &mut Facts<'_>) {
    let about = |f: &&Finding| matches!(f.kind, FindingKind::PromiseBroken | FindingKind::UsualWeeks);
    for f in scene.design().findings.iter().filter(about) {
        let mut told =
            |words: &str| facts.remark("Remedy", Cell::words(""), scene.plain(words.into()), role(f.severity));
        if f.remedies.iter().any(|r| !r.edits.is_empty()) {
            told("Findings (F) lists edits that were tried");
        }
        let words = f.remedies.iter().filter(|r| r.edits.is_empty());
        words.for_each(|r| told(r.words.trim_start_matches("or ")));
    }
}
