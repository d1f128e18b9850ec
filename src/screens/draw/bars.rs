//! Lines below a plot, each with the stretches of the axis that something is true of it.

use super::axis::cell;
use super::width::{cut, fit};
use crate::quantity::counted;
use crate::screens::app::App;
use crate::screens::pane::Plot;
use crate::screens::theme::Role;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

/// What stands in such a stretch.
pub const SIGN: char = 'x';
/// A name takes no more columns than these, nor than a quarter of the plot.
const NAME: (u16, u16) = (12, 28);

/// The columns that names may take of a plot of so many.
pub fn room(columns: u16) -> u16 {
    (columns / 4).clamp(NAME.0, NAME.1)
}

/// Those that there is room for; where not for all, the last line says how many are left out.
pub fn shown(plot: &Plot, room: u16) -> Vec<(String, &[(f64, f64)])> {
    let all = || plot.bars.iter().map(|(name, stretches)| (name.clone(), stretches.as_slice()));
    let room = usize::from(room);
    if plot.bars.len() <= room {
        return all().collect();
    }
    let kept = room.saturating_sub(1);
    let more = (format!("{} more", plot.bars.len() - kept), &[][..]);
    all().take(kept).chain((room > 0).then_some(more)).collect()
}

/// Names as wide as the labels of the plot, then the stretches under the axis; `area` begins with its corner.
pub fn draw(app: &App, frame: &mut Frame<'_>, area: Rect, labels: u16, plot: &Plot, bars: &[(String, &[(f64, f64)])]) {
    let cells = area.width.saturating_sub(1);
    for (n, (name, stretches)) in bars.iter().enumerate().take(usize::from(area.height)) {
        let y = area.y + n as u16;
        let left = Rect { x: (area.x + 1).saturating_sub(labels), y, width: labels.saturating_sub(1), height: 1 };
        frame.render_widget(Span::raw(fit(&cut(name, left.width), left.width, true)), left);
        frame.buffer_mut().set_string(area.x, y, if app.ascii { "|" } else { "│" }, Style::new());
        for (from, until) in *stretches {
            let column = |x: f64| cell(x, plot.x.1, plot.x.2, cells, 2.0);
            // However short it is, it is seen.
            let (from, until) = (column(*from), column(*until));
            for x in from..=until {
                let style = app.theme.style(Role::Stop);
                frame.buffer_mut().set_string(area.x + 1 + x, y, SIGN.to_string(), style);
            }
        }
    }
}

/// Who stands in such a stretch at this place of the axis.
pub fn at(plot: &Plot, x: f64) -> Option<String> {
    let stands = |(_, all): &&(String, Vec<(f64, f64)>)| all.iter().any(|(from, until)| (*from..*until).contains(&x));
    let names: Vec<&str> = plot.bars.iter().filter(stands).map(|(name, _)| name.as_str()).collect();
    match names.as_slice() {
        [] => None,
        [one] => Some(format!("without power: {one}")),
        many => Some(format!("without power: {}", counted(many.len(), "load"))),
    }
}
