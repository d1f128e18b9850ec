//! What should not lie on its side of the cut-off?
//!
//! A source behind it cannot bring back what has opened, since nothing reaches
//! the battery then.

use crate::engine::installation::Installation;
use crate::engine::installation::cut_off::{behind, inverter_stays_on, point_of};
use crate::engine::installation::load::Load;
use crate::engine::installation::sources::has_mains;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{ChargerKind, Place, Section, Value, point};
use crate::quantity::*;

pub(crate) fn check(site: &Installation, budget: &Budget, out: &CutOffDesign) -> Vec<Finding> {
    let mut found = sources(site, out);
    for (index, load) in site.loads.iter().enumerate().filter(|(_, l)| l.count > 0) {
        match behind(site, point_of(site, load)) {
            Some(false) if !load.before_cut_off => found.push(unprotected(site, index, load, out)),
            Some(true) if load.before_cut_off => found.push(contradicts(site, index, load, out)),
            _ => {}
        }
    }
    // AC loads speak for the inverter.
    if !site.loads.iter().any(|l| l.inverter && l.count > 0) {
        found.extend(inverter(site, budget, out));
    }
    found
}

/// A source: what it is called, what it is about, where it joins, the field that says so.
struct Joins<'a> {
    kind: Kind,
    name: &'static str,
    subject: Subject,
    at: &'a str,
    place: Option<Place>,
}

fn joins(site: &Installation) -> Vec<Joins<'_>> {
    let mut all = Vec::new();
    if site.charger.kind != ChargerKind::None {
        let (kind, subject) = (Kind::ChargerBehindCutOff, Subject::Charger);
        all.push(Joins { kind, name: "the charger", subject, at: point::CHARGER, place: None });
    }
    let mut other = |name, subject, at, section| {
        let place = Some(Place::of(section, "at"));
        all.push(Joins { kind: Kind::SourceBehindCutOff, name, subject, at, place });
    };
    if site.solar.array.get() > 0.0 {
        other("the solar array", Subject::Solar, site.solar.at.as_str(), Section::Solar);
    }
    if has_mains(site) {
        other("the mains charger", Subject::Mains, site.mains.at.as_str(), Section::Mains);
    }
    all
}

fn sources(site: &Installation, out: &CutOffDesign) -> Vec<Finding> {
    let all = joins(site);
    let another = all.iter().any(|s| behind(site, s.at) == Some(false));
    let mut found: Vec<Finding> = all.iter().filter(|s| behind(site, s.at).is_none()).filter_map(loose).collect();
    for source in all.iter().filter(|s| behind(site, s.at) == Some(true)) {
        let branch = site.circuits.to_point.get(source.at).and_then(|&b| site.circuits.branches.get(b));
        let on = branch.map_or_else(|| format!("at `{}`", source.at), |b| format!("on {}", site.run_number(b.run)));
        let (severity, means) = if another {
            (Severity::Caution, "it cannot charge the battery")
        } else {
            (Severity::Stop, "nothing can charge the battery, and it never closes by itself")
        };
        let text =
            format!("{} comes in behind the cut-off {on}: once that has opened at {}, {means}", source.name, out.cut);
        let finding = Finding::new(source.kind, source.subject.clone(), text)
            .as_severity(severity)
            .rule("charge sources join the battery before the cut-off; common practice, no source");
        let to_posts = Some(Value::Text(point::SERVICE_BATTERY.into()));
        found.push(match (source.place, branch) {
            (Some(place), _) => finding.at(place).remedy_edit(
                format!("join it at `{}`, with a fuse of its own there", point::SERVICE_BATTERY),
                place,
                to_posts,
            ),
            (None, Some(branch)) => {
                let place = near_end(site, branch.run, &branch.near);
                finding.at(place).remedy_edit(
                    format!("lead {} to the service battery", site.run_number(branch.run)),
                    place,
                    to_posts,
                )
            }
            (None, None) => finding.at(Place::of(Section::Charger, "kind")).remedy("lead a run to the service battery"),
        });
    }
    found
}

/// A source that no run joins to the service battery. The charger's own two sides are the topology's to check.
fn loose(source: &Joins<'_>) -> Option<Finding> {
    let place = source.place?;
    let text = format!(
        "{} joins at `{}`, which no run joins to the service battery: it is counted as charging, and cannot",
        source.name, source.at
    );
    Some(
        Finding::new(Kind::SourceLoose, source.subject.clone(), text)
            .rule("a source hangs on a point that a run from the service battery reaches")
            .at(place)
            .remedy_edit(
                format!("join it at `{}`, with a fuse of its own there", point::SERVICE_BATTERY),
                place,
                Some(Value::Text(point::SERVICE_BATTERY.into())),
            )
            .remedy("or add a run from the service battery to that point"),
    )
}

/// The end of a run that names a point.
fn near_end(site: &Installation, run: usize, near: &str) -> Place {
    let other = site.runs.get(run).is_some_and(|r| r.to == near && r.from != near);
    Place::run(run, if other { "to" } else { "from" })
}

fn unprotected(site: &Installation, index: usize, load: &Load, out: &CutOffDesign) -> Finding {
    let text = format!(
        "{} hangs on `{}`, which is not behind the cut-off, so it can empty the battery below {}",
        load.name,
        point_of(site, load),
        out.cut
    );
    Finding::new(Kind::CutOffMissing, Subject::Load(index), text)
        .rule("all loads are behind the cut-off, but those that are said to stay connected")
        .at(Place::load(index, "at"))
        .remedy("feed it from a point beyond the cut-off, such as a run from `cut-off`")
        .remedy_edit(
            "or say that it stays connected, and count its draw in the days to harm",
            Place::load(index, "before_cut_off"),
            Some(Value::Flag(true)),
        )
}

/// The plan says that a load stays connected, and the wiring says that it does not.
fn contradicts(site: &Installation, index: usize, load: &Load, out: &CutOffDesign) -> Finding {
    let at = point_of(site, load);
    let text = format!(
        "{} is said to stay connected, but `{at}` is behind the cut-off: at {} it goes off with the rest",
        load.name, out.cut
    );
    let place = if load.inverter { Place::of(Section::Inverter, "at") } else { Place::load(index, "at") };
    Finding::new(Kind::StaysOnBehind, Subject::Load(index), text)
        .rule("the wiring decides what the cut-off switches off")
        .at(Place::load(index, "before_cut_off"))
        .remedy_edit(
            format!("feed it from `{}` by a fused run of its own", point::SERVICE_BATTERY),
            place,
            Some(Value::Text(point::SERVICE_BATTERY.into())),
        )
        .remedy_edit(
            "or let it be cut off with the rest",
            Place::load(index, "before_cut_off"),
            Some(Value::Flag(false)),
        )
}

/// With nothing plugged in the inverter itself draws.
fn inverter(site: &Installation, budget: &Budget, out: &CutOffDesign) -> Option<Finding> {
    let idle = budget.inverter_idle / Hours::new(24.0);
    if !inverter_stays_on(site) || idle.get() <= 0.0 {
        return None;
    }
    let at = &site.inverter.at;
    let text = format!(
        "the inverter hangs on `{at}`, which is not behind the cut-off: idle it takes {} for {} a day, below {} too",
        site.inverter.idle_draw, site.inverter.hours_a_day, out.cut
    );
    let finding = Finding::new(Kind::CutOffMissing, Subject::Inverter, text)
        .rule("all that draws is behind the cut-off, but what is said to stay connected")
        .at(Place::of(Section::Inverter, "at"));
    let branch = site.circuits.to_point.get(at).and_then(|&b| site.circuits.branches.get(b));
    let finding = match branch.filter(|b| b.near == point::SERVICE_BATTERY) {
        Some(branch) => finding.remedy_edit(
            format!("lead {} from `{}` instead", site.run_number(branch.run), point::CUT_OFF),
            near_end(site, branch.run, &branch.near),
            Some(Value::Text(point::CUT_OFF.into())),
        ),
        None => finding.remedy("feed it from a point beyond the cut-off, such as a run from `cut-off`"),
    };
    Some(finding.remedy_number(
        format!("or switch it off by hand: {idle} less on average; 0 h a day in the plan"),
        Place::of(Section::Inverter, "hours_a_day"),
        0.0,
    ))
}
