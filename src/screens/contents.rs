//! What stands on each screen?

use super::pane::Pane;
use super::scene::Scene;
use super::screen::Screen;
use super::{battery, carrier, cut_off, diagram, endurance, findings, loads, runs, supply, test_sheet};

/// The panes of a screen; the first is the one to edit.
pub fn panes(screen: Screen, scene: Scene<'_>) -> Vec<Pane<'_>> {
    match screen {
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

#[cfg(test)]
mod tests {
    use crate::catalogue::Catalogue;
    use crate::engine::ask::work_out::work_out_size;
    use crate::engine::{Subject, Topic};
    use crate::screens::action::Action;
    use crate::screens::app::{App, Spot};
    use crate::screens::screen::Screen;
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
                for item in 0..app.now.design.installation.runs.len() {
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
