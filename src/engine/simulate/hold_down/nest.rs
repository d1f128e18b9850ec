//! How are the pieces of a carrier laid on bars, angles and sheets as they are sold, and what is left over?
//!
//! Bars and angles: the longest piece first, each on the first bar that has room. Sheets: in shelves, as a guillotine
//! cuts them: the highest piece first, each on the first shelf that is high enough and has room, its longer side along
//! the sheet where it goes. A saw cut is taken off behind each piece. Left out: the dealer's own offcuts, and a piece
//! longer than the stock, which is told as one that does not go on it.

use crate::catalogue::Rules;
use crate::engine::installation::Installation;
use crate::engine::physics::steel::plate::angle_area;
use crate::engine::simulate::hold_down::result::{Blank, CarrierDesign, Piece};
use crate::plan::CarrierMetal;
use crate::quantity::*;

/// What is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Stock {
    Bar,
    Angle,
    Sheet,
}

impl Stock {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Stock::Bar => "flat bar",
            Stock::Angle => "equal angle",
            Stock::Sheet => "sheet",
        }
    }
}

/// A bar, an angle or a sheet with the pieces that are cut from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// Which kind.
    pub stock: Stock,
    /// Its length.
    pub length: Millimetres,
    /// Its width; the leg of an angle.
    pub width: Millimetres,
    /// Its thickness.
    pub thickness: Millimetres,
    /// What is cut from it.
    pub pieces: Vec<LaidPiece>,
    /// Mass of the whole, as bought.
    pub mass: Kilograms,
    /// What is left over or sawn away, of the whole.
    pub waste: Share,
    /// What the whole costs, by the plan's price for a kilogram.
    pub price: Option<Money>,
}

/// A piece as it lies there.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidPiece {
    /// Which piece.
    pub piece: Piece,
    /// Along the stock.
    pub length: Millimetres,
    /// Across it.
    pub width: Millimetres,
    /// Where its lower left corner lies, from the stock's.
    pub along: Millimetres,
    #[allow(missing_docs)]
    pub across: Millimetres,
}

/// All pieces of a carrier laid out.
pub(crate) fn laid_out(carrier: &CarrierDesign, site: &Installation) -> Vec<Laid> {
    let Some(shape) = &carrier.shape else { return Vec::new() };
    let bench = Bench { rules: &site.catalogue.rules, metal: site.hold_down.metal, price: site.hold_down.metal_per_kg };
    let strip = |b: &&Blank| matches!(b.piece, Piece::CrossStrip | Piece::LongStrip);
    let sheet = |b: &&Blank| matches!(b.piece, Piece::Tray | Piece::WallWrap | Piece::FloorAndLid);
    let each = |b: &Blank| vec![Rest { piece: b.piece, length: b.length, width: b.width }; b.count as usize];
    let thickness = carrier.sizes.thickness;
    let mut laid = bench.bars(Stock::Bar, thickness, shape.blanks.iter().filter(strip).flat_map(each).collect());
    laid.extend(bench.sheets(thickness, shape.blanks.iter().filter(sheet).flat_map(each).collect()));
    let straps = shape.blanks.iter().filter(|b| b.piece.of_angle()).flat_map(each).collect();
    laid.extend(bench.bars(Stock::Angle, carrier.sizes.strap_thickness, straps));
    let plate = carrier.sizes.spreader;
    let studs = carrier.strength.as_ref().map_or(0, |s| s.studs.len());
    let plates = vec![Rest { piece: Piece::Spreader, length: plate, width: plate }; studs];
    // Plates are of steel, whatever the carrier is of.
    laid.extend(Bench { metal: CarrierMetal::Steel, ..bench }.bars(
        Stock::Bar,
        carrier.sizes.spreader_thickness,
        plates,
    ));
    laid
}

/// A piece that is still to be laid.
#[derive(Clone, Debug)]
struct Rest {
    piece: Piece,
    length: Millimetres,
    width: Millimetres,
}

struct Bench<'a> {
    rules: &'a Rules,
    metal: CarrierMetal,
    price: Option<Money>,
}

impl Bench<'_> {
    fn bars(&self, stock: Stock, thickness: Millimetres, mut rest: Vec<Rest>) -> Vec<Laid> {
        let (whole, kerf) = (self.rules.bar_length.value, self.rules.saw_kerf.value);
        rest.retain(|r| r.length <= whole);
        rest.sort_by(|a, b| b.length.get().total_cmp(&a.length.get()));
        let mut bars: Vec<(Laid, Millimetres)> = Vec::new();
        for r in rest {
            let room = |bar: &(Laid, Millimetres)| bar.0.width == r.width && whole - bar.1 >= r.length;
            if !bars.iter().any(room) {
                bars.push((self.empty(stock, whole, r.width, thickness), Millimetres::ZERO));
            }
            if let Some((bar, used)) = bars.iter_mut().find(|bar| room(bar)) {
                bar.pieces.push(LaidPiece {
                    piece: r.piece,
                    length: r.length,
                    width: r.width,
                    along: *used,
                    across: Millimetres::ZERO,
                });
                *used += r.length + kerf;
            }
        }
        bars.into_iter().map(|(bar, _)| self.weighed(bar)).collect()
    }

    fn sheets(&self, thickness: Millimetres, rest: Vec<Rest>) -> Vec<Laid> {
        let (long, short) = (self.rules.sheet_length.value, self.rules.sheet_width.value);
        let kerf = self.rules.saw_kerf.value;
        let turned = |r: Rest| match r.length >= r.width && r.length <= long && r.width <= short {
            true => r,
            false => Rest { length: r.length.max(r.width), width: r.length.min(r.width), ..r },
        };
        let mut rest: Vec<Rest> =
            rest.into_iter().map(turned).filter(|r| r.length <= long && r.width <= short).collect();
        rest.sort_by(|a, b| b.width.get().total_cmp(&a.width.get()));
        let mut sheets: Vec<(Laid, Vec<Shelf>)> = Vec::new();
        for r in rest {
            let place =
                sheets.iter_mut().find_map(|(sheet, shelves)| Some((shelf(shelves, &r, long, short, kerf)?, sheet)));
            let (at, sheet) = match place {
                Some((at, sheet)) => (at, sheet),
                None => {
                    let first = Shelf { across: Millimetres::ZERO, high: r.width, used: r.length + kerf };
                    sheets.push((self.empty(Stock::Sheet, long, short, thickness), vec![first]));
                    let Some((sheet, _)) = sheets.last_mut() else { continue };
                    ((Millimetres::ZERO, Millimetres::ZERO), sheet)
                }
            };
            let piece = LaidPiece { piece: r.piece, length: r.length, width: r.width, along: at.0, across: at.1 };
            sheet.pieces.push(piece);
        }
        sheets.into_iter().map(|(sheet, _)| self.weighed(sheet)).collect()
    }

    fn empty(&self, stock: Stock, length: Millimetres, width: Millimetres, thickness: Millimetres) -> Laid {
        let (mass, waste) = (Kilograms::ZERO, Share::ZERO);
        Laid { stock, length, width, thickness, pieces: Vec::new(), mass, waste, price: None }
    }

    fn weighed(&self, laid: Laid) -> Laid {
        let density = match self.metal {
            CarrierMetal::Steel => self.rules.steel_density.value,
            CarrierMetal::Aluminium => self.rules.aluminium_density.value,
        };
        let (length, width, t) = (laid.length.get(), laid.width.get(), laid.thickness.get());
        let section = if laid.stock == Stock::Angle { angle_area(width, t) } else { width * t };
        let mass = Kilograms::new(section * length * density * 1e-9);
        let used: f64 = laid.pieces.iter().map(|p| p.length.get() * p.width.get()).sum();
        let waste = Share::new((1.0 - used / (length * width).max(1e-9)).clamp(0.0, 1.0));
        let price = self.price.map(|each| Money::new(each.get() * mass.get()));
        Laid { mass, waste, price, ..laid }
    }
}

/// A strip across a sheet, cut off with one stroke.
struct Shelf {
    across: Millimetres,
    high: Millimetres,
    used: Millimetres,
}

/// Where a piece goes on a sheet: on a shelf that has room, else on a new one above; `None` where it is full.
fn shelf(
    shelves: &mut Vec<Shelf>,
    r: &Rest,
    long: Millimetres,
    short: Millimetres,
    kerf: Millimetres,
) -> Option<(Millimetres, Millimetres)> {
    if let Some(shelf) = shelves.iter_mut().find(|s| s.high >= r.width && long - s.used >= r.length) {
        let at = (shelf.used, shelf.across);
        shelf.used += r.length + kerf;
        return Some(at);
    }
    let above = shelves.last().map_or(Millimetres::ZERO, |s| s.across + s.high + kerf);
    (short - above >= r.width).then(|| {
        shelves.push(Shelf { across: above, high: r.width, used: r.length + kerf });
        (Millimetres::ZERO, above)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(length: f64) -> Millimetres {
        Millimetres::new(length)
    }

    fn rules(change: impl FnOnce(&mut Rules)) -> Rules {
        let mut rules = crate::catalogue::Catalogue::embedded().unwrap().rules.clone();
        change(&mut rules);
        rules
    }

    fn rest(sizes: &[(f64, f64)]) -> Vec<Rest> {
        sizes.iter().map(|s| Rest { piece: Piece::Tray, length: mm(s.0), width: mm(s.1) }).collect()
    }

    /// By hand: bars of 3 m with cuts of 3 mm: 1600 and 1394 go on one, to the millimetre, and 1400 not.
    #[test]
    fn bars_are_filled_to_the_millimetre() {
        let rules = rules(|r| (r.bar_length.value, r.saw_kerf.value) = (mm(3000.0), mm(3.0)));
        let bench = Bench { rules: &rules, metal: CarrierMetal::Steel, price: Some(Money::new(2.0)) };
        let of = |second: f64| bench.bars(Stock::Bar, mm(5.0), rest(&[(second, 40.0), (1600.0, 40.0)]));
        assert_eq!(of(1397.0).len(), 1);
        assert_eq!(of(1398.0).len(), 2);
        let bar = &of(1397.0)[0];
        assert_eq!(bar.pieces[1].along, mm(1603.0));
        // 40 × 5 of steel: 1.57 kg a metre (strip tables, from memory), so 4.71 kg for 9.42 of money; 3 mm are lost.
        assert!((bar.mass.get() - 4.71).abs() < 0.01 && (bar.price.unwrap().get() - 9.42).abs() < 0.02);
        assert!((bar.waste.get() - 3.0 / 3000.0).abs() < 1e-9);
    }

    /// No piece overlaps another or the edge, the saw's cut between them; what is used and what is wasted is the sheet.
    #[test]
    fn nothing_overlaps_on_a_sheet() {
        let rules = rules(|_| ());
        let bench = Bench { rules: &rules, metal: CarrierMetal::Aluminium, price: None };
        let pieces = [(600.0, 400.0), (300.0, 700.0), (900.0, 350.0), (500.0, 500.0), (1200.0, 300.0), (250.0, 250.0)];
        let sheets = bench.sheets(mm(3.0), rest(&pieces));
        assert_eq!(sheets.iter().map(|s| s.pieces.len()).sum::<usize>(), pieces.len());
        for sheet in &sheets {
            for (n, p) in sheet.pieces.iter().enumerate() {
                assert!(p.along + p.length <= sheet.length && p.across + p.width <= sheet.width, "{p:?}");
                for q in &sheet.pieces[n + 1..] {
                    let apart = p.along + p.length < q.along
                        || q.along + q.length < p.along
                        || p.across + p.width < q.across
                        || q.across + q.width < p.across;
                    assert!(apart, "{p:?} over {q:?}");
                }
            }
        }
        // Too large for any sheet: told by its absence.
        assert!(bench.sheets(mm(3.0), rest(&[(2500.0, 100.0)])).is_empty());
    }
}
