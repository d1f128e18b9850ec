//! How long and how thick can the welds of a carrier be?

use crate::catalogue::Rules;
use crate::engine::parts::hold_down::Sizes;
use crate::plan::HoldDownStyle;
use crate::quantity::Millimetres;

/// The longest weld that there is room for: along both edges of a strip, and along both legs of a corner.
pub(crate) fn room(sizes: &Sizes) -> Millimetres {
    2.0 * sizes.strip_width.min(sizes.strap_leg)
}

/// The shortest weld that is counted on: six throats, and no less than the rules have.
pub(crate) fn shortest(throat: Millimetres, rules: &Rules) -> Millimetres {
    rules.weld_least.value.max(throat * 6.0)
}

/// The thickest throat that the thinnest metal beside a weld bears.
pub(crate) fn thickest(style: HoldDownStyle, sizes: &Sizes, rules: &Rules) -> Millimetres {
    let thinnest = match style {
        HoldDownStyle::StripBasket => sizes.thickness.min(sizes.strap_thickness),
        _ => sizes.thickness,
    };
    thinnest * rules.weld_throat_share.value.get()
}
