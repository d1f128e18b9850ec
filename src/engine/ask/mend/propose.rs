//! Which edits might mend a finding? What judge proposes, and what is pinned on the way to it.

use super::words::owner;
use crate::engine::design::Design;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::remedy::{Edit, Remedy};
use crate::engine::simulate::fault::tail::{hanging, own_fuse};
use crate::plan::{Absent, Place, Plan, Section, Value, field_at, point};
use crate::quantity::SquareMillimetres;

/// A remedy of one edit.
pub fn one(words: impl Into<String>, place: Place, value: Option<Value>) -> Remedy {
    Remedy { edits: vec![Edit { place, value }], ..Remedy::words(words) }
}

/// All that may be tried against a finding, what most likely mends first.
pub fn all(plan: &Plan, design: &Design, finding: &Finding) -> Vec<Remedy> {
    let mut out: Vec<Remedy> = Vec::new();
    for remedy in stages(plan, design, finding).into_iter().flatten() {
        if out.iter().all(|r| r.edits != remedy.edits) {
            out.push(remedy);
        }
    }
    out
}

/// The same in stages: what judge says and where a source without a cable may be connected; what the plan gives and
/// need not; the first sizes that judge would take on the way.
pub fn stages(plan: &Plan, design: &Design, finding: &Finding) -> [Vec<Remedy>; 3] {
    let said = finding.remedies.iter().filter(|r| !r.edits.is_empty()).cloned();
    let sizes = |run: usize| {
        let (sizes, begin) = larger(design, run);
        sizes.into_iter().skip(begin).take(2)
    };
    let sizes = runs_of(design, finding).into_iter().take(3).flat_map(sizes);
    [said.chain(connected(design, finding)).collect(), unpinned(plan, design, finding), sizes.collect()]
}

/// A source by leads that nobody planned: at the end of a run that begins at the posts it has a cable, and with a fuse
/// of its own in its plus lead the whole way is protected.
fn connected(design: &Design, finding: &Finding) -> Vec<Remedy> {
    let section = match finding.subject {
        Subject::Solar => Section::Solar,
        Subject::Mains => Section::Mains,
        Subject::Inverter => Section::Inverter,
        _ => return Vec::new(),
    };
    if finding.kind != Kind::LeadsUnplanned {
        return Vec::new();
    }
    let site = &design.installation;
    let from_posts = site.circuits.branches.iter().filter(|b| b.near == point::SERVICE_BATTERY);
    let own = hanging(site).into_iter().find(|h| h.subject == finding.subject).and_then(|h| own_fuse(site, h.current));
    let at = |far: &String| {
        let words = format!("connect it to `{far}`, where a run from the posts ends");
        let alone = one(words.clone(), Place::of(section, "at"), Some(Value::Text(far.clone())));
        let fused = own.map(|rating| {
            let words = format!("{words}, with a fuse of {} where its own plus lead begins", rating);
            let fuse = Edit { place: Place::of(section, "tail_fuse_a"), value: Some(Value::Number(rating.get())) };
            Remedy { edits: [alone.edits.clone(), vec![fuse]].concat(), ..Remedy::words(words) }
        });
        [Some(alone), fused]
    };
    from_posts.flat_map(|b| at(&b.far)).flatten().collect()
}

/// The runs that a finding may come from: the way to what it is about, the far end first.
pub fn runs_of(design: &Design, finding: &Finding) -> Vec<usize> {
    let site = &design.installation;
    let circuits = &site.circuits;
    let to = |at: &str| site.branch_to(at);
    let ends: Vec<usize> = match &finding.subject {
        Subject::Run(run) | Subject::Size(run, _) => circuits.index_of(*run).into_iter().collect(),
        Subject::Load(load) => site.loads.get(*load).and_then(|l| to(&l.at)).into_iter().collect(),
        Subject::Point(at) => to(at).into_iter().collect(),
        Subject::Inverter => to(&site.inverter.at).into_iter().collect(),
        Subject::Charger => circuits
            .branches
            .iter()
            .enumerate()
            .filter_map(|(n, b)| (b.far == point::CHARGER || b.near == point::CHARGER).then_some(n))
            .collect(),
        Subject::CutOff => to(point::CUT_OFF).into_iter().collect(),
        _ => Vec::new(),
    };
    let mut runs = Vec::new();
    if let Some(place) = finding.place.filter(|p| p.section == Section::Run) {
        runs.push(place.index);
    }
    for end in ends {
        let path = circuits.path_of(end).into_iter().rev();
        runs.extend(path.filter_map(|b| circuits.branches.get(b)).map(|b| b.run));
    }
    let mut seen = Vec::new();
    runs.retain(|run| {
        !seen.contains(run) && {
            seen.push(*run);
            true
        }
    });
    runs
}

/// Leave to the program what the plan gives on the way to a finding, and at the field that it names.
pub fn unpinned(plan: &Plan, design: &Design, finding: &Finding) -> Vec<Remedy> {
    let site = &design.installation;
    let mut places: Vec<Place> = finding.place.into_iter().collect();
    let part = |section, keys: &[&'static str]| keys.iter().map(|k| Place::of(section, k)).collect::<Vec<_>>();
    places.extend(match finding.subject {
        Subject::ServiceBattery => part(Section::ServiceBattery, &["capacity_ah", "in_parallel"]),
        Subject::Charger | Subject::Alternator => part(Section::Charger, &["current_a", "output_v"]),
        Subject::CutOff => part(Section::CutOff, &["cut_v", "reconnect_v", "delay_s", "rating_a"]),
        Subject::Bond => part(Section::Bond, &["size"]),
        _ => Vec::new(),
    });
    for run in runs_of(design, finding) {
        places.extend(["size", "fuse_a", "fuse_style", "current_a", "own_fuse"].map(|key| Place::run(run, key)));
    }
    let mut out: Vec<Remedy> = Vec::new();
    // What was measured is not the program's to choose: left out, the finding would only be silent.
    places.retain(|p| !matches!(p.section, Section::Beneath | Section::AsBuilt | Section::Drilled | Section::Mounted));
    for place in places.into_iter().filter_map(|p| site.place_of(p)) {
        let Some(field) = field_at(place) else { continue };
        let usual = field.default_value();
        let now = field.get(plan, place.index);
        let required = field.absent == Absent::NotAllowed;
        if required || now.is_none() || now == usual || out.iter().any(|r| r.edits.iter().any(|e| e.place == place)) {
            continue;
        }
        let who = owner(site, place);
        out.push(match usual {
            Some(value) => one(format!("{who}: the usual {}", field.words()), place, Some(value)),
            None => one(format!("leave the {} of {who} to the program", field.words()), place, None),
        });
    }
    out
}

/// The sizes of a run above the one it has, thinnest first, and which of them judge would begin with.
pub fn larger(design: &Design, run: usize) -> (Vec<Remedy>, usize) {
    let site = &design.installation;
    let place = site.place_of(Place::run(run, "size"));
    let Some((of, place)) = design.runs.get(run).zip(place) else { return (Vec::new(), 0) };
    let has = of.size.as_ref().map_or(SquareMillimetres::ZERO, |s| s.area);
    let rows: Vec<_> = of.sizes.iter().filter(|row| row.area > has).collect();
    let begin = rows.iter().position(|row| row.fails.is_empty()).unwrap_or(0);
    let name = run_name(&site.runs, run);
    let remedy = |row: &&crate::engine::simulate::circuit::result::SizeRow| {
        let words = format!("{} in {name} drops {} ({}) there", row.label, row.drop, row.drop_share);
        one(words, place, Some(Value::Text(row.label.clone())))
    };
    (rows.iter().map(remedy).collect(), begin)
}
