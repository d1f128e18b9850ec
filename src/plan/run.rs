//! A run of the plan: a cable between two points, with its fuse.

use super::choice::{Choice, Obstacle, Passes, ReturnPath};
use super::field::{AIR, Kind, Pick, count, num};
use super::table::table;
use crate::quantity::*;

table! {
    /// A cable between two points.
    Run in Run {
        /// What to call it; from its ends when left out.
        name: String => "name", "Name", Kind::Text { longest: 60, required: false }, Default;
        /// The end nearer the battery.
        from: String => "from", "From", Kind::Point, NotAllowed;
        /// The end nearer the load.
        to: String => "to", "To", Kind::Point, NotAllowed;
        /// One way, along the loom; the way back is counted too.
        length: Metres = Metres::new(1.0) => "length_m", "Length", num(Unit::Metre, 0.05, 1000.0), NotAllowed;
        /// Conductor size; leave out to have it sized.
        size: Option<String> => "size", "Size", Kind::Size, Chosen;
        /// Insulation class, printed on the cable.
        insulation: String = "pvc-105".into() => "insulation", "Insulation", Kind::Pick(Pick::Insulation), Default;
        /// What it runs through; the hottest stretch counts.
        surroundings: String = "cabin".into() => "surroundings", "Through", Kind::Pick(Pick::CablePlace), Default;
        /// Hottest air along it; from the surroundings when left out.
        air: Option<Celsius> => "air_c", "Air", AIR, Chosen;
        /// Other loaded cables in the same bundle, counted by pairs.
        bundled_with: u32 => "bundled_with", "Others bundled", count(0.0, 200.0), Default;
        /// How the current comes back.
        return_path: ReturnPath => "return", "Return", Kind::Choice(ReturnPath::words), Default;
        /// Has a fuse of its own at each end that has a source.
        own_fuse: bool = true => "own_fuse", "Own fuse", Kind::Flag, Default;
        /// Rating of its fuse; leave out to have it chosen.
        fuse: Option<Amps> => "fuse_a", "Fuse", num(Unit::Amp, 0.5, 1000.0), Chosen;
        /// Style of its fuse; leave out to have it chosen.
        fuse_style: Option<String> => "fuse_style", "Fuse style", Kind::Pick(Pick::FuseStyle), Chosen;
        /// Its fuse sits in the minus alone.
        fuse_in_minus: bool => "fuse_in_minus", "Fuse in the minus", Kind::Flag, Default;
        /// From the source to the fuse, along the cable.
        fuse_distance: Metres = Metres::new(0.15) => "fuse_distance_m", "Fuse distance", num(Unit::Metre, 0.0, 20.0), Default;
        /// Crimped or bolted joints in the whole loop.
        joints: u32 = 4 => "joints", "Joints", count(0.0, 50.0), Default;
        /// Resistance of switches, isolators and plugs in the run.
        switch_mohm: Milliohms => "switch_mohm", "Switches", num(Unit::Milliohm, 0.0, 200.0), Default;
        /// Current to size for; from the loads when left out.
        current: Option<Amps> => "current_a", "Size for", num(Unit::Amp, 0.0, 2000.0), Chosen;
        /// What it passes on its way: its grommets, conduit and clips are counted from it.
        passes: Passes => "passes", "Passes", Kind::Words(Obstacle::words), Default;
        /// Anything to remember in the workshop.
        note: String => "note", "Note", Kind::Text { longest: 200, required: false }, Default;
        /// Its number on labels and papers, kept for as long as it is there; the lowest that is free when left out.
        number: Option<u32> => "number", "Number", count(1.0, 9999.0), Chosen;
        /// What mends the plan may not change it.
        keep: bool => "keep", "Keep", Kind::Flag, Default;
    }
}
