//! What happens, given every part? Voltages, currents, heat, faults, days, readings. No opinion.

pub mod bank;
pub mod battery;
pub mod budget;
pub mod chance;
pub mod charger;
pub mod circuit;
pub mod cut_off;
pub mod days;
pub mod fault;
pub mod hold_down;
pub mod main_switch;
pub mod promise;
pub mod standing;
pub mod test_sheet;
pub mod trouble;
