//! Planned, measured, and what it changes.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::ask::ageing::Month;
use crate::engine::ask::days::endurance;
use crate::engine::ask::log::capacity::{Capacity, capacity};
use crate::engine::ask::log::collect::{Collected, Expected};
use crate::engine::ask::log::levels::{Unseen, loads, standing};
use crate::engine::ask::log::marks::marks;
use crate::engine::ask::log::resistance::resistance;
use crate::engine::ask::log::sample::Estimate;
use crate::engine::ask::mend::changes::changes;
use crate::engine::ask::mend::tally::Tally;
use crate::engine::ask::mend::words;
use crate::engine::design::{Design, design};
use crate::engine::installation::Installation;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::sources::sun_of;
use crate::engine::installation::working::Notes;
use crate::engine::judge::remedy::Edit;
use crate::engine::physics::cell::store::resting_most;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::span::Span;
use crate::plan::{ChargerKind, FORTNIGHT, Place, Plan, Section, Value};
use crate::quantity::*;

/// What a log comes to beside its plan.
#[derive(Clone, Debug, Default)]
pub struct LogAnswer {
    /// How the file was read, label and words.
    pub read_as: Vec<(&'static str, String)>,
    /// What of it was left out.
    pub left_out: Vec<String>,
    /// Rows that count.
    pub rows: usize,
    /// How long they tell of.
    pub days: Days,
    /// Planned, measured, changed.
    pub lines: Vec<Line>,
    /// Charge by the hour of the day.
    pub hours: Vec<HourOfDay>,
    /// Voltage at the posts over time.
    pub curve: Vec<CurveAt>,
    /// The line of the plan's measurements that its capacity makes; none where it tells no capacity or no date.
    pub measured: Option<Vec<(&'static str, Value)>>,
}

/// One number of the plan beside what was measured.
#[derive(Clone, Debug, Default)]
pub struct Line {
    /// By which it is taken into the plan.
    pub key: String,
    /// What it is.
    pub words: String,
    /// As the plan has it, or as it follows from the plan.
    pub planned: Option<Figure>,
    /// As measured; none where the log cannot tell.
    pub measured: Option<Figure>,
    /// It lies between these in 95 of 100 logs.
    pub least: Option<Figure>,
    /// See `least`.
    pub most: Option<Figure>,
    /// Marks, steps or rows that it rests on.
    pub samples: usize,
    /// How it is meant, or why the log cannot tell.
    pub note: String,
    /// What takes it into the plan.
    pub edits: Vec<Edit>,
    /// What is different in the plan then.
    pub then: Vec<String>,
}

/// Charge in and out in an hour of the day.
#[derive(Clone, Debug, Default)]
pub struct HourOfDay {
    /// It begins at.
    pub hour: usize,
    /// Into the battery, a day.
    pub into: AmpHours,
    /// Out of it, a day.
    pub out: AmpHours,
    /// What may charge then, by the plan.
    pub sources: String,
}

/// One moment of both curves.
#[derive(Clone, Copy, Debug, Default)]
pub struct CurveAt {
    /// Hours after the first row.
    pub at: Hours,
    /// Measured.
    pub measured: Volts,
    /// Expected of the plan.
    pub planned: Option<Volts>,
}

/// Bounds further apart than this factor tell no capacity.
const TELLS: f64 = 2.0;
/// Points of the curve.
const POINTS: usize = 300;
const DAY: f64 = 86_400.0;

/// What the rows are held against; none where the plan has no battery.
pub fn expected(design: &Design) -> Option<Expected> {
    let chemistry = design.installation.chemistry()?;
    let bank = design.battery.bank.as_ref()?;
    let full = resting_most(chemistry, Share::FULL, crate::engine::physics::cell::store::TABLE_AIR);
    Some(Expected { cut: design.cut_off.cut, full, step: (bank.capacity / Hours::new(300.0)).max(Amps::new(0.5)) })
}

/// Charge over time: what flows for an hour.
fn quiet(capacity: AmpHours) -> Amps {
    (capacity / Hours::new(100.0)).max(Amps::new(0.5))
}

/// All that the log tells; `dated` where its clock tells the date.
pub fn log_answer(plan: &Plan, catalogue: &Catalogue, before: &Design, log: &Collected, dated: bool) -> LogAnswer {
    let site = &before.installation;
    let (Some(chemistry), Some(bank)) = (site.chemistry(), before.battery.bank.as_ref()) else {
        return LogAnswer::default();
    };
    let quiet = quiet(bank.capacity);
    let days = Days::new(log.counted / DAY);
    let air = log.air.map_or(site.surroundings.mean, |(cold, hot)| Celsius::new((cold + hot) / 2.0));
    let told = if log.has_amps {
        capacity(&marks(log, chemistry, bank.capacity, quiet), chemistry, bank.capacity, air)
    } else {
        None
    };
    let expected = simulated(before, log, dated);
    let mut lines = vec![held(told.as_ref(), bank.capacity, log, chemistry)];
    lines.extend(inner(log, bank.resistance, chemistry));
    lines.push(off(site, chemistry, bank.capacity, log, told.as_ref()));
    lines.extend(each_load(plan, site, log, quiet));
    lines.extend(extremes(log, site, before, expected.as_ref()));
    let hours = by_hour(log, site, dated);
    lines.extend(charged(log, &hours, told.as_ref(), expected.as_ref()));
    let tally = Tally::of(site, &before.findings);
    for line in lines.iter_mut().filter(|l| !l.edits.is_empty()) {
        line.then = then(plan, catalogue, before, &tally, &line.edits);
    }
    let measured = measured(&lines, log, dated);
    LogAnswer {
        measured,
        rows: log.rows,
        days,
        lines,
        hours,
        curve: curve(log, expected.as_ref(), dated),
        ..LogAnswer::default()
    }
}

fn measured(lines: &[Line], log: &Collected, dated: bool) -> Option<Vec<(&'static str, Value)>> {
    let line = |key: &str| lines.iter().find(|l| l.key == key);
    let number = |v: f64| Value::Number((v * 100.0).round() / 100.0);
    let held = line("capacity").filter(|_| dated)?;
    let (year, month) = Month::of_day((log.last / DAY).floor() as i64).parts();
    let mut values = vec![
        ("year", Value::Number(f64::from(year))),
        ("month", Value::Number(f64::from(month))),
        ("capacity_ah", number(held.measured?.value)),
    ];
    values.extend(
        [("least_ah", held.least), ("most_ah", held.most)].into_iter().filter_map(|(k, f)| Some((k, number(f?.value)))),
    );
    values.extend(line("resistance").and_then(|l| l.measured).map(|r| ("resistance_mohm", number(r.value * 1000.0))));
    Some(values)
}

impl Line {
    fn new(key: impl Into<String>, words: impl Into<String>) -> Line {
        Line { key: key.into(), words: words.into(), ..Line::default() }
    }

    fn with<Q: Quantity + Into<Figure>>(self, told: &Estimate<Q>) -> Line {
        Line { measured: Some(told.value.into()), ..self.between(told) }
    }

    fn between<Q: Quantity + Into<Figure>>(self, told: &Estimate<Q>) -> Line {
        Line { least: told.least.map(Into::into), most: told.most.map(Into::into), samples: told.samples, ..self }
    }

    fn planned(self, figure: impl Into<Figure>) -> Line {
        Line { planned: Some(figure.into()), ..self }
    }

    fn note(self, note: impl Into<String>) -> Line {
        Line { note: note.into(), ..self }
    }

    fn edit(mut self, section: Section, index: usize, key: &'static str, value: Option<f64>) -> Line {
        let rounded = |v: f64| {
            let digits = 3 - 1 - v.abs().max(1e-9).log10().floor() as i32;
            let scale = 10f64.powi(digits);
            Value::Number((v * scale).round() / scale)
        };
        self.edits.push(Edit { place: Place { section, index, key }, value: value.map(rounded) });
        self
    }

    /// Whether what is planned lies outside the bounds.
    fn differs(&self) -> bool {
        let planned = self.planned.map_or(f64::NAN, |f| f.value);
        self.least.is_some_and(|f| planned < f.value) || self.most.is_some_and(|f| planned > f.value)
    }
}

fn held(told: Option<&Capacity>, planned: AmpHours, log: &Collected, chemistry: &Chemistry) -> Line {
    let line = Line::new("capacity", "Capacity of the bank").planned(planned);
    let Some(told) = told else {
        let why = if log.has_amps {
            "cannot tell: no two moments at which the charge shows (1.5 h of rest, or a finished charge) without a gap between"
        } else {
            "cannot tell: no current is logged"
        };
        return line.note(why);
    };
    let held = &told.held;
    let tells = held.most.zip(held.least).is_some_and(|(most, least)| most.get() < TELLS * least.get());
    if tells {
        return line.with(held).note("by the charge counted between rests and finished charges");
    }
    let bound = match (held.least, held.most) {
        (Some(least), None) => format!("at least {least}"),
        (None, Some(most)) => format!("at most {most}"),
        (Some(least), Some(most)) => format!("{least} to {most}"),
        (None, None) => "no bound".into(),
    };
    let low = chemistry.name.as_str();
    line.between(held).note(format!(
        "cannot tell ({bound}): the rests of {low} lie too near each other in charge; rest nearly empty once"
    ))
}

fn inner(log: &Collected, planned: Ohms, chemistry: &Chemistry) -> Vec<Line> {
    let line = Line::new("resistance", "Internal resistance").planned(planned);
    let told = resistance(log).filter(|_| log.lowest.is_some());
    let Some(told) = told else {
        return vec![line.note("cannot tell: the current hardly changes while the battery gives")];
    };
    let step = Seconds::new(log.interval);
    let warm = log.air.map(|(cold, hot)| Celsius::new((cold + hot) / 2.0));
    let factor = warm.and_then(|t| chemistry.resistance.by_temperature.at(t)).map_or(1.0, Share::get);
    let at = warm.map_or(String::new(), |t| format!(", at {t}"));
    let mut line = line.with(&told.mean).note(format!("from one row to the next, {step}{at}"));
    if line.differs() {
        line = line.edit(Section::ServiceBattery, 0, "resistance_mohm", Some(told.mean.value.get() * 1000.0 / factor));
    }
    let mut lines = vec![line];
    if let Some(drift) = told.drift {
        lines.push(Line::new("resistance-drift", "Its growth in a year").with(&drift));
    }
    lines
}

fn off(
    site: &Installation,
    chemistry: &Chemistry,
    capacity: AmpHours,
    log: &Collected,
    told: Option<&Capacity>,
) -> Line {
    let electronics = chemistry.low.own_draw * (capacity.get() / 100.0);
    let always = |l: &&crate::engine::installation::load::Load| {
        !l.on_starter && l.hours.get() >= 24.0 && l.thermostat.at_25.get() >= 1.0
    };
    let on: Amps = site.loads.iter().filter(always).map(|l| l.running()).sum();
    let planned = standing_current(site).value + electronics + on;
    let line = Line::new("standing-draw", "Draw with everything off").planned(planned);
    let zero = told.map(|t| t.zero);
    let Some(told) = standing(log, zero).filter(|_| log.has_amps) else {
        return line.note("cannot tell: it never stays at one low current");
    };
    let known = zero.is_some_and(|z| z.most.zip(z.least).is_some_and(|(m, l)| m.get() - l.get() < 0.2));
    let note = if known {
        "the meter's zero told by the charge that must balance"
    } else {
        "the meter's zero is not known: 0.1 A taken as usual"
    };
    let line = line.with(&told).note(note);
    if !line.differs() {
        return line;
    }
    let (section, own) = match site.charger.kind {
        ChargerKind::None => (Section::CutOff, site.cut_off.standing_draw),
        _ => (Section::Charger, site.charger.standing_draw),
    };
    let others = planned - own;
    if told.value <= Amps::ZERO {
        return line.note("cannot be a draw: a source was on, or the meter's zero is off");
    }
    if told.value < others {
        return line.note(format!("what else the plan draws then comes to {others} already: look at that first"));
    }
    let rest = told.value - others;
    line.edit(section, 0, "standing_draw_a", Some(rest.get()))
}

fn each_load(plan: &Plan, site: &Installation, log: &Collected, quiet: Amps) -> Vec<Line> {
    let mut lines = Vec::new();
    if !log.has_amps {
        return lines;
    }
    for (n, told) in loads(log, site, quiet.min(Amps::new(0.5))) {
        let load = &site.loads[n];
        let one = load.law.current(Volts::new(12.6)) * load.one();
        let line = Line::new(format!("{}-current", load.name), format!("{}: current", load.name)).planned(one);
        match told {
            Err(Unseen::Rare(steps)) => {
                lines.push(Line { samples: steps, ..line.note("cannot tell: fewer than four steps of its size") });
            }
            Err(Unseen::Like(other)) => lines.push(line.note(format!("cannot tell: {other} takes about as much"))),
            Err(Unseen::Always) => {
                lines.push(line.note("cannot tell: too small or never off; it is within the standing draw"))
            }
            Ok(seen) => {
                let mut line = line.with(&seen.current);
                if line.differs() && !load.inverter {
                    let share = seen.current.value / one;
                    let given = plan.loads.get(n);
                    let power = given.and_then(|l| l.power).map(|w| ("power_w", w.get()));
                    let label = power.or_else(|| given.and_then(|l| l.current).map(|a| ("current_a", a.get())));
                    if let Some((key, label)) = label {
                        line = line.edit(Section::Load, n, key, Some(label * share));
                    }
                }
                lines.push(line);
                let planned = Hours::new(load.hours.get() * load.thermostat.share(site.surroundings.mean).value.get());
                let hours =
                    Line::new(format!("{}-hours", load.name), format!("{}: drawing a day", load.name)).planned(planned);
                let Some(told) = seen.hours else {
                    lines.push(hours.note("cannot tell: its ends are not seen often enough"));
                    continue;
                };
                let mut hours = hours.with(&told);
                let switched = load.hours.get();
                if hours.differs() && told.value.get() <= switched && switched > 0.0 {
                    hours = hours.edit(Section::Load, n, "duty.share_on", Some(told.value.get() / switched));
                } else if hours.differs() && load.allowed.count() as f64 / 60.0 >= told.value.get() {
                    hours = hours.edit(Section::Load, n, "duty.hours_a_day", Some(told.value.get()));
                    hours = hours.edit(Section::Load, n, "duty.share_on", Some(1.0));
                }
                lines.push(hours);
            }
        }
    }
    lines
}

fn extremes(log: &Collected, site: &Installation, before: &Design, expected: Option<&Endurance>) -> Vec<Line> {
    let mut lines = Vec::new();
    if let Some((volts, _)) = log.lowest {
        let low = expected.map(|e| e.points.iter().map(|p| p.volts).fold(Volts::new(99.0), Volts::min));
        let line = Line { planned: low.map(Into::into), ..Line::new("lowest-voltage", "Lowest voltage at the posts") };
        let exact = Estimate { value: Volts::new(volts), least: None, most: None, samples: 1 };
        lines.push(line.with(&exact));
        let below = Estimate { value: Hours::new(log.below / 3600.0), least: None, most: None, samples: log.rows };
        let words = format!("Below the cut-off ({})", before.cut_off.cut);
        lines.push(
            Line::new("below-cut-off", words).planned(expected.map_or(Hours::ZERO, |e| e.cut_hours)).with(&below),
        );
    }
    if let Some((cold, hot)) = log.air {
        let air = &site.surroundings;
        let exact = |v: f64| Estimate { value: Celsius::new(v), least: None, most: None, samples: log.rows };
        let mut coldest = Line::new("coldest", "Coldest").planned(air.coldest).with(&exact(cold));
        if cold < air.coldest.get() - 0.5 {
            coldest = coldest.edit(Section::Surroundings, 0, "coldest_c", Some(cold));
        }
        let mut hottest = Line::new("hottest", "Hottest").planned(air.hottest).with(&exact(hot));
        if hot > air.hottest.get() + 0.5 {
            hottest = hottest.edit(Section::Surroundings, 0, "hottest_c", Some(hot));
        }
        lines.extend([coldest, hottest]);
    }
    lines
}

fn by_hour(log: &Collected, site: &Installation, dated: bool) -> Vec<HourOfDay> {
    let day = if dated { (((log.first + log.last) / 2.0 / DAY).rem_euclid(365.25)).clamp(1.0, 365.0) } else { 172.0 };
    let sun = sun_of(site, day);
    let days = (log.counted / DAY).max(1e-6);
    let within = |hour: usize| {
        let mut minutes = (hour * 60..hour * 60 + 60).filter_map(|m| u16::try_from(m).ok());
        let mut out = Vec::new();
        if site.charger.kind != ChargerKind::None && minutes.clone().any(|m| site.driving.has(m)) {
            out.push("driving");
        }
        let plugged = (0..FORTNIGHT).map(|d| site.plugged.on(d)).collect::<Vec<_>>();
        if site.mains.current > Amps::ZERO && minutes.any(|m| plugged.iter().any(|p| p.has(m))) {
            out.push("mains");
        }
        if site.solar.array > Watts::ZERO && sun.cos_zenith(hour as f64 + 0.5) > 0.0 {
            out.push("sun");
        }
        out.join(" or ")
    };
    let charge = |seconds: f64| AmpHours::new(seconds / 3600.0 / days);
    let hour = |(hour, of): (usize, &crate::engine::ask::log::collect::Hour)| HourOfDay {
        hour,
        into: charge(of.into),
        out: charge(of.out),
        sources: within(hour),
    };
    log.hours.iter().enumerate().map(hour).collect()
}

fn charged(log: &Collected, hours: &[HourOfDay], told: Option<&Capacity>, expected: Option<&Endurance>) -> Vec<Line> {
    if !log.has_amps {
        return Vec::new();
    }
    let zero = told.and_then(|t| Some((t.zero.most? - t.zero.least?) / 2.0)).unwrap_or(Amps::new(0.2));
    let sum = |f: &dyn Fn(&HourOfDay) -> AmpHours| hours.iter().map(f).sum::<AmpHours>();
    let days = expected.map_or(1.0, |e| f64::from(e.days.max(1)));
    let line = |key: String, words: String, value: AmpHours, planned: Option<AmpHours>, over: f64| {
        let error = (zero * Hours::new(over)).get();
        let least = (value.get() - error).max(0.0);
        let told = Estimate {
            value,
            least: Some(AmpHours::new(least)),
            most: Some(AmpHours::new(value.get() + error)),
            samples: log.rows,
        };
        Line { planned: planned.map(|p| (p / days).into()), ..Line::new(key, words).with(&told) }
    };
    let mut lines = vec![
        line("charge-out".into(), "Charge out, a day".into(), sum(&|h| h.out), expected.map(|e| e.ledger.drawn), 24.0),
        line("charge-in".into(), "Charge in, a day".into(), sum(&|h| h.into), expected.map(|e| e.ledger.charged), 24.0),
    ];
    let mut sources: Vec<&str> = hours.iter().map(|h| h.sources.as_str()).filter(|s| !s.is_empty()).collect();
    sources.sort_unstable();
    sources.dedup();
    for source in sources {
        let its = hours.iter().filter(|h| h.sources == source);
        let over = its.clone().count() as f64;
        let value = its.map(|h| h.into).sum();
        lines.push(line(
            format!("charge-in-{}", source.replace(' ', "-")),
            format!("  in the hours of {source}"),
            value,
            None,
            over,
        ));
    }
    if let Some(given) = log.charging {
        let value = AmpHours::new(given / 3600.0 / (log.counted / DAY).max(1e-6));
        lines.push(line("charger".into(), "Charge by the charger's own column, a day".into(), value, None, 0.0));
    }
    lines
}

/// What is different in the plan with these edits.
fn then(plan: &Plan, catalogue: &Catalogue, before: &Design, tally: &Tally, edits: &[Edit]) -> Vec<String> {
    let put = |plan: Plan, e: &Edit| plan.with(e.place, e.value.as_ref());
    let Some(edited) = edits.iter().try_fold(plan.clone(), put) else { return Vec::new() };
    let after = design(&edited, catalogue);
    let mut out: Vec<String> = edits.iter().map(|e| words::edit(&before.installation, plan, e)).collect();
    out.extend(changes(before, &after));
    let new = tally.new_of(&after.installation, &after.findings, &Tally::of(&after.installation, &after.findings));
    out.extend(new.iter().map(|f| format!("{}: {}", f.severity.word(), f.text)));
    out
}

/// The plan's own days over those of the log, from the Monday before it where the log tells the date.
fn simulated(before: &Design, log: &Collected, dated: bool) -> Option<Endurance> {
    let (days, first) = (begin(log, dated), log.last / DAY);
    let first_day = if dated { (days.rem_euclid(365.25) as u32).clamp(1, 365) } else { Span::default().first_day };
    let count = ((first - days).ceil() as u32).clamp(1, 366);
    let span = Span { days: count, first_day, ..Span::default() };
    endurance(before, span, &mut Notes::unkept()).ok()
}

/// Day on which the simulation begins: a Monday; the first of January 1970 was a Thursday.
fn begin(log: &Collected, dated: bool) -> f64 {
    let day = (log.first / DAY).floor();
    if dated { day - (day + 3.0).rem_euclid(7.0) } else { day }
}

fn curve(log: &Collected, expected: Option<&Endurance>, dated: bool) -> Vec<CurveAt> {
    let shift = log.first - begin(log, dated) * DAY;
    let every = log.blocks.len().div_ceil(POINTS).max(1);
    let groups = log.blocks.chunks(every).filter(|_| log.lowest.is_some());
    groups
        .filter_map(|group| {
            let rows: f64 = group.iter().map(|b| b.rows).sum();
            let at = group.first()?.at - log.first;
            let planned = expected.and_then(|e| {
                let after = e.points.partition_point(|p| p.at.get() * 3600.0 <= at + shift);
                e.points.get(after.checked_sub(1)?).map(|p| p.volts)
            });
            let measured = Volts::new(group.iter().map(|b| b.volts).sum::<f64>() / rows.max(1.0));
            Some(CurveAt { at: Hours::new(at / 3600.0), measured, planned })
        })
        .collect()
}
