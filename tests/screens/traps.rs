//! What made people stumble: each key does what it seems to do, where it can be seen.

use crate::driver::Driver;
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use loomwright::engine::Finding;
use loomwright::plan::{self, Place, Section, Value};
use loomwright::screens::{Action, Event, Screen, Theme};
use ratatui::style::Modifier;

fn text() -> &'static str {
    plan::default_example().text
}

/// Every key that a hand can slip on, without those that write files.
const SLIPS: &str = "0 1 2 3 4 5 6 7 8 9 - . n c d K J u r a e w g v p z + Enter Tab Backspace Up Down Left Right";

#[test]
fn a_digit_goes_into_the_field_in_hand() {
    let mut d = Driver::new(80, 24);
    d.keys("Right*3 '60' Enter").sees("fridge, power: 45 W → 60 W");
    assert_eq!(d.app.screen, Screen::Loads);
    d.keys("B Down '100' Enter");
    assert!(d.app.now.text.contains("capacity_ah = 100"));
    d.keys("Down*20 Up*4 '-12' Enter").sees("-12 °C");
}

#[test]
fn a_digit_where_nothing_can_be_typed_changes_nothing_and_says_why() {
    let mut d = Driver::new(120, 40);
    d.keys("Right*6 '45'").sees("worked out by the program");
    assert_eq!((d.app.screen, &*d.app.now.text), (Screen::Loads, text()));
    assert!(d.app.editing.is_none());
}

#[test]
fn every_screen_is_one_letter_away_and_shows_which() {
    let mut d = Driver::new(80, 24);
    for &screen in Screen::ALL {
        d.keys(&screen.key().to_string());
        assert_eq!(d.app.screen, screen);
        assert!(screen.title().to_uppercase().contains(screen.key()), "{}", screen.title());
    }
    // The letters of the others stand out in the row of screens, also without colour.
    d.app.theme = Theme::Plain;
    d.draw();
    let row: String = (0..80)
        .filter(|x| d.buffer()[(*x, 1)].modifier.contains(Modifier::UNDERLINED))
        .map(|x| d.buffer()[(x, 1)].symbol().to_uppercase())
        .collect();
    let keys: String = Screen::ALL.iter().map(|s| s.key()).collect();
    assert_eq!(row, keys);
}

/// So a terminal sends Escape and a capital that follow each other closely.
#[test]
fn escape_and_a_screens_letter_in_one_breath_are_two_keys() {
    let mut d = Driver::new(80, 24);
    let held = KeyModifiers::ALT | KeyModifiers::SHIFT;
    d.keys("Enter");
    d.event(Event::Key(KeyEvent::new(KeyCode::Char('R'), held)));
    assert!(d.app.editing.is_none());
    assert_eq!(d.app.screen, Screen::Runs);
}

#[test]
fn a_space_in_a_search_is_a_space() {
    let mut d = Driver::new(80, 24);
    d.keys("N Enter 'cool box'").sees("cool box").sees("Compressor cool box");
    let found = d.screen();
    assert!(found.lines().filter(|l| l.contains("[ ]")).all(|l| l.contains("cool box")), "{found}");
    // Enter takes what was found and waits for the next; an empty search is the answer.
    d.keys("Enter").sees("[x] Compressor cool box").sees("question 2 of 9");
    d.keys("Enter").sees("question 3 of 9");
}

#[test]
fn nothing_ticked_stays_nothing() {
    let mut d = Driver::new(80, 24);
    d.keys("N Enter Space").sees_not("[x]");
    d.keys("Enter*8").sees("your plan");
    assert!(d.app.now.plan.loads.is_empty());
}

#[test]
fn enter_takes_what_was_typed_when_it_is_a_valid_name() {
    let mut d = Driver::new(80, 24);
    // `rear` is part of `rear panel`, which the list offers; it is a name of its own too.
    d.keys("Right 'x' Esc Enter 'rear' Enter");
    assert_eq!(d.app.now.plan.loads[0].at, "rear");
    d.keys("u");
    let folder = tempfile::tempdir().unwrap();
    let (own, other) = (folder.path().join("van.toml"), folder.path().join("caravan.toml"));
    std::fs::write(&own, text().replace("Bird-ringing van", "The right one")).unwrap();
    std::fs::write(&other, text()).unwrap();
    loomwright::screens::update(&mut d.app, Action::OpenPlan(other));
    d.keys(&format!("o '{}' Enter", own.display())).sees("The right one");
    d.keys("o 'van.toml' Enter").sees("The right one");
}

#[test]
fn a_load_that_is_in_no_list_can_be_chosen_though_others_match() {
    let mut d = Driver::new(80, 24);
    d.keys("n 'pump'").sees("a load of your own: “pump”");
    d.keys("Down*20 Enter").sees("new load: pump");
}

/// Wherever the keys go, a frame says where the next one will act.
#[test]
fn the_pane_and_the_cell_in_hand_are_always_in_sight() {
    for (width, height) in [(60, 16), (80, 24), (120, 40), (200, 60)] {
        for &screen in Screen::ALL {
            let mut d = Driver::new(width, height);
            d.keys(&screen.key().to_string());
            let panes = d.app.all_panes().len();
            for pane in 0..panes {
                assert_eq!(d.app.pane(), pane, "{} at {width}×{height}", screen.title());
                for zoomed in ["", "z", "z Down*30 Right*30", "z"] {
                    d.keys(zoomed);
                    is_in_sight(&d, &format!("{} pane {pane} at {width}×{height} {zoomed}", screen.title()));
                }
                d.keys("Tab");
            }
        }
    }
}

/// One pane is marked as the one in hand, and in a table one cell.
fn is_in_sight(d: &Driver, at: &str) {
    assert_eq!(d.screen().matches('▸').count(), 1, "{at}:\n{}", d.screen());
    let (width, height) = (d.buffer().area.width, d.buffer().area.height);
    let mut body = (2..height - 2).flat_map(|y| (0..width).map(move |x| (x, y)));
    let marked = body.any(|p| d.buffer()[p].modifier.contains(Modifier::REVERSED));
    assert!(d.app.cell().is_none() || marked, "no cell in hand: {at}:\n{}", d.screen());
}

#[test]
fn a_screen_begins_in_its_first_pane_so_that_n_adds() {
    let mut d = Driver::new(80, 24);
    d.keys("Tab R L");
    assert_eq!(d.app.pane(), 0);
    d.keys("n").sees("New load");
    // From a side pane too: it adds to the list of the screen.
    d.keys("Esc Tab n").sees("New load");
    d.keys("Esc R Tab*2 n");
    assert_eq!(d.app.now.plan.runs.len(), plan_runs() + 1);
}

fn plan_runs() -> usize {
    let catalogue = crate::driver::catalogue();
    plan::read(text(), &catalogue).plan.runs.len()
}

#[test]
fn enter_on_a_remedy_asks_before_it_changes_the_plan() {
    let thin = text().replacen("length_m = 4.5", "length_m = 4.5\nsize = \"0.5 mm2\"", 1);
    let mut d = Driver::on(&thin, 120, 40);
    let mends = |f: &Finding| f.remedies.iter().position(|r| !r.edits.is_empty());
    let findings = &d.app.now.design.findings;
    let (finding, row) = findings.iter().enumerate().find_map(|(n, f)| Some((n, mends(f)?))).unwrap();
    d.keys(&format!("F Down*{finding} Tab Tab"));
    d.keys(&format!("Down*{row} Enter")).sees("Mend it?");
    assert_eq!(*d.app.now.text, *thin);
    d.keys("Esc");
    assert_eq!(*d.app.now.text, *thin);
    d.keys("Enter a");
    assert_ne!(*d.app.now.text, *thin);
}

/// Two mistakes: taken whole they are one step back, taken by line the rest is looked for again.
#[test]
fn the_list_of_the_fewest_edits_is_taken_whole_or_by_line() {
    let thin = text().replacen("length_m = 4.5", "length_m = 4.5\nsize = \"0.5 mm2\"", 1);
    let wrong = plan::set(&thin, Place::of(Section::CutOff, "cut_v"), Some(&Value::Number(9.5))).unwrap();
    let mut d = Driver::on(&wrong, 120, 40);
    d.keys("F M").sees("all 2 of them");
    d.keys("Enter");
    assert!(!d.app.now.design.has_stop());
    d.keys("u");
    assert_eq!(*d.app.now.text, *wrong);
    d.keys("F M Down Enter").sees("Mend: the fewest edits");
    d.keys("Enter");
    assert!(!d.app.now.design.has_stop());
    d.keys("u u");
    assert_eq!(*d.app.now.text, *wrong);
    d.keys("F M Esc");
    assert_eq!(*d.app.now.text, *wrong);
}

/// One is taken over as one step; the page to decide by is read from the same list.
#[test]
fn a_rival_is_taken_over_as_one_step() {
    let small = "format = 2\n[service_battery]\nchemistry = \"agm\"\n\
        [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
        [[run]]\nfrom = \"cut-off\"\nto = \"lamp\"\nlength_m = 3\n\
        [[load]]\nname = \"lamp\"\nat = \"lamp\"\npower_w = 30\nduty.hours_a_day = 4\n";
    let mut d = Driver::on(small, 200, 60);
    d.keys("V").sees("read it all").sees("as planned").sees("nothing beats it");
    d.keys("Enter").sees("What is bought");
    d.keys("Esc");
    assert_eq!(*d.app.now.text, *small);
    d.keys("V Down Down Enter").sees("One of the rivals").sees("take it into the plan");
    assert_eq!(*d.app.now.text, *small);
    d.keys("t");
    assert_ne!(*d.app.now.text, *small);
    d.keys("u");
    assert_eq!(*d.app.now.text, *small);
}

/// Four are pinned and read in columns; the fifth is refused, and one that is let go makes room.
#[test]
fn rivals_are_pinned_side_by_side() {
    let mut d = Driver::new(120, 40);
    d.keys("V Down Enter p").sees("side by side: 1 design pinned").sees("pinned: as planned");
    for more in 1..4 {
        d.keys(&format!("Down*{} Enter p", 1 + more)).sees(&format!("side by side: {} designs pinned", more + 1));
    }
    d.keys("Down*6 Enter p").sees("side by side: 4 designs pinned");
    assert!(d.said().contains("four are pinned already"), "{}", d.said());
    d.keys("Enter").sees("Side by side").sees("Battery mass").sees("Copper");
    d.keys("Esc V").sees_not("pinned: ");
    d.keys("Down Enter p Down Enter p").sees_not("pinned: ");
}

/// Papers written while rivals are pinned get them for a page; once the plan is another they are no rivals of it.
#[test]
fn papers_have_the_pinned_rivals() {
    let small = "format = 2\n[service_battery]\nchemistry = \"agm\"\n\
        [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
        [[run]]\nfrom = \"cut-off\"\nto = \"lamp\"\nlength_m = 3\n\
        [[load]]\nname = \"lamp\"\nat = \"lamp\"\npower_w = 30\nduty.hours_a_day = 4\n";
    let mut d = Driver::on(small, 120, 40);
    d.app.papers = Some(|_, beside, _, _| {
        assert!(beside.iter().all(|(n, design)| (*n == 1) == design.edits.is_empty()));
        Ok(beside.len())
    });
    d.keys("P Enter");
    assert!(d.said().starts_with("0 papers in") && !d.said().contains("pinned"), "{}", d.said());
    d.keys("V Down Enter p Down*3 Enter p Esc P Enter");
    assert!(d.said().starts_with("2 papers in") && d.said().contains("pinned rivals side by side"), "{}", d.said());
    d.keys("V Down Enter p Down*3 Enter t P Enter");
    assert!(d.said().starts_with("0 papers in"), "{}", d.said());
}

#[test]
fn a_row_that_is_kept_is_not_mended() {
    let thin = text().replacen("length_m = 4.5", "length_m = 4.5\nsize = \"0.5 mm2\"", 1);
    let mut d = Driver::on(&thin, 120, 40);
    let catalogue = crate::driver::catalogue();
    let at = plan::read(&thin, &catalogue).plan.runs.iter().position(|r| r.size.as_deref() == Some("0.5 mm²"));
    d.keys(&format!("R Down*{} k", at.unwrap())).sees("kept");
    assert!(d.app.now.plan.runs[at.unwrap()].keep);
    d.keys("F M").sees("not mended");
    d.keys("Esc u");
    assert_eq!(*d.app.now.text, *thin);
}

#[test]
fn where_the_plan_is_hidden_no_key_changes_it() {
    for (width, height) in [(59, 16), (60, 15), (20, 5), (1, 1)] {
        let mut d = Driver::new(80, 24);
        d.resize(width, height);
        d.keys(SLIPS);
        d.event(Event::Paste("60 W".into()));
        assert_eq!(&*d.app.now.text, text());
        d.resize(80, 24);
        assert!(d.app.editing.is_none() && d.app.overlay.is_none());
        // Leaving asks where something would be lost: not unseen.
        d.keys("d").resize(20, 5);
        d.keys("q Enter");
        assert!(!d.ended && d.app.unsaved());
        d.resize(80, 24);
        d.keys("u").resize(20, 5);
        d.keys("q");
        assert!(d.ended);
    }
}

#[test]
fn drawing_anew_and_giving_the_terminal_back_work_wherever_one_is() {
    for keys in ["", "Enter", "Right*3 '6'", "?", "Right*6 w", ":", "o", "d q", "N", "N Enter", "v"] {
        let mut d = Driver::new(80, 24);
        d.keys(keys).keys("C-l C-z");
        assert!(d.app.redraw && d.app.suspend, "after {keys}");
    }
}

#[test]
fn a_chemistry_that_is_not_found_is_not_another_one() {
    let mut d = Driver::new(80, 24);
    d.keys("N Enter*2 'seawater' Enter").sees("question 3 of 9").sees("no chemistry in the list is like “seawater”");
    d.keys("C-u 'agm' Enter").sees("question 4 of 9");
}

#[test]
fn a_paste_goes_into_the_question_that_is_asked() {
    let mut d = Driver::new(80, 24);
    d.keys("N");
    d.event(Event::Paste("Fen survey boat\n".into()));
    d.draw();
    d.sees("Fen survey boat");
    d.keys("Enter*9").sees("your plan");
    assert_eq!(d.app.now.plan.job.title, "Fen survey boat");
}

#[test]
fn undo_is_u_and_control_z_gives_the_terminal_back() {
    let mut d = Driver::new(80, 24);
    d.keys("d");
    let edited = d.app.now.text.clone();
    d.keys("C-z");
    assert_eq!(d.app.now.text, edited);
    assert!(d.app.suspend);
    d.keys("u");
    assert_eq!(&*d.app.now.text, text());
}

/// What would do instead is tried while the screens go on: until then nothing is chosen, and Esc goes back.
#[test]
fn a_clash_of_answers_is_tried_beside_the_keys() {
    let mut d = Driver::new(80, 24);
    let (sender, news) = std::sync::mpsc::channel();
    d.app.listener = Some(sender);
    let hear = |d: &mut Driver, until: &str| {
        while !d.screen().contains(until) {
            let news = news.recv_timeout(std::time::Duration::from_secs(60));
            d.event(news.unwrap_or_else(|_| panic!("no news for\n{}", d.screen())));
            d.draw();
        }
    };
    hear(d.keys("N Enter*3"), "question 4 of 9");
    hear(d.keys("Enter*3 'sat' Enter*2"), "question 9 of 9");
    hear(d.keys("'-20' Enter"), "do not go together");
    d.sees("being tried");
    d.keys("Enter").sees("do not go together").sees("being tried");
    d.keys("Esc").sees("question 9 of 9").sees_not("do not go together");
    // What the first worker still says is of no interest; the second brings the ways out.
    hear(d.keys("Enter"), "it is driven every day");
    d.sees("leave it so");
    d.keys("Enter").sees("your plan");
}
