//! How the numbers of one size in one run came about: the size used, or another one side by side.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::conductor::ampacity::{by_table, smaller, while_on};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::copper::hot_loop;
use crate::engine::simulate::circuit::candidate::Candidate;
use crate::engine::simulate::circuit::picked::{Picked, PickedRun};
use crate::engine::simulate::circuit::sized::{loss, of_nominal};
use crate::quantity::*;
use crate::reckon;

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
    /// Voltage that its side is made for.
    pub nominal: Volts,
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

    /// The cable of this size.
    fn cable(&self) -> &Cable<'_> {
        &self.picked.shelf.cables[self.candidate.cable]
    }

    fn resistance(&self, notes: &mut Notes) {
        let (asked, candidate, cable) = (&self.run.asked, self.candidate, self.cable());
        let rules = &self.site.catalogue.rules;
        let fixed = asked.fixed(cable.conductor.area);
        notes.add(self.own(), "joints", || {
            asked
                .joints
                .of(cable.conductor.area)
                .working("joints of the loop")
                .source(rules.joint.from.words())
                .note(format!("larger lugs: {}", rules.joint_whole.from.words()))
        });
        notes.add(self.own(), "switches", || {
            self.site
                .switches(asked.run, self.far)
                .working("switches, contact and body")
                .source("sum of what the current passes besides copper and joints")
        });
        notes.add(self.own(), "fixed resistance", || {
            fixed
                .working("joints, switches, fuse-link and body")
                .from("J", self.own(), "joints")
                .from("o", self.own(), "switches")
                .source("sum of what does not warm with the copper")
        });
        notes.add(self.own(), "cold resistance", || {
            asked.cold(cable).working("copper of the loop at 20 °C").source(cable.conductor.from.resistance.words())
        });
        notes.add(self.own(), "resistance", || {
            hot_loop(candidate.cold, candidate.temperature, fixed.value)
                .working("resistance of the loop, hot")
                .from("C", self.own(), "cold resistance")
                .from("T", self.own(), "temperature")
                .from("F", self.own(), "fixed resistance")
                .source("warm copper by NBS Handbook 100")
        });
    }

    fn drop(&self, notes: &mut Notes) {
        notes.add(self.own(), "drop", || {
            self.candidate
                .dropped(&self.run.asked)
                .working("drop of the run at its largest current")
                .from("I", self.owner.clone(), "current")
                .from("R", self.own(), "resistance")
                .source(OHM)
        });
        notes.add(self.own(), "drop share", || {
            of_nominal(self.candidate.drop, self.nominal)
                .working("the same as a share of what its side is made for")
                .from("U", self.own(), "drop")
                .source("definition")
        });
        notes.add(self.own(), "loss", || {
            loss(self.candidate.resistance, self.square)
                .working("energy lost in a day")
                .from("R", self.own(), "resistance")
                .source("Joule's law")
                .note("the loads beyond switch on and off independently of each other (an approximation)")
        });
    }

    /// A number of the heat balance with all that goes into it.
    fn balance(&self, name: &'static str, result: impl Into<Figure>) -> Working {
        let laid = &self.run.asked.laid;
        let cable = self.cable();
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
        let (laid, ampacity, cable) = (&self.run.asked.laid, self.candidate.ampacity, self.cable());
        let base = self.site.catalogue.ampacity.base_of(&cable.conductor, laid.insulation.column);
        if let Some(base) = &base {
            let factors = self.picked.shelf.factors(self.run.lay);
            notes.add(self.own(), "ampacity by table", || {
                by_table(base.value, factors.air.value, factors.bundle.value)
                    .working("ampacity by table and factors")
                    .source(base.source.clone())
                    .note(format!("air: {}", factors.air.source))
                    .note(format!("bundle of {} loaded conductors: {}", laid.conductors, factors.bundle.source))
            });
        }
        let for_ever = if ampacity.pulsed.is_some() { "ampacity for ever" } else { "ampacity" };
        notes.add(self.own(), for_ever, || {
            let working = match ampacity.table {
                None => reckon!(Amps: H, H: "by heat balance" = ampacity.heat)
                    .working(for_ever)
                    .source("the table has no value for this size"),
                Some(table) => smaller(table, ampacity.heat)
                    .working(for_ever)
                    .from("A", self.own(), "ampacity by table")
                    .source("where two methods differ the smaller rules"),
            };
            working.from("H", self.own(), "ampacity by heat balance")
        });
        if let Some(pulsed) = ampacity.pulsed {
            notes.add(self.own(), "ampacity", || {
                while_on(ampacity.for_ever(), pulsed)
                    .working("ampacity")
                    .from("E", self.own(), for_ever)
                    .source("one heat store behind one thermal resistance; heat capacity of copper of IEC 60853-2")
            });
        }
    }

    fn copper(&self, notes: &mut Notes) {
        notes.add(self.own(), "mass", || {
            self.run
                .asked
                .mass(self.cable())
                .working("mass of copper, out and back")
                .source("resistivity and density of copper: NBS Handbook 100")
        });
    }
}
