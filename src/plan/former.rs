//! How did earlier formats say it, and how is such a plan written today?
//!
//! Format 2 came with boards. It calls what holds the battery `[hold_down]`,
//! which was `[carrier]`, and its rods `rods` and `rod`. A plan of format 1 is
//! read, edited and kept in its own words; [`modern`] gives the same plan in
//! today's, with what was changed.

use super::choice::FORMER;
use super::section::Section;
use toml_edit::{DocumentMut, Item, Key, Table, TableLike};

/// The format this program writes.
pub const FORMAT: i64 = 2;
/// The oldest format it reads.
const OLDEST: i64 = 1;

/// Tables that were called otherwise until format 1: what they were called, what they are called now.
const TABLES: &[(Section, &str)] = &[(Section::HoldDown, "carrier")];
/// Keys that were called otherwise until format 1: their table, what they are called now, what they were called.
const KEYS: &[(Section, &str, &str)] =
    &[(Section::HoldDown, "rods", "hold_down_rods"), (Section::HoldDown, "rod", "hold_down")];

/// How a text of some format names tables and keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Names {
    format: i64,
}

impl Names {
    /// Of a format; `None` where this program does not know it.
    pub fn of(format: i64) -> Option<Names> {
        (OLDEST..=FORMAT).contains(&format).then_some(Names { format })
    }

    /// Of a parsed text; today's where it does not say.
    pub fn in_document(doc: &DocumentMut) -> Names {
        doc.get("format").and_then(Item::as_integer).and_then(Names::of).unwrap_or(Names { format: FORMAT })
    }

    /// Name of a table.
    pub fn table(self, section: Section) -> &'static str {
        let former = TABLES.iter().find(|(s, _)| self.format < FORMAT && *s == section);
        former.map_or(section.key(), |(_, name)| name)
    }

    /// The table of a name.
    pub fn section(self, name: &str) -> Option<Section> {
        Section::ALL.iter().copied().find(|s| self.table(*s) == name && *s != Section::Job)
    }

    /// A key as it is called now.
    pub fn now(self, section: Section, key: &str) -> &str {
        let former = KEYS.iter().find(|(s, _, old)| self.format < FORMAT && *s == section && *old == key);
        former.map_or(key, |(_, now, _)| now)
    }

    /// A key as this format calls it.
    pub fn key(self, section: Section, key: &'static str) -> &'static str {
        let former = KEYS.iter().find(|(s, now, _)| self.format < FORMAT && *s == section && *now == key);
        former.map_or(key, |(_, _, old)| old)
    }
}

/// What a table or key that is known no more is called now.
pub(super) fn renamed(section: Section, name: &str) -> Option<&'static str> {
    let table = || TABLES.iter().find(|(_, old)| *old == name).map(|(s, _)| s.key());
    let key = KEYS.iter().find(|(s, _, old)| *s == section && *old == name).map(|(_, now, _)| *now);
    if section == Section::Job { table() } else { key }
}

/// A plan's text in the words of today, and what was changed in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Modern {
    /// The text: comments and order as they were.
    pub text: String,
    /// One line for each change.
    pub changes: Vec<String>,
}

/// A text of an earlier format in the words of today; `None` where it is of today's format or cannot be read.
pub fn modern(text: &str) -> Option<Modern> {
    let mut doc: DocumentMut = text.parse().ok()?;
    let from = doc.get("format").and_then(Item::as_integer)?;
    let names = Names::of(from).filter(|_| from < FORMAT)?;
    let mut changes = vec![format!("`format = {from}` is now `format = {FORMAT}`")];
    replace(doc.get_mut("format")?, toml_edit::Value::from(FORMAT));
    for (section, old) in TABLES {
        if rename(doc.as_table_mut(), old, section.key()) {
            changes.push(format!("`[{old}]` is now `[{}]`", section.key()));
        }
    }
    for (section, now, _) in KEYS {
        let (old, table) = (names.key(*section, now), doc.get_mut(section.key()).and_then(Item::as_table_like_mut));
        if table.is_some_and(|t| rename(t, old, now)) {
            changes.push(format!("`{old}` is now `{now}`"));
        }
    }
    let locking = doc.get_mut(Section::HoldDown.key()).and_then(|t| t.get_mut("locking"));
    let word = locking.as_ref().and_then(|l| l.as_str()).and_then(|w| FORMER.iter().find(|(old, _)| *old == w));
    if let (Some((old, now)), Some(item)) = (word.copied(), locking) {
        replace(item, toml_edit::Value::from(now));
        changes.push(format!("`{old}` is now `{now}`"));
    }
    Some(Modern { text: doc.to_string(), changes })
}

/// Another value, with the comment behind it as it was.
fn replace(item: &mut Item, mut value: toml_edit::Value) {
    if let Some(old) = item.as_value() {
        *value.decor_mut() = old.decor().clone();
    }
    *item = Item::Value(value);
}

/// Give a key another name in its old place, with the comments around it; whether it was there.
fn rename(table: &mut dyn TableLike, old: &str, new: &str) -> bool {
    if !table.contains_key(old) || table.contains_key(new) {
        return false;
    }
    let mut kept: Vec<(Key, Item)> = Vec::new();
    let names: Vec<String> = table.iter().map(|(name, _)| name.to_string()).collect();
    for name in names {
        let Some(key) = table.key(&name).cloned() else { continue };
        let Some(item) = table.remove(&name) else { continue };
        let key = if name == old {
            Key::new(new).with_leaf_decor(key.leaf_decor().clone()).with_dotted_decor(key.dotted_decor().clone())
        } else {
            key
        };
        kept.push((key, item));
    }
    for (key, item) in kept {
        if let toml_edit::Entry::Vacant(entry) = table.entry_format(&key) {
            entry.insert(item);
        }
    }
    true
}

/// The format a text says it has.
pub(super) fn format_of(text: &[u8]) -> Option<i64> {
    let doc: Table = std::str::from_utf8(text).ok()?.parse::<DocumentMut>().ok()?.into_table();
    doc.get("format").and_then(Item::as_integer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::plan::read;

    const OLD: &str = "# mine\nformat = 1 # first\n\n[service_battery]\nchemistry = \"agm\"\n\n# steel\n[carrier] # under the deck\nstyle = \"tray\"\n# two of them\nhold_down_rods = 3 # long\nlocking = \"nyloc\"\n\n[solar]\narray_w = 0\n";
    const NEW: &str = "# mine\nformat = 2 # first\n\n[service_battery]\nchemistry = \"agm\"\n\n# steel\n[hold_down] # under the deck\nstyle = \"tray\"\n# two of them\nrods = 3 # long\nlocking = \"nylon-insert\"\n\n[solar]\narray_w = 0\n";

    #[test]
    fn a_plan_of_format_1_is_written_in_todays_words() {
        let modern = modern(OLD).unwrap();
        assert_eq!(modern.text, NEW);
        assert_eq!(
            modern.changes,
            [
                "`format = 1` is now `format = 2`",
                "`[carrier]` is now `[hold_down]`",
                "`hold_down_rods` is now `rods`",
                "`nyloc` is now `nylon-insert`"
            ]
        );
        assert_eq!(super::modern(NEW), None);
    }

    #[test]
    fn both_are_the_same_plan() {
        let catalogue = Catalogue::embedded().unwrap();
        let [old, new] = [OLD, NEW].map(|text| read(text, &catalogue));
        assert_eq!((&old.problems, &new.problems), (&Vec::new(), &Vec::new()));
        assert_eq!(old.plan, new.plan);
        assert_eq!(new.plan.hold_down.rods, 3);
    }

    /// However a table is written.
    #[test]
    fn inline_and_dotted_tables_are_renamed_too() {
        for old in [
            "format = 1\ncarrier = { style = \"tray\", hold_down_rods = 3 }\n",
            "format = 1\ncarrier.style = \"tray\"\ncarrier.hold_down_rods = 3\n",
        ] {
            let new = old.replace("format = 1", "format = 2").replace("carrier", "hold_down");
            assert_eq!(modern(old).unwrap().text, new.replace("hold_down_rods", "rods"));
        }
    }
}
