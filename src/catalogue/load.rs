//! Reading the profiles: the embedded ones, then each layer of the user's on top.

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
            for (name, text) in &layer.files {
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
        let mut reader = Reader::open(format!("{origin}: {name}"), text);
        let (folder, file) = name.split_once('/').unwrap_or(("", name));
        let (mut catalogue, mut numbers) = (std::mem::take(&mut self.catalogue), std::mem::take(&mut self.numbers));
        let known = match (folder, file) {
            _ if !reader.sound() => "",
            ("chemistries", _) => {
                let found = reader.whole().into_iter().collect();
                self.join("chemistry", found, &mut catalogue.chemistries, &mut reader);
                "one chemistry"
            }
            ("fuse-links", _) => {
                let found = reader.whole().into_iter().collect();
                self.join("fuse style", found, &mut catalogue.fuse_styles, &mut reader);
                "one fuse style"
            }
            ("conductors", _) => {
                self.list("conductor", &mut catalogue.conductors, &mut reader);
                "[[conductor]] rows"
            }
            ("", "insulation.toml") => {
                self.list("insulation", &mut catalogue.insulations, &mut reader);
                "[[insulation]] rows"
            }
            ("", "trade-labels.toml") => {
                self.list("label", &mut catalogue.trade_labels, &mut reader);
                "[[label]] rows"
            }
            ("", "places.toml") => {
                self.list("place", &mut catalogue.places, &mut reader);
                "[[place]] rows"
            }
            ("", "regions.toml") => {
                self.list("region", &mut catalogue.regions, &mut reader);
                self.list("look_up", &mut catalogue.look_ups, &mut reader);
                "[[region]] and [[look_up]] rows"
            }
            ("", "loads.toml") => {
                self.list("load", &mut catalogue.loads, &mut reader);
                "[[load]] rows"
            }
            ("", "rules.toml") => {
                self.list("drop_class", &mut catalogue.rules.drop_class, &mut reader);
                self.list("placement", &mut catalogue.rules.placement, &mut reader);
                self.list("number", &mut numbers, &mut reader);
                "[[drop_class]], [[placement]] and [[number]] rows"
            }
            ("", "carrier.toml") => {
                self.list("stud", &mut catalogue.studs, &mut reader);
                self.list("class", &mut catalogue.stud_classes, &mut reader);
                self.list("shock", &mut catalogue.shocks, &mut reader);
                self.list("number", &mut numbers, &mut reader);
                "[[stud]], [[class]], [[shock]] and [[number]] rows"
            }
            ("", "test-sheet.toml") => {
                self.list("number", &mut numbers, &mut reader);
                "[[number]] rows"
            }
            ("", "workshop.toml") => {
                let workshop = &mut catalogue.workshop;
                self.list("colour", &mut workshop.colours, &mut reader);
                self.list("lug", &mut workshop.lugs, &mut reader);
                self.list("post", &mut workshop.posts, &mut reader);
                self.list("pin", &mut workshop.pins, &mut reader);
                self.list("sleeve", &mut workshop.sleeves, &mut reader);
                self.list("sale", &mut workshop.sales, &mut reader);
                self.list("number", &mut numbers, &mut reader);
                "[[colour]], [[lug]], [[post]], [[pin]], [[sleeve]], [[sale]] and [[number]] rows"
            }
            ("", "devices.toml") => {
                let devices = &mut catalogue.devices;
                replace(&mut devices.chargers, reader.part("chargers"));
                replace(&mut devices.mains_chargers, reader.part("mains_chargers"));
                replace(&mut devices.cut_offs, reader.part("cut_offs"));
                "[chargers], [mains_chargers] and [cut_offs]"
            }
            ("", "ampacity.toml") => {
                replace(&mut catalogue.ampacity, reader.whole());
                "one ampacity table"
            }
            _ => {
                reader.add(None, format!("no profile has this name; the names are {FILE_NAMES}"));
                (self.catalogue, self.numbers) = (catalogue, numbers);
                self.errors.extend(reader.finish("").into_iter().take(1));
                return;
            }
        };
        (self.catalogue, self.numbers) = (catalogue, numbers);
        self.errors.extend(reader.finish(known));
    }

    fn list<T: Row>(&mut self, list: &'static str, into: &mut Vec<T>, reader: &mut Reader<'_>) {
        let found = reader.rows(list);
        self.join(list, found, into, reader);
    }

    /// Put rows in: the same key of an earlier layer is replaced, of this one refused.
    fn join<T: Row>(&mut self, kind: &'static str, found: Vec<Found<T>>, into: &mut Vec<T>, reader: &mut Reader<'_>) {
        for Found { row, at } in found {
            let key = row.key();
            let id = (kind, key.clone());
            if self.seen.contains(&id) {
                let name = T::KEY;
                reader.add(Some(at), format!("{kind} with {name} “{key}” is there twice; rename or remove one"));
                continue;
            }
            self.seen.push(id);
            match into.iter_mut().find(|old| old.key() == key) {
                Some(old) => *old = row,
                None => into.push(row),
            }
        }
    }
}

fn replace<T>(old: &mut T, new: Option<Found<T>>) {
    if let Some(found) = new {
        *old = found.row;
    }
}

const FILE_NAMES: &str = "chemistries/*.toml, fuse-links/*.toml, conductors/*.toml, insulation.toml, ampacity.toml, \
    trade-labels.toml, places.toml, loads.toml, devices.toml, carrier.toml, test-sheet.toml, workshop.toml, \
    regions.toml and rules.toml";
