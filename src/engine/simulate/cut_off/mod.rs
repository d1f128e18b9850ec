//! What does the cut-off see, and what happens when it acts?
//!
//! It sees voltage and is meant to keep charge. Between the two stand the
//! current of the moment (through the battery's resistance and the cable to
//! the sensing point), the hours it has flowed (kinetic battery model), the
//! temperature and age. Left out: age, which makes it act sooner, and the loop
//! between charging and discharging.

pub mod acting;
pub mod case;
pub mod curve;
pub mod path;
pub mod rest;
pub mod result;
pub mod starter;
