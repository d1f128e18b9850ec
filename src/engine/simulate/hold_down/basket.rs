//! Which pieces of steel make the carrier, how long are they flat, what do they weigh?
//!
//! - Strip basket: a cross strip at each row of studs, bent down from its ears,
//!   under the battery and up again (four bends), and one long strip under
//!   them, up at both ends (two bends); straps of angle around the legs, four
//!   mitred sides each.
//! - Tray: one sheet with a rim bent up on four sides.
//! - Cabinet: walls wrapped from one sheet (four bends), floor and lid flat.
//!
//! Left out: holes, welds, laps, hinges and paint; the corners of a tray are cut out.

use crate::catalogue::Rules;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::bend::Bends;
use crate::engine::physics::steel::plate::angle_centre;
use crate::engine::simulate::hold_down::result::{Blank, Box3, Piece};
use crate::plan::{CarrierMetal, HoldDown, HoldDownStyle};
use crate::quantity::*;
use crate::reckon;

/// What the pieces are cut from, and how they are bent.
pub(crate) struct Steel<'a> {
    pub carrier: &'a HoldDown,
    pub sizes: &'a Sizes,
    pub bends: Bends,
    pub rules: &'a Rules,
}

/// A flat length with the middle of each bend.
type Flat = (Millimetres, Vec<Millimetres>);

impl Steel<'_> {
    /// The pieces; `None` when a straight part between bends would be shorter than nothing.
    pub fn blanks(&self, inside: &Box3, notes: &mut Notes) -> Option<Vec<Blank>> {
        match self.carrier.style {
            HoldDownStyle::None => Some(Vec::new()),
            HoldDownStyle::StripBasket => self.basket(inside, notes),
            HoldDownStyle::Tray => self.tray(inside, notes),
            HoldDownStyle::Cabinet => self.cabinet(inside, notes),
        }
    }

    fn basket(&self, inside: &Box3, notes: &mut Notes) -> Option<Vec<Blank>> {
        let (r, t) = (self.bends.radius, self.bends.thickness);
        let (carrier, sizes) = (self.carrier, self.sizes);
        let ear = carrier.rim - r;
        // The ear's upper face lies on the deck: the leg ends at the outer radius of its bend.
        let leg = inside.upright - 2.0 * r - t;
        let cross = self.bends.flat(&[ear, leg, inside.across - 2.0 * r, leg, ear])?;
        let up = inside.upright - r;
        let long = self.bends.flat(&[up, inside.along - 2.0 * r, up])?;
        notes.add(Subject::Carrier, "blank length", || {
            let formula = "2 * (ear - r) + 2 * (H - 2 * r - t) + W - 2 * r + 4 * BA";
            Working::new("flat length of a cross strip", formula, cross.0)
                .with("ear", "ear beyond the leg", carrier.rim)
                .with("r", "inside radius", r)
                .with("H", "inside height, deck to bottom", inside.upright)
                .with("t", "thickness", t)
                .with("W", "inside width", inside.across)
                .with_from("BA", "bend allowance", self.bends.allowance, Subject::Carrier, "bend allowance")
                .source("straight parts and four bends of 90°, plain geometry")
        });
        let none = SquareMillimetres::ZERO;
        let mut blanks = vec![
            self.piece(Piece::CrossStrip, sizes.rows, cross, sizes.strip_width, none, notes),
            self.piece(Piece::LongStrip, 1, long, sizes.strip_width, none, notes),
        ];
        if carrier.straps > 0 {
            let sides = [(Piece::StrapAlong, inside.along), (Piece::StrapAcross, inside.across)];
            blanks.extend(sides.map(|(piece, inside)| self.strap(piece, inside, notes)));
        }
        Some(blanks)
    }

    /// Two sides of each strap: their backs lie on the strips, and the other leg points out, so that a side is longest
    /// along its free edge. Mitred at both ends.
    fn strap(&self, piece: Piece, inside: Millimetres, notes: &mut Notes) -> Blank {
        let (leg, thick) = (self.sizes.strap_leg, self.sizes.strap_thickness);
        let count = 2 * self.carrier.straps;
        let length = inside + 2.0 * (self.bends.thickness + leg);
        // An angle laid flat is as wide as both legs less a thickness; both mitres together take off what its centre lies
        // further in than its free edge.
        let flat = 2.0 * leg - thick;
        let short = 2.0 * (leg.get() - angle_centre(leg.get(), thick.get()));
        let away = SquareMillimetres::new(f64::from(count) * short * flat.get());
        Blank { width: leg, ..self.sheet(piece, count, (length, Vec::new()), flat, thick, away, notes) }
    }

    fn tray(&self, inside: &Box3, notes: &mut Notes) -> Option<Vec<Blank>> {
        let rim = self.carrier.rim - self.bends.radius;
        let length = self.bends.flat(&[rim, inside.along - 2.0 * self.bends.radius, rim])?;
        let (width, _) = self.bends.flat(&[rim, inside.across - 2.0 * self.bends.radius, rim])?;
        let corner = rim + self.bends.allowance / 2.0;
        let corners = SquareMillimetres::new(4.0 * corner.get() * corner.get());
        Some(vec![self.piece(Piece::Tray, 1, length, width, corners, notes)])
    }

    fn cabinet(&self, inside: &Box3, notes: &mut Notes) -> Option<Vec<Blank>> {
        let (r, t, none) = (self.bends.radius, self.bends.thickness, SquareMillimetres::ZERO);
        let (along, across) = (inside.along - 2.0 * r, inside.across - 2.0 * r);
        // Begun and ended in the middle of a long wall, where it is welded.
        let wrap = self.bends.flat(&[along / 2.0, across, along, across, along / 2.0])?;
        let panel = (inside.along + 2.0 * t, Vec::new());
        Some(vec![
            self.piece(Piece::WallWrap, 1, wrap, inside.upright, none, notes),
            self.piece(Piece::FloorAndLid, 2, panel, inside.across + 2.0 * t, none, notes),
        ])
    }

    /// `count` pieces alike; `away` is what is cut out of all of them.
    fn piece(
        &self,
        piece: Piece,
        count: u32,
        (length, marks): Flat,
        width: Millimetres,
        away: SquareMillimetres,
        notes: &mut Notes,
    ) -> Blank {
        self.sheet(piece, count, (length, marks), width, self.sizes.thickness, away, notes)
    }

    /// The same of a thickness of its own.
    #[allow(clippy::too_many_arguments)]
    fn sheet(
        &self,
        piece: Piece,
        count: u32,
        (length, marks): Flat,
        width: Millimetres,
        thickness: Millimetres,
        away: SquareMillimetres,
        notes: &mut Notes,
    ) -> Blank {
        let density = match self.carrier.metal {
            CarrierMetal::Steel => &self.rules.steel_density,
            CarrierMetal::Aluminium => &self.rules.aluminium_density,
        };
        let mass = reckon!(Kilograms: (n * length * width - c) * t * rho / 1000000000.0,
            n: "how many" = Figure::new(f64::from(count), Unit::Count),
            length: "flat length" = length,
            width: "flat width" = width,
            c: "corners and mitres cut off" = away,
            t: "thickness" = thickness,
            rho: "density of the metal, kg/m³" = Figure::number(density.value));
        let mass = notes.reckon(&Subject::Carrier, format!("mass of {}", piece.words()), mass, |r| {
            r.working(format!("mass of {count} × {}", piece.words()))
                .source(density.from.words())
                .note("holes are not taken off")
        });
        Blank { piece, count, length, width, thickness, marks, mass }
    }
}
