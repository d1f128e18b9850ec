//! Do the studs, strips and rods hold the battery through the shock?
//!
//! Each of six directions: forces of the mass (`loads`), shared by position
//! (`sharing`), each stud's use (`utilisation`); the worst rules. Everything
//! is proportional to the mass, so the largest mass carried follows directly.

use crate::catalogue::{Axis, StudSize};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::sharing::Pattern;
use crate::engine::physics::steel::shock::{Force, Thrown, force_when, weight};
use crate::engine::physics::steel::utilisation::TENSION_SHARE;
use crate::engine::simulate::hold_down::chain::links::chain;
use crate::engine::simulate::hold_down::chain::result::Chain;
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::result::*;
use crate::engine::simulate::hold_down::rods::hold_down;
use crate::plan::{HoldDown, HoldDownStyle, Stud};
use crate::quantity::*;
use crate::reckon;

/// The stud pattern of the plan: the studs given one by one, or an even pattern.
pub(crate) fn pattern(carrier: &HoldDown, sizes: &Sizes, given: &[Stud], shape: &Shape, size: &StudSize) -> Pattern {
    let studs = if given.is_empty() {
        even(carrier, sizes, shape, size)
    } else {
        given.iter().map(|s| (s.along.get(), s.across.get())).collect()
    };
    let hangs = carrier.style == HoldDownStyle::StripBasket;
    let lever = lever(carrier, sizes, shape).get();
    let half = if hangs { sizes.strip_width.get() / 2.0 } else { shape.inside.along.get() / 2.0 };
    Pattern {
        studs,
        centre: (carrier.offset_along.get(), carrier.offset_across.get(), if hangs { -lever } else { lever }),
        edge: (half, shape.inside.across.get() / 2.0),
        hangs,
    }
}

/// From the plane of the studs to the centre of the mass: as given, or the battery's middle.
fn lever(carrier: &HoldDown, sizes: &Sizes, shape: &Shape) -> Millimetres {
    let half = shape.battery.map_or(shape.inside.upright, |b| b.upright) / 2.0;
    carrier.centre.unwrap_or(match carrier.style {
        HoldDownStyle::StripBasket => shape.inside.upright - half,
        _ => half + sizes.thickness,
    })
}

fn even(carrier: &HoldDown, sizes: &Sizes, shape: &Shape, size: &StudSize) -> Vec<(f64, f64)> {
    let spread = |inside: Millimetres, rows: u32| inside.get() / f64::from(rows.saturating_sub(1).max(1));
    // Ears are drilled in their middle; a tray three diameters from its wall, room for a socket.
    let (along, across) = if carrier.style == HoldDownStyle::StripBasket {
        (shape.inside.along - sizes.strip_width, shape.inside.across + sizes.thickness * 2.0 + carrier.rim)
    } else {
        (shape.inside.along - size.diameter * 6.0, shape.inside.across - size.diameter * 6.0)
    };
    let (rows, columns) = (sizes.rows.max(1), carrier.studs_across.max(1));
    let dx = carrier.spacing_along.map_or_else(|| spread(along, rows), Millimetres::get).max(0.0);
    let dy = carrier.spacing_across.map_or_else(|| spread(across, columns), Millimetres::get).max(0.0);
    let place = |n: u32, of: u32, step: f64| (f64::from(n) - f64::from(of - 1) / 2.0) * step;
    (0..rows).flat_map(|i| (0..columns).map(move |j| (place(i, rows, dx), place(j, columns, dy)))).collect()
}

/// Everything about strength.
pub(crate) fn strength(given: &Fixing<'_>, pattern: &Pattern, notes: &mut Notes) -> Strength {
    let shared = shared(given, pattern, notes);
    Strength { chain: chain(given, &shared), ..shared }
}

/// How the studs share each shock; nothing of the links yet.
pub(crate) fn shared(given: &Fixing<'_>, pattern: &Pattern, notes: &mut Notes) -> Strength {
    let about = &Subject::Carrier;
    let steel = given.shape.steel_mass + given.besides;
    let total = given.carried + given.shape.steel_mass;
    let forces = forces(given, total, notes);
    let cases: Vec<ShockCase> = forces.iter().map(|f| shock_case(given, pattern, f)).collect();
    let studs = worst_by_stud(pattern, &cases);
    let lever = Millimetres::new(pattern.centre.2.abs());
    let (ruling, utilisation) = ruling(given, &cases, &studs, lever, notes);
    // A tray that is only ever pressed down could have no use at all; the margin is then without limit, shown as 1,000.
    let safety = if utilisation.get() > 1e-3 { 1.0 / utilisation.get() } else { 1000.0 };
    let largest = reckon!(Kilograms: max(m * safety - steel, 0.0),
        m: "battery, steel and what else is borne" = total,
        safety: "1 / utilisation" = Figure::number(safety),
        steel: "steel of the hold-down, and what it bears besides" = steel);
    let largest_mass = notes.reckon(about, "largest mass", largest, |r| {
        r.working("largest battery carried").source("all forces are proportional to the mass")
    });
    let pull = studs.iter().fold(Newtons::ZERO, |a, s| a.max(s.tension));
    Strength {
        shock: given.shock.name.clone(),
        total_mass: total,
        lever,
        proof_load: given.studs.proof,
        largest_mass,
        slip_margin: slip_margin(given, pattern, &forces, notes),
        gap_margin: if pull.get() > 1e-3 { (given.torque.least / pull).min(1000.0) } else { 1000.0 },
        strip: (given.carrier.style == HoldDownStyle::StripBasket).then(|| strip(given, pull, notes)),
        hold_down: rods(given),
        studs,
        cases,
        ruling,
        utilisation,
        safety,
        chain: Chain::default(),
    }
}

/// What comes on the studs, whichever way the battery is thrown.
fn forces(given: &Fixing<'_>, total: Kilograms, notes: &mut Notes) -> [Force; 6] {
    Thrown::ALL.map(|thrown| {
        let (level, source) = given.shock.level(thrown.axis());
        let force = force_when(thrown, level, total);
        let force = notes.reckon(&Subject::Carrier, format!("force {}", thrown.word()), force, |r| {
            let upright = thrown.axis() == Axis::Upright;
            r.working(format!("force when thrown {}", thrown.word())).source(source.words()).note(if upright {
                "the weight is in it"
            } else {
                "the weight acts downward beside it"
            })
        });
        Force::of(thrown, level, force, weight(total))
    })
}

fn shock_case(given: &Fixing<'_>, pattern: &Pattern, force: &Force) -> ShockCase {
    let shared = pattern.share(force);
    let used = shared.tension.iter().zip(&shared.shear).map(|(t, v)| given.studs.used(*t, *v));
    ShockCase { force: *force, utilisations: used.collect(), tensions: shared.tension, shears: shared.shear }
}

/// Where the battery is thrown when a stud is used most, and how far that stud is used.
fn ruling(
    given: &Fixing<'_>,
    cases: &[ShockCase],
    studs: &[StudDesign],
    lever: Millimetres,
    notes: &mut Notes,
) -> (Thrown, Share) {
    let each =
        cases.iter().flat_map(|case| case.utilisations.iter().enumerate().map(move |(n, used)| (case, n, *used)));
    let Some((case, stud, _)) = each.reduce(|most, next| if next.2 > most.2 { next } else { most }) else {
        return (Thrown::Forward, Share::ZERO);
    };
    let (about, thrown) = (&Subject::Carrier, case.force.thrown);
    let (t, v) = (case.tensions[stud], case.shears[stud]);
    for (number, name, value) in
        [("tension", "pull in the ruling stud", t), ("shear", "sideways force on the ruling stud", v)]
    {
        notes.add(Subject::Carrier, number, || {
            let StudDesign { along, across, .. } = &studs[stud];
            Working::new(name, "", value)
                .with("lever", "centre of the mass from the plane of the studs", lever)
                .with("n", "studs", Figure::new(studs.len() as f64, Unit::Count))
                .source("elastic bolt group under a rigid plate, machine-design handbooks")
                .note(format!("stud {} at {along} along, {across} across, thrown {}", stud + 1, thrown.word()))
                .note("even share, and what tipping or turning around the middle of the studs adds by distance")
        });
    }
    let pulled = |w: Working| w.from("T", Subject::Carrier, "tension").from("V", Subject::Carrier, "shear");
    let proof = notes.reckon(about, "utilisation by proof", given.studs.by_proof(t, v), |r| {
        pulled(r.working("use against lasting stretch"))
            .from("P", Subject::Carrier, "proof load")
            .source("von Mises stress on the stress area against the proof stress, machine-design handbooks")
    });
    let structure = notes.reckon(about, "utilisation by structure", given.studs.by_structure(t, v), |r| {
        let factor = given.rules.bolt_partial.value;
        pulled(r.working("use as a bolt of a steel structure"))
            .source("EN 1993-1-8 table 3.4")
            .note(format!("tension resistance is {TENSION_SHARE} × tensile strength × stress area / {factor}"))
    });
    let worse = reckon!(Share: max(proof, structure),
        proof: "against lasting stretch" = proof, structure: "as a bolt of a steel structure" = structure);
    let utilisation = notes.reckon(about, "utilisation", worse, |r| {
        r.working("use of the studs")
            .from("proof", Subject::Carrier, "utilisation by proof")
            .from("structure", Subject::Carrier, "utilisation by structure")
            .source("the worse of two methods rules")
    });
    (thrown, utilisation)
}

fn worst_by_stud(pattern: &Pattern, cases: &[ShockCase]) -> Vec<StudDesign> {
    let stud = |(n, (x, y)): (usize, &(f64, f64))| {
        let mut out = StudDesign {
            along: Millimetres::new(*x),
            across: Millimetres::new(*y),
            tension: Newtons::ZERO,
            shear: Newtons::ZERO,
            utilisation: Share::ZERO,
            thrown: Thrown::Forward,
        };
        for case in cases {
            out.tension = out.tension.max(case.tensions[n]);
            out.shear = out.shear.max(case.shears[n]);
            if case.utilisations[n] > out.utilisation {
                (out.utilisation, out.thrown) = (case.utilisations[n], case.force.thrown);
            }
        }
        out
    };
    pattern.studs.iter().enumerate().map(stud).collect()
}

/// Friction of the clamped faces over the sideways force, least of all directions.
fn slip_margin(given: &Fixing<'_>, pattern: &Pattern, forces: &[Force], notes: &mut Notes) -> f64 {
    let friction = given.rules.slip_friction.value;
    let clamp = given.torque.least * pattern.studs.len() as f64;
    let margin = |f: &Force| {
        let side = f.along.get().hypot(f.across.get());
        let away = if pattern.hangs { -f.upright } else { f.upright };
        if side > 0.0 { friction * (clamp - away).max(Newtons::ZERO).get() / side } else { 1000.0 }
    };
    let least = forces.iter().map(margin).fold(1000.0, f64::min);
    notes.add(Subject::Carrier, "slip margin", || {
        Working::new("friction hold over sideways force", "", Figure::new(least, Unit::Times))
            .with("mu", "friction of the clamped faces", Figure::number(friction))
            .with("F", "least preload of a stud", given.torque.least)
            .with("n", "studs", Figure::new(pattern.studs.len() as f64, Unit::Count))
            .source(given.rules.slip_friction.from.words())
            .note("mu × (n × F less what pulls away) over the sideways force, worst direction")
    });
    least
}

/// The leg of a strip beside its stud hole.
fn strip(given: &Fixing<'_>, pull: Newtons, notes: &mut Notes) -> StripCheck {
    let sizes = given.sizes;
    let width = (sizes.strip_width - given.size.hole).max(Millimetres::new(0.1));
    let net_area = SquareMillimetres::new(width.get() * sizes.thickness.get());
    let stress = reckon!(Megapascals: T / A,
        T: "largest pull in a leg" = pull, A: "strip width less hole, times thickness" = net_area);
    let stress = notes.reckon(&Subject::Carrier, "strip stress", stress, |r| {
        r.working("stress in the strip at its hole").source("stress = force / area")
    });
    StripCheck { pull, net_area, stress, utilisation: Share::new(stress.get() / given.rules.strip_yield.value.get()) }
}

fn rods(given: &Fixing<'_>) -> Option<Rods> {
    let carrier = given.carrier;
    if carrier.style == HoldDownStyle::StripBasket || carrier.rods == 0 {
        return None;
    }
    let size = given.shape.battery.unwrap_or(given.shape.inside);
    Some(hold_down(carrier.rods, given.carried - given.besides, &size, given.shock, &given.rods))
}
