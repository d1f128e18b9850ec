//! What becomes of the battery while nobody uses the vehicle?

use crate::catalogue::{Chemical, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::standing::Standing;
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

/// What ends it, or ages it, before somebody comes back. Where the plan does not say for how long it is left, only what
/// takes it below the charge that the cut-off keeps.
pub(crate) fn check(site: &Installation, reserve: Share, out: &Standing) -> Option<Finding> {
    let chemistry = site.chemistry()?;
    let given = site.standing.days.is_some();
    let low = &chemistry.low.from;
    let own = (chemistry.low.own_draw > Amps::ZERO).then_some(&low.own_draw);
    let drawn = std::iter::once(&chemistry.life.from.self_discharge).chain(own);
    let lead = chemistry.chemical == Chemical::LeadAcid;
    let floor = if given { chemistry.low.stand_above } else { chemistry.low.stand_above.min(reserve) };
    let kept = (site.cut_off.reserve.is_none() && site.service_battery.depth.is_none()).then_some(&low.reserve);
    let floor_from = if floor < chemistry.low.stand_above { kept } else { Some(&low.stand_above) };
    let freezes = out.freezes.filter(|at| given && out.coldest < *at);
    let (severity, harm, rule) = if out.left <= Share::ZERO {
        let ends = out.empty_after.unwrap_or(out.days);
        let severity = if lead || given { Severity::Stop } else { Severity::Caution };
        (severity, format!("it is empty after {ends}, which ends it"), cite(drawn))
    } else if let Some(at) = freezes {
        let what =
            format!("with {} left it freezes at {at} and bursts, and the air falls to {}", out.left, out.coldest);
        (Severity::Stop, what, cite(drawn.chain([&chemistry.cold.from.freezing])))
    } else if out.left < floor {
        let ages = if lead { "its plates sulphate" } else { "it is near where its own electronics end it" };
        (Severity::Caution, format!("{} are left, under {floor}: {ages}", out.left), cite(drawn.chain(floor_from)))
    } else {
        return None;
    };
    let text = format!("left for {} with {} drawn, {harm}", out.days, out.draw);
    let (days, open) = (Place::of(Section::Standing, "days"), Place::of(Section::Standing, "disconnected"));
    let finding = Finding::new(Kind::LeftStanding, Subject::ServiceBattery, text)
        .as_severity(severity)
        .rule(format!("what is drawn and what it loses by itself, from {}: {rule}", site.standing.charge))
        .at(days);
    let finding = match site.standing.disconnected {
        true => finding,
        false => finding.remedy_edit(
            format!("leave it with the main switch open or its minus off, so that {} are drawn no more", out.draw),
            open,
            Some(Value::Flag(true)),
        ),
    };
    let back = out.good_for.unwrap_or(out.days).min(out.days);
    let back = Days::new(back.get().floor().max(1.0));
    Some(finding.remedy(format!("or charge it to full every {back}, and leave it full")))
}
