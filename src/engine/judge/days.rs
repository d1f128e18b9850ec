//! What the user should know about days of use.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::days::result::Endurance;
use crate::plan::{Place, Section};
use crate::quantity::*;

/// Drift under this a week is not told from the season and the pattern of the loads.
const DRIFT: f64 = 0.01;
/// Weeks that it takes to tell.
const WEEKS: u32 = 3;

/// What speaks against days with this bank, of which the cut-off keeps a reserve.
pub(crate) fn check(site: &Installation, bank: Option<&Bank>, reserve: Share, out: &Endurance) -> Vec<Finding> {
    cut(site, bank, out).into_iter().chain(drift(reserve, out)).collect()
}

fn cut(site: &Installation, bank: Option<&Bank>, out: &Endurance) -> Option<Finding> {
    let first = out.first_cut.or_else(|| (out.dead_hours.get() > 0.0).then_some(out.lowest_at))?;
    let day = (first.get() / 24.0).floor();
    let hour = first.get() - day * 24.0;
    let clock = format!("{:02}:{:02}", hour.floor(), (hour.fract() * 60.0).floor());
    let most = out.loads.iter().enumerate().max_by(|a, b| a.1.unserved.get().total_cmp(&b.1.unserved.get()));
    let worst =
        most.and_then(|(i, h)| site.loads.get(i).map(|l| format!("; {} stood {} without power", l.name, h.unserved)));
    let text = format!(
        "loads are cut off on day {} at {clock}, {} times in {} days{}",
        day + 1.0,
        out.cuts.max(1),
        out.days,
        worst.unwrap_or_default()
    );
    // How much larger a battery must be is not told: none was tried over these days.
    let larger = bank.map_or("", |_| ", or a larger battery");
    Some(
        Finding::new(Kind::EnduranceCut, Subject::Endurance, text)
            .rule("simulation minute by minute; the cut-off acts as it is set")
            .at(Place::of(Section::ServiceBattery, "capacity_ah"))
            .remedy(format!("bring in more: {} came in, {} were used{larger}", out.ledger.charged, out.ledger.used)),
    )
}

fn drift(reserve: Share, out: &Endurance) -> Option<Finding> {
    if out.drift.get() > -DRIFT || out.days < 7 * WEEKS {
        return None;
    }
    let weeks = (out.lowest.get() - reserve.get()).max(0.0) / -out.drift.get();
    let text = format!("over weeks the charge drifts down by {} a week", -out.drift);
    Some(
        Finding::new(Kind::EnduranceDrift, Subject::Endurance, text)
            .rule("over a week as much must come in as goes out")
            .at(Place::of(Section::Charger, "current_a"))
            .remedy(format!(
                "bring in {} more a week, or charge from the mains within {weeks:.0} weeks",
                out.weekly_balance.abs()
            )),
    )
}
