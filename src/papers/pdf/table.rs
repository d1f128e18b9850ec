//! How does a table stand on a sheet?
//!
//! Each column as wide as its widest value needs at least, and the rest dealt out to those that
//! would have more. Where the values alone are too wide, the letters get smaller, never under
//! 7 points. No row is torn; the head stands again on each page.

use super::face::Face;
use super::setter::{Setter, pile};
use super::slab::{Item, MM, Slab, Strip, column};
use crate::papers::document::{Cell, Table};
use std::rc::Rc;

/// A table of so many rows is not torn apart by a page's end.
const SHORT: usize = 14;
/// A table of more rows stands in two columns on a card.
const TALL: usize = 16;
/// Smallest letters.
const SMALLEST: f64 = 7.0;
/// A blank to fill in.
const BLANK: f64 = 16.0 * MM;
/// Air beside a cell.
const BESIDE: f64 = 1.6 * MM;

/// Its caption, its head and its rows.
pub fn set<'a>(table: &Table, setter: &Setter<'_>) -> Strip<'a> {
    let style = setter.style;
    let columns = if style.dense && table.rows.len() > TALL { 2 } else { 1 };
    let width = column(setter.width, columns);
    let grid = Grid::of(table, setter, width);
    let mut head = grid.head(table, setter);
    head.keep = true;
    let again = Rc::new(head.clone());
    let mut slabs = Vec::new();
    if !table.caption.is_empty() {
        let caption = pile(setter.lines(&setter.look.ink(&table.caption), Face::Plain, style.small, 1.3, 0.0, width));
        slabs.push(Slab { keep: true, ..caption });
    }
    slabs.push(head);
    let last = table.rows.len().saturating_sub(1);
    for (n, row) in table.rows.iter().enumerate() {
        let total = table.total && n == last;
        // The last rows stay together: no page begins with a sum.
        let goes_on = table.rows.get(n + 1).is_some_and(|next| table.goes_on(next));
        let keep = n < last && (table.rows.len() <= SHORT && columns == 1 || n == 0 || n + 1 == last || goes_on);
        slabs.push(Slab { keep, again: Some(again.clone()), ..grid.row(row, total, setter) });
    }
    Strip { columns, slabs }
}

/// Where its columns stand.
struct Grid {
    size: f64,
    /// Left edge and width of each column's words.
    columns: Vec<(f64, f64)>,
    right: Vec<bool>,
    width: f64,
}

/// What a column needs at least, and what it would have.
type Needs = (f64, f64);

impl Grid {
    fn of(table: &Table, setter: &Setter<'_>, width: f64) -> Grid {
        let size = setter.style.table;
        let needs: Vec<Needs> = (0..table.columns.len()).map(|n| needs(table, n, setter, size)).collect();
        let air = 2.0 * BESIDE * needs.len().saturating_sub(1) as f64;
        let least: f64 = needs.iter().map(|n| n.0).sum();
        let shrink = ((width - air) / least.max(1.0)).clamp((SMALLEST / size).min(1.0), 1.0);
        let needs: Vec<Needs> = needs.into_iter().map(|(least, most)| (least * shrink, most * shrink)).collect();
        let widths = deal_out(&needs, width - air);
        let mut left = 0.0;
        let columns: Vec<(f64, f64)> = widths
            .into_iter()
            .map(|wide| {
                let at = left;
                left += wide + 2.0 * BESIDE;
                (at, wide)
            })
            .collect();
        let right = table.columns.iter().map(|c| c.unit.is_some()).collect();
        let width = columns.last().map_or(0.0, |(left, wide)| left + wide);
        Grid { size: size * shrink, columns, right, width }
    }

    /// Heads stand on the line below them.
    fn head<'a>(&self, table: &Table, setter: &Setter<'_>) -> Slab<'a> {
        let leading = setter.style.table_leading;
        let cell = |(n, column): (usize, &crate::papers::document::Column)| {
            self.cell(&setter.look.ink(column.head), n, Face::Bold, leading, setter)
        };
        let cells: Vec<Slab<'a>> = table.columns.iter().enumerate().map(cell).collect();
        let height = cells.iter().map(|c| c.height).fold(0.0, f64::max);
        let mut slab = Slab::default();
        for cell in cells {
            let y = setter.style.row + height - cell.height;
            slab.add(cell, 0.0, y);
        }
        slab.height = height + 2.0 * setter.style.row;
        slab.items.push(self.rule(slab.height, 0.3 * MM, false));
        slab
    }

    fn row<'a>(&self, row: &[Cell], total: bool, setter: &Setter<'_>) -> Slab<'a> {
        let (face, air) = (if total { Face::Bold } else { Face::Plain }, setter.style.row);
        let mut slab = Slab::default();
        for (n, cell) in row.iter().enumerate() {
            if *cell == Cell::ToFill {
                let (left, wide) = self.columns.get(n).copied().unwrap_or_default();
                let y = 2.0 * air + self.size * setter.style.table_leading;
                let to = (left + BLANK.min(wide), y);
                slab.items.push(Item::Rule { from: (left, y), to, width: 0.2 * MM, grey: false });
                slab.height = slab.height.max(y + air);
            } else {
                let text = setter.look.cell(cell);
                slab.add(self.cell(&text, n, face, setter.style.table_leading, setter), 0.0, air);
            }
        }
        slab.height += air;
        if total {
            slab.items.push(self.rule(0.0, 0.3 * MM, false));
        } else {
            slab.items.push(self.rule(slab.height, 0.1 * MM, true));
        }
        slab
    }

    fn cell<'a>(&self, text: &str, n: usize, face: Face, leading: f64, setter: &Setter<'_>) -> Slab<'a> {
        let (left, wide) = self.columns.get(n).copied().unwrap_or_default();
        let breaker = setter.breaker(face, self.size);
        let lines = breaker.lines(text, wide).into_iter().map(|line| {
            let right = self.right.get(n).copied().unwrap_or(false);
            let x = if right { left + wide - breaker.width(&line) } else { left };
            setter.line(line, face, self.size, leading, x)
        });
        pile(lines.collect())
    }

    fn rule<'a>(&self, y: f64, width: f64, grey: bool) -> Item<'a> {
        Item::Rule { from: (0.0, y), to: (self.width, y), width, grey }
    }
}

/// Over all cells of a column. A number with its unit stays in its line.
fn needs(table: &Table, n: usize, setter: &Setter<'_>, size: f64) -> Needs {
    let (plain, bold) = (setter.breaker(Face::Plain, size), setter.breaker(Face::Bold, size));
    let head = table.columns.get(n).map_or((0.0, 0.0), |c| bold.needs(&setter.look.ink(c.head)));
    let last = table.rows.len().saturating_sub(1);
    let cells = table.rows.iter().enumerate().filter_map(|(r, row)| Some((table.total && r == last, row.get(n)?)));
    cells.fold(head, |(least, most), (total, cell)| {
        let breaker = if total { bold } else { plain };
        let (own, all) = match cell {
            Cell::ToFill => (BLANK, BLANK),
            Cell::Text(_) | Cell::Absent => breaker.needs(&setter.look.cell(cell)),
            Cell::Number(_) | Cell::Limit(_) => {
                let width = breaker.width(&setter.look.cell(cell));
                (width, width)
            }
        };
        (least.max(own), most.max(all))
    })
}

/// So much for each that all have what they need, and the rest goes to those that would have more.
fn deal_out(needs: &[Needs], width: f64) -> Vec<f64> {
    let (least, most) = needs.iter().fold((0.0, 0.0), |(a, b), n| (a + n.0, b + n.1));
    if most <= width {
        return needs.iter().map(|n| n.1).collect();
    }
    if least >= width {
        return needs.iter().map(|n| n.0 * width / least).collect();
    }
    let share = (width - least) / (most - least);
    needs.iter().map(|(least, most)| least + (most - least) * share).collect()
}

#[cfg(test)]
mod tests {
    use super::deal_out;

    #[test]
    fn columns_share_the_width() {
        assert_eq!(deal_out(&[(10.0, 20.0), (10.0, 60.0)], 100.0), [20.0, 60.0]);
        assert_eq!(deal_out(&[(10.0, 20.0), (10.0, 60.0)], 50.0), [15.0, 35.0]);
        assert_eq!(deal_out(&[(30.0, 30.0), (10.0, 60.0)], 20.0), [15.0, 5.0]);
    }
}
