//! Where to disconnect and reconnect.

use crate::quantity::*;

/// The cut-off.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutOffDesign {
    /// Setting at the sensing point, in the device's steps: as given or as chosen.
    pub cut: Volts,
    /// Setting where it reconnects.
    pub reconnect: Volts,
    /// Delay before it opens.
    pub delay: Seconds,
    /// Charge kept in the battery.
    pub reserve: Share,
    /// Voltage at the posts at the reserve, before rounding to steps, for each current.
    pub at_currents: Vec<AtCurrent>,
    /// Index in `at_currents` of the usual current, by which it is chosen.
    pub usual: usize,
    /// Voltage by state of charge, resting and at each current.
    pub curve: Vec<CurvePoint>,
    /// Posts after the loads have gone: how far it rebounds.
    pub rebound: Volts,
    /// Voltage that charging reaches at the sensing point.
    pub charging: Volts,
    /// Days from the cut-off to harm, by standing draws and self-discharge.
    pub days_to_harm: Option<Days>,
    /// What acts at which voltage, highest first.
    pub order: Vec<(String, Volts)>,
    /// Current through it, steady.
    pub current: Amps,
    /// Rating chosen or given.
    pub rating: Option<Amps>,
}

/// The cut-off seen at one current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AtCurrent {
    /// `light`, `usual`, `heavy`.
    pub name: &'static str,
    /// The current.
    pub current: Amps,
    /// Voltage at the posts at the reserve.
    pub posts: Volts,
    /// Voltage at the sensing point at the reserve.
    pub sensing: Volts,
    /// State of charge at which the setting trips with this current; `None` when never before empty.
    pub trips_at: Option<Share>,
}

/// One point of the discharge curve at the posts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CurvePoint {
    /// State of charge.
    pub charge: Share,
    /// Resting.
    pub resting: Volts,
    /// At the sensing point under each current of `at_currents`.
    pub sensing: Vec<Volts>,
}
