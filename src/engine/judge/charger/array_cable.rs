//! Do the panels' own cable and its device bear the sun?
//!
//! The conductor carries 1.56 times the short-circuit current by the table alone, 1.25 times it once air and bundle
//! are allowed for, and no less than its device is rated for; the device is rated for 1.56 times (NFPA 70, 690.8 and
//! 690.9). Left out: the device's own voltage and breaking capacity, which its sheet must have for the array's.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::array_cable::ArrayCable;
use crate::engine::physics::conductor::ampacity::{Ampacity, TableFactors};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::copper::warmed;
use crate::plan::{Place, Run, Section, Value};
use crate::quantity::*;

/// Short-circuit current of usual panels over that at maximum power: from memory.
const SHORT: f64 = 1.1;
/// A cable that lies on a roof in the sun is so much hotter than the air: common practice, no source.
const ROOF: Kelvins = Kelvins::new(25.0);
/// Most that is lost on the cable: common practice, no source.
const MOST_LOST: Share = Share::new(0.03);
/// Ratings that devices for panels are made in (NFPA 70, 240.6(A), from memory).
const RATINGS: [f64; 19] = [
    6.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 125.0, 150.0, 175.0,
    200.0,
];
const RULE: &str = "1.56 times the short-circuit current before corrections, 1.25 times after, a device of 1.56 times: NFPA 70, 690.8 and 690.9, from memory";

/// What the panels' cable is held against, as it is laid.
#[derive(Debug)]
pub struct ArrayLimits<'a> {
    site: &'a Installation,
    laid: Laid<'a>,
    length: Metres,
    short: Amps,
    most: Amps,
}

impl<'a> ArrayLimits<'a> {
    /// Of a plan; `None` without an array, or where the way of its cable is not given.
    pub fn of(site: &'a Installation) -> Option<Self> {
        let solar = &site.solar;
        let length = solar.cable_length.filter(|_| solar.array.get() > 0.0)?;
        let most = solar.array / solar.array_voltage.max(Volts::new(1.0));
        let short = solar.panel_short.map_or(most * SHORT, |short| short * f64::from(solar.strings));
        let air = solar.cable_air.unwrap_or(site.surroundings.hottest + ROOF);
        let laid = site.laid(&Run { air: Some(air), ..Run::default() })?;
        Some(ArrayLimits { site, laid, length, short, most })
    }

    /// What a cable carries by the table alone, and as it is laid.
    pub fn carries(&self, cable: &Cable) -> (Amps, Amps) {
        let table = &self.site.catalogue.ampacity;
        let base = table.base_of(&cable.conductor, self.laid.insulation.column).map(|c| c.value);
        let laid: Ampacity = TableFactors::of(table, &self.laid).ampacity(cable, &self.laid, base);
        (base.unwrap_or(laid.heat), laid.for_ever())
    }

    /// Lost on it at maximum power, the copper as hot as its insulation stands.
    pub fn drop(&self, cable: &Cable) -> Volts {
        let cold = Ohms::new(2.0 * cable.conductor.resistance.get() * self.length.get() / 1000.0);
        self.most * warmed(cold, self.laid.insulation.max)
    }

    /// The smallest device that full sun does not open.
    pub fn device(&self) -> Option<Amps> {
        RATINGS.into_iter().map(Amps::new).find(|rating| *rating >= self.short * 1.56)
    }

    /// Whether a cable bears the sun, behind a device.
    pub fn bears(&self, cable: &Cable, device: Option<Amps>) -> bool {
        let (plain, laid) = self.carries(cable);
        plain >= self.short * 1.56 && laid >= (self.short * 1.25).max(device.unwrap_or(Amps::ZERO))
    }

    /// Whether it loses no more than it should.
    pub fn keeps(&self, cable: &Cable) -> bool {
        self.lost(self.drop(cable)) <= MOST_LOST
    }

    /// A drop as a share of the array's voltage.
    fn lost(&self, drop: Volts) -> Share {
        Share::new(drop / self.site.solar.array_voltage.max(Volts::new(1.0)))
    }

    /// What follows from a cable and a device.
    pub fn with(&self, cable: Option<&Cable>, device: Option<Amps>) -> ArrayCable {
        let (plain, carries) = cable.map_or((Amps::ZERO, Amps::ZERO), |c| self.carries(c));
        let drop = cable.map_or(Volts::ZERO, |c| self.drop(c));
        ArrayCable {
            length: self.length,
            short: self.short,
            air: self.laid.air,
            size: cable.map(|c| c.label().to_string()),
            plain,
            carries,
            drop,
            lost: self.lost(drop),
            device,
        }
    }
}

fn find(kind: Kind, key: &'static str, text: String) -> Finding {
    Finding::new(kind, Subject::Solar, text).rule(RULE).at(place(key))
}

fn place(key: &'static str) -> Place {
    Place::of(Section::Solar, key)
}

/// What speaks against it.
pub(crate) fn check(site: &Installation, cable: &ArrayCable) -> Vec<Finding> {
    [thin(site, cable), device(cable), lossy(site, cable)].into_iter().flatten().collect()
}

/// The thinnest size that does, as a remedy.
fn thicker(finding: Finding, site: &Installation, does: impl Fn(&ArrayLimits, &Cable) -> bool) -> Finding {
    let limits = ArrayLimits::of(site);
    let mut sizes = site.catalogue.sizes(site.family()).map(Cable::of);
    match limits.and_then(|limits| sizes.find(|c| does(&limits, c)).map(|c| c.label().to_string())) {
        Some(label) => finding.remedy_edit(format!("{label} is enough"), place("cable_size"), Some(Value::Text(label))),
        None => finding.remedy("fewer strings on one cable, or a controller nearer to the panels"),
    }
}

fn thin(site: &Installation, cable: &ArrayCable) -> Option<Finding> {
    let device = cable.device.unwrap_or(Amps::ZERO);
    let (plain, laid) = (cable.short * 1.56, (cable.short * 1.25).max(device));
    let text = match &cable.size {
        None => format!("no size is enough for the panels' cable: {plain} by the table, {laid} in {}", cable.air),
        Some(size) if cable.plain < plain => {
            format!("the panels' cable of {size} carries {} by the table, {plain} are needed", cable.plain)
        }
        Some(size) if cable.carries < laid => {
            format!("the panels' cable of {size} carries {} in {}, {laid} are needed", cable.carries, cable.air)
        }
        Some(_) => return None,
    };
    Some(thicker(find(Kind::ArrayCable, "cable_size", text), site, |l, c| l.bears(c, cable.device)))
}

fn device(cable: &ArrayCable) -> Option<Finding> {
    let needed = cable.short * 1.56;
    let (severity, text) = match cable.device {
        None => (Severity::Stop, format!("no device is made for the {needed} that the panels' cable needs")),
        Some(device) if device < needed => (
            Severity::Caution,
            format!("a device of {device} in the panels' cable opens in full sun: {needed} are needed"),
        ),
        Some(_) => return None,
    };
    let finding = find(Kind::ArrayDevice, "device_a", text).as_severity(severity);
    Some(match severity {
        Severity::Stop => finding.remedy("a controller of its own for some of the strings"),
        _ => {
            finding.remedy_edit("leave it out: one that full sun does not open is then chosen", place("device_a"), None)
        }
    })
}

fn lossy(site: &Installation, cable: &ArrayCable) -> Option<Finding> {
    if cable.lost <= MOST_LOST {
        return None;
    }
    let text =
        format!("the panels' cable loses {}, {} of the array's voltage; {MOST_LOST} are usual", cable.drop, cable.lost);
    let finding = find(Kind::ArrayDrop, "cable_size", text)
        .rule("what is lost there is lost every sunny hour (common practice, no source)");
    Some(thicker(finding, site, |l, c| l.bears(c, cable.device) && l.keeps(c)))
}
