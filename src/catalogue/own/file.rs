//! The profile file that says what a data sheet says.

use super::asked::Given;
use super::kind::OwnKind;
use crate::catalogue::load::{Layer, embedded_text};
use std::collections::BTreeMap;
use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, Value, value};

/// A file for the user's folder of profiles.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnFile {
    /// Within the folder, with forward slashes: `fuse-links/my-bolt.toml`.
    pub name: String,
    /// The key of the row: what a plan calls it.
    pub key: String,
    /// What it says.
    pub text: String,
}

impl Layer {
    /// Its rows: the key of each, and the file in which it stands.
    pub fn own_files(&self) -> Vec<OwnFile> {
        self.files.iter().flat_map(|(name, text)| keys(text).into_iter().map(|key| own(name, key, text))).collect()
    }
}

fn own(name: &str, key: String, text: &str) -> OwnFile {
    OwnFile { name: name.into(), key, text: text.into() }
}

/// The keys of the rows in a file: its own, or that of each row in its lists.
fn keys(text: &str) -> Vec<String> {
    let Ok(file) = text.parse::<DocumentMut>() else { return Vec::new() };
    let key_of = |row: &Table| {
        let named = ["key", "label", "name"].into_iter().find_map(|key| row.get(key)?.as_str());
        let priced = || ["chemistry", "part"].into_iter().find_map(|key| row.get(key)?.as_str());
        named.map(str::to_string).or_else(|| Some(format!("price of {}", priced()?)))
    };
    if let Some(key) = key_of(file.as_table()) {
        return vec![key];
    }
    let lists = file.as_table().iter().filter_map(|(_, item)| item.as_array_of_tables());
    lists.flat_map(|rows| rows.iter().filter_map(key_of)).collect()
}

/// The answers by their keys.
type Answers = BTreeMap<&'static str, Given>;

/// Write the file of a row.
///
/// # Errors
/// Why there is none: the name has no letter, or is that of a row of the program.
pub fn own_file(kind: OwnKind, answers: &Answers) -> Result<OwnFile, String> {
    let sheet = Sheet { answers };
    let title = sheet.words("name").unwrap_or_default();
    let slug = slug(title);
    if slug.is_empty() {
        return Err("the name needs a letter or a number".into());
    }
    let name = format!("{}/{slug}.toml", kind.folder());
    if embedded_text(&name).is_some() {
        return Err(format!("`{slug}` is a row of the program; give yours another name"));
    }
    let text = match kind {
        OwnKind::Battery => battery(&sheet, title, &slug),
        OwnKind::Charger => charger(&sheet, title, &slug),
        OwnKind::Fuse => fuse(&sheet, title, &slug),
        OwnKind::Cable => cable(&sheet, title),
    };
    // A cable is asked for by its label, as it is printed.
    let key = if kind == OwnKind::Cable { title.to_string() } else { slug };
    let text = text.ok_or("there is no such kind to take the rest from")?;
    Ok(OwnFile { name, key, text })
}

/// Letters and digits of a name, small, with hyphens between.
fn slug(name: &str) -> String {
    let kept = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let all: String = name.chars().map(kept).collect();
    all.split('-').filter(|word| !word.is_empty()).collect::<Vec<_>>().join("-")
}

/// What the sheet says.
struct Sheet<'a> {
    answers: &'a Answers,
}

impl Sheet<'_> {
    fn words(&self, key: &str) -> Option<&str> {
        match self.answers.get(key) {
            Some(Given::Words(words)) => Some(words),
            _ => None,
        }
    }

    fn number(&self, key: &str) -> Option<f64> {
        match self.answers.get(key) {
            Some(Given::Number(n)) => Some(*n),
            _ => None,
        }
    }

    /// Where its values come from: the sheet, entered by the user.
    fn source(&self) -> &str {
        self.words("sheet").unwrap_or("data sheet")
    }

    /// The source of some values of a row.
    fn states(&self, keys: &[&str]) -> InlineTable {
        let mut stated = InlineTable::new();
        stated.insert("of", Value::Array(keys.iter().copied().collect::<Array>()));
        stated.insert("how", "user".into());
        stated.insert("source", self.source().into());
        stated
    }

    /// Put a value of the sheet into a row in place of the one that is there, with its source.
    fn put(&self, row: &mut Table, key: &str, new: impl Into<Value>) {
        row.insert(key, value(new));
        let mut sources = match row.get("sources").and_then(Item::as_array) {
            Some(sources) => sources.clone(),
            None => Array::new(),
        };
        let mut kept = Array::new();
        for stated in sources.iter_mut() {
            let Some(inner) = stated.as_inline_table_mut() else { continue };
            if let Some(of) = inner.get_mut("of").and_then(Value::as_array_mut) {
                of.retain(|name| name.as_str() != Some(key));
                if !of.is_empty() {
                    kept.push(inner.clone());
                }
            }
        }
        kept.push(self.states(&[key]));
        row.insert("sources", value(kept));
    }
}

/// A built-in file to change.
fn base(folder: &str, key: &str) -> Option<DocumentMut> {
    embedded_text(&format!("{folder}/{key}.toml"))?.parse().ok()
}

/// A built-in battery being changed into one of one's own.
struct Block<'a> {
    sheet: &'a Sheet<'a>,
    file: DocumentMut,
    capacity: f64,
}

fn battery(sheet: &Sheet<'_>, title: &str, slug: &str) -> Option<String> {
    let mut file = base("chemistries", sheet.words("base")?)?;
    let kind = file.get("name")?.as_str()?.to_string();
    file.insert("key", value(slug));
    file.insert("name", value(title));
    file.insert("about", value(format!("Yours, from its data sheet; what that does not say is that of {kind}.")));
    let mut block = Block { sheet, file, capacity: sheet.number("capacity_ah")? };
    block.set("blocks", "sizes_ah", Array::from_iter([block.capacity]));
    if let Some(mass) = sheet.number("mass_kg") {
        block.set("blocks", "kg_per_100ah", mass * 100.0 / block.capacity);
    }
    block.resistance();
    block.voltages();
    block.currents();
    if let Some(coldest) = sheet.number("charge_min_c") {
        block.set("limits", "charge_min_c", coldest);
        block.at_least("limits", "charge_max_c", coldest);
    }
    Some(block.file.to_string())
}

impl Block<'_> {
    fn number(&self, part: &str, key: &str) -> Option<f64> {
        number(self.file.get(part)?.get(key)?)
    }

    fn set(&mut self, part: &str, key: &str, new: impl Into<Value>) {
        if let Some(row) = self.file.get_mut(part).and_then(Item::as_table_mut) {
            self.sheet.put(row, key, new);
        }
    }

    /// What the sheet says elsewhere leaves this value no lower.
    fn at_least(&mut self, part: &str, key: &str, least: f64) {
        if self.number(part, key).is_some_and(|n| n < least) {
            self.set(part, key, least);
        }
    }

    /// Nor this one higher.
    fn at_most(&mut self, part: &str, key: &str, most: f64) {
        if self.number(part, key).is_some_and(|n| n > most) {
            self.set(part, key, most);
        }
    }

    /// A sheet gives it at 1 kHz, which leaves out what a steady load meets: it makes a drop no smaller, and a short
    /// circuit no weaker, than the usual values do.
    fn resistance(&mut self) {
        let Some(own) = self.sheet.number("resistance_mohm") else { return };
        let of_100 = own * self.capacity / 100.0;
        self.at_least("resistance", "working_mohm", of_100);
        self.at_most("resistance", "fault_mohm", of_100);
        self.at_most("resistance", "likely_mohm", of_100);
    }

    fn voltages(&mut self) {
        if let Some(volts) = self.sheet.number("charge_v") {
            self.set("charge", "absorption_v", volts);
            self.at_least("charge", "max_v", volts);
            self.at_most("charge", "float_v", volts);
        }
        if let Some(volts) = self.sheet.number("float_v") {
            self.set("charge", "float_v", volts);
        }
    }

    fn currents(&mut self) {
        let rate = |key| Some(self.sheet.number(key)? / self.capacity);
        let (takes, gives, short) = (rate("takes_a"), rate("gives_a"), rate("gives_short_a"));
        if let Some(rate) = takes {
            self.set("charge", "max_c", rate);
            self.at_most("charge", "min_c", rate);
            self.at_most("charge", "tail_c", rate);
        }
        if let Some(rate) = gives {
            self.set("rate", "max_c", rate);
        }
        // For a moment it gives no less than for long, and no more than the sheet says.
        if let Some(rate) = short.or(gives) {
            let long = self.number("rate", "max_c").unwrap_or(rate);
            self.set("rate", "max_short_c", rate.max(long));
        }
    }
}

/// A number, whole or not.
fn number(item: &Item) -> Option<f64> {
    item.as_float().or_else(|| item.as_integer().map(|n| n as f64))
}

fn fuse(sheet: &Sheet<'_>, title: &str, slug: &str) -> Option<String> {
    let mut file = base("fuse-links", sheet.words("base")?)?;
    let (rated, breaks) = (sheet.number("rated_v")?, sheet.number("breaks_a")?);
    let Given::Numbers(ratings) = sheet.answers.get("ratings_a")? else { return None };
    let row = file.as_table_mut();
    row.insert("key", value(slug));
    row.insert("name", value(title));
    // Yours changes no other plan: it is chosen where a plan names it.
    row.insert("only_asked", value(true));
    sheet.put(row, "ratings_a", ratings.iter().copied().collect::<Array>());
    sheet.put(row, "rated_v", rated);
    if let Some(drop) = sheet.number("drop_at_rating_v") {
        sheet.put(row, "drop_at_rating_v", drop);
        let cold = row.get("cold_v").and_then(number);
        if cold.is_some_and(|cold| cold > drop) {
            sheet.put(row, "cold_v", drop);
        }
    }
    let mut breaking = Table::new();
    breaking.insert("at_v", value(rated));
    breaking.insert("amps", value(breaks));
    breaking.insert("how", value("user"));
    breaking.insert("source", value(sheet.source()));
    let mut all = ArrayOfTables::new();
    all.push(breaking);
    row.insert("breaking", Item::ArrayOfTables(all));
    Some(file.to_string())
}

/// A row of which every value is the sheet's own: those that are there.
fn all_own(sheet: &Sheet<'_>, keys: &[&str]) -> Table {
    let mut row = Table::new();
    for key in keys {
        if let Some(n) = sheet.number(key) {
            row.insert(key, value(n));
        }
    }
    row.insert("how", value("user"));
    row.insert("source", value(sheet.source()));
    row
}

fn charger(sheet: &Sheet<'_>, title: &str, slug: &str) -> Option<String> {
    let mut file = DocumentMut::new();
    file.insert("key", value(slug));
    file.insert("name", value(title));
    file.insert("kind", value(sheet.words("kind")?));
    let keys = ["output_a", "charge_v", "efficiency", "lowest_input_v", "input_a", "standing_draw_a"];
    for (key, item) in all_own(sheet, &keys) {
        file.insert(&key, item);
    }
    Some(file.to_string())
}

fn cable(sheet: &Sheet<'_>, title: &str) -> Option<String> {
    let mut row = Table::new();
    row.insert("label", value(title));
    row.insert("family", value(sheet.words("family")?));
    for (key, item) in all_own(sheet, &["area_mm2", "ohm_per_km_20c", "outside_mm", "carries_a"]) {
        row.insert(&key, item);
    }
    let mut all = ArrayOfTables::new();
    all.push(row);
    let mut file = DocumentMut::new();
    file.insert("conductor", Item::ArrayOfTables(all));
    Some(file.to_string())
}
