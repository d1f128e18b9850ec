//! What is wrong with the carrier, and what would mend it?

use crate::catalogue::{Axis, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::beneath::beneath;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::hold_down_links::links;
use crate::engine::judge::hold_down_made::made;
use crate::engine::physics::steel::sharing::{Pattern, Weakness};
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::result::{CarrierDesign, Lift, Shape, ShockCase, Strength};
use crate::engine::simulate::hold_down::strength::pattern;
use crate::plan::{Choice, HoldDownStyle, Locking, Place, Section, Value};
use crate::quantity::*;

/// What is wrong with a carrier.
pub(crate) fn check(site: &Installation, design: &CarrierDesign) -> Vec<Finding> {
    let judge = Judge { site, design };
    let mut findings = judge.missing();
    if let Some(shape) = &design.shape {
        findings.extend(judge.room(shape));
        findings.extend(judge.height(shape));
        findings.extend(judge.bends(shape));
    }
    let size = site.catalogue.stud(&design.sizes.stud);
    let pattern = design
        .shape
        .as_ref()
        .zip(size)
        .map(|(shape, size)| pattern(&site.hold_down, &design.sizes, &site.studs, shape, size));
    findings.extend(pattern.and_then(|p| judge.pattern(&p)));
    if let Some(strength) = &design.strength {
        findings.extend(judge.studs(strength));
        findings.extend(judge.strip(strength));
        findings.extend(links(site, design, strength));
        findings.extend(judge.grip(strength));
    }
    findings.extend(made(site, design));
    findings.extend(beneath(site, design));
    findings.extend(judge.hold_down());
    findings.extend(judge.torque());
    findings.extend(judge.locking());
    findings.extend(judge.lifting());
    findings
}

struct Judge<'a> {
    site: &'a Installation,
    design: &'a CarrierDesign,
}

fn place(key: &'static str) -> Place {
    Place::of(Section::HoldDown, key)
}

fn find(kind: Kind, key: &'static str, text: String, rule: impl Into<String>) -> Finding {
    Finding::new(kind, Subject::Carrier, text).rule(rule).at(place(key))
}

/// Rounded up to whole millimetres, so that a remedy typed in really mends it.
fn up(length: Millimetres) -> Millimetres {
    Millimetres::new(length.get().ceil())
}

impl Judge<'_> {
    fn missing(&self) -> Vec<Finding> {
        let mut findings = Vec::new();
        if self.design.battery_mass.is_none() {
            let text = "the battery's mass is not known, so no force could be worked out";
            let finding = Finding::new(Kind::CarrierNoMass, Subject::Carrier, text)
                .rule("force = mass × acceleration")
                .at(Place::of(Section::ServiceBattery, "mass_kg"))
                .remedy("enter the mass from the label; a 100 Ah lead-acid block has about 30 kg");
            findings.push(finding);
        }
        if self.design.shape.is_none() {
            let text = "neither inside nor battery dimensions are given, so no length could be worked out".to_string();
            findings.push(
                find(
                    Kind::CarrierNoSize,
                    "battery_length_mm",
                    text,
                    "blank, levers and clearance follow from the size",
                )
                .remedy("enter the dimensions of the battery, posts and covers included"),
            );
        }
        findings
    }

    /// Clearance to the battery: too little, or enough to let it hammer.
    fn room(&self, shape: &Shape) -> Vec<Finding> {
        let (Some(gap), Some(battery)) = (shape.clearance, shape.battery) else { return Vec::new() };
        let wanted = self.site.hold_down.clearance;
        let play = self.site.catalogue.rules.play.value;
        let sides = [
            ("length_mm", "along", gap.along, up(battery.along + 2.0 * wanted), gap.along * 2.0),
            ("width_mm", "across", gap.across, up(battery.across + 2.0 * wanted), gap.across * 2.0),
            ("height_mm", "above", gap.upright, up(battery.upright + wanted), gap.upright),
        ];
        let mut findings = Vec::new();
        for (key, side, gap, fits, moves) in sides {
            if gap.get() < -0.001 || gap < wanted - Millimetres::new(0.01) {
                let text = if gap.get() < -0.001 {
                    format!("the battery does not go in: {} too little at each side {side}", gap.abs())
                } else {
                    format!("only {gap} of clearance {side}, {wanted} wanted")
                };
                let text = text.replace("at each side above", "above");
                let finding =
                    find(Kind::CarrierTight, key, text, "padding, swelling and a hand's way in and out need room")
                        .remedy_edit(format!("{fits} inside would do"), place(key), Some(Value::Number(fits.get())));
                findings.push(if gap.get() < -0.001 { finding } else { finding.as_severity(Severity::Caution) });
            } else if moves > play {
                let text = format!("the battery can move {moves} {side}");
                let rule = format!("at most {play}: {}", self.site.catalogue.rules.play.from.words());
                findings.push(find(Kind::CarrierLoose, key, text, rule).remedy(format!(
                    "pad it out by {} or more with hard foam or timber, or make it smaller",
                    up(moves - play)
                )));
            }
        }
        findings
    }

    fn height(&self, shape: &Shape) -> Option<Finding> {
        let left = shape.height_left.filter(|left| left.get() < 0.0)?;
        let text = format!("it takes {} of height, {} more than is free", shape.outside_height, left.abs());
        let (along, across) = (shape.inside.along, shape.inside.across);
        Some(find(Kind::HeightShort, "free_height_mm", text, "inside height, and the steel above or below it").remedy(
            format!(
                "a battery lower by {}, or one laid flat if its maker allows ({along} × {across} of floor is there)",
                up(left.abs())
            ),
        ))
    }

    fn bends(&self, shape: &Shape) -> Option<Finding> {
        let (r, t) = (self.design.sizes.bend_radius, self.design.sizes.thickness);
        if shape.blanks.is_empty() {
            let text = format!("bends of {r} inside radius do not fit: a straight part would be shorter than nothing");
            let rule = "each straight part must be longer than the bends take from it";
            return Some(
                find(Kind::BendShort, "bend_radius_mm", text, rule)
                    .remedy(format!("make ears or rim {} or longer, or bend tighter", up(r + t))),
            );
        }
        (r < t).then(|| {
            let text = format!("inside radius {r} is tighter than the thickness of {t}");
            let rule =
                "plain steel bends without cracks at a radius of its thickness or more (common practice, no source)";
            find(Kind::BendTight, "bend_radius_mm", text, rule).remedy_edit(
                format!("bend at {t} or more"),
                place("bend_radius_mm"),
                Some(Value::Number(t.get())),
            )
        })
    }

    fn pattern(&self, pattern: &Pattern) -> Option<Finding> {
        let (text, rule) = match pattern.weakness()? {
            Weakness::Single => {
                ("one stud alone lets the hold-down tip and turn", "two directions need studs apart in both")
            }
            Weakness::Line => (
                "all studs stand in one line, so the hold-down tips over it",
                "tipping needs studs apart across the line",
            ),
        };
        Some(
            find(Kind::StudPattern, "studs_along", text.into(), rule)
                .remedy("use 4 studs in 2 rows, as far apart as the hold-down allows"),
        )
    }

    fn studs(&self, strength: &Strength) -> Option<Finding> {
        if strength.utilisation.get() <= 1.0 {
            return None;
        }
        let text = format!(
            "{} {} studs are used to {} when the battery is thrown {}: they stretch or break",
            self.design.sizes.stud,
            self.site.hold_down.stud_class,
            strength.utilisation,
            strength.ruling.word()
        );
        let finding = find(Kind::StudWeak, "stud", text, self.steel_rule(strength.ruling.axis(), true));
        let finding = match self.bigger_stud(strength) {
            Some((size, used)) => finding.remedy_edit(
                format!("{size} of the same class would be used to {used}"),
                place("stud"),
                Some(Value::Text(size)),
            ),
            None => finding,
        };
        Some(finding.remedy(format!(
            "these studs carry {} of battery at this shock; use more of them, further apart",
            strength.largest_mass
        )))
    }

    /// What a stud or rod is held against, in the direction that asks most; a rod is only pulled.
    fn steel_rule(&self, axis: Axis, sideways: bool) -> String {
        let rules = &self.site.catalogue.rules;
        let shock = self.site.catalogue.shock(&self.site.hold_down.shock);
        let shock = shock.map_or(String::new(), |s| format!("{}: {}; ", s.name, s.level(axis).1.words()));
        let strengths = self.site.catalogue.stud_class(&self.site.hold_down.stud_class).map(|c| &c.from).map_or(
            String::new(),
            |from| {
                let shear = sideways.then_some(&from.shear_share);
                cite([&from.proof, &from.tensile, &rules.bolt_partial.from].into_iter().chain(shear))
            },
        );
        format!("{shock}proof stress and EN 1993-1-8 table 3.4, the worse rules: {strengths}")
    }

    /// The smallest size of the same class that holds; positions change a little with the size, which is not followed.
    fn bigger_stud(&self, strength: &Strength) -> Option<(String, Share)> {
        let class = self.site.catalogue.stud_class(&self.site.hold_down.stud_class)?;
        let factor = self.site.catalogue.rules.bolt_partial.value;
        let case_use = |size: &crate::catalogue::StudSize| {
            let strengths = Strengths::of(size, class, factor);
            strength
                .cases
                .iter()
                .flat_map(|c| c.tensions.iter().zip(&c.shears))
                .fold(Share::ZERO, |a, (t, v)| a.max(strengths.used(*t, *v)))
        };
        let sizes = self.site.catalogue.studs.iter().map(|s| (s.key.clone(), case_use(s)));
        sizes.into_iter().find(|(_, used)| used.get() <= 1.0)
    }

    fn strip(&self, strength: &Strength) -> Option<Finding> {
        let strip = strength.strip.as_ref().filter(|s| s.utilisation.get() > 1.0)?;
        let yields = self.site.catalogue.rules.strip_yield.value;
        let text = format!(
            "the strip yields beside its stud hole: {} on {}, and it stands {yields}",
            strip.stress, strip.net_area
        );
        let thick = up(self.design.sizes.thickness * strip.utilisation.get());
        Some(find(Kind::StripWeak, "thickness_mm", text, self.strip_rule(strength)).remedy_edit(
            format!("{thick} thick would hold"),
            place("thickness_mm"),
            Some(Value::Number(thick.get())),
        ))
    }

    fn strip_rule(&self, strength: &Strength) -> String {
        let shock = self.site.catalogue.shock(&self.site.hold_down.shock);
        let pull = |c: &ShockCase| c.tensions.iter().fold(Newtons::ZERO, |a, b| a.max(*b));
        let hardest = strength.cases.iter().max_by(|a, b| pull(a).get().total_cmp(&pull(b).get()));
        let source = shock.zip(hardest).map(|(shock, case)| shock.level(case.force.thrown.axis()).1);
        cite(source.into_iter().chain([&self.site.catalogue.rules.strip_yield.from]))
    }

    fn hold_down(&self) -> Option<Finding> {
        let carrier = &self.site.hold_down;
        if carrier.style == HoldDownStyle::StripBasket {
            return None;
        }
        if carrier.rods == 0 {
            let text = "no rods hold the battery down: it leaves its place when thrown upward".to_string();
            return Some(find(Kind::HoldDownWeak, "rods", text, "a rim holds sideways only").remedy_edit(
                "2 rods and a bar over the battery",
                place("rods"),
                Some(Value::Number(2.0)),
            ));
        }
        let rods = self.design.strength.as_ref()?.hold_down.as_ref().filter(|h| h.utilisation.get() > 1.0)?;
        let text =
            format!("each hold-down rod is pulled with {}, {} of what it stands", rods.tension, rods.utilisation);
        let enough = (f64::from(rods.rods) * rods.utilisation.get()).ceil();
        let finding = find(Kind::HoldDownWeak, "rods", text, self.steel_rule(rods.axis, false)).remedy_edit(
            format!("{enough} rods would hold"),
            place("rods"),
            Some(Value::Number(enough)),
        );
        Some(match &carrier.rod {
            Some(_) => finding.remedy_edit("leave their size out: one that holds is then chosen", place("rod"), None),
            None => finding,
        })
    }

    /// Preload against what pulls the joint open or makes it slide.
    fn grip(&self, strength: &Strength) -> Vec<Finding> {
        let mut findings = Vec::new();
        let torque = &self.design.torque;
        if strength.gap_margin < 1.0 {
            let text = format!("a preload of {} or more does not keep the joint closed in the shock", torque.least);
            let needed = NewtonMetres::new((torque.torque.get() / strength.gap_margin).ceil());
            findings.push(
                find(Kind::TorqueLow, "torque_nm", text, "a joint that opens is hammered and its nut works loose")
                    .remedy(format!("{needed} would keep it closed, if the stud stands it; else more or bigger studs")),
            );
        }
        if strength.slip_margin < 1.0 {
            let margin = Figure::new(strength.slip_margin, Unit::Times);
            let text = format!("friction holds {margin} of the sideways force; the studs bear in their holes");
            findings.push(
                find(Kind::CarrierSlips, "torque_nm", text, self.site.catalogue.rules.slip_friction.from.words())
                    .remedy("drill the holes at most 1 mm over the studs, and look for 1 mm of play at each service"),
            );
        }
        findings
    }

    fn torque(&self) -> Option<Finding> {
        let torque = &self.design.torque;
        if torque.greatest_share_of_yield.get() <= 1.0 && torque.share_of_proof.get() <= 1.0 {
            return None;
        }
        let text = format!(
            "{} gives {} of the proof load, and up to {} of yield where the friction is low",
            torque.torque, torque.share_of_proof, torque.greatest_share_of_yield
        );
        let scale = torque.greatest_share_of_yield.max(torque.share_of_proof).get();
        let fits = NewtonMetres::new((torque.torque.get() / scale * 10.0).floor() / 10.0);
        Some(
            find(Kind::TorqueHigh, "torque_nm", text, self.torque_rule())
                .remedy(format!("{fits} is the most"))
                .remedy_edit(
                    format!("leave it out: {} of the proof load is then chosen", {
                        self.site.catalogue.rules.preload.value
                    }),
                    place("torque_nm"),
                    None,
                ),
        )
    }

    /// What a tightened stud is held against.
    fn torque_rule(&self) -> String {
        let rules = &self.site.catalogue.rules;
        let class = self.site.catalogue.stud_class(&self.site.hold_down.stud_class).map(|c| &c.from);
        let strengths = class.map_or(String::new(), |from| format!("{}; ", cite([&from.proof, &from.yields])));
        format!("proof and yield: {strengths}friction: {}", cite([&rules.nut_factor.from, &rules.torque_scatter.from]))
    }

    fn locking(&self) -> Option<Finding> {
        (self.design.locking == Locking::None).then(|| {
            let text = "plain nuts alone come undone with vibration".to_string();
            let rule = "vibrated joints need a second means of locking (common practice, no source)";
            find(Kind::NutUnlocked, "locking", text, rule)
                .remedy_edit(
                    "2 nuts on each stud, tightened against each other",
                    place("locking"),
                    Some(Value::Text(Locking::DoubleNut.key().into())),
                )
                .remedy_edit(
                    "a prevailing torque nut with a nylon insert (ISO 7040), new each time; not above 120 °C",
                    place("locking"),
                    Some(Value::Text(Locking::NylonInsert.key().into())),
                )
        })
    }

    fn lifting(&self) -> Option<Finding> {
        let lifting = self.design.lifting.as_ref()?;
        let rules = &self.site.catalogue.rules;
        let (how, limit) = match lifting.by {
            Lift::One => return None,
            Lift::Two => ("takes 2 people", &rules.lift_one),
            Lift::Jack => ("takes a jack, a hoist or a lifting table", &rules.lift_two),
        };
        let text = format!("{} to lift into place {how}", lifting.mass);
        let under = self.design.style == HoldDownStyle::StripBasket;
        let studs = self.design.strength.as_ref().map_or(0, |s| s.studs.len());
        let words = if under {
            format!("raise it with a jack under a board, and keep out from under it until all {studs} nuts are on")
        } else {
            match lifting.by {
                Lift::Jack => "lower it with a hoist or slide it off a lifting table of the same height; posts covered, 2 people to guide it".into(),
                _ => "lift with 2 people, by its handles, with the posts covered".into(),
            }
        };
        let rule = format!("more than {}: {}", limit.value, limit.from.words());
        Some(
            Finding::new(Kind::Lifting, Subject::Carrier, text)
                .rule(rule)
                .at(Place::of(Section::ServiceBattery, "mass_kg"))
                .remedy(words),
        )
    }
}
