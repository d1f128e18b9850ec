//! How much charge is left after months without use?
//!
//! What goes on being drawn takes the same each day; what the battery loses by itself is a share of what it has, twice
//! as much for every 10 K. Left out: that a lead-acid battery gives less in the cold, which stands with the freezing.

use crate::engine::installation::Installation;
use crate::engine::installation::place::{air_there, coldest};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::self_discharge_factor;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::cut_off::rest::connected;
use crate::quantity::*;
use crate::reckon;

/// So long it may be left, where the plan does not say. Common practice, no source.
pub const USUAL: Days = Days::new(91.0);

/// The battery left without use.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Standing {
    /// For so long: as given, or three months.
    pub days: Days,
    /// Drawn all the while, with its own electronics and without what it loses by itself.
    pub draw: Amps,
    /// Share of the charge that it loses by itself in a month there.
    pub leak: Share,
    /// Charge that is left then; zero where it is empty before.
    pub left: Share,
    /// Days until it is empty; `None` where that is never.
    pub empty_after: Option<Days>,
    /// Days until it is lower than what it may stand at; `None` where that is never.
    pub good_for: Option<Days>,
    /// Coldest air meanwhile.
    pub coldest: Celsius,
    /// Where it freezes with what is left; `None` for a kind that does not.
    pub freezes: Option<Celsius>,
}

/// Leave a bank standing.
pub(crate) fn standing(site: &Installation, budget: &Budget, bank: &Bank, notes: &mut Notes) -> Option<Standing> {
    let (chemistry, given) = (site.chemistry()?, &site.standing);
    let own = chemistry.low.own_draw * (bank.capacity.get() / 100.0);
    let draw = own + if given.disconnected { Amps::ZERO } else { connected(site, budget) };
    let days = given.days.unwrap_or(USUAL);
    let mean = air_there(site, site.surroundings.mean);
    let leak = Share::new(chemistry.life.self_discharge.get() * self_discharge_factor(mean));
    let by_draw = draw * Hours::new(24.0) / bank.capacity;
    let by_itself = (leak.get() / 30.0).max(1e-9);
    let left = left(given.charge, by_draw, by_itself, days);
    let left = notes.reckon(&Subject::ServiceBattery, "left standing", left, |r| {
        r.working("charge left after standing without use")
            .source(format!(
                "self-discharge twice as fast for every 10 K; {}",
                chemistry.life.from.self_discharge.words()
            ))
            .note(format!("{draw} drawn all the while, {leak} of what is there lost in a month at {mean}"))
    });
    let until = |share: f64| {
        let rest = by_draw / by_itself;
        let days = ((given.charge.get() + rest) / (share + rest)).ln() / by_itself;
        (days.is_finite() && days < LONG).then(|| Days::new(days.max(0.0)))
    };
    Some(Standing {
        days,
        draw,
        leak,
        left,
        empty_after: until(0.0),
        good_for: until(chemistry.low.stand_above.get()),
        coldest: given.coldest.unwrap_or_else(|| coldest(site)),
        freezes: chemistry.cold.freezing.as_ref().and_then(|curve| curve.at(left)),
    })
}

/// More days than anything stands.
const LONG: f64 = 36_500.0;

fn left(from: Share, by_draw: f64, by_itself: f64, days: Days) -> Reckoned<Share, 4> {
    reckon!(Share: max((q + a / b) * exp(0.0 - b * t) - a / b, 0.0),
        q: "charge that it is left with" = from,
        a: "share of the capacity drawn a day" = Share::new(by_draw),
        b: "share lost by itself a day" = Share::new(by_itself),
        t: "left standing" = days)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked on paper. 60 mA for 91 days are 131 Ah, which end 100 Ah and leave 34.5 % of 200 Ah; a tenth a month by
    /// itself leaves e^-0.3 = 74.1 % after 90 days.
    #[test]
    fn draws_and_self_discharge_take_what_is_worked_out_by_hand() {
        let drawn = |ah: f64| left(Share::FULL, 0.06 * 24.0 / ah, 1e-9, USUAL).value.get();
        assert!(drawn(100.0) == 0.0 && (drawn(200.0) - 0.345).abs() < 0.001, "{}", drawn(200.0));
        let lost = left(Share::FULL, 0.0, 0.1 / 30.0, Days::new(90.0)).value.get();
        assert!((lost - 0.741).abs() < 0.0005, "{lost}");
    }
}
