//! Results of marking out: each flat piece with its bends and holes, and how all are laid on what is sold.

use super::fact::{Many, facts, many};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::hold_down::marking::{Fold, Hole, Marking};
use crate::engine::simulate::hold_down::nest::{Laid, LaidPiece};
use crate::quantity::*;

facts! { Marking, "marking", "a flat piece with all that is marked on it, from its left end and lower edge", |_, _| Subject::Carrier;
    PIECE: &'static str = "piece", "Piece", "which piece", |m, _| m.piece.words();
    COUNT: u32 = "count", "Count", "how many alike", |m, _| m.count;
    LENGTH: Millimetres = "length_mm", "Length", "flat", |m, _| m.length;
    WIDTH: Millimetres = "width_mm", "Width", "flat; the leg of an angle", |m, _| m.width;
    THICKNESS: Millimetres = "thickness_mm", "Thick", "of the metal", |m, _| m.thickness;
    CORNER: Option<Millimetres> = "corner_mm", "Corner", "side of the square cut out of each corner; null for none", |m, _| m.corner;
    MITRE: Option<Millimetres> = "mitre_mm", "Mitre", "how much further in an angle's end is sawn at its back, the lower edge, than at its free edge; null for none", |m, _| m.mitre;
    FOLDS: Many<Fold> = "folds", "Bends", "of 90°, in their order", |m, at| many(&m.folds, at);
    HOLES: Many<Hole> = "holes", "Holes", "that are drilled", |m, at| many(&m.holes, at);
}

facts! { Fold, "fold", "a bend of 90°", |_, _| Subject::Carrier;
    MEASURED: &'static str = "measured", "Measured from", "left end or lower edge", |f, _| f.measured();
    BEGINS: Millimetres = "begins_mm", "Begins", "where the bend begins", |f, _| f.from;
    MIDDLE: Millimetres = "middle_mm", "Middle", "of the bend", |f, _| f.middle;
    ENDS: Millimetres = "ends_mm", "Ends", "where the bend ends", |f, _| f.to;
    CLAMP: Millimetres = "clamp_mm", "Clamp at", "edge of the clamp or beam", |f, _| f.clamp;
    WAY: &'static str = "way", "Way", "to which face it is bent", |f, _| f.way();
}

facts! { Hole, "hole", "a hole", |_, _| Subject::Carrier;
    ALONG: Millimetres = "along_mm", "From the left end", "of the blank", |h, _| h.along;
    ACROSS: Millimetres = "across_mm", "From the lower edge", "of the blank", |h, _| h.across;
    DIAMETER: Millimetres = "drill_mm", "Last drill", "its diameter", |h, _| h.diameter;
}

facts! { Laid, "laid", "a bar, an angle or a sheet as bought, with what is cut from it", |_, _| Subject::Carrier;
    STOCK: &'static str = "stock", "Stock", "flat bar, equal angle or sheet", |l, _| l.stock.words();
    LENGTH: Millimetres = "length_mm", "Length", "of the whole", |l, _| l.length;
    WIDTH: Millimetres = "width_mm", "Width", "of the whole; the leg of an angle", |l, _| l.width;
    THICKNESS: Millimetres = "thickness_mm", "Thick", "of the metal", |l, _| l.thickness;
    MASS: Kilograms = "mass_kg", "Mass", "of the whole, as bought", |l, _| l.mass;
    WASTE: Share = "waste_share", "Left over", "of the whole, saw cuts too", |l, _| l.waste;
    PRICE: Option<Money> = "price", "Price", "of the whole in your currency; null without a price for a kilogram", |l, _| l.price;
    PIECES: Many<LaidPiece> = "pieces", "Pieces", "that are cut from it", |l, at| many(&l.pieces, at);
}

facts! { LaidPiece, "laid-piece", "a piece as it lies there", |_, _| Subject::Carrier;
    PIECE: &'static str = "piece", "Piece", "which piece", |p, _| p.piece.words();
    LENGTH: Millimetres = "length_mm", "Length", "along the stock", |p, _| p.length;
    WIDTH: Millimetres = "width_mm", "Width", "across it", |p, _| p.width;
    ALONG: Millimetres = "along_mm", "Along", "of its lower left corner", |p, _| p.along;
    ACROSS: Millimetres = "across_mm", "Across", "of its lower left corner", |p, _| p.across;
}
