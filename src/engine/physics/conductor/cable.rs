//! What copper is in a cable, whatever is printed on its reel?
//!
//! A size of the catalogue is taken by its published resistance. A trade label
//! is taken by the copper that is really in it: R' = 17.241 / S × 1.02, where
//! 1.02 is the lay of the strands.

use crate::catalogue::{COPPER_OHM_MM2_PER_KM, Catalogue, Conductor, ConductorFrom, Family, TradeLabel};
use crate::quantity::*;
use std::borrow::Cow;

/// Strands are longer than the cable they lie in: 2 % for concentric lay (ASTM B8, from memory).
pub const STRAND_LAY: f64 = 1.02;

/// A cable that can be bought under a label.
#[derive(Clone, Debug)]
pub struct Cable<'a> {
    /// Label, area, resistance, outside diameter.
    pub conductor: Cow<'a, Conductor>,
    /// The trade label it is sold by, when that label misleads.
    pub trap: Option<&'a TradeLabel>,
}

impl<'a> Cable<'a> {
    /// A size of the catalogue.
    pub fn of(conductor: &'a Conductor) -> Self {
        Cable { conductor: Cow::Borrowed(conductor), trap: None }
    }

    /// The cable with this label: a size of the catalogue or a trade label; `None` when there is neither.
    pub fn labelled(catalogue: &'a Catalogue, label: &str) -> Option<Self> {
        if let Some(conductor) = catalogue.conductor(label) {
            return Some(Cable::of(conductor));
        }
        let trap = catalogue.trade_labels.iter().find(|t| t.label == label)?;
        if trap.copper <= SquareMillimetres::ZERO {
            return None;
        }
        let copper = &trap.from.copper;
        let conductor = Conductor {
            label: trap.label.clone(),
            family: Family::Metric,
            area: trap.copper,
            resistance: OhmsPerKm::new(COPPER_OHM_MM2_PER_KM / trap.copper.get() * STRAND_LAY),
            outside: outside(catalogue, trap),
            carries: None,
            from: ConductorFrom {
                area: copper.clone(),
                resistance: copper.clone(),
                outside: copper.clone(),
                ..ConductorFrom::default()
            },
        };
        Some(Cable { conductor: Cow::Owned(conductor), trap: Some(trap) })
    }

    /// Label as sold.
    pub fn label(&self) -> &str {
        &self.conductor.label
    }

    /// Diameter of the copper: strands fill a share π/4 of their circle, as
    /// loosely packed round wires do, so d = 4/π × √S.
    pub fn copper_diameter(&self) -> Millimetres {
        let solid = self.conductor.area.get().max(0.0);
        let loose = 4.0 / std::f64::consts::PI * solid.sqrt();
        // Thin walls: leave at least a twentieth of the diameter for the insulation on each side.
        Millimetres::new(loose.min(self.conductor.outside.get() * 0.9))
    }
}

/// Outside diameter of a trade label: that of the smallest metric size with as much copper.
fn outside(catalogue: &Catalogue, trap: &TradeLabel) -> Millimetres {
    let sizes = || catalogue.sizes(Family::Metric);
    let fits = sizes().find(|c| c.area >= trap.copper).or_else(|| sizes().last());
    fits.map_or(Millimetres::new(2.0 + 1.5 * trap.copper.get().sqrt()), |c| c.outside)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 57 strands of 0.32 mm are sold as "6 mm": 4.584 mm² (printed 4.59), a common
    /// trade table; tolerance 0.5 %. 6 mm² of IEC 60228 class 5 has 3.30 Ω/km.
    #[test]
    fn a_label_by_outside_diameter_holds_less_than_it_says() {
        let catalogue = Catalogue::embedded().unwrap();
        let strands = 57.0 * std::f64::consts::FRAC_PI_4 * 0.32 * 0.32;
        let cable = Cable::labelled(&catalogue, "6 mm auto").unwrap();
        assert!((cable.conductor.area.get() / strands - 1.0).abs() < 0.005);
        assert!(cable.conductor.resistance.get() > 3.30, "{}", cable.conductor.resistance);
        assert!(cable.trap.is_some());
        assert!(Cable::labelled(&catalogue, "6 mm²").unwrap().trap.is_none());
        assert!(Cable::labelled(&catalogue, "a rope").is_none());
    }

    #[test]
    fn the_copper_fits_into_every_cable() {
        let catalogue = Catalogue::embedded().unwrap();
        let labels = catalogue.conductors.iter().map(|c| &c.label);
        for label in labels.chain(catalogue.trade_labels.iter().map(|t| &t.label)) {
            let cable = Cable::labelled(&catalogue, label).unwrap();
            let (inner, outer) = (cable.copper_diameter().get(), cable.conductor.outside.get());
            assert!(inner > 0.0 && inner <= 0.9 * outer + 1e-12, "{label}: {inner} in {outer} mm");
        }
    }
}
