//! Which inputs matter most: one at a time from its 10 % to its 90 % value.

use crate::engine::simulate::chance::draw::{Input, Ranges, with_shares};
use crate::engine::simulate::days::midnight::run;
use crate::engine::simulate::days::run::Pace;
use crate::engine::simulate::days::scenario::Scenario;
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;

/// One bar of the tornado.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Which input.
    pub input: Input,
    /// Its 10 % value, and the lowest charge with it.
    pub low: (Figure, Share),
    /// Its 90 % value, and the lowest charge with it.
    pub high: (Figure, Share),
}

impl Bar {
    /// How far it moves the lowest charge.
    pub fn spread(&self) -> Share {
        (self.high.1 - self.low.1).abs()
    }
}

/// The bars, the longest first.
pub fn tornado(scenario: &Scenario<'_>, span: Span, ranges: &Ranges) -> Vec<Bar> {
    let end = |input: Input, share: f64| {
        let mut shares = [0.5; 7];
        shares[input as usize] = share;
        // A single day's weather is a draw of its own; here all days have the value.
        let weather = ranges.of(Input::Weather).at(shares[Input::Weather as usize]);
        let lowest = run(scenario, span, &with_shares(ranges, &shares, vec![weather]), Pace::Minutes).lowest;
        (Figure::new(ranges.of(input).at(share), input.unit()), lowest)
    };
    let bar = |input| Bar { input, low: end(input, 0.1), high: end(input, 0.9) };
    let mut bars: Vec<Bar> = Input::ALL.map(bar).into();
    bars.sort_by(|a, b| b.spread().get().total_cmp(&a.spread().get()));
    bars
}
