//! How is the file written: delimiter, decimal point or comma, clock, and what each column holds?
//!
//! Told by its first lines: of all ways to cut them up that one is taken which makes sense of the most cells.
//! Whatever is recognised is shown, and can be said instead.

use crate::log::cell::number;
use crate::log::clock::{Clock, Order};
use crate::quantity::Seconds;

/// So much of a file is looked at.
pub const LARGEST_HEAD: usize = 1 << 18;

/// What is said of the file instead of being recognised.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// What the columns hold, in their order, by the words of [`Meaning::word`].
    pub columns: Vec<String>,
    /// Between the cells.
    pub delimiter: Option<char>,
    /// A comma stands before decimals.
    pub comma: Option<bool>,
    /// How the clock is written, by the words of [`Clock::NAMED`].
    pub clock: Option<Clock>,
    /// Dates begin with the month, or the day.
    pub month_first: Option<bool>,
    /// A positive current flows out of the battery.
    pub out: Option<bool>,
}

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// The time, or a part of it.
    Time,
    /// Voltage at the battery.
    Volts,
    /// Current of the battery.
    Amps,
    /// Temperature at the battery.
    Air,
    /// What a charger gives.
    Charging,
    /// Something else.
    Other,
}

impl Meaning {
    const NAMED: [(&'static str, Meaning); 6] = [
        ("time", Meaning::Time),
        ("volts", Meaning::Volts),
        ("amps", Meaning::Amps),
        ("temperature", Meaning::Air),
        ("charging", Meaning::Charging),
        ("-", Meaning::Other),
    ];

    /// All of them, in the order in which they are offered.
    pub const ALL: [Meaning; 6] =
        [Meaning::Time, Meaning::Volts, Meaning::Amps, Meaning::Air, Meaning::Charging, Meaning::Other];

    /// By which it is named.
    pub fn word(self) -> &'static str {
        Meaning::NAMED.into_iter().find(|(_, m)| *m == self).map_or("-", |(word, _)| word)
    }
}

/// One column.
#[derive(Clone, Debug)]
pub struct Column {
    /// As its head says.
    pub name: String,
    /// What it holds.
    pub meaning: Meaning,
    /// Of the number to volts, amperes or degrees Celsius: factor, and what is added then.
    pub scale: (f64, f64),
}

/// How a file is written.
#[derive(Clone, Debug)]
pub struct Layout {
    /// Between the cells.
    pub delimiter: char,
    /// A comma stands before decimals.
    pub comma: bool,
    /// Lines before the first row.
    pub skip: usize,
    /// How its clock is written.
    pub clock: Clock,
    /// The other order that a date may have, where days up to the twelfth leave it open.
    pub open: bool,
    /// What its columns hold.
    pub columns: Vec<Column>,
    /// A positive current flows out of the battery; not known from the file's head where none.
    pub out: Option<bool>,
    /// Usual time from one row to the next.
    pub step: Seconds,
}

/// The rows of a head, cut up in one way.
struct Cut {
    delimiter: char,
    comma: bool,
    /// Line of each row, and its cells; of the rows that hold values.
    rows: Vec<(usize, Vec<String>)>,
    names: Vec<String>,
    sense: usize,
}

/// From the beginning of a file.
///
/// # Errors
/// In words, where there are no rows with a time and a voltage or a current.
pub fn recognise(head: &str, asked: &Asked) -> Result<Layout, String> {
    let delimiters = [';', '\t', ',', '|'];
    let ways =
        delimiters.into_iter().flat_map(|d| if d == ',' { vec![(d, false)] } else { vec![(d, false), (d, true)] });
    let said = |(d, comma): &(char, bool)| {
        asked.delimiter.is_none_or(|own| own == *d) && asked.comma.is_none_or(|own| own == *comma)
    };
    let cuts = ways.filter(said).filter_map(|(delimiter, comma)| cut(head, delimiter, comma));
    let best = cuts.reduce(|best, next| if next.sense > best.sense { next } else { best });
    let cut = best.ok_or("it has no two rows of a time and numbers")?;
    let mut columns = columns(&cut, asked)?;
    let (clock, open) = clock(&cut, &mut columns, asked)?;
    let has = |meaning| columns.iter().any(|c| c.meaning == meaning);
    if !has(Meaning::Volts) && !has(Meaning::Amps) {
        return Err("no column is known for a voltage or a current".into());
    }
    let mut layout = Layout {
        delimiter: cut.delimiter,
        comma: cut.comma,
        skip: cut.rows.first().map_or(0, |r| r.0),
        clock,
        open,
        out: asked.out.or_else(|| sign(&columns)),
        columns,
        step: Seconds::ZERO,
    };
    let times = cut.rows.iter().filter_map(|(_, cells)| layout.time(&mut |n| cells.get(n).map(String::as_str)));
    let times: Vec<f64> = times.collect();
    let mut steps: Vec<f64> = times.windows(2).map(|w| w[1] - w[0]).filter(|s| *s > 0.0).collect();
    steps.sort_by(f64::total_cmp);
    layout.step = Seconds::new(steps.get(steps.len() / 2).copied().ok_or("its clock does not go forward")?);
    Ok(layout)
}

impl Layout {
    /// The time of a row, in seconds.
    pub fn time<'a>(&self, cell: &mut dyn FnMut(usize) -> Option<&'a str>) -> Option<f64> {
        let mut parts = self.columns.iter().enumerate().filter(|(_, c)| c.meaning == Meaning::Time);
        let first = cell(parts.next()?.0)?;
        match parts.next() {
            None => self.clock.read(first, self.comma),
            Some((second, _)) => self.clock.read(&format!("{} {}", first.trim(), cell(second)?.trim()), self.comma),
        }
    }

    /// Where a column of this meaning stands, with its scale.
    pub fn column(&self, meaning: Meaning) -> Option<(usize, (f64, f64))> {
        let at = self.columns.iter().position(|c| c.meaning == meaning)?;
        Some((at, self.columns[at].scale))
    }

    /// What was recognised, for confirmation: label and words.
    pub fn words(&self) -> Vec<(&'static str, String)> {
        let delimiter = match self.delimiter {
            '\t' => "tab".to_string(),
            other => format!("`{other}`"),
        };
        let order = if self.open { ", taken so because no day is beyond the twelfth" } else { "" };
        let columns = self.columns.iter().map(|c| format!("{} = {}", c.name.trim(), c.meaning.word()));
        vec![
            ("Delimiter", format!("{delimiter}, decimal {}", if self.comma { "comma" } else { "point" })),
            ("Clock", format!("{}{order}; a row each {}", self.clock.words(), self.step)),
            ("Columns", columns.collect::<Vec<_>>().join(", ")),
        ]
    }
}

/// The rows of values under one way of cutting them up; the number of cells that most lines have counts.
fn cut(head: &str, delimiter: char, comma: bool) -> Option<Cut> {
    let whole = if head.len() >= LARGEST_HEAD { head.rfind('\n').map_or(head, |end| &head[..end]) } else { head };
    let delimiter_byte = u8::try_from(delimiter).ok()?;
    let lines: Vec<Vec<String>> = whole.lines().map(|line| cells(line, delimiter_byte)).collect();
    let mut widths: Vec<usize> = lines.iter().map(Vec::len).filter(|n| *n >= 2).collect();
    widths.sort_unstable();
    let width = *widths.get(widths.len() / 2)?;
    let value = |cell: &String| number(cell, comma).is_some() || dated(cell);
    let full = |cells: &Vec<String>| cells.len() == width && cells.iter().filter(|c| value(c)).count() >= 2;
    let rows: Vec<(usize, Vec<String>)> = lines.iter().cloned().enumerate().filter(|(_, c)| full(c)).collect();
    let first = rows.first()?.0;
    let names = lines[..first].iter().rev().find(|c| c.len() == width).cloned();
    let names = names.unwrap_or_else(|| (1..=width).map(|n| format!("column {n}")).collect());
    // Each cell of sense counts, and each that is neither empty nor of sense counts against it.
    let good = rows.iter().flat_map(|r| &r.1).filter(|c| value(c)).count();
    let bad = rows.iter().flat_map(|r| &r.1).filter(|c| !value(c) && !c.trim().is_empty()).count();
    (rows.len() >= 2).then(|| Cut { delimiter, comma, rows, names, sense: (2 * good).saturating_sub(bad) })
}

/// The cells of a line. To make a reader takes longer than to read a line, so only one with quotes is worth it.
pub(super) fn cells(line: &str, delimiter: u8) -> Vec<String> {
    if !line.is_empty() && !line.contains(['"', '\r']) {
        return line.split(char::from(delimiter)).map(String::from).collect();
    }
    let mut reader = csv::ReaderBuilder::new().has_headers(false).delimiter(delimiter).from_reader(line.as_bytes());
    reader.records().next().and_then(Result::ok).map_or_else(Vec::new, |r| r.iter().map(String::from).collect())
}

fn dated(cell: &str) -> bool {
    let ways = [Clock::Date(Order::Year), Clock::Date(Order::Day), Clock::Date(Order::Month), Clock::OfDay];
    ways.iter().any(|clock| clock.read(cell, false).is_some())
}

/// What each column holds: as asked, by its head, or else by its values.
fn columns(cut: &Cut, asked: &Asked) -> Result<Vec<Column>, String> {
    if !asked.columns.is_empty() {
        return asked_columns(cut, asked);
    }
    let mut columns: Vec<Column> = cut.names.iter().map(|name| named(name)).collect();
    for meaning in [Meaning::Volts, Meaning::Amps, Meaning::Air] {
        let mut seen = false;
        for column in columns.iter_mut().filter(|c| c.meaning == meaning) {
            if std::mem::replace(&mut seen, true) {
                column.meaning = Meaning::Other;
            }
        }
    }
    let has = |columns: &[Column], meaning| columns.iter().any(|c| c.meaning == meaning);
    let free = |columns: &[Column]| -> Vec<usize> {
        let values = |n: usize| cut.rows.iter().filter(|r| number(&r.1[n], cut.comma).is_some()).count();
        (0..columns.len())
            .filter(|n| columns[*n].meaning == Meaning::Other && values(*n) * 2 > cut.rows.len())
            .collect()
    };
    if !has(&columns, Meaning::Time) {
        let first = (0..columns.len()).find(|n| cut.rows.iter().all(|r| dated(&r.1[*n])));
        if let Some(column) = columns.get_mut(first.unwrap_or(0)) {
            column.meaning = Meaning::Time;
        }
    }
    let median = |n: usize| {
        let mut all: Vec<f64> = cut.rows.iter().filter_map(|r| number(&r.1[n], cut.comma)).collect();
        all.sort_by(f64::total_cmp);
        all.get(all.len() / 2).copied().unwrap_or(0.0)
    };
    // Heads that say nothing: what lies about 12 V is the voltage, the next numbers are the current.
    let headless = cut.names.iter().all(|n| n.starts_with("column "));
    if headless && let Some(at) = free(&columns).into_iter().find(|n| (10.0..15.5).contains(&median(*n))) {
        columns[at].meaning = Meaning::Volts;
        if let Some(next) = free(&columns).into_iter().find(|n| *n > at) {
            columns[next].meaning = Meaning::Amps;
        }
    }
    if let Some(at) = columns.iter().position(|c| c.meaning == Meaning::Volts)
        && median(at) > 1000.0
    {
        columns[at].scale.0 = 0.001;
    }
    Ok(columns)
}

fn asked_columns(cut: &Cut, asked: &Asked) -> Result<Vec<Column>, String> {
    let width = cut.names.len();
    if asked.columns.len() > width {
        return Err(format!("it has {width} columns, and {} are named", asked.columns.len()));
    }
    let words = asked.columns.iter().map(String::as_str).chain(std::iter::repeat("-"));
    let meaning = |(name, word): (&String, &str)| {
        let known = Meaning::NAMED.into_iter().find(|(w, _)| *w == word.trim().to_lowercase());
        let all = Meaning::NAMED.map(|(w, _)| w).join(", ");
        let (_, meaning) = known.ok_or_else(|| format!("a column is none of {all}: `{}`", word.trim()))?;
        Ok(Column { meaning, ..named(name) })
    };
    cut.names.iter().zip(words).map(meaning).collect()
}

/// By the words of its head, in the languages of common loggers.
fn named(name: &str) -> Column {
    let lower = name.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric() && c != '°').filter(|w| !w.is_empty()).collect();
    let has = |any: &[&str]| any.iter().any(|part| lower.contains(part));
    let word = |any: &[&str]| words.iter().any(|w| any.contains(w));
    let milli = if word(&["mv", "ma"]) { 0.001 } else { 1.0 };
    let elsewhere = has(&["starter", "cell", "zelle", "panel", "array"]) || word(&["min", "max"]);
    let current =
        has(&["current", "strom", "courant", "corriente", "ampere"]) || word(&["a", "i", "amp", "amps", "ma"]);
    let (meaning, scale) =
        if has(&["state of charge", "ladezustand", "power", "leistung"]) || word(&["soc", "ah", "wh", "w"]) {
            (Meaning::Other, (1.0, 0.0))
        } else if has(&["time", "date", "zeit", "datum", "uhr", "clock", "elapsed", "heure", "fecha", "hora"])
            || word(&["t", "s", "sec", "seconds", "hours"])
        {
            (Meaning::Time, (1.0, 0.0))
        } else if current && has(&["solar", "altern", "charger", "pv", "ladestrom", "dc-dc"]) {
            (Meaning::Charging, (milli, 0.0))
        } else if elsewhere {
            (Meaning::Other, (1.0, 0.0))
        } else if has(&["volt", "spannung", "tension"]) || word(&["v", "u", "mv"]) {
            (Meaning::Volts, (milli, 0.0))
        } else if current {
            (Meaning::Amps, (milli, 0.0))
        } else if has(&["temp", "celsius", "°c", "fahrenheit", "°f"]) || word(&["c"]) {
            let fahrenheit = has(&["fahrenheit", "°f"]) || word(&["f"]);
            (Meaning::Air, if fahrenheit { (1.0 / 1.8, -32.0 / 1.8) } else { (1.0, 0.0) })
        } else {
            (Meaning::Other, (1.0, 0.0))
        };
    Column { name: name.to_string(), meaning, scale }
}

/// How the columns of the time are to be read: one alone, or a date with the time of day beside it.
fn clock(cut: &Cut, columns: &mut [Column], asked: &Asked) -> Result<(Clock, bool), String> {
    let timed: Vec<usize> = (0..columns.len()).filter(|n| columns[*n].meaning == Meaning::Time).collect();
    let cells = |at: &[usize]| -> Vec<String> {
        cut.rows.iter().map(|r| at.iter().map(|n| r.1[*n].trim()).collect::<Vec<_>>().join(" ")).collect()
    };
    let mut choices: Vec<Vec<usize>> = timed.iter().map(|n| vec![*n]).collect();
    choices.extend(timed.windows(2).map(<[usize]>::to_vec));
    let guesses = |at: &Vec<usize>| {
        let name = columns[at[0]].name.to_lowercase();
        let mut all = match asked.clock {
            Some(clock) => clock.of_kind(&cells(at), cut.comma),
            None => Clock::guess(&cells(at), &name, cut.comma),
        };
        if let Some(month) = asked.month_first {
            let unwanted = if month { Order::Day } else { Order::Month };
            all.retain(|c| *c != Clock::Date(unwanted));
        }
        all
    };
    // A date with its time tells most, then a time that is whole in one cell.
    let clear = |clock: &Clock| if clock.dated() { 2 } else { 1 };
    let found = choices.iter().filter_map(|at| {
        let all = guesses(at);
        let first = *all.first()?;
        let moves = cells(at).windows(2).filter(|w| w[0] != w[1]).count();
        Some(((moves > 0, clear(&first), moves), at.clone(), all))
    });
    let (_, at, all) = found.max_by_key(|(rank, ..)| *rank).ok_or("no column is known for the time")?;
    for n in timed {
        if !at.contains(&n) {
            columns[n].meaning = Meaning::Other;
        }
    }
    let orders = all.iter().filter(|c| matches!(c, Clock::Date(Order::Day | Order::Month)));
    Ok((all[0], orders.count() > 1 && asked.month_first.is_none()))
}

/// Which way a positive current flows, by its head.
fn sign(columns: &[Column]) -> Option<bool> {
    let name = columns.iter().find(|c| c.meaning == Meaning::Amps)?.name.to_lowercase();
    if name.contains("discharg") || name.contains("load") || name.contains("entlade") {
        Some(true)
    } else if name.contains("into") || name.contains("charging") {
        Some(false)
    } else {
        None
    }
}
