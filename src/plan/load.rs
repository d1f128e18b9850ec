//! A load of the plan: what uses energy, when, and how it starts.

use super::board::Lead;
use super::choice::{LoadKind, When};
use super::windows::Windows;
use crate::quantity::*;

/// Something that uses energy.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Load {
    pub name: String,
    pub at: String,
    pub count: u32,
    /// Power while on, of one; either this or `current`.
    pub power: Option<Watts>,
    /// Current while on at 12 V, of one.
    pub current: Option<Amps>,
    pub kind: LoadKind,
    /// Fed by the inverter.
    pub inverter: bool,
    pub duty: Duty,
    pub start: Start,
    /// Drop class.
    pub drop: String,
    /// Lowest voltage it works at.
    pub lowest: Option<Volts>,
    /// It switches itself off below this.
    pub own_cut: Option<Volts>,
    /// Loads with the same word here never run together.
    pub not_with: Option<String>,
    /// Stays connected when the cut-off has opened.
    pub before_cut_off: bool,
    /// Its own cable from the point it hangs on.
    pub lead: Lead,
    /// Loads of a board with the same word share a way and its fuse.
    pub way: Option<String>,
    /// It is a socket: its lead and its fuse fit this current.
    pub socket: Option<Amps>,
    /// Is not to be changed by what mends the plan.
    pub keep: bool,
}

impl Default for Load {
    fn default() -> Self {
        Load {
            name: String::new(),
            at: String::new(),
            count: 1,
            power: None,
            current: None,
            kind: LoadKind::ConstantPower,
            inverter: false,
            duty: Duty::default(),
            start: Start::default(),
            drop: "ordinary".into(),
            lowest: None,
            own_cut: None,
            not_with: None,
            before_cut_off: false,
            lead: Lead::default(),
            way: None,
            socket: None,
            keep: false,
        }
    }
}

/// When and how long a load runs.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Duty {
    /// Hours a day it is switched on; 24, or the length of `windows`, when absent.
    pub hours_a_day: Option<Hours>,
    /// Share of the on-time it really draws (thermostat) at 25 °C.
    pub share_on: Share,
    /// Added to the share for each kelvin above 25 °C.
    pub share_per_k: f64,
    pub windows: Windows,
    pub when: When,
}

impl Default for Duty {
    fn default() -> Self {
        Duty {
            hours_a_day: None,
            share_on: Share::FULL,
            share_per_k: 0.0,
            windows: Windows::default(),
            when: When::Always,
        }
    }
}

/// The start surge of a load.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Start {
    /// Multiple of the running current; 1 for none.
    pub times: f64,
    pub lasts: Seconds,
}

impl Default for Start {
    fn default() -> Self {
        Start { times: 1.0, lasts: Seconds::ZERO }
    }
}
