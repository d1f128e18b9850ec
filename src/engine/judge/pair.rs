//! Does what hangs on the starter side of a vehicle of 24 V bear that?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::plan::{Place, System, Value, point};

/// A load that is not said to be made for it.
pub(crate) fn check(site: &Installation) -> Vec<Finding> {
    let gives = site.vehicle.alternator_voltage;
    if site.vehicle.system != System::V24 {
        return Vec::new();
    }
    let loads = site
        .loads
        .iter()
        .enumerate()
        .filter(|(_, load)| load.count > 0 && (load.on_starter || load.at == point::STARTER_BATTERY));
    let bears = |highest: Option<crate::quantity::Volts>| highest.is_some_and(|highest| highest >= gives);
    let found = loads.filter(|(_, load)| !bears(load.highest)).map(|(index, load)| {
        let text = format!("{} hangs on the vehicle's 24 V, up to {gives}, and is not said to bear that", load.name);
        Finding::new(Kind::VoltageHigh, Subject::Load(index), text)
            .as_severity(Severity::Stop)
            .rule("12 V equipment burns at 24 V; a tap on one battery of the pair charges one too much and the other too little (common practice, no source)")
            .at(Place::load(index, "at"))
            .remedy_edit(
                format!("feed it from `{}`, behind the 24 to 12 V charger", point::CUT_OFF),
                Place::load(index, "at"),
                Some(Value::Text(point::CUT_OFF.into())),
            )
            .remedy(format!("or one that is made for {gives}; never 1 of the 2 batteries alone"))
    });
    found.collect()
}
