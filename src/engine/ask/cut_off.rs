//! The cut-off question without a plan: chemistry, capacity, current, reserve.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::choose::cut_off::settings;
use crate::engine::installation::counter::{Counter, Said};
use crate::engine::installation::cut_off::Device;
use crate::engine::installation::own_cut::Signal;
use crate::engine::installation::working::{Notes, Workings};
use crate::engine::judge::cut_off::question::check;
use crate::engine::judge::cut_off::signal::comes;
use crate::engine::judge::finding::Finding;
use crate::engine::physics::cell::store::{Store, TABLE_AIR};
use crate::engine::simulate::cut_off::case::{Case, Currents};
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::cut_off::rest::{after, battery_order};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{CutOff, CutOffBy};
use crate::quantity::*;

/// What is asked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutOffQuestion {
    /// Chemistry by its key.
    pub chemistry: String,
    /// Rated capacity.
    pub capacity: AmpHours,
    /// The usual current.
    pub current: Amps,
    /// Charge to keep; the chemistry's when `None`.
    pub reserve: Option<Share>,
    /// The least that flows; a fifth of the usual current when `None`.
    pub light: Option<Amps>,
    /// The most that flows for minutes; three times the usual current when `None`.
    pub heavy: Option<Amps>,
    /// Air at the battery; 25 °C when `None`.
    pub air: Option<Celsius>,
    /// A setting to judge.
    pub at: Option<Volts>,
    /// What makes it open; by the battery's signal a setting is where that comes.
    pub by: CutOffBy,
    /// How far a counter of charge strays in a day; usual when `None`.
    pub drift: Option<Share>,
    /// How far it may be off when full; usual when `None`.
    pub off: Option<Share>,
    /// Days from one full battery to the next; one when `None`.
    pub days: Option<Days>,
}

impl CutOffQuestion {
    /// The signal by which it is to act, of a battery that gives one.
    fn signal(&self, chemistry: &Chemistry) -> Option<Signal> {
        let own = chemistry.low.own_protection?;
        Some(self.at.map_or(Signal::Protection(own), Signal::Permission))
    }

    fn counter(&self, reserve: Share, chemistry: &Chemistry) -> Option<Counter> {
        let usual = CutOff::default();
        let said = Said {
            opens_at: None,
            closes_at: None,
            drift: self.drift.unwrap_or(usual.drift),
            reset: self.off.unwrap_or(usual.reset_error),
            days: self.days.unwrap_or(Days::new(1.0)),
        };
        (self.by == CutOffBy::Charge).then(|| said.counter(reserve, chemistry.life.end_of_life))
    }
}

/// The answer.
#[derive(Clone, Debug, Default)]
pub struct CutOffAnswer {
    /// What was asked.
    pub question: CutOffQuestion,
    /// Name of the chemistry.
    pub name: String,
    /// The settings, and what they mean.
    pub design: CutOffDesign,
    /// What speaks against them.
    pub findings: Vec<Finding>,
    /// How the numbers came about.
    pub workings: Workings,
}

/// Settings for a battery alone, or a setting judged: sensing at the posts, steps of 0.1 V. `None` for an unknown
/// chemistry.
pub fn cut_off_question(catalogue: &Catalogue, question: &CutOffQuestion) -> Option<CutOffAnswer> {
    let chemistry = catalogue.chemistry(&question.chemistry)?;
    let mut notes = Notes::kept();
    let design = settings_for(chemistry, question, &mut notes);
    Some(CutOffAnswer {
        question: question.clone(),
        name: chemistry.name.clone(),
        findings: match question.by {
            CutOffBy::Signal => comes(chemistry, question.signal(chemistry), &design).into_iter().collect(),
            _ => check(chemistry, question.capacity, question.current, question.heavy.is_some(), &design),
        },
        design,
        workings: notes.into_workings(),
    })
}

fn settings_for(chemistry: &Chemistry, question: &CutOffQuestion, notes: &mut Notes) -> CutOffDesign {
    let (capacity, current, reserve) = (question.capacity, question.current, question.reserve);
    let reserve = reserve.unwrap_or(chemistry.low.reserve);
    let cut = match question.by {
        CutOffBy::Signal => question.signal(chemistry).map(Signal::at),
        _ => question.at,
    };
    let case = Case {
        store: Store::new(chemistry, capacity, None),
        measured: None,
        reserve,
        air: question.air.unwrap_or(TABLE_AIR),
        path: SensingPath::default(),
        currents: Currents::of(
            question.light.unwrap_or(current / 5.0).min(current),
            current,
            question.heavy.unwrap_or(current * 3.0).max(current),
            capacity,
            reserve,
        ),
        surge: Amps::ZERO,
        start: Seconds::ZERO,
        after: after(chemistry, capacity, Amps::ZERO, notes),
        charging: chemistry.charge.absorption,
        device: Device { cut, ..Device::widest() },
        counter: question.counter(reserve, chemistry),
        pulled: None,
    };
    let out = settings(&case, None, notes);
    CutOffDesign { order: battery_order(chemistry, &out), current, ..out }
}
