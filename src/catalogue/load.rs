//! Reading the profiles: the embedded ones, then each layer of the user's on top.

use super::bought::unknown;
use super::price::OwnPrice;
use super::read::{CatalogueError, Found, Reader};
use super::row::Row;
use super::rows::{Catalogue, Rows};
use super::rules::NumberRow;
use super::whole::{check_whole, sort};
use include_dir::{Dir, include_dir};

static PROFILES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles");

/// A folder's worth of profile files: name relative to the folder, and text.
#[derive(Clone, Debug, Default)]
pub struct Layer {
    /// Where it came from, for messages.
    pub origin: String,
    /// File name with forward slashes (`chemistries/agm.toml`) and its text.
    pub files: Vec<(String, String)>,
}

impl Catalogue {
    /// The profiles that are part of the program.
    ///
    /// # Errors
    /// Never in a tested build; the shape is that of [`Catalogue::with_layers`].
    pub fn embedded() -> Result<Catalogue, Vec<CatalogueError>> {
        Catalogue::with_layers(&[])
    }

    /// The embedded profiles with the layers' rows replacing (same key or
    /// label) or joining them, later layers winning. `ampacity.toml` replaces
    /// the whole table: rows of two publications do not mix.
    ///
    /// # Errors
    /// All problems of all files at once.
    pub fn with_layers(layers: &[Layer]) -> Result<Catalogue, Vec<CatalogueError>> {
        let mut loading = Loading::default();
        for (name, text) in embedded_files(&PROFILES) {
            loading.file("built in", name, text);
        }
        for layer in layers {
            loading.seen.clear();
            // Prices last: they name what the other files hold.
            let (prices, others): (Vec<_>, Vec<_>) = layer.files.iter().partition(|(name, _)| name == PRICES);
            for (name, text) in others.into_iter().chain(prices) {
                loading.file(&layer.origin, name, text);
            }
        }
        let Loading { mut catalogue, numbers, mut errors, .. } = loading;
        if errors.is_empty() {
            catalogue.rules.set(&numbers);
            sort(&mut catalogue);
            errors = check_whole(&catalogue, &numbers);
        }
        if errors.is_empty() { Ok(catalogue.into()) } else { Err(errors) }
    }
}

/// The text of a profile that is part of the program.
pub(super) fn embedded_text(name: &str) -> Option<&'static str> {
    PROFILES.get_file(name)?.contents_utf8()
}

/// All embedded profile texts by name; the example plans are no profiles.
fn embedded_files<'a>(folder: &'a Dir<'a>) -> Vec<(&'a str, &'a str)> {
    let mut files: Vec<_> = folder.files().chain(folder.dirs().flat_map(Dir::files)).collect();
    files.sort_by_key(|f| f.path());
    files
        .iter()
        .filter_map(|f| Some((f.path().to_str()?, f.contents_utf8()?)))
        .filter(|(name, _)| name.ends_with(".toml") && !name.starts_with("plans"))
        .collect()
}

/// The catalogue as far as it has been read.
#[derive(Default)]
struct Loading {
    catalogue: Rows,
    /// The `[[number]]` rows of all files; those of a user replace ours by key.
    numbers: Vec<NumberRow>,
    errors: Vec<CatalogueError>,
    /// Kind and key of the rows of the present layer.
    seen: Vec<(&'static str, String)>,
}

impl Loading {
    fn file(&mut self, origin: &str, name: &str, text: &str) {
        let reader = Reader::open(format!("{origin}: {name}"), text);
        if !reader.sound() {
            self.errors.extend(reader.finish(""));
            return;
        }
        let name = name.split_once('/').map_or(name, |(folder, _)| folder);
        let mut file = File { name, reader, seen: &mut self.seen, holds: Vec::new() };
        file.take(&mut self.catalogue, &mut self.numbers);
        self.errors.extend(file.finish());
    }
}

/// A file being read.
struct File<'a> {
    /// Its name, or that of its folder.
    name: &'a str,
    reader: Reader<'a>,
    seen: &'a mut Vec<(&'static str, String)>,
    /// What files of this name hold, as far as was asked.
    holds: Vec<String>,
}

impl File<'_> {
    /// What each file holds.
    fn take(&mut self, all: &mut Rows, numbers: &mut Vec<NumberRow>) {
        self.whole("chemistries", "chemistry", &mut all.chemistries);
        self.whole("fuse-links", "fuse style", &mut all.fuse_styles);
        self.whole("chargers", "charger", &mut all.chargers);
        self.rows("conductors", "conductor", &mut all.conductors);
        self.rows("insulation.toml", "insulation", &mut all.insulations);
        self.rows("trade-labels.toml", "label", &mut all.trade_labels);
        self.rows("places.toml", "place", &mut all.places);
        self.rows("regions.toml", "region", &mut all.regions);
        self.rows("regions.toml", "look_up", &mut all.look_ups);
        self.rows("loads.toml", "load", &mut all.loads);
        self.rows("rules.toml", "drop_class", &mut all.rules.drop_class);
        self.rows("rules.toml", "placement", &mut all.rules.placement);
        self.rows("carrier.toml", "stud", &mut all.studs);
        self.rows("carrier.toml", "class", &mut all.stud_classes);
        self.rows("carrier.toml", "shock", &mut all.shocks);
        self.rows("carrier.toml", "stock", &mut all.stocks);
        self.rows("carrier.toml", "angle", &mut all.angles);
        self.rows("workshop.toml", "colour", &mut all.workshop.colours);
        self.rows("workshop.toml", "lug", &mut all.workshop.lugs);
        self.rows("workshop.toml", "post", &mut all.workshop.posts);
        self.rows("workshop.toml", "pin", &mut all.workshop.pins);
        self.rows("workshop.toml", "plug", &mut all.workshop.plugs);
        self.rows("workshop.toml", "pull", &mut all.workshop.pulls);
        self.rows("workshop.toml", "sleeve", &mut all.workshop.sleeves);
        self.rows("workshop.toml", "sale", &mut all.workshop.sales);
        self.prices(all);
        for file in ["rules.toml", "carrier.toml", "test-sheet.toml", "workshop.toml"] {
            self.rows(file, "number", numbers);
        }
        self.part("devices.toml", "chargers", &mut all.devices.chargers);
        self.part("devices.toml", "mains_chargers", &mut all.devices.mains_chargers);
        self.part("devices.toml", "cut_offs", &mut all.devices.cut_offs);
        if self.is("ampacity.toml", "one ampacity table".into())
            && let Some(found) = self.reader.whole()
        {
            all.ampacity = found.row;
        }
    }

    /// Whether this is a file of that name, which holds such things.
    fn is(&mut self, name: &str, holds: String) -> bool {
        let it_is = self.name == name;
        self.holds.extend(it_is.then_some(holds));
        it_is
    }

    fn rows<T: Row>(&mut self, file: &str, list: &'static str, into: &mut Vec<T>) {
        if self.is(file, format!("[[{list}]]")) {
            let found = self.reader.rows(list);
            self.join(list, found, into);
        }
    }

    /// What is priced must be something that is bought.
    fn prices(&mut self, all: &mut Rows) {
        if self.is(PRICES, "[[price]]".into()) {
            let found: Vec<Found<OwnPrice>> = self.reader.rows("price");
            for (at, message) in found.iter().flat_map(|f| unknown(&f.row, all)).collect::<Vec<_>>() {
                self.reader.add(Some(at), message);
            }
            self.join("price", found, &mut all.prices);
        }
    }

    fn whole<T: Row>(&mut self, folder: &str, kind: &'static str, into: &mut Vec<T>) {
        if self.is(folder, format!("one {kind}")) {
            let found = self.reader.whole();
            self.join(kind, found, into);
        }
    }

    fn part<T: Row>(&mut self, file: &str, name: &str, into: &mut T) {
        if self.is(file, format!("[{name}]"))
            && let Some(found) = self.reader.part(name)
        {
            *into = found.row;
        }
    }

    /// Put rows in: the same key of an earlier layer is replaced, of this one refused.
    fn join<T: Row>(&mut self, kind: &'static str, found: impl IntoIterator<Item = Found<T>>, into: &mut Vec<T>) {
        for Found { row, at } in found {
            let key = row.key();
            let id = (kind, key.clone());
            if self.seen.contains(&id) {
                let name = T::KEY;
                self.reader.add(Some(at), format!("{kind} with {name} “{key}” is there twice; rename or remove one"));
                continue;
            }
            self.seen.push(id);
            match into.iter_mut().find(|old| old.key() == key) {
                Some(old) => *old = row,
                None => into.push(row),
            }
        }
    }

    /// All problems; of a file that is none of ours only its name.
    fn finish(mut self) -> Vec<CatalogueError> {
        let known = match self.holds.split_last() {
            None => {
                self.reader.add(None, format!("no profile has this name; the names are {FILE_NAMES}"));
                return self.reader.finish("").into_iter().take(1).collect();
            }
            Some((last, [])) => last.clone(),
            Some((last, before)) => format!("{} and {last}", before.join(", ")),
        };
        let rows = if known.starts_with("[[") { " rows" } else { "" };
        self.reader.finish(&format!("{known}{rows}"))
    }
}

const FILE_NAMES: &str = "chemistries/*.toml, fuse-links/*.toml, conductors/*.toml, chargers/*.toml, insulation.toml, ampacity.toml, \
    trade-labels.toml, places.toml, loads.toml, devices.toml, carrier.toml, test-sheet.toml, workshop.toml, \
    regions.toml, prices.toml and rules.toml";

/// The file of what the user pays.
const PRICES: &str = "prices.toml";
