//! Does the catalogue in use still give what was published? Cases printed in standards, tables and data sheets, worked
//! by this program with the catalogue at hand, the user's own rows included.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::ask::cable::{CableQuestion, cable_question};
use crate::engine::physics::conductor::ampacity::TableFactors;
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::fuse_link::let_through::cable_stands;
use crate::plan::SizeFamily;
use crate::quantity::*;

/// A published case beside what the program makes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedCase {
    /// What is asked.
    pub what: String,
    /// Where the answer was published.
    pub source: &'static str,
    /// It must be no less than this.
    pub least: Option<Figure>,
    /// It must be no more than this.
    pub most: Option<Figure>,
    /// What the program makes of it; `None` where the catalogue has no such row.
    pub got: Option<Figure>,
}

impl PublishedCase {
    /// What was published, or the bounds that follow from it: `3.27 to 3.33 Ω/km`, `at most 60 A`.
    pub fn published(&self) -> String {
        match (self.least, self.most) {
            (Some(least), Some(most)) if least.to_string() == most.to_string() => most.to_string(),
            (Some(least), Some(most)) => format!("{} to {most}", least.digits(UnitSystem::Metric)),
            (Some(least), None) => format!("at least {least}"),
            (None, Some(most)) => format!("at most {most}"),
            (None, None) => String::new(),
        }
    }

    /// Whether it holds. A row that is missing does not.
    pub fn holds(&self) -> bool {
        let within = |got: f64| {
            self.least.is_none_or(|l| got >= l.value - 1e-9) && self.most.is_none_or(|m| got <= m.value + 1e-9)
        };
        self.got.is_some_and(|got| within(got.value))
    }
}

/// All of them, held against a catalogue.
#[derive(Clone, Debug, PartialEq)]
pub struct SelfCheck {
    /// Each case.
    pub cases: Vec<PublishedCase>,
}

impl SelfCheck {
    /// Those that do not hold.
    pub fn failed(&self) -> impl Iterator<Item = &PublishedCase> {
        self.cases.iter().filter(|c| !c.holds())
    }
}

/// Work every published case with this catalogue.
pub fn self_check(catalogue: &Catalogue) -> SelfCheck {
    let mut bench = Bench { catalogue, cases: Vec::new() };
    bench.copper();
    bench.ampacity();
    bench.drop();
    bench.fuses();
    bench.crimps();
    bench.lead_acid();
    bench.lithium();
    SelfCheck { cases: bench.cases }
}

struct Bench<'a> {
    catalogue: &'a Catalogue,
    cases: Vec<PublishedCase>,
}

impl Bench<'_> {
    fn hold<Q: Quantity>(
        &mut self,
        source: &'static str,
        what: impl Into<String>,
        [least, most]: [Option<f64>; 2],
        got: Option<Q>,
    ) {
        let figure = |value| Figure::new(value, Q::UNIT);
        let got = got.map(|q| figure(q.number())).filter(|f| f.value.is_finite());
        self.cases.push(PublishedCase {
            what: what.into(),
            source,
            least: least.map(figure),
            most: most.map(figure),
            got,
        });
    }

    fn copper(&mut self) {
        let source = "IEC 60228:2004 Table 3, class 5, plain copper at 20 °C, 1 %";
        for (size, ohms) in [
            ("1.5 mm²", 13.3),
            ("2.5 mm²", 7.98),
            ("4 mm²", 4.95),
            ("6 mm²", 3.30),
            ("10 mm²", 1.91),
            ("16 mm²", 1.21),
            ("25 mm²", 0.780),
            ("35 mm²", 0.554),
            ("50 mm²", 0.386),
            ("70 mm²", 0.272),
            ("95 mm²", 0.206),
            ("120 mm²", 0.161),
        ] {
            let got = self.catalogue.conductor(size).map(|c| c.resistance);
            self.hold(source, format!("resistance of {size}"), [Some(0.99 * ohms), Some(1.01 * ohms)], got);
        }
    }

    /// What a cable of the 105 °C column carries in 30 °C air, alone.
    fn ampacity(&mut self) {
        let source = "33 CFR 183.425 Table 5, 105 °C column, 30 °C air; never more, and not much less";
        for (gauge, amps) in [
            ("16", 25.0),
            ("14", 35.0),
            ("12", 45.0),
            ("10", 60.0),
            ("8", 80.0),
            ("6", 120.0),
            ("4", 160.0),
            ("2", 210.0),
            ("1/0", 285.0),
            ("2/0", 330.0),
            ("4/0", 445.0),
        ] {
            let got = self.carries(&format!("{gauge} AWG"));
            self.hold(source, format!("{gauge} AWG carries"), [Some(0.94 * amps), Some(amps)], got);
        }
    }

    fn carries(&self, label: &str) -> Option<Amps> {
        let cable = Cable::labelled(self.catalogue, label)?;
        let mut insulation = self.catalogue.insulation("pvc-105")?.clone();
        (insulation.max, insulation.column) = (Celsius::new(105.0), Celsius::new(105.0));
        let laid = Laid { insulation: &insulation, place: None, air: Celsius::new(30.0), conductors: 1 };
        let table = &self.catalogue.ampacity;
        let base = table.base_of(&cable.conductor, insulation.column).map(|b| b.value);
        Some(TableFactors::of(table, &laid).ampacity(&cable, &laid, base).used())
    }

    /// Two reprints of the table differ by a size in places, so one size either side is accepted.
    fn drop(&mut self) {
        let table = "ABYC E-11, 3 % at 12 V (reprint), one size either side";
        let example = "FAA AC 43.13-1B CHG 1, p. 11-26, example 1: size 8, not 10; one size above accepted";
        for (source, amps, feet, percent, gauge, from, to) in [
            (table, 5.0, 40.0, 3.0, "12", "14", "10"),
            (table, 10.0, 20.0, 3.0, "12", "14", "10"),
            (table, 20.0, 30.0, 3.0, "6", "8", "4"),
            (table, 50.0, 20.0, 3.0, "4", "6", "2"),
            (table, 100.0, 15.0, 3.0, "2", "4", "1"),
            (example, 20.0, 50.0, 100.0 / 12.0, "8", "8", "6"),
        ] {
            let question = CableQuestion {
                current: Amps::new(amps),
                length: Metres::new(feet * 0.3048 / 2.0),
                drop: Share::percent(percent),
                sizes: SizeFamily::Awg,
                air: Some(Celsius::new(20.0)),
                joints: 0,
                fused: false,
                ..CableQuestion::default()
            };
            let answer = cable_question(self.catalogue, &question);
            let copper = |label: &str| awg_number(label).map(|n| awg_area(n).get());
            let got = answer.run.size.and_then(|s| copper(s.label.trim_end_matches(" AWG")));
            let what = format!("{amps} A over {feet} ft of wire: {gauge} AWG");
            self.hold(source, what, [copper(from), copper(to)], got.map(SquareMillimetres::new));
        }
    }

    fn fuses(&mut self) {
        let scopes = [
            ("blade-c", "ISO 8820-3:2015 scope: 32 V, up to 100 A, breaking capacity 1000 A", 100.0, 1000.0),
            ("strip-30", "ISO 8820-5:2015 scope: 32 V, 30 to 500 A, breaking capacity 2000 A", 500.0, 2000.0),
            ("strip-51", "ISO 8820-5:2015 scope: 32 V, 30 to 500 A, breaking capacity 2000 A", 500.0, 2000.0),
        ];
        for (key, source, largest, breaks) in scopes {
            let style = self.catalogue.fuse_style(key);
            let name = style.map_or(key, |s| s.name.as_str()).to_string();
            let breaking = style.and_then(|s| s.breaking_at(Volts::new(32.0))).map(|b| b.amps);
            self.hold(source, format!("{name} breaks at 32 V"), [None, Some(breaks)], breaking);
            let rating = style.and_then(|s| s.ratings.iter().copied().max_by(|a, b| a.get().total_cmp(&b.get())));
            self.hold(source, format!("{name}, largest"), [None, Some(largest)], rating);
        }
        let source = "IEC 60364-4-43 limit k²S², as tabled in a public installation guide, Figures G52 and G53";
        for (key, mm2, limit) in [("pvc-70", 2.5, 82_600.0), ("xlpe-90", 10.0, 2_045_000.0)] {
            let insulation = self.catalogue.insulation(key);
            let got = insulation.map(|i| cable_stands(i.adiabatic_k, SquareMillimetres::new(mm2)));
            self.hold(source, format!("{mm2} mm² of {key} stands"), [None, Some(1.001 * limit)], got);
        }
    }

    fn crimps(&mut self) {
        let source = "UL 486A pull-out force held for one minute, as a terminal maker's specification prints it";
        for (gauge, newtons) in [("14", 222.5), ("10", 356.0), ("6", 445.0), ("2", 801.0)] {
            let area = awg_number(gauge).map(awg_area);
            let pulls = || self.catalogue.workshop.pulls.iter();
            // Areas are rounded in the catalogue.
            let found = area.and_then(|a| pulls().rev().find(|p| p.area.get() <= 1.02 * a.get())).map(|p| p.least);
            self.hold(source, format!("a crimp on {gauge} AWG stands"), [Some(0.99 * newtons), None], found);
        }
    }

    fn lead_acid(&mut self) {
        let flooded = self.catalogue.chemistry("flooded");
        let rest = |c: Option<&Chemistry>, percent: f64| c.and_then(|c| c.resting.curve.at(Share::percent(percent)));
        let acid = "US Army TM 5-4210-230-14&P-1 Table 2, specific gravity by charge, + 0.845 V per cell; 0.2 V";
        for (percent, gravity) in [(100.0, 1.265), (75.0, 1.225), (50.0, 1.190), (25.0, 1.155)] {
            let volts: f64 = 6.0 * (gravity + 0.845);
            let band = [Some(volts - 0.2), Some(volts + 0.2)];
            self.hold(acid, format!("flooded at {percent} %, rested"), band, rest(flooded, percent));
        }
        let full = "US Army TM 9-6115-730-24, AGM, full after 3 to 8 h of rest";
        let agm = self.catalogue.chemistry("agm");
        self.hold(full, "AGM, full and rested", [Some(12.8), Some(13.0)], rest(agm, 100.0));
        let cold = "IEEE 485 Table 1, size correction k; what is left is 1/k, never more";
        for (fahrenheit, k) in [(40.0, 1.30), (60.0, 1.11)] {
            let air = Celsius::new((fahrenheit - 32.0) / 1.8);
            let left = flooded.and_then(|c| c.cold.capacity.at(air));
            let what = format!("flooded, capacity left at {air}");
            self.hold(cold, what, [Some(1.0 / k - 0.02), Some(1.0 / k + 0.005)], left);
        }
        let freezing = "US Army TM 10-6140-200-14, freezing point; the program may warn sooner";
        for (percent, fahrenheit) in [(50.0, -31.0), (25.0, 1.0)] {
            let at = flooded.and_then(|c| c.cold.freezing.as_ref()).and_then(|f| f.at(Share::percent(percent)));
            let what = format!("flooded at {percent} % freezes at");
            self.hold(freezing, what, [Some((fahrenheit - 32.0) / 1.8), None], at);
        }
        let sheet = "Trojan Battery Company, data sheet T-105, 6 V 225 Ah at 20 h (year not recorded): 185 Ah in 5 h";
        // By the exponent, a fourfold current gives this share; never thought to give more than the sheet does.
        let given = flooded.map(|c| Share::new(0.25_f64.powf(1.0 - 1.0 / c.rate.peukert)));
        self.hold(sheet, "flooded, given in 5 h of what it gives in 20 h", [None, Some(1.005 * 185.0 / 225.0)], given);
        let floor = "US Army Ordnance subcourse OS 010, para 14: a rating test ends at 1.75 V per cell";
        let damage = flooded.map(|c| c.low.damage);
        self.hold(floor, "flooded, never below", [Some(10.5 - 1e-6), Some(10.5 + 1e-6)], damage);
    }

    fn lithium(&mut self) {
        let source = "About:Energy, open battery parameter set in the BPX format, open circuit of an 18650 LFP cell, 4 cells; 0.1 V";
        let lithium = self.catalogue.chemistry("lithium-iron-phosphate");
        for (percent, volts) in [(20.0, 12.92), (50.0, 13.11), (80.0, 13.27)] {
            let got = lithium.and_then(|c| c.resting.curve.at(Share::percent(percent)));
            let what = format!("lithium iron phosphate at {percent} %, rested");
            self.hold(source, what, [Some(volts - 0.1), Some(volts + 0.1)], got);
        }
    }
}
