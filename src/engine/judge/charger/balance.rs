//! Does as much come in over a usual week as is used?

use crate::catalogue::Chemistry;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::{Installation, sources};
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::remedy::Edit;
use crate::engine::physics::cell::recovery::put_back_factor;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::fault::tail::{array_current, own_fuse};
use crate::plan::{Place, Section, SolarController, Value, point};
use crate::quantity::*;

/// Shares of the use under this are within what the figures are good for. Common practice, no source.
const LITTLE: f64 = 0.01;

/// Charger current for a remedy where none is planned: a small one.
const SMALL_CHARGER: Amps = Amps::new(10.0);

/// Array that stores so much more a day, in tens of watts, and the sun that counts; `None` without sun.
pub(crate) fn array_for(site: &Installation, chemistry: &Chemistry, stored: AmpHours) -> Option<(Watts, SunHours)> {
    let sun = site.solar.sun_hours.unwrap_or_else(|| sources::usual_sun_hours(site));
    if sun.get() < 0.1 {
        return None;
    }
    let amps = stored.get() * put_back_factor(&site.catalogue, chemistry) / sun.get();
    let share = sources::solar_derating(site).get().max(0.01);
    let by_power = chemistry.charge.absorption.get() / share;
    let volts = match site.solar.controller {
        SolarController::Mppt => by_power,
        SolarController::Shunt => by_power.max(site.solar.array_voltage.get()),
    };
    Some((Watts::new((amps * volts / 10.0 - 1e-9).ceil() * 10.0), sun))
}

/// A finding with the array that would store so much more a day as a remedy.
pub(crate) fn with_array(finding: Finding, site: &Installation, chemistry: &Chemistry, stored: AmpHours) -> Finding {
    let Some((more, sun)) = array_for(site, chemistry, stored) else {
        return finding.remedy("solar does not help: no sun is planned");
    };
    let words = format!("{more} more of solar array make up for it at {sun} a day");
    let array = site.solar.array + more;
    let edit = |key, value| Edit { place: Place::of(Section::Solar, key), value: Some(value) };
    let power = edit("array_w", Value::Number(array.get()));
    match where_panels_join(site).zip(own_fuse(site, array_current(array))) {
        None => finding.remedy_edits(words, vec![power]),
        Some((at, fuse)) => finding.remedy_edits(
            format!("{words}, on `{at}`, with a fuse of {fuse} where the controller's own plus lead begins"),
            vec![power, edit("at", Value::Text(at.into())), edit("tail_fuse_a", Value::Number(fuse.get()))],
        ),
    }
}

/// Where the first panels join: the end of a run from the posts, on which leads that nobody planned would be without a
/// fuse. Not behind the cut-off, which would part them from the battery. `None` where they have a place already.
fn where_panels_join(site: &Installation) -> Option<&str> {
    let first = site.solar.array == Watts::ZERO && site.solar.at == point::SERVICE_BATTERY;
    let ends = || {
        let from_posts = site.circuits.branches.iter().filter(|b| b.near == point::SERVICE_BATTERY);
        from_posts.map(|b| b.far.as_str()).filter(|far| *far != point::CUT_OFF)
    };
    ends().find(|far| *far == point::CHARGER).or_else(|| ends().next()).filter(|_| first)
}

/// Too little comes in over a week; not said where a day of driving is already said to put back too little.
pub(crate) fn check(site: &Installation, chemistry: &Chemistry, out: &ChargerDesign) -> Option<Finding> {
    let b = &out.balance;
    let missing = b.missing;
    if missing.get() <= b.used.get() * LITTLE {
        return None;
    }
    let text = format!(
        "on an average day of the week {} are used and {} come in (sun {}, mains {}, driving {}): {missing} a day are missing",
        b.used,
        b.coming(),
        b.sun,
        b.mains,
        b.driving
    );
    let place = if site.solar.array.get() > 0.0 {
        Place::of(Section::Solar, "array_w")
    } else if sources::has_mains(site) {
        Place::of(Section::Mains, "current_a")
    } else {
        Place::of(Section::Charger, "current_a")
    };
    let factor = put_back_factor(&site.catalogue, chemistry);
    let finding = Finding::new(Kind::ChargeShort, Subject::Charger, text)
        .rule("over a week as much must come in as goes out; the sun of a usual day")
        .at(place);
    let mut finding = with_array(finding, site, chemistry, missing);
    let hours = |amps: Amps| AmpHours::new(missing.get() * 7.0 * factor) / amps;
    let mains = if site.mains.current.get() > 0.0 { site.mains.current } else { SMALL_CHARGER };
    if hours(mains).get() <= 7.0 * 24.0 {
        finding = finding.remedy(format!("or {} more a week on a mains charger of {mains}", hours(mains)));
    }
    let charger = if out.bounds.hours.get() > 0.0 { out.net } else { out.steady };
    if charger.get() > 0.0 && hours(charger).get() <= 7.0 * 24.0 {
        finding = finding.remedy(format!("or drive {} more a week", hours(charger)));
    }
    let usable = out.capacity * planned_depth(site, chemistry).get();
    Some(finding.remedy(format!(
        "or charge it full elsewhere at least every {}: its {usable} last so long",
        Days::new(usable / missing)
    )))
}
