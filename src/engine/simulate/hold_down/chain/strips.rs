//! Which moments go through a basket's cross strip when its battery is thrown?
//!
//! Ear, leg, bottom, leg, ear: one plane frame. Two ways of load: spread evenly,
//! and at the corners as a stiff case gives it. Two ways of holding: each ear
//! clamped flat by its nut, and each ear turning on its stud with its tip prying
//! on the deck. All four are solved; at each place the worst counts. Where the
//! deck gives way under the ears they turn on their studs and nothing stops them.

use crate::engine::physics::steel::frame::{Bar, Frame, Hold, Solved};
use std::cell::RefCell;

/// One cross strip; millimetres, along its middle.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Strip {
    /// Between the middles of the legs.
    pub wide: f64,
    /// From the middle of the ears to the middle of the bottom.
    pub high: f64,
    /// From the middle of a leg to the stud.
    pub stud: f64,
    /// From the middle of a leg to the tip of the ear.
    pub tip: f64,
    /// From the middle of a leg to the corner of the battery.
    pub corner: f64,
    pub width: f64,
    pub thickness: f64,
}

/// Frames that are solved already: a strip of whatever width feels the same of a force, so a walk through the widths
/// and studs in stock asks for the same few again and again.
#[derive(Debug, Default)]
pub(crate) struct Frames {
    solved: RefCell<Vec<(Asked, Option<Felt>)>>,
}

/// A geometry with its forces, and how its ears are held.
type Asked = ([u64; 9], Ears);

impl Frames {
    /// What a strip feels, the worst of both ways of holding; `None` when there is no frame.
    pub(crate) fn felt(&self, strip: &Strip, thrust: Thrust, corners: bool) -> Option<Felt> {
        self.with(strip, thrust, corners, Ears::Held)
    }

    /// What it feels once nothing holds its ears but their studs.
    pub(crate) fn loose(&self, strip: &Strip, thrust: Thrust, corners: bool) -> Option<Felt> {
        self.with(strip, thrust, corners, Ears::Loose)
    }

    fn with(&self, strip: &Strip, thrust: Thrust, corners: bool, ears: Ears) -> Option<Felt> {
        let most = thrust.down.abs().max(thrust.side.abs());
        if most == 0.0 {
            return Some(Felt::default());
        }
        // To a thousand millionth, so that the same share of both is the same, whatever mass made it.
        let share = |force: f64| (force / most * 1e9).round() / 1e9;
        let one = Thrust { down: share(thrust.down), side: share(thrust.side), above: thrust.above };
        let of = [strip.wide, strip.high, strip.stud, strip.tip, strip.corner, strip.thickness, one.down, one.side];
        let above = if one.side == 0.0 { 0.0 } else { one.above };
        let sign = if corners { 1.0 } else { -1.0 };
        let mut key = [(sign * (above + 1.0)).to_bits(); 9];
        key.iter_mut().zip(of).for_each(|(key, of)| *key = of.to_bits());
        let known = self.solved.borrow().iter().find(|(of, _)| *of == (key, ears)).map(|(_, felt)| *felt);
        let felt = known.unwrap_or_else(|| {
            let felt = Strip { width: 1.0, ..*strip }.felt(one, corners, ears);
            self.solved.borrow_mut().push(((key, ears), felt));
            felt
        });
        felt.map(|felt| felt.times(most))
    }
}

/// How the ears are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ears {
    /// Clamped flat, and turning with the tip stopped: the worse of both.
    Held,
    /// Turning, with nothing that stops them.
    Loose,
}

/// One way of holding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ear {
    Clamped,
    Stopped,
    Loose,
}

impl Felt {
    fn times(self, force: f64) -> Felt {
        let both = |(moment, pull): (f64, f64)| (moment * force, pull * force);
        Felt {
            bottom: both(self.bottom),
            bend: both(self.bend),
            leg: both(self.leg),
            ear: self.ear * force,
            stud: self.stud * force,
        }
    }
}

/// What comes on one strip, in newtons; sideways it comes on one leg.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Thrust {
    pub down: f64,
    pub side: f64,
    /// Height of the mass above the bottom, for the tipping that a sideways force brings.
    pub above: f64,
}

/// Moments (N mm) and pulls (N) at the places that can fail.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Felt {
    /// In the flat bottom, with its pull.
    pub bottom: (f64, f64),
    /// In the worst of the four bends.
    pub bend: (f64, f64),
    /// Between the bends of a leg.
    pub leg: (f64, f64),
    /// In an ear, at its stud.
    pub ear: f64,
    /// Pull of the stud, prying in it.
    pub stud: f64,
}

impl Strip {
    /// The frame: tip, stud, top, corner, two of the battery's corners, and the same back up.
    fn frame(&self, thrust: Thrust, corners: bool, ear: Ear) -> Frame {
        let (half, low) = (self.wide / 2.0, -self.high);
        let tips = [(-half - self.tip, 0.0), (half + self.tip, 0.0)];
        let nodes = vec![
            tips[0],
            (-half - self.stud, 0.0),
            (-half, 0.0),
            (-half, low),
            (-half + self.corner, low),
            (half - self.corner, low),
            (half, low),
            (half, 0.0),
            (half + self.stud, 0.0),
            tips[1],
        ];
        let even_side = if corners { thrust.side * (1.0 - self.at_corner(thrust)) } else { thrust.side };
        let load = |from: usize| match from {
            3..=5 if !corners => (0.0, -thrust.down / self.wide),
            6 => (even_side / self.high, 0.0),
            _ => (0.0, 0.0),
        };
        let bars = (0..9).map(|from| Bar { from, to: from + 1, load: load(from) }).collect();
        let stops = [0, 2, 7, 9].map(|n| (n, Hold::Stopped));
        let pins = [(1, Hold::Pinned), (8, Hold::Pinned)];
        let holds = match ear {
            Ear::Clamped => vec![(1, Hold::Fixed), (8, Hold::Fixed)],
            Ear::Stopped => pins.into_iter().chain(stops).collect(),
            Ear::Loose => pins.to_vec(),
        };
        let mut forces = Vec::new();
        if corners {
            let side = thrust.side - even_side;
            let tips = side * thrust.above / (self.wide - 2.0 * self.corner);
            forces.extend([(4, 0.0, tips - thrust.down / 2.0), (5, 0.0, -tips - thrust.down / 2.0), (6, side, 0.0)]);
        }
        let (area, second) = (self.width * self.thickness, self.width * self.thickness.powi(3) / 12.0);
        Frame { nodes, bars, holds, forces, area, second }
    }

    /// How much of a sideways force a standing battery can give at its lower edge before it tips against the leg.
    fn at_corner(&self, thrust: Thrust) -> f64 {
        let tips = thrust.side.abs() * thrust.above;
        if tips > 0.0 { (thrust.down / 2.0 * (self.wide - 2.0 * self.corner) / tips).clamp(0.0, 1.0) } else { 1.0 }
    }

    fn felt(&self, thrust: Thrust, corners: bool, ears: Ears) -> Option<Felt> {
        let solved = |ear| Some(self.read(&self.frame(thrust, corners, ear).solve()?, ear == Ear::Clamped));
        if ears == Ears::Loose {
            return solved(Ear::Loose);
        }
        let (clamped, turning) = (solved(Ear::Clamped)?, solved(Ear::Stopped)?);
        let worse = |a: (f64, f64), b: (f64, f64)| (a.0.max(b.0), a.1.max(b.1));
        Some(Felt {
            bottom: worse(clamped.bottom, turning.bottom),
            bend: worse(clamped.bend, turning.bend),
            leg: worse(clamped.leg, turning.leg),
            ear: clamped.ear.max(turning.ear),
            stud: clamped.stud.max(turning.stud),
        })
    }

    fn read(&self, solved: &Solved, clamped: bool) -> Felt {
        let bars = &solved.bars;
        let most = |of: &[f64]| of.iter().fold(0.0, |a: f64, b| a.max(b.abs()));
        let bottom = [bars[3].between, bars[3].to, bars[4].between, bars[4].to, bars[5].between];
        let bends =
            [bars[1].to, bars[2].from, bars[2].to, bars[3].from, bars[5].to, bars[6].from, bars[6].to, bars[7].from];
        let stud = |stud: usize, bars: [f64; 2]| {
            let pull = solved.reactions[stud][1].max(0.0);
            // A clamped ear is kept flat by the deck, which presses at its tip or at its bend.
            let lever = (self.tip - self.stud).min(self.stud).max(1.0);
            pull + if clamped { most(&bars) / lever } else { 0.0 }
        };
        Felt {
            bottom: (most(&bottom), most(&[bars[3].pull, bars[4].pull, bars[5].pull])),
            bend: (most(&bends), most(&[1, 2, 3, 5, 6, 7].map(|n| bars[n].pull))),
            leg: (most(&[bars[2].between, bars[6].between]), most(&[bars[2].pull, bars[6].pull])),
            ear: most(&[bars[0].to, bars[1].from, bars[7].to, bars[8].from]),
            stud: stud(1, [bars[0].to, bars[1].from]).max(stud(8, [bars[7].to, bars[8].from])),
        }
    }
}
