//! May the battery stand where it stands: its gas, and what guards it?

use crate::engine::installation::Installation;
use crate::engine::installation::place::place;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::cell::gas::VALVE_REGULATED;
use crate::engine::simulate::battery::BatteryDesign;
use crate::plan::{BatteryPlace, Choice, Guard, Place, Section, Value};

/// What gas and weather ask for.
pub(crate) fn check(site: &Installation, battery: &BatteryDesign) -> Vec<Finding> {
    gas(site, battery).into_iter().chain(exposed(site)).collect()
}

/// A kind that gives off gas stands where it gathers, or where somebody sleeps.
fn gas(site: &Installation, battery: &BatteryDesign) -> Option<Finding> {
    let chemistry = site.chemistry()?;
    let gas = chemistry.charge.gas.filter(|_| battery.bank.is_some())?;
    let free = gas > VALVE_REGULATED;
    let (severity, whose) = match place(site) {
        BatteryPlace::SleepingSpace if free => (Severity::Stop, "stands where somebody sleeps"),
        BatteryPlace::SleepingSpace => (Severity::Caution, "stands where somebody sleeps"),
        BatteryPlace::Cabinet => (Severity::Caution, "stands in a closed box, where gas gathers"),
        BatteryPlace::Cabin | BatteryPlace::UnderFloor if free => (Severity::Caution, "stands inside"),
        _ => return None,
    };
    let (air, opening) = (battery.vent_air, battery.vent_opening);
    let text = format!(
        "{} {whose}, and its gas wants {air} of fresh air while it is charged, through openings of {opening}",
        chemistry.name
    );
    let at = Place::of(Section::ServiceBattery, "place");
    let finding = Finding::new(Kind::BatteryGas, Subject::ServiceBattery, text)
        .as_severity(severity)
        .rule(format!("air by IEC 62485-2; {}; your local code comes first", chemistry.charge.from.gas.words()))
        .at(at)
        .remedy_edit(
            format!(
                "a closed box with an inlet low down and an outlet high up, each of {opening}, to the outside alone"
            ),
            at,
            Some(Value::Text(BatteryPlace::VentedBox.key().into())),
        );
    let other = site.catalogue.chemistries.iter().find(|c| c.charge.gas.is_none());
    Some(match other {
        Some(other) => finding.remedy_edit(
            format!("or {}, which gives off none in use", other.name),
            Place::of(Section::ServiceBattery, "chemistry"),
            Some(Value::Text(other.key.clone())),
        ),
        None => finding,
    })
}

/// What a place asks for.
fn asked(place: BatteryPlace) -> &'static [Guard] {
    match place {
        BatteryPlace::UnderDeck => {
            &[Guard::Stones, Guard::Wash, Guard::Drain, Guard::Corrosion, Guard::Clearance, Guard::Heat]
        }
        BatteryPlace::LoadBed => &[Guard::Wash, Guard::Drain, Guard::Corrosion],
        BatteryPlace::EngineBay => &[Guard::Wash, Guard::Heat],
        _ => &[],
    }
}

/// Whether the plan has measures of what a guard is about; those are judged themselves.
fn measured(site: &Installation, guard: Guard) -> bool {
    let beneath = &site.beneath;
    match guard {
        Guard::Clearance => beneath.ground.is_some() && beneath.tyre.is_some(),
        Guard::Heat => beneath.exhaust.is_some(),
        _ => false,
    }
}

/// Outside it is thrown at, washed, salted and heated.
fn exposed(site: &Installation) -> Option<Finding> {
    let (guards, place) = (&site.service_battery.guards, place(site));
    let missing = asked(place).iter().filter(|g| guards.count(**g) == 0 && !measured(site, **g)).copied();
    let missing: Vec<Guard> = missing.collect();
    let words = missing.iter().map(|g| g.key()).collect::<Vec<_>>().join(", ");
    if missing.is_empty() {
        return None;
    }
    let at = Place::of(Section::ServiceBattery, "guards");
    let said = |g: &Guard| Guard::words().iter().find(|w| w.0 == g.key()).map_or("", |w| w.1);
    let each = missing.iter().map(said).collect::<Vec<_>>().join("; ");
    let all = guards.0.iter().copied().chain(missing.iter().copied()).map(Choice::key).collect::<Vec<_>>().join(", ");
    Some(
        Finding::new(
            Kind::BatteryExposed,
            Subject::ServiceBattery,
            format!("where it stands ({}) {} of its guards are not planned: {words}", place.key(), missing.len()),
        )
        .rule("a stone, a jet, standing water, salt, the road or the exhaust reaches what is not guarded (common practice, no source; degrees of protection by IEC 60529)")
        .at(at)
        .remedy_edit(format!("plan {} of them: {each}", missing.len()), at, Some(Value::Text(all))),
    )
}
