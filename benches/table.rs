//! How fast is it at any size? All figures in one run, each with its plan made here.
//!
//! What ends in a process (`check`, `report`, `papers`) is timed as a user waits for it; what the screens do is
//! timed in a pseudo-terminal. Where a growth is asked about, time ~ runs^exponent is fitted. What does not end within
//! `LIMIT` is said to have been stopped. `cargo bench --bench table`
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

#[path = "common/process.rs"]
mod process;
#[path = "common/terminal.rs"]
mod terminal;

use loomwright::catalogue::Catalogue;
use loomwright::engine::simulate::chance::draw::Draws;
use loomwright::engine::{Design, Notes, Span, design, endurance, uncertainty};
use loomwright::plan::{Plan, default_example, read};
use loomwright::quantity::Share;
use process::run;
use std::fmt::Write as _;
use std::path::Path;
use std::time::{Duration, Instant};

/// A row is not followed further than this.
const LIMIT: Duration = Duration::from_secs(30);

/// A name, and what prints its figures with a folder to work in.
type Row = (&'static str, fn(&Path));
/// A name, and the plan of so many runs.
type Shape = (&'static str, fn(usize) -> String);

fn main() {
    let only = std::env::args().nth(1).filter(|word| !word.starts_with('-'));
    let folder = tempfile::tempdir().unwrap();
    let rows: [Row; 9] = [
        ("pass", |_| passes()),
        ("growth", |_| growth()),
        ("days", |_| days()),
        ("report", reports),
        ("sizes", sizes),
        ("file", files),
        ("start", terminal::first_frame),
        ("keys", keys),
        ("memory", memory),
    ];
    for (name, row) in rows.iter().filter(|row| only.as_ref().is_none_or(|o| o == row.0)) {
        println!("-- {name}");
        row(folder.path());
    }
}

/// So many runs, each with two others and a lamp on its end.
fn tree(runs: usize) -> String {
    let mut text = default_example().text.to_string();
    for n in 0..runs {
        let from = if n < 2 { "cut-off".into() } else { format!("q{}", n / 2 - 1) };
        let length = 0.3 + 0.05 * (n % 9) as f64;
        write!(
            text,
            "[[run]]\nfrom = \"{from}\"\nto = \"q{n}\"\nlength_m = {length:.2}\n\
             [[load]]\nname = \"lamp {n}\"\nat = \"q{n}\"\npower_w = {}\nduty = {{ hours_a_day = 1 }}\n",
            2 + n % 5
        )
        .unwrap();
    }
    text
}

/// A lamp at the end of so many runs one behind the other; with a fuse in each, or in none but the first two.
fn chain(runs: usize, fused: bool) -> String {
    let mut text = String::from("format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n");
    let point = |n: usize| match n {
        0 => "service battery".into(),
        1 => "cut-off".into(),
        n => format!("p{n}"),
    };
    for n in 0..runs {
        let length = 0.3 + 0.01 * (n % 7) as f64;
        // Without a blank: thirty thousand are a plan that is not too long to be read.
        write!(text, "[[run]]\nfrom=\"{}\"\nto=\"{}\"\nlength_m={length:.2}\n", point(n), point(n + 1)).unwrap();
        if n > 1 && !fused {
            text.push_str("own_fuse=false\n");
        }
    }
    write!(text, "[[load]]\nname = \"lamp\"\nat = \"{}\"\npower_w = 10\n", point(runs)).unwrap();
    text
}

fn median(mut work: impl FnMut()) -> Duration {
    let (mut times, begin) = (Vec::new(), Instant::now());
    while times.len() < 21 && (times.is_empty() || begin.elapsed() < LIMIT / 10) {
        let begin = Instant::now();
        work();
        times.push(begin.elapsed());
    }
    times.sort();
    times[times.len() / 2]
}

fn passes() {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(default_example().text, &catalogue).plan;
    println!("full pass, default plan, the promise in it: {:.2?}", median(|| drop(design(&plan, &catalogue))));
    for runs in [60, 200] {
        let plan = read(&tree(runs), &catalogue).plan;
        println!("full pass, tree of {runs}: {:.2?}", median(|| drop(design(&plan, &catalogue))));
    }
}

/// Times by runs, and the exponent of a line through their logarithms.
fn growth() {
    let catalogue = Catalogue::embedded().unwrap();
    let shapes: [Shape; 3] = [
        ("tree", tree),
        ("chain, two fuses", |runs| chain(runs, false)),
        ("chain, a fuse in each", |runs| chain(runs, true)),
    ];
    for (name, shape) in shapes {
        let mut points = Vec::new();
        for runs in [20, 60, 200, 600, 2000] {
            let plan = read(&shape(runs), &catalogue).plan;
            let time = median(|| drop(design(&plan, &catalogue)));
            points.push((runs as f64, time.as_secs_f64()));
            print!("{name} of {runs}: {time:.2?}; ");
            if time > LIMIT / 10 {
                break;
            }
        }
        println!("exponent {:.2}", slope(&points));
    }
}

fn slope(points: &[(f64, f64)]) -> f64 {
    let logs: Vec<(f64, f64)> = points.iter().map(|(x, y)| (x.ln(), y.ln())).collect();
    let n = logs.len() as f64;
    let (x, y) = (logs.iter().map(|l| l.0).sum::<f64>() / n, logs.iter().map(|l| l.1).sum::<f64>() / n);
    logs.iter().map(|l| (l.0 - x) * (l.1 - y)).sum::<f64>() / logs.iter().map(|l| (l.0 - x).powi(2)).sum::<f64>()
}

fn days() {
    let catalogue = Catalogue::embedded().unwrap();
    let of = |plan: &Plan| design(plan, &catalogue);
    let default = of(&read(default_example().text, &catalogue).plan);
    let year = |name: &str, design: &Design| {
        let span = Span { days: 365, first_day: 1, from: Share::FULL, health: Share::FULL };
        let time = median(|| drop(endurance(design, span, &mut Notes::unkept())));
        println!("year by the minute, {name}: {time:.1?}");
    };
    year("default plan", &default);
    year("60 runs more", &of(&read(&tree(60), &catalogue).plan));
    for threads in [1, 2] {
        let draws = Draws::default();
        let time = median(|| drop(uncertainty(&default, draws, threads, &|_| true)));
        let each = f64::from(draws.count) / time.as_secs_f64();
        println!("week draws, {threads} thread(s): {each:.0} a second");
    }
}

fn put(folder: &Path, text: &str) -> String {
    let file = folder.join("plan.toml");
    std::fs::write(&file, text).unwrap();
    file.to_string_lossy().into_owned()
}

fn reports(folder: &Path) {
    let shapes = [
        ("tree of 60", tree(60)),
        ("tree of 200", tree(200)),
        ("chain of 100", chain(100, false)),
        ("chain of 200", chain(200, false)),
    ];
    for (name, text) in shapes {
        let (file, out) = (put(folder, &text), folder.join("papers").to_string_lossy().into_owned());
        println!("check, {name}: {}", run(&["check", &file], LIMIT));
        println!("report, {name}: {}", run(&["report", &file], LIMIT));
        println!("papers, {name}: {}", run(&["papers", &file, "--into", &out, "--replace"], LIMIT));
    }
}

/// More and more cable sizes in the catalogue, with sixty runs.
fn sizes(folder: &Path) {
    let file = put(folder, &tree(60));
    let own = folder.join("own");
    std::fs::create_dir_all(own.join("conductors")).unwrap();
    for more in [0, 300, 1000, 5000] {
        let rows: String = (0..more).map(|n| row(0.6 + 0.02 * f64::from(n))).collect();
        std::fs::write(own.join("conductors/more.toml"), rows).unwrap();
        let time = run(&["check", &file, "--profiles", &own.to_string_lossy()], LIMIT);
        println!("check, 60 runs, {more} cable sizes more: {time}");
    }
}

fn row(area: f64) -> String {
    let ohms = 18.5 / area;
    let outside = 1.2 * area.sqrt() + 1.2;
    format!(
        "[[conductor]]\nlabel = \"own {area:.2}\"\nfamily = \"metric\"\narea_mm2 = {area:.2}\nohm_per_km_20c = {ohms:.5}\n\
         outside_mm = {outside:.3}\nhow = \"practice\"\nsource = \"made up for timing\"\n"
    )
}

fn files(folder: &Path) {
    for runs in [5_000, 30_000] {
        let file = put(folder, &chain(runs, false));
        println!("check, chain of {runs}: {}", run(&["check", &file], LIMIT));
    }
    for bad in [5_001, 30_000] {
        let mut text = String::from("format = 2\n");
        (0..bad).for_each(|n| write!(text, "[[load]]\nname = \"load {n}\"\npower_w = \"much\"\n").unwrap());
        let file = put(folder, &text);
        println!("check, {bad} bad values: {}", run(&["check", &file], LIMIT));
    }
}

/// A value changed, and keys faster than anybody types.
fn keys(folder: &Path) {
    for runs in [0, 60, 200] {
        put(folder, &tree(runs));
        let mut pty = terminal::start(folder, Some("plan.toml"));
        std::thread::sleep(Duration::from_millis(1500));
        let moves = (0..100).map(|n| pty.press(if n % 10 < 5 { "\x1b[B" } else { "\x1b[A" })).collect();
        terminal::report(&format!("{runs} runs more: move"), moves);
        pty.press("\x1b[C\x1b[C\x1b[C");
        let mut edits = Vec::new();
        for n in 0..100 {
            pty.press(&format!("\r{} W", 40 + n % 20));
            std::thread::sleep(Duration::from_millis(60));
            edits.push(pty.press("\r"));
            std::thread::sleep(Duration::from_millis(100));
        }
        terminal::report(&format!("{runs} runs more: a value changed"), edits);
        let mut gaps = Vec::new();
        while pty.output.try_recv().is_ok() {}
        let begin = Instant::now();
        let mut last = begin;
        for n in 0..250u64 {
            pty.send(if n % 10 < 5 { "\x1b[B" } else { "\x1b[A" });
            let until = Instant::now() + Duration::from_millis(5 + n * 7 % 20);
            while let Some(left) = until.checked_duration_since(Instant::now()) {
                if pty.output.recv_timeout(left).is_ok() {
                    gaps.push(last.elapsed());
                    last = Instant::now();
                }
            }
        }
        terminal::report(&format!("{runs} runs more: between frames, held"), gaps);
        pty.leave();
    }
}

/// After so many edits and so many keys at random.
fn memory(folder: &Path) {
    put(folder, &tree(60));
    let mut pty = terminal::start(folder, Some("plan.toml"));
    std::thread::sleep(Duration::from_millis(1500));
    println!("memory at the beginning, 60 runs more: {} kB", pty.peak());
    pty.press("\x1b[C\x1b[C\x1b[C");
    for n in 0..3336 {
        pty.press(&format!("\r{} W\r", 40 + n % 20));
    }
    println!("memory after 3,336 edits: {} kB", pty.peak());
    pty.leave();
}
