//! What was measured where the carrier hangs, and of the carrier once it is built.

use super::field::{Kind, count, mm, num};
use super::table::table;
use crate::quantity::{Degrees, Millimetres, Unit};

table! {
    /// What is near a hold-down under a vehicle, measured with the vehicle loaded as far as it may be.
    Beneath in Beneath {
        /// From the ground to the lowest part of the hold-down.
        ground: Option<Millimetres> => "ground_mm", "Above the ground", mm(0.0, 3000.0), Chosen;
        /// How far the springs still go down, to their stops; a usual way when left out.
        travel: Option<Millimetres> => "travel_mm", "Spring travel", mm(0.0, 500.0), Chosen;
        /// How far its rearmost lower edge lies behind the foot of the rear tyre; nothing when it lies before it.
        behind: Option<Millimetres> => "behind_mm", "Behind the rear tyre", mm(0.0, 5000.0), Chosen;
        /// Departure angle that the vehicle has without it, or that it must keep.
        departure: Option<Degrees> => "departure_deg", "Departure angle", num(Unit::Degree, 1.0, 80.0), Chosen;
        /// To the nearest part of the exhaust.
        exhaust: Option<Millimetres> => "exhaust_mm", "To the exhaust", mm(0.0, 3000.0), Chosen;
        /// Whether a plate stands between it and the exhaust, with air on both sides.
        shield: bool => "shield", "Heat shield", Kind::Flag, Default;
        /// To the drive shaft, a spring or another part that moves, where it comes nearest.
        shaft: Option<Millimetres> => "shaft_mm", "To the shaft", mm(0.0, 3000.0), Chosen;
        /// To the nearest tyre, at full bump and full lock.
        tyre: Option<Millimetres> => "tyre_mm", "To a tyre", mm(0.0, 3000.0), Chosen;
        /// To the nearest brake or fuel line.
        lines: Option<Millimetres> => "lines_mm", "To brake and fuel lines", mm(0.0, 3000.0), Chosen;
        /// Whether steel and aluminium that touch are kept apart: both painted, plastic between, holes sealed.
        apart: bool => "apart", "Metals kept apart", Kind::Flag, Default;
    }
}

table! {
    /// The hold-down as it came out, measured inside; what is not measured is taken as planned.
    AsBuilt in AsBuilt {
        /// Inside, along the vehicle, at the narrowest.
        length: Option<Millimetres> => "length_mm", "Inside length", mm(50.0, 3000.0), Chosen;
        /// Inside, across the vehicle, at the narrowest.
        width: Option<Millimetres> => "width_mm", "Inside width", mm(50.0, 3000.0), Chosen;
        /// Inside, upright, at the lowest.
        height: Option<Millimetres> => "height_mm", "Inside height", mm(50.0, 2000.0), Chosen;
    }
}

table! {
    /// A hole of the hold-down as it was drilled, measured from the middle of the hold-down.
    Drilled in Drilled {
        /// Number of the stud that goes through it, as the papers have it: 1 for S1.
        stud: u32 = 1 => "stud", "Stud", count(1.0, 144.0), NotAllowed;
        /// How far it lies ahead of the middle of the hold-down.
        along: Millimetres => "along_mm", "Along", mm(-3000.0, 3000.0), Default;
        /// How far it lies to the right of the middle of the hold-down.
        across: Millimetres => "across_mm", "Across", mm(-3000.0, 3000.0), Default;
    }
}
