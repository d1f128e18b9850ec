//! Which of the causes is it, and what to measure next?
//!
//! - `symptom`: what is seen, and which causes make it look so.
//! - `prior`: how often each is at fault.
//! - `belief`: what the readings make of that.
//! - `evidence`: how far the readings speak for one guess.
//! - `pairs`: which two faults may be there at once.
//! - `few`: the guesses that stand for all when the next reading is chosen.
//! - `offer`: which measurements there are, and the trouble of getting there.
//! - `next`: the one that tells most for that trouble.
//! - `answer`: all of it together.
//! - `words`: where both probes go, what is to be isolated first, the repair, and the reading that proves it.
//!
//! Method: probing by least expected entropy (de Kleer and Williams, 'Diagnosing multiple faults', Artificial
//! Intelligence 32, 1987; from memory). Left out: three faults at once, faults that come and go.

pub mod answer;
pub mod belief;
pub mod evidence;
pub mod few;
pub mod next;
pub mod offer;
pub mod pairs;
pub mod prior;
pub mod symptom;
pub mod words;
