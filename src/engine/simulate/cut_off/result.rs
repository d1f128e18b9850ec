//! What the cut-off's part of a design holds, for screens and papers.

use crate::engine::installation::counter::Counter;
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::cut_off::starter::StarterGuard;
use crate::quantity::*;

/// The cut-off.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutOffDesign {
    /// Setting at the sensing point, in the device's steps: as given or as chosen.
    pub cut: Volts,
    /// The same before rounding to steps: voltage at the sensing point at the reserve with the usual current.
    pub exact: Volts,
    /// The step that would be chosen: it acts nearest to the reserve with the usual current, within the window.
    pub nearest: Volts,
    /// Between which voltages a setting serves a light and a heavy current alike.
    pub window: Option<Window>,
    /// The bank with which one voltage serves both, where none does with this one.
    pub served_by: Option<AmpHours>,
    /// Setting where it reconnects.
    pub reconnect: Volts,
    /// Least distance from cut to reconnect that does not chatter.
    pub hysteresis_needed: Volts,
    /// Delay before it opens.
    pub delay: Seconds,
    /// Delay that the worst start needs at the reserve; zero when it does not reach the setting.
    pub delay_needed: Seconds,
    /// Charge kept in the battery.
    pub reserve: Share,
    /// Resistance between the posts and the sensing point that the current through it sees.
    pub between: Ohms,
    /// Voltage at the posts at the reserve, before rounding to steps, for each current.
    pub at_currents: Vec<AtCurrent>,
    /// Voltage by state of charge, resting and at each current.
    pub curve: Vec<CurvePoint>,
    /// Posts after the loads have gone, whatever current tripped it: how far it rebounds.
    pub rebound: Volts,
    /// Voltage that charging reaches at the sensing point.
    pub charging: Volts,
    /// Voltage at the sensing point when the worst start happens at the reserve.
    pub surge_voltage: Volts,
    /// What is drawn after it has opened, self-discharge included.
    pub after: Amps,
    /// Days from the cut-off to harm, by standing draws and self-discharge.
    pub days_to_harm: Option<Days>,
    /// Whether the voltage at which harm begins decides that; else it is empty before, or empty already.
    pub(crate) harm_decides: bool,
    /// What acts at which voltage, highest first.
    pub order: Vec<Acts>,
    /// Whether the engine can always be started; `None` without a charger.
    pub starter: Option<StarterGuard>,
    /// Current through it, steady, at the cut-off voltage.
    pub current: Amps,
    /// What counts the charge, where that makes it open; the voltage is then a floor under the count.
    pub counter: Option<Counter>,
    /// Rating chosen or given.
    pub rating: Option<Amps>,
    /// Charge at which it acts with the usual current when the voltage reads 0.1 V too low, and too high.
    pub within_tenth: (Share, Share),
    /// The cables to the sensing point.
    pub path: SensingPath,
}

impl CutOffDesign {
    /// Where it opens: `12.1 V`; of a counter `24 % counted, or 11.3 V`.
    pub fn opens(&self) -> String {
        self.counter.map_or(self.cut.to_string(), |c| format!("{} counted, or {}", c.opens, self.cut))
    }

    /// Where it closes.
    pub fn closes(&self) -> String {
        self.counter.map_or(self.reconnect.to_string(), |c| format!("{} counted", c.closes))
    }

    /// As the usual current sees it, by which it is chosen.
    pub fn at_usual(&self) -> Option<&AtCurrent> {
        self.at_currents.iter().find(|a| a.name == Draw::Usual)
    }
}

/// Voltages between which a setting serves a light and a heavy current alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Below this a light current takes too much out of the reserve.
    pub lowest: Volts,
    /// Above this a heavy current opens it with much more than the reserve left.
    pub highest: Volts,
}

impl Window {
    /// Whether no one voltage serves both.
    pub fn empty(&self) -> bool {
        self.lowest > self.highest
    }
}

/// How much is drawn when a setting is looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Draw {
    /// The least that flows.
    Light,
    /// The mean while parked.
    #[default]
    Usual,
    /// All that can be on.
    Heavy,
}

impl Draw {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Draw::Light => "light",
            Draw::Usual => "usual",
            Draw::Heavy => "heavy",
        }
    }
}

impl std::fmt::Display for Draw {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.word())
    }
}

/// The cut-off seen at one current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AtCurrent {
    /// Which it is.
    pub name: Draw,
    /// The current.
    pub current: Amps,
    /// How long it has flowed.
    pub held: Hours,
    /// Voltage at the posts at the reserve.
    pub posts: Volts,
    /// Voltage at the sensing point at the reserve.
    pub sensing: Volts,
    /// State of charge at which the setting trips with this current; `None` when never before empty.
    pub trips_at: Option<Share>,
}

/// Something that acts at a voltage.
#[derive(Clone, Debug, PartialEq)]
pub struct Acts {
    /// What.
    pub what: Actor,
    /// At which voltage.
    pub at: Volts,
}

/// What acts at a voltage by itself.
#[derive(Clone, Debug, PartialEq)]
pub enum Actor {
    /// The cut-off.
    CutOff,
    /// Nothing but chemistry: harm begins.
    Harm,
    /// What the battery has built in.
    Protection,
    /// A load of this name that switches itself off.
    Load(String),
    /// A load of this name that no longer works.
    Stops(String),
    /// The inverter's own cut-off.
    Inverter,
}

impl Actor {
    /// In words.
    pub fn words(&self) -> String {
        match self {
            Actor::CutOff => "cut-off".into(),
            Actor::Harm => "harm to the battery".into(),
            Actor::Protection => "battery's own protection".into(),
            Actor::Load(name) => format!("{name} by itself"),
            Actor::Stops(name) => format!("{name} stops working"),
            Actor::Inverter => "inverter by itself".into(),
        }
    }
}

impl Acts {
    /// What acts, and at which voltage.
    pub fn new(what: Actor, at: Volts) -> Self {
        Acts { what, at }
    }
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
