//! A new plan has no stop when the answers go together; when they do not, the questions say so and offer what does.

use crate::driver::Driver;
use loomwright::engine::Severity;
use loomwright::screens::Event;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

const CHEMISTRIES: [&str; 5] = ["AGM", "flooded", "gel", "iron", "NMC"];
const PLACES: [&str; 8] =
    ["cabin", "sleeping-space", "cabinet", "vented-box", "under-floor", "engine-bay", "load-bed", "under-deck"];
const COLDEST: [&str; 6] = ["15", "5", "-5", "-10", "-20", "-30"];
const DAYS: [&str; 4] = ["every day", "every other day", "mon-fri", "sat"];
const HOURS: [&str; 3] = ["1", "1.5", "3"];
const FRONT: [&str; 2] = ["0", "3"];
const LOADS: [&[&str]; 2] = [&[], &["ceiling", "pressure", "phone"]];

/// Which of each list is answered.
struct Answers {
    chemistry: &'static str,
    place: &'static str,
    coldest: &'static str,
    days: &'static str,
    hours: &'static str,
    front: &'static str,
    loads: &'static [&'static str],
}

impl Answers {
    fn all() -> usize {
        [CHEMISTRIES.len(), PLACES.len(), COLDEST.len(), DAYS.len(), HOURS.len(), FRONT.len(), LOADS.len()]
            .iter()
            .product()
    }

    /// The answers of a number below all.
    fn of(n: usize) -> Answers {
        let mut left = n;
        let mut take = |of: usize| {
            let digit = left % of;
            left /= of;
            digit
        };
        Answers {
            chemistry: CHEMISTRIES[take(CHEMISTRIES.len())],
            place: PLACES[take(PLACES.len())],
            coldest: COLDEST[take(COLDEST.len())],
            days: DAYS[take(DAYS.len())],
            hours: HOURS[take(HOURS.len())],
            front: FRONT[take(FRONT.len())],
            loads: LOADS[take(LOADS.len())],
        }
    }

    fn words(&self) -> String {
        let Answers { chemistry, place, coldest, days, hours, front, loads } = self;
        format!("{chemistry}, {place}, {coldest} °C, {days}, {hours} h, second box {front} m, fridge and {loads:?}")
    }

    /// Whether nothing is asked that a fit-out could not have: neither a chemistry that is told not to suit, nor a place
    /// in the heat, nor gas where somebody sleeps, nor a week of standing, nor frost in which the chemistry cannot be
    /// charged or discharged.
    fn are_ordinary(&self) -> bool {
        let cold: f64 = self.coldest.parse().unwrap();
        let asleep = self.place == "sleeping-space" && self.chemistry == "flooded";
        self.chemistry != "NMC"
            && self.place != "engine-bay"
            && !asleep
            && self.days != "sat"
            && cold >= if self.chemistry == "iron" { -5.0 } else { -10.0 }
    }

    /// The plan, and what was said to exclude each other on the way, of which the first way out is taken.
    fn planned(&self) -> (Driver, Vec<String>) {
        let mut d = Driver::new(80, 24);
        let mut clashes = Vec::new();
        d.keys("N 'Hut' Enter");
        self.loads.iter().for_each(|load| _ = d.keys(&format!("'{load}' Enter")));
        d.keys("Enter");
        let Answers { chemistry, place, coldest, days, hours, front, .. } = self;
        for answer in [*chemistry, "4 m", *front, &format!("{hours} h"), *days, &format!("{place} ·"), *coldest] {
            d.keys(&format!("'{answer}' Enter"));
            if d.screen().contains("do not go together") {
                clashes.push(d.screen());
                d.keys("Enter");
            }
        }
        d.sees("your plan");
        (d, clashes)
    }
}

fn stops(d: &Driver) -> Vec<String> {
    let findings = &d.app.now.design.findings;
    findings.iter().filter(|f| f.severity == Severity::Stop).map(|f| f.text.clone()).collect()
}

/// A draw of the answers, spread over all of them; `LOOMWRIGHT_PLANS=all` tries each, a number so many.
#[test]
fn ordinary_answers_end_without_a_stop() {
    let asked = std::env::var("LOOMWRIGHT_PLANS").ok();
    let all = Answers::all();
    let many = asked.map_or(60, |n| n.parse().unwrap_or(all)).min(all);
    let (mut clashed, mut left, mut wrong) = (0, Vec::new(), Vec::new());
    for k in 0..many {
        // A stride that shares no factor with the count meets each once, and neighbours differ in every answer.
        let n = if many == all { k } else { k * 5_003 % all };
        let answers = Answers::of(n);
        let (d, clashes) = answers.planned();
        let stops = stops(&d);
        clashed += usize::from(!clashes.is_empty());
        if answers.are_ordinary() && !clashes.is_empty() {
            wrong.push(format!("{}\n{}", answers.words(), clashes.join("\n")));
        }
        if !stops.is_empty() {
            left.push(format!("{}: {stops:?}", answers.words()));
        }
    }
    println!("{many} of {all}: {clashed} told to exclude each other, {} with a stop at the end", left.len());
    assert!(left.is_empty(), "{}", left.join("\n"));
    assert!(wrong.is_empty(), "ordinary, but told to exclude each other:\n{}", wrong.join("\n"));
}

/// A key of the questions holds the screens at most so long in a release build; a build for tests gets more, since it is
/// slower and others compile beside it.
const HELD: Duration = Duration::from_millis(if cfg!(debug_assertions) { 100 } else { 16 });
/// So many of a hundred may take longer: the machine has other things to do.
const OTHERS: usize = 2;

/// What this thread has had of a processor so far, whatever else the machine does; nothing where that is not told.
fn own_time() -> Duration {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    Duration::from_nanos(told.split_whitespace().next().and_then(|n| n.parse().ok()).unwrap_or(0))
}

/// The screens with a worker beside them, and how long each key held them.
struct Timed {
    d: Driver,
    news: Receiver<Event>,
    held: Vec<(Duration, String)>,
    own: Vec<(Duration, String)>,
    answered: Vec<(Duration, String)>,
}

impl Timed {
    fn new() -> Timed {
        let mut d = Driver::new(80, 24);
        let (sender, news) = channel();
        d.app.listener = Some(sender);
        Timed { d, news, held: Vec::new(), own: Vec::new(), answered: Vec::new() }
    }

    fn timed(&mut self, what: String, act: impl FnOnce(&mut Driver)) {
        let (begun, own) = (Instant::now(), own_time());
        act(&mut self.d);
        self.held.push((begun.elapsed(), what.clone()));
        self.own.push((own_time().saturating_sub(own), what));
    }

    /// Which question is asked, and whether what does not go together is asked about.
    fn asked(&self) -> (Option<String>, bool) {
        let screen = self.d.screen();
        let number =
            screen.split_once(" · question ").map(|(_, rest)| rest.chars().take_while(|c| *c != ' ').collect());
        (number, screen.contains("do not go together"))
    }

    /// Press Enter, and wait for what is worked out beside it.
    fn enter(&mut self, after: &str) {
        let (before, begun) = (self.asked(), Instant::now());
        self.timed(format!("Enter after {after}"), |d| _ = d.keys("Enter"));
        while self.asked() == before || self.d.screen().contains("Esc goes back") {
            let news = self.news.recv_timeout(Duration::from_secs(60)).unwrap();
            self.timed(format!("news after {after}"), |d| {
                d.event(news);
                d.draw();
            });
        }
        self.answered.push((begun.elapsed(), after.into()));
    }
}

/// Whatever is answered, a key does not hold the screens: what takes long is worked out beside them.
#[test]
fn no_key_of_the_questions_is_held() {
    let all = Answers::all();
    let many = std::env::var("LOOMWRIGHT_PLANS").ok().map_or(20, |n| n.parse().unwrap_or(all)).min(all);
    let (mut held, mut own, mut answered, mut clashed) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for k in 0..many {
        let answers = Answers::of(k * 5_003 % all);
        let mut timed = Timed::new();
        timed.d.keys("N 'Hut' Enter");
        answers.loads.iter().for_each(|load| _ = timed.d.keys(&format!("'{load}' Enter")));
        timed.d.keys("Enter");
        let Answers { chemistry, place, coldest, days, hours, front, .. } = &answers;
        for answer in [*chemistry, "4 m", *front, &format!("{hours} h"), *days, &format!("{place} ·"), *coldest] {
            timed.d.keys(&format!("'{answer}'"));
            timed.enter(answer);
            if timed.d.screen().contains("do not go together") {
                clashed.extend(timed.answered.last().cloned());
                timed.enter("a clash");
            }
        }
        timed.d.sees("your plan");
        held.append(&mut timed.held);
        own.append(&mut timed.own);
        answered.append(&mut timed.answered);
    }
    [&mut held, &mut own, &mut answered, &mut clashed].into_iter().for_each(|all| all.sort());
    let at = |all: &[(Duration, String)], share: usize| all.get((all.len() - 1) * share / 100).cloned();
    for (what, all) in
        [("keys and news", &held), ("of the thread's own time", &own), ("answers", &answered), ("clashes", &clashed)]
    {
        println!(
            "{} {what}: half within {:?}, 98 of 100 within {:?}, {:?} at most",
            all.len(),
            at(all, 50),
            at(all, 98),
            at(all, 100)
        );
    }
    let long = held.iter().filter(|(took, _)| *took > HELD).collect::<Vec<_>>();
    assert!(
        long.len() * 100 <= held.len() * OTHERS,
        "{} of {} held longer than {HELD:?}: {long:?}",
        long.len(),
        held.len()
    );
}

/// What is typed while the answers are checked is for the next question, and Esc goes back to the one in hand.
#[test]
fn who_types_ahead_is_not_held_up() {
    let mut timed = Timed::new();
    timed.d.keys("N Enter*3");
    timed.d.keys("'7' Enter");
    timed.d.keys("Esc").sees("question 3 of 9");
    timed.d.keys("Enter '7' Enter").sees("question 3 of 9");
    while timed.d.screen().contains("question 3 of 9") {
        let news = timed.news.recv_timeout(Duration::from_secs(60)).unwrap();
        timed.d.event(news);
        timed.d.draw();
    }
    timed.d.sees("question 5 of 9");
    timed.d.keys("Esc").sees("question 4 of 9").sees("7 m");
}
