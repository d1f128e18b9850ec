//! Where does the service battery stand, and in what air?

use crate::engine::installation::Installation;
use crate::plan::{BatteryPlace, HoldDownStyle};
use crate::quantity::{AmpHours, Celsius, Kelvins, Watts};

/// Where it stands: as given; a basket hangs under a deck; else in the cabin.
pub fn place(site: &Installation) -> BatteryPlace {
    let usual = match site.hold_down.style {
        HoldDownStyle::StripBasket => BatteryPlace::UnderDeck,
        _ => BatteryPlace::Cabin,
    };
    site.service_battery.place.unwrap_or(usual)
}

/// Whether it is wet where the battery stands.
pub fn wet(site: &Installation) -> bool {
    matches!(place(site), BatteryPlace::UnderDeck | BatteryPlace::LoadBed | BatteryPlace::EngineBay)
}

/// Coldest air where it stands: as given, or that of the surroundings.
pub fn coldest_air(site: &Installation) -> Celsius {
    site.service_battery.coldest.unwrap_or(site.surroundings.coldest)
}

/// The coldest that it gets itself: the air where it stands, or what its heater pad keeps it at.
pub fn coldest(site: &Installation) -> Celsius {
    warmed(site, heated_capacity(site), coldest_air(site))
}

/// A pad keeps it so far above what it may be charged at, where nobody says more. Common practice, no source.
const ABOVE: Kelvins = Kelvins::new(5.0);

/// What its heater pad keeps it at; `None` where it has none.
pub fn kept_at(site: &Installation) -> Option<Celsius> {
    let usual = || site.chemistry().map(|c| c.limits.charge_min + ABOVE);
    site.service_battery.kept_at.or_else(usual).filter(|_| site.service_battery.heated)
}

/// What a block of 100 Ah loses for each kelvin, in W: 0.35 m² behind 20 mm of foam of 0.035 W/(m K), worked on paper.
const LOSES_100AH: f64 = 0.35 * 0.035 / 0.020;

/// Capacity as given, else that of the bank that was sized with its own pad; a block of 100 Ah where no bank gives what
/// its pad takes.
pub fn heated_capacity(site: &Installation) -> AmpHours {
    site.service_battery.capacity.or(site.kept_warm).unwrap_or(AmpHours::new(100.0))
}

/// Mean power of the heater pad of so large a bank in such air where it stands, at most what it is rated.
pub fn heater(site: &Installation, capacity: AmpHours, air: Celsius) -> Watts {
    let Some(kept) = kept_at(site) else { return Watts::ZERO };
    let wants = Watts::new(LOSES_100AH * capacity.get() / 100.0 * (kept - air).get().max(0.0));
    site.service_battery.heater.map_or(wants, |rated| wants.min(rated))
}

/// What a bank of such capacity has in such air where it stands: the air, or what its pad holds it at.
pub fn warmed(site: &Installation, capacity: AmpHours, air: Celsius) -> Celsius {
    let Some(kept) = kept_at(site) else { return air };
    let loses = LOSES_100AH * capacity.get().max(1e-9) / 100.0;
    let reached = site.service_battery.heater.map_or(kept, |rated| kept.min(air + Kelvins::new(rated.get() / loses)));
    air.max(reached)
}

/// Hottest air where it stands: as given, or that of its place.
pub fn hottest(site: &Installation) -> Celsius {
    let of_place = match place(site) {
        BatteryPlace::EngineBay => site.surroundings.engine_bay,
        _ => site.surroundings.hottest,
    };
    site.service_battery.hottest.unwrap_or(of_place)
}

/// How much warmer than outside the air of an engine bay is with the engine running; nothing elsewhere, nor where the
/// hottest air at the battery is given.
pub fn bay_heat(site: &Installation) -> Kelvins {
    let bay = place(site) == BatteryPlace::EngineBay && site.service_battery.hottest.is_none();
    let heat = (site.surroundings.engine_bay - site.surroundings.hottest).max(Kelvins::ZERO);
    if bay { heat } else { Kelvins::ZERO }
}

/// Air where it stands in such air outside: moved as the plan says of the coldest and the hottest, in between by the
/// straight line. The heat of a running engine is for the hours with it (`bay_heat`).
pub fn air_there(site: &Installation, outside: Celsius) -> Celsius {
    let (air, battery) = (&site.surroundings, &site.service_battery);
    let cold = battery.coldest.map_or(0.0, |there| (there - air.coldest).get());
    let hot = battery.hottest.map_or(0.0, |there| (there - air.hottest).get());
    let span = (air.hottest - air.coldest).get();
    let part = if span > 0.0 { ((outside - air.coldest).get() / span).clamp(0.0, 1.0) } else { 0.0 };
    outside + Kelvins::new(cold + (hot - cold) * part)
}
