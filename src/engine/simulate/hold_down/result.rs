//! What the carrier's part of a design holds, for screens and papers.

use crate::catalogue::{Axis, Provenance};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::shock::{Force, Thrown};
use crate::engine::simulate::hold_down::chain::result::Chain;
use crate::plan::{HoldDownStyle, Locking, MountedDevice};
use crate::quantity::*;

/// The carrier: shape and steel, then strength. Absent from the design when no style is chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct CarrierDesign {
    /// Basket, tray or cabinet.
    pub style: HoldDownStyle,
    /// Sizes it is made of, given or chosen.
    pub sizes: Sizes,
    /// Mass of the battery, from its label or as sized; `None` when neither is known.
    pub battery_mass: Option<Kilograms>,
    /// Dimensions, blanks and steel; `None` until inside or battery dimensions are given.
    pub shape: Option<Shape>,
    /// Shock, studs and safety; `None` until mass and shape are known.
    pub strength: Option<Strength>,
    /// Torque and preload of each stud.
    pub torque: Torque,
    /// What tightening does to a hollow floor; `None` in a plain sheet or board, or where its depth is not given.
    pub spacer: Option<Spacer>,
    /// As it came out, where anything of it was measured.
    pub built: Option<Built>,
    /// Devices on it, or close beside it.
    pub mounted: Vec<MountedDesign>,
    /// How it gets into its place; `None` when the mass is not known.
    pub lifting: Option<Lifting>,
    /// What keeps the nuts on.
    pub locking: Locking,
    /// What these figures do not cover: print them with the figures.
    pub limits: &'static [&'static str],
}

/// Dimensions and steel.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Inside along, across and upright: as given, or battery and clearance.
    pub inside: Box3,
    /// The battery, where its dimensions are given.
    pub battery: Option<Box3>,
    /// Gap that remains at each side along and across, and above; negative when it does not go in.
    pub clearance: Option<Box3>,
    /// Height taken under the deck or above the floor.
    pub outside_height: Millimetres,
    /// Height that is free less `outside_height`; `None` when no free height is given.
    pub height_left: Option<Millimetres>,
    /// Neutral line within the thickness used for the bends: as given, or by DIN 6935.
    pub k_factor: Share,
    /// Length of the neutral line in one bend of 90°.
    pub bend_allowance: Millimetres,
    /// From the inside of a basket's leg to the tip of its ear.
    pub ear_reach: Millimetres,
    /// Pieces to cut; empty when the bends do not fit (there is a finding then).
    pub blanks: Vec<Blank>,
    /// Steel of all blanks.
    pub steel_mass: Kilograms,
}

/// Along the vehicle, across it, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Box3 {
    pub along: Millimetres,
    pub across: Millimetres,
    pub upright: Millimetres,
}

/// What a piece of steel is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Piece {
    CrossStrip,
    LongStrip,
    StrapAlong,
    StrapAcross,
    Tray,
    WallWrap,
    FloorAndLid,
    Spreader,
}

impl Piece {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Piece::CrossStrip => "cross strip",
            Piece::LongStrip => "long strip",
            Piece::StrapAlong => "side strap along",
            Piece::StrapAcross => "side strap across",
            Piece::Tray => "tray",
            Piece::WallWrap => "wall wrap",
            Piece::FloorAndLid => "floor and lid",
            Piece::Spreader => "spreader plate",
        }
    }

    /// Whether it is sawn from an equal angle.
    pub fn of_angle(self) -> bool {
        matches!(self, Piece::StrapAlong | Piece::StrapAcross)
    }
}

/// A piece of strip or sheet, flat.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// Which piece.
    pub piece: Piece,
    /// How many alike.
    pub count: u32,
    /// Flat length, the direction of the bends in `marks`.
    pub length: Millimetres,
    /// Flat width; the leg of an angle.
    pub width: Millimetres,
    /// Thickness.
    pub thickness: Millimetres,
    /// Middle of each 90° bend from one end of the flat length, in order.
    pub marks: Vec<Millimetres>,
    /// Mass of all of them together, holes not taken off.
    pub mass: Kilograms,
}

/// How the studs hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Strength {
    /// Name of the shock level.
    pub shock: String,
    /// Battery and steel together.
    pub total_mass: Kilograms,
    /// Height of the centre of the mass from the plane of the studs (up for tray and cabinet, down for a basket).
    pub lever: Millimetres,
    /// Force that one stud stands without lasting stretch: proof stress × stress area.
    pub proof_load: Newtons,
    /// Each stud with its worst case.
    pub studs: Vec<StudDesign>,
    /// Six directions, one at a time, weight included.
    pub cases: Vec<ShockCase>,
    /// Where the battery is thrown when a stud is used most.
    pub ruling: Thrown,
    /// Worst utilisation of any stud; more than 100 % does not hold.
    pub utilisation: Share,
    /// 1 / utilisation.
    pub safety: f64,
    /// Largest battery these studs carry at this shock, steel taken off.
    pub largest_mass: Kilograms,
    /// Least friction hold over the sideways force in the worst direction; below 1 the studs bear sideways.
    pub slip_margin: f64,
    /// Least preload over the worst pull; below 1 the joint opens.
    pub gap_margin: f64,
    /// The steel strip of a basket beside the stud hole.
    pub strip: Option<StripCheck>,
    /// Rods over the battery of a tray or cabinet.
    pub hold_down: Option<Rods>,
    /// Every link from the case to the deck, the weakest first.
    pub chain: Chain,
}

/// One stud.
#[derive(Clone, Debug, PartialEq)]
pub struct StudDesign {
    /// Ahead of the middle of the carrier.
    pub along: Millimetres,
    /// To the right of it.
    pub across: Millimetres,
    /// Largest pull of all cases.
    pub tension: Newtons,
    /// Largest sideways force of all cases.
    pub shear: Newtons,
    /// Worst utilisation of all cases, pull and sideways together.
    pub utilisation: Share,
    /// Where the battery is thrown then.
    pub thrown: Thrown,
}

/// One direction of shock.
#[derive(Clone, Debug, PartialEq)]
pub struct ShockCase {
    /// Which way, how hard, and the force of it.
    pub force: Force,
    /// Pull in each stud.
    pub tensions: Vec<Newtons>,
    /// Sideways force on each stud.
    pub shears: Vec<Newtons>,
    /// Utilisation of each stud.
    pub utilisations: Vec<Share>,
}

/// Torque and preload.
#[derive(Clone, Debug, PartialEq)]
pub struct Torque {
    /// As given, or as chosen.
    pub torque: NewtonMetres,
    /// Whether it was chosen.
    pub chosen: bool,
    /// Preload: torque / (nut factor × diameter).
    pub preload: Newtons,
    /// Least preload, by the scatter of friction.
    pub least: Newtons,
    /// Greatest preload.
    pub greatest: Newtons,
    /// Preload over the proof load.
    pub share_of_proof: Share,
    /// Greatest preload over the yield load; above 100 % it may stretch for good.
    pub greatest_share_of_yield: Share,
}

/// A spacer in a hollow or ribbed floor, and what the squeeze does to the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Spacer {
    /// Of the spacer.
    pub length: Millimetres,
    /// Of the floor, from face to face.
    pub depth: Millimetres,
    /// That draws the faces on the spacer.
    pub force: Newtons,
    /// Of what a face stands.
    pub used: Share,
    /// Whose strengths those are.
    pub strength: [Provenance; 3],
}

/// A carrier as it came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Built {
    /// Inside, as measured; as planned where it was not.
    pub inside: Box3,
    /// What is left beside the battery at each side, and above it.
    pub gap: Option<Box3>,
    /// The largest battery that goes in with the clearance wanted.
    pub largest: Box3,
    /// Height that is left under the deck or above the floor.
    pub height_left: Option<Millimetres>,
    /// Its holes, laid over the planned ones as well as they can be.
    pub holes: Vec<BuiltHole>,
}

/// A hole as it was drilled.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltHole {
    /// Number of its stud.
    pub stud: u32,
    /// How far it is off, the whole laid on as well as it can be.
    pub off: Millimetres,
    /// How far it may be off: a bolt's play in two holes.
    pub play: Millimetres,
    /// To what it would have to be opened; the last drill where it is right, `None` further off than a drill wanders.
    pub open: Option<Millimetres>,
}

/// A device on the carrier or close beside it: its air, what it gives there, what it does to its bolts and the battery.
#[derive(Clone, Debug, PartialEq)]
pub struct MountedDesign {
    /// Which device.
    pub device: MountedDevice,
    /// Whether the carrier bears it.
    pub on_hold_down: bool,
    /// As given, or as is usual.
    pub mass: Kilograms,
    /// Hottest air there.
    pub air: Celsius,
    /// What it gives off at its most.
    pub heat: Watts,
    /// What it gives or carries of its rating in that air.
    pub share: Share,
    /// That as a current; `None` where the device is not in the plan.
    pub gives: Option<Amps>,
    /// What flows through a cut-off at most; of a charger what it is bought for.
    pub wants: Option<Amps>,
    /// What its heat adds to the battery beside it; zero where it keeps its distance.
    pub warms: Kelvins,
    /// Pull on each bolt when it is thrown, doubled for its tipping.
    pub pull: Newtons,
    /// Bolts that hold it.
    pub bolts: u32,
    /// Their size: as given, or the smallest.
    pub bolt: String,
    /// Of what each of them stands, pulled and pushed sideways at once.
    pub bolt_used: Share,
    /// Of what holds its washer: the hold-down's metal, or the deck.
    pub sheet_used: Share,
}

/// The strip of a basket at its stud hole.
#[derive(Clone, Debug, PartialEq)]
pub struct StripCheck {
    /// Pull in the leg.
    pub pull: Newtons,
    /// Steel left beside the hole.
    pub net_area: SquareMillimetres,
    /// Stress there.
    pub stress: Megapascals,
    /// Stress over yield.
    pub utilisation: Share,
}

/// Rods that press the battery down.
#[derive(Clone, Debug, PartialEq)]
pub struct Rods {
    /// How many.
    pub rods: u32,
    /// Pull in each in the worst direction.
    pub tension: Newtons,
    /// That direction.
    pub axis: Axis,
    /// Pull over the proof load of the rod.
    pub utilisation: Share,
}

impl Rods {
    /// Where the battery is thrown when a rod is pulled most.
    pub fn thrown(&self) -> &'static str {
        match self.axis {
            Axis::Along => "forward or backward",
            Axis::Across => "sideways",
            Axis::Upright => "up",
        }
    }
}

/// How many people.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lift {
    /// One person can.
    One,
    /// Two people together.
    Two,
    /// A jack, a hoist or a lifting table.
    Jack,
}

impl Lift {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Lift::One => "one person",
            Lift::Two => "two people",
            Lift::Jack => "a jack or a hoist",
        }
    }
}

/// The heaviest piece that is lifted into place.
#[derive(Clone, Debug, PartialEq)]
pub struct Lifting {
    /// Its mass: one block for tray and cabinet; basket and bank together under a deck.
    pub mass: Kilograms,
    /// What that takes.
    pub by: Lift,
}

/// What no figure here covers.
pub const LIMITS: &[&str] = &[
    "the deck is reckoned as the plan says it is (kind, thickness, span; ribs as thick as faces where it does not say): a rotten, rusted or cut one holds less",
    "first yield is the limit; hours on a road are rough, so look at bends, ears and welds at every service",
    "rods go through the base no more than three diameters from a wall; wood under a spreader is squeezed by the torque",
    "studs share as under a rigid plate; each direction of shock is taken alone",
    "torque to preload by a nut factor is within about a third either way; soft layers between lose preload with time",
    "this is a sizing aid, not an approval: vehicle law may ask for a test or an engineer's certificate",
];
