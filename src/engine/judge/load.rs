//! What the user should know about the loads.

use crate::engine::installation::Installation;
use crate::engine::installation::load::Load;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::budget::peak::ac_power;
use crate::plan::{Place, Section, Value};

/// What is wrong with the loads, and with the inverter that carries some of them.
pub(crate) fn check(site: &Installation) -> Vec<Finding> {
    let each = (0..site.loads.len()).flat_map(|i| [empty(site, i), times(site, i)]);
    each.chain([inverter(site), inverter_start(site)]).flatten().collect()
}

/// The worst start of an AC load, the other AC loads running, against what an inverter gives for a moment.
fn inverter_start(site: &Installation) -> Option<Finding> {
    let (rating, running) = (site.inverter.rating, ac_power(site));
    let times = site.catalogue.rules.inverter_surge.value;
    let gives = rating * times;
    let starts = site.loads.iter().enumerate().filter(|(_, l)| l.inverter && l.count > 0 && l.start.times > 1.0);
    let taken = |load: &Load| running + load.power * load.one() * load.start_adds();
    let (i, load) = starts.max_by(|(_, a), (_, b)| taken(a).get().total_cmp(&taken(b).get()))?;
    let most = taken(load);
    if rating.get() <= 0.0 || most <= gives {
        return None;
    }
    let size = (most.get() / times / 50.0).ceil() * 50.0;
    let text = format!(
        "the start of {} takes {most} of AC power, an inverter of {rating} gives about {gives} for a moment",
        load.name
    );
    Some(
        Finding::new(Kind::InverterSurge, Subject::Load(i), text)
            .rule(format!("inverter, moment's output: {}", site.catalogue.rules.inverter_surge.from.words()))
            .at(Place::of(Section::Inverter, "rating_w"))
            .remedy_number(
                format!("an inverter of {size} W starts it; or read the surge power on the label of yours"),
                Place::of(Section::Inverter, "rating_w"),
                size,
            ),
    )
}

fn empty(site: &Installation, i: usize) -> Option<Finding> {
    let load = site.loads.get(i).filter(|l| l.count > 0 && l.power.get() <= 0.0)?;
    let text = format!("{} has neither power nor current, so it counts as 0 W", load.name);
    Some(
        Finding::new(Kind::LoadEmpty, Subject::Load(i), text)
            .rule("a load needs its power or its current at 12 V")
            .at(Place::load(i, "power_w"))
            .remedy("enter its power from its label, such as 10 W, or remove it"),
    )
}

fn times(site: &Installation, i: usize) -> Option<Finding> {
    let load = &site.loads[i];
    let most = load.hours_allowed().value;
    if most.get() <= 0.0 {
        let driven = site.driving.count() > 0;
        let (why, remedy, place) = if load.only_driving() && !driven {
            ("no driving is planned", "plan driving, such as 07:00-08:00", Place::of(Section::Vehicle, "driving"))
        } else {
            (
                "its days, its months, its times and the time it is bound to have no minute in common",
                "clear its times, its days and months, and let it run at any time",
                Place::load(i, "duty.windows"),
            )
        };
        let text = format!("{} never runs: {why}", load.name);
        let finding = Finding::new(Kind::DutyNever, Subject::Load(i), text)
            .rule("a load runs in the minutes that its times and `when` have in common")
            .at(place);
        return Some(finding.remedy_edit(
            format!("{remedy}; then it may run up to 24 h a day"),
            Place::load(i, "duty.when"),
            Some(Value::Text("always".into())),
        ));
    }
    let hours = load.hours_given.filter(|h| h.get() > most.get() + 1e-9)?;
    let text = format!("{} is to run {hours} a day, but its times allow {most}", load.name);
    Some(
        Finding::new(Kind::DutyTooLong, Subject::Load(i), text)
            .rule("hours a day cannot be more than the times of day allow; the battery is sized by the longer")
            .at(Place::load(i, "duty.hours_a_day"))
            .remedy_number(format!("let it run {most} a day"), Place::load(i, "duty.hours_a_day"), most.get()),
    )
}

fn inverter(site: &Installation) -> Option<Finding> {
    let ac = ac_power(site);
    let first = site.loads.iter().position(|l| l.inverter && l.count > 0)?;
    let rating = site.inverter.rating;
    if rating.get() <= 0.0 {
        let text = format!("{} needs an inverter and none is planned", site.loads[first].name);
        let size = (ac.get() * 1.25 / 50.0).ceil() * 50.0;
        Some(
            Finding::new(Kind::InverterMissing, Subject::Inverter, text)
                .rule("mains-voltage loads are fed by an inverter")
                .at(Place::of(Section::Inverter, "rating_w"))
                .remedy_number(
                    format!("an inverter of {size} W carries the {ac} of AC loads with a quarter to spare"),
                    Place::of(Section::Inverter, "rating_w"),
                    size,
                ),
        )
    } else if ac.get() > rating.get() {
        let text = format!("AC loads that can be on together take {ac}, the inverter gives {rating}");
        let size = (ac.get() * 1.25 / 50.0).ceil() * 50.0;
        Some(
            Finding::new(Kind::InverterSmall, Subject::Inverter, text)
                .rule("the sum of AC loads that may be on together stays within the inverter's continuous rating")
                .at(Place::of(Section::Inverter, "rating_w"))
                .remedy_number(
                    format!("an inverter of {size} W has a quarter to spare"),
                    Place::of(Section::Inverter, "rating_w"),
                    size,
                )
                .remedy(format!("or let loads of {} exclude each other with the same `not_with` word", ac - rating)),
        )
    } else {
        None
    }
}
