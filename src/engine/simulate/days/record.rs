//! Keeping what a simulation shows: curve, days, ledger, wear.

use crate::engine::physics::cell::life::calendar_life;
use crate::engine::simulate::days::result::{Endurance, EnduranceDay, EndurancePoint, Ledger, LoadHours};
use crate::engine::simulate::days::scenario::Scenario;
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;

/// A starter battery is not below what starting needs by less than this.
const ROUNDING: f64 = 1e-6;
/// About how many points a curve has.
const POINTS: u32 = 2000;

#[derive(Clone, Debug)]
pub(crate) struct Record {
    pub out: Endurance,
    pub today: EnduranceDay,
    /// Every so many minutes a point is kept; zero for none.
    stride: u32,
    minute: u32,
    /// The cut-off was open since 18:00 yesterday.
    evening: bool,
    worn: f64,
    air: f64,
    starter: Share,
}

impl Record {
    pub fn new(loads: usize, span: Span, keep_points: bool) -> Self {
        let minutes = span.days * 1440;
        let out = Endurance {
            days: span.days,
            loads: vec![LoadHours::default(); loads],
            lowest: Share::FULL,
            starter_lowest: Share::FULL,
            ..Endurance::default()
        };
        Record {
            out,
            today: EnduranceDay { lowest: Share::FULL, ..EnduranceDay::default() },
            stride: if keep_points { minutes.div_ceil(POINTS).max(1) } else { 0 },
            minute: 0,
            evening: false,
            worn: 0.0,
            air: 0.0,
            starter: Share::FULL,
        }
    }

    /// Whether the curve is kept, and with it when each load stood without power.
    pub fn keeps_points(&self) -> bool {
        self.stride > 0
    }

    pub fn ledger(&mut self) -> &mut Ledger {
        &mut self.out.ledger
    }

    /// The minute at hand, from the beginning.
    pub fn minute(&self) -> u32 {
        self.minute
    }

    /// Hours after the beginning of the minute at hand.
    pub fn now(&self) -> Hours {
        Hours::new(f64::from(self.minute) / 60.0)
    }

    pub fn opened(&mut self, charge: Share, current: f64) {
        self.out.cuts += 1;
        let now = self.now();
        self.out.first_cut.get_or_insert(now);
        self.out.first_cut_with.get_or_insert((charge, Amps::new(current)));
    }

    /// A load that should draw has no power.
    pub fn lacked(&mut self) {
        let now = self.now();
        self.out.first_lack.get_or_insert(now);
    }

    /// The starter battery stands at so much, of which `keep` is needed to start; the charger took so much out of it.
    pub fn starter(&mut self, charge: Share, helped: f64, keep: f64) {
        self.out.starter_lowest = self.out.starter_lowest.min(charge);
        self.starter = charge;
        self.out.ledger.from_starter += AmpHours::new(helped);
        if charge.get() < keep - ROUNDING {
            let now = self.now();
            self.out.start_lost.get_or_insert(now);
        }
    }

    /// At the end of a minute, or of so many in which nothing switched.
    pub fn minutes(&mut self, minutes: u16, charge: Share, volts: f64, current: f64, air: Celsius, cut: bool) {
        self.minute += u32::from(minutes) - 1;
        if charge < self.today.lowest {
            self.today.lowest = charge;
            if charge < self.out.lowest {
                self.out.lowest = charge;
                self.out.lowest_at = self.now();
            }
        }
        if cut {
            let hour = self.minute % 1440 / 60;
            self.today.cut_hours += Hours::new(f64::from(minutes) / 60.0);
            if hour >= 18 {
                self.evening = true;
            }
            if !(6..18).contains(&hour) {
                self.today.cut_at_night = true;
            }
        }
        if self.stride > 0 && self.minute.is_multiple_of(self.stride) {
            let point = EndurancePoint {
                at: self.now(),
                charge,
                volts: Volts::new(volts),
                current: Amps::new(current),
                starter: self.starter,
                air,
                cut,
            };
            self.out.points.push(point);
        }
        self.minute += 1;
    }

    pub fn hour(&mut self, air: Celsius) {
        self.air += air.get();
    }

    /// At midnight. The day's draw wears like a cycle of that depth.
    pub fn midnight(&mut self, scenario: &Scenario<'_>, charge: Share) {
        let depth = self.today.drawn / scenario.capacity();
        if depth > 0.0 {
            let cycles = &scenario.chemistry.life.cycles;
            let to_end = cycles.at(Share::new(depth.min(1.0))).map_or(0.0, CycleCount::get);
            if to_end > 0.0 {
                self.worn += depth.max(1.0) / to_end;
            }
        }
        self.today.end = charge;
        self.out.cut_hours += self.today.cut_hours;
        let cut_at_night = std::mem::take(&mut self.evening);
        self.out.by_day.push(self.today);
        self.today = EnduranceDay { lowest: Share::FULL, cut_at_night, ..EnduranceDay::default() };
    }

    pub fn finish(mut self, scenario: &Scenario<'_>, start: Share, rated: AmpHours) -> Endurance {
        let days = f64::from(self.out.days.max(1));
        let ends: Vec<f64> = self.out.by_day.iter().map(|d| d.end.get()).collect();
        let last = ends.last().copied().unwrap_or(start.get());
        // Whole weeks only, or fortnights, so that weekdays do not look like drift; the first is settling in.
        let round = scenario.round() as usize;
        let weeks = round as f64 / 7.0;
        let before = ends.len().checked_sub(round + 1).and_then(|i| ends.get(i)).copied().unwrap_or(start.get());
        self.out.weekly_balance = rated * ((last - before) / weeks);
        let rounds = ends.len() / round;
        if rounds >= 2 {
            let (first, end) = (ends.get(round - 1), ends.get(rounds * round - 1));
            if let (Some(a), Some(b)) = (first, end) {
                self.out.drift = Share::new((b - a) / ((rounds - 1) as f64 * weeks));
            }
        }
        let in_use = f64::from(scenario.site.service_battery.days_in_use);
        self.out.wear_cycles = Share::new(self.worn / days * in_use);
        let life = calendar_life(scenario.chemistry, Celsius::new(self.air / (days * 24.0)));
        self.out.wear_calendar = if life.get() > 0.0 { Share::new(1.0 / life.get()) } else { Share::FULL };
        self.out
    }
}
