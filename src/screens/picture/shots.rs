//! Pictures of the real screens, driven by real actions: they cannot go out of date unnoticed.

use super::svg::svg;
use crate::catalogue::Catalogue;
use crate::plan;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::draw::draw;
use crate::screens::screen::Screen;
use crate::screens::update::update;
use crate::screens::view::View;
use anyhow::anyhow;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use std::rc::Rc;

/// The app, drawn.
pub fn buffer(app: &App, width: u16, height: u16) -> Buffer {
    let mut view = View::default();
    let Ok(mut terminal) = Terminal::new(TestBackend::new(width, height));
    // Twice: how far a pane is scrolled is known after the first.
    for _ in 0..2 {
        let Ok(_) = terminal.draw(|frame| draw(app, &mut view, frame));
    }
    terminal.backend().buffer().clone()
}

/// The pictures: name and SVG of each.
///
/// # Errors
/// The example plan has problems.
pub fn pictures(catalogue: &Rc<Catalogue>) -> anyhow::Result<Vec<(String, String)>> {
    let mut pictures = Vec::new();
    for &screen in Screen::ALL {
        let mut app = example(screen, catalogue)?;
        update(&mut app, Action::Show(screen));
        if screen == Screen::Runs {
            // The long run is the one to look at.
            for _ in 0..4 {
                update(&mut app, Action::Move(crate::screens::action::Way::Down));
            }
        }
        app.detail = true;
        app.message = None;
        let title = format!("Loomwright: {}", screen.title());
        pictures.push((format!("{}.svg", screen.name()), svg(&buffer(&app, 120, 40), &title)));
    }
    Ok(pictures)
}

/// The default example; for the carrier the first that has one.
fn example(screen: Screen, catalogue: &Rc<Catalogue>) -> anyhow::Result<App> {
    let open = |text: &str| App::new(text, Rc::clone(catalogue)).map_err(|p| anyhow!(crate::screens::app::first(&p)));
    if screen == Screen::Carrier {
        for example in plan::examples() {
            let app = open(example.text)?;
            if app.now.design.carrier.is_some() {
                return Ok(app);
            }
        }
    }
    open(plan::default_example().text)
}
