//! A fault is looked for on the screens: what is seen, one reading after the other, the repair; nothing typed is lost.

use crate::driver::Driver;

/// What the meter shows if this is the cause, by the screen's own line: the middle of `12.66 V to 13.88 V`.
fn shown(d: &Driver, cause: &str) -> Option<f64> {
    let screen = d.screen();
    // Lines are wrapped: each item of the list begins with a dash.
    let words = screen.lines().filter_map(|l| l.split('┃').nth(1)).map(str::trim).collect::<Vec<_>>().join(" ");
    let items = words.split(" - ").filter(|i| i.contains(" to ") && i.contains(": "));
    let item = items.into_iter().find(|i| i.split_whitespace().collect::<Vec<_>>().join(" ").contains(cause))?;
    let (range, _) = item.split_once(':')?;
    let (low, high) = range.split_once(" to ")?;
    let number = |t: &str| t.split_whitespace().next()?.trim_start_matches('-').parse::<f64>().ok();
    let (low_sign, high_sign) = (low.trim().starts_with('-'), high.trim().starts_with('-'));
    let sign = |n: f64, minus: bool| if minus { -n } else { n };
    Some((sign(number(low.trim())?, low_sign) + sign(number(high.trim())?, high_sign)) / 2.0)
}

/// A dark fridge whose fuse has gone, as somebody meets it: few keys, and the repair at the end.
#[test]
fn a_blown_fuse_is_found_by_a_few_readings() {
    for (width, height) in [(80, 24), (120, 40)] {
        let mut d = Driver::new(width, height);
        d.keys("x").sees("What is wrong?").sees("a load does nothing");
        d.keys("Enter").sees("Which load?");
        d.keys("'fridge' Enter").sees("Measure next").sees("only `fridge` switched on, engine off");
        let mut readings = 0;
        while d.screen().contains("Measure next") {
            readings += 1;
            assert!(readings < 8, "{}", d.screen());
            match shown(&d, "fridge lead, plus side: its fuse blown") {
                Some(volts) => d.keys(&format!("'{volts:.2}' Enter")),
                None => d.keys("Tab"),
            };
        }
        d.sees("Repair").sees("Proof").sees("fridge lead");
        // The last reading is taken back, and the search goes on where it was left.
        d.keys("Backspace").sees("Measure next");
        d.keys("Esc").sees_not("Measure next");
        d.keys("x").sees("go on: fridge: a load does nothing");
        d.keys("Enter").sees("Measure next");
        assert!(!d.app.unsaved());
    }
}

#[test]
fn what_is_no_reading_is_said_and_taken_for_none() {
    let mut d = Driver::new(80, 24);
    d.keys("x 'charger' Enter").sees("Measure next");
    let before = d.screen();
    d.keys("Enter").sees("type what the meter shows");
    d.keys("'abc' Enter").sees("not a number");
    d.keys("Backspace*3");
    assert_eq!(d.screen(), before);
}

/// A lead that hangs in the air shows a tenth of a volt on many meters: it is open all the same.
#[test]
fn a_stray_tenth_of_a_volt_is_none() {
    let mut d = Driver::new(120, 60);
    d.keys("x Enter 'fridge' Enter '0.1' Enter");
    let screen = d.screen();
    let first = screen.lines().skip_while(|l| !l.contains("Causes")).find(|l| l.contains(" %: ")).unwrap();
    assert!(first.contains("its fuse blown"), "{screen}");
}
