//! Where does the service battery stand, and in what air?

use crate::engine::installation::Installation;
use crate::plan::{BatteryPlace, HoldDownStyle};
use crate::quantity::{Celsius, Kelvins};

/// Where it stands: as given; a basket hangs under a deck; else in the cabin.
pub fn place(site: &Installation) -> BatteryPlace {
    let usual = match site.hold_down.style {
        HoldDownStyle::StripBasket => BatteryPlace::UnderDeck,
        _ => BatteryPlace::Cabin,
    };
    site.service_battery.place.unwrap_or(usual)
}

/// Coldest air where it stands: as given, or that of the surroundings.
pub fn coldest(site: &Installation) -> Celsius {
    site.service_battery.coldest.unwrap_or(site.surroundings.coldest)
}

/// Hottest air where it stands: as given, or that of its place.
pub fn hottest(site: &Installation) -> Celsius {
    let of_place = match place(site) {
        BatteryPlace::EngineBay => site.surroundings.engine_bay,
        _ => site.surroundings.hottest,
    };
    site.service_battery.hottest.unwrap_or(of_place)
}

/// Air where it stands in such air outside: moved as the plan says of the coldest and the hottest, in between by the
/// straight line. The heat of a running engine is not counted on.
pub fn air_there(site: &Installation, outside: Celsius) -> Celsius {
    let (air, battery) = (&site.surroundings, &site.service_battery);
    let cold = battery.coldest.map_or(0.0, |there| (there - air.coldest).get());
    let hot = battery.hottest.map_or(0.0, |there| (there - air.hottest).get());
    let span = (air.hottest - air.coldest).get();
    let part = if span > 0.0 { ((outside - air.coldest).get() / span).clamp(0.0, 1.0) } else { 0.0 };
    outside + Kelvins::new(cold + (hot - cold) * part)
}
