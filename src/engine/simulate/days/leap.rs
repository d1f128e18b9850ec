//! From one switching to the next, where nothing happens between them.
//!
//! Currents are those of the beginning; the wells of the battery follow in
//! closed form. The end is looked at before it is believed: where the cut-off,
//! a load's own cut or the battery itself would have acted on the way, there is
//! no leap and the minutes are gone through one by one.

use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::run::{Ask, HourOf, MINUTE, State};

/// Longest leap while something charges, in minutes: what a battery takes changes as it fills, and while driving what
/// the starter battery may still give.
const CHARGING: u16 = 10;
const DRIVING: u16 = 5;

impl State<'_> {
    /// How many minutes may pass at once, by what switches; `sun`: the minute from which the array gives something else.
    pub(super) fn most(&self, minute: u16, ask: &Ask, driving: f64, sun: u16) -> u16 {
        let longest = self.steps.len() as u16;
        if longest == 1 || !self.connected || self.dead || self.low_for > 0.0 || self.high_for > 0.0 {
            return 1;
        }
        let switches = self.now.until.min(minute / 60 * 60 + 60).min(sun).saturating_sub(minute);
        let charging = match driving > 0.0 {
            true => DRIVING,
            false if self.offered(ask) > 0.0 => CHARGING,
            false => longest,
        };
        longest.min(switches).min(charging).min(ask.alike).max(1)
    }

    /// So many minutes at once, or nothing where something would have acted on the voltage before the last of them.
    pub(super) fn leap(&mut self, ask: &Ask, at: &HourOf, minutes: u16, record: &mut Record) -> bool {
        let Some(step) = self.steps.get(usize::from(minutes) - 1).copied() else { return false };
        let length = MINUTE * f64::from(minutes);
        let flow = self.flow(ask, at, &step);
        if flow.out > 0.0 && self.gives_up(&flow, at, &step, length) {
            return false;
        }
        let moved = self.moved(&flow, at, &step);
        if self.counting.is_some_and(|c| c.opens(self.model.charge(moved.wells), length)) {
            return false;
        }
        let end = self.model.source(moved.wells, &at.warmth);
        let sinks = if flow.out > 0.0 { flow.volts - (end.open.get() - flow.out * end.inner.get()) } else { 0.0 };
        let last = flow.volts - sinks * (1.0 - 1.0 / f64::from(minutes));
        let (first, then) = ((flow.volts, self.through(ask, flow.volts)), (last, self.through(ask, last)));
        if self.acts(ask, first, flow.inner, ask.surge) || self.acts(ask, then, end.inner.get(), 0.0) {
            return false;
        }
        self.note(first, flow.inner, ask.starts, record);
        self.note(then, end.inner.get(), false, record);
        let offered = self.offered(ask);
        self.book(&flow, moved, length, offered, at, record);
        (self.volts, self.stands) = (last, Some(end));
        true
    }

    /// Whether something would act at such a voltage at the posts and so much through the cut-off, with a start on top.
    fn acts(&self, ask: &Ask, (posts, through): (f64, f64), inner: f64, surge: f64) -> bool {
        let s = self.scenario;
        let sensed = posts - through * s.cut.between - surge * (inner + s.cut.between);
        sensed < s.cut.cut || posts < s.protection || posts < ask.own_cut
    }
}

#[cfg(test)]
mod tests {
    use crate::catalogue::Catalogue;
    use crate::engine::ask::days::scenario;
    use crate::engine::design;
    use crate::engine::simulate::days::midnight::run;
    use crate::engine::simulate::days::run::Pace;
    use crate::engine::simulate::days::scenario::Vary;
    use crate::engine::simulate::days::span::Span;
    use crate::plan::{examples, read};
    use crate::quantity::*;

    /// The same days gone through minute by minute: lowest charge and charge at each midnight within 0.5 points,
    /// the voltage that decides the cut-off within 10 mV, the same answer whether anything is cut.
    #[test]
    fn leaps_end_where_the_minutes_do() {
        let catalogue = Catalogue::embedded().unwrap();
        let loads = "[[load]]\nname = \"pump\"\npower_w = 60\nduty.hours_a_day = 0.5\nstart.times = 3\nstart.seconds = 2\n\
                     [[load]]\nname = \"fridge\"\npower_w = 45\nduty.share_on = 0.4\nduty.share_per_k = 0.012\n";
        for example in examples() {
            for (chemistry, more) in [("agm", ""), ("lithium-iron-phosphate", loads)] {
                let text = format!("{}\n{more}", example.text);
                let mut plan = read(&text, &catalogue).plan;
                plan.service_battery.chemistry = chemistry.into();
                let design = design(&plan, &catalogue);
                let scenario = scenario(&design).unwrap();
                for (first_day, fed, health) in [(20, true, 0.8), (200, true, 1.0), (20, false, 0.8)] {
                    let days = if fed { 8 } else { design.installation.days_without_charge.get().ceil() as u32 };
                    let span = Span { days, first_day, health: Share::new(health), ..Span::default() };
                    let vary = Vary { fed, ..Vary::of(span) };
                    let (minutes, leaps) =
                        (run(&scenario, span, &vary, Pace::Minutes), run(&scenario, span, &vary, Pace::Leaps));
                    let what = format!("{} with {chemistry} on day {first_day}, fed: {fed}", example.name);
                    assert!((minutes.lowest - leaps.lowest).get().abs() < 0.005, "{what}");
                    for (a, b) in minutes.by_day.iter().zip(&leaps.by_day) {
                        assert!((a.end - b.end).get().abs() < 0.005, "{what}: {} and {}", a.end, b.end);
                    }
                    for delay in [0.0, 1.0, 30.0].map(Seconds::new) {
                        let lowest =
                            |e: &super::super::result::Endurance| e.lows.lowest(Ohms::from_milli(8.0), delay).unwrap();
                        let (a, b) = (lowest(&minutes), lowest(&leaps));
                        assert!((a - b).get().abs() < 0.01, "{what}: {a} and {b}");
                    }
                    assert_eq!(minutes.cuts > 0, leaps.cuts > 0, "{what}");
                }
            }
        }
    }
}
