//! What do the metal of the carrier, its welds and the deck stand?

use crate::catalogue::{Provenance, Rules};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::plate::{plate_stress, weld_strength};
use crate::plan::{CarrierMetal, Deck, HoldDown};
use crate::quantity::Millimetres;

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

/// Wood around a washer holds up that under it: three times the strength across the grain (EN 1995-1-1 8.5.2, from memory).
const CONFINED: f64 = 3.0;

/// What wood stands under a washer, a plate or an ear, its factor off.
pub(crate) fn wood_crush(rules: &Rules) -> f64 {
    CONFINED * rules.plywood_crush.value.get() / rules.plywood_partial.value.max(1.0)
}

/// What a newton of pull at one stud uses of the deck, bent, pulled through or crushed, and whose strengths that is.
fn deck_parts<'a>(carrier: &HoldDown, pad: Millimetres, rules: &'a Rules) -> Vec<(f64, [&'a Provenance; 2])> {
    let (t, span, pad) = (carrier.deck_thickness.get(), carrier.deck_span.get(), pad.get());
    let bent = plate_stress(t, span, pad);
    let sheet = |kind, yields: &'a Provenance, tensile: &'a Provenance| {
        let metal = Metal::of(kind, rules);
        let through = pulled_through(t, pad, &metal);
        vec![(bent / metal.yields, [yields, &rules.metal_partial.from]), (through, [tensile, &rules.bolt_partial.from])]
    };
    match carrier.deck {
        Deck::SteelSheet => sheet(CarrierMetal::Steel, &rules.strip_yield.from, &rules.strip_tensile.from),
        Deck::AluminiumSheet => {
            sheet(CarrierMetal::Aluminium, &rules.aluminium_proof.from, &rules.aluminium_tensile.from)
        }
        Deck::Plywood => [
            (bent, &rules.plywood_bending),
            (1.0 / (4.0 * pad * t), &rules.plywood_shear),
            (1.0 / (pad * pad), &rules.plywood_crush),
        ]
        .map(|(stress, strength)| {
            let factor = &rules.plywood_partial;
            (stress * factor.value.max(1.0) / strength.value.get(), [&strength.from, &factor.from])
        })
        .to_vec(),
    }
}

/// Share of a sheet that a newton uses which pulls a washer or plate of this width through it: half of the strength, as
/// EN 1993-1-3 table 8.2 has it for loads that come again and again.
fn pulled_through(thickness: f64, pad: f64, metal: &Metal) -> f64 {
    1.0 / (0.5 * pad * thickness * metal.tensile)
}

/// Share that a newton uses where a washer is pulled through the deck, or crushes it, and whose strengths that is. Bent
/// it only dents.
pub(crate) fn washer_in_deck<'a>(
    carrier: &HoldDown,
    washer: Millimetres,
    rules: &'a Rules,
) -> Option<(f64, [&'a Provenance; 2])> {
    deck_parts(carrier, washer, rules).into_iter().skip(1).max_by(|a, b| a.0.total_cmp(&b.0))
}

/// The same where it is pulled through the hold-down's own metal.
pub(crate) fn washer_in_metal<'a>(
    carrier: &HoldDown,
    thickness: Millimetres,
    washer: Millimetres,
    rules: &'a Rules,
) -> (f64, [&'a Provenance; 2]) {
    let tensile = match carrier.metal {
        CarrierMetal::Steel => &rules.strip_tensile.from,
        CarrierMetal::Aluminium => &rules.aluminium_tensile.from,
    };
    let metal = Metal::of(carrier.metal, rules);
    (pulled_through(thickness.get(), washer.get(), &metal), [tensile, &rules.bolt_partial.from])
}

/// Share of the deck that a pull at one stud uses, in newtons.
pub(crate) fn deck_used(carrier: &HoldDown, sizes: &Sizes, rules: &Rules, pull: f64) -> f64 {
    pull * deck_parts(carrier, sizes.spreader, rules).iter().fold(0.0, |worst, part| f64::max(worst, part.0))
}

/// Whose strengths rule the deck.
pub(crate) fn deck_ruled_by<'a>(carrier: &HoldDown, sizes: &Sizes, rules: &'a Rules) -> Vec<&'a Provenance> {
    let worst = deck_parts(carrier, sizes.spreader, rules).into_iter().max_by(|a, b| a.0.total_cmp(&b.0));
    worst.map_or(Vec::new(), |part| part.1.to_vec())
}

/// Whose strengths rule the ribs of a hollow floor.
pub(crate) fn rib_ruled_by(deck: Deck, rules: &Rules) -> Vec<&Provenance> {
    match deck {
        Deck::SteelSheet => vec![&rules.strip_yield.from, &rules.metal_partial.from, &rules.steel_modulus.from],
        Deck::AluminiumSheet => {
            vec![&rules.aluminium_proof.from, &rules.metal_partial.from, &rules.aluminium_modulus.from]
        }
        Deck::Plywood => vec![&rules.plywood_crush.from, &rules.plywood_partial.from],
    }
}

/// Share of a spreader plate that a pull uses: it bends over the washer, twice the stud wide.
pub(crate) fn spreader_used(sizes: &Sizes, metal: &Metal, stud: f64, hole: f64, pull: f64) -> f64 {
    let (side, t) = (sizes.spreader.get(), sizes.spreader_thickness.get());
    let out = ((side - 2.0 * stud) / 2.0).max(0.0);
    let moment = pull / side * out * out / 2.0;
    moment * 6.0 / ((side - hole).max(1.0) * t * t) / metal.yields
}
