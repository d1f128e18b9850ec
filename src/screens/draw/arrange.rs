//! Which panes are seen and where, in a window of any size.
//!
//! The first pane is always seen, besides as many of the others as there is
//! room for; the one in hand, or last in hand, is always among them.

use super::fold;
use super::width::{width, wrap};
use crate::screens::pane::{Body, Pane, Text};
use crate::screens::screen::Shape;
use ratatui::layout::{Constraint, Layout, Rect};

/// A pane of this width is worth showing.
const COLUMN: u16 = 50;
/// And of this height; texts and remedies of three lines and their frame.
const LINES: u16 = 9;
const FEW_LINES: u16 = 5;
/// The least height of a picture that is only shown where there is room to spare.
const SPARE: u16 = 12;

/// The panes to draw and their areas.
pub fn arrange(
    shape: Shape,
    panes: &[Pane<'_>],
    body: Rect,
    in_hand: usize,
    second: usize,
    zoom: bool,
) -> Vec<(usize, Rect)> {
    if zoom || panes.len() < 2 {
        return vec![(in_hand.min(panes.len().saturating_sub(1)), body)];
    }
    if shape == Shape::Corner && body.width >= 100 && body.height >= 30 {
        return corner(panes, body, in_hand, second);
    }
    let [main, rest] = match shape {
        Shape::Beside => return beside(panes, body, in_hand, second),
        _ => {
            let most = body.height * 45 / 100;
            let height =
                panes.first().map_or(0, |p| want(p, body.width)).clamp(4.min(body.height / 2), most.max(LINES));
            Layout::vertical([Constraint::Length(height), Constraint::Fill(1)]).areas(body)
        }
    };
    let mut areas = vec![(0, main)];
    if shape == Shape::AboveWide && rest.height >= 2 * LINES + 2 {
        let height =
            panes.get(1).map_or(0, |p| want(p, rest.width)).min(rest.height - LINES - 1).min(rest.height * 55 / 100);
        let [wide, below] = Layout::vertical([Constraint::Length(height), Constraint::Fill(1)]).areas(rest);
        areas.push((1, wide));
        areas.extend(others(panes, 2, below, in_hand, second));
    } else if shape == Shape::AboveApart && (2 * COLUMN..3 * COLUMN).contains(&rest.width) && panes.len() == 4 {
        let [left, right] = Layout::horizontal([Constraint::Fill(1), Constraint::Fill(1)]).areas(rest);
        let height = panes.get(2).map_or(0, |p| want(p, right.width)).min(right.height.saturating_sub(FEW_LINES));
        let [above, below] = Layout::vertical([Constraint::Length(height), Constraint::Fill(1)]).areas(right);
        areas.extend([(1, left), (2, above), (3, below)]);
    } else {
        areas.extend(others(panes, 1, rest, in_hand, second));
    }
    areas
}

/// The first pane on the left, the others on the right; with room the last of them below the first, where that leaves
/// lines empty.
fn beside(panes: &[Pane<'_>], body: Rect, in_hand: usize, second: usize) -> Vec<(usize, Rect)> {
    let wide = body.width >= 100;
    let width = if wide { 58.min(body.width / 2) } else { body.width * 54 / 100 };
    let [left, right] = Layout::horizontal([Constraint::Length(width), Constraint::Fill(1)]).areas(body);
    let own = panes.first().map_or(0, |p| want(p, left.width));
    let empty = left.height.saturating_sub(own);
    // As many of the last as those lines hold; a picture, and one at least, stays on the right.
    let mut below = panes.len();
    let mut used = 0_u16;
    let picture = |n: usize| matches!(panes.get(n).map(|p| &p.body), Some(Body::Plot(_)));
    while wide && below > 2 && !picture(below - 1) {
        let wanted = panes.get(below - 1).map_or(0, |p| want(p, left.width));
        let least = if used == 0 { wanted.min(LINES) } else { wanted };
        if used.saturating_add(least) > empty {
            break;
        }
        used = used.saturating_add(wanted);
        below -= 1;
    }
    let last: Vec<usize> = (below..panes.len()).collect();
    if last.is_empty() {
        let mut areas = vec![(0, left)];
        areas.extend(others(panes, 1, right, in_hand, second));
        return areas;
    }
    let [main, rest] = Layout::vertical([Constraint::Length(own), Constraint::Fill(1)]).areas(left);
    let mut areas = vec![(0, main)];
    areas.extend(others(panes.get(..below).unwrap_or(panes), 1, right, in_hand, second));
    areas.extend(grid(panes, &[last], rest));
    areas
}

/// The first pane, beside it the third and as many of the later ones as fit, the second below over the whole width.
fn corner(panes: &[Pane<'_>], body: Rect, in_hand: usize, second: usize) -> Vec<(usize, Rect)> {
    let height = panes.get(1).map_or(LINES, |p| want_folded(p, body.width)).clamp(LINES, body.height / 2);
    let [above, below] = Layout::vertical([Constraint::Fill(1), Constraint::Length(height)]).areas(body);
    let [left, right] = Layout::horizontal([Constraint::Fill(1), Constraint::Fill(1)]).areas(above);
    let mut areas = vec![(0, left)];
    areas.extend(others(panes, 2, right, in_hand, second));
    areas.push((1, below));
    areas
}

/// As many panes from `from` on as there is room for, the one in hand among them.
fn others(panes: &[Pane<'_>], from: usize, rest: Rect, in_hand: usize, second: usize) -> Vec<(usize, Rect)> {
    let columns = (rest.width / COLUMN).max(1);
    let text = matches!(panes.get(from).map(|p| &p.body), Some(Body::Text(_)));
    let lines = if text { FEW_LINES } else { LINES };
    let rows = (rest.height / lines).max(1);
    let room = usize::from(columns * rows);
    let mut shown: Vec<usize> = (from..panes.len()).take(room).collect();
    let wanted = if in_hand >= from { in_hand } else { second };
    let hidden = !shown.contains(&wanted) && wanted < panes.len() && wanted >= from;
    if let Some(last) = shown.last_mut().filter(|_| hidden) {
        *last = wanted;
    }
    while columns == 1
        && let Some(crowding) = crowding(panes, &shown, rest, wanted)
    {
        shown.remove(crowding);
    }
    let chunks = filled(panes, &shown, rest, usize::from(columns));
    grid(panes, &chunks, rest)
}

/// Where among the panes shown stands a picture to leave out, because figures would have to be scrolled for it.
fn crowding(panes: &[Pane<'_>], shown: &[usize], rest: Rect, wanted: usize) -> Option<usize> {
    let needs = wants(panes, shown, rest).into_iter().fold(0, u16::saturating_add);
    let last = shown.iter().rposition(|&n| spare(panes, n) && n != wanted)?;
    (needs > rest.height).then_some(last)
}

/// Panes in columns, one after the other; into what the last column leaves empty come those that follow.
fn filled(panes: &[Pane<'_>], shown: &[usize], area: Rect, columns: usize) -> Vec<Vec<usize>> {
    let columns = columns.min(shown.len()).max(1);
    let per_column = shown.len().div_ceil(columns);
    let mut chunks: Vec<Vec<usize>> = shown.chunks(per_column.max(1)).map(<[usize]>::to_vec).collect();
    let strip = Rect { width: area.width / columns as u16, ..area };
    let follows = |n: usize| n < panes.len() && !shown.contains(&n) && !spare(panes, n);
    if let Some(last) = chunks.last_mut().filter(|_| columns > 1) {
        while let Some(next) = last.last().map(|n| n + 1).filter(|n| follows(*n)) {
            let taken = wants(panes, last, strip).into_iter().fold(0, u16::saturating_add);
            let wanted = panes.get(next).map_or(0, |p| want(p, strip.width)).min(LINES);
            if taken.saturating_add(wanted) > area.height {
                break;
            }
            last.push(next);
        }
    }
    chunks
}

/// Put panes into columns, each as high as it wants.
fn grid(panes: &[Pane<'_>], chunks: &[Vec<usize>], area: Rect) -> Vec<(usize, Rect)> {
    let strips = Layout::horizontal(vec![Constraint::Fill(1); chunks.len()]).split(area);
    let mut areas = Vec::new();
    for (chunk, strip) in chunks.iter().zip(strips.iter()) {
        let wants = wants(panes, chunk, *strip);
        let heights = share(&wants, strip.height);
        let rows = Layout::vertical(heights.iter().map(|h| Constraint::Length(*h))).split(*strip);
        areas.extend(chunk.iter().copied().zip(rows.iter().copied()));
    }
    areas
}

/// What each pane wants of a column; pictures that may be left out share what the others leave.
fn wants(panes: &[Pane<'_>], chunk: &[usize], area: Rect) -> Vec<u16> {
    let own = |n: usize| panes.get(n).map_or(0, |p| want(p, area.width));
    let pictures = chunk.iter().filter(|&&n| spare(panes, n)).count() as u16;
    let others = chunk.iter().filter(|&&n| !spare(panes, n)).map(|&n| own(n)).fold(0, u16::saturating_add);
    let each = (area.height.saturating_sub(others) / pictures.max(1)).max(SPARE);
    chunk.iter().map(|&n| if spare(panes, n) { each } else { own(n) }).collect()
}

/// Whether a pane is a picture that may be left out.
fn spare(panes: &[Pane<'_>], n: usize) -> bool {
    matches!(panes.get(n).map(|p| &p.body), Some(Body::Plot(plot)) if plot.spare)
}

/// Lines a pane would like to have at a width.
fn want(pane: &Pane<'_>, columns: u16) -> u16 {
    wanted(pane, columns, fold::OF_WORDS)
}

/// The same where a table of any number of columns may fold its words.
fn want_folded(pane: &Pane<'_>, columns: u16) -> u16 {
    wanted(pane, columns, usize::MAX)
}

fn wanted(pane: &Pane<'_>, columns: u16, most: usize) -> u16 {
    let room = columns.saturating_sub(2);
    let lines = match &pane.body {
        Body::Table(table) => {
            // An empty list has no heads.
            let head = table.rows > 0 && table.columns.iter().any(|c| !c.head.is_empty());
            let unit = table.rows > 0 && table.columns.iter().any(|c| !c.unit.is_empty());
            fold::lines(table, room, most).max(1) + usize::from(head) + usize::from(unit)
        }
        Body::Text(text) => wrapped(text, room) + 1,
        Body::Plot(_) => 18,
    };
    u16::try_from(lines + 2).unwrap_or(u16::MAX)
}

/// Lines of a text at a width.
fn wrapped(text: &Text, room: u16) -> usize {
    let lines = |line: &Vec<(String, _)>| {
        let whole: String = line.iter().map(|(t, _)| t.as_str()).collect();
        if text.wrap && width(&whole) > room { wrap(&whole, room).len() } else { 1 }
    };
    text.lines.iter().map(lines).sum()
}

/// Share a height: to each what it wants, the rest to the last; when there is not enough, evenly at most.
fn share(wants: &[u16], height: u16) -> Vec<u16> {
    let mut left = height;
    let mut heights = Vec::new();
    for (n, want) in wants.iter().enumerate() {
        let others = (wants.len() - n) as u16;
        let later: u16 = wants.get(n + 1..).unwrap_or_default().iter().fold(0, |sum, w| sum.saturating_add(*w));
        let even = left / others.max(1);
        let room = left.saturating_sub(later).max(even);
        let own = if others == 1 { left } else { (*want).min(room) };
        heights.push(own);
        left = left.saturating_sub(own);
    }
    heights
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heights_use_all_the_room_and_no_more() {
        for (wants, height) in [(vec![5, 5], 20), (vec![30, 30], 20), (vec![3, 40, 3], 20), (vec![9], 4)] {
            let got = share(&wants, height);
            assert_eq!(got.iter().sum::<u16>(), height, "{wants:?}");
            assert!(got.iter().all(|h| *h > 0), "{wants:?} {got:?}");
        }
    }
}
