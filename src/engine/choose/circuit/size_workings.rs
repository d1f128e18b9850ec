//! How the numbers of one size in one run came about: the size used, or another one side by side.

use crate::catalogue::{COPPER_DENSITY, COPPER_OHM_MM2_PER_KM};
use crate::engine::installation::Installation;
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::run::ways;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::simulate::circuit::candidate::Candidate;
use crate::engine::simulate::circuit::picked::{Picked, PickedRun};
use crate::quantity::*;

pub(crate) const OHM: &str = "Ohm's law";
const BALANCE: &str = "heat balance of one cable in still air: conduction through the insulation, natural convection \
                       (Churchill and Chu 1975, from memory), radiation";

/// One size in one run.
pub(crate) struct RunInSize<'a> {
    pub site: &'a Installation,
    pub picked: &'a Picked<'a>,
    pub run: &'a PickedRun<'a>,
    pub candidate: &'a Candidate,
    /// What its workings are filed under.
    pub subject: Subject,
    /// The run itself, whose current, air and fixed resistance they rest on.
    pub owner: Subject,
    /// Far end of the run.
    pub far: &'a str,
    /// Mean of the squared current over a day.
    pub square: f64,
}

impl RunInSize<'_> {
    /// All of them.
    pub fn write(&self, notes: &mut Notes) {
        self.resistance(notes);
        self.drop(notes);
        self.heat(notes);
        self.ampacity(notes);
        self.copper(notes);
    }

    fn own(&self) -> Subject {
        self.subject.clone()
    }

    fn ways(&self) -> Figure {
        Figure::new(ways(self.run.asked.run), Unit::Count)
    }

    fn resistance(&self, notes: &mut Notes) {
        let (asked, candidate) = (&self.run.asked, self.candidate);
        let rules = &self.site.catalogue.rules;
        let cable = &self.picked.shelf.cables[candidate.cable];
        let body = self.site.body(asked.run);
        let (joints, area) = (asked.joints, cable.conductor.area);
        let fixed = asked.fixed(area);
        let formula = "n * max(l, j * min(1, A / S)) + s / 1000 + c + f + b";
        notes.add(self.own(), "fixed resistance", || {
            Working::new("joints, switches, fuse-link and body", formula, fixed)
                .with("n", "joints in the loop", Figure::new(f64::from(joints.count), Unit::Count))
                .with("j", "one joint of a small size", joints.whole)
                .with("A", "copper up to which that counts", joints.up_to)
                .with("S", "copper of this size", area)
                .with("l", "least of any joint", joints.least)
                .with("s", "switches and plugs", asked.run.switch_mohm)
                .with("c", "contact of the cut-off at its far end", self.site.contact(self.far))
                .with("f", "fuse-link and holder", asked.link)
                .with("b", "the body as way back", body)
                .source(rules.joint.from.words())
                .note(format!("larger lugs: {}", rules.joint_whole.from.words()))
        });
        notes.add(self.own(), "resistance", || {
            Working::new(
                "resistance of the loop, hot",
                "n * L * R / 1000 * (234.5 + T) / 254.5 + F",
                candidate.resistance,
            )
            .with("n", "conductors, out and back", self.ways())
            .with("L", "length one way", asked.run.length)
            .with("R", "resistance of the conductor at 20 °C", cable.conductor.resistance)
            .with_from("T", "temperature of the conductor", candidate.temperature, self.own(), "temperature")
            .with_from("F", "what does not warm with it", fixed, self.own(), "fixed resistance")
            .source(format!("{}; warm copper by NBS Handbook 100", cable.conductor.from.resistance.words()))
        });
    }

    fn drop(&self, notes: &mut Notes) {
        let (asked, candidate) = (&self.run.asked, self.candidate);
        notes.add(self.own(), "drop", || {
            Working::new("drop of the run at its largest current", "I * R", candidate.drop)
                .with_from("I", "largest steady current", asked.current, self.owner.clone(), "current")
                .with_from("R", "resistance of the loop, hot", candidate.resistance, self.own(), "resistance")
                .source(OHM)
        });
        notes.add(self.own(), "drop share", || {
            Working::new("the same as a share of 12 V", "U / V", Share::new(candidate.drop / NOMINAL))
                .with_from("U", "drop of the run", candidate.drop, self.own(), "drop")
                .with("V", "nominal voltage", NOMINAL)
                .source("definition")
        });
        let loss = WattHours::new(24.0 * candidate.resistance.get() * self.square);
        notes.add(self.own(), "loss", || {
            Working::new("energy lost in a day", "24 * R * Q", loss)
                .with_from("R", "resistance of the loop, hot", candidate.resistance, self.own(), "resistance")
                .with("Q", "mean of the squared current over a day, A²", Figure::number(self.square))
                .source("Joule's law")
                .note("the loads beyond switch on and off independently of each other (an approximation)")
        });
    }

    /// A number of the heat balance with all that goes into it.
    fn balance(&self, name: &'static str, result: impl Into<Figure>) -> Working {
        let laid = &self.run.asked.laid;
        let cable = &self.picked.shelf.cables[self.candidate.cable];
        let bundle = self.picked.shelf.factors(self.run.lay).bundle.value;
        let path = HeatPath::new(cable, laid, bundle);
        let conductivity = Figure::new(laid.insulation.conductivity_w_per_mk, Unit::WattPerMetreKelvin);
        Working::new(name, "", result)
            .with_from("Ta", "air along it", laid.air, self.owner.clone(), "air")
            .with("R", "resistance of the conductor at 20 °C", path.resistance)
            .with("d", "diameter of the copper", path.copper)
            .with("D", "outside diameter", path.outside)
            .with("k", "conductivity of the insulation", conductivity)
            .with("e", "emissivity of the surface", Figure::number(path.emissivity))
            .with("F", "cooling left by place and bundle", Figure::number(path.cooling))
            .source(BALANCE)
            .note("an approximation: one cable in still air; the place's factor is common practice")
    }

    fn heat(&self, notes: &mut Notes) {
        let (asked, candidate) = (&self.run.asked, self.candidate);
        let warm = self.balance("conductor at its largest steady current", candidate.temperature).with_from(
            "I",
            "largest steady current",
            asked.current,
            self.owner.clone(),
            "current",
        );
        notes.add(self.own(), "temperature", || warm);
        let most = self
            .balance("current that keeps the conductor at its insulation's limit", candidate.ampacity.heat)
            .with("Tc", "hottest the insulation stands", asked.laid.insulation.max);
        notes.add(self.own(), "ampacity by heat balance", || most);
    }

    fn ampacity(&self, notes: &mut Notes) {
        let (laid, candidate) = (&self.run.asked.laid, self.candidate);
        let cable = &self.picked.shelf.cables[candidate.cable];
        let (used, heat) = (candidate.ampacity.used(), candidate.ampacity.heat);
        let base = self.site.catalogue.ampacity.base_of(&cable.conductor, laid.insulation.column);
        let whole = match candidate.ampacity.table.zip(base) {
            None => Working::new("ampacity", "H", used).source("the table has no value for this size"),
            Some((amps, base)) => {
                let factors = self.picked.shelf.factors(self.run.lay);
                notes.add(self.own(), "ampacity by table", || {
                    Working::new("ampacity by table and factors", "B * a * b", amps)
                        .with("B", "table", base.value)
                        .with("a", "factor for the air", Figure::number(factors.air.value))
                        .with("b", "factor for the bundle", Figure::number(factors.bundle.value))
                        .source(base.source)
                        .note(format!("air: {}", factors.air.source))
                        .note(format!("bundle of {} loaded conductors: {}", laid.conductors, factors.bundle.source))
                });
                Working::new("ampacity", "min(A, H)", used)
                    .with_from("A", "by table and factors", amps, self.own(), "ampacity by table")
                    .source("where two methods differ the smaller rules")
            }
        };
        let whole = whole.with_from("H", "by heat balance", heat, self.own(), "ampacity by heat balance");
        let whole = match candidate.ampacity.pulsed {
            None => whole,
            Some(pulsed) => Working { formula: format!("max({}, P)", whole.formula).into(), ..whole }.with(
                "P",
                "while a load that comes and goes is on, its peaks within the insulation's limit",
                pulsed,
            ),
        };
        notes.add(self.own(), "ampacity", || whole);
    }

    fn copper(&self, notes: &mut Notes) {
        let (asked, candidate) = (&self.run.asked, self.candidate);
        let cable = &self.picked.shelf.cables[candidate.cable];
        notes.add(self.own(), "mass", || {
            Working::new("mass of copper, out and back", "n * L * r / R * D / 1000000", candidate.mass)
                .with("n", "conductors, out and back", self.ways())
                .with("L", "length one way", asked.run.length)
                .with("r", "resistivity of copper, Ω mm²/km", Figure::number(COPPER_OHM_MM2_PER_KM))
                .with("R", "resistance of the conductor at 20 °C", cable.conductor.resistance)
                .with("D", "density of copper, kg/m³", Figure::number(COPPER_DENSITY))
                .source("NBS Handbook 100; the copper that gives the published resistance")
        });
    }
}
