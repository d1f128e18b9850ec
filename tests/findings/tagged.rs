//! The profiles with every source replaced by the name of its value: `agm.charge.max_v` comes from `<agm.charge.max_v>`.

use loomwright::catalogue::{Catalogue, Layer};
use std::collections::HashSet;
use std::path::{Path, PathBuf};
use toml::{Table, Value};

/// A step on the way to a value in a file.
#[derive(Clone, Debug)]
enum Step {
    Key(String),
    Index(usize),
}

/// A value: its name, its file, and where it stands there.
struct Tagged {
    name: String,
    file: usize,
    path: Vec<Step>,
}

/// All profiles with names for sources.
pub struct Profiles {
    files: Vec<(String, Table)>,
    tagged: Vec<Tagged>,
}

/// The names in a text, without their brackets.
pub fn names_in(text: &str) -> Vec<&str> {
    text.split('<').skip(1).filter_map(|rest| rest.split_once('>')).map(|(name, _)| name).collect()
}

impl Profiles {
    /// As if each value had been come by so: `opened`, `memory`.
    pub fn read(how: &'static str) -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
        let embedded = Catalogue::embedded().unwrap();
        let keys: HashSet<&str> = embedded.values().iter().map(|v| v.value.key).collect();
        let mut all = Profiles { files: Vec::new(), tagged: Vec::new() };
        for path in files(&folder) {
            let name = path.strip_prefix(&folder).unwrap().to_str().unwrap().to_string();
            let mut table: Table = std::fs::read_to_string(&path).unwrap().parse().unwrap();
            let mut tagging = Tagging { how, keys: &keys, file: all.files.len(), found: Vec::new() };
            tagging.table(&mut table, path.file_stem().unwrap().to_str().unwrap(), &[]);
            all.tagged.extend(tagging.found);
            all.files.push((name, table));
        }
        all
    }

    pub fn catalogue(&self) -> Catalogue {
        catalogue(&self.files).unwrap()
    }

    /// The catalogue with some values times a factor; `None` where it would not be believed.
    pub fn with(&self, names: &[&str], times: f64) -> Option<Catalogue> {
        let mut files = self.files.clone();
        for tagged in self.tagged.iter().filter(|t| names.contains(&t.name.as_str())) {
            let (first, rest) = tagged.path.split_first().unwrap();
            let Step::Key(first) = first else { panic!("{}: a file is a table", tagged.name) };
            let value = rest.iter().fold(&mut files[tagged.file].1[first.as_str()], |value, step| match step {
                Step::Key(key) => &mut value[key.as_str()],
                Step::Index(index) => &mut value[*index],
            });
            scale(value, times);
        }
        catalogue(&files)
    }

    /// Whether there is a value of this name.
    pub fn knows(&self, name: &str) -> bool {
        self.tagged.iter().any(|t| t.name == name)
    }
}

fn catalogue(files: &[(String, Table)]) -> Option<Catalogue> {
    let files = files.iter().map(|(name, table)| (name.clone(), table.to_string())).collect();
    Catalogue::with_layers(&[Layer { origin: "tagged".into(), files }]).ok()
}

/// The profiles of a folder and its subfolders, the example plans left out.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() && !path.ends_with("plans") {
            all.extend(files(&path));
        } else if path.extension().is_some_and(|e| e == "toml") {
            all.push(path);
        }
    }
    all.sort();
    all
}

struct Tagging<'k> {
    how: &'static str,
    keys: &'k HashSet<&'k str>,
    file: usize,
    found: Vec<Tagged>,
}

impl Tagging<'_> {
    /// A table and those within it. `name`: what it is called, its own key left out.
    fn table(&mut self, table: &mut Table, name: &str, path: &[Step]) {
        let own = ["key", "label", "name"].into_iter().find_map(|k| table.get(k)?.as_str().map(str::to_string));
        let name = &own.unwrap_or_else(|| name.to_string());
        let step = |more: &[Step]| path.iter().chain(more).cloned().collect::<Vec<_>>();
        if table.contains_key("how") {
            self.sources(table, name, &step(&[]));
        }
        for (key, value) in table.iter_mut().filter(|(key, _)| *key != "sources") {
            match value {
                Value::Table(inner) => self.table(inner, &format!("{name}.{key}"), &step(&[Step::Key(key.clone())])),
                Value::Array(rows) => {
                    for (index, row) in rows.iter_mut().enumerate() {
                        if let Value::Table(inner) = row {
                            let path = step(&[Step::Key(key.clone()), Step::Index(index)]);
                            self.table(inner, &format!("{name}.{key}"), &path);
                        }
                    }
                }
                _ => {}
            }
        }
    }

    /// Replace the sources of one row.
    fn sources(&mut self, table: &mut Table, name: &str, path: &[Step]) {
        let source = |name: &str| Value::String(format!("<{name}>"));
        table.remove("note");
        table.insert("how".into(), self.how.into());
        table.insert("source".into(), source(name));
        let mut add = |name: String, key: &str| {
            let path = path.iter().cloned().chain([Step::Key(key.into())]).collect();
            self.found.push(Tagged { name, file: self.file, path });
        };
        // A named number is its row.
        if table.contains_key("value") && table.contains_key("about") {
            return add(name.into(), "value");
        }
        let values: Vec<String> = table.keys().filter(|k| self.keys.contains(k.as_str())).cloned().collect();
        let each = values.iter().map(|key| {
            let name = format!("{name}.{key}");
            add(name.clone(), key);
            let mut row = Table::new();
            row.insert("of".into(), Value::Array(vec![key.as_str().into()]));
            row.insert("how".into(), self.how.into());
            row.insert("source".into(), source(&name));
            Value::Table(row)
        });
        let each = each.collect();
        table.insert("sources".into(), Value::Array(each));
    }
}

/// A number times a factor (a zero as if it were one), so each of a list or table and the second of each pair of a
/// curve; words get a letter more.
fn scale(value: &mut Value, times: f64) {
    match value {
        Value::Float(number) if *number == 0.0 => *number = times - 1.0,
        Value::Float(number) => *number *= times,
        Value::Integer(0) => *value = Value::Float(times - 1.0),
        Value::Integer(number) => {
            let scaled = *number as f64 * times;
            *value = if scaled.fract() == 0.0 { Value::Integer(scaled as i64) } else { Value::Float(scaled) };
        }
        Value::String(words) => words.push('x'),
        Value::Array(all) => all.iter_mut().for_each(|each| match each {
            Value::Array(pair) if pair.len() == 2 => scale(&mut pair[1], times),
            each => scale(each, times),
        }),
        Value::Table(all) => {
            for (_, each) in all.iter_mut().filter(|(key, _)| *key != "of_rating" && *key != "awg") {
                match each.as_float().or(each.as_integer().map(|i| i as f64)) {
                    Some(0.0) => *each = Value::Float(((times - 1.0) * 0.01).max(0.0)),
                    _ => scale(each, times),
                }
            }
        }
        _ => {}
    }
}
