//! Reading a plan: every problem at once, each with its place and a remedy.
//!
//! Two steps. Syntax first (`toml`, which recovers and goes on); when it is
//! broken only its first few problems are reported, because the rest are
//! echoes. A key that is there twice is no broken syntax: it is reported beside
//! everything else. Then a walk over every key, against the table of fields.

use super::field::{Absent, Field, Kind, small};
use super::fields::fields_of;
use super::former::{FORMAT, Names, renamed};
use super::load::Load;
use super::model::Plan;
use super::months::Months;
use super::problem::{Lines, Problem, nearest};
use super::run::Run;
use super::section::{Place, Section};
use super::text::shorten;
use super::value::Value;
use super::weekdays::Weekdays;
use super::windows::Windows;
use crate::catalogue::Catalogue;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Larger files are refused unread: a plan of 1,000 runs has 200 kB.
pub const LONGEST_FILE: usize = 2_000_000;

/// What reading gave: a plan, and everything that is wrong with the text.
#[derive(Clone, Debug, Default)]
pub struct Read {
    /// The plan; where there are problems, those fields have their defaults.
    pub plan: Plan,
    /// All problems; a plan with any should not be built from.
    pub problems: Vec<Problem>,
    /// Where each key that was given stands.
    pub given: BTreeMap<Place, Range<usize>>,
    /// Where each item of a list begins.
    pub items: BTreeMap<(Section, usize), Range<usize>>,
}

/// Read the bytes of a file.
pub fn read_bytes(bytes: &[u8], catalogue: &Catalogue) -> Read {
    if bytes.len() > LONGEST_FILE {
        let what = format!("the file has {:.1} MB, which is no plan", bytes.len() as f64 / 1e6);
        return Read::broken(Problem::whole(what, "a plan has at most 2 MB; is this the right file?"));
    }
    match std::str::from_utf8(bytes) {
        Ok(text) if !text.contains('\0') => read(text, catalogue),
        _ => Read::broken(Problem::whole(
            "the file is not text",
            format!("a plan is a TOML file in UTF-8 that begins with `format = {FORMAT}`; is this the right file?"),
        )),
    }
}

/// Read the text of a plan.
pub fn read(text: &str, catalogue: &Catalogue) -> Read {
    if text.trim().is_empty() {
        return Read::broken(Problem::whole(
            "the file is empty",
            format!(
                "a plan begins with `format = {FORMAT}`; run the program without a file name to start from an example"
            ),
        ));
    }
    let (root, errors) = DeTable::parse_recoverable(text);
    if !are_doubled(text, &errors) {
        return syntax(text, &errors);
    }
    let Some(names) = Names::of(FORMAT) else { return Read::default() };
    let mut walk =
        Walk { text, lines: Lines::of(text), catalogue, names, refused: BTreeSet::new(), out: Read::default() };
    for error in &errors {
        walk.out.problems.push(doubled(text, &walk.lines, error));
    }
    walk.root(root.get_ref());
    let mut out = walk.out;
    out.problems.sort_by_key(|p| (p.line, p.column));
    out
}

impl Read {
    fn broken(problem: Problem) -> Read {
        Read { problems: vec![problem], ..Read::default() }
    }
}

fn syntax(text: &str, errors: &[toml::de::Error]) -> Read {
    let lines = Lines::of(text);
    let problem = |e: &toml::de::Error| {
        let span = e.span().unwrap_or(0..0);
        let what = format!("this is not TOML: {}", e.message().lines().next().unwrap_or("syntax error"));
        Problem::at(&lines, span, what, String::new(), "check quotes, brackets and the `=` on this line".into())
    };
    Read { problems: errors.iter().take(3).map(problem).collect(), ..Read::default() }
}

/// Whether the text is TOML but for names that are there twice: with other names in their places nothing is wrong.
fn are_doubled(text: &str, errors: &[toml::de::Error]) -> bool {
    let mut spans: Vec<Range<usize>> = errors.iter().filter_map(toml::de::Error::span).collect();
    if errors.is_empty() || spans.len() < errors.len() {
        return errors.is_empty();
    }
    spans.sort_by_key(|span| span.start);
    let (mut renamed, mut done) = (String::with_capacity(text.len() + 16 * spans.len()), 0);
    for (n, span) in spans.into_iter().enumerate() {
        let (Some(before), Some(name)) = (text.get(done..span.start), text.get(span.clone())) else { return false };
        let is_bare = !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || c == '_' || c == '-');
        if !is_bare && !name.starts_with(['"', '\'']) {
            return false;
        }
        renamed += before;
        renamed += &format!("name-that-is-free-{n}");
        done = span.end;
    }
    renamed += text.get(done..).unwrap_or_default();
    DeTable::parse_recoverable(&renamed).1.is_empty()
}

fn doubled(text: &str, lines: &Lines, error: &toml::de::Error) -> Problem {
    let span = error.span().unwrap_or(0..0);
    let name = text.get(span.clone()).unwrap_or_default();
    let line = lines.spot(span.start).line;
    let help = match earlier(text, line, name) {
        Some(first) => format!("it stands on line {first} already; remove one of the two"),
        None => "remove one of the two".into(),
    };
    Problem::at(lines, span, format!("`{}` is given twice", shorten(name)), String::new(), help)
}

/// The line before this one on which the same key of the same table, or the same table, stands.
fn earlier(text: &str, line: usize, name: &str) -> Option<usize> {
    let lines: Vec<&str> = text.lines().take(line).map(str::trim).collect();
    let (this, before) = lines.split_last()?;
    let heads = |l: &str| l.starts_with('[');
    let found = if heads(this) {
        before.iter().rposition(|l| heads(l) && l.trim_matches(['[', ']']) == this.trim_matches(['[', ']']))
    } else {
        let table = before.iter().rposition(|l| heads(l)).map_or(0, |n| n + 1);
        let same = |l: &&str| l.strip_prefix(name).is_some_and(|rest| rest.trim_start().starts_with(['=', '.']));
        before.iter().skip(table).position(same).map(|n| n + table)
    };
    found.map(|n| n + 1)
}

struct Walk<'a> {
    text: &'a str,
    lines: Lines<'a>,
    catalogue: &'a Catalogue,
    /// How its format names things.
    names: Names,
    /// Fields that were given with a value that was not taken.
    refused: BTreeSet<Place>,
    out: Read,
}

impl Walk<'_> {
    fn report(&mut self, span: Range<usize>, what: String, label: String, help: String) {
        self.out.problems.push(Problem::at(&self.lines, span, what, label, help));
    }

    fn root(&mut self, root: &DeTable<'_>) {
        if !self.format(root) {
            return;
        }
        for (key, value) in root.iter() {
            let name = key.get_ref().as_ref();
            match (self.names.section(name), value.get_ref()) {
                (Some(section), DeValue::Array(items)) if section.is_list() => {
                    for item in items.iter() {
                        self.item(section, item);
                    }
                }
                (Some(section), DeValue::Table(_)) if section.is_list() => self.report(
                    key.span(),
                    format!("`[{name}]` must be a list"),
                    format!("[[{name}]]"),
                    format!("write `[[{name}]]` with double brackets, once for each {name}"),
                ),
                (Some(section), DeValue::Table(table)) => {
                    self.keys(section, 0, table, "");
                    self.missing(section, 0, key.span());
                }
                (Some(_), _) => self.report(
                    value.span(),
                    format!("`{name}` must be a table"),
                    format!("[{name}]"),
                    format!("write `[{name}]` on a line of its own and its keys under it"),
                ),
                (None, _) if name == "format" => {}
                (None, _) => self.one_key(Section::Job, 0, "", key, value),
            }
        }
        if !root.iter().any(|(k, _)| k.get_ref() == Section::ServiceBattery.key()) {
            self.missing(Section::ServiceBattery, 0, 0..0);
        }
        self.duplicates();
        self.numbers();
    }

    /// Whether the format is ours; a newer one is refused with nothing else said.
    fn format(&mut self, root: &DeTable<'_>) -> bool {
        let Some((_, value)) = root.iter().find(|(k, _)| k.get_ref() == "format") else {
            self.wrong_format(
                0..0,
                "`format` is missing".into(),
                format!("write `format = {FORMAT}` on the first line"),
            );
            return true;
        };
        let number = match value.get_ref() {
            DeValue::Integer(n) => i64::from_str_radix(n.as_str(), n.radix()).ok(),
            _ => None,
        };
        match number {
            Some(n) if n > FORMAT => {
                let what = format!("this plan has format {n}, which is newer than this program");
                let help = "get a newer version of the program; the file was not changed";
                self.wrong_format(value.span(), what, help.into());
                false
            }
            n => match n.and_then(Names::of) {
                Some(names) => {
                    self.names = names;
                    true
                }
                None => {
                    let what = "`format` is not a format this program knows".into();
                    self.wrong_format(value.span(), what, format!("write `format = {FORMAT}`"));
                    false
                }
            },
        }
    }

    fn wrong_format(&mut self, span: Range<usize>, what: String, help: String) {
        self.report(span, what, FORMAT.to_string(), help);
    }

    fn item(&mut self, section: Section, item: &Spanned<DeValue<'_>>) {
        let DeValue::Table(table) = item.get_ref() else {
            let name = section.key();
            return self.report(
                item.span(),
                format!("each `{name}` must be a table"),
                format!("[[{name}]]"),
                format!("write `[[{name}]]` on a line of its own and its keys under it"),
            );
        };
        let index = section.count(&self.out.plan);
        section.grow(&mut self.out.plan);
        self.out.items.insert((section, index), item.span());
        self.keys(section, index, table, "");
        self.missing(section, index, item.span());
    }

    fn keys(&mut self, section: Section, index: usize, table: &DeTable<'_>, prefix: &str) {
        for (key, value) in table.iter() {
            self.one_key(section, index, prefix, key, value);
        }
    }

    fn one_key(
        &mut self,
        section: Section,
        index: usize,
        prefix: &str,
        key: &Spanned<std::borrow::Cow<'_, str>>,
        value: &Spanned<DeValue<'_>>,
    ) {
        let own = self.names.now(section, key.get_ref());
        let path = if prefix.is_empty() { own.to_string() } else { format!("{prefix}.{own}") };
        if let DeValue::Table(table) = value.get_ref() {
            let inside = format!("{path}.");
            if fields_of(section).any(|f| f.key.starts_with(&inside)) {
                return self.keys(section, index, table, &path);
            }
        }
        if section == Section::Run && path == "size_mm2" {
            return self.size_as_number(index, value);
        }
        let inside = format!("{path}.");
        if let Some(first) = fields_of(section).find(|f| f.key.starts_with(&inside)) {
            let known = fields_of(section).filter_map(|f| f.key.strip_prefix(&inside)).collect::<Vec<_>>().join(", ");
            let what = format!("`{}` holds several values and wants braces", shorten(&path));
            let example = first.key.trim_start_matches(&inside);
            return self.report(
                value.span(),
                what,
                format!("{{ {example} = … }}"),
                format!("write `{path} = {{ {example} = … }}`; inside go {known}"),
            );
        }
        match fields_of(section).find(|f| f.key == path) {
            Some(field) => self.field(field, index, value),
            None => self.unknown(section, &path, key.span()),
        }
    }

    /// `size_mm2 = 25` is the same as `size = "25 mm2"`.
    fn size_as_number(&mut self, index: usize, value: &Spanned<DeValue<'_>>) {
        let Some(field) = fields_of(Section::Run).find(|f| f.key == "size") else { return };
        match number(value.get_ref()) {
            Some(n) => self.store(field, index, Value::Text(format!("{n} mm2")), value.span()),
            None => self.wrong_type(field, index, value, "a number of mm², such as 25"),
        }
    }

    fn field(&mut self, field: &'static Field, index: usize, value: &Spanned<DeValue<'_>>) {
        match value_of(field, value.get_ref()) {
            Ok(v) => self.store(field, index, v, value.span()),
            Err(Some(reason)) => {
                let accepted = field.accepted(self.catalogue);
                self.refuse(field, index, value.span(), format!("`{}`: {reason}", field.key), accepted);
            }
            Err(None) => self.wrong_type(field, index, value, &field.accepted(self.catalogue)),
        }
    }

    /// A value was given that the field does not take.
    fn refuse(&mut self, field: &Field, index: usize, span: Range<usize>, what: String, accepted: String) {
        self.refused.insert(field.place(index));
        self.report(span, what, accepted, help_for(field));
    }

    fn wrong_type(&mut self, field: &Field, index: usize, value: &Spanned<DeValue<'_>>, accepted: &str) {
        let found = value.get_ref().type_str();
        let article = if found.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
        let what = format!("`{}` is {article} {found} here", field.key);
        self.refuse(field, index, value.span(), what, accepted.to_string());
    }

    fn store(&mut self, field: &'static Field, index: usize, value: Value, span: Range<usize>) {
        let shown = self.text.get(span.clone()).unwrap_or_default().to_string();
        match field.accept(value, self.catalogue) {
            Ok(v) => {
                field.put(&mut self.out.plan, index, v);
                self.out.given.insert(field.place(index), span);
            }
            Err(reason) => {
                let reason = reason.explain(&field.words());
                let what = format!("`{} = {}`: {reason}", field.key, shorten(&shown));
                self.refuse(field, index, span, what, field.accepted(self.catalogue));
            }
        }
    }

    fn unknown(&mut self, section: Section, path: &str, span: Range<usize>) {
        let keys: Vec<&str> = if section == Section::Job {
            let tables = Section::ALL.iter().map(|s| s.key()).filter(|k| !k.is_empty());
            fields_of(section).map(|f| f.key).chain(tables).chain(["format"]).collect()
        } else {
            fields_of(section).map(|f| f.key).collect()
        };
        let place = if section == Section::Job { "a plan".to_string() } else { format!("`{}`", section.key()) };
        let what = format!("{place} has no key `{}`", shorten(path));
        let help = match (renamed(section, path), nearest(path, keys.iter().copied())) {
            (Some(now), _) => format!("it is called `{now}` since format {FORMAT}"),
            (None, Some(near)) => format!("did you mean `{near}`?"),
            (None, None) => format!("remove it; known keys: {}", keys.join(", ")),
        };
        self.report(span, what, String::new(), help);
    }

    fn missing(&mut self, section: Section, index: usize, span: Range<usize>) {
        for field in fields_of(section).filter(|f| f.absent == Absent::NotAllowed) {
            let place = field.place(index);
            if !self.out.given.contains_key(&place) && !self.refused.contains(&place) {
                let what = format!("{} has no `{}`", section.title().to_lowercase(), field.key);
                self.report(
                    span.clone(),
                    what,
                    field.accepted(self.catalogue),
                    format!("add `{} = …` ({})", field.key, field.help),
                );
            }
        }
    }

    /// Names are how findings, papers and readings speak of a load; two alike would be mixed up.
    fn duplicates(&mut self) {
        let mut seen = BTreeSet::new();
        let names: Vec<(usize, String)> = self.out.plan.loads.iter().map(|l| l.name.clone()).enumerate().collect();
        for (index, name) in names {
            if !name.is_empty() && !seen.insert(name.to_lowercase()) {
                let span = self.out.given.get(&Place::load(index, "name")).cloned().unwrap_or(0..0);
                let what = format!("two loads are called `{}`", shorten(&name));
                let help = format!("call this one `{} 2`, or use `count = 2` in one of them", shorten(&name));
                self.report(span, what, "a name no other load has".into(), help);
            }
        }
    }

    /// Two cables with one number could not be told apart by their labels.
    fn numbers(&mut self) {
        let of_run = |(i, r): (usize, &Run)| (Place::run(i, "number"), r.number);
        let of_lead = |(i, l): (usize, &Load)| (Place::load(i, "lead_number"), l.lead.number);
        let plan = &self.out.plan;
        let runs = plan.runs.iter().enumerate().map(of_run);
        let of_way = |(i, l): (usize, &Load)| (Place::load(i, "way_number"), l.lead.way_number);
        let leads = plan.loads.iter().enumerate().map(of_lead);
        let all: Vec<_> = runs.chain(leads).chain(plan.loads.iter().enumerate().map(of_way)).collect();
        let free = (1..).find(|n| !all.iter().any(|(_, given)| *given == Some(*n))).unwrap_or(1);
        let mut seen = BTreeSet::new();
        for (place, number) in all.into_iter().filter_map(|(place, number)| Some((place, number?))) {
            if !seen.insert(number) {
                let span = self.out.given.get(&place).cloned().unwrap_or(0..0);
                let what = format!("two cables have the number {number}");
                let help = format!("write `{} = {free}`, or leave it out to have one given", place.key);
                self.report(span, what, "a number that no other run, lead or way has".into(), help);
            }
        }
    }
}

fn help_for(field: &Field) -> String {
    let example = match (field.kind, field.default_value()) {
        (Kind::Number { .. }, Some(Value::Number(n))) => format!("for example `{} = {n}`; ", field.key),
        _ => String::new(),
    };
    format!("{example}{}", small(field.help.trim_end_matches('.')))
}

fn number(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(n) => i64::from_str_radix(n.as_str(), n.radix()).ok().map(|n| n as f64),
        DeValue::Float(f) => f.as_str().parse().ok(),
        _ => None,
    }
}

/// The value in the file as a value of the field; `Err(None)` when it is of the
/// wrong type, `Err(Some(reason))` when its text cannot be read.
fn value_of(field: &Field, value: &DeValue<'_>) -> Result<Value, Option<String>> {
    match (field.kind, value) {
        (Kind::Number { .. }, v) => number(v).map(Value::Number).ok_or(None),
        (Kind::Flag, DeValue::Boolean(b)) => Ok(Value::Flag(*b)),
        (Kind::Windows, v) => Windows::parse(&joined(v).ok_or(None)?).map(Value::Windows).map_err(Some),
        (Kind::Weekdays, v) => Weekdays::parse(&joined(v).ok_or(None)?).map(Value::Weekdays).map_err(Some),
        (Kind::Months, v) => Months::parse(&joined(v).ok_or(None)?).map(Value::Months).map_err(Some),
        (Kind::Words(_) | Kind::Picks(_), v) => joined(v).map(Value::Text).ok_or(None),
        (Kind::Flag, _) => Err(None),
        (_, DeValue::String(s)) => Ok(Value::Text(s.to_string())),
        _ => Err(None),
    }
}

/// A string, or a list of strings, as one comma-separated text.
fn joined(value: &DeValue<'_>) -> Option<String> {
    match value {
        DeValue::String(s) => Some(s.to_string()),
        DeValue::Array(items) => {
            let words: Option<Vec<_>> = items.iter().map(|i| i.get_ref().as_str()).collect();
            words.map(|w| w.join(","))
        }
        _ => None,
    }
}
