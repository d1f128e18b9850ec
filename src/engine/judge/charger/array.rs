//! Do panels, controller and strings suit each other?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::charger::array::Array;
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

/// A controller without tracking that passes on less than this is the wrong one: our own border, no source.
const LITTLE: Share = Share::new(0.6);

fn place(key: &'static str) -> Place {
    Place::of(Section::Solar, key)
}

/// What speaks against the array.
pub(crate) fn check(site: &Installation, array: &Array) -> Vec<Finding> {
    [voltage(site, array), misfit(site, array), strings(site, array)].into_iter().flatten().collect()
}

fn voltage(site: &Installation, array: &Array) -> Option<Finding> {
    let (open, limit) = (array.open?, site.solar.controller_limit?);
    if open <= limit {
        return None;
    }
    let text = format!(
        "at {} the array's open voltage is {open}; its controller stands {limit}",
        site.surroundings.coldest.min(Celsius::new(25.0))
    );
    let finding = Finding::new(Kind::ArrayVoltage, Subject::Solar, text)
        .rule("open voltage at the coldest, 0.4 % more for each kelvin below 25 °C: NFPA 70, 690.7, from memory")
        .at(place("controller_limit_v"));
    let fits = (f64::from(site.solar.in_series) * (limit / open)).floor();
    let finding = if fits >= 1.0 {
        let words = format!("{fits} in series, and more strings side by side, stay below it");
        finding.remedy_number(words, place("in_series"), fits)
    } else {
        finding
    };
    Some(finding.remedy(format!("or a controller that stands more than {open}")))
}

fn misfit(site: &Installation, array: &Array) -> Option<Finding> {
    let passed = array.passed.filter(|passed| *passed < LITTLE)?;
    let text = format!(
        "a controller without tracking pulls the array's {} down to the battery: {passed} of its {} are passed on",
        site.solar.array_voltage, site.solar.array
    );
    Some(
        Finding::new(Kind::PanelMisfit, Subject::Solar, text)
            .rule("such a controller passes the array's current on, at the battery's voltage")
            .at(place("controller"))
            .remedy_edit(
                format!("a controller that tracks the array's best voltage passes on nearly all {}", site.solar.array),
                place("controller"),
                Some(Value::Text("mppt".into())),
            )
            .remedy("or panels of about 18 V at maximum power, side by side"),
    )
}

fn strings(site: &Installation, array: &Array) -> Option<Finding> {
    let (backward, stands) = (array.backward?, site.solar.panel_fuse?);
    if site.solar.string_fuses || backward <= stands {
        return None;
    }
    let text = format!(
        "a fault in one string is fed by the other {} with {backward}; a panel stands {stands}",
        site.solar.strings.saturating_sub(1)
    );
    Some(
        Finding::new(Kind::StringFuses, Subject::Solar, text)
            .rule("a device for each string where 1.25 times the short-circuit current of the others exceeds the panel's fuse rating: NFPA 70, 690.9")
            .at(place("string_fuses"))
            .remedy_edit(
                format!("a fuse of at most {stands} in each string"),
                place("string_fuses"),
                Some(Value::Flag(true)),
            ),
    )
}
