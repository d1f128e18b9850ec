//! What is every paper made from, and the words they share?

use crate::catalogue::Catalogue;
use crate::engine::ask::rivals::variant::Variant;
use crate::engine::design::results::fact::At;
use crate::engine::installation::subject::run_name;
use crate::engine::simulate::main_switch::{Live, stays_live};
use crate::engine::{Design, FuseDesign};
use crate::plan::Plan;

/// What every paper is made from.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// What the user says.
    pub plan: &'a Plan,
    /// What the trade knows.
    pub catalogue: &'a Catalogue,
    /// What follows.
    pub design: &'a Design,
    /// Whole designs that stand side by side on a page of their own; no such page where there are none.
    /// Each with its number among the rivals.
    pub beside: &'a [(usize, &'a Variant)],
}

impl<'a> Job<'a> {
    /// Title of the plan, or a word for one without.
    pub fn title(&self) -> &str {
        if self.plan.job.title.is_empty() { "Auxiliary power system" } else { &self.plan.job.title }
    }

    /// The designs side by side.
    pub fn designs_beside(&self) -> Vec<&'a Variant> {
        self.beside.iter().map(|(_, design)| *design).collect()
    }

    /// Where the design's results stand.
    pub fn at(&self) -> At<'a> {
        At::site(&self.design.installation)
    }
}

/// A fuse's rating, or that there is none.
pub fn rating(fuse: &FuseDesign) -> String {
    fuse.rating.map_or("none fits: see findings".into(), |r| r.to_string())
}

/// Where the minus of what is added goes, where the starter battery's own carries a sensor.
pub fn sensor(job: &Job) -> Option<&'static str> {
    let site = &job.design.installation;
    site.minus_at_sensor()?;
    Some(if site.minus_on_post() {
        "STOP: the starter battery's minus post carries a current sensor, and an added minus is planned on that post. \
         Charging and start-stop then count wrong. Lead it to the body side of the sensor, and change the plan, before \
         anything is cut."
    } else {
        "The starter battery's minus post is taken to carry a current sensor: no added lug goes onto the post, each goes \
         to the body side of the sensor."
    })
}

/// A point as a hand finds it: what lies behind the fuse of a shared way has a name of ours alone.
pub fn place(job: &Job, point: &str) -> String {
    let site = &job.design.installation;
    let way = (site.own_runs()..site.runs.len()).find(|n| site.is_way(*n) && site.runs[*n].to == point);
    way.map_or_else(
        || point.into(),
        |n| format!("{}, behind F{}", site.runs[n].from, site.run_number(n).trim_start_matches('R')),
    )
}

/// Both ends of a run; of a shared way that has a fuse and no cable, that.
pub fn between(job: &Job, run: usize) -> String {
    let site = &job.design.installation;
    let Some(planned) = site.runs.get(run) else { return String::new() };
    if site.is_way(run) {
        return format!("{}, its fuse alone", planned.from);
    }
    format!("{} – {}", site.board_of(&planned.from), site.board_of(&planned.to))
}

/// What stays live behind an open main switch, each with the device before it; `None` where there is no switch.
pub fn live(job: &Job) -> Option<String> {
    let site = &job.design.installation;
    let words = |l: &Live| {
        let device = l.device.map_or_else(|| "NO FUSE".to_string(), |d| format!("behind {d}"));
        format!("{} (by {}, {device})", run_name(&site.runs, l.run), l.by)
    };
    let live = stays_live(site, &job.design.runs);
    (!live.is_empty()).then(|| format!("still live: {}", live.iter().map(words).collect::<Vec<_>>().join("; ")))
}
