//! What does a logger tell at one moment, and what does one number from many such moments look like?

use crate::quantity::*;

/// One row of a log.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sample {
    /// By the log's own clock: since 1970, or since the logger was started.
    pub at: Seconds,
    /// At the battery's posts.
    pub volts: Option<Volts>,
    /// Of the battery; which way it flows is found out afterwards.
    pub amps: Option<Amps>,
    /// At the battery.
    pub air: Option<Celsius>,
    /// What a charger gives, where it is logged.
    pub charging: Option<Amps>,
    /// Rows are missing before it, or the clock was set.
    pub after_gap: bool,
}

/// A number, the bounds between which it lies in 95 of 100 logs, and how many samples it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate<Q> {
    /// The likeliest.
    pub value: Q,
    /// At least; none where nothing bounds it.
    pub least: Option<Q>,
    /// At most.
    pub most: Option<Q>,
    /// Marks, steps or rows.
    pub samples: usize,
}

impl<Q: Quantity> Estimate<Q> {
    /// Within twice its standard error of 95 of 100.
    pub fn within(value: f64, error: f64, samples: usize) -> Estimate<Q> {
        let reach = TWO_SIDED * error;
        let bound = |v: f64| v.is_finite().then(|| Q::of(v));
        Estimate { value: Q::of(value), least: bound(value - reach), most: bound(value + reach), samples }
    }
}

/// Standard errors on either side that hold 95 of 100 (normal distribution).
pub const TWO_SIDED: f64 = 1.96;
