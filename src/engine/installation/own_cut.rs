//! What the battery itself says of being empty: its own protection, and the signal by which a cut-off may act.

use crate::catalogue::{Catalogue, How, Provenance};
use crate::plan::{CutOffBy, Outfit, Permit, ServiceBattery, point};
use crate::quantity::Volts;

/// What a plan says of its battery's own protection stands before what is usual of its kind.
pub(crate) fn of_this_battery(catalogue: &mut Catalogue, battery: &ServiceBattery) {
    // To change a row is to have all rows anew.
    if battery.own_cut.is_none() && battery.locks_below.is_none() {
        return;
    }
    let entered = Provenance { how: How::User, source: "entered by you".into(), ..Provenance::default() };
    for chemistry in catalogue.chemistries.iter_mut().filter(|c| c.key == battery.chemistry) {
        if let Some(own) = battery.own_cut {
            chemistry.low.own_protection = Some(own);
            chemistry.low.from.own_protection = entered.clone();
        }
        // Below its lock it takes no charge, whatever its cells stand.
        if let Some(lock) = battery.locks_below.filter(|lock| *lock >= chemistry.limits.charge_min) {
            chemistry.limits.charge_min = lock;
            chemistry.limits.from.charge_min = entered.clone();
        }
    }
}

/// Where the battery's own signal opens a cut-off, and by what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Signal {
    /// Its permission to discharge goes.
    Permission(Volts),
    /// It has no such output: its protection opens.
    Protection(Volts),
}

impl Signal {
    /// At which voltage at the posts.
    pub fn at(self) -> Volts {
        match self {
            Signal::Permission(at) | Signal::Protection(at) => at,
        }
    }
}

/// The battery's own signal; `None` where it has none.
pub(crate) fn signal(catalogue: &Catalogue, battery: &ServiceBattery) -> Option<Signal> {
    let own = catalogue.chemistry(&battery.chemistry).and_then(|c| c.low.own_protection);
    if battery.permits.count(Permit::Discharge) > 0 {
        return battery.permits_to.or(own).map(Signal::Permission);
    }
    own.map(Signal::Protection)
}

/// A cut-off that acts by the battery's signal acts on the voltage at its posts, and is set by nobody.
pub(crate) fn by_signal(outfit: &mut Outfit, catalogue: &Catalogue) {
    if outfit.cut_off.acts_by != CutOffBy::Signal {
        return;
    }
    if let Some(signal) = signal(catalogue, &outfit.service_battery) {
        outfit.cut_off.cut = Some(signal.at());
        outfit.cut_off.senses_at = point::SERVICE_BATTERY.into();
    }
}
