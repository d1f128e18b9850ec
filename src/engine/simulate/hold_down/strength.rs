//! Do the studs, strips and rods hold the battery through the shock?
//!
//! Each of six directions: forces of the mass (`loads`), shared by position
//! (`sharing`), each stud's use (`utilisation`); the worst rules. Everything
//! is proportional to the mass, so the largest mass carried follows directly.

use crate::catalogue::{Rules, Shock, StudSize};
use crate::engine::installation::Installation;
use crate::engine::physics::steel::sharing::Pattern;
use crate::engine::physics::steel::shock::{Force, cases};
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::result::*;
use crate::engine::simulate::hold_down::rods::hold_down;
use crate::plan::{HoldDown, HoldDownStyle};
use crate::quantity::*;

/// What the strength is worked out from.
pub(crate) struct Fixing<'a> {
    pub site: &'a Installation,
    pub rules: &'a Rules,
    pub shape: &'a Shape,
    pub battery: Kilograms,
    pub shock: &'a Shock,
    pub size: &'a StudSize,
    pub studs: Strengths,
    pub rods: Strengths,
    pub torque: &'a Torque,
}

/// The stud pattern of the plan: the studs given one by one, or an even pattern.
pub(crate) fn pattern(site: &Installation, shape: &Shape, size: &StudSize) -> Pattern {
    let carrier = &site.hold_down;
    let studs = if site.studs.is_empty() {
        even(carrier, shape, size)
    } else {
        site.studs.iter().map(|s| (s.along.get(), s.across.get())).collect()
    };
    let hangs = carrier.style == HoldDownStyle::StripBasket;
    let lever = lever(carrier, shape).get();
    let half = if hangs { carrier.strip_width.get() / 2.0 } else { shape.inside.along.get() / 2.0 };
    Pattern {
        studs,
        centre: (carrier.offset_along.get(), carrier.offset_across.get(), if hangs { -lever } else { lever }),
        edge: (half, shape.inside.across.get() / 2.0),
        hangs,
    }
}

/// From the plane of the studs to the centre of the mass: as given, or the battery's middle.
fn lever(carrier: &HoldDown, shape: &Shape) -> Millimetres {
    let half = shape.battery.map_or(shape.inside.upright, |b| b.upright) / 2.0;
    carrier.centre.unwrap_or(match carrier.style {
        HoldDownStyle::StripBasket => shape.inside.upright - half,
        _ => half + carrier.thickness,
    })
}

fn even(carrier: &HoldDown, shape: &Shape, size: &StudSize) -> Vec<(f64, f64)> {
    let spread = |inside: Millimetres, rows: u32| inside.get() / f64::from(rows.saturating_sub(1).max(1));
    // Ears are drilled in their middle; a tray three diameters from its wall, room for a socket.
    let (along, across) = if carrier.style == HoldDownStyle::StripBasket {
        (shape.inside.along - carrier.strip_width, shape.inside.across + carrier.thickness * 2.0 + carrier.rim)
    } else {
        (shape.inside.along - size.diameter * 6.0, shape.inside.across - size.diameter * 6.0)
    };
    let (rows, columns) = (carrier.studs_along.max(1), carrier.studs_across.max(1));
    let dx = carrier.spacing_along.map_or_else(|| spread(along, rows), Millimetres::get).max(0.0);
    let dy = carrier.spacing_across.map_or_else(|| spread(across, columns), Millimetres::get).max(0.0);
    let place = |n: u32, of: u32, step: f64| (f64::from(n) - f64::from(of - 1) / 2.0) * step;
    (0..rows).flat_map(|i| (0..columns).map(move |j| (place(i, rows, dx), place(j, columns, dy)))).collect()
}

/// Everything about strength.
pub(crate) fn strength(given: &Fixing<'_>, pattern: &Pattern) -> Strength {
    let total = given.battery + given.shape.steel_mass;
    let forces = cases(total, given.shock);
    let cases: Vec<ShockCase> = forces.iter().map(|f| shock_case(given, pattern, f)).collect();
    let studs = worst_by_stud(pattern, &cases);
    let worst = |c: &ShockCase| c.utilisations.iter().fold(Share::ZERO, |a, b| a.max(*b));
    let ruling = (0..cases.len()).fold(0, |best, n| if worst(&cases[n]) > worst(&cases[best]) { n } else { best });
    let utilisation = studs.iter().fold(Share::ZERO, |a, s| a.max(s.utilisation));
    // A tray that is only ever pressed down could have no use at all; the margin is then without limit, shown as 1,000.
    let safety = if utilisation.get() > 1e-3 { 1.0 / utilisation.get() } else { 1000.0 };
    let pull = studs.iter().fold(Newtons::ZERO, |a, s| a.max(s.tension));
    Strength {
        shock: given.shock.name.clone(),
        total_mass: total,
        lever: Millimetres::new(pattern.centre.2.abs()),
        proof_load: given.studs.proof,
        largest_mass: (total * safety - given.shape.steel_mass).max(Kilograms::ZERO),
        slip_margin: slip_margin(given, pattern, &forces),
        gap_margin: if pull.get() > 1e-3 { (given.torque.least / pull).min(1000.0) } else { 1000.0 },
        strip: (given.site.hold_down.style == HoldDownStyle::StripBasket).then(|| strip(given, pull)),
        hold_down: rods(given),
        studs,
        cases,
        ruling,
        utilisation,
        safety,
    }
}

fn shock_case(given: &Fixing<'_>, pattern: &Pattern, force: &Force) -> ShockCase {
    let shared = pattern.share(force);
    let used = shared.tension.iter().zip(&shared.shear).map(|(t, v)| given.studs.used(*t, *v));
    ShockCase {
        name: force.name,
        level: force.level,
        along: force.along,
        across: force.across,
        upright: force.upright,
        utilisations: used.collect(),
        tensions: shared.tension,
        shears: shared.shear,
    }
}

fn worst_by_stud(pattern: &Pattern, cases: &[ShockCase]) -> Vec<StudDesign> {
    let stud = |(n, (x, y)): (usize, &(f64, f64))| {
        let mut out = StudDesign {
            along: Millimetres::new(*x),
            across: Millimetres::new(*y),
            tension: Newtons::ZERO,
            shear: Newtons::ZERO,
            utilisation: Share::ZERO,
            case: 0,
        };
        for (index, case) in cases.iter().enumerate() {
            out.tension = out.tension.max(case.tensions[n]);
            out.shear = out.shear.max(case.shears[n]);
            if case.utilisations[n] > out.utilisation {
                (out.utilisation, out.case) = (case.utilisations[n], index);
            }
        }
        out
    };
    pattern.studs.iter().enumerate().map(stud).collect()
}

/// Friction of the clamped faces over the sideways force, least of all directions.
fn slip_margin(given: &Fixing<'_>, pattern: &Pattern, forces: &[Force]) -> f64 {
    let friction = given.rules.slip_friction.value;
    let clamp = given.torque.least * pattern.studs.len() as f64;
    let margin = |f: &Force| {
        let side = f.along.get().hypot(f.across.get());
        let away = if pattern.hangs { -f.upright } else { f.upright };
        if side > 0.0 { friction * (clamp - away).max(Newtons::ZERO).get() / side } else { 1000.0 }
    };
    forces.iter().map(margin).fold(1000.0, f64::min)
}

/// The leg of a strip beside its stud hole.
fn strip(given: &Fixing<'_>, pull: Newtons) -> StripCheck {
    let carrier = &given.site.hold_down;
    let width = (carrier.strip_width - given.size.hole).max(Millimetres::new(0.1));
    let net = width.get() * carrier.thickness.get();
    let stress = Megapascals::new(pull.get() / net);
    StripCheck {
        pull,
        net_area: SquareMillimetres::new(net),
        stress,
        utilisation: Share::new(stress.get() / given.rules.strip_yield.value.get()),
    }
}

fn rods(given: &Fixing<'_>) -> Option<Rods> {
    let carrier = &given.site.hold_down;
    if carrier.style == HoldDownStyle::StripBasket || carrier.rods == 0 {
        return None;
    }
    let size = given.shape.battery.unwrap_or(given.shape.inside);
    Some(hold_down(carrier.rods, given.battery, &size, given.shock, &given.rods))
}
