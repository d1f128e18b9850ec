//! What is known of each link between the battery and the vehicle?

use crate::engine::physics::steel::shock::Thrown;
use crate::quantity::*;

/// A link of the chain from the battery's case to the deck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Link {
    Case,
    Rods,
    Hook,
    Strip,
    Leg,
    Bend,
    Strap,
    Weld,
    Rim,
    Base,
    Ear,
    Nut,
    Stud,
    Spreader,
    Deck,
    Floor,
    Rib,
    Wood,
    Foot,
}

impl Link {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Link::Case => "case of the battery",
            Link::Rods => "hold-down rods",
            Link::Hook => "hook of a rod",
            Link::Strip => "cross strip under the battery",
            Link::Leg => "leg of a cross strip",
            Link::Bend => "bend of a cross strip",
            Link::Strap => "side strap",
            Link::Weld => "weld",
            Link::Rim => "rim of the tray",
            Link::Base => "base around studs and rods",
            Link::Ear => "ear at its stud",
            Link::Nut => "hole and nut in the metal",
            Link::Stud => "stud with its prying",
            Link::Spreader => "spreader plate",
            Link::Deck => "deck or floor",
            Link::Floor => "faces of the hollow floor",
            Link::Rib => "rib of the hollow floor",
            Link::Wood => "wood under its plates",
            Link::Foot => "wood under its base",
        }
    }

    /// What it stands until it folds over what it stands at first yield, as a flat section that is bent; none where it
    /// breaks, is pulled or pressed, or where its use has its reserve in it. Told, never counted on.
    pub fn reserve(self) -> Option<f64> {
        match self {
            Link::Strip | Link::Leg | Link::Bend | Link::Rim | Link::Ear | Link::Spreader | Link::Base => Some(1.5),
            _ => None,
        }
    }

    /// By what it is worked out.
    pub fn source(self) -> &'static str {
        match self {
            Link::Case => "force over the area pressed; 2 MPa under a bar (common practice, no source)",
            Link::Rods | Link::Stud => "proof stress of ISO 898-1 and EN 1993-1-8 table 3.4, the worse",
            Link::Hook => "curved round bar, N / A + k M / W against yield (Winkler; Roark)",
            Link::Strip | Link::Leg => {
                "plane frame, M / W + N / A against yield (EN 1993-1-1 6.2.1); ears turn where they crush wood"
            }
            Link::Bend => {
                "plane frame; thickness drawn out by the bend, and a curved bar's inner face (Winkler, Roark); ears turn \
                 where they crush wood"
            }
            Link::Strap => "beam across the end, M / W + N / A against yield (EN 1993-1-1 6.2.1)",
            Link::Weld => "fillet weld, simplified method of EN 1993-1-8 4.5.3.3",
            Link::Rim => "rim as a lever over its bend, against yield",
            Link::Base => "T-stub, circular pattern of EN 1993-1-8 table 6.4, at two thirds of it: first yield",
            Link::Ear => "plane frame with the ear prying on the deck, on the metal beside the hole",
            Link::Nut => "bearing and punching, EN 1993-1-8 table 3.4",
            Link::Spreader => "plate bent over the nut's washer, against yield",
            Link::Deck => "round plate with clamped edge under a round load (Roark), pull-through (EN 1993-1-3), crush",
            Link::Floor => {
                "faces drawn onto the spacer, and their part of the pull, as two springs (Timoshenko, Roark); tightening \
                 does not grow with the mass, only the pull does"
            }
            Link::Rib => {
                "one rib between the plates, squashed or buckled (EN 1993-1-5 6.4, EN 1999-1-1 6.7.5, from memory), wood \
                 crushed (EN 1995-1-1 6.1.5); tightening does not grow with the mass, only the pull does"
            }
            Link::Foot => {
                "what tips and presses, over the edge of the base as far as it is stiff (EN 1993-1-8 6.2.5), against crush \
                 across the grain (EN 1995-1-1 6.1.5, from memory); what tightening crushes there costs preload only"
            }
            Link::Wood => {
                "preload and pull over the plate, 3 times the strength across the grain (EN 1995-1-1 8.5.2, from memory); \
                 tightening does not grow with the mass, only the pull does"
            }
        }
    }
}

/// How far one link is used, at its worst.
#[derive(Clone, Debug, PartialEq)]
pub struct LinkUse {
    /// Which link.
    pub link: Link,
    /// Of its strength; more than 100 % does not hold.
    pub used: Share,
    /// Of that by tightening alone, whatever the battery weighs; zero where a link is loaded by its mass only.
    pub lasting: Share,
    /// How many times the mass it holds; none where tightening alone is more than it stands, at most a thousand.
    pub stands: f64,
    /// Where the battery is thrown then.
    pub thrown: Thrown,
    /// With the load spread evenly.
    pub even: Share,
    /// With the load at the corners, as a stiff case gives it.
    pub corners: Share,
}

/// How long a road is stood, roughly.
#[derive(Clone, Debug, PartialEq)]
pub struct Road {
    /// Kind of road.
    pub name: &'static str,
    /// Upright shaking, root of the mean square.
    pub shaking: Gravities,
    /// Hours until a crack, by a rough reckoning; at most 100,000.
    pub lasts: Hours,
}

/// The whole chain.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chain {
    /// Each link, the weakest first.
    pub links: Vec<LinkUse>,
    /// The battery that the weakest link holds at this shock.
    pub holds: Kilograms,
    /// Rough life on three kinds of road.
    pub roads: Vec<Road>,
}

impl Chain {
    /// The weakest link; there is none where nothing is loaded.
    pub fn weakest(&self) -> Option<&LinkUse> {
        self.links.first()
    }

    /// The headline.
    pub fn headline(&self) -> String {
        let holds = Figure::from(self.holds).about_at_most(UnitSystem::Metric);
        match self.weakest() {
            Some(weakest) => format!("holds {holds} by its weakest link: {}", weakest.link.words()),
            None => "nothing is loaded".into(),
        }
    }
}
