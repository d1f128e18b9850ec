//! Results of the hold-down: what is cut and bent, how tight it is bolted, whether it holds.

use super::fact::{AtMost, Many, One, Times, Word, facts, many, one};
use crate::catalogue::Axis;
use crate::engine::installation::subject::Subject;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::simulate::hold_down::chain::result::{Chain, LinkUse, Road};
use crate::engine::simulate::hold_down::marking::{Marking, marked_out};
use crate::engine::simulate::hold_down::nest::{Laid, laid_out};
use crate::engine::simulate::hold_down::result::{
    Blank, Built, BuiltHole, CarrierDesign, Lifting, MountedDesign, Rods, Shape, ShockCase, Spacer, Strength,
    StripCheck, StudDesign, Torque,
};
use crate::plan::{Choice, HoldDownStyle, Locking, MountedDevice};
use crate::quantity::*;

facts! { CarrierDesign, "hold-down", "what holds the battery", |_, _| Subject::Carrier;
    STYLE: Word<HoldDownStyle> = "style", "Kind", "basket, tray or cabinet", |c, _| Word(c.style);
    SIZES: One<Sizes> = "sizes", "Sizes", "of which sizes it is made, given or chosen", |c, at| one(&c.sizes, at);
    BATTERY: Option<Kilograms> = "battery_kg", "Battery", "mass carried; null when not known", |c, _| c.battery_mass;
    LOCKING: Word<Locking> = "locking", "Locking", "what keeps the nuts on", |c, _| Word(c.locking);
    TORQUE: One<Torque> = "tightening", "Tightening", "torque and preload of each stud", |c, at| one(&c.torque, at);
    SPACER: Option<One<Spacer>> = "spacer", "Spacer", "what tightening does to a hollow floor; null in a plain one", |c, at| c.spacer.as_ref().map(|s| one(s, at));
    BUILT: Option<One<Built>> = "built", "As built", "the hold-down as it came out; null where nothing of it was measured", |c, at| c.built.as_ref().map(|b| one(b, at));
    SHAPE: Option<One<Shape>> = "shape", "Shape", "dimensions and steel; null until dimensions are given", |c, at| c.shape.as_ref().map(|s| one(s, at));
    STRENGTH: Option<One<Strength>> = "strength", "Strength", "how the studs hold; null until mass and shape are known", |c, at| c.strength.as_ref().map(|s| one(s, at));
    MOUNTED: Many<MountedDesign> = "mounted", "Mounted on it", "charger and cut-off that hang on it or close beside it", |c, at| many(&c.mounted, at);
    LIFTING: Option<One<Lifting>> = "lifting", "Lifting", "the heaviest piece that is lifted into place; null when the mass is not known", |c, at| c.lifting.as_ref().map(|l| one(l, at));
    MARKINGS: Many<Marking> = "markings", "Marking out", "each flat piece with its bends and holes", |c, at| many(&marked_out(c, at.site), at);
    LAID: Many<Laid> = "laid", "Laid out", "bars, angles and sheets as they are sold, with what is cut from each", |c, at| many(&laid_out(c, at.site), at);
    LIMITS: Vec<&'static str> = "not_covered", "Not covered", "what these figures do not cover", |c, _| c.limits.to_vec();
}

facts! { Sizes, "hold-down-sizes", "sizes of a hold-down, given or chosen", |_, _| Subject::Carrier;
    STUD: String = "stud", "Studs", "size of the studs", |s, _| s.stud.clone(), "stud";
    ROWS: u32 = "rows", "Rows of studs", "along the vehicle; a basket has one cross strip at each", |s, _| s.rows, "rows";
    STRIP_WIDTH: Millimetres = "strip_width_mm", "Strip width", "of a basket's strips", |s, _| s.strip_width, "strip width";
    THICKNESS: Millimetres = "thickness_mm", "Thickness", "of strips or sheet", |s, _| s.thickness, "thickness";
    BEND_RADIUS: Millimetres = "bend_radius_mm", "Bend radius", "inside", |s, _| s.bend_radius;
    STRAP_LEG: Millimetres = "strap_leg_mm", "Strap leg", "of the straps' angle", |s, _| s.strap_leg, "strap leg";
    STRAP_THICKNESS: Millimetres = "strap_thickness_mm", "Strap thickness", "of the straps' angle", |s, _| s.strap_thickness, "strap thickness";
    WELD_LENGTH: Millimetres = "weld_length_mm", "Weld length", "of each weld", |s, _| s.weld_length, "weld length";
    WELD_THROAT: Millimetres = "weld_throat_mm", "Weld throat", "of each weld", |s, _| s.weld_throat, "weld throat";
    ROD: String = "rod", "Rods", "size of the rods over a battery in a tray or cabinet", |s, _| s.rod.clone(), "rod";
    SPACER: Option<Millimetres> = "spacer_mm", "Spacer", "around each stud; null in a plain sheet or board", |s, _| s.spacer, "spacer";
    SPREADER: Millimetres = "spreader_mm", "Spreader plate", "side of the square plates on the deck", |s, _| s.spreader, "spreader";
    SPREADER_THICKNESS: Millimetres = "spreader_thickness_mm", "Spreader thickness", "of those plates", |s, _| s.spreader_thickness, "spreader thickness";
}

facts! { Torque, "tightening", "torque and preload", |_, _| Subject::Carrier;
    TORQUE: NewtonMetres = "torque_nm", "Torque", "of each stud", |t, _| t.torque, "torque";
    PRELOAD: Newtons = "preload_n", "Preload", "what that gives", |t, _| t.preload, "preload";
    LEAST: Newtons = "preload_least_n", "Least preload", "by the scatter of friction", |t, _| t.least;
    GREATEST: Newtons = "preload_greatest_n", "Greatest preload", "by the scatter of friction", |t, _| t.greatest;
    OF_PROOF: Share = "proof_share", "Preload of proof load", "preload over the proof load", |t, _| t.share_of_proof;
}

facts! { Spacer, "spacer", "a spacer in a hollow floor", |_, _| Subject::Carrier;
    LENGTH: Millimetres = "length_mm", "Length", "of the spacer", |s, _| s.length, "spacer";
    DEPTH: Millimetres = "depth_mm", "Floor", "depth of the floor, from face to face", |s, _| s.depth;
    FORCE: Newtons = "force_n", "Force", "that draws the faces on the spacer", |s, _| s.force;
    USED: Share = "used_share", "Squeeze", "of what a face of the floor stands; above 1 it is bent for good", |s, _| s.used, "squeeze";
}

facts! { Built, "built", "a hold-down as it came out", |_, _| Subject::Carrier;
    LENGTH: Millimetres = "length_mm", "Inside length", "as measured, or as planned", |b, _| b.inside.along;
    WIDTH: Millimetres = "width_mm", "Inside width", "as measured, or as planned", |b, _| b.inside.across;
    HEIGHT: Millimetres = "inside_height_mm", "Inside height", "as measured, or as planned", |b, _| b.inside.upright;
    FITS_LENGTH: AtMost<Millimetres> = "fits_length_mm", "Fits, long", "battery that goes in with the clearance wanted", |b, _| AtMost(b.largest.along);
    FITS_WIDTH: AtMost<Millimetres> = "fits_width_mm", "Fits, wide", "battery that goes in with the clearance wanted", |b, _| AtMost(b.largest.across);
    FITS_HEIGHT: AtMost<Millimetres> = "fits_height_mm", "Fits, high", "battery that goes in with the clearance wanted", |b, _| AtMost(b.largest.upright);
    HOLES: Many<BuiltHole> = "holes", "Holes", "as drilled, the whole laid on as well as it can be", |b, at| many(&b.holes, at);
}

facts! { BuiltHole, "built-hole", "a hole as it was drilled", |_, _| Subject::Carrier;
    STUD: String = "stud", "Stud", "S1, S2, …", |h, _| format!("S{}", h.stud);
    OFF: Millimetres = "off_mm", "Off", "from where its stud is, the whole laid on as well as it can be", |h, _| h.off;
    PLAY: Millimetres = "play_mm", "Lets", "how far it may be off", |h, _| h.play;
    OPEN: Option<Millimetres> = "open_mm", "Open to", "diameter with which the stud goes through; null further off than a drill wanders", |h, _| h.open;
}

facts! { MountedDesign, "mounted-device", "a charger or cut-off on the hold-down or close beside it", |_, _| Subject::Carrier;
    DEVICE: Word<MountedDevice> = "device", "Device", "which one", |m, _| Word(m.device);
    ON_CARRIER: bool = "on_hold_down", "On the hold-down", "whether the hold-down bears it", |m, _| m.on_hold_down;
    MASS: Kilograms = "mass_kg", "Mass", "as given, or as is usual", |m, _| m.mass;
    AIR: Celsius = "air_c", "Air there", "the hottest", |m, _| m.air;
    HEAT: Watts = "heat_w", "Heat", "that it gives off at its most", |m, _| m.heat, [Subject::Carrier, format!("heat of the {}", m.device.key())];
    SHARE: Share = "output_share", "Gives there", "of its rating in that air", |m, _| m.share, [Subject::Carrier, format!("output of the {}", m.device.key())];
    GIVES: Option<AtMost<Amps>> = "gives_a", "That is", "as a current; null where the plan has no such device", |m, _| m.gives.map(AtMost);
    WARMS: Kelvins = "warms_k", "Warms the battery", "what its heat adds where it is nearer than it should be", |m, _| m.warms;
    PULL: Newtons = "bolt_n", "Pull on a bolt", "when it is thrown, doubled for its tipping", |m, _| m.pull, [Subject::Carrier, format!("bolts of the {}", m.device.key())];
    BOLTS: u32 = "bolts", "Bolts", "that hold it", |m, _| m.bolts;
    BOLT: String = "bolt", "Bolt size", "as given, or the smallest", |m, _| m.bolt.clone();
    BOLT_USED: Share = "bolt_used_share", "Bolts used", "of what each bolt stands; above 1 it does not hold", |m, _| m.bolt_used, [Subject::Carrier, format!("use of the bolts of the {}", m.device.key())];
    SHEET_USED: Share = "sheet_used_share", "Sheet used", "of what holds its washers: the hold-down's metal, or the deck; above 1 they are pulled through", |m, _| m.sheet_used, [Subject::Carrier, format!("sheet under the {}", m.device.key())];
}

facts! { Shape, "hold-down-shape", "dimensions and steel", |_, _| Subject::Carrier;
    HEIGHT: Millimetres = "height_mm", "Height", "taken under the deck or above the floor", |s, _| s.outside_height;
    STEEL: Kilograms = "steel_kg", "Steel", "mass of all pieces", |s, _| s.steel_mass;
    K_FACTOR: Share = "k_factor", "K-factor", "neutral line within the thickness", |s, _| s.k_factor, "K-factor";
    BLANKS: Many<Blank> = "blanks", "Pieces", "pieces to cut, flat", |s, at| many(&s.blanks, at);
}

facts! { Blank, "blank", "a piece of strip or sheet, flat", |_, _| Subject::Carrier;
    NAME: &'static str = "name", "Piece", "which piece", |b, _| b.piece.words();
    COUNT: u32 = "count", "Count", "how many alike", |b, _| b.count;
    LENGTH: Millimetres = "length_mm", "Length", "flat", |b, _| b.length;
    WIDTH: Millimetres = "width_mm", "Width", "flat", |b, _| b.width;
    THICKNESS: Millimetres = "thickness_mm", "Thick", "of the steel", |b, _| b.thickness;
    BENDS: Vec<Millimetres> = "bends_mm", "Middle of each bend, from one end", "middle of each 90° bend, from one end", |b, _| b.marks.clone();
    MASS: Kilograms = "mass_kg", "Mass", "all of them together", |b, _| b.mass, [Subject::Carrier, format!("mass of {}", b.piece.words())];
}

facts! { Strength, "hold-down-strength", "how the studs hold", |_, _| Subject::Carrier;
    SHOCK: String = "shock", "Shock", "name of the shock level", |s, _| s.shock.clone();
    TOTAL: Kilograms = "total_kg", "Battery and steel", "battery and steel together", |s, _| s.total_mass;
    UTILISATION: Share = "utilisation_share", "Use of the worst stud", "worst of any stud; above 1 it does not hold", |s, _| s.utilisation, "utilisation";
    SAFETY: Times = "safety", "Safety", "1 / utilisation", |s, _| Times(s.safety);
    LARGEST: AtMost<Kilograms> = "largest_kg", "Studs alone would hold", "largest battery these studs carry", |s, _| AtMost(s.largest_mass), "largest mass";
    PROOF_LOAD: Newtons = "proof_load_n", "One stud stands", "without lasting stretch", |s, _| s.proof_load, "proof load";
    SLIP: Times = "slip_margin", "Friction over sideways", "below 1 the studs bear sideways", |s, _| Times(s.slip_margin), "slip margin";
    RULING: &'static str = "ruling", "Worst direction", "where the battery is thrown then", |s, _| s.ruling.word();
    STUDS: Many<StudDesign> = "studs", "Studs", "each stud at its worst", |s, at| many(&s.studs, at);
    CASES: Many<ShockCase> = "shocks", "Shocks", "force on the studs by direction, weight included", |s, at| many(&s.cases, at);
    STRIP: Option<One<StripCheck>> = "strip", "Strip", "a basket's strip beside its hole", |s, at| s.strip.as_ref().map(|c| one(c, at));
    CHAIN: One<Chain> = "chain", "Chain", "every link from the battery's case to the deck", |s, at| one(&s.chain, at);
    RODS: Option<One<Rods>> = "rods", "Rods", "rods over the battery of a tray or cabinet", |s, at| s.hold_down.as_ref().map(|h| one(h, at));
}

facts! { Chain, "chain", "every link from the battery's case to the deck", |_, _| Subject::Carrier;
    HEADLINE: String = "headline", "In all", "what the weakest link holds", |c, _| c.headline();
    HOLDS: AtMost<Kilograms> = "holds_kg", "Holds at most", "battery that the weakest link holds at this shock", |c, _| AtMost(c.holds);
    LINKS: Many<LinkUse> = "links", "Links", "each link at its worst, the weakest first", |c, at| many(&c.links, at);
    ROADS: Many<Road> = "roads", "Roads", "rough life by kind of road", |c, at| many(&c.roads, at);
}

facts! { LinkUse, "link", "one link of the chain", |_, _| Subject::Carrier;
    NAME: &'static str = "name", "Link", "which link", |l, _| l.link.words();
    USED: Share = "used_share", "Use", "of its strength; above 1 it does not hold", |l, _| l.used;
    EVEN: Share = "even_share", "Even load", "use with the load spread evenly", |l, _| l.even;
    CORNERS: Share = "corners_share", "At corners", "use with the load at the corners or edge of a stiff case", |l, _| l.corners;
    LASTING: Option<Share> = "lasting_share", "By tightening", "of that by tightening alone, whatever the battery weighs; null where only its mass loads the link", |l, _| Some(l.lasting).filter(|l| *l > Share::ZERO);
    THROWN: &'static str = "thrown", "Worst when thrown", "where the battery is thrown then", |l, _| l.thrown.word();
    RESERVE: Option<Times> = "plastic_reserve", "To folding", "a flat section bent until it folds over first yield; told, never counted on; null for what has none", |l, _| l.link.reserve().map(Times);
    BY: &'static str = "by", "Reckoned by", "formula or standard", |l, _| l.link.source();
}

facts! { Road, "road", "rough life on a kind of road", |_, _| Subject::Carrier;
    NAME: &'static str = "name", "Road", "kind of road", |r, _| r.name;
    SHAKING: Gravities = "shaking_g", "Shaking", "upright, root of the mean square", |r, _| r.shaking;
    LASTS: Hours = "lasts_h", "Roughly lasts", "hours until a crack, rough; at most 100,000", |r, _| r.lasts;
}

facts! { StudDesign, "stud", "one stud", |_, _| Subject::Carrier;
    NUMBER: String = "number", "Stud", "S1, S2, …", |_, at| format!("S{}", at.index + 1);
    ALONG: Millimetres = "along_mm", "Ahead", "ahead of the middle", |s, _| s.along;
    ACROSS: Millimetres = "across_mm", "Right", "to the right of the middle", |s, _| s.across;
    TENSION: Newtons = "tension_n", "Pull", "largest pull of all directions", |s, _| s.tension;
    SHEAR: Newtons = "shear_n", "Sideways", "largest sideways force of all directions", |s, _| s.shear;
    UTILISATION: Share = "utilisation_share", "Use", "pull and sideways together; above 1 it does not hold", |s, _| s.utilisation;
}

/// The force in the direction of the shock has a working.
fn on(axis: Axis, case: &ShockCase) -> Option<Subject> {
    (case.force.thrown.axis() == axis).then_some(Subject::Carrier)
}

/// Its name.
fn force(case: &ShockCase) -> String {
    format!("force {}", case.force.thrown.word())
}

facts! { ShockCase, "shock", "one direction of shock", |_, _| Subject::Carrier;
    NAME: &'static str = "name", "Thrown", "where the battery is thrown", |c, _| c.force.thrown.word();
    LEVEL: Gravities = "level_g", "Shock", "how hard", |c, _| c.force.level;
    ALONG: Newtons = "along_n", "Along", "forward positive", |c, _| c.force.along, [on(Axis::Along, c), force(c)];
    ACROSS: Newtons = "across_n", "Across", "to the right positive", |c, _| c.force.across, [on(Axis::Across, c), force(c)];
    UPRIGHT: Newtons = "upright_n", "Upright", "up positive, weight included", |c, _| c.force.upright, [on(Axis::Upright, c), force(c)];
}

facts! { StripCheck, "strip", "a basket's strip at its stud hole", |_, _| Subject::Carrier;
    STRESS: Megapascals = "stress_mpa", "Strip at its hole", "stress in the steel left beside the hole", |s, _| s.stress, "strip stress";
    UTILISATION: Share = "utilisation_share", "Use", "stress over yield", |s, _| s.utilisation;
}

facts! { Rods, "rods", "rods that press the battery down", |_, _| Subject::Carrier;
    COUNT: u32 = "count", "Rods", "how many", |h, _| h.rods;
    UTILISATION: Share = "utilisation_share", "Use of a rod", "pull over the proof load", |h, _| h.utilisation;
    CASE: &'static str = "case", "Worst direction", "where the battery is thrown then", |h, _| h.thrown();
}

facts! { Lifting, "lifting", "the heaviest piece that is lifted into place", |_, _| Subject::Carrier;
    MASS: Kilograms = "mass_kg", "Heaviest piece", "one block for tray and cabinet; basket and bank together under a deck", |l, _| l.mass;
    BY: &'static str = "by", "Lifted by", "what that takes", |l, _| l.by.words();
}
