//! Which letters does a sheet of PDF have, and how wide is each?
//!
//! Letters stand side by side by their widths alone, so that a line is as long when it is drawn
//! as it was when it was broken.

use krilla::text::{Font, GlyphId, KrillaGlyph};
use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider};
use std::collections::HashMap;
use std::sync::LazyLock;

/// Above the line and below it, in shares of the letter size.
pub const ABOVE: f64 = 0.905;
pub const BELOW: f64 = 0.212;

/// Which of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// For text.
    Plain,
    /// For names and heads.
    Bold,
}

/// A letter's number in the font, and its width in shares of the letter size.
#[derive(Clone, Copy, Default)]
struct Letter {
    id: u32,
    width: f32,
}

/// Letters of a font.
struct Letters {
    font: Font,
    ascii: [Letter; 128],
    others: HashMap<char, Letter>,
    /// Stands for what the font has not: an empty box.
    missing: Letter,
}

impl Letters {
    fn of(data: &'static [u8]) -> Option<Letters> {
        let font = Font::new(data.into(), 0)?;
        let read = FontRef::new(data).ok()?;
        let widths = read.glyph_metrics(Size::unscaled(), LocationRef::default());
        let letter = |id: skrifa::GlyphId| {
            let width = widths.advance_width(id).unwrap_or_default() / font.units_per_em();
            Letter { id: id.to_u32(), width }
        };
        let mut ascii = [Letter::default(); 128];
        let mut others = HashMap::new();
        for (code, id) in read.charmap().mappings() {
            match ascii.get_mut(code as usize) {
                Some(place) => *place = letter(id),
                None => drop(char::from_u32(code).map(|c| others.insert(c, letter(id)))),
            }
        }
        let missing = letter(skrifa::GlyphId::NOTDEF);
        Some(Letters { font, ascii, others, missing })
    }

    fn letter(&self, c: char) -> Letter {
        let own = match self.ascii.get(c as usize) {
            Some(letter) => Some(letter).filter(|l| l.id != 0),
            None => self.others.get(&c),
        };
        *own.unwrap_or(&self.missing)
    }
}

/// Both fonts.
pub struct Faces {
    plain: Letters,
    bold: Letters,
}

static FACES: LazyLock<Option<Faces>> = LazyLock::new(|| {
    Some(Faces {
        plain: Letters::of(include_bytes!("fonts/LiberationSans-Regular.ttf"))?,
        bold: Letters::of(include_bytes!("fonts/LiberationSans-Bold.ttf"))?,
    })
});

impl Faces {
    /// The fonts within this program; none only where they were damaged.
    pub fn get() -> Option<&'static Faces> {
        FACES.as_ref()
    }

    fn of(&self, face: Face) -> &Letters {
        match face {
            Face::Plain => &self.plain,
            Face::Bold => &self.bold,
        }
    }

    /// What a page is drawn with.
    pub fn font(&self, face: Face) -> Font {
        self.of(face).font.clone()
    }

    /// Width of words in points.
    pub fn width(&self, text: &str, face: Face, size: f64) -> f64 {
        let letters = self.of(face);
        text.chars().map(|c| f64::from(letters.letter(c).width)).sum::<f64>() * size
    }

    /// The letters of words, one beside the other.
    pub fn glyphs(&self, text: &str, face: Face) -> Vec<KrillaGlyph> {
        let letters = self.of(face);
        let glyph = |(at, c): (usize, char)| {
            let Letter { id, width } = letters.letter(c);
            KrillaGlyph::new(GlyphId::new(id), width, 0.0, 0.0, 0.0, at..at + c.len_utf8(), None)
        };
        text.char_indices().map(glyph).collect()
    }

    /// Whether the fonts have a letter.
    pub fn has(&self, c: char) -> bool {
        self.plain.letter(c).id != 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Advance widths of the metric-compatible sans-serif face, in thousandths: Adobe Font Metrics of the PDF
    /// standard font of that design, file `Helvetica.afm` and `Helvetica-Bold.afm` (Adobe Core 14 AFM, 1997).
    #[test]
    fn letters_are_as_wide_as_published() {
        let faces = Faces::get().unwrap();
        for (c, plain, bold) in [('A', 667, 722), ('i', 222, 278), ('m', 833, 889), ('0', 556, 556), (' ', 278, 278)] {
            for (face, expected) in [(Face::Plain, plain), (Face::Bold, bold)] {
                let width = faces.width(&c.to_string(), face, 1000.0);
                assert!((width - f64::from(expected)).abs() <= 1.0, "{c:?} {face:?}: {width}");
            }
        }
    }

    #[test]
    fn the_signs_of_the_trade_are_there() {
        let faces = Faces::get().unwrap();
        for c in "Ω µ ² ³ ° × · – → ← ≤ ≥ ≈ ± √ … Δ ρ ä ö ü ß é € ½ ● ▪".chars() {
            assert!(faces.has(c), "{c}");
        }
        assert!(!faces.has('冷'));
    }
}
