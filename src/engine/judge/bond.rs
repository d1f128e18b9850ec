//! Does the bond to the body bear a fault and the load, and where does an added minus go?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::bond::Bond;
use crate::engine::physics::conductor::ampacity::{Ampacity, TableFactors, words};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::conductor::short_time::{Pulsed, Warmth};
use crate::engine::physics::fuse_link::let_through::cable_withstand;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::{Place, ReturnPath, Run, Section, Value};
use crate::quantity::*;

/// See [`BondLimits`].
pub const FAULT: &str = "a conductor stands what the device lets through, k² S²: IEC 60364-4-43 434.5.2";
/// See [`BondLimits`].
pub const LARGEST: &str = "no thinner than the largest positive that can touch the body (common practice, no source)";
/// See [`BondLimits`].
pub const LOAD: &str = "with the body as way back the bond carries the whole load: its ampacity, as any conductor's; of loads that come and go by their heat";

/// What a bond of some size bears.
#[derive(Clone, Copy, Debug)]
pub struct Stands {
    /// For ever.
    pub ampacity: Amps,
    /// Until a device has opened.
    pub energy: AmpsSquaredSeconds,
    /// Its copper.
    pub area: SquareMillimetres,
}

/// The limits of a bond, as it is laid.
#[derive(Debug)]
pub struct BondLimits<'a> {
    site: &'a Installation,
    laid: Option<Laid<'a>>,
    pulsed: Option<Pulsed>,
}

impl<'a> BondLimits<'a> {
    /// Of a plan whose loads come and go in this way.
    pub fn of(site: &'a Installation, pulsed: Option<Pulsed>) -> Self {
        let run = Run { insulation: site.bond.insulation.clone(), return_path: ReturnPath::Chassis, ..Run::default() };
        BondLimits { site, laid: site.laid(&run), pulsed }
    }

    /// What a cable bears.
    pub fn stands(&self, cable: &Cable) -> Stands {
        Stands {
            ampacity: self.ampacity(cable).map_or(Amps::ZERO, Ampacity::used),
            energy: self.withstand(cable).value,
            area: cable.conductor.area,
        }
    }

    /// What it carries, for ever and while loads that come and go are on.
    pub fn ampacity(&self, cable: &Cable) -> Option<Ampacity> {
        let (laid, table) = (self.laid.as_ref()?, &self.site.catalogue.ampacity);
        let base = table.base_of(&cable.conductor, laid.insulation.column).map(|c| c.value);
        let factors = TableFactors::of(table, laid);
        let ampacity = factors.ampacity(cable, laid, base);
        let hottest = laid.insulation.max;
        let path = HeatPath::new(cable, laid, factors.bundle.value);
        let carries = |pulsed| Warmth::of_copper(&path, hottest, ampacity.for_ever()).pulsed(pulsed, hottest);
        Some(Ampacity { pulsed: self.pulsed.map(carries), ..ampacity })
    }

    /// What it stands until a device has opened.
    pub fn withstand(&self, cable: &Cable) -> Reckoned<AmpsSquaredSeconds, 2> {
        cable_withstand(self.laid.as_ref().map_or(0.0, |l| l.insulation.adiabatic_k), cable.conductor.area)
    }

    /// Where a limit comes from: of the energy it stands, or of what it carries.
    pub fn source(&self, size: &str, energy: bool) -> String {
        let cable = Cable::labelled(&self.site.catalogue, size);
        let (Some(laid), Some(cable)) = (&self.laid, cable) else { return String::new() };
        if energy {
            return format!("k: {}", laid.insulation.from.adiabatic_k.words());
        }
        let ampacity = self.ampacity(&cable);
        ampacity.map_or_else(String::new, |a| format!("cable: {}", words(&self.site.catalogue.ampacity, laid, a)))
    }

    /// Whether a bond with these demands holds with a cable that stands so much.
    pub fn holds(&self, bond: &Bond, stands: Stands) -> bool {
        let thinnest = bond.largest.get() * (1.0 - 1e-9);
        stands.ampacity >= bond.load && stands.energy >= bond.energy && stands.area.get() >= thinnest
    }
}

/// What is wrong with the bond, and where the minus of what is added at the starter battery goes.
pub(crate) fn check(site: &Installation, bond: &Bond) -> Vec<Finding> {
    thin(site, bond).into_iter().chain(sensor(site)).collect()
}

fn thin(site: &Installation, bond: &Bond) -> Option<Finding> {
    let by = |run: Option<usize>| run.map_or_else(String::new, |r| run_name(&site.runs, r));
    let limits = BondLimits::of(site, bond.pulsed);
    let (severity, rule, text) = match &bond.size {
        _ if bond.largest_by.is_none() => return None,
        None => {
            let text = format!(
                "no size is enough for the bond from the battery's minus to the body: {} may come back by it",
                bond.load
            );
            (Severity::Stop, LOAD.to_string(), text)
        }
        Some(size) if bond.stands < bond.energy => {
            let text = format!(
                "the bond of {size} stands {}; the fuse of {} lets {} through into the body",
                bond.stands,
                by(bond.energy_by),
                bond.energy
            );
            (Severity::Stop, format!("{FAULT}; {}", limits.source(size, true)), text)
        }
        Some(size) if bond.ampacity < bond.load => {
            let text =
                format!("the bond of {size} carries {}; {} may come back through the body", bond.ampacity, bond.load);
            (Severity::Stop, format!("{LOAD}; {}", limits.source(size, false)), text)
        }
        Some(size) if bond.area.get() < bond.largest.get() * (1.0 - 1e-9) => {
            let text = format!("the bond of {size} is thinner than {} with {}", by(bond.largest_by), bond.largest);
            (Severity::Caution, LARGEST.to_string(), text)
        }
        Some(_) => return None,
    };
    let place = Place::of(Section::Bond, "size");
    let finding = Finding::new(Kind::BondThin, Subject::Bond, text).as_severity(severity).rule(rule).at(place);
    Some(match &bond.least {
        Some(size) => finding.remedy_edit(format!("{size} for the bond"), place, Some(Value::Text(size.clone()))),
        None => {
            finding.remedy(format!("give the largest loads, of {} in all, a second conductor as way back", bond.load))
        }
    })
}

/// An added minus on the post of a battery whose minus carries a sensor upsets charging and start-stop.
fn sensor(site: &Installation) -> Option<Finding> {
    let added = site.minus_at_sensor()?;
    let run = site.runs.get(added.run)?;
    let (name, length) = (run_name(&site.runs, added.run), run.length);
    let carries = "the minus post of the starter battery carries a current sensor";
    let (severity, text) = match site.minus_on_post() {
        true => (Severity::Stop, format!("{carries}, and the minus of {name}, {length} long, is to go onto that post")),
        false => (
            Severity::Note,
            format!("{carries}: the minus of {name}, {length} long, goes to the body beside it, not to the post"),
        ),
    };
    let given = site.vehicle.minus_sensor.is_some();
    let why = if given {
        "entered by you"
    } else {
        "usual where the engine computer varies the alternator's voltage (common practice, no source)"
    };
    let place = Place::of(Section::Vehicle, if severity == Severity::Stop { "minus_on_post" } else { "minus_sensor" });
    let finding = Finding::new(Kind::MinusSensor, Subject::StarterBattery, text)
        .as_severity(severity)
        .rule(format!(
            "what passes the sensor by is counted neither in nor out, which upsets charging and start-stop; {why}"
        ))
        .at(place);
    Some(match severity {
        Severity::Stop => {
            finding.remedy_edit("put this lug onto the body beside the sensor", place, Some(Value::Flag(false)))
        }
        _ => finding
            .remedy("put this lug on the body side of the sensor; if there is none on the post, say so in the plan"),
    })
}
