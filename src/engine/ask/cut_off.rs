//! The cut-off question without a plan: chemistry, capacity, current, reserve.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::choose::cut_off::{Acts, Case, CutOffDesign, Device, SensingPath, settings, working};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Workings;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::physics::cell::store::{Store, TABLE_AIR};
use crate::engine::simulate::cut_off::rest;
use crate::plan::{Place, Section};
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

/// Settings for a battery alone: sensing at the posts, 25 °C, steps of 0.1 V.
/// Light is a fifth of the usual current, heavy three times it. `None` for an unknown chemistry.
pub fn cut_off_question(catalogue: &Catalogue, question: &CutOffQuestion) -> Option<CutOffAnswer> {
    let chemistry = catalogue.chemistry(&question.chemistry)?;
    let mut book = Book::kept();
    let design = settings_for(chemistry, question, &mut book);
    let name = chemistry.name.clone();
    Some(CutOffAnswer {
        question: question.clone(),
        name,
        design,
        findings: book.findings,
        workings: book.notes.into_workings(),
    })
}

fn settings_for(chemistry: &Chemistry, question: &CutOffQuestion, book: &mut Book) -> CutOffDesign {
    let (capacity, current, reserve) = (question.capacity, question.current, question.reserve);
    let reserve = reserve.unwrap_or(chemistry.low.reserve);
    let case = Case {
        store: Store::new(chemistry, capacity, None),
        measured: None,
        reserve,
        air: TABLE_AIR,
        path: SensingPath::default(),
        currents: crate::engine::choose::cut_off::currents(current / 5.0, current, current * 3.0, capacity, reserve),
        surge: Amps::ZERO,
        start: Seconds::ZERO,
        after: rest::own_draw(chemistry, capacity) + rest::self_discharge(chemistry, capacity),
        charging: chemistry.charge.absorption,
        device: Device {
            step: Volts::new(0.1),
            lowest: Volts::new(7.0),
            highest: Volts::new(16.0),
            longest_delay: Seconds::new(90.0),
            cut: None,
            reconnect: None,
            delay: None,
        },
    };
    let out = settings::settle(&case);
    working::record(&case, chemistry, &out, book);
    check(chemistry, capacity, current, &out, book);
    CutOffDesign { order: order(chemistry, &out), current, ..out }
}

/// What no setting makes good: a current the battery does not give, a setting where harm has begun.
fn check(chemistry: &Chemistry, capacity: AmpHours, current: Amps, out: &CutOffDesign, book: &mut Book) {
    let most = Amps::new(capacity.get() * chemistry.rate.max_c);
    if current.get() > most.get() {
        let needed = AmpHours::new((current.get() / chemistry.rate.max_c).ceil());
        book.find(
            Finding::new(
                Kind::BatteryRate,
                Subject::ServiceBattery,
                format!("{current} is more than the {most} that {capacity} of {} give steadily", chemistry.name),
            )
            .rule(format!("highest discharge {} C: {}", chemistry.rate.max_c, chemistry.rate.from.max_c.words()))
            .at(Place::of(Section::ServiceBattery, "capacity_ah"))
            .remedy(format!("ask for {needed} or more, or for {most} or less")),
        );
    }
    let (harm, harmed_by) = chemistry.low.floor();
    if out.cut.get() <= harm.get() {
        book.find(
            Finding::new(
                Kind::CutOffLow,
                Subject::CutOff,
                format!(
                    "a cut-off at {} acts when harm has begun or the battery's own protection has opened, at {harm}",
                    out.cut
                ),
            )
            .rule(format!("harm begins: {}", harmed_by.words()))
            .at(Place::of(Section::CutOff, "cut_v"))
            .remedy(format!(
                "keep a reserve of {} or more, and set it no lower than {}",
                chemistry.low.reserve,
                harm + Volts::new(0.1)
            )),
        );
    }
}

fn order(chemistry: &Chemistry, out: &CutOffDesign) -> Vec<Acts> {
    let mut all = vec![Acts::new("cut-off", out.cut), Acts::new("harm to the battery", chemistry.low.damage)];
    all.extend(chemistry.low.own_protection.map(|v| Acts::new("battery's own protection", v)));
    all.sort_by(|a, b| b.at.get().total_cmp(&a.at.get()));
    all
}
