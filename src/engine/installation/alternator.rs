//! What a hot alternator has left, and how low its voltage falls.

use crate::engine::installation::Installation;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::Alternator;
use crate::quantity::*;
use crate::reckon;

/// Tolerance of the regulated voltage of a fixed alternator: 14.0 ± 0.5 V.
/// Source: US Army TM 5-3895-382-24, Table 33.
pub const REGULATION: Volts = Volts::new(0.5);

/// Hot output at idle less the vehicle's own draw; may be negative.
pub fn spare_idle(site: &Installation) -> Reckoned<Amps, 3> {
    spare(site, idle_share(site))
}

/// Hot output at road speed less the vehicle's own draw; may be negative.
pub fn spare_road(site: &Installation) -> Reckoned<Amps, 3> {
    spare(site, road_share(site))
}

/// Mean over a drive, part of which it idles; may be negative.
pub fn spare_over_drive(site: &Installation) -> Amps {
    let idling = site.vehicle.idling.get();
    spare_road(site).value * (1.0 - idling) + spare_idle(site).value * idling
}

fn spare(site: &Installation, hot: Share) -> Reckoned<Amps, 3> {
    reckon!(Amps: A * s - D,
        A: "rated current" = site.vehicle.alternator_rating,
        s: "hot output as a share of the rating" = hot,
        D: "vehicle's own draw" = site.vehicle.own_draw)
}

/// Hot output at idle as a share of the rating: the plan's or the catalogue's.
pub fn idle_share(site: &Installation) -> Share {
    site.vehicle.idle_share.unwrap_or(site.catalogue.rules.alternator_idle.value)
}

/// Hot output at road speed as a share of the rating: the plan's or the catalogue's.
pub fn road_share(site: &Installation) -> Share {
    site.vehicle.road_share.unwrap_or(site.catalogue.rules.alternator_road.value)
}

/// Where [`lowest_driving_voltage`] comes from.
pub fn lowest_driving_source(site: &Installation) -> String {
    match site.vehicle.alternator {
        _ if site.vehicle.lowest_voltage.is_some() => "entered by you".into(),
        Alternator::Variable => site.catalogue.rules.variable_alternator_low.from.words(),
        Alternator::Fixed => "what a regulator strays under the charging voltage; common practice, no source".into(),
    }
}

/// Lowest steady voltage at the starter battery while driving: the plan's;
/// else for a variable alternator the catalogue's, for a fixed one 0.5 V under
/// its charging voltage.
pub fn lowest_driving_voltage(site: &Installation) -> Volts {
    site.vehicle.lowest_voltage.unwrap_or_else(|| match site.vehicle.alternator {
        Alternator::Variable => site.catalogue.rules.variable_alternator_low.value,
        Alternator::Fixed => site.vehicle.alternator_voltage - REGULATION,
    })
}
