//! What holds the battery, as the user describes it.

use super::choice::{CarrierMetal, Choice, Deck, HoldDownStyle, Locking, RodFoot};
use super::field::{Kind, Pick, count, mm, num};
use super::table::table;
use crate::quantity::*;

table! {
    /// The hold-down: none unless its style is chosen.
    HoldDown in HoldDown {
        /// What holds the service battery.
        style: HoldDownStyle => "style", "Style", Kind::Choice(HoldDownStyle::words), Default;
        /// What it must hold the battery through.
        shock: String = "road-crash".into() => "shock", "Shock", Kind::Pick(Pick::Shock), Default;
        /// Size of the studs or bolts that hold the hold-down; leave out to have it chosen.
        stud: Option<String> => "stud", "Studs", Kind::Pick(Pick::Stud), Chosen;
        /// Property class, stamped on the head.
        stud_class: String = "8.8".into() => "stud_class", "Stud class", Kind::Pick(Pick::StudClass), Default;
        /// Rows of studs along the vehicle, a basket has one strip at each; leave out to have it chosen.
        studs_along: Option<u32> => "studs_along", "Studs along", count(1.0, 12.0), Chosen;
        /// Rows of studs across the vehicle; a basket has two.
        studs_across: u32 = 2 => "studs_across", "Studs across", count(1.0, 12.0), Default;
        /// Distance of neighbouring studs along the vehicle; from the inside length when left out.
        spacing_along: Option<Millimetres> => "spacing_along_mm", "Spacing along", mm(10.0, 3000.0), Chosen;
        /// Distance of neighbouring studs across the vehicle; from the inside width when left out.
        spacing_across: Option<Millimetres> => "spacing_across_mm", "Spacing across", mm(10.0, 3000.0), Chosen;
        /// How far the battery's middle lies ahead of the middle of the hold-down.
        offset_along: Millimetres => "offset_along_mm", "Off centre along", mm(-2000.0, 2000.0), Default;
        /// How far the battery's middle lies to the right of the middle of the hold-down.
        offset_across: Millimetres => "offset_across_mm", "Off centre across", mm(-2000.0, 2000.0), Default;
        /// From the plane of the studs to the centre of the mass, up or down.
        centre: Option<Millimetres> => "centre_mm", "Centre of mass", mm(0.0, 2000.0), Chosen;
        /// Inside, along the vehicle; from battery and clearance when left out.
        length: Option<Millimetres> => "length_mm", "Inside length", mm(50.0, 3000.0), Chosen;
        /// Inside, across the vehicle; from battery and clearance when left out.
        width: Option<Millimetres> => "width_mm", "Inside width", mm(50.0, 3000.0), Chosen;
        /// Inside, upright; from battery and clearance when left out.
        height: Option<Millimetres> => "height_mm", "Inside height", mm(50.0, 2000.0), Chosen;
        /// Of the whole bank, along the vehicle.
        battery_length: Option<Millimetres> => "battery_length_mm", "Battery length", mm(30.0, 3000.0), Chosen;
        /// Of the whole bank, across the vehicle.
        battery_width: Option<Millimetres> => "battery_width_mm", "Battery width", mm(30.0, 3000.0), Chosen;
        /// Of the whole bank, with posts and covers.
        battery_height: Option<Millimetres> => "battery_height_mm", "Battery height", mm(30.0, 2000.0), Chosen;
        /// Gap wanted at each side and above, for padding and swelling.
        clearance: Millimetres = Millimetres::new(5.0) => "clearance_mm", "Clearance", mm(0.0, 100.0), Default;
        /// Width of a basket's strips; leave out to have it chosen.
        strip_width: Option<Millimetres> => "strip_width_mm", "Strip width", mm(10.0, 300.0), Chosen;
        /// Thickness of the strip or sheet; leave out to have it chosen.
        thickness: Option<Millimetres> => "thickness_mm", "Thickness", mm(0.5, 20.0), Chosen;
        /// Inside radius of the bends; the thickness, and no less than 6 mm, when left out.
        bend_radius: Option<Millimetres> => "bend_radius_mm", "Bend radius", mm(0.1, 100.0), Chosen;
        /// Where the neutral line lies in the thickness; from radius and thickness when left out.
        k_factor: Option<Share> => "k_factor", "K-factor", num(Unit::Number, 0.2, 0.5), Chosen;
        /// Flat length of a trial strip, of the same metal, before it is bent by 90° in your own tools.
        trial_flat: Option<Millimetres> => "trial_flat_mm", "Trial strip, flat", mm(20.0, 2000.0), Chosen;
        /// Both outside legs of the bent trial strip together; with its flat length all marks follow your own bend.
        trial_legs: Option<Millimetres> => "trial_legs_mm", "Trial strip, legs", mm(20.0, 2000.0), Chosen;
        /// Length of a basket's ears beyond its legs, or height of a tray's rim.
        rim: Millimetres = Millimetres::new(40.0) => "rim_mm", "Ears or rim", mm(5.0, 500.0), Default;
        /// Height that is free under the deck or above the floor; not checked when left out.
        free_height: Option<Millimetres> => "free_height_mm", "Free height", mm(50.0, 3000.0), Chosen;
        /// Rods that press the battery down in a tray or cabinet; 0 for none.
        rods: u32 = 2 => "rods", "Hold-down rods", count(0.0, 12.0), Default;
        /// Size of the hold-down rods; leave out to have it chosen.
        rod: Option<String> => "rod", "Rod size", Kind::Pick(Pick::Stud), Chosen;
        /// How the rods are held below.
        rod_foot: RodFoot => "rod_foot", "Rod foot", Kind::Choice(RodFoot::words), Default;
        /// Thickness of the pad between the lid and the bar over it.
        pad: Millimetres = Millimetres::new(3.0) => "pad_mm", "Pad on the lid", mm(0.0, 30.0), Default;
        /// Tightening torque of the studs; leave out to have it chosen.
        torque: Option<NewtonMetres> => "torque_nm", "Torque", num(Unit::NewtonMetre, 0.5, 500.0), Chosen;
        /// What keeps the nuts from coming undone.
        locking: Locking => "locking", "Locking", Kind::Choice(Locking::words), Default;
        /// What the hold-down is made of.
        metal: CarrierMetal => "metal", "Metal", Kind::Choice(CarrierMetal::words), Default;
        /// Straps of equal angle around a basket, which hold the battery along and across; 0 for none.
        straps: u32 = 1 => "straps", "Side straps", count(0.0, 6.0), Default;
        /// Leg of the straps' angle; leave out to have it chosen.
        strap_leg: Option<Millimetres> => "strap_leg_mm", "Strap leg", mm(10.0, 150.0), Chosen;
        /// Thickness of the straps' angle; leave out to have it chosen.
        strap_thickness: Option<Millimetres> => "strap_thickness_mm", "Strap thickness", mm(1.0, 20.0), Chosen;
        /// Throat of each fillet weld; leave out to have it chosen.
        weld_throat: Option<Millimetres> => "weld_throat_mm", "Weld throat", mm(1.0, 15.0), Chosen;
        /// Length of each weld, of a strap on a leg and of a strap at its corner; leave out to have it chosen.
        weld_length: Option<Millimetres> => "weld_length_mm", "Weld length", mm(5.0, 600.0), Chosen;
        /// Length of a spacer around each stud; from the floor's depth when left out, and none in a plain sheet.
        spacer: Option<Millimetres> => "spacer_mm", "Spacer", mm(1.0, 300.0), Chosen;
        /// What the hold-down is bolted to.
        deck: Deck => "deck", "Deck", Kind::Choice(Deck::words), Default;
        /// Thickness of the deck's sheet or boards at the studs.
        deck_thickness: Millimetres = Millimetres::new(3.0) => "deck_thickness_mm", "Deck thickness", mm(0.5, 100.0), Default;
        /// Depth of a hollow or ribbed floor at the studs, from face to face; a plain sheet or board when left out.
        deck_depth: Option<Millimetres> => "deck_depth_mm", "Hollow floor depth", mm(5.0, 300.0), Chosen;
        /// Thickness of a hollow floor's ribs; as thick as its faces when left out.
        deck_rib: Option<Millimetres> => "deck_rib_mm", "Hollow floor ribs", mm(0.2, 60.0), Chosen;
        /// Distance between the ribs or bearers that carry the deck at the studs.
        deck_span: Millimetres = Millimetres::new(300.0) => "deck_span_mm", "Deck span", mm(20.0, 3000.0), Default;
        /// Side of the square spreader plate under each nut on the deck's other face; leave out to have it chosen.
        spreader: Option<Millimetres> => "spreader_mm", "Spreader plate", mm(10.0, 500.0), Chosen;
        /// Thickness of the spreader plates; leave out to have it chosen.
        spreader_thickness: Option<Millimetres> => "spreader_thickness_mm", "Spreader thickness", mm(0.5, 40.0), Chosen;
        /// What a kilogram of its metal costs where you buy it, in your currency; no price is told when left out.
        metal_per_kg: Option<Money> => "metal_per_kg", "Metal, for 1 kg", num(Unit::Price, 0.0, 1e4), Chosen;
    }
}

table! {
    /// One stud at a place of its own; any given replace the even pattern of the hold-down.
    Stud in Stud {
        /// How far it lies ahead of the middle of the hold-down.
        along: Millimetres => "along_mm", "Along", mm(-3000.0, 3000.0), Default;
        /// How far it lies to the right of the middle of the hold-down.
        across: Millimetres => "across_mm", "Across", mm(-3000.0, 3000.0), Default;
    }
}
