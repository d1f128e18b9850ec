//! Does the cut-off close onto an inverter whose capacitors are empty?

use crate::engine::installation::Installation;
use crate::engine::installation::cut_off::behind;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

/// Across an open contact it fills the capacitors of a usual inverter within a second or two and stays cool meanwhile.
/// Common practice, no source.
const FILLS: Ohms = Ohms::new(25.0);

/// The contact closes onto what is as good as a short circuit for a moment, with nothing that fills it first.
pub(crate) fn check(site: &Installation, bank: &Bank, runs: &[RunDesign], cut_off: &CutOffDesign) -> Option<Finding> {
    let inverter = &site.inverter;
    if inverter.rating <= Watts::ZERO || inverter.pre_charged || behind(site, &inverter.at) != Some(true) {
        return None;
    }
    let volts = cut_off.reconnect;
    let path = site.circuits.path_to(&inverter.at).unwrap_or_default();
    let loop_of = |b: &usize| runs.get(site.circuits.branches[*b].run)?.size.as_ref().map(|size| size.resistance);
    let resistance = bank.resistance + path.iter().filter_map(loop_of).sum::<Ohms>();
    let rush = if resistance > Ohms::ZERO { format!("some {} flow", volts / resistance) } else { "much flows".into() };
    let text = format!(
        "as the cut-off closes at {volts} the inverter's capacitors are empty: {rush} for a moment, which may weld its \
         contact, or open it again"
    );
    let place = Place::of(Section::Inverter, "pre_charged");
    Some(
        Finding::new(Kind::PreCharge, Subject::Inverter, text)
            .rule("capacitors are filled before a contact closes onto them; common practice, no source")
            .at(place)
            .remedy_edit(
                format!(
                    "fill them first: a resistor of {FILLS} across the contact, {} at {volts}, for 2 s before it closes; \
                     or an inverter or a cut-off that does it by itself, as its sheet says",
                    volts / FILLS
                ),
                place,
                Some(Value::Flag(true)),
            )
            .remedy("or switch it by its remote input, and leave its contact closed"),
    )
}
