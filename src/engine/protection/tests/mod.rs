//! Each finding raised and not raised, on small invented plans.

mod fixture;
mod kinds;
mod numbers;
