//! How far may a meter be off?
//!
//! From the plan's `[meter]`, else the catalogue's usual figures. All are
//! bounds; a standard error is the bound over √3, as for any error known by its
//! bounds alone (Guide to the Expression of Uncertainty in Measurement, JCGM
//! 100, clause 4.3.7). Two voltages read with one meter share its error of
//! scale, so their difference has that error of the difference only.

use crate::catalogue::Rules;
use crate::engine::installation::Installation;
use crate::engine::simulate::test_sheet::result::MeterErrors;

/// Bound to standard error.
pub(crate) const BOUND: f64 = 1.732_050_807_568_877_2;

pub(crate) fn meter(site: &Installation, rules: &Rules) -> MeterErrors {
    let own = &site.meter;
    MeterErrors {
        step: own.step.unwrap_or(rules.meter_step.value),
        digits: own.digits.unwrap_or(rules.meter_digits.value),
        reading: own.error.unwrap_or(rules.meter_reading.value),
        clamp: own.clamp_error.unwrap_or(rules.clamp_reading.value),
        clamp_zero: rules.clamp_zero.value,
        load: rules.load_scatter.value,
    }
}

impl MeterErrors {
    /// Variance of one voltage apart from the error of scale: digits, and rounding to half a step.
    pub(crate) fn volt_variance(&self) -> f64 {
        let step = self.step.get();
        ((self.digits * step).powi(2) + (0.5 * step).powi(2)) / 3.0
    }

    /// Variance of a current, measured or not, that moves with all others of its kind.
    pub(crate) fn scale_variance(&self, current: f64, measured: bool) -> f64 {
        let share = if measured { self.clamp.get() } else { self.load.get() };
        (share * current / BOUND).powi(2)
    }

    /// Variance of one measured current by itself.
    pub(crate) fn zero_variance(&self, measured: bool) -> f64 {
        if measured { (self.clamp_zero.get() / BOUND).powi(2) } else { 0.0 }
    }
}
