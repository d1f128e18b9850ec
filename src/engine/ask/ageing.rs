//! How fast does the battery age, until when does the promise hold, and how is its capacity tested in an evening?

use crate::catalogue::{Chemical, Chemistry};
use crate::engine::ask::log::capacity::capacity;
use crate::engine::ask::log::marks::{Mark, Tells};
use crate::engine::ask::log::sample::{Estimate, TWO_SIDED};
use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::end_of_life;
use crate::engine::installation::load::Load;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::{Age, TABLE_AIR, resting_voltage};
use crate::engine::simulate::days::scenario::CutSettings;
use crate::engine::simulate::promise::Trials;
use crate::plan::Measured;
use crate::quantity::*;

/// The battery over the years.
#[derive(Clone, Debug, Default)]
pub struct Ageing {
    /// What was found, by time.
    pub found: Vec<Found>,
    /// Share of the capacity that a year was to take.
    pub planned: Share,
    /// The promise holds down to this share of the capacity; none where it does not hold new.
    pub needs: Option<Share>,
    /// Share that a year took; none where two measurements do not tell.
    pub loses: Option<Estimate<Share>>,
    /// The month when the promise no longer holds: likeliest, earliest, latest.
    pub until: [Option<Month>; 3],
    /// How it is meant, or why it cannot be told.
    pub note: String,
    /// How to test the capacity.
    pub test: Option<CapacityTest>,
}

/// The battery at one time.
#[derive(Clone, Debug, Default)]
pub struct Found {
    /// When.
    pub at: Month,
    /// What it held, of what is rated.
    pub share: Share,
    /// With its bounds.
    pub bounds: (Share, Share),
    /// What it was to hold then.
    pub expected: Share,
    /// Its resistance, and what was expected.
    pub resistance: Option<Milliohms>,
    /// See `resistance`.
    pub expected_resistance: Milliohms,
}

/// A month, counted from January of the year 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Month(pub u32);

impl Month {
    /// Of a day since 1970, by the count of days from the first of March, in which a leap day comes last (from memory).
    pub fn of_day(day: i64) -> Month {
        let day = day.saturating_add(719_468);
        let era = day.rem_euclid(146_097);
        let year = (era - era / 1460 + era / 36_524 - era / 146_096) / 365;
        let of_year = era - (365 * year + year / 4 - year / 100);
        let month = (5 * of_year + 2) / 153;
        let months = (day.div_euclid(146_097) * 400 + year) * 12 + month + 2;
        Month(u32::try_from(months).unwrap_or(0))
    }

    /// Its year, and its number in that.
    pub fn parts(self) -> (u32, u32) {
        (self.0 / 12, self.0 % 12 + 1)
    }
}

impl std::fmt::Display for Month {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (year, month) = self.parts();
        write!(f, "{year:04}-{month:02}")
    }
}

/// A discharge of one evening and a rest after it.
#[derive(Clone, Debug, Default)]
pub struct CapacityTest {
    /// What to switch on; none where the plan has nothing of use.
    pub loads: Vec<String>,
    /// What flows then.
    pub current: Amps,
    /// For how long.
    pub hours: Hours,
    /// Earlier when the posts fall below this.
    pub stop_at: Volts,
    /// Everything off for so long before the voltage is read.
    pub rest: Hours,
    /// If the battery holds what is rated: the voltage that it rests at.
    pub rested: Volts,
    /// Between what bounds the capacity is known then, as shares of it; none where that evening is not enough.
    pub least: Option<Share>,
    /// See `least`.
    pub most: Option<Share>,
}

/// A capacity of which nobody says how well it is known: common practice, no source.
const UNSURE: f64 = 0.1;
/// An evening.
const EVENING: f64 = 6.0;

/// All that the plan and its design tell.
pub fn ageing(design: &Design) -> Ageing {
    let site = &design.installation;
    let (Some(chemistry), Some(bank)) = (site.chemistry(), design.battery.bank.as_ref()) else {
        return Ageing { note: "the plan has no battery".into(), ..Ageing::default() };
    };
    let years = design.battery.candidates.iter().find(|c| c.chosen).map_or(Years::new(10.0), |c| c.years);
    let end = end_of_life(site, chemistry);
    let planned = Share::new((1.0 - end.get()) / years.get().max(0.1));
    let found = found(site, chemistry, bank, planned, end);
    let needs = least_health(design, bank);
    let mut out = Ageing { planned, needs, test: test(site, chemistry, bank), ..Ageing::default() };
    out.loses = loses(&found);
    (out.until, out.note) = until(&found, out.loses.as_ref(), needs);
    out.found = found;
    out
}

fn found(site: &Installation, chemistry: &Chemistry, bank: &Bank, planned: Share, end: Share) -> Vec<Found> {
    let mut lines: Vec<&Measured> = site.measured.iter().collect();
    lines.sort_by_key(|m| (m.year, m.month));
    let month = |m: &Measured| Month(m.year * 12 + m.month.clamp(1, 12) - 1);
    let Some(first) = lines.first().map(|m| month(m)) else { return Vec::new() };
    let usual = Milliohms::new(bank.resistance.get() * 1000.0);
    let each = |m: &&Measured| {
        let share = |c: AmpHours| Share::new(c / bank.capacity);
        let held = share(m.capacity.unwrap_or(bank.capacity));
        let sure = if m.capacity.is_some() { UNSURE } else { 0.03 };
        let bound = |given: Option<AmpHours>, by: f64| given.map_or(held * (1.0 + by), share);
        let years = f64::from(month(m).0 - first.0) / 12.0;
        let expected = Share::new((1.0 - planned.get() * years).max(0.0));
        let worn = ((1.0 - expected.get()) / (1.0 - end.get()).max(0.01)).min(1.0);
        Found {
            at: month(m),
            share: held,
            bounds: (bound(m.least, -sure), bound(m.most, sure)),
            expected,
            resistance: m.resistance_mohm,
            expected_resistance: Milliohms::new(usual.get() * (1.0 + (chemistry.resistance.aged_factor - 1.0) * worn)),
        }
    };
    lines.iter().filter(|m| m.capacity.is_some() || month(m) == first).map(each).collect()
}

/// A straight line through what was found, each weighed by its bounds.
fn loses(found: &[Found]) -> Option<Estimate<Share>> {
    let years = |f: &Found| f64::from(f.at.0) / 12.0;
    let weight = |f: &Found| ((f.bounds.1 - f.bounds.0).get() / 2.0 / TWO_SIDED).max(0.005).powi(-2);
    let whole: f64 = found.iter().map(weight).sum();
    let mean = |g: &dyn Fn(&Found) -> f64| found.iter().map(|f| weight(f) * g(f)).sum::<f64>() / whole.max(1e-9);
    let (when, held) = (mean(&years), mean(&|f| f.share.get()));
    let spread: f64 = found.iter().map(|f| weight(f) * (years(f) - when).powi(2)).sum();
    let both: f64 = found.iter().map(|f| weight(f) * (years(f) - when) * (f.share.get() - held)).sum();
    (found.len() >= 2 && spread > 0.0).then(|| Estimate::within(-both / spread, spread.powf(-0.5), found.len()))
}

fn until(found: &[Found], loses: Option<&Estimate<Share>>, needs: Option<Share>) -> ([Option<Month>; 3], String) {
    let Some(needs) = needs else { return ([None; 3], "the promise does not hold with a new battery".into()) };
    let (Some(last), Some(loses)) = (found.last(), loses) else {
        return ([None; 3], "cannot tell: fewer than two measurements in different months".into());
    };
    // The line goes through the last measurement; its ends by the steepest and the flattest, from its own bounds.
    let reach = |from: Share, a_year: f64| {
        let years = (from - needs).get().max(0.0) / a_year;
        (a_year > 0.0 && years < 60.0).then(|| Month(last.at.0 + (years * 12.0).floor() as u32))
    };
    let slope = |s: Option<Share>| s.map_or(0.0, Share::get);
    let month = reach(last.share, loses.value.get());
    let earliest = reach(last.bounds.0, slope(loses.most));
    let latest = reach(last.bounds.1, slope(loses.least));
    let note = match (month, latest) {
        (None, _) => "no loss shows yet that would end it".to_string(),
        (_, None) => "how late it may be cannot be told yet: the measurements lie too near each other".into(),
        _ => "by a straight line through the measurements; batteries often fall faster at their end".into(),
    };
    ([month, earliest, latest], note)
}

/// The least share of its capacity with which the days without charge hold, to one in a hundred.
fn least_health(design: &Design, bank: &Bank) -> Option<Share> {
    let holds = |hundred: u32| {
        let mut site = design.installation.clone();
        // What it has lost already is not asked: by that much it may fall at all.
        site.outfit.measured.clear();
        site.outfit.service_battery.tested = None;
        site.outfit.service_battery.end_of_life = Some(Share::new(f64::from(hundred) / 100.0));
        Trials::new(&site, bank, None)
            .is_some_and(|mut trials| trials.hold(bank, CutSettings::of(&design.cut_off, bank.capacity)))
    };
    if !holds(100) {
        return None;
    }
    let (mut low, mut high) = (10, 100);
    while high - low > 1 {
        let middle = (low + high) / 2;
        if holds(middle) { high = middle } else { low = middle }
    }
    Some(Share::new(f64::from(high) / 100.0))
}

/// What gives the most of the battery in an evening without haste: loads of a tenth of its capacity an hour at most.
fn test(site: &Installation, chemistry: &Chemistry, bank: &Bank) -> Option<CapacityTest> {
    let lead = chemistry.chemical == Chemical::LeadAcid;
    let most = bank.capacity / Hours::new(8.0);
    let usable = |l: &&Load| !l.on_starter && !l.inverter && l.cycle.is_none() && l.thermostat.at_25.get() >= 1.0;
    let mut loads: Vec<&Load> = site.loads.iter().filter(usable).collect();
    loads.sort_by(|a, b| b.running().get().total_cmp(&a.running().get()));
    let mut test = CapacityTest::default();
    for load in loads.into_iter().filter(|l| l.running() > Amps::ZERO) {
        if test.current + load.running() <= most {
            test.current += load.running();
            test.loads.push(load.name.clone());
        }
    }
    // Lithium tells only at its knee; half of lead-acid's charge does it no harm.
    let down_to = if lead { 0.5 } else { 0.05 };
    let wanted = bank.capacity.get() * (1.0 - down_to);
    if test.loads.is_empty() || test.current.get() * EVENING < wanted / 2.0 {
        test.loads.clear();
        test.current = (bank.capacity / Hours::new(10.0)).min(most);
    }
    let limit = if lead { EVENING } else { 2.0 * EVENING };
    test.hours = Hours::new((wanted / test.current.get()).min(limit));
    let drawn = (test.current * test.hours).get();
    let left = Share::new((1.0 - drawn / bank.capacity.get()).max(0.0));
    let store = bank.store(chemistry);
    let floor = store.under_load(Share::new(if lead { 0.3 } else { 0.05 }), test.current, TABLE_AIR, Age::New);
    test.stop_at = Volts::new((floor.get() * 10.0).floor() / 10.0);
    test.rest = Hours::new(if lead { 10.0 } else { 3.0 });
    test.rested = resting_voltage(chemistry, left, TABLE_AIR);
    let told = by_hand(chemistry, bank.capacity, AmpHours::new(drawn), test.hours + test.rest, test.rested, TABLE_AIR);
    let share = |c: AmpHours, value: AmpHours| Share::new(c / value);
    test.least = told.and_then(|t| Some(share(t.least?, t.value)));
    test.most = told.and_then(|t| Some(share(t.most?, t.value)));
    Some(test)
}

/// The capacity by one discharge from full and the rest after it.
pub fn by_hand(
    chemistry: &Chemistry,
    rated: AmpHours,
    drawn: AmpHours,
    over: Hours,
    rested: Volts,
    air: Celsius,
) -> Option<Estimate<AmpHours>> {
    let full = Mark { hours: 0.0, out: 0.0, into: 0.0, goes_on: false, tells: Tells::Full(1.0) };
    let rest = Tells::Rest { volts: rested.get(), error: 0.005, air: Some(air.get()), charged: false };
    let end = Mark { hours: over.get(), out: drawn.get(), into: 0.0, goes_on: true, tells: rest };
    capacity(&[full, end], chemistry, rated, air).map(|c| c.held)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(year: u32, month: u32, share: f64) -> Found {
        let bounds = (Share::new(share - 0.04), Share::new(share + 0.04));
        Found { at: Month(year * 12 + month - 1), share: Share::new(share), bounds, ..Found::default() }
    }

    /// Days since 1970 as any calendar counts them.
    #[test]
    fn months_follow_the_calendar() {
        let days = [(0, "1970-01"), (30, "1970-01"), (31, "1970-02"), (11_016, "2000-02"), (11_017, "2000-03")];
        for (day, month) in days.into_iter().chain([(20_784, "2026-11"), (20_818, "2026-12"), (20_819, "2027-01")]) {
            assert_eq!(Month::of_day(day).to_string(), month, "day {day}");
        }
    }

    /// By hand: a tenth lost in two years is 5 % a year; from 90 % down to 79.5 % takes 2.1 years more.
    #[test]
    fn a_straight_line_says_when_the_promise_ends() {
        let found = [at(2024, 1, 1.0), at(2025, 1, 0.95), at(2026, 1, 0.9)];
        let loses = loses(&found).unwrap();
        assert!((loses.value.get() - 0.05).abs() < 1e-9);
        let (until, _) = until(&found, Some(&loses), Some(Share::new(0.795)));
        let [month, earliest, latest] = until;
        assert_eq!(month.map(|m| m.to_string()), Some("2028-02".into()));
        assert!(earliest < month && latest > month, "{until:?}");
    }

    #[test]
    fn what_cannot_be_told_is_said() {
        let one = [at(2024, 1, 1.0)];
        assert!(loses(&one).is_none());
        assert!(until(&one, None, Some(Share::new(0.8))).1.starts_with("cannot tell"));
        assert!(until(&one, None, None).1.contains("does not hold"));
        let twice = [at(2024, 1, 1.0), at(2024, 1, 0.9)];
        assert!(loses(&twice).is_none(), "two measurements of one month tell no loss");
        let grows = [at(2024, 1, 0.9), at(2026, 1, 0.95)];
        let (until, note) = until(&grows, loses(&grows).as_ref(), Some(Share::new(0.8)));
        assert!(until[0].is_none() && note.starts_with("no loss"), "{note}");
    }
}
