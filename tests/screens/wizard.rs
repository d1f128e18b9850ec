//! A new plan has no stop when the answers go together; when they do not, the questions say so and offer what does.

use crate::driver::Driver;
use loomwright::engine::Severity;

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
