//! The screens: their titles, keys, the question each answers, and the panes each has.

use super::pane::Pane;
use super::scene::Scene;
use super::{battery, carrier, cut_off, diagram, endurance, findings, loads, runs, supply, test_sheet};

/// A screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)] // the table below says it
pub enum Screen {
    Loads,
    Supply,
    Battery,
    Runs,
    CutOff,
    Endurance,
    Diagram,
    Carrier,
    Findings,
    TestSheet,
}

/// How the panes of a screen share a window too small for all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// The first pane above, the others below.
    Above,
    /// The same; with room the second takes the whole width, the others stand below it.
    AboveWide,
    /// With room the first and the third side by side, the second below over the whole width.
    Corner,
    /// The first pane on the left, the others on the right.
    Beside,
}

impl Screen {
    /// All of them, in the order of their keys.
    pub const ALL: &'static [Screen] = &[
        Screen::Loads,
        Screen::Supply,
        Screen::Battery,
        Screen::Runs,
        Screen::CutOff,
        Screen::Endurance,
        Screen::Diagram,
        Screen::Carrier,
        Screen::Findings,
        Screen::TestSheet,
    ];

    /// Title in the row of screens.
    pub fn title(self) -> &'static str {
        match self {
            Screen::Loads => "Loads",
            Screen::Supply => "Supply",
            Screen::Battery => "Battery",
            Screen::Runs => "Runs",
            Screen::CutOff => "Cut-off",
            Screen::Endurance => "Endurance",
            Screen::Diagram => "Diagram",
            Screen::Carrier => "Carrier",
            Screen::Findings => "Findings",
            Screen::TestSheet => "Test sheet",
        }
    }

    /// Title where there is little room.
    pub fn short(self) -> &'static str {
        match self {
            Screen::Endurance => "Days",
            Screen::TestSheet => "Tests",
            screen => screen.title(),
        }
    }

    /// Lower-case name for files.
    pub fn name(self) -> String {
        self.title().to_lowercase().replace(' ', "-")
    }

    /// The key that shows it.
    pub fn key(self) -> char {
        let n = Screen::ALL.iter().position(|s| *s == self).unwrap_or(0);
        char::from_digit((n as u32 + 1) % 10, 10).unwrap_or('0')
    }

    /// The question it answers, for `?`.
    pub fn question(self) -> &'static str {
        match self {
            Screen::Loads => "What uses energy, when, and how much a day?",
            Screen::Supply => "What do the vehicle and the sun give, which charger, and how long to recover?",
            Screen::Battery => "How big a battery, and of which chemistry?",
            Screen::Runs => "For each run: which size, what drop, how hot, which fuse?",
            Screen::CutOff => "Where to disconnect, where to reconnect, and what that leaves in the battery?",
            Screen::Endurance => "How does it go over days of use, what is cut and when, and how sure is that?",
            Screen::Diagram => "How is it all connected?",
            Screen::Carrier => "What holds the battery, how strong is it, and which pieces are cut?",
            Screen::Findings => "What is wrong, and what mends it?",
            Screen::TestSheet => "What should be measured, and where is the bad joint?",
        }
    }

    /// Its panes; the first is the one to edit.
    pub fn panes<'a>(self, scene: Scene<'a>) -> Vec<Pane<'a>> {
        match self {
            Screen::Loads => loads::panes(scene),
            Screen::Supply => supply::panes(scene),
            Screen::Battery => battery::panes(scene),
            Screen::Runs => runs::panes(scene),
            Screen::CutOff => cut_off::panes(scene),
            Screen::Endurance => endurance::panes(scene),
            Screen::Diagram => diagram::panes(scene),
            Screen::Carrier => carrier::panes(scene),
            Screen::Findings => findings::panes(scene),
            Screen::TestSheet => test_sheet::panes(scene),
        }
    }

    /// How it shares a small window.
    pub fn shape(self) -> Shape {
        match self {
            Screen::Supply | Screen::CutOff | Screen::Carrier => Shape::Beside,
            Screen::Runs | Screen::Endurance => Shape::AboveWide,
            Screen::Battery => Shape::Corner,
            _ => Shape::Above,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::engine::choose::circuit::work_out::work_out_size;
    use crate::engine::{Subject, Topic};
    use crate::screens::action::Action;
    use crate::screens::app::{App, Spot};
    use crate::screens::update::update;
    use std::collections::BTreeSet;
    use std::rc::Rc;

    /// Sizes that are not used are worked out when asked for.
    fn has_working(app: &App, topic: &Topic) -> bool {
        let Subject::Size(run, label) = &topic.subject else { return app.working(topic).is_some() };
        let mut design = app.now.design.clone();
        let Some(more) = work_out_size(&app.now.design, *run, label) else { return false };
        design.add_workings(more);
        design.workings().at(topic).is_some()
    }

    /// A number that says it was worked out has a working to show.
    #[test]
    fn every_number_that_promises_a_working_has_one() {
        let catalogue = Rc::new(Catalogue::embedded().unwrap());
        let mut missing = BTreeSet::new();
        for example in crate::plan::examples() {
            let mut app = App::new(example.text, Rc::clone(&catalogue)).unwrap();
            for &screen in Screen::ALL {
                update(&mut app, Action::Show(screen));
                for item in 0..app.now.plan.runs.len() {
                    app.spots.insert((screen, 0), Spot { row: item, column: 0 });
                    for pane in app.all_panes() {
                        let Some(table) = pane.as_table() else { continue };
                        let cells = (0..table.rows).filter_map(|r| table.at(r)).flat_map(|r| r.cells);
                        for cell in cells.filter(|c| c.text != "–") {
                            if let Some(topic) = cell.topic.filter(|t| !has_working(&app, t)) {
                                let subject = format!("{:?}", topic.subject).replace(|c: char| c.is_ascii_digit(), "n");
                                missing.insert(format!("{}: {subject} {}", screen.title(), topic.number));
                            }
                        }
                    }
                }
            }
        }
        assert!(missing.is_empty(), "{missing:#?}");
    }
}
