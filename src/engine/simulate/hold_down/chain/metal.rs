//! What do the metal of the carrier, its welds and the deck stand?

use crate::catalogue::Rules;
use crate::engine::physics::steel::plate::{plate_stress, weld_strength};
use crate::plan::{CarrierMetal, Deck, HoldDown};

/// Strengths of one metal with their partial factors taken off; megapascals.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Metal {
    /// Yield over its factor.
    pub yields: f64,
    /// Tensile strength over the factor of bolts and welds.
    pub tensile: f64,
    /// On the throat of a fillet weld.
    pub weld: f64,
}

impl Metal {
    pub(crate) fn of(metal: CarrierMetal, rules: &Rules) -> Metal {
        let (yields, tensile) = match metal {
            CarrierMetal::Steel => (rules.strip_yield.value, rules.strip_tensile.value),
            CarrierMetal::Aluminium => (rules.aluminium_proof.value, rules.aluminium_tensile.value),
        };
        let correlation = match metal {
            CarrierMetal::Steel => rules.weld_correlation.value,
            CarrierMetal::Aluminium => 1.0,
        };
        let factor = rules.bolt_partial.value.max(1.0);
        Metal {
            yields: yields.get() / rules.metal_partial.value.max(1.0),
            tensile: tensile.get() / factor,
            weld: weld_strength(tensile.get(), correlation, factor),
        }
    }
}

/// Share of the deck that a pull at one stud uses, in newtons: bent, pulled through or crushed, the worst.
pub(crate) fn deck_used(carrier: &HoldDown, rules: &Rules, pull: f64) -> f64 {
    let (t, span, pad) = (carrier.deck_thickness.get(), carrier.deck_span.get(), carrier.spreader.get());
    let bent = pull * plate_stress(t, span, pad);
    let sheet = |metal| {
        let metal = Metal::of(metal, rules);
        // Half, as EN 1993-1-3 table 8.2 has it for loads that come again and again.
        (bent / metal.yields).max(pull / (0.5 * pad * t * metal.tensile))
    };
    match carrier.deck {
        Deck::SteelSheet => sheet(CarrierMetal::Steel),
        Deck::AluminiumSheet => sheet(CarrierMetal::Aluminium),
        Deck::Plywood => {
            let of = |strength: f64| strength / rules.plywood_partial.value.max(1.0);
            (bent / of(rules.plywood_bending.value.get()))
                .max(pull / (4.0 * pad * t) / of(rules.plywood_shear.value.get()))
                .max(pull / (pad * pad) / of(rules.plywood_crush.value.get()))
        }
    }
}

/// Share of a spreader plate that a pull uses: it bends over the washer, twice the stud wide.
pub(crate) fn spreader_used(carrier: &HoldDown, metal: &Metal, stud: f64, hole: f64, pull: f64) -> f64 {
    let (side, t) = (carrier.spreader.get(), carrier.spreader_thickness.get());
    let out = ((side - 2.0 * stud) / 2.0).max(0.0);
    let moment = pull / side * out * out / 2.0;
    moment * 6.0 / ((side - hole).max(1.0) * t * t) / metal.yields
}
