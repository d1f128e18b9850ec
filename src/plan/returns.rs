//! What parts and joins: the bond to the body, the main switch, plugs to a trailer.

use super::field::{Kind, Pick, num};
use super::point;
use super::table::table;
use crate::quantity::*;

table! {
    /// The conductor from the service battery's minus to the vehicle's body.
    Bond in Bond {
        /// From the service battery's minus to the body.
        length: Metres = Metres::new(0.5) => "length_m", "Length", num(Unit::Metre, 0.05, 20.0), Default;
        /// Conductor size; leave out to have it sized for a fault and for the load.
        size: Option<String> => "size", "Size", Kind::Size, Chosen;
        /// Insulation class, printed on the cable.
        insulation: String = "pvc-105".into() => "insulation", "Insulation", Kind::Pick(Pick::Insulation), Default;
    }
}

table! {
    /// The isolator of a battery; none when its rating is left out.
    MainSwitch in MainSwitch {
        /// The point from which it parts all that lies beyond.
        at: String = point::SERVICE_BATTERY.into() => "at", "At", Kind::Point, Default;
        /// What it carries for ever; no switch is planned when left out.
        rating: Option<Amps> => "rating_a", "Rating", num(Unit::Amp, 1.0, 2000.0), Chosen;
        /// What it carries for the time of a start; its rating when left out.
        short_time: Option<Amps> => "short_time_a", "Short time", num(Unit::Amp, 1.0, 10_000.0), Chosen;
        /// It opens the minus alone.
        in_minus: bool => "in_minus", "In the minus", Kind::Flag, Default;
    }
}

table! {
    /// A plug between the vehicle and its trailer: a point with contacts.
    Plug in Plug {
        /// The point it is; the run before and the one behind it name it.
        name: String => "name", "Plug", Kind::Text { longest: 60, required: true }, NotAllowed;
        /// Which plug, and so what its contacts take.
        kind: String = "iso-11446".into() => "kind", "Kind", Kind::Pick(Pick::Plug), Default;
    }
}
