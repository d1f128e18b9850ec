//! Are voltages, delay and rating of the cut-off right?

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::charger::charge_voltage_source;
use crate::engine::installation::cut_off::{Device, inverter_stays_on, longest_start, sold_for, stays_on};
use crate::engine::installation::place::hottest;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::cut_off::counter::{chatters as counter_chatters, word};
use crate::engine::judge::cut_off::limits::{DEEPER, EARLY, UNDER_CHARGING};
use crate::engine::judge::cut_off::order::order;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::cell::store::TABLE_AIR;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::circuit::result::LoadSupply;
use crate::engine::simulate::cut_off::result::{CutOffDesign, Window};
use crate::plan::{CutOffBy, Place, Section, Value};
use crate::quantity::*;

/// Fewer days from cut-off to harm than this are worth a word. Common practice, no source.
const FEW_DAYS: Days = Days::new(14.0);
/// Where 0.1 V means more of the charge than this, voltage says little. Common practice, no source.
const FLAT: Share = Share::new(0.2);
/// Charging must come so close to the reconnect voltage. Common practice, no source.
const REACHED: Volts = Volts::new(0.05);

fn place(key: &'static str) -> Place {
    Place::of(Section::CutOff, key)
}

fn finding(kind: Kind, key: &'static str, text: String, rule: impl Into<String>) -> Finding {
    Finding::new(kind, Subject::CutOff, text).rule(rule).at(place(key))
}

/// A setting where harm has begun; what mends it is for the one who asks to say.
pub(crate) fn harmful(chemistry: &Chemistry, cut: Volts) -> Option<Finding> {
    let (harm, from) = chemistry.low.floor();
    (cut <= harm).then(|| {
        let what = "acts when harm has begun or the battery's own protection has opened";
        let rule = format!("harm begins: {}", from.words());
        finding(Kind::CutOffLow, "cut_v", format!("the cut-off at {cut} {what}, at {harm}"), rule)
    })
}

/// What the two currents ask for, where no one voltage serves both.
pub(crate) fn no_one_voltage(out: &CutOffDesign) -> String {
    let [light, .., heavy] = out.at_currents.as_slice() else { return String::new() };
    let window = out.window.filter(Window::empty);
    window.map_or(String::new(), |Window { lowest, highest }| {
        format!(
            "; no one voltage serves both: {} and the usual current ask for {lowest} or more, {} for {highest} or less",
            light.current, heavy.current
        )
    })
}

/// What to do then, in this order: the heavy load by itself, counted charge, a longer delay, a larger bank.
pub(crate) fn serve_both(found: Finding, out: &CutOffDesign, longest_delay: Seconds) -> Finding {
    let own = "feed what takes the heavy current from the posts by a fused run of its own, switched off by a wire from \
               the cut-off";
    let counted = Some(Value::Text(word(CutOffBy::Charge)));
    let words = "or a cut-off that acts by counted charge, with a voltage as its floor";
    let found = found.remedy(own);
    let found = if out.counter.is_none() { found.remedy_edit(words, place("acts_by"), counted) } else { found };
    let found = match out.delay < longest_delay {
        true => found.remedy_number(
            format!(
                "or a delay of {longest_delay}, where it flows for less, and the battery's own protection waits as long"
            ),
            place("delay_s"),
            longest_delay.get(),
        ),
        false => found,
    };
    match out.served_by {
        Some(bank) => found.remedy(format!("or a bank of about {bank}, with which one voltage serves both")),
        None => found,
    }
}

/// The settings of a plan's cut-off.
pub(crate) struct Settings<'a> {
    site: &'a Installation,
    chemistry: &'a Chemistry,
    device: Device,
    out: &'a CutOffDesign,
}

impl<'a> Settings<'a> {
    /// `None` where there is no battery.
    pub(crate) fn of(site: &'a Installation, out: &'a CutOffDesign) -> Option<Self> {
        let chemistry = site.chemistry().filter(|_| !out.at_currents.is_empty())?;
        Some(Settings { site, chemistry, device: Device::of(&site.cut_off), out })
    }

    pub(crate) fn check(&self, budget: &Budget, supplies: &[LoadSupply]) -> Vec<Finding> {
        // What a battery's signal does is no setting.
        let set = self.site.cut_off.acts_by != CutOffBy::Signal;
        let range = || self.range().filter(|_| set);
        let low = || self.low().filter(|_| set);
        let first = [range(), low(), self.surge(), self.chatter(), self.reconnect_high()];
        let last = [self.flat(), self.standing(budget), self.early()];
        first
            .into_iter()
            .flatten()
            .chain(order(self.site, self.chemistry, self.out, supplies))
            .chain(last.into_iter().flatten())
            .collect()
    }

    fn range(&self) -> Option<Finding> {
        let device = &self.device;
        let wanted = device.cut.unwrap_or(self.out.exact);
        let (low, high) = (wanted.get() < device.lowest.get() - 1e-9, wanted.get() > device.highest.get() + 1e-9);
        (low || high).then(|| {
            let text = format!(
                "the setting wanted is {wanted}, the device can be set from {} to {}",
                device.lowest, device.highest
            );
            let key = if low { "lowest_v" } else { "highest_v" };
            finding(Kind::CutOffRange, key, text, "the setting must be one that the device has")
                .remedy(format!("choose a device that can be set to {wanted}"))
        })
    }

    fn low(&self) -> Option<Finding> {
        let (out, reserve) = (self.out, self.out.reserve);
        if let Some(finding) = harmful(self.chemistry, out.cut) {
            let good = out.nearest.max(self.device.step_up(self.chemistry.low.floor().0 + Volts::new(0.1)));
            let words = format!("set it to {good}, for a reserve of {reserve}");
            return Some(finding.remedy_number(words, place("cut_v"), good.get()));
        }
        let at = out.at_usual()?.trips_at.unwrap_or(Share::ZERO);
        let short = reserve - at;
        (short > DEEPER).then(|| {
            let text = format!(
                "with the usual current the cut-off at {} acts at {at}, {short} under the reserve of {reserve}",
                out.cut
            );
            let good = out.nearest;
            let found = finding(Kind::CutOffLow, "cut_v", text, "the setting is chosen by the usual current; see its working")
                .as_severity(Severity::Caution);
            match self.device.cut {
                Some(_) => found.remedy_number(format!("{good} keeps {reserve}"), place("cut_v"), good.get()),
                // Chosen lower because the higher one cuts in the days without charge.
                None => found.remedy(format!(
                    "{good} would keep {reserve}, but cuts in the days without charge; a larger battery lets it be set so"
                )),
            }
        })
    }

    fn surge(&self) -> Option<Finding> {
        let (out, wanted) = (self.out, self.out.delay_needed);
        let (load, lasts) = longest_start(self.site)?;
        if wanted.get() <= 0.0 || out.delay > lasts {
            return None;
        }
        let text = format!(
            "at the reserve a start pulls the sensing point to {}, under {}; it lasts {lasts} ({}), the delay is {}",
            out.surge_voltage, out.cut, load.name, out.delay
        );
        let rule = "the delay must outlast the start; twice as long is common practice, no source";
        let finding = finding(Kind::CutOffSurge, "delay_s", text, rule);
        Some(if wanted <= self.device.longest_delay {
            finding.remedy_number(format!("a delay of {wanted}"), place("delay_s"), wanted.get())
        } else {
            let most = out.surge_voltage - self.device.step;
            finding.remedy(format!(
                "a device with a delay of {wanted}, or a setting of {most} with the reserve that goes with it"
            ))
        })
    }

    fn chatter(&self) -> Option<Finding> {
        let out = self.out;
        // A counter closes by the count, whatever the posts rebound to.
        if let Some(counter) = out.counter {
            return counter_chatters(&counter);
        }
        if out.reconnect > out.rebound && out.reconnect > out.cut {
            return None;
        }
        let text = format!(
            "after a cut at {} the posts rebound to {} without load, and it reconnects at {}: it would chatter",
            out.cut, out.rebound, out.reconnect
        );
        let rule = format!(
            "reconnect above the rebound; the distance must be at least {}; resting voltage: {}",
            out.hysteresis_needed,
            self.chemistry.resting.words()
        );
        let finding = finding(Kind::CutOffChatter, "reconnect_v", text, rule);
        let good = out.cut + out.hysteresis_needed;
        Some(if good <= out.charging - REACHED {
            let good = self.device.step_up(good);
            finding.remedy_number(format!("reconnect at {good}"), place("reconnect_v"), good.get())
        } else {
            let heavy = out.at_currents.last().map_or(Amps::ZERO, |a| a.current);
            finding.remedy(format!(
                "reduce the heaviest current from {heavy}, or let a switch reconnect: charging reaches only {}",
                out.charging
            ))
        })
    }

    fn reconnect_high(&self) -> Option<Finding> {
        let (out, step) = (self.out, self.device.step);
        if out.reconnect <= out.charging - REACHED {
            return None;
        }
        let text = format!(
            "it reconnects at {}, but charging reaches only {} at the sensing point",
            out.reconnect, out.charging
        );
        let hottest = hottest(self.site).max(TABLE_AIR);
        let rule = format!(
            "reconnect below what charging reaches at the hottest air; charge voltage: {}",
            charge_voltage_source(self.site, self.chemistry, hottest)
        );
        let finding = finding(Kind::ReconnectHigh, "reconnect_v", text, rule);
        // Where charging does not even come a step above the cut-off, no setting closes it again.
        Some(if out.charging < out.cut + step {
            let needed = out.reconnect + Volts::new(0.1);
            let words = format!("charge with {needed} or more, or cut off at {} or less", out.charging - step);
            finding.as_severity(Severity::Stop).remedy(words)
        } else {
            let good = (out.charging - UNDER_CHARGING).max(out.cut + step);
            finding.remedy_number(format!("reconnect at {good}"), place("reconnect_v"), good.get())
        })
    }

    fn flat(&self) -> Option<Finding> {
        if self.out.counter.is_some() {
            return None;
        }
        let (low, high) = self.out.within_tenth;
        (high - low > FLAT).then(|| {
            let text = format!("here 0.1 V up or down moves the charge at the cut-off from {low} to {high}");
            let rule = "where the discharge curve is flat, voltage says little about charge";
            let words = "a cut-off that acts by counted ampere-hours can keep";
            finding(Kind::CutOffFlat, "reserve", text, rule)
                .remedy(format!("{words} {} where a voltage cannot", self.out.reserve))
        })
    }

    fn standing(&self, budget: &Budget) -> Option<Finding> {
        let (site, out) = (self.site, self.out);
        let days = out.days_to_harm.filter(|d| *d < FEW_DAYS)?;
        let text = format!("after the cut-off {} go on being drawn: {days} until harm begins", out.after);
        let low = &self.chemistry.low;
        let begins = match out.harm_decides {
            true => format!("harm begins at {}: {}", low.damage, low.from.damage.words()),
            false => "harm begins where it is empty".into(),
        };
        let finding = Finding::new(Kind::StandingDraw, Subject::CutOff, text)
            .rule(format!("{begins}; a fortnight is common practice, no source"));
        let loads = site.loads.iter().zip(&budget.loads).enumerate();
        let on = loads.filter(|(_, (l, _))| stays_on(site, l)).map(|(i, (l, b))| (i, l, b.charge));
        let biggest = on.max_by(|a, b| a.2.get().total_cmp(&b.2.get()));
        let idle = if inverter_stays_on(site) { budget.inverter_idle } else { AmpHours::ZERO };
        Some(match biggest {
            Some((i, load, charge)) if charge >= idle => finding.at(Place::load(i, "before_cut_off")).remedy_edit(
                format!("put {} behind the cut-off, or recharge within {days}", load.name),
                Place::load(i, "before_cut_off"),
                Some(Value::Flag(false)),
            ),
            _ if idle.get() > 0.0 => finding.at(Place::of(Section::Inverter, "at")).remedy(format!(
                "put the inverter, which takes {idle} a day idle, behind the cut-off, or recharge within {days}"
            )),
            _ => finding
                .at(place("standing_draw_a"))
                .remedy(format!("recharge within {days}, or keep more than {}", out.reserve)),
        })
    }

    /// A fixed voltage cuts early under a heavy current that outlasts the delay.
    fn early(&self) -> Option<Finding> {
        let (heavy, reserve) = (self.out.at_currents.last()?, self.out.reserve);
        let at = heavy.trips_at.filter(|at| *at - reserve > EARLY)?;
        let current = heavy.current;
        let text =
            format!("while {current} flow the cut-off acts at {at} of the charge, not at the reserve of {reserve}");
        let rule =
            "a fixed voltage cannot know the current; a heavy load that lasts longer than the delay is cut early";
        let found = finding(Kind::CutOffEarly, "cut_v", format!("{text}{}", no_one_voltage(self.out)), rule);
        Some(serve_both(found, self.out, self.device.longest_delay).remedy(format!(
            "or let less than {current} run together for longer than {} when the battery is low",
            self.out.delay
        )))
    }

    /// What the device carries.
    pub(crate) fn device(&self) -> Option<Finding> {
        let current = self.out.current;
        let devices = &self.site.catalogue.devices.cut_offs;
        let Some(rating) = self.out.rating else {
            let largest = devices.sizes.iter().copied().fold(Amps::ZERO, Amps::max);
            let text = format!("{current} flow through the cut-off, the largest sold carries {largest}");
            let rule = format!("sizes sold: {}", devices.from.sizes.words());
            return Some(self.bigger(finding(Kind::CutOffRating, "rating_a", text, rule), current));
        };
        let too_small = |carried: Amps| carried.get() > rating.get() + 1e-9;
        if too_small(current) {
            let text = format!("{current} flow through the cut-off, which is rated {rating}");
            let rule = "continuous rating at or above all that can be on together";
            let finding = finding(Kind::CutOffRating, "rating_a", text, rule);
            return Some(self.bigger(finding, current));
        }
        // A fuse larger than the device lets an overload cook it without ever opening.
        let fuse = self.out.path.fuse.filter(|f| too_small(*f))?;
        let text = format!("the fuse of {fuse} before the cut-off lets more flow than its {rating}");
        let rule = "a device is protected by a fuse no larger than its own rating";
        let finding = finding(Kind::CutOffRating, "rating_a", text, rule).as_severity(Severity::Caution);
        Some(self.bigger(finding, fuse))
    }

    /// What carries so much: the size sold, or a contactor.
    fn bigger(&self, finding: Finding, current: Amps) -> Finding {
        match sold_for(&self.site.catalogue, current) {
            Some(size) => finding.remedy_number(format!("a device of {size}"), place("rating_a"), size.get()),
            None => finding.remedy(format!("let a contactor of {current} carry it, worked by the cut-off")),
        }
    }
}
