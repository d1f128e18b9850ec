//! How cable is cut, ended, coloured and sold, from `profiles/workshop.toml`.

use super::row::row;
use crate::quantity::*;

/// Everything about cutting and buying.
#[derive(Clone, Debug, Default)]
pub struct Workshop {
    /// Colour of each conductor.
    pub colours: Vec<ConductorColour>,
    /// Lug studs by conductor area, ascending.
    pub lugs: Vec<LugStud>,
    /// Points whose stud is known.
    pub posts: Vec<PostStud>,
    /// Pulls that a crimp must stand, by growing copper.
    pub pulls: Vec<CrimpPull>,
    /// Shrink sleeves, ascending.
    pub sleeves: Vec<Sleeve>,
    /// Plugs between a vehicle and its trailer.
    pub plugs: Vec<PlugKind>,
    /// Words of points that take the terminals of their own device.
    pub pins: Vec<PinWord>,
    /// How things are sold.
    pub sales: Vec<Sale>,
}

row! {
    /// Colour of a conductor.
    ConductorColour, ConductorColourFrom by conductor {
        /// `positive` or `negative`.
        conductor: String => one_of(&["positive", "negative"]),
    }
    values {
        /// The colour of its insulation.
        colour: String = "colour" => text,
    }
}

row! {
    /// Stud of a lug where nothing else is known.
    LugStud, LugStudFrom by up_to as "up_to_mm2" {
        /// For conductors up to this area.
        up_to: SquareMillimetres = "up_to_mm2" => within(0.1, 1000.0),
    }
    values {
        /// `M6`.
        stud: String = "stud" => text,
    }
}

row! {
    /// A point whose stud is usually the same.
    PostStud, PostStudFrom by point {
        /// Name of the point.
        point: String => text,
    }
    values {
        /// `M8`.
        stud: String = "stud" => text,
    }
}

row! {
    /// A point whose name has this word takes pins of its own make, no ring lugs.
    PinWord, PinWordFrom by word {}
    values {
        /// `plug`.
        word: String = "word" => text,
    }
}

row! {
    /// A plug between a vehicle and its trailer, by the pair of contacts that feeds a battery.
    PlugKind, PlugKindFrom by key {
        /// `iso-11446`.
        key: String => text,
        /// What to call it.
        name: String => text,
    }
    values {
        /// Largest conductor that goes into a contact.
        largest: SquareMillimetres = "largest_mm2" => within(0.2, 120.0),
        /// Most that the contact may be fused at.
        most: Amps = "most_a" => within(1.0, 500.0),
        /// Resistance of one contact.
        contact: Milliohms = "contact_mohm" => within(0.0, 50.0),
    }
}

row! {
    /// What a crimped lug must stand when it is pulled along the cable for a minute.
    CrimpPull, CrimpPullFrom by area as "from_mm2" {
        /// For conductors of this copper and more.
        area: SquareMillimetres = "from_mm2" => within(0.1, 1000.0),
    }
    values {
        /// At least.
        least: Newtons = "least_n" => within(1.0, 100_000.0),
    }
}

row! {
    /// A shrink sleeve.
    Sleeve, SleeveFrom by expanded as "expanded_mm" {}
    values of row {
        /// Inside diameter as bought.
        expanded: Millimetres = "expanded_mm" => within(1.0, 200.0),
        /// Inside diameter shrunk with nothing in it.
        shrunk: Millimetres = "shrunk_mm" => within(0.1, row.expanded.get()),
    }
}

row! {
    /// In which quantity something is sold.
    Sale, SaleFrom by what {
        /// `cable`, `lug`, `large lug`, `sleeve`, `fuse`.
        what: String => text,
        /// `m` or `piece`.
        unit: String => one_of(&["m", "piece"]),
    }
    values {
        /// Quantity in one pack, in `unit`.
        pack: f64 = "pack" => within(0.01, 10_000.0),
    }
}

impl Workshop {
    /// Colour of `positive` or `negative`; empty where none is set.
    pub fn colour(&self, conductor: &str) -> &str {
        self.colours.iter().find(|c| c.conductor == conductor).map_or("", |c| c.colour.as_str())
    }

    /// The plug with this key.
    pub fn plug(&self, key: &str) -> Option<&PlugKind> {
        self.plugs.iter().find(|p| p.key == key)
    }

    /// Quantity in one pack; 1 where nothing is said.
    pub fn pack(&self, what: &str) -> f64 {
        self.sales.iter().find(|s| s.what == what).map_or(1.0, |s| s.pack)
    }

    /// Whether a point takes pins of its own make.
    pub fn takes_pins(&self, point: &str) -> bool {
        let point = point.to_lowercase();
        self.pins.iter().any(|p| point.contains(&p.word))
    }
}
