//! How do the columns of a table share its width, and which rows take several lines where lines are to spare?
//!
//! Nothing is cut off beside an empty place: columns of words are as wide as the width allows, narrower where all
//! columns are seen then, and what is too long for its column goes on below while no row has to leave for it.

use super::width::{width, wrap};
use crate::screens::pane::{Row, Table};

/// A column of words is made no narrower than this, nor than this share of what it would like to have, or than half of
/// the width there is.
const NARROWEST: u16 = 12;
const SHARE: (u16, u16) = (3, 5);
/// Tables of more columns are of numbers: they ask for no more lines than rows, to be read at a glance.
pub const OF_WORDS: usize = 4;
/// Rows of a longer table are not looked through to see how many lines they would take.
const LONGEST: usize = 40;

/// What is shown of each row: nothing for a heading, else a text for each column.
pub type Texts = Vec<Option<Vec<String>>>;

/// What the columns of a table have and want.
pub struct Widths<'a> {
    /// As wide as they would like to be at most.
    pub usual: Vec<u16>,
    /// Columns of words, which may be narrower or wider.
    pub words: &'a [bool],
    /// Blanks between them.
    pub gap: u16,
    /// The width there is.
    pub room: u16,
}

impl Widths<'_> {
    /// Width for each column, where rows may take so many lines in all.
    pub fn shared(&self, texts: &Texts, lines: usize) -> Vec<u16> {
        let total = self.total(&self.usual);
        if total <= self.room {
            return self.wider(texts, self.room - total);
        }
        let narrow = self.narrower();
        let fits = |widths: &Vec<u16>| heights(texts, self.words, widths).iter().sum::<usize>() <= lines;
        narrow.filter(fits).unwrap_or_else(|| self.usual.clone())
    }

    fn total(&self, widths: &[u16]) -> u16 {
        widths.iter().map(|w| w + self.gap).sum::<u16>().saturating_sub(self.gap)
    }

    /// What is over goes to the columns whose words are cut.
    fn wider(&self, texts: &Texts, mut over: u16) -> Vec<u16> {
        let mut widths = self.usual.clone();
        for (n, own) in widths.iter_mut().enumerate().filter(|(n, _)| self.words.get(*n) == Some(&true)) {
            let wanted = texts.iter().flatten().filter_map(|row| row.get(n)).map(|t| width(t)).max().unwrap_or(0);
            let more = wanted.saturating_sub(*own).min(over);
            *own += more;
            over -= more;
        }
        widths
    }

    /// The widest columns of words give way until all columns are seen; none where they cannot.
    fn narrower(&self) -> Option<Vec<u16>> {
        let mut widths = self.usual.clone();
        while self.total(&widths) > self.room {
            let least = |n: usize| (self.usual[n] / SHARE.1 * SHARE.0).min(self.room / 2).max(NARROWEST);
            let words = widths.iter_mut().enumerate().filter(|(n, w)| self.words[*n] && **w > least(*n));
            let (_, widest) = words.max_by_key(|(n, w)| (**w, *n))?;
            *widest -= 1;
        }
        Some(widths)
    }
}

/// Lines that each row wants, where a column without a width is not seen.
pub fn heights(texts: &Texts, words: &[bool], widths: &[u16]) -> Vec<usize> {
    let lines = |(n, text): (usize, &String)| match widths.get(n) {
        Some(&own) if own > 0 && words.get(n) == Some(&true) && width(text) > own => wrap(text, own).len(),
        _ => 1,
    };
    let row = |row: &Option<Vec<String>>| row.iter().flatten().enumerate().map(lines).max().unwrap_or(1);
    texts.iter().map(row).collect()
}

/// What each row gets of its wishes, from the top, when so many lines are to spare.
pub fn granted(wanted: Vec<usize>, mut spare: usize) -> Vec<usize> {
    let grant = |want: usize| {
        let more = want.saturating_sub(1).min(spare);
        spare -= more;
        1 + more
    };
    wanted.into_iter().map(grant).collect()
}

/// What each row gets of its wishes, from the top, where those that find no place leave; the last may be cut.
pub fn filled(wanted: Vec<usize>, mut left: usize) -> Vec<usize> {
    let take = |want: usize| {
        let own = want.min(left);
        left -= own;
        own
    };
    wanted.into_iter().map(take).collect()
}

/// Lines that all rows of a table want at a width, where a table of at most so many columns may fold them.
pub fn lines(table: &Table<'_>, room: u16, most: usize) -> usize {
    if table.rows == 0 {
        return wrap(table.empty, room.saturating_sub(1)).len();
    }
    if table.rows > LONGEST || table.columns.len() > most {
        return table.rows;
    }
    let rows: Vec<Row> = (0..table.rows).filter_map(|n| table.at(n)).collect();
    let text = |r: &Row| (!r.heading).then(|| r.cells.iter().map(|c| c.text.clone()).collect());
    let texts: Texts = rows.iter().map(text).collect();
    let words: Vec<bool> = table.columns.iter().map(|c| !c.right).collect();
    let usual = table.columns.iter().enumerate().map(|(n, c)| {
        let head = width(&c.head).max(width(&c.unit));
        let widest = texts.iter().flatten().filter_map(|row| row.get(n)).map(|t| width(t)).max().unwrap_or(0);
        widest.min(c.widest.max(head)).max(head)
    });
    let widths = Widths { usual: usual.collect(), words: &words, gap: 1, room };
    let shared = widths.shared(&texts, usize::MAX);
    let whole = widths.total(&shared) <= room;
    // Where columns stay out of sight nothing is told of how long their rows would be, unless any number may.
    if !whole && most == OF_WORDS {
        return table.rows;
    }
    let seen = if whole { shared } else { in_sight(&shared, &words, room) };
    heights(&texts, &words, &seen).iter().sum()
}

/// The widths of the columns that are in sight from the first on; the last may be cut.
fn in_sight(widths: &[u16], words: &[bool], room: u16) -> Vec<u16> {
    let mut left = room;
    let seen = |(own, words): (&u16, &bool)| {
        let cut = if *own <= left {
            *own
        } else if *words && left >= NARROWEST {
            left
        } else {
            0
        };
        left = if cut < *own { 0 } else { left.saturating_sub(own + 1) };
        cut
    };
    widths.iter().zip(words).map(seen).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(texts: &[[&str; 2]]) -> Texts {
        texts.iter().map(|row| Some(row.iter().map(|t| (*t).to_string()).collect())).collect()
    }

    #[test]
    fn words_are_cut_only_where_no_place_is_empty() {
        let texts = of(&[["12 V", "as wide as the window lets it be"], ["13 V", "short"]]);
        let widths = |room| Widths { usual: vec![4, 20], words: &[false, true], gap: 1, room };
        assert_eq!(widths(60).shared(&texts, 2), [4, 32]);
        assert_eq!(widths(30).shared(&texts, 2), [4, 25]);
        // Three lines hold it in eleven columns less, two do not.
        assert_eq!(widths(20).shared(&texts, 4), [4, 15]);
        assert_eq!(widths(20).shared(&texts, 2), [4, 20]);
        assert_eq!(widths(10).shared(&texts, 9), [4, 20]);
        assert_eq!(filled(vec![2, 1, 3, 1], 5), [2, 1, 2, 0]);
        assert_eq!(granted(heights(&texts, &[false, true], &[4, 15]), 1), [2, 1]);
    }
}
