//! What is uncertain, between what ends, and one draw of it.

use crate::engine::simulate::days::scenario::Vary;
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Most draws in one go.
pub const MOST_DRAWS: u32 = 1_000_000;

/// What to draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draws {
    /// The days simulated in each draw.
    pub span: Span,
    /// How many draws, 1 to 1,000,000.
    pub count: u32,
    /// The same seed gives the same result.
    pub seed: u64,
    /// Between what the inputs are drawn.
    pub ranges: Ranges,
}

impl Default for Draws {
    /// A thousand draws of a week.
    fn default() -> Self {
        Draws { span: Span { days: 7, ..Span::default() }, count: 1000, seed: 1, ranges: Ranges::default() }
    }
}

/// An uncertain input.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Input {
    /// How much the loads draw, against the plan.
    Draw,
    /// How much warmer the air is.
    Warmer,
    /// How much sun there is over all the days.
    Sun,
    /// How much one day's sun differs.
    Weather,
    /// How much of the charge current arrives while driving.
    Driving,
    /// Capacity that age has left.
    Health,
    /// Charge at the beginning.
    From,
}

impl Input {
    /// All of them.
    pub const ALL: [Input; 7] =
        [Input::Draw, Input::Warmer, Input::Sun, Input::Weather, Input::Driving, Input::Health, Input::From];

    /// In words, for tables and charts.
    pub fn words(self) -> &'static str {
        match self {
            Input::Draw => "what the loads draw",
            Input::Warmer => "how warm it is",
            Input::Sun => "sun over the days",
            Input::Weather => "sun from day to day",
            Input::Driving => "charge while driving",
            Input::Health => "capacity left by age",
            Input::From => "charge at the beginning",
        }
    }

    /// The unit its values are shown in.
    pub fn unit(self) -> Unit {
        match self {
            Input::Warmer => Unit::Kelvin,
            Input::Health | Input::From => Unit::Share,
            _ => Unit::Times,
        }
    }

    fn ends(self) -> (f64, f64) {
        match self {
            Input::Warmer => (-60.0, 60.0),
            Input::Health => (0.1, 1.0),
            Input::From => (0.0, 1.0),
            _ => (0.0, 5.0),
        }
    }

    /// The accepted range in words.
    pub fn accepted(self) -> String {
        let (low, high) = self.ends();
        format!("{} to {}", Figure::new(low, self.unit()), Figure::new(high, self.unit()))
    }
}

/// Both ends of an input; values between are equally likely.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

impl Range {
    /// The value below which a share of the draws lies.
    pub fn at(self, share: f64) -> f64 {
        self.low + (self.high - self.low) * share
    }
}

/// The ends of all inputs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranges([Range; 7]);

impl Default for Ranges {
    /// Common practice, no source: a quarter more or less use, five kelvins,
    /// a third more or less sun and days from overcast to bright, charging a
    /// little worse than planned, any age up to four fifths, nearly full at the start.
    fn default() -> Self {
        let range = |low, high| Range { low, high };
        Ranges([
            range(0.8, 1.25),
            range(-5.0, 5.0),
            range(0.7, 1.3),
            range(0.2, 1.8),
            range(0.75, 1.05),
            range(0.8, 1.0),
            range(0.85, 1.0),
        ])
    }
}

impl Ranges {
    /// The ends of one input.
    pub fn of(&self, input: Input) -> Range {
        self.0[input as usize]
    }

    /// The same with other ends for one input.
    pub fn with(mut self, input: Input, low: f64, high: f64) -> Self {
        self.0[input as usize] = Range { low, high };
        self
    }

    /// The first input whose range is none, or leaves what is accepted.
    pub(crate) fn broken(&self) -> Option<Input> {
        Input::ALL.into_iter().find(|i| {
            let (least, most) = i.ends();
            let r = self.of(*i);
            !(r.low >= least && r.high <= most && r.low <= r.high)
        })
    }
}

/// The inputs of one draw. The order of the numbers taken never changes, so a
/// seed means the same for ever.
pub(crate) fn vary(draws: &Draws, index: u32) -> Vary {
    let mut dice = ChaCha8Rng::seed_from_u64(draws.seed);
    dice.set_stream(u64::from(index));
    let mut shares = [0.0; 7];
    for share in &mut shares {
        *share = dice.random::<f64>();
    }
    let weather = draws.ranges.of(Input::Weather);
    let days = (0..draws.span.days).map(|_| weather.at(dice.random::<f64>())).collect();
    with_shares(&draws.ranges, &shares, days)
}

/// Each input at a share of its range.
pub(crate) fn with_shares(ranges: &Ranges, shares: &[f64; 7], weather: Vec<f64>) -> Vary {
    let at = |input: Input| ranges.of(input).at(shares[input as usize]);
    Vary {
        draw: at(Input::Draw),
        warmer: Kelvins::new(at(Input::Warmer)),
        sun: at(Input::Sun),
        weather,
        driving: at(Input::Driving),
        health: Share::new(at(Input::Health)),
        from: Share::new(at(Input::From)),
        ..Vary::of(Span::default())
    }
}
