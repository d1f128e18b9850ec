//! How every screen looks, at three sizes; without colour; in ASCII; in windows of any size.

use crate::driver::Driver;
use loomwright::screens::{Screen, Target, Theme};
use ratatui::style::{Color, Modifier};

fn settings() -> insta::Settings {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots");
    settings.set_prepend_module_to_snapshot(false);
    settings
}

/// The text and where it is bold, reversed, dim; then the same place by place in colour.
#[test]
fn every_screen_at_every_size() {
    settings().bind(|| {
        for (width, height) in [(80, 24), (120, 40), (200, 60)] {
            for &screen in Screen::ALL {
                let mut d = Driver::new(width, height);
                d.keys(&screen.key().to_string());
                let name = format!("{}_{width}x{height}", screen.name());
                insta::assert_snapshot!(format!("{name}_colour"), styles(&d));
                d.app.theme = Theme::Plain;
                d.draw();
                insta::assert_snapshot!(name, format!("{}\n\n{}", d.screen(), styles(&d)));
            }
        }
    });
}

/// A sign for the style of each cell: `.` plain, `#` reversed, `_` underlined, `-` dim, `B` bold, else
/// the first letter of its colour, large when bold.
fn styles(d: &Driver) -> String {
    let buffer = d.buffer();
    let sign = |x: u16, y: u16| {
        let cell = &buffer[(x, y)];
        let letter = match cell.fg {
            Color::Reset => '.',
            colour => format!("{colour}").chars().next().unwrap().to_ascii_lowercase(),
        };
        match cell.modifier {
            m if m.contains(Modifier::REVERSED) => '#',
            m if m.contains(Modifier::UNDERLINED) => '_',
            m if m.contains(Modifier::DIM) => '-',
            m if m.contains(Modifier::BOLD) && letter == '.' => 'B',
            m if m.contains(Modifier::BOLD) => letter.to_ascii_uppercase(),
            _ => letter,
        }
    };
    let area = *buffer.area();
    let row = |y| (0..area.width).map(|x| sign(x, y)).collect::<String>().trim_end_matches('.').to_string();
    (0..area.height).map(row).collect::<Vec<_>>().join("\n")
}

#[test]
fn what_lies_over_the_screens() {
    settings().bind(|| {
        for (name, keys) in [
            ("editing", "R Right*2 Enter '20 ft'"),
            ("picking", "B Enter"),
            ("refused", "Right*3 Enter 'lots' Enter"),
            ("help", "?"),
            ("new_load", "n"),
            ("leave", "d q"),
            ("walk", "N Enter"),
        ] {
            let mut d = Driver::new(80, 24);
            d.keys(keys);
            insta::assert_snapshot!(format!("over_{name}"), d.screen());
        }
    });
}

/// Without colour the same words and signs stand in the same places.
#[test]
fn colour_carries_nothing_by_itself() {
    for &screen in Screen::ALL {
        let mut d = Driver::new(120, 40);
        d.keys(&screen.key().to_string());
        let colour = d.screen();
        d.app.theme = Theme::Plain;
        d.draw();
        assert_eq!(d.screen(), colour);
        let plain = d.buffer().content().iter().all(|c| c.fg == Color::Reset && c.bg == Color::Reset);
        assert!(plain, "{} has colours", screen.title());
    }
}

/// Only the terminal's own 16 colours are used, so that light and dark backgrounds both work.
#[test]
fn no_colour_is_made_for_one_background() {
    for &screen in Screen::ALL {
        let mut d = Driver::new(120, 40);
        d.keys(&screen.key().to_string());
        for cell in d.buffer().content() {
            assert!(!matches!(cell.fg, Color::Rgb(..) | Color::Indexed(_) | Color::White | Color::Black));
            assert_eq!(cell.bg, Color::Reset);
        }
    }
}

#[test]
fn ascii_only_means_all_of_it() {
    for &screen in Screen::ALL {
        for keys in ["", "Enter", "?", ":", "w", "o", "N Enter"] {
            let mut d = Driver::new(100, 30);
            d.app.ascii = true;
            d.keys(&format!("{} {keys}", screen.key()));
            let odd: String = d.screen().chars().filter(|c| !c.is_ascii()).collect();
            assert!(odd.is_empty(), "{} after `{keys}`: {odd}", screen.title());
        }
    }
}

#[test]
fn any_window_draws_and_small_ones_say_what_they_need() {
    for keys in ["", "Enter", "?", "R Right*2 Enter '20'", ": 'save'", "N", "C w", "d q", "z"] {
        let mut d = Driver::new(80, 24);
        d.keys(keys);
        for (width, height) in [(1, 1), (2, 5), (10, 3), (59, 16), (60, 15), (60, 16), (61, 17), (300, 100), (300, 4)] {
            d.resize(width, height);
        }
        d.resize(59, 30);
        d.sees("The window needs 60 × 16");
        d.resize(60, 16);
        d.sees("Loads");
    }
}

/// Beside an empty line at the foot of a pane no word of it is cut off.
#[test]
fn nothing_is_cut_beside_an_empty_line() {
    for (width, height) in [(80, 24), (120, 40), (200, 60)] {
        for &screen in Screen::ALL {
            let mut d = Driver::new(width, height);
            d.keys(&screen.key().to_string());
            let lines: Vec<Vec<char>> = d.screen().lines().map(|l| l.chars().collect()).collect();
            for (area, target) in &d.view.targets {
                if !matches!(target, Target::Pane(_)) {
                    continue;
                }
                let row = |y: u16| -> String {
                    let line = &lines[usize::from(y)];
                    line.iter().skip(usize::from(area.x) + 1).take(usize::from(area.width) - 2).collect()
                };
                let inner: Vec<String> = (area.top() + 1..area.bottom() - 1).map(row).collect();
                // A continued line needs one for each of its words at most: one empty line may be too few.
                let empty = inner.iter().rev().take_while(|l| l.trim().is_empty()).count();
                let cut = inner.iter().find(|l| l.contains('…'));
                assert!(empty < 2 || cut.is_none(), "{cut:?} on {} at {width}×{height}", screen.title());
            }
        }
    }
}
