//! A logger's file is taken in on the screens: recognised, confirmed, held against the plan, taken line by line.

use crate::driver::Driver;
use loomwright::screens::Screen;

const PLAN: &str = include_str!("../reference/data/logs/van.toml");
/// Made by tests/reference/scripts/log_cell.py: a battery of 92 Ah, its truth in the first line.
const LOG: &str = include_str!("../reference/data/logs/lead.csv");

fn beside(width: u16, height: u16) -> (Driver, tempfile::TempDir) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("week.csv");
    std::fs::write(&path, LOG).unwrap();
    let mut d = Driver::on(PLAN, width, height);
    d.keys(&format!("i '{}' Enter", path.display()));
    (d, folder)
}

/// What was recognised is shown before anything is made of it, and can be said otherwise.
#[test]
fn a_file_is_shown_as_it_was_recognised() {
    let (mut d, _folder) = beside(80, 24);
    d.sees("is it read rightly?").sees("Between cells").sees("‹ ; ›").sees("comma").sees("day first");
    d.sees("Spannung").sees("volts").sees("02.03.2026;00:00:00;13,00;-0,21");
    // Other cells: nothing is made of it, and it says so; Home recognises it anew.
    d.keys("Right").sees_not("‹ ; ›");
    d.keys("Home").sees("‹ ; ›");
    // The current's way is taken from the voltage until somebody says it.
    d.keys("Down*9 Up*4").sees("told by the voltage");
    d.keys("Right").sees("out of the battery");
    d.keys("Esc").sees_not("read rightly");
    assert_eq!(&*d.app.now.text, PLAN);
}

#[test]
fn planned_and_measured_stand_side_by_side_and_a_line_is_taken_as_one_step() {
    let (mut d, _folder) = beside(120, 40);
    d.keys("Enter").sees("beside the plan").sees("Planned").sees("Measured").sees("Capacity of the bank");
    // The cell that made the log holds 92 Ah (first line of the file): within the bounds shown.
    let screen = d.screen();
    let line = screen.lines().find(|l| l.contains("Capacity of the bank")).unwrap();
    let bounds = line.rsplit_once(" to ").unwrap();
    let last = |t: &str| t.split_whitespace().filter_map(|w| w.parse::<f64>().ok()).collect::<Vec<_>>();
    let (least, most) = (*last(bounds.0).last().unwrap(), last(bounds.1)[0]);
    assert!(least <= 92.0 && 92.0 <= most, "{line}");
    assert!(line.contains('>'), "{line}");
    d.keys("Enter").sees("taken from the log: capacity");
    let measured = d.app.now.plan.measured.clone();
    assert_eq!((measured.len(), measured[0].year, measured[0].month), (1, 2026, 3));
    // Taken once: the plan knows it now.
    d.keys("Enter").sees("there is nothing to take");
    d.keys("u").sees("undone");
    assert_eq!(&*d.app.now.text, PLAN);
    // All that differs is one step too.
    d.keys("a").sees("taken from the log: ");
    assert_ne!(&*d.app.now.text, PLAN);
    d.keys("u");
    assert_eq!(&*d.app.now.text, PLAN);
}

#[test]
fn both_curves_are_drawn_and_what_was_read_is_kept_when_it_is_closed() {
    for (width, height) in [(80, 24), (200, 60)] {
        let (mut d, _folder) = beside(width, height);
        d.keys("Enter Tab").sees("m measured").sees("e expected of the plan").sees("after 0 d 00:00");
        d.keys("Right").sees_not("after 0 d 00:00");
        d.keys("Tab").sees("Clock: day, month, year").sees("count.");
        d.keys("Tab").sees("Capacity of the bank");
        d.keys("Esc R i").sees("go on with week.csv");
        d.keys("Enter").sees("Capacity of the bank");
        assert_eq!((d.app.screen, &*d.app.now.text), (Screen::Runs, PLAN));
    }
}

#[test]
fn what_is_no_log_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("letter.csv");
    std::fs::write(&path, "Dear reader,\nthis is no log.\n").unwrap();
    let mut d = Driver::on(PLAN, 80, 24);
    d.keys(&format!("i '{}' Enter", path.display())).sees("it has no two rows of a time and numbers");
    d.keys("Enter").sees("it has no two rows");
    d.keys("Esc i 'nowhere.csv' Enter").sees("cannot be read");
}
