//! Hold-down: what holds the battery, how strong it is, which pieces to cut.

use super::form::{self, form};
use super::pane::{Cell, Column, Pane, Table};
use super::results::{Columns, Facts};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::simulate::hold_down::chain::result::{Chain, LinkUse};
use crate::engine::simulate::hold_down::result::{
    Blank, BuiltHole, CarrierDesign, Lifting, MountedDesign, Rods, Shape, Strength, StripCheck, StudDesign, Torque,
};
use crate::plan::{Place, Section};
use crate::quantity::{Millimetres, Share};

/// The panes: the carrier's fields, how it holds, each stud, the pieces to cut.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![
        form(scene, "Hold-down", &[Section::HoldDown], 0, chosen),
        holds(scene),
        links(scene),
        studs(scene),
        pieces(scene),
        given_studs(scene),
        form(scene, "Where it hangs, and as built", &[Section::Beneath, Section::AsBuilt], 0, form::nothing_chosen),
        drilled(scene),
        mounted(scene),
    ]
}

fn design<'a>(scene: &Scene<'a>) -> Option<&'a CarrierDesign> {
    scene.design().carrier.as_ref()
}

fn strength<'a>(scene: &Scene<'a>) -> Option<&'a Strength> {
    design(scene).and_then(|d| d.strength.as_ref())
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let carrier = design(scene)?;
    let (shape, sizes, at) = (carrier.shape.as_ref(), &carrier.sizes, scene.at(0));
    match place.key {
        "stud" => Some(Cell::fact(scene, Sizes::STUD, sizes, at)),
        "studs_along" => Some(Cell::fact(scene, Sizes::ROWS, sizes, at)),
        "strip_width_mm" => Some(Cell::fact(scene, Sizes::STRIP_WIDTH, sizes, at)),
        "thickness_mm" => Some(Cell::fact(scene, Sizes::THICKNESS, sizes, at)),
        "bend_radius_mm" => Some(Cell::fact(scene, Sizes::BEND_RADIUS, sizes, at)),
        "strap_leg_mm" => Some(Cell::fact(scene, Sizes::STRAP_LEG, sizes, at)),
        "strap_thickness_mm" => Some(Cell::fact(scene, Sizes::STRAP_THICKNESS, sizes, at)),
        "weld_length_mm" => Some(Cell::fact(scene, Sizes::WELD_LENGTH, sizes, at)),
        "weld_throat_mm" => Some(Cell::fact(scene, Sizes::WELD_THROAT, sizes, at)),
        "rod" => Some(Cell::fact(scene, Sizes::ROD, sizes, at)),
        "spacer_mm" => Some(Cell::fact(scene, Sizes::SPACER, sizes, at)),
        "spreader_mm" => Some(Cell::fact(scene, Sizes::SPREADER, sizes, at)),
        "spreader_thickness_mm" => Some(Cell::fact(scene, Sizes::SPREADER_THICKNESS, sizes, at)),
        "torque_nm" => Some(Cell::fact(scene, Torque::TORQUE, &carrier.torque, scene.at(0))),
        "length_mm" => Some(Cell::figure(scene, shape?.inside.along)),
        "width_mm" => Some(Cell::figure(scene, shape?.inside.across)),
        "height_mm" => Some(Cell::figure(scene, shape?.inside.upright)),
        "k_factor" => Some(Cell::fact(scene, Shape::K_FACTOR, shape?, scene.at(0))),
        "centre_mm" => Some(Cell::figure(scene, carrier.strength.as_ref()?.lever)),
        _ => None,
    }
}

fn holds(scene: Scene<'_>) -> Pane<'_> {
    let (mut facts, at) = (Facts::new(scene), scene.at(0));
    let Some(c) = design(&scene) else {
        facts.remark("Style", Cell::words("none"), "choose a style to have it designed", Role::Muted);
        return facts.pane("How it holds");
    };
    facts.heading("A sizing aid, no approval");
    if let Some(s) = &c.strength {
        strong(&scene, s, &mut facts);
    } else {
        let words = "give the battery's mass and dimensions";
        facts.remark(CarrierDesign::STRENGTH.label, Cell::dash(), words, Role::Muted);
    }
    facts.heading(CarrierDesign::TORQUE.label);
    facts.list(&c.torque, at, &[Torque::TORQUE, Torque::PRELOAD, Torque::OF_PROOF]);
    facts.heading("Getting it in");
    facts.list(c, at, &[CarrierDesign::BATTERY]);
    if let Some(lifting) = &c.lifting {
        facts.told(lifting, at, Lifting::MASS, lifting.by.words(), Role::Text);
    }
    facts.heading(CarrierDesign::LIMITS.label);
    for limit in c.limits {
        facts.remark("·", Cell::words(""), *limit, Role::Caution);
    }
    facts.pane("How it holds")
}

fn strong(scene: &Scene<'_>, s: &Strength, facts: &mut Facts<'_>) {
    let at = scene.at(0);
    let weak = s.chain.weakest().is_some_and(|l| l.used > Share::FULL);
    facts.told(&s.chain, at, Chain::HOLDS, weakest(&s.chain), if weak { Role::Stop } else { Role::Good });
    facts.heading(format!("Shock: {}", s.shock));
    let role = if s.utilisation > Share::FULL { Role::Stop } else { Role::Good };
    let words = if role == Role::Stop { "does not hold" } else { "holds" };
    facts.told(s, at, Strength::UTILISATION, words, role);
    facts.list(s, at, &[Strength::RULING, Strength::LARGEST, Strength::TOTAL, Strength::PROOF_LOAD]);
    let slips = if s.slip_margin < 1.0 { "the studs bear sideways" } else { "friction holds it" };
    facts.told(s, at, Strength::SLIP, slips, Role::Muted);
    if let Some(strip) = &s.strip {
        facts.list(strip, at, &[StripCheck::STRESS]);
    }
    if let Some(rods) = &s.hold_down {
        facts.told(rods, at, Rods::UTILISATION, format!("{} rods, {}", rods.rods, rods.thrown()), Role::Muted);
    }
}

/// In words, which link is the weakest and how far it is used.
fn weakest(chain: &Chain) -> String {
    chain.weakest().map_or(String::new(), |l| format!("weakest: {}", l.link.words()))
}

fn links(scene: Scene<'_>) -> Pane<'_> {
    let links = strength(&scene).map_or(&[][..], |s| s.chain.links.as_slice());
    let link = move |i: usize| Some((links.get(i)?, scene.at(i)));
    let broken = move |i: usize| links.get(i).is_some_and(|l| l.used > Share::FULL);
    let columns = Columns::new(scene)
        .fact(LinkUse::NAME, link)
        .fact(LinkUse::USED, link)
        .but(move |i, cell| cell.role(if broken(i) { Role::Stop } else { Role::Text }))
        .fact(LinkUse::LASTING, link)
        .headed("Tightening")
        .fact(LinkUse::EVEN, link)
        .headed("Even")
        .fact(LinkUse::CORNERS, link)
        .headed("Corners")
        .fact(LinkUse::THROWN, link)
        .headed("Thrown")
        .why(move |i| links.get(i).map_or(String::new(), |l| l.link.source().to_string()));
    let empty = "the chain needs a style, a mass and dimensions";
    let table = columns.table(links.len(), move |i| links.get(i).map_or("", |l| l.link.words()).to_string());
    Pane::table("Links, what holds least first", Table { empty, ..table })
}

fn studs(scene: Scene<'_>) -> Pane<'_> {
    let strength = strength(&scene);
    let studs = strength.map_or(&[][..], |s| s.studs.as_slice());
    let stud = move |i: usize| Some((studs.get(i)?, scene.at(i)));
    let broken = move |i: usize| studs.get(i).is_some_and(|s| s.utilisation > Share::FULL);
    let columns = Columns::new(scene)
        .own(Column::label("Stud"), |i| Cell::words((i + 1).to_string()))
        .facts([StudDesign::ALONG, StudDesign::ACROSS, StudDesign::TENSION, StudDesign::SHEAR], stud)
        .fact(StudDesign::UTILISATION, stud)
        .but(move |i, cell| cell.role(if broken(i) { Role::Stop } else { Role::Text }))
        .own(Column::words("Worst"), move |i| Cell::words(studs.get(i).map_or("", |s| s.thrown.word())));
    let empty = "strength needs a style, a mass and dimensions";
    let table = columns.table(studs.len(), |i| format!("stud {}", i + 1));
    Pane::table("Each stud", Table { empty, ..table })
}

fn pieces(scene: Scene<'_>) -> Pane<'_> {
    let shape = design(&scene).and_then(|d| d.shape.as_ref());
    let blanks = shape.map_or(&[][..], |s| s.blanks.as_slice());
    let blank = move |i: usize| Some((blanks.get(i)?, scene.at(i)));
    // The unit stands in the head, so that four of them stand beside each other in a usual window.
    let at_bends = Column::words("Bends, from one end").unit(scene.symbol(Millimetres::new(0.0))).widest(40);
    let bends = move |i: usize| {
        let marks = blanks.get(i).map_or(&[][..], |b| b.marks.as_slice());
        let digits: Vec<String> = marks.iter().map(|m| scene.digits(*m)).collect();
        Cell { help: Blank::BENDS.help, ..Cell::words(digits.join(", ")) }
    };
    let columns = Columns::new(scene)
        .fact(Blank::NAME, blank)
        .widest(20)
        .fact(Blank::COUNT, blank)
        .headed("Pcs")
        .fact(Blank::LENGTH, blank)
        .headed("Long")
        .fact(Blank::WIDTH, blank)
        .headed("Wide")
        .fact(Blank::THICKNESS, blank)
        .own(at_bends, bends)
        .fact(Blank::MASS, blank);
    let empty = "pieces need the battery's or the inside dimensions";
    let table = columns.table(blanks.len(), move |i| blanks.get(i).map_or("", |b| b.piece.words()).to_string());
    Pane::table("Pieces to cut", Table { empty, ..table })
}

/// Studs that lie where the plan says, instead of on a grid.
fn given_studs(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Stud, key, form::nothing_chosen);
    let columns = Columns::new(scene)
        .own(Column::label("Stud"), |i| Cell::words((i + 1).to_string()))
        .own(Column::figures("Ahead"), field("along_mm"))
        .own(Column::figures("Right"), field("across_mm"));
    let table = columns.table(scene.plan().studs.len(), |i| format!("stud {i}"));
    let empty = "studs stand on a grid; n adds one by its own place";
    Pane::table("Studs by their own place", Table { list: Some(Section::Stud), empty, ..table })
}

/// Holes as they were drilled, with what each is off once the whole is laid on as well as it can be.
fn drilled(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Drilled, key, form::nothing_chosen);
    let holes = design(&scene).and_then(|d| d.built.as_ref()).map_or(&[][..], |b| b.holes.as_slice());
    // A hole of a stud that is not there is not among the results.
    let hole = move |i: usize| {
        let stud = scene.plan().drilled.get(i)?.stud;
        Some((holes.iter().find(|h| h.stud == stud)?, scene.at(i)))
    };
    let columns = Columns::new(scene)
        .own(Column::figures("Stud"), field("stud"))
        .own(Column::figures("Ahead"), field("along_mm"))
        .own(Column::figures("Right"), field("across_mm"))
        .facts([BuiltHole::OFF, BuiltHole::PLAY], hole);
    let table = columns.table(scene.plan().drilled.len(), |i| format!("hole {i}"));
    let empty = "n adds a hole as it was drilled, measured from the hold-down's middle";
    Pane::table("Holes as drilled", Table { list: Some(Section::Drilled), empty, ..table })
}

/// The bolts of a device where the plan leaves their size out.
fn bolt(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let device = scene.design().mounted.get(place.index)?;
    Some(Cell::fact(scene, MountedDesign::BOLT, device, scene.at(place.index)))
}

/// Charger and cut-off on the carrier or close beside it, with what they stand there.
fn mounted(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Mounted, key, form::nothing_chosen);
    let all = scene.design().mounted.as_slice();
    let out = move |i: usize| Some((all.get(i)?, scene.at(i)));
    let columns = Columns::new(scene)
        .own(Column::words("Device"), field("device"))
        .own(Column::words("On it"), field("on_hold_down"))
        .own(Column::words("IP code"), field("protection"))
        .own(Column::figures("Mass"), field("mass_kg"))
        .own(Column::figures("All up to"), field("full_to_c"))
        .own(Column::figures("Works up to"), field("hottest_c"))
        .own(Column::figures("To battery"), field("gap_mm"))
        .own(Column::figures("Bolts"), field("bolts"))
        .own(Column::words("Bolt size"), form::column(scene, Section::Mounted, "bolt", bolt))
        .facts([MountedDesign::AIR, MountedDesign::SHARE, MountedDesign::HEAT, MountedDesign::PULL], out)
        .facts([MountedDesign::BOLT_USED, MountedDesign::SHEET_USED], out);
    let table = columns.table(scene.plan().mounted.len(), |i| format!("device {i}"));
    let empty = "n adds a charger or cut-off that hangs on the hold-down or close beside it";
    Pane::table("Mounted on it", Table { list: Some(Section::Mounted), empty, ..table })
}
