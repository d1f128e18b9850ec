//! What all these comparisons are worth: how many values, how far off at worst, and how they were come by.
//!
//! Each comparison is written down here by the helpers in `check`. When every
//! test has run, `main` prints the account by source. A value counts as outside
//! evidence only where it was read in a publication that the catalogue does not
//! copy, or worked out by a public library; and of one table never more than
//! [`MOST_OF_ONE`] count, so that a long table cannot stand for breadth.
//!
//! A value of the catalogue against itself proves nothing. What is compared is
//! called circular where it is, bit for bit, a number that stands in the catalogue
//! with a source that names the same publication, unless [`WORKED`] says what lies
//! between; [`circular`] must stay empty.

use loomwright::catalogue::{Catalogue, Shown};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fmt::Write as _;
use std::sync::{LazyLock, Mutex};

/// Outside values that must be counted when all tests have run.
pub const GOAL: usize = 1800;
/// So many values of one table count.
const MOST_OF_ONE: usize = 60;

/// How an expected value was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Read in a publication and not in the catalogue as such, or worked out by a public library.
    Independent,
    /// Worked out by the circuit simulator.
    Simulator,
    /// Worked out by hand beside the test.
    ByHand,
    /// The catalogue has its values from the same publication, but a working of the program lies between.
    TypedTwice,
    /// Remembered and not looked up.
    Memory,
}

impl Class {
    const ALL: [Class; 5] = [Class::Independent, Class::Simulator, Class::ByHand, Class::TypedTwice, Class::Memory];

    fn words(self) -> &'static str {
        match self {
            Class::Independent => "independent",
            Class::Simulator => "circuit simulator",
            Class::ByHand => "by hand",
            Class::TypedTwice => "typed twice",
            Class::Memory => "memory",
        }
    }
}

/// A publication or a program, and what its values are worth in a comparison.
#[derive(Clone, Copy, Debug)]
pub struct Source<'a> {
    pub name: &'a str,
    pub class: Class,
}

/// Read in a publication that the catalogue does not copy, or worked out by a public library.
pub const fn independent(name: &str) -> Source<'_> {
    Source { name, class: Class::Independent }
}

/// Worked out by the circuit simulator.
pub const fn simulator(name: &str) -> Source<'_> {
    Source { name, class: Class::Simulator }
}

/// Worked out by hand beside the test.
pub const fn by_hand(name: &str) -> Source<'_> {
    Source { name, class: Class::ByHand }
}

/// The catalogue has its values from the same publication, but a working of the program lies between.
pub const fn typed_twice(name: &str) -> Source<'_> {
    Source { name, class: Class::TypedTwice }
}

/// Remembered.
pub const fn memory(name: &str) -> Source<'_> {
    Source { name, class: Class::Memory }
}

#[derive(Default)]
struct Entry {
    values: usize,
    /// Largest deviation as a share of what was allowed.
    used: f64,
    /// The same as words.
    worst: String,
}

static BOOK: Mutex<BTreeMap<(Class, String), Entry>> = Mutex::new(BTreeMap::new());
static CIRCULAR: Mutex<BTreeSet<String>> = Mutex::new(BTreeSet::new());

/// Every number of the catalogue, by its bits, with the publications that its sources name.
static CATALOGUE: LazyLock<HashMap<u64, BTreeSet<String>>> = LazyLock::new(|| {
    let catalogue = Catalogue::embedded().unwrap();
    let mut all: HashMap<u64, BTreeSet<String>> = HashMap::new();
    for listed in catalogue.values() {
        let (shown, from) = (&listed.value.shown, publications(&listed.value.from.source));
        for number in numbers(shown) {
            all.entry(number.to_bits()).or_default().extend(from.iter().cloned());
        }
    }
    all
});

/// The numbers of a value as they stand in its file.
fn numbers(shown: &Shown) -> Vec<f64> {
    let plain = |f: &loomwright::quantity::Figure| f.value;
    match shown {
        Shown::One(figure, _) => vec![plain(figure)],
        Shown::List(all) => all.iter().map(plain).collect(),
        Shown::Pairs(all) => all.iter().flat_map(|(x, y)| [plain(x), plain(y)]).collect(),
        // A small table in words: `18 AWG: 10, 10, 15 A`.
        Shown::Words(words) => words.split([' ', ',', ';', ':']).filter_map(|w| w.parse().ok()).collect(),
    }
}

/// Numbers of three digits or more by which a publication is known: `183.425`, `8820-6`, `60228`.
fn publications(source: &str) -> BTreeSet<String> {
    let words = source.split(|c: char| !(c.is_ascii_digit() || ".-".contains(c)));
    let known = words.filter(|w| w.chars().filter(char::is_ascii_digit).count() >= 3);
    known.map(|w| w.trim_matches(['.', '-']).to_string()).collect()
}

/// What was compared with itself.
pub fn circular() -> Vec<String> {
    CIRCULAR.lock().unwrap_or_else(|e| e.into_inner()).iter().cloned().collect()
}

/// Sources whose numbers are not the catalogue's own though they may equal one, and why: their first words.
const WORKED: &[(&str, &str)] = &[
    ("printed amps of the 105 °C column", "a row times the factors of bundle and air, which may equal another row"),
    ("33 CFR 183.425 Table 5 with notes", "the answer to a whole question about a cable"),
    ("33 CFR 183.455(c)(1)", "150 % of a row, worked out by hand"),
    ("ISO 898-1, meaning of the class numbers", "read off the name of the class"),
    ("ISO 8820-3:2015 scope", "ratings as sold against the range of the standard"),
    ("ISO 8820-6 scope", "ratings as sold against the range of the standard"),
];

/// Remember what is compared with itself.
fn look_for_circle(source: Source<'_>, expected: f64, got: f64) {
    if WORKED.iter().any(|(name, _)| source.name.starts_with(name)) {
        return;
    }
    let of = CATALOGUE.get(&got.to_bits()).filter(|_| expected == got);
    if of.is_some_and(|of| !of.is_disjoint(&publications(source.name))) {
        CIRCULAR.lock().unwrap_or_else(|e| e.into_inner()).insert(format!("{got}: {}", source.name));
    }
}

/// Write one comparison down.
pub fn note(source: Source<'_>, expected: f64, got: f64, tolerance: f64) {
    if tolerance <= 1e-6 * expected.abs() {
        look_for_circle(source, expected, got);
    }
    let off = (got - expected).abs();
    let used = if tolerance > 0.0 { off / tolerance } else { 0.0 };
    let worst = if expected == 0.0 { format!("{off:.2e}") } else { format!("{:.2} %", 100.0 * off / expected.abs()) };
    enter(source, used, worst);
}

/// Write down a value that had to keep to one side of a published one.
pub fn note_bound(source: Source<'_>, bound: f64, got: f64) {
    look_for_circle(source, bound, got);
    enter(source, 0.0, "kept".into());
}

fn enter(source: Source<'_>, used: f64, worst: String) {
    // A test that failed while it held the book does not spoil the account of the others.
    let mut book = BOOK.lock().unwrap_or_else(|e| e.into_inner());
    let entry = book.entry((source.class, source.name.to_string())).or_default();
    entry.values += 1;
    if entry.values == 1 || used > entry.used {
        (entry.used, entry.worst) = (used, worst);
    }
}

/// Values, and those that count.
fn totals(class: Class) -> (usize, usize, usize) {
    let book = BOOK.lock().unwrap_or_else(|e| e.into_inner());
    let of = book.iter().filter(|((c, _), _)| *c == class).map(|(_, entry)| entry.values);
    of.fold((0, 0, 0), |(sources, values, counted), v| (sources + 1, values + v, counted + v.min(MOST_OF_ONE)))
}

/// Outside values that count.
pub fn counted() -> usize {
    totals(Class::Independent).2
}

/// The account, by class and source.
pub fn account() -> String {
    let mut text = String::from("values  counted  worst deviation  of tolerance  source\n");
    for class in Class::ALL {
        writeln!(text, "\n{}", class.words()).unwrap();
        for ((_, name), entry) in
            BOOK.lock().unwrap_or_else(|e| e.into_inner()).iter().filter(|((c, _), _)| *c == class)
        {
            let counted = if class == Class::Independent { entry.values.min(MOST_OF_ONE) } else { 0 };
            let used = format!("{:.0} %", 100.0 * entry.used);
            writeln!(text, "{:6}  {counted:7}  {:>15}  {used:>12}  {name}", entry.values, entry.worst).unwrap();
        }
    }
    text + "\n" + &summary()
}

/// One line for each class.
pub fn summary() -> String {
    let mut text = String::new();
    for class in Class::ALL {
        let (sources, values, counted) = totals(class);
        write!(text, "{}: {values} values of {sources} sources", class.words()).unwrap();
        if class == Class::Independent {
            write!(text, ", {counted} counted at no more than {MOST_OF_ONE} of one (goal {GOAL})").unwrap();
        }
        text.push('\n');
    }
    let circular = circular();
    writeln!(text, "circular: {}", circular.len()).unwrap();
    circular.iter().for_each(|each| writeln!(text, "  {each}").unwrap());
    text
}
