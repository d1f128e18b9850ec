//! A table: only the rows in sight are made; the first column stays when it is moved sideways.

use super::fold::{self, Texts, Widths};
use super::width::{cut, fit, width, wrap};
use crate::quantity::in_units_but;
use crate::screens::app::{App, Spot};
use crate::screens::changes::twin;
use crate::screens::pane::{Cell, Column, Row, Table};
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use ratatui::text::{Line, Span};

/// Blanks between columns where there is room; the first of them carries the mark of a change.
const GAP: u16 = 2;
/// What the columns that stay leave to the one behind them.
const NEXT: u16 = 14;

/// Draw it; the area of the cell being edited.
pub fn draw(
    app: &App,
    view: &mut View,
    frame: &mut Frame<'_>,
    area: Rect,
    pane: usize,
    table: &Table<'_>,
    old: Option<&Table<'_>>,
) -> Option<Rect> {
    if table.rows == 0 {
        for (n, line) in wrap(table.empty, area.width.saturating_sub(1)).into_iter().enumerate() {
            let here = Rect { y: area.y + n as u16, height: 1, ..area }.intersection(area);
            frame.render_widget(Span::styled(format!(" {line}"), app.theme.style(Role::Muted)), here);
        }
        return None;
    }
    let spot = app.spot(pane, table);
    let labelled = table.columns.iter().all(|c| c.head.is_empty());
    // A row is worth more than the heads of its columns.
    let head = head_lines(table).min(area.height.saturating_sub(1));
    let height = usize::from(area.height.saturating_sub(head));
    let (first_row, first_column) = view.scroll.get(&(app.screen, pane)).copied().unwrap_or_default();
    let mut first_row = View::follow(first_row.min(table.rows.saturating_sub(height.max(1))), spot.row, height);
    // A heading above the first row is worth the line, where there is one to spare.
    if height > 1 && spot.row > 0 && first_row == spot.row && table.at(spot.row - 1).is_some_and(|r| r.heading) {
        first_row = spot.row - 1;
    }
    let mut drawing = Drawing { app, pane, spot, labelled, both: true, columns: &table.columns };
    let room = (area.width, height);
    let mut page = drawing.page((table, old), first_row, first_column, room);
    // Names and values that are scrolled anyway stand there whole, the one in hand among them, and so does a list that
    // has the window to itself.
    let whole = labelled && table.rows > height || app.zoom;
    while whole && page.hides(spot.row, height) {
        first_row += 1;
        page = drawing.page((table, old), first_row, first_column, room);
    }
    let Page { rows, window, lines } = page;
    view.scroll.insert((app.screen, pane), (first_row, window.first));
    drawing.heads(frame, Rect { height: head, ..area }, &window);
    let wanted = lines.iter().sum::<usize>();
    let heights =
        if whole { fold::filled(lines, height) } else { fold::granted(lines, height.saturating_sub(table.rows)) };
    let (mut field, mut y) = (None, area.y + head);
    for ((n, row, before), high) in rows.iter().zip(heights).filter(|(_, high)| *high > 0) {
        let here = Rect { y, height: high as u16, ..area };
        field = drawing.row(view, frame, here, *n, row, before.as_ref(), &window).or(field);
        y += high as u16;
    }
    more(app, frame, area, first_row + height < table.rows || whole && wanted > height);
    field
}

/// Lines of the column heads: names, and units if any column has one.
fn head_lines(table: &Table<'_>) -> u16 {
    let head = table.columns.iter().any(|c| !c.head.is_empty());
    let unit = table.columns.iter().any(|c| !c.unit.is_empty());
    u16::from(head) + u16::from(unit)
}

/// Columns in sight with their widths.
struct Window {
    first: usize,
    shown: Vec<(usize, u16)>,
    /// Blanks between them.
    gap: u16,
    /// Columns are hidden to the right.
    more: bool,
}

/// What there is to share among columns.
struct Room<'a> {
    widths: &'a [u16],
    /// Columns of words, which may be cut.
    words: &'a [bool],
    /// So many columns stay when the others are moved sideways.
    frozen: usize,
    gap: u16,
    room: u16,
}

impl Room<'_> {
    /// The columns that stay, then as many from `first` on as fit, the one in hand among them.
    fn window(&self, in_hand: usize, first: usize) -> Window {
        let own = self.widths.get(in_hand).copied().unwrap_or(0);
        let seen = |first: usize| self.fits(first).iter().any(|(n, w)| *n == in_hand && *w >= own.min(self.room / 2));
        let mut first = first.max(self.frozen).min(in_hand.max(self.frozen));
        // Room to the right of the last column is better used by those on the left.
        let last = self.widths.len().saturating_sub(1);
        while first > self.frozen
            && self.fits(first - 1).last().is_some_and(|(n, w)| *n == last && Some(w) == self.widths.last())
        {
            first -= 1;
        }
        while first < in_hand && !seen(first) {
            first += 1;
        }
        let mut shown = self.staying();
        let rest = self.fits(first);
        let more = rest.last().is_some_and(|(n, _)| *n < last);
        shown.extend(rest);
        Window { first, shown, gap: self.gap, more }
    }

    /// Columns that stay; they leave something for the next one.
    fn staying(&self) -> Vec<(usize, u16)> {
        let next = self.widths.get(self.frozen).map_or(0, |w| (*w).min(NEXT) + self.gap);
        let mut left = self.room.saturating_sub(next);
        let mut shown = Vec::new();
        for (n, w) in self.widths.iter().enumerate().take(self.frozen) {
            let w = (*w).min(left);
            left = left.saturating_sub(w + self.gap);
            shown.push((n, w));
        }
        shown
    }

    /// Columns from `first` on that fit; the first is cut rather than left out.
    fn fits(&self, first: usize) -> Vec<(usize, u16)> {
        let mut used: u16 = self.staying().iter().map(|(_, w)| w + self.gap).sum();
        let mut shown = Vec::new();
        for (n, w) in self.widths.iter().enumerate().skip(first.max(self.frozen)) {
            let left = self.room.saturating_sub(used);
            let may_be_cut = shown.is_empty() || self.words.get(n) == Some(&true) && left >= 12;
            if *w > left && !(may_be_cut && left > 0) {
                break;
            }
            shown.push((n, (*w).min(left)));
            used = used.saturating_add(*w + self.gap);
        }
        shown
    }
}

/// Columns that always stay: all up to the first in which the cursor can stand.
fn frozen(table: &Table<'_>) -> usize {
    let first = table.columns.iter().position(|c| c.stops).unwrap_or(0);
    (first + 1).min(table.columns.len().saturating_sub(1))
}

/// The rows in sight.
struct Page {
    /// Each with its number, and as it was before.
    rows: Vec<(usize, Row, Option<Row>)>,
    window: Window,
    /// So many lines each of them would take.
    lines: Vec<usize>,
}

impl Page {
    /// Whether a row is not among them with all its lines, though it would be further up.
    fn hides(&self, row: usize, height: usize) -> bool {
        let before = self.rows.iter().take_while(|(n, ..)| *n < row).count();
        before > 0 && self.lines.iter().take(before + 1).sum::<usize>() > height
    }
}

/// Where a cell stands in its row.
struct Placed {
    column: usize,
    x: u16,
    width: u16,
    /// It begins in the place of an empty value before it.
    carried: bool,
    /// The column behind it is in sight.
    told: bool,
}

struct Drawing<'a> {
    app: &'a App,
    pane: usize,
    spot: Spot,
    /// A list of names and values: changes are shown as `old → new`.
    labelled: bool,
    /// Where there is room for both.
    both: bool,
    columns: &'a [Column],
}

impl Drawing<'_> {
    /// What is in sight from a row and a column on.
    fn page(
        &mut self,
        (table, old): (&Table<'_>, Option<&Table<'_>>),
        first_row: usize,
        first_column: usize,
        (room, height): (u16, usize),
    ) -> Page {
        let row = |n: usize| table.at(n).map(|row| (n, old.and_then(|old| twin(old, n, &row)), row));
        let rows = (first_row..table.rows).take(height).filter_map(row);
        let rows: Vec<(usize, Row, Option<Row>)> = rows.map(|(n, before, row)| (n, row, before)).collect();
        let natural = |usual: &[u16], gap: u16| usual.iter().map(|w| w + gap).sum::<u16>().saturating_sub(gap);
        self.both = true;
        let mut usual = self.widths(&rows);
        if self.labelled && natural(usual.get(..2).unwrap_or(&usual), 1) > room {
            // Old and new beside each other would cost other columns their words.
            self.both = false;
            usual = self.widths(&rows);
        }
        let gap = if natural(&usual, GAP) > room { 1 } else { GAP };
        let frozen = if self.labelled { 1 } else { frozen(table) };
        let words: Vec<bool> = table.columns.iter().map(|c| !c.right).collect();
        let texts = self.texts(&rows);
        let most = texts.len() + height.saturating_sub(table.rows);
        let widths = Widths { usual, words: &words, gap, room }.shared(&texts, most);
        let window = Room { widths: &widths, words: &words, frozen, gap, room }.window(self.spot.column, first_column);
        let lines = rows.iter().map(|(_, row, before)| self.lines(row, before.as_ref(), &window)).collect();
        Page { rows, window, lines }
    }

    /// Lines that a row would take with the columns in sight.
    fn lines(&self, row: &Row, before: Option<&Row>, window: &Window) -> usize {
        let own = |at: &Placed| {
            let text = self.shown(at, row, before);
            let folds = self.columns.get(at.column).is_some_and(|c| !c.right) && at.width > 0;
            if folds && width(&text) > at.width { wrap(&text, at.width).len() } else { 1 }
        };
        let placed = if row.heading { Vec::new() } else { self.placed(row, before, window) };
        placed.iter().map(own).max().unwrap_or(1)
    }

    /// The cells of a row that are drawn: the words behind an empty value begin in its place.
    fn placed(&self, row: &Row, before: Option<&Row>, window: &Window) -> Vec<Placed> {
        let (mut all, mut x, mut carried) = (Vec::new(), 0_u16, 0);
        for (at, (column, w)) in window.shown.iter().enumerate() {
            let next = window.shown.get(at + 1).map(|(next, _)| *next);
            let blank = self.is_blank(row, *column) && before.is_none_or(|b| self.is_blank(b, *column));
            if blank && next == Some(column + 1) {
                carried += w + window.gap;
                continue;
            }
            let width = w + carried;
            all.push(Placed { column: *column, x, width, carried: carried > 0, told: next.is_some() });
            x = x.saturating_add(width + window.gap);
            carried = 0;
        }
        all
    }

    fn widths(&self, shown: &[(usize, Row, Option<Row>)]) -> Vec<u16> {
        let column = |(n, c): (usize, &Column)| {
            let head = width(&c.head).max(width(&c.unit));
            let cells = shown.iter().filter(|(_, r, _)| !r.heading);
            let widest = cells.filter_map(|(_, r, before)| Some(width(&self.text(n, r, before.as_ref())?))).max();
            widest.unwrap_or(0).min(c.widest.max(head)).max(head)
        };
        self.columns.iter().enumerate().map(column).collect()
    }

    /// All that the rows show, without the headings.
    fn texts(&self, shown: &[(usize, Row, Option<Row>)]) -> Texts {
        let cells = |row: &Row, before: Option<&Row>| {
            (0..self.columns.len()).map(|c| self.text(c, row, before).unwrap_or_default()).collect()
        };
        shown.iter().map(|(_, row, before)| (!row.heading).then(|| cells(row, before.as_ref()))).collect()
    }

    /// What a cell shows: with the old value before it where there is room for both.
    fn text(&self, n: usize, row: &Row, before: Option<&Row>) -> Option<String> {
        let cell = row.cells.get(n)?;
        let old = before.and_then(|b| b.cells.get(n)).filter(|old| old.text != cell.text);
        match old {
            Some(old) if self.labelled && self.both && self.columns.get(n).is_some_and(|c| c.stops) => {
                Some(format!("{} → {}", old.text, cell.text))
            }
            _ if self.columns.get(n).is_some_and(|c| c.stops) => Some(cell.text.clone()),
            // A sentence; what is edited is shown in the units wanted already.
            _ => Some(in_units_but(&cell.text, self.app.units, &self.app.now.names).into_owned()),
        }
    }

    fn heads(&self, frame: &mut Frame<'_>, area: Rect, window: &Window) {
        let style = self.app.theme.style(Role::Heading);
        let muted = self.app.theme.style(Role::Muted);
        let mut x = area.x;
        for (n, w) in &window.shown {
            let Some(column) = self.columns.get(*n) else { continue };
            let here = Rect { x, width: *w, height: 1.min(area.height), ..area };
            frame.render_widget(Span::styled(fit(&column.head, *w, column.right), style), here);
            if area.height > 1 {
                let below = Rect { y: area.y + 1, ..here };
                frame.render_widget(Span::styled(fit(&column.unit, *w, column.right), muted), below);
            }
            x = x.saturating_add(*w + window.gap);
        }
        if window.more && area.height > 0 {
            // On the border, so that it hides nothing.
            let last = Rect { x: area.right(), width: 1, height: 1, ..area }.intersection(frame.area());
            frame.render_widget(Span::styled("›", self.app.theme.style(Role::Key)), last);
        }
    }

    #[allow(clippy::too_many_arguments)] // one call, and each is needed
    fn row(
        &self,
        view: &mut View,
        frame: &mut Frame<'_>,
        area: Rect,
        n: usize,
        row: &Row,
        before: Option<&Row>,
        window: &Window,
    ) -> Option<Rect> {
        if row.heading {
            let text = row.cells.first().map_or("", |c| c.text.as_str());
            frame.render_widget(Span::styled(cut(text, area.width), self.app.theme.style(Role::Heading)), area);
            return None;
        }
        let mut field = None;
        // Where nothing stands in the column in hand, the name of the row shows where one is.
        let seen = window.shown.iter().any(|(c, w)| *c == self.spot.column && *w > 0);
        let column_in_hand = if seen { self.spot.column } else { 0 };
        for at in self.placed(row, before, window) {
            let x = area.x.saturating_add(at.x);
            let here = Rect { x, width: at.width.min(area.right().saturating_sub(x)), ..area };
            let in_hand = at.column == column_in_hand || at.carried && at.column == column_in_hand + 1;
            self.cell(view, frame, here, &One { n, at: &at, row, before, in_hand });
            if self.edits(n, at.column) {
                field = Some(Rect { height: 1, ..here });
            }
        }
        field
    }

    /// Whether a list of names and values has no value in a column that could hold one.
    fn is_blank(&self, row: &Row, column: usize) -> bool {
        let blank = |cell: &Cell| cell.text.is_empty() && cell.place.is_none() && cell.offer.is_none();
        self.labelled && column > 0 && row.cells.get(column).is_some_and(blank)
    }

    /// Whether a cell that can be edited was another before.
    fn changed(&self, at: &Placed, row: &Row, before: Option<&Row>) -> bool {
        let text = |row: &Row| row.cells.get(at.column).map(|c| c.text.clone());
        let old = before.and_then(text);
        self.columns.get(at.column).is_some_and(|c| c.stops) && old.is_some() && old != text(row)
    }

    /// What stands in a cell of a width.
    fn shown(&self, at: &Placed, row: &Row, before: Option<&Row>) -> String {
        let Some(cell) = row.cells.get(at.column) else { return String::new() };
        let text = self.text(at.column, row, before).unwrap_or_default();
        // In a list of names and values the new value must stay in sight when both do not fit.
        let narrow = self.labelled && width(&text) > at.width && self.changed(at, row, before);
        let text = if narrow { cell.text.clone() } else { text };
        // Where the word behind it is out of sight a sign tells what the user gave.
        let sign = self.labelled && cell.role == Role::Given && at.column + 1 < self.columns.len() && !at.told;
        if sign && !text.starts_with('=') { format!("={text}") } else { text }
    }

    fn cell(&self, view: &mut View, frame: &mut Frame<'_>, here: Rect, one: &One<'_>) {
        let c = one.at.column;
        let (Some(cell), Some(column)) = (one.row.cells.get(c), self.columns.get(c)) else { return };
        let mut style = self.app.theme.style(cell.role);
        if self.changed(one.at, one.row, one.before) {
            style = style.patch(self.app.theme.changed());
            let mark = Rect { x: here.right(), width: 1, height: 1, ..here }.intersection(frame.area());
            if !self.labelled {
                frame.render_widget(Span::styled("*", self.app.theme.style(Role::Key)), mark);
            }
        }
        style = self.in_hand(one.n, one.in_hand, style);
        let text = self.shown(one.at, one.row, one.before);
        let lines = folded(&text, here.width, here.height, column.right);
        let whole = lines.iter().all(|l| width(l) <= here.width);
        print(frame, here, &lines, column.right, style);
        let in_hand = self.app.pane() == self.pane && one.n == self.spot.row && (self.pane > 0 || self.labelled);
        if in_hand && !whole {
            view.cut = Some(text);
        }
        view.mark(here, Target::Cell { pane: self.pane, row: one.n, column: c });
    }

    fn in_hand(&self, row: usize, in_column: bool, style: Style) -> Style {
        let active = self.app.pane() == self.pane && self.app.overlay.is_none();
        match (row == self.spot.row, in_column, active) {
            (true, true, true) => style.patch(self.app.theme.focus()),
            (true, _, _) if self.pane == 0 && !self.labelled => style.patch(self.app.theme.in_hand()),
            _ => style,
        }
    }

    fn edits(&self, row: usize, column: usize) -> bool {
        self.app.editing.is_some() && self.app.pane() == self.pane && row == self.spot.row && column == self.spot.column
    }
}

/// A cell to draw.
struct One<'r> {
    /// Its row.
    n: usize,
    at: &'r Placed,
    row: &'r Row,
    before: Option<&'r Row>,
    in_hand: bool,
}

/// The lines of a cell; what underlines them is under the words alone.
fn print(frame: &mut Frame<'_>, here: Rect, lines: &[String], right: bool, style: Style) {
    for (k, line) in lines.iter().enumerate() {
        let at = Rect { y: here.y + k as u16, height: 1, ..here };
        let line = cut(line, here.width);
        let blank = if right { here.width.saturating_sub(width(&line)) } else { 0 };
        let own = Rect { x: at.x + blank, width: width(&line), ..at }.intersection(at);
        let bare = style.remove_modifier(Modifier::UNDERLINED);
        frame.render_widget(Line::styled(fit(&line, here.width, right), bare), at);
        frame.buffer_mut().set_style(own, style);
    }
}

/// A text over at most so many lines; what does not go in stands in the last, too long for it.
fn folded(text: &str, columns: u16, most: u16, right: bool) -> Vec<String> {
    if right || most < 2 || width(text) <= columns {
        return vec![text.to_string()];
    }
    let mut lines = wrap(text, columns);
    let kept = usize::from(most - 1);
    if lines.len() > usize::from(most) {
        let rest = lines.split_off(kept).join(" ");
        lines.push(rest);
    }
    lines
}

fn more(app: &App, frame: &mut Frame<'_>, area: Rect, below: bool) {
    if below && area.height > 0 {
        let last = Rect { x: area.right(), y: area.bottom() - 1, width: 1, height: 1 }.intersection(frame.area());
        frame.render_widget(Span::styled("↓", app.theme.style(Role::Key)), last);
    }
}
