//! Which voltage stands at every point, and which current flows in every run?
//!
//! A [`circuit::Network`] is a tree of branches that begins at one source. Each branch
//! is a run out and back: copper whose resistance follows its own temperature,
//! and a fixed part for joints, fuse-link and chassis. Loads hang on the points
//! and may hold their power, their current or their resistance, in any mix;
//! a current may also be fed in (a charger).
//!
//! Method: Newton's method on the tree, with the branches eliminated from the
//! leaves to the source, so that one step costs a time proportional to their
//! number; voltage, current and temperature are solved together. It begins
//! above the answer and so ends at the higher of the two voltages at which a
//! load of constant power can exist, the only stable one. Where there is no
//! such voltage the answer is a [`collapse::Collapse`] with the most that can be fed.
//!
//! Left out: anything that changes with time (inductance, start-up), loops
//! through two sources (cut them into two networks, each with the other
//! source's current fed in), and loads that switch themselves off.
//!
//! ```
//! use loomwright::engine::physics::network::circuit::{Branch, Network, Point, Source};
//! use loomwright::engine::physics::network::{load::Load, solve::NoSolution, warming::Warming};
//! use loomwright::quantity::*;
//!
//! // A fridge of 45 W at the end of 6 m of 2.5 mm² (12 m of copper at 7.98 Ω/km, IEC 60228).
//! let fridge = Branch {
//!     from: Point::Terminals,
//!     copper: OhmsPerKm::new(7.98) * Metres::new(12.0),
//!     fixed: Ohms::from_milli(4.0),
//!     warming: Warming::Held(Celsius::new(45.0)),
//!     loads: vec![Load::Power(Watts::new(45.0))],
//! };
//! let source = Source { voltage: Volts::new(12.0), internal: Ohms::from_milli(8.0) };
//! let network = Network { source, loads: vec![], branches: vec![fridge] };
//! let solution = network.solve()?;
//! // By hand: R = 12 mΩ + 95.76 mΩ × 279.5 / 254.5 and V = (12 + √(12² - 4 R × 45)) / 2.
//! assert_eq!(solution.branches[0].voltage.to_string(), "11.54 V");
//! # Ok::<(), NoSolution>(())
//! ```

pub mod circuit;
pub mod collapse;
pub mod fault;
pub mod limit;
pub mod load;
pub mod newton;
pub mod single;
pub mod solution;
pub mod solve;
pub mod tree;
pub mod warming;
