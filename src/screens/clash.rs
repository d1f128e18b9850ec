//! Do the answers of a new plan exclude each other, and which other answer would do?
//!
//! Each way out was tried by a whole design: what is offered has no stop.

use super::answers::{Answered, Answers};
use crate::catalogue::Catalogue;
use crate::engine::FindingKind;
use crate::plan::{BatteryPlace, Choice, Weekdays};
use strum::VariantArray;

/// Most ways that are offered.
const WAYS: usize = 6;
/// Most reasons that are told, each of another kind.
const REASONS: usize = 2;
/// Places that are offered where the one asked for will not do: nobody sleeps there, gas finds a way out, no engine heats.
const PLACES: [BatteryPlace; 4] =
    [BatteryPlace::Cabin, BatteryPlace::VentedBox, BatteryPlace::LoadBed, BatteryPlace::UnderDeck];

/// Whether answers go together.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked {
    /// What does not; none where they do.
    pub clash: Option<Clash>,
    /// The text of the plan that follows from them.
    ///
    /// # Errors
    /// Never with the catalogue of the program.
    pub text: Result<String, String>,
}

/// Answers that exclude each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// Why, in words.
    pub why: Vec<String>,
    /// The kinds of finding that say so.
    pub kinds: Vec<FindingKind>,
    /// What would do instead, in words; the last leaves all as it is.
    pub ways: Vec<Way>,
    /// What else would do is still to be tried.
    pub trying: Option<Trial>,
}

/// Other answers that do.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// In words.
    pub words: String,
    /// The answers.
    pub answers: Answers,
    /// The text of the plan that follows from them.
    pub text: String,
}

/// Which answers may be other ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Open {
    /// The chemistry.
    Chemistry,
    /// Where the battery stands.
    Place,
    /// All.
    All,
}

/// Another answer.
#[derive(Clone, Copy, Debug)]
enum Other {
    Chemistry(usize),
    Place(usize),
    Days(Weekdays),
    Driving(f64),
    Coldest(f64),
    Length(f64),
    Without(usize),
}

/// Answers that are to go together, and what may be tried to find the ways out where they do not: a worker takes it along.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    answers: Answers,
    open: Open,
    left: Vec<FindingKind>,
}

impl Clash {
    /// What would do stands before what leaves all as it is.
    pub fn found(&mut self, ways: Vec<Way>) {
        self.ways.splice(0..0, ways);
    }
}

impl Trial {
    /// Of these answers, besides what is left so on purpose.
    pub fn new(answers: &Answers, open: Open, left: &[FindingKind]) -> Trial {
        Trial { answers: answers.clone(), open, left: left.to_vec() }
    }

    /// Whether they go together. It counts as if they did where no other answer of those that are open would do, unless
    /// all are: then what would do is still to be tried. Asked before each design whether to go on.
    pub fn check(&self, catalogue: &Catalogue, go_on: &dyn Fn() -> bool) -> Checked {
        match self.answers.plan(catalogue) {
            Ok(plan) => Checked { clash: self.clash(&plan, catalogue, go_on), text: Ok(plan.text) },
            Err(e) => Checked { clash: None, text: Err(e.to_string()) },
        }
    }

    fn clash(&self, plan: &Answered, catalogue: &Catalogue, go_on: &dyn Fn() -> bool) -> Option<Clash> {
        let all = self.open == Open::All;
        let (mut kinds, mut why) = (Vec::new(), Vec::new());
        for stop in plan.stops().filter(|f| !self.left.contains(&f.kind)) {
            if !kinds.contains(&stop.kind) {
                kinds.push(stop.kind);
                why.push(stop.text.clone());
            }
        }
        why.truncate(REASONS);
        if let Some(bank) = plan.design.battery.bank.as_ref().filter(|_| all) {
            why.insert(0, format!("they ask for a battery of {}, {}", bank.capacity, bank.mass));
        }
        let ways = if all || kinds.is_empty() { Vec::new() } else { self.ways(catalogue, go_on) };
        if kinds.is_empty() || ways.is_empty() && !all {
            return None;
        }
        let words = "leave it so: Findings says what mends it".into();
        let left_so = Way { words, answers: self.answers.clone(), text: plan.text.clone() };
        let mut clash = Clash { why, kinds, ways: vec![left_so], trying: all.then(|| self.clone()) };
        clash.found(ways);
        Some(clash)
    }

    fn wrong(&self, plan: &Answered) -> bool {
        plan.stops().any(|f| !self.left.contains(&f.kind))
    }

    /// What was tried and does, the fewest cautions first: one other answer, or two where no one does. Asked before
    /// each design whether to go on.
    pub fn ways(&self, catalogue: &Catalogue, go_on: &dyn Fn() -> bool) -> Vec<Way> {
        let others = others(&self.answers, self.open, catalogue);
        let one = others.iter().map(|o| vec![*o]).collect::<Vec<_>>();
        let found = self.tried(&one, catalogue, go_on);
        if !found.is_empty() || self.open != Open::All {
            return found;
        }
        let pairs = others.iter().enumerate().flat_map(|(n, a)| others.iter().skip(n + 1).map(|b| vec![*a, *b]));
        let unlike =
            |pair: &Vec<Other>| matches!(&pair[..], [a, b] if std::mem::discriminant(a) != std::mem::discriminant(b));
        self.tried(&pairs.filter(unlike).collect::<Vec<_>>(), catalogue, go_on)
    }

    fn tried(&self, all: &[Vec<Other>], catalogue: &Catalogue, go_on: &dyn Fn() -> bool) -> Vec<Way> {
        let mut found = Vec::new();
        for others in all {
            if !go_on() {
                break;
            }
            let mut with = self.answers.clone();
            others.iter().for_each(|o| o.put(&mut with));
            let Some(plan) = with.plan(catalogue).ok().filter(|plan| !self.wrong(plan)) else { continue };
            let words: Vec<String> = others.iter().map(|o| o.words(catalogue)).collect();
            let bank = plan.design.battery.bank.as_ref();
            let bank = bank.map_or_else(String::new, |b| format!(" · battery {}, {}", b.capacity, b.mass));
            // What is wanted is given up last.
            let gives_up = others.iter().any(|o| matches!(o, Other::Without(_)));
            let way = Way { words: format!("{}{bank}", words.join(", and ")), answers: with, text: plan.text };
            found.push(((gives_up, plan.design.findings.len()), way));
        }
        found.sort_by_key(|(order, _)| *order);
        found.truncate(WAYS);
        found.into_iter().map(|(_, way)| way).collect()
    }
}

fn others(answers: &Answers, open: Open, catalogue: &Catalogue) -> Vec<Other> {
    let mut all = Vec::new();
    if open != Open::Place {
        all.extend((0..catalogue.chemistries.len()).filter(|n| *n != answers.chemistry).map(Other::Chemistry));
    }
    if open != Open::Chemistry {
        let at = |p: &BatteryPlace| BatteryPlace::VARIANTS.iter().position(|v| v == p);
        all.extend(PLACES.iter().filter_map(at).filter(|n| *n != answers.place).map(Other::Place));
    }
    if open == Open::All {
        let often = [Weekdays::all(), Weekdays::parse("every other day").unwrap_or(Weekdays::all())];
        all.extend(often.into_iter().filter(|d| d.a_week() > answers.days.a_week()).map(Other::Days));
        all.extend([1.5].into_iter().filter(|h| *h > answers.driving).map(Other::Driving));
        all.extend([0.0, 5.0].into_iter().filter(|c| *c > answers.coldest).map(Other::Coldest));
        all.extend([2.0].into_iter().filter(|l| *l < answers.length).map(Other::Length));
        all.extend(answers.loads.iter().filter(|_| answers.loads.len() > 1).map(|l| Other::Without(*l)));
    }
    all
}

impl Other {
    fn put(self, answers: &mut Answers) {
        match self {
            Other::Chemistry(n) => answers.chemistry = n,
            Other::Place(n) => answers.place = n,
            Other::Days(days) => answers.days = days,
            Other::Driving(hours) => answers.driving = hours,
            Other::Coldest(coldest) => answers.coldest = coldest,
            Other::Length(length) => answers.length = length,
            Other::Without(load) => answers.loads.retain(|l| *l != load),
        }
    }

    fn words(self, catalogue: &Catalogue) -> String {
        let chemistry = |n: usize| catalogue.chemistries.get(n).map_or("", |c| c.name.as_str());
        match self {
            Other::Chemistry(n) => format!("{} instead", chemistry(n)),
            Other::Place(n) => {
                BatteryPlace::words().get(n).map_or_else(String::new, |(_, about)| format!("it stands {about}"))
            }
            Other::Days(days) => format!("it is driven {days}"),
            Other::Driving(hours) => format!("it is driven {hours} h on a day with a drive"),
            Other::Coldest(coldest) => format!("a place that stays at {coldest} °C or above"),
            Other::Length(length) => format!("{length} m to the fuse box"),
            Other::Without(load) => format!("without {}", catalogue.loads.get(load).map_or("", |l| l.name.as_str())),
        }
    }
}
