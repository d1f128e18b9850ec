//! Plots: marks where their values are, and a cursor that reads.

use crate::driver::Driver;

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
