//! How the numbers of one fuse came about.

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::choice::{RATED_AIR, at_least};
use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;
use std::borrow::Cow;

/// Keep the workings of one fuse under its run: `fuse at least`, `fuse at
/// most`, `prospective`, `far fault`, `opens within`, `let-through`, `cable
/// stands`; those of a far-end fuse end in ` at far end`.
pub(crate) fn keep(ground: &Ground, fuse: &Fuse, book: &mut Book) {
    let run = ground.branch(fuse.branch).map_or(0, |b| b.run);
    let mut add = |number: &'static str, working: Working| {
        let number: Cow<'static, str> =
            if fuse.far_end { format!("{number} at far end").into() } else { Cow::Borrowed(number) };
        book.work(Subject::Run(run), number, working);
    };
    add("fuse at most", most(ground, fuse));
    add("prospective", prospective(ground, fuse));
    let Some(style) = fuse.style else { return };
    add("fuse at least", least(ground, fuse, style));
    let Some(rating) = fuse.rating else { return };
    if fuse.clearing.far.is_some() {
        add("far fault", far_fault(fuse));
        if let Some(working) = opens(ground, fuse, style, rating) {
            add("opens within", working);
        }
    }
    add("cable stands", stands(ground, fuse));
    if let Some(working) = through(fuse, style, rating) {
        add("let-through", working);
    }
}

fn least(ground: &Ground, fuse: &Fuse, style: &FuseStyle) -> Working {
    let need = &fuse.need;
    let formula = "I / (loading * max(0.1, 1 - lost * max(0, air - rated_air)))";
    Working::new("least rating of the fuse", formula, at_least(style, need))
        .with("I", "steady current", need.steady)
        .with("loading", "steady current over rating, at most", need.loading)
        .with("lost", "share of the rating lost per kelvin", Figure::new(style.lost_per_k, Unit::SharePerKelvin))
        .with("air", "air at the fuse holder", need.air)
        .with("rated_air", "air the rating is for", RATED_AIR)
        .source(ground.site.catalogue.rules.fuse_loading.from.words())
        .note(format!("re-rating of this style: {}", style.from.lost_per_k.words()))
}

fn most(ground: &Ground, fuse: &Fuse) -> Working {
    let most = ground.rules.at_most(fuse.need.ampacity);
    let (_, name) = ground.run_of(fuse.thinnest);
    Working::new("most that the cable allows", "ampacity * share", most)
        .with("ampacity", format!("ampacity of {name}, the thinnest conductor it protects"), fuse.need.ampacity)
        .with("share", "fuse over ampacity, at most", ground.site.catalogue.rules.ampacity_fuse.value)
        .source(ground.site.catalogue.rules.ampacity_fuse.from.words())
}

fn prospective(ground: &Ground, fuse: &Fuse) -> Working {
    let p = &fuse.prospective;
    let coldest = ground.site.surroundings.coldest;
    if p.emf.get() <= 0.0 {
        let working = Working::new("largest fault current at the fuse", "others", p.amps);
        return working
            .with("others", "charger, solar, mains charger, alternator or the other battery", p.others)
            .source("sum of what the sources beyond can push")
            .note("the battery on this side has no size yet, or pushes less than what lies beyond");
    }
    Working::new("largest fault current at the fuse", "E / max(0.0001, r + R) + others", p.amps)
        .with("E", "full resting voltage of the battery", p.emf)
        .with("r", "its least internal resistance", p.internal)
        .with("R", format!("path out and back at {coldest}, fuse-links left out"), p.path)
        .with("others", "what charger, solar, mains charger, alternator or the other battery add", p.others)
        .source("Ohm's law; resistances by the catalogue")
        .note("a dead short at the fuse, without inductance: the largest that can be")
}

fn far_fault(fuse: &Fuse) -> Working {
    let far = fuse.clearing.far.unwrap_or_default();
    Working::new("smallest fault current at the far end", "E / max(0.0001, r + R)", far.amps)
        .with("E", "resting voltage of the battery at its reserve, cold", far.emf)
        .with("r", "its internal resistance then, aged", far.internal)
        .with("R", "path out and back as hot as the insulation stands, joints and fuse-links in it", far.path)
        .source("Ohm's law; resistances by the catalogue")
        .note("a dead short; an arc or a chafed strand draws less")
}

fn opens(ground: &Ground, fuse: &Fuse, style: &FuseStyle, rating: Amps) -> Option<Working> {
    let (far, time) = (fuse.clearing.far?, fuse.clearing.opens?);
    let multiple = far.amps / (rating * fuse.clearing.slow);
    let from = style.gates_words();
    Some(
        Working::new("latest opening on the far-end fault", "", time)
            .with("I", "smallest fault current at the far end", far.amps)
            .with("rating", "rating of the link", rating)
            .with("cold", "by how much it carries more in the coldest air", Figure::number(fuse.clearing.slow))
            .with("multiple", "I / (rating * cold)", Figure::number(multiple))
            .with("limit", "time in which it has to open", ground.fault_open)
            .source(from)
            .note("the latest time of the highest gate at or under that multiple; nothing is read between gates"),
    )
}

fn stands(ground: &Ground, fuse: &Fuse) -> Working {
    let (_, name) = ground.run_of(fuse.clearing.weakest);
    let link = ground.link(fuse.clearing.weakest);
    Working::new("energy that the weakest cable stands", "(k * S)^2", fuse.clearing.stands)
        .with("k", "adiabatic constant, A √s / mm²", Figure::number(link.map_or(0.0, |l| l.adiabatic_k)))
        .with("S", format!("copper of {name}"), link.map_or(SquareMillimetres::ZERO, |l| l.area))
        .source("IEC 60364-5-54: I²t = k²S², for up to 5 s")
}

fn through(fuse: &Fuse, style: &FuseStyle, rating: Amps) -> Option<Working> {
    let worst = fuse.clearing.through?;
    let from = style.gates_words();
    Some(
        Working::new("most energy let through", "I^2 * t", worst.energy)
            .with("I", "fault current at which it is most", worst.at)
            .with("t", format!("latest opening of the {rating} link then"), worst.time)
            .source(from)
            .note("the worst of all currents from the far-end fault to the one at the fuse; above the last gate its energy is held"),
    )
}
