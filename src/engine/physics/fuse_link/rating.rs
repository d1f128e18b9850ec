//! What does a fuse-link carry and break in the air and at the voltage of its place?

use crate::catalogue::{Catalogue, FuseStyle};
use crate::quantity::*;

/// Air temperature at which fuse-links are rated: 25 °C (fuse application notes).
pub const RATED_AIR: Celsius = Celsius::new(25.0);

/// Share of its rating that a style keeps in warm air: 1 - lost per kelvin × (air - 25 °C), 0.1 at the least, 1 in the cold.
pub fn rerating(style: &FuseStyle, air: Celsius) -> f64 {
    (1.0 - style.lost_per_k * (air - RATED_AIR).get().max(0.0)).max(0.1)
}

/// By how much a link carries more than its rating in cold air: 1 + lost per kelvin × (25 °C - air).
pub fn cold_carrying(style: &FuseStyle, air: Celsius) -> f64 {
    1.0 + style.lost_per_k * (RATED_AIR - air).get().max(0.0)
}

/// What a style breaks at the circuit's voltage; zero where it is not made for that.
pub fn breaking(style: &FuseStyle, circuit: Volts) -> Amps {
    let row = style.breaking_at(circuit).filter(|_| style.rated.get() >= circuit.get());
    row.map_or(Amps::ZERO, |b| b.amps)
}

/// The styles to choose from, by preference, those that must be asked for left out; only the one with the key where
/// `pin` gives it.
pub fn styles<'c>(catalogue: &'c Catalogue, pin: Option<&str>) -> impl Iterator<Item = &'c FuseStyle> + Clone {
    catalogue.fuse_styles.iter().filter(move |s| pin.map_or(!s.only_asked, |key| s.key == key))
}

/// The nearest rating made above and below, each in the first style that has it.
pub fn made_near<'c>(
    styles: impl Iterator<Item = &'c FuseStyle> + Clone,
    rating: Amps,
) -> [Option<(&'c FuseStyle, Amps)>; 2] {
    let made = || styles.clone().flat_map(|s| s.ratings.iter().map(move |r| (s, *r)));
    let (above, below) = (made().filter(|m| m.1 > rating), made().filter(|m| m.1 < rating));
    [above.reduce(|a, b| if b.1 < a.1 { b } else { a }), below.reduce(|a, b| if b.1 > a.1 { b } else { a })]
}
