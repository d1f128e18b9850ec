//! Files as loggers write them: each is recognised, and what is wrong in it told and left out.

use super::layout::cells;
use super::{Asked, Clock, Layout, LeftOut, Rows, recognise};
use crate::engine::Sample;
use crate::quantity::*;

fn read(text: &str, asked: &Asked) -> (Layout, Vec<Sample>, LeftOut) {
    let layout = recognise(text, asked).unwrap();
    let mut rows = Rows::new(text.as_bytes(), &layout).unwrap();
    let samples: Vec<Sample> = rows.by_ref().collect();
    let left_out = rows.left_out.clone();
    (layout, samples, left_out)
}

/// Four rows a minute apart in every way of writing them.
#[track_caller]
fn same(text: &str, starts: f64) {
    let (_, rows, left_out) = read(text, &Asked::default());
    let got: Vec<_> = rows.iter().map(|s| (s.at.get(), s.volts.unwrap().get(), s.amps.unwrap().get())).collect();
    let want: Vec<_> = (0..4).map(|n| (starts + 60.0 * f64::from(n), 12.5 + 0.1 * f64::from(n), -3.25)).collect();
    for (got, want) in got.iter().zip(&want) {
        let near = (got.0 - want.0).abs() < 1e-3 && (got.1 - want.1).abs() < 1e-9 && (got.2 - want.2).abs() < 1e-9;
        assert!(near, "{got:?} for {want:?} in\n{text}");
    }
    assert_eq!((got.len(), left_out.words()), (4, vec![]), "{text}");
}

fn rows(head: &str, row: impl Fn(u32) -> String) -> String {
    let rows: Vec<String> = (0..4).map(row).collect();
    format!("{head}{}\n", rows.join("\n"))
}

#[test]
fn delimiters_decimals_clocks_and_columns_are_recognised() {
    // 2026-11-27 10:58, by any calendar: 1795777080 s since 1970 without a zone.
    let start = 1_795_777_080.0;
    let v = |n: u32| format!("12.{}", 5 + n);
    let comma = |n: u32| format!("12,{}", 5 + n);
    let clock = |n: u32| format!("{:02}:{:02}", 10 + (58 + n) / 60, (58 + n) % 60);
    same(&rows("time,voltage,current\n", |n| format!("2026-11-27 {}:00,{},-3.25", clock(n), v(n))), start);
    same(
        &rows("Time;Battery voltage (V);Battery current (A)\n", |n| {
            format!("2026-11-27T{}:00Z;{};-3.25", clock(n), v(n))
        }),
        start,
    );
    same(
        &rows("Datum;Uhrzeit;Spannung;Strom;SOC\n", |n| format!("27.11.2026;{};{};-3,25;98,1", clock(n), comma(n))),
        start,
    );
    same(&rows("Date\tTime\tI\tU\n", |n| format!("11/27/26\t{}\t-3.25\t{}", clock(n), v(n))), start);
    same(
        &rows("a logger of some sort\nserial 17\n\nTimestamp,mV,mA\n", |n| {
            format!("{},{},-3250", 1_795_777_080 + 60 * n, 12_500 + 100 * n)
        }),
        start,
    );
    same(
        &rows("timestamp (ms),V,A\n", |n| format!("{},{},-3.25", (1_795_777_080 + 60 * u64::from(n)) * 1000, v(n))),
        start,
    );
    same(&rows("", |n| format!("{},{},-3.25", 60 * n, v(n))), 0.0);
    same(&rows("elapsed min|volts|amps|temperature\n", |n| format!("{n}|{} V|-3.25 A|21 °C", v(n))), 0.0);
    let noon = |n: u32| format!("11/27/2026 {:02}:{:02}:00 {}", if n < 2 { 10 } else { 11 }, (58 + n) % 60, "AM");
    same(&rows("when the time was,voltage,load current\n", |n| format!("\"{}\",{},-3.25", noon(n), v(n))), start);
    // Days of a spreadsheet: 2026-11-27 is 46353 (25569 of 1970-01-01 and 20784 days).
    same(
        &rows("time,volts,amps\n", |n| format!("{:.9},{},-3.25", 46_353.0 + f64::from(658 + n) / 1440.0, v(n))),
        start,
    );
}

#[test]
fn what_is_said_counts() {
    let text = rows("a,b,c\n", |n| format!("03/04/2026 10:{n:02},-3.25,12.5"));
    let asked = Asked {
        columns: ["time", "amps", "volts"].map(String::from).to_vec(),
        month_first: Some(true),
        out: Some(true),
        ..Asked::default()
    };
    let (layout, samples, _) = read(&text, &asked);
    assert_eq!((layout.out, samples[0].amps), (Some(true), Some(Amps::new(-3.25))));
    // The fourth of March 2026 is day 20516.
    assert_eq!(samples[0].at.get(), 20_516.0 * 86_400.0 + 36_000.0);
    let (open, ..) = read(&text, &Asked { month_first: None, ..asked.clone() });
    assert!(open.open, "a date with two readings says so");
    for text in ["", "nothing\nof\nuse\n", "time,amps\n", "x\ty\n1\t2\n1\t2\n"] {
        assert!(recognise(text, &Asked::default()).is_err(), "{text:?}");
    }
    assert!(recognise(&text, &Asked { columns: vec!["watts".into()], ..asked }).is_err());
}

#[test]
fn gaps_resets_and_impossible_values_are_told_and_left_out() {
    let mut text = String::from("time,volts,amps\n");
    let mut line = |t: i64, v: &str, a: &str| text.push_str(&format!("{t},{v},{a}\n"));
    for n in 0..10 {
        line(n * 10, "12.5", "1.0");
    }
    line(100, "0.00", "1.0"); // a spike
    line(110, "12.5", "1.0");
    line(120, "655.35", "1.0"); // impossible
    line(130, "NaN", "1.0");
    line(140, "12.5", "");
    line(150, "12.5", "1.0");
    line(150, "12.5", "1.0"); // repeated
    line(5000, "12.5", "1.0"); // after a gap
    line(5010, "12.5", "1.0");
    line(0, "12.5", "1.0"); // the clock was set
    line(10, "12.5", "1.0");
    line(1_700_000_000, "12.5", "1.0"); // and set again
    let (_, samples, left) = read(&text, &Asked::default());
    let told = (left.spikes, left.impossible, left.unreadable, left.repeated, left.gaps, left.resets);
    assert_eq!(told, (1, 1, 2, 1, 1, 2), "{left:?}");
    assert_eq!(left.missing, Seconds::new(4850.0));
    assert!(samples.windows(2).all(|w| w[1].at > w[0].at));
    let after: Vec<f64> = samples.iter().filter(|s| s.after_gap).map(|s| s.at.get()).collect();
    assert_eq!(after, [5000.0, 5020.0, 5040.0]);
    assert_eq!(left.words().len(), 6, "{:?}", left.words());
}

#[test]
fn midnight_is_passed_by_a_clock_without_a_date() {
    let text =
        rows("time,volts,amps\n", |n| format!("{:02}:{:02}:00,12.5,1", (23 + (58 + n) / 60) % 24, (58 + n) % 60));
    let (layout, samples, left) = read(&text, &Asked::default());
    let times: Vec<f64> = samples.iter().map(|s| s.at.get() - samples[0].at.get()).collect();
    assert_eq!(times, [0.0, 60.0, 120.0, 180.0]);
    assert!(left.words().is_empty() && !layout.clock.dated());
}

/// Delimiter, decimals and clock said otherwise than they would be recognised.
#[test]
fn the_way_of_writing_can_be_said() {
    let text = rows("t;volts;amps\n", |n| format!("{n};12,5;{n},25"));
    let minutes = Asked { clock: Some(Clock::Elapsed(60.0)), ..Asked::default() };
    let (layout, samples, _) = read(&text, &minutes);
    assert_eq!((layout.delimiter, layout.comma, layout.step.get()), (';', true, 60.0));
    assert_eq!(samples[1].at.get() - samples[0].at.get(), 60.0);
    // With the comma between the cells there are other columns, none of which is a voltage.
    let comma = Asked { delimiter: Some(','), ..Asked::default() };
    assert!(recognise(&text, &comma).is_err());
    let point = Asked { comma: Some(false), ..Asked::default() };
    assert!(recognise(&text, &point).is_err());
    // Every name leads back to its clock.
    for (word, clock) in Clock::NAMED {
        assert_eq!(clock.word(), word);
    }
}

/// A line without quotes is cut as the library for such files cuts it, whatever stands in it.
#[test]
fn lines_are_cut_as_the_library_does() {
    let by_library = |line: &str, delimiter: u8| -> Vec<String> {
        let mut reader = csv::ReaderBuilder::new().has_headers(false).delimiter(delimiter).from_reader(line.as_bytes());
        reader.records().next().map_or_else(Vec::new, |row| row.unwrap().iter().map(String::from).collect())
    };
    let lines =
        ["", "a", "a,b", ",", "1;2,5;", " 1 ,\t2", "µ;ä;€", "\t\t", "# 1,2", "1,\"2,3\",4", "1\r2,3", "\"\",'a'"];
    for (line, delimiter) in lines.iter().flat_map(|line| [(line, b','), (line, b';'), (line, b'\t')]) {
        assert_eq!(cells(line, delimiter), by_library(line, delimiter), "{line:?}");
    }
}
