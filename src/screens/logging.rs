//! A logger's file taken in: how it is written, what it comes to beside the plan, and what of it is taken.

use super::pane::{Plot, marks};
use super::scene::Scene;
use super::state::State;
use crate::engine::LogAnswer;
use crate::log::{Asked, Clock, Layout, Logged, Meaning, Order, offered, recognise};
use crate::quantity::Figure;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

/// A file being taken in.
#[derive(Clone, Debug)]
pub struct Logging {
    /// The file.
    pub path: PathBuf,
    /// Its beginning.
    head: Rc<str>,
    /// What was said of it.
    asked: Asked,
    /// How it is written, or why that is not known.
    pub layout: Result<Layout, String>,
    /// How far it has come.
    pub stage: Stage,
}

/// How far it has come.
#[derive(Clone, Debug)]
pub enum Stage {
    /// Is this how it is written? The row in hand.
    Asking(usize),
    /// So many rows were read.
    Reading(u64),
    /// It stands beside the plan.
    Beside(Beside),
}

/// What the file comes to.
#[derive(Clone, Debug)]
pub struct Beside {
    /// Beside this plan.
    pub of: Rc<State>,
    /// The file.
    pub logged: Arc<Logged>,
    /// Planned, measured, changed.
    pub answer: Arc<LogAnswer>,
    /// The line in hand.
    pub pick: usize,
    /// What is shown.
    pub page: Page,
    /// Place of the cursor along the curves.
    pub place: usize,
}

/// What is shown of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// The numbers.
    Table,
    /// Both curves.
    Curves,
    /// How the file was read, and what was left out.
    ReadAs,
}

/// A thing that is said of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Said {
    Delimiter,
    Decimals,
    Clock,
    Dates,
    Current,
    Column(usize),
}

const DELIMITERS: [char; 4] = [';', ',', '\t', '|'];

impl Logging {
    /// With nothing said yet.
    pub fn new(path: &Path, head: &str) -> Logging {
        let asked = Asked::default();
        let layout = recognise(head, &asked);
        Logging { path: path.to_path_buf(), head: head.into(), asked, layout, stage: Stage::Asking(0) }
    }

    /// The file's name.
    pub fn name(&self) -> String {
        self.path.file_name().unwrap_or_default().to_string_lossy().into_owned()
    }

    /// The row in hand.
    pub fn pick(&self) -> usize {
        match &self.stage {
            Stage::Asking(pick) => *pick,
            Stage::Reading(_) => 0,
            Stage::Beside(beside) => beside.pick,
        }
    }

    fn all(&self) -> Vec<Said> {
        let mut all = vec![Said::Delimiter, Said::Decimals];
        if let Ok(layout) = &self.layout {
            all.push(Said::Clock);
            if matches!(layout.clock, Clock::Date(Order::Day | Order::Month)) {
                all.push(Said::Dates);
            }
            all.push(Said::Current);
            all.extend((0..layout.columns.len()).map(Said::Column));
        }
        all
    }

    /// What is said of the file: label and value.
    pub fn rows(&self) -> Vec<(String, String)> {
        self.all().into_iter().map(|said| self.row(said)).collect()
    }

    fn row(&self, said: Said) -> (String, String) {
        let layout = self.layout.as_ref().ok();
        let delimiter = layout.map(|l| l.delimiter).or(self.asked.delimiter);
        let comma = layout.map(|l| l.comma).or(self.asked.comma);
        let (label, value): (&str, String) = match (said, layout) {
            (Said::Delimiter, _) => (
                "Between cells",
                match delimiter {
                    Some('\t') => "tab".into(),
                    Some(sign) => sign.to_string(),
                    None => "not known".into(),
                },
            ),
            (Said::Decimals, _) => ("Before decimals", if comma == Some(true) { "comma" } else { "point" }.into()),
            (Said::Clock, Some(l)) => ("Clock", format!("{}; a row each {}", l.clock.words(), l.step)),
            (Said::Dates, Some(l)) => {
                let first = if l.clock == Clock::Date(Order::Month) { "month first" } else { "day first" };
                ("Dates", format!("{first}{}", if l.open { "? no day is beyond the twelfth" } else { "" }))
            }
            (Said::Current, Some(l)) => (
                "Positive current",
                match l.out {
                    None => "told by the voltage".into(),
                    Some(true) => "out of the battery".into(),
                    Some(false) => "into the battery".into(),
                },
            ),
            (Said::Column(n), Some(l)) => {
                let (name, meaning) = l.columns.get(n).map_or(("", "-"), |c| (c.name.trim(), c.meaning.word()));
                return (format!("Column “{name}”"), if meaning == "-" { "not used" } else { meaning }.into());
            }
            (_, None) => ("", String::new()),
        };
        (label.into(), value)
    }

    /// The next way to read what is in hand, or the one before.
    pub fn turn(&mut self, by: isize) {
        let Stage::Asking(pick) = self.stage else { return };
        let Some(said) = self.all().get(pick).copied() else { return };
        let layout = self.layout.as_ref().ok();
        match said {
            Said::Delimiter => {
                let now = layout.map(|l| l.delimiter).or(self.asked.delimiter);
                let at = DELIMITERS.iter().position(|d| Some(*d) == now).unwrap_or(0);
                // Other cells, other columns.
                self.asked = Asked { delimiter: Some(turned(&DELIMITERS, at, by)), ..Asked::default() };
            }
            Said::Decimals => {
                let comma = layout.map(|l| l.comma).or(self.asked.comma);
                self.asked.comma = Some(comma != Some(true));
            }
            Said::Clock => {
                let word = layout.map_or("", |l| l.clock.word());
                let at = Clock::NAMED.iter().position(|(own, _)| *own == word).unwrap_or(0);
                self.asked.clock = Some(turned(&Clock::NAMED, at, by).1);
            }
            Said::Dates => {
                let month = layout.is_some_and(|l| l.clock == Clock::Date(Order::Month));
                self.asked.month_first = Some(!month);
            }
            Said::Current => {
                let ways = [None, Some(true), Some(false)];
                let at = ways.iter().position(|w| *w == self.asked.out).unwrap_or(0);
                self.asked.out = turned(&ways, at, by);
            }
            Said::Column(n) => self.turn_column(n, by),
        }
        self.layout = recognise(&self.head, &self.asked);
    }

    /// Another meaning for a column; of two voltages the one in hand counts.
    fn turn_column(&mut self, n: usize, by: isize) {
        let Ok(layout) = &self.layout else { return };
        let mut meanings: Vec<Meaning> = layout.columns.iter().map(|c| c.meaning).collect();
        let Some(own) = meanings.get(n).copied() else { return };
        let at = Meaning::ALL.iter().position(|m| *m == own).unwrap_or(0);
        let new = turned(&Meaning::ALL, at, by);
        for (other, meaning) in meanings.iter_mut().enumerate() {
            if other == n {
                *meaning = new;
            } else if *meaning == new && new != Meaning::Time {
                *meaning = Meaning::Other;
            }
        }
        self.asked.columns = meanings.iter().map(|m| m.word().to_string()).collect();
    }

    /// What was said last is forgotten: the file is recognised anew.
    pub fn forget(&mut self) {
        self.asked = Asked::default();
        self.layout = recognise(&self.head, &self.asked);
    }

    /// The first rows as they stand in the file, with their head.
    pub fn preview(&self) -> Vec<String> {
        let skip = self.layout.as_ref().map_or(0, |l| l.skip.saturating_sub(1));
        self.head.lines().skip(skip).take(3).map(|l| l.replace('\t', " → ")).collect()
    }

    /// What is told in the footer.
    pub fn about(&self) -> String {
        match &self.stage {
            Stage::Asking(_) => "Is it read rightly? ← and → change the row in hand; nothing is written".into(),
            Stage::Reading(_) => "The plan is not changed by this".into(),
            Stage::Beside(_) => "> differs from the plan and can be taken; the plan's file is written by s only".into(),
        }
    }
}

fn turned<T: Copy>(all: &[T], at: usize, by: isize) -> T {
    let count = all.len().max(1) as isize;
    all[(at as isize + by).rem_euclid(count) as usize]
}

impl Beside {
    /// Keys of what can be taken.
    pub fn offered(&self) -> Vec<&str> {
        offered(&self.answer, &self.of.plan)
    }

    /// Lines from the one in hand by so many.
    pub fn step(&mut self, by: isize) {
        let last = self.answer.lines.len().saturating_sub(1);
        self.pick = self.pick.saturating_add_signed(by).min(last);
    }

    /// The next page.
    pub fn next_page(&mut self) {
        self.page = match self.page {
            Page::Table => Page::Curves,
            Page::Curves => Page::ReadAs,
            Page::ReadAs => Page::Table,
        };
    }

    /// Voltage over time: as measured, and as the plan has it.
    pub fn plot(&self, scene: &Scene<'_>) -> Plot {
        let curve = &self.answer.curve;
        let days = |hours: crate::quantity::Hours| hours.get() / 24.0;
        let measured: Vec<(f64, f64)> = curve.iter().map(|c| (days(c.at), c.measured.get())).collect();
        let planned: Vec<(f64, f64)> = curve.iter().filter_map(|c| Some((days(c.at), c.planned?.get()))).collect();
        let all = || measured.iter().chain(&planned).map(|p| p.1);
        let (low, high) = (all().fold(12.0, f64::min).floor(), all().fold(13.0, f64::max).ceil());
        let until = measured.last().map_or(1.0, |p| p.0).max(1e-3);
        let tick = |v: f64| scene.digits(Figure::number((v * 100.0).round() / 100.0));
        let cut = scene.design().cut_off.cut;
        Plot {
            curves: vec![("measured".into(), measured), ("expected of the plan".into(), planned)],
            empty: "the file tells no voltage".into(),
            levels: vec![(format!("cut-off {}", scene.show(cut)), cut.get())],
            x: ("Time from the first row".into(), 0.0, until),
            y: ("V at the posts".into(), low, high),
            across: times(until),
            up: marks(3, low, high, tick),
            read: Some(moment),
            ..Plot::default()
        }
    }
}

/// Marks at whole minutes, hours or days, at most [`TIMES`] of them beside the first.
fn times(until: f64) -> Vec<(f64, String)> {
    let step = STEPS.iter().copied().find(|s| until * DAY / s <= TIMES).unwrap_or_else(|| (until / TIMES).ceil() * DAY);
    let words = |minutes: f64| match step {
        _ if step >= DAY => format!("{:.0} d", minutes / DAY),
        _ if step >= 60.0 => format!("{:.0} h", minutes / 60.0),
        _ => format!("{minutes:.0} min"),
    };
    let count = (until * DAY / step).floor().max(0.0) as u32;
    (0..=count).map(|n| f64::from(n) * step).map(|minutes| (minutes / DAY, words(minutes))).collect()
}

/// Minutes of a day.
const DAY: f64 = 1440.0;
/// Most marks beside the first.
const TIMES: f64 = 8.0;
/// Minutes from mark to mark.
const STEPS: [f64; 15] =
    [1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 180.0, 360.0, 720.0, DAY, 2.0 * DAY, 5.0 * DAY, 7.0 * DAY];

/// A moment in words: `day 3, 14:00`.
fn moment(days: f64) -> String {
    let minutes = (days * 24.0 * 60.0).round() as u64;
    format!("after {} d {:02}:{:02} h, in V:", minutes / 1440, minutes % 1440 / 60, minutes % 60)
}
