//! What happens over days of use?

use crate::engine::design::Design;
use crate::engine::installation::working::Notes;
use crate::engine::judge::days::check;
use crate::engine::judge::finding::Finding;
use crate::engine::simulate::days::endurance as simulated;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::scenario::{CutSettings, Scenario};
use crate::engine::simulate::days::span::{EnduranceError, Span};

/// Simulate a plan with its design.
///
/// # Errors
/// When there is no battery, or the span is outside its ranges.
pub fn endurance(design: &Design, span: Span, notes: &mut Notes) -> Result<Endurance, EnduranceError> {
    simulated(&scenario(design)?, span, notes)
}

/// What speaks against the days.
pub fn endurance_findings(design: &Design, days: &Endurance) -> Vec<Finding> {
    check(&design.installation, design.battery.bank.as_ref(), design.cut_off.reserve, days)
}

/// A design made ready for stepping.
pub(crate) fn scenario(design: &Design) -> Result<Scenario<'_>, EnduranceError> {
    let bank = design.battery.bank.as_ref().ok_or(EnduranceError::NoBattery)?;
    let cut = CutSettings::of(&design.cut_off, bank.capacity);
    let ready = Scenario::new(&design.installation, bank, design.charger.steady, cut, None);
    ready.ok_or(EnduranceError::NoBattery)
}
