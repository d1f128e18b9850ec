//! Plots: marks where their values are, and a cursor that reads.

use crate::driver::Driver;
use loomwright::plan::{self, Place, Section, Value};

/// Each mark of the charge axis stands where its value lies, to a column.
#[test]
fn marks_stand_where_their_values_are() {
    for (width, height) in [(80, 24), (120, 40), (200, 60)] {
        let mut d = Driver::new(width, height);
        d.keys("C");
        let screen = d.screen();
        let lines: Vec<Vec<char>> = screen.lines().map(|l| l.chars().collect()).collect();
        let axis = lines.iter().find(|l| l.contains(&'┴') && l.contains(&'└') && !l.contains(&'┘')).unwrap();
        let corner = axis.iter().position(|c| *c == '└').unwrap();
        let marks: Vec<usize> = (0..axis.len()).filter(|&c| axis[c] == '┴').collect();
        let (first, last) = (marks[0], marks[4]);
        assert_eq!((marks.len(), first), (5, corner + 1), "{screen}");
        for (n, mark) in marks.iter().enumerate() {
            let wanted = first as f64 + (last - first) as f64 * n as f64 / 4.0;
            assert!((*mark as f64 - wanted).abs() <= 1.0, "{n}: {mark} for {wanted}\n{screen}");
        }
        // The label lies under its mark.
        let labels = &lines[lines.iter().position(|l| l == axis).unwrap() + 1];
        let under: String = labels[marks[3] - 2..marks[3] + 2].iter().collect();
        assert_eq!(under.trim(), "75", "{screen}");
    }
}

#[test]
fn days_have_their_names_and_a_cursor_reads_the_curve() {
    let mut d = Driver::new(120, 40);
    d.keys("D").sees("Mon     Tue").sees_not("day 1, Mon");
    d.keys("Tab").sees("day 1, Mon 00:00  S 9");
    d.keys("Right*7").sees("day 1, Mon 14:00");
    d.keys("End").sees("day 15, Mon 00:00");
    d.keys("Home").sees("day 1, Mon 00:00");
}

/// At the smallest usual window too the cursor tells every curve's value.
#[test]
fn the_cursor_reads_every_curve_in_a_small_window() {
    let mut d = Driver::new(80, 24);
    d.keys("C Tab*2 Right*3");
    let screen = d.screen();
    let below = screen.split_once("State of charge, %").unwrap().1;
    for curve in ["r ", "l ", "u ", "h "] {
        // The words of the pane beside it stand in the same lines.
        let mut after = below.match_indices(curve).filter_map(|(at, _)| below[at + curve.len()..].chars().next());
        assert!(after.any(|number| number.is_ascii_digit()), "{curve}:\n{screen}");
    }
}

/// A battery far too small: who stands without power, and when, has a line below the curve.
#[test]
fn each_loads_outage_stands_under_the_days() {
    let place = Place::of(Section::ServiceBattery, "capacity_ah");
    let small = plan::set(plan::default_example().text, place, Some(&Value::Number(20.0))).unwrap();
    for (width, height) in [(80, 24), (120, 40), (200, 60)] {
        let mut d = Driver::on(&small, width, height);
        d.keys("D Tab z").sees("x without power");
        let screen = d.screen();
        let bar = screen.lines().find(|l| l.contains("table lamps│")).unwrap_or_else(|| panic!("{screen}"));
        let axis = screen.lines().find(|l| l.contains('└') && l.contains('┴') && !l.contains('┘')).unwrap();
        let at = |line: &str, sign: char| line.chars().position(|c| c == sign);
        // Under the axis: it begins behind its corner.
        assert!(at(axis, '└').unwrap() < at(bar, 'x').unwrap(), "{screen}");
        // The signs are as much of the axis as the outages are of the days; each may be longer by a column at either end.
        let days = d.app.scene().days.unwrap().result.as_ref().unwrap();
        let outages: Vec<f64> =
            days.outages.iter().filter(|o| o.load == 1).map(|o| (o.until - o.from).get() / 336.0).collect();
        let columns = axis.chars().filter(|c| "─┴".contains(*c)).count() as f64;
        let (signs, share) = (bar.matches('x').count() as f64 / columns, outages.iter().sum::<f64>());
        let most = share + 2.0 * outages.len() as f64 / columns;
        assert!(share > 0.0 && (share - 0.01..=most).contains(&signs), "{signs} for {share}\n{screen}");
    }
}
