//! What reads what others wrote: a plan, profiles, cells, keys, a spreadsheet, a logger's file.

use crate::driver::{Driver, catalogue, left_out};
use crate::hunt;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use loomwright::catalogue::{Catalogue, Layer};
use loomwright::engine::{Collector, design, expected, log_answer};
use loomwright::log::{Asked, LARGEST_HEAD, Rows, recognise};
use loomwright::plan::{self, Field, Section, Value, fields_of, from_sheet, read, read_bytes};
use loomwright::quantity::{Unit, UnitSystem, parse};
use loomwright::screens::{Action, Event, update};
use std::collections::BTreeSet;
use std::fs;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::Path;

const SMALL: &str = include_str!("../everyday/plans/fridge-and-light.toml");

/// All files of a folder of the repository, one level down too.
fn files(folder: &str) -> Vec<(String, Vec<u8>)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut all = Vec::new();
    for entry in fs::read_dir(root).unwrap() {
        let (path, name) = (entry.as_ref().unwrap().path(), entry.unwrap().file_name().into_string().unwrap());
        match path.is_dir() {
            true => all.extend(files(&format!("{folder}/{name}")).into_iter().map(|(n, t)| (format!("{name}/{n}"), t))),
            false => all.push((name, fs::read(path).unwrap())),
        }
    }
    all.sort();
    all
}

fn plans() -> Vec<Vec<u8>> {
    let folders = ["profiles/plans", "tests/everyday/plans", "tests/problems"];
    let all = folders.into_iter().flat_map(files).filter(|(name, _)| name.ends_with(".toml"));
    all.map(|(_, text)| text).collect()
}

/// One outcome: what was said, without the words that were typed and the numbers.
fn outcome<'a>(said: impl IntoIterator<Item = &'a str>) -> u64 {
    let plain = |text: &str| -> String {
        text.split('`').step_by(2).flat_map(str::chars).filter(|c| c.is_alphabetic() || *c == ' ').take(60).collect()
    };
    let all: BTreeSet<String> = said.into_iter().map(plain).collect();
    let mut hash = DefaultHasher::new();
    all.hash(&mut hash);
    hash.finish()
}

fn keys() -> Vec<&'static str> {
    Section::ALL.iter().flat_map(|s| fields_of(*s).map(|f| f.key).chain([s.key()])).collect()
}

#[test]
fn plan() {
    hunt("plan", plans(), &keys(), |bytes| {
        let read = read_bytes(bytes, &catalogue());
        for problem in &read.problems {
            assert!(problem.span.start <= problem.span.end && problem.span.end <= bytes.len(), "{problem:?}");
            assert!(problem.line > 0 && problem.column > 0 && !problem.what.is_empty(), "{problem:?}");
        }
        // A design costs a thousand times what reading does: of a short plan now and then.
        if read.problems.is_empty() && read.plan.loads.len() < 4 && bytes.len() % 16 == 0 {
            let made = design(&read.plan, &catalogue());
            assert!(made.findings.iter().all(|f| !f.text.contains("NaN") && !f.text.contains("inf ")));
        }
        outcome(read.problems.iter().map(|p| p.what.as_str()))
    });
}

/// Those of the program, and prices, which only a user has.
fn profile_files() -> Vec<(String, Vec<u8>)> {
    let prices = "[[price]]\nchemistry = \"agm\"\nper_100ah = 210\n\n[[price]]\npart = \"cable 35 mm²\"\neach = 9\n";
    let own = files("profiles").into_iter().filter(|(name, _)| name.ends_with(".toml") && !name.contains("plans"));
    own.chain([("prices.toml".to_string(), prices.as_bytes().to_vec())]).collect()
}

/// An input with the name of what reads it in its first line.
fn headed(name: &str, text: &[u8]) -> Vec<u8> {
    [name.as_bytes(), b"\n", text].concat()
}

/// What reads an input, and the rest of it: where the first line is no name, one of them all the same.
fn parted<'a>(input: &'a [u8], names: &[String]) -> (usize, &'a [u8]) {
    let end = input.iter().position(|b| *b == b'\n').unwrap_or(input.len());
    let (head, text) = (&input[..end], input.get(end + 1..).unwrap_or_default());
    let named = names.iter().position(|name| name.as_bytes() == head);
    (named.unwrap_or_else(|| head.iter().map(|b| usize::from(*b)).sum::<usize>() % names.len()), text)
}

/// The first line says which file it is.
#[test]
fn profiles() {
    let named = profile_files().into_iter().map(|(name, text)| headed(&name, &text)).collect();
    hunt("profiles", named, &["how = \"user\"", "sources = []", "[[number]]", "key = \"agm\""], |bytes| {
        thread_local!(static NAMES: Vec<String> = profile_files().into_iter().map(|(name, _)| name).collect());
        let (n, text) = NAMES.with(|names| parted(bytes, names));
        let name = NAMES.with(|names| names[n].clone());
        let text = String::from_utf8_lossy(text).into_owned();
        match Catalogue::with_layers(&[Layer { origin: "fuzz".into(), files: vec![(name, text)] }]) {
            Ok(rows) => u64::from(rows.values().len() > 100),
            Err(errors) => {
                assert!(errors.iter().all(|e| !e.message.is_empty()));
                outcome(errors.iter().map(|e| e.message.as_str()))
            }
        }
    });
}

/// All fields, and what they are called here.
fn named_fields() -> (Vec<String>, Vec<&'static Field>) {
    let of = |s: &'static Section| fields_of(*s).map(|f| (format!("{}.{}", s.key(), f.key), f));
    Section::ALL.iter().flat_map(of).unzip()
}

/// Any text in any field: what is taken is taken again, and is shown without NaN. The first line says which field.
#[test]
fn cells() {
    let samples = [
        "20 ft 4 in",
        "1h30",
        "40%",
        "14 AWG",
        "25mm²",
        "-5 °C",
        "07:00-08:30",
        "mon-fri",
        "A: sat; B: wed",
        "nov-mar",
        "6 mm auto",
        "blade-c, strip-30",
        "no",
        "0.4",
    ];
    let (names, _) = named_fields();
    let seeds = names.iter().flat_map(|name| samples.map(|s| headed(name, s.as_bytes())));
    hunt(
        "cells",
        seeds.collect(),
        &["ft", "in", "mm2", "AWG", "%", "°F", "kohm", "h", "min", "A:", "B:", "every other day"],
        |bytes| {
            thread_local!(static NAMES: (Vec<String>, Vec<&'static Field>) = named_fields());
            let (n, text) = NAMES.with(|(names, _)| parted(bytes, names));
            let field = NAMES.with(|(_, fields)| fields[n]);
            let text = String::from_utf8_lossy(text);
            for unit in Unit::ALL {
                assert!(
                    parse(&text, *unit).is_ok_and(f64::is_finite) || parse(&text, *unit).is_err(),
                    "{unit:?}: {text}"
                );
            }
            match field.parse(&text, &catalogue()) {
                Ok(value) => {
                    assert_eq!(field.accept(value.clone(), &catalogue()).as_ref(), Ok(&value), "{}: {text}", field.key);
                    let shown = [UnitSystem::Metric, UnitSystem::Us].map(|units| field.show(&value, units));
                    let number = matches!(value, Value::Number(_));
                    assert!(!number || shown.iter().all(|s| !s.contains("NaN") && !s.contains("inf")), "{shown:?}");
                    1
                }
                Err(why) => outcome([why.explain(field.label).as_str()]),
            }
        },
    );
}

/// Those that go out to a spreadsheet.
const LISTS: [Section; 2] = [Section::Load, Section::Run];

/// A plan's list from a spreadsheet; the first line says which list.
#[test]
fn sheets() {
    let example = read(plan::default_example().text, &catalogue()).plan;
    let mut seeds = Vec::new();
    for section in LISTS {
        for (every_column, decimal_comma) in [(false, false), (true, false), (true, true)] {
            let sheet = plan::to_sheet(&example, section, plan::SheetStyle { every_column, decimal_comma });
            seeds.push(headed(section.key(), sheet.as_bytes()));
        }
    }
    hunt("sheets", seeds, &keys(), |bytes| {
        let (n, sheet) = parted(bytes, &LISTS.map(|s| s.key().to_string()));
        let section = LISTS[n];
        match from_sheet(SMALL, section, &String::from_utf8_lossy(sheet), &catalogue()) {
            Ok(text) => outcome(read(&text, &catalogue()).problems.iter().map(|p| p.what.as_str())),
            Err(wrong) => {
                assert!(!wrong.is_empty() && wrong.iter().all(|w| !w.is_empty()));
                outcome(wrong.iter().map(String::as_str))
            }
        }
    });
}

/// A logger's file: recognised or not, row by row, and what is estimated from it.
#[test]
fn logs() {
    let head = |text: Vec<u8>| text.split_inclusive(|b| *b == b'\n').take(120).flatten().copied().collect::<Vec<u8>>();
    let mut seeds: Vec<Vec<u8>> = files("tests/reference/data/logs")
        .into_iter()
        .filter(|(name, _)| name.ends_with(".csv"))
        .map(|(_, text)| head(text))
        .collect();
    seeds.push(
        b"time|U [mV]|I [mA]|T\n11/27/2026 1:02:03 PM|12800|-1500|21\n11/27/2026 1:02:33 PM|12790|-1500|21\n".to_vec(),
    );
    seeds.push(b"s,volts,amps\n0,12.8,-1\n10,12.7,-2\n20,12.7,-2\n".to_vec());
    hunt(
        "logs",
        seeds,
        &["AM", "PM", "T", "Z", "+01:00", "volts", "amps", "time", "mV", "31.12.9999", "24:00:00", "|"],
        |bytes| {
            thread_local!(static DESIGN: (plan::Plan, loomwright::engine::Design) = {
                let plan = read(SMALL, &catalogue()).plan;
                let made = design(&plan, &catalogue());
                (plan, made)
            });
            let head = String::from_utf8_lossy(&bytes[..bytes.len().min(LARGEST_HEAD)]);
            let layout = match recognise(&head, &Asked::default()) {
                Ok(layout) => layout,
                Err(why) => return outcome([why.as_str()]),
            };
            DESIGN.with(|(plan, made)| {
                let mut collector = Collector::new(expected(made).unwrap());
                let mut rows = Rows::new(bytes, &layout).unwrap();
                rows.by_ref().for_each(|sample| collector.push(&sample));
                let log = collector.finish(layout.out);
                let answer = log_answer(plan, &catalogue(), made, &log, layout.clock.dated());
                let left_out = rows.left_out.words();
                let told = layout.words().into_iter().map(|(_, words)| words).chain(left_out).collect::<Vec<_>>();
                assert!(!format!("{answer:?}").contains("NaN"), "{answer:?}");
                outcome(told.iter().map(String::as_str))
            })
        },
    );
}

/// Keys and mouse by bytes, on a small plan: undo to the start gives it back.
#[test]
fn keyboard() {
    let seeds = [
        "L\r50 W\rn\rd",
        "R\t\t\r16 mm2\ru",
        "yShelf\r\r80\r",
        "b20\r7\r\x14u",
        "/fuse\r",
        "F\ra\ru?\x1bw\x1b",
        "BtzCDGHTxVmvhpP\x1b",
    ];
    hunt(
        "keyboard",
        seeds.map(|s| s.as_bytes().to_vec()).to_vec(),
        &["\x1b", "\r", "\t", "u", "12.2", "Del", "\x7f"],
        |bytes| {
            let mut driver = Driver::on(SMALL, 80, 24);
            for byte in bytes.iter().take(40) {
                let code = match byte {
                    b'\r' | b'\n' => KeyCode::Enter,
                    b'\t' => KeyCode::Tab,
                    0x1b => KeyCode::Esc,
                    0x7f => KeyCode::Backspace,
                    0x80..=0x8f => KeyCode::Down,
                    0x90..=0x9f => KeyCode::Right,
                    0xa0..=0xaf => KeyCode::Up,
                    0xb0..=0xbf => KeyCode::Left,
                    0xc0..=0xc7 => KeyCode::PageDown,
                    other => KeyCode::Char(char::from(*other)),
                };
                let (code, held) = if *byte < 0x20 && matches!(code, KeyCode::Char(_)) {
                    (KeyCode::Char(char::from(byte + 0x60)), KeyModifiers::CONTROL)
                } else {
                    (code, KeyModifiers::NONE)
                };
                for action in
                    loomwright::screens::actions(&driver.app, &mut driver.view, &Event::Key(KeyEvent::new(code, held)))
                {
                    if !left_out(&action) && !long(&action) && !driver.chooses(&action) {
                        update(&mut driver.app, action);
                    }
                }
            }
            driver.draw();
            let seen = driver.screen();
            driver.app.editing = None;
            driver.app.overlay = None;
            for _ in 0..60 {
                update(&mut driver.app, Action::Undo);
            }
            assert_eq!(&*driver.app.now.text, SMALL);
            outcome(seen.lines().take(4))
        },
    );
}

/// What tries hundreds of designs, which has tests of its own.
fn long(action: &Action) -> bool {
    matches!(action, Action::Compare | Action::Mend | Action::Simulate(_) | Action::DrawChances(_))
}
