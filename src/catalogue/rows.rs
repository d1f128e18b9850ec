//! All rows of the profiles, the handle that carries them about, and finding a row by its key.

use super::carrier::{Angle, Shock, Stock, StudClass, StudSize};
use super::chemistry::Chemistry;
use super::conductor::{AmpacityTable, CablePlace, Conductor, Family, Insulation, TradeLabel};
use super::devices::{BoughtCharger, Devices, TypicalLoad};
use super::fuse::FuseStyle;
use super::price::OwnPrice;
use super::region::{LookUp, Region};
use super::rules::Rules;
use super::workshop::Workshop;
use std::ops::{Deref, DerefMut};
use std::sync::Arc;

/// Everything the trade knows, in one value that is passed to the engine.
///
/// A handle: a clone shares the rows until one of the two is changed.
#[derive(Clone, Debug, Default)]
pub struct Catalogue(Arc<Rows>);

impl From<Rows> for Catalogue {
    fn from(rows: Rows) -> Self {
        Catalogue(Arc::new(rows))
    }
}

impl Catalogue {
    /// Whether it is the same, by its handle: one that was changed and came out alike counts as another.
    pub fn is(&self, other: &Catalogue) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl Deref for Catalogue {
    type Target = Rows;

    fn deref(&self) -> &Rows {
        &self.0
    }
}

impl DerefMut for Catalogue {
    /// To change rows; a catalogue that shared them gets rows of its own first.
    fn deref_mut(&mut self) -> &mut Rows {
        Arc::make_mut(&mut self.0)
    }
}

/// The rows of all profiles.
#[derive(Clone, Debug, Default)]
pub struct Rows {
    /// Battery chemistries, in the order shown.
    pub chemistries: Vec<Chemistry>,
    /// Conductor sizes of all families, each family by growing area.
    pub conductors: Vec<Conductor>,
    /// Insulation classes, by growing temperature.
    pub insulations: Vec<Insulation>,
    /// The ampacity table and its correction factors.
    pub ampacity: AmpacityTable,
    /// Trade labels that do not say what they seem to (cable sold by outside diameter).
    pub trade_labels: Vec<TradeLabel>,
    /// Fuse-link styles.
    pub fuse_styles: Vec<FuseStyle>,
    /// Surroundings a cable may run through.
    pub places: Vec<CablePlace>,
    /// Where a vehicle may be registered.
    pub regions: Vec<Region>,
    /// What to look up there.
    pub look_ups: Vec<LookUp>,
    /// Typical loads to pick from.
    pub loads: Vec<TypicalLoad>,
    /// Standard sizes of chargers and settings of cut-off devices.
    pub devices: Devices,
    /// Chargers by name: the user's own.
    pub chargers: Vec<BoughtCharger>,
    /// How cable is cut, ended, coloured and sold.
    pub workshop: Workshop,
    /// Sizes of studs and bolts, by growing diameter.
    pub studs: Vec<StudSize>,
    /// Property classes of studs and bolts.
    pub stud_classes: Vec<StudClass>,
    /// Shock levels to hold a battery against.
    pub shocks: Vec<Shock>,
    /// What is sold or made in stock sizes for a carrier.
    pub stocks: Vec<Stock>,
    /// Equal angles, by growing leg.
    pub angles: Vec<Angle>,
    /// What the user pays, for every plan.
    pub prices: Vec<OwnPrice>,
    /// Rules of the trade: drop classes, fuse loading, placement, joints.
    pub rules: Rules,
}

impl Rows {
    /// The chemistry with this key, e.g. `lithium-iron-phosphate`.
    pub fn chemistry(&self, key: &str) -> Option<&Chemistry> {
        self.chemistries.iter().find(|c| c.key == key)
    }
    /// The insulation class with this key, e.g. `pvc-105`.
    pub fn insulation(&self, key: &str) -> Option<&Insulation> {
        self.insulations.iter().find(|i| i.key == key)
    }
    /// The fuse style with this key, e.g. `blade`.
    pub fn fuse_style(&self, key: &str) -> Option<&FuseStyle> {
        self.fuse_styles.iter().find(|f| f.key == key)
    }
    /// The cable surroundings with this key, e.g. `under-floor`.
    pub fn place(&self, key: &str) -> Option<&CablePlace> {
        self.places.iter().find(|p| p.key == key)
    }
    /// The stud size with this key, e.g. `M8`.
    pub fn stud(&self, key: &str) -> Option<&StudSize> {
        self.studs.iter().find(|s| s.key == key)
    }
    /// The property class with this key, e.g. `8.8`.
    pub fn stud_class(&self, key: &str) -> Option<&StudClass> {
        self.stud_classes.iter().find(|c| c.key == key)
    }
    /// The shock level with this key, e.g. `road-crash`.
    pub fn shock(&self, key: &str) -> Option<&Shock> {
        self.shocks.iter().find(|s| s.key == key)
    }
    /// The stock sizes with this key, one of [`super::carrier::STOCKS`].
    pub fn stock(&self, key: &str) -> Option<&Stock> {
        self.stocks.iter().find(|s| s.key == key)
    }
    /// The region with this key.
    pub fn region(&self, key: &str) -> Option<&Region> {
        self.regions.iter().find(|r| r.key == key)
    }

    /// What to look up in a region, what holds everywhere last; without a region only that.
    pub fn to_look_up<'a>(&'a self, region: Option<&'a str>) -> impl Iterator<Item = &'a LookUp> {
        let own = self.look_ups.iter().filter(move |l| l.regions.iter().any(|r| Some(r.as_str()) == region));
        own.chain(self.look_ups.iter().filter(|l| l.regions.is_empty()))
    }
    /// The conductor with this label, e.g. `6 mm²` or `10 AWG`.
    pub fn conductor(&self, label: &str) -> Option<&Conductor> {
        self.conductors.iter().find(|c| c.label == label)
    }
    /// The sizes of one family by growing area.
    pub fn sizes(&self, family: Family) -> impl Iterator<Item = &Conductor> {
        self.conductors.iter().filter(move |c| c.family == family)
    }
}
