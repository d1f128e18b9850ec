//! What is asked of a data sheet, with the usual value and where on the sheet it stands.

use super::kind::OwnKind;
use crate::catalogue::devices::CHARGER_KINDS;
use crate::catalogue::provenance::How;
use crate::catalogue::rows::Rows;
use crate::quantity::{Figure, Unit, parse};

/// Longest text of an answer.
const LONGEST: usize = 60;

/// One thing that is asked.
#[derive(Debug)]
pub struct Asked {
    /// Its name for whoever writes the file.
    pub key: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// Whether there is no row without it.
    pub needed: bool,
    /// What is usual.
    pub usual: &'static str,
    /// Where it stands on the sheet.
    pub find: &'static str,
}

/// What an answer may be.
#[derive(Clone, Copy, Debug)]
pub enum Takes {
    /// A name or a title.
    Words,
    /// A number in a unit, from the least to the most.
    Number(Unit, f64, f64),
    /// Several such numbers.
    Numbers(Unit, f64, f64),
    /// One of a list of words.
    OneOf(fn(&Rows) -> Vec<(String, String)>),
}

/// An answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Given {
    /// Words, or one of a list.
    Words(String),
    /// A number in the unit asked for.
    Number(f64),
    /// Several, by growing size.
    Numbers(Vec<f64>),
}

const fn needs(key: &'static str, label: &'static str, takes: Takes, usual: &'static str, find: &'static str) -> Asked {
    Asked { key, label, takes, needed: true, usual, find }
}

const fn may(key: &'static str, label: &'static str, takes: Takes, usual: &'static str, find: &'static str) -> Asked {
    Asked { key, label, takes, needed: false, usual, find }
}

use Takes::{Number, Numbers, OneOf, Words};
use Unit::{Amp, AmpHour, Celsius, Kilogram, Millimetre, Milliohm, OhmPerKm, Share, SquareMillimetre, Volt};

const NAME: Asked = needs("name", "Name", Words, "", "what you call it; the plan and the papers use this name");
const SHEET: Asked = may("sheet", "Data sheet", Words, "", "title and date of the sheet, so that it is found again");

static BATTERY: &[Asked] = &[
    NAME,
    needs(
        "base",
        "Chemistry",
        OneOf(chemistries),
        "",
        "front of the sheet; what it does not say is taken from the usual",
    ),
    needs(
        "capacity_ah",
        "Capacity",
        Number(AmpHour, 1.0, 5000.0),
        "100 Ah",
        "the 20 h value of lead-acid (C20), else the rated one",
    ),
    may("mass_kg", "Mass", Number(Kilogram, 0.2, 2000.0), "for 100 Ah 26 kg lead, 12 kg lithium", "mechanical data"),
    may(
        "resistance_mohm",
        "Resistance",
        Number(Milliohm, 0.01, 1000.0),
        "for 100 Ah 3 to 6 mΩ",
        "“internal resistance, fully charged”; the higher of it and the usual counts for a load, the lower for a short circuit",
    ),
    may("charge_v", "Charge voltage", Number(Volt, 9.0, 18.0), "14.4 V", "“absorption” or “cycle use” at 25 °C"),
    may("float_v", "Float voltage", Number(Volt, 9.0, 18.0), "13.6 V", "“float” or “standby use” at 25 °C"),
    may(
        "takes_a",
        "Takes at most",
        Number(Amp, 0.1, 5000.0),
        "per Ah 0.2 A lead, 0.5 A lithium",
        "“max. charge current”",
    ),
    may("gives_a", "Gives at most", Number(Amp, 0.1, 5000.0), "per Ah 1 A", "“max. continuous discharge current”"),
    may(
        "gives_short_a",
        "Gives for 10 s",
        Number(Amp, 0.1, 20_000.0),
        "as it gives for long",
        "“peak” or “pulse” discharge; not the short-circuit current",
    ),
    may(
        "charge_min_c",
        "Charged above",
        Number(Celsius, -60.0, 40.0),
        "0 °C lithium",
        "“charge temperature range”, its lower end",
    ),
    SHEET,
];

static CHARGER: &[Asked] = &[
    NAME,
    needs("kind", "Kind", OneOf(charger_kinds), "", "dc-dc: from the vehicle while driving; mains: from the wall"),
    needs("output_a", "Output current", Number(Amp, 0.5, 500.0), "30 A", "“rated output” or “charge current”"),
    may(
        "charge_v",
        "Charge voltage",
        Number(Volt, 11.0, 18.0),
        "14.4 V",
        "“absorption” or “boost” of the setting you use",
    ),
    may("efficiency", "Efficiency", Number(Share, 0.5, 1.0), "90 %", "at full load"),
    may("lowest_input_v", "Lowest input", Number(Volt, 8.0, 14.0), "11 V", "“input voltage range”, its lower end"),
    may("input_a", "Input current", Number(Amp, 0.5, 1000.0), "a quarter more than its output", "“max. input current”"),
    may("standing_draw_a", "Standing draw", Number(Amp, 0.0, 2.0), "5 mA", "“no-load” or “standby” current"),
    SHEET,
];

static FUSE: &[Asked] = &[
    NAME,
    needs("base", "Style like", OneOf(styles), "", "the style whose operating times it has; read them on the sheet"),
    needs(
        "ratings_a",
        "Ratings",
        Numbers(Amp, 0.5, 2000.0),
        "40 60 80 100",
        "“ampere rating”; several with blanks between",
    ),
    needs("rated_v", "Rated voltage", Number(Volt, 12.0, 1500.0), "32 V", "for direct current (DC)"),
    needs(
        "breaks_a",
        "Breaking capacity",
        Number(Amp, 10.0, 500_000.0),
        "1000 A",
        "“interrupting rating” or “breaking capacity” at that voltage, DC",
    ),
    may("drop_at_rating_v", "Drop at rating", Number(Volt, 0.001, 1.0), "100 mV", "“voltage drop at rated current”"),
    SHEET,
];

static CABLE: &[Asked] = &[
    NAME,
    needs("family", "Family", OneOf(families), "", "from which the plan then chooses it too"),
    needs("area_mm2", "Area", Number(SquareMillimetre, 0.05, 1000.0), "6 mm²", "nominal cross-section of the copper"),
    needs(
        "ohm_per_km_20c",
        "Resistance",
        Number(OhmPerKm, 0.01, 400.0),
        "for 6 mm² 3.3 Ω/km",
        "“conductor resistance at 20 °C”, the most",
    ),
    needs("outside_mm", "Outer diameter", Number(Millimetre, 0.5, 100.0), "for 6 mm² 4.3 mm", "“overall diameter”"),
    may(
        "carries_a",
        "Carries",
        Number(Amp, 0.1, 2000.0),
        "for 6 mm² 55 A alone in air",
        "“current rating”; it counts where it is less than ours",
    ),
    SHEET,
];

fn chemistries(rows: &Rows) -> Vec<(String, String)> {
    let built_in = rows.chemistries.iter().filter(|c| c.blocks.from.sizes.how != How::User);
    built_in.map(|c| (c.key.clone(), c.name.clone())).collect()
}

fn styles(rows: &Rows) -> Vec<(String, String)> {
    let built_in = rows.fuse_styles.iter().filter(|s| s.from.ratings.how != How::User);
    built_in.map(|s| (s.key.clone(), s.name.clone())).collect()
}

fn families(_: &Rows) -> Vec<(String, String)> {
    let words =
        [("metric", "plain copper"), ("tinned", "tinned copper"), ("road-vehicle", "thin-walled vehicle cable")];
    words.map(|(key, about)| (key.to_string(), about.to_string())).to_vec()
}

fn charger_kinds(_: &Rows) -> Vec<(String, String)> {
    CHARGER_KINDS.iter().map(|kind| (kind.to_string(), String::new())).collect()
}

impl OwnKind {
    /// What is asked, in the order of the form.
    pub fn asked(self) -> &'static [Asked] {
        match self {
            OwnKind::Battery => BATTERY,
            OwnKind::Charger => CHARGER,
            OwnKind::Fuse => FUSE,
            OwnKind::Cable => CABLE,
        }
    }
}

impl Asked {
    /// Words to choose from, with what they mean; none where anything may be typed.
    pub fn options(&self, rows: &Rows) -> Vec<(String, String)> {
        match self.takes {
            OneOf(list) => list(rows),
            _ => Vec::new(),
        }
    }

    /// An answer as it is understood, with its unit; nothing where it is refused or no number.
    pub fn shown(&self, typed: &str, rows: &Rows) -> Option<String> {
        match (self.read(typed, rows).ok()??, self.takes) {
            (Given::Number(n), Number(unit, ..)) => Some(Figure::new(n, unit).to_string()),
            (Given::Numbers(all), Numbers(unit, ..)) => {
                Some(all.iter().map(|n| Figure::new(*n, unit).to_string()).collect::<Vec<_>>().join(" "))
            }
            _ => None,
        }
    }

    /// Read an answer; nothing where it was left out and may be.
    ///
    /// # Errors
    /// Why it is refused, and what is accepted.
    pub fn read(&self, typed: &str, rows: &Rows) -> Result<Option<Given>, String> {
        let typed = typed.trim();
        if typed.is_empty() {
            return if self.needed { Err(format!("{} must be given: {}", self.label, self.find)) } else { Ok(None) };
        }
        let said = |why: String| format!("{}: {why}", self.label);
        match self.takes {
            Words if typed.chars().count() > LONGEST => Err(said(format!("at most {LONGEST} characters"))),
            Words => Ok(Some(Given::Words(typed.into()))),
            OneOf(list) => match list(rows).into_iter().find(|(key, _)| key == typed) {
                Some((key, _)) => Ok(Some(Given::Words(key))),
                None => Err(said("choose one with ← and →".into())),
            },
            Number(unit, least, most) => number(typed, unit, least, most).map(|n| Some(Given::Number(n))).map_err(said),
            Numbers(unit, least, most) => {
                let each = typed.split([' ', ';', '/']).filter(|word| !word.is_empty());
                // `60 A 80 A`: a unit by itself belongs to the number before it.
                let each = each.filter(|word| word.chars().any(|c| c.is_ascii_digit()));
                let mut all: Vec<f64> = each
                    .map(|word| number(word.trim_end_matches(','), unit, least, most))
                    .collect::<Result<_, _>>()
                    .map_err(said)?;
                all.sort_by(f64::total_cmp);
                all.dedup();
                if all.is_empty() { Err(said("give at least one".into())) } else { Ok(Some(Given::Numbers(all))) }
            }
        }
    }
}

fn number(typed: &str, unit: Unit, least: f64, most: f64) -> Result<f64, String> {
    let value = parse(typed, unit).map_err(|e| e.explain(unit))?;
    if (least..=most).contains(&value) {
        return Ok(value);
    }
    let figure = |n| Figure::new(n, unit);
    Err(format!("{} is out of range; it can be from {} to {}", figure(value), figure(least), figure(most)))
}
