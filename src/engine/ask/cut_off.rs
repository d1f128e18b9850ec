//! The cut-off question without a plan: chemistry, capacity, current, reserve.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::choose::cut_off::settings;
use crate::engine::installation::cut_off::Device;
use crate::engine::installation::working::{Notes, Workings};
use crate::engine::judge::cut_off::question::check;
use crate::engine::judge::finding::Finding;
use crate::engine::physics::cell::store::{Store, TABLE_AIR};
use crate::engine::simulate::cut_off::case::{Case, Currents};
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::cut_off::rest::{after, battery_order};
use crate::engine::simulate::cut_off::result::CutOffDesign;
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
        findings: check(chemistry, question.capacity, question.current, question.heavy.is_some(), &design),
        design,
        workings: notes.into_workings(),
    })
}

fn settings_for(chemistry: &Chemistry, question: &CutOffQuestion, notes: &mut Notes) -> CutOffDesign {
    let (capacity, current, reserve) = (question.capacity, question.current, question.reserve);
    let reserve = reserve.unwrap_or(chemistry.low.reserve);
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
        device: Device { cut: question.at, ..Device::widest() },
    };
    let out = settings(&case, None, notes);
    CutOffDesign { order: battery_order(chemistry, &out), current, ..out }
}
