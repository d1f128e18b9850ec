//! Which pieces of cable belong to no run: the bond, links between the blocks of the bank, the panels' own cable?
//!
//! Links: the bank's plus is that of its first block and its minus that of its last, so that the way through each
//! block is as long. Each link is no thinner than the thickest cable on the bank's posts and carries what all devices
//! there let through together (common practice, no source); how long it is only the blocks tell.

use crate::engine::ask::workshop::piece::{Cut, Lug, Shop, block, earth_by};
use crate::engine::design::Design;
use crate::engine::installation::circuits::Branch;
use crate::engine::judge::bond::BondLimits;
use crate::engine::parts::terminal::{Part, Polarity, Terminal};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{Run, point};
use crate::quantity::*;

/// The panels' cable among the pieces, and what begins with it.
pub const PANELS: &str = "panels";
/// The device in it.
pub const PANELS_DEVICE: &str = "panels device";
/// Where it ends.
pub const ARRAY_SIDE: &str = "controller array side";

/// All of them, in this order.
pub(super) fn besides(design: &Design, shop: &Shop) -> Vec<Cut> {
    let mut all: Vec<Cut> = bond(design, shop).into_iter().collect();
    all.extend(links(design, shop));
    all.extend(panels(design, shop));
    all
}

/// The battery's minus to the body.
fn bond(design: &Design, shop: &Shop) -> Option<Cut> {
    let site = &design.installation;
    let cable = Cable::labelled(&site.catalogue, design.bond.size.as_ref()?)?;
    let conductor = &*cable.conductor;
    let earth = earth_by(point::SERVICE_BATTERY);
    Some(Cut {
        from: point::SERVICE_BATTERY.into(),
        to: earth.at.clone(),
        lug_from: shop.end(point::SERVICE_BATTERY, conductor),
        lug_to: Lug::Ring(shop.stud(&earth.at, conductor)),
        ends: [Terminal::minus(point::SERVICE_BATTERY, Part::Post), earth],
        ..shop.piece("bond", Polarity::Negative, conductor, &site.bond.insulation, design.bond.length)
    })
}

/// Between each block and the next, plus and minus.
fn links(design: &Design, shop: &Shop) -> Vec<Cut> {
    let site = &design.installation;
    let Some(bank) = design.battery.bank.as_ref().filter(|bank| bank.blocks > 1) else { return Vec::new() };
    let Some(cable) = link(design) else { return Vec::new() };
    let conductor = &*cable.conductor;
    let lug = || shop.end(point::SERVICE_BATTERY, conductor);
    let place = |n: u32, polarity: Polarity| {
        let own = if polarity == Polarity::Positive { 1 } else { bank.blocks };
        let at = if n == own { point::SERVICE_BATTERY.into() } else { block(n) };
        Terminal { at, polarity, part: Part::Post }
    };
    let mut all = Vec::new();
    for n in 1..bank.blocks {
        for polarity in [Polarity::Positive, Polarity::Negative] {
            let ends = [place(n, polarity), place(n + 1, polarity)];
            let [from, to] = [ends[0].at.clone(), ends[1].at.clone()];
            let piece = shop.piece(
                &format!("link {n}"),
                polarity,
                conductor,
                &site.bond.insulation,
                shop.rules.earth_lead.value,
            );
            all.push(Cut { from, to, ends, lug_from: lug(), lug_to: lug(), ..piece });
        }
    }
    all
}

/// What a link is made of; the thickest that is sold where none carries all of it.
fn link(design: &Design) -> Option<Cable<'_>> {
    let site = &design.installation;
    let on_posts = |run: &&RunDesign| {
        let branch: Option<&Branch> = run.branch.and_then(|b| site.circuits.branches.get(b));
        branch.is_some_and(|b| b.near == point::SERVICE_BATTERY) && run.size.is_some()
    };
    let runs: Vec<&RunDesign> = design.runs.iter().filter(on_posts).collect();
    let thickest =
        runs.iter().filter_map(|r| r.size.as_ref()).map(|s| s.area.get()).fold(design.bond.area.get(), f64::max);
    let near = |run: &&RunDesign| run.fuses.iter().find(|f| !f.far_end).and_then(|f| f.rating);
    let through: Amps = runs.iter().filter_map(near).sum();
    if runs.is_empty() {
        return None;
    }
    let limits = BondLimits::of(site, None);
    let sizes = || site.catalogue.sizes(site.family()).map(Cable::of);
    let fits = |cable: &Cable| {
        cable.conductor.area.get() >= thickest * (1.0 - 1e-9) && limits.stands(cable).ampacity >= through
    };
    sizes().find(fits).or_else(|| sizes().last())
}

/// From the panels to their controller, with the device near the controller.
fn panels(design: &Design, shop: &Shop) -> Vec<Cut> {
    let site = &design.installation;
    let cable = design.charger.array_cable.as_ref();
    let sized = cable.and_then(|c| Some((c, Cable::labelled(&site.catalogue, c.size.as_ref()?)?)));
    let Some((planned, cable)) = sized else { return Vec::new() };
    let near = shop.rules.earth_lead.value.min(planned.length);
    let terminal = |at: &str, polarity, part| Terminal { at: at.into(), polarity, part };
    let piece = |polarity, along, [from, to]: [Terminal; 2]| Cut {
        from: from.at.clone(),
        to: to.at.clone(),
        ends: [from, to],
        ..shop.piece(PANELS, polarity, &cable.conductor, &Run::default().insulation, along)
    };
    let whole = |polarity| [PANELS, ARRAY_SIDE].map(|at| terminal(at, polarity, Part::Post));
    let mut all = Vec::new();
    let [begins, ends] = whole(Polarity::Positive);
    if planned.device.is_some() {
        let [device_in, device_out] =
            [Part::In, Part::Out].map(|part| terminal(PANELS_DEVICE, Polarity::Positive, part));
        all.push(piece(Polarity::Positive, (planned.length - near).max(Metres::ZERO), [begins, device_in]));
        all.push(piece(Polarity::Positive, near, [device_out, ends]));
    } else {
        all.push(piece(Polarity::Positive, planned.length, [begins, ends]));
    }
    all.push(piece(Polarity::Negative, planned.length, whole(Polarity::Negative)));
    all
}
