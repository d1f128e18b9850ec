//! What is a piece of cable, and what does the workshop put on its ends?

use crate::catalogue::{Conductor, Rules, Workshop};
use crate::engine::design::Design;
use crate::engine::parts::terminal::{Part, Polarity, Terminal};
use crate::plan::{Plug, point};
use crate::quantity::*;
use std::collections::BTreeMap;

/// One piece of cable.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// `R3 + 1`: what it is part of, which conductor, and which piece where there are several.
    pub name: String,
    /// What it is part of: `R3`, `bond`, `panels`, `link 1`.
    pub stem: String,
    /// Index of the run; none of what belongs to no run.
    pub run: Option<usize>,
    /// Which conductor.
    pub polarity: Polarity,
    /// Colour of its insulation.
    pub colour: String,
    /// Conductor label, e.g. `10 mm²`.
    pub size: String,
    /// Insulation class key.
    pub insulation: String,
    /// Where it begins: a point, or `fuse`.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// The terminals on which both ends sit.
    pub ends: [Terminal; 2],
    /// Length along the loom.
    pub along: Metres,
    /// Length to cut.
    pub length: Metres,
    /// Lug at `from`.
    pub lug_from: Lug,
    /// Lug at `to`.
    pub lug_to: Lug,
    /// The fuses it leads to, or touches when they sit on a stud: their places among the run's fuses. Each is
    /// said once.
    pub fuses: Vec<usize>,
    /// Sleeve on each end, as bought: inside diameter; `None` when none is wide enough.
    pub sleeve: Option<Millimetres>,
}

/// What is crimped onto an end.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lug {
    /// A ring terminal for a stud.
    Ring(String),
    /// The terminal that belongs to the fuse holder.
    Holder,
    /// The pin that belongs to the plug or socket.
    Pin,
    /// What the device has; nothing here knows.
    ToFit,
}

/// The vehicle's body, on which the bond and every return through it end.
pub const BODY: &str = "body";

/// How a negative bar is called, before the point beside which it sits.
pub const BAR: &str = "negative bar at ";

/// A point of the body beside a place: each end has a stud of its own, and all are one metal.
pub fn earth_by(at: &str) -> Terminal {
    Terminal::minus(format!("{BODY} by the {at}"), Part::Earth)
}

/// A block of the bank that is not the one on which its plus or its minus is.
pub fn block(n: u32) -> String {
    format!("{} block {n}", point::SERVICE_BATTERY)
}

/// Whether a place is such a block.
pub fn is_block(at: &str) -> bool {
    at.strip_prefix(point::SERVICE_BATTERY).is_some_and(|rest| rest.starts_with(" block "))
}

/// What the workshop has and knows.
pub struct Shop<'a> {
    /// Slack and usual lengths.
    pub rules: &'a Rules,
    workshop: &'a Workshop,
    plugs: &'a [Plug],
}

impl<'a> Shop<'a> {
    /// Of a design.
    pub fn of(design: &'a Design) -> Self {
        let site = &design.installation;
        Shop { rules: &site.catalogue.rules, workshop: &site.catalogue.workshop, plugs: &site.plugs }
    }

    /// A piece between two places, as long as its way and the slack; not yet named.
    pub fn piece(&self, stem: &str, polarity: Polarity, conductor: &Conductor, insulation: &str, along: Metres) -> Cut {
        let nowhere = Terminal { at: String::new(), polarity, part: Part::Post };
        Cut {
            name: String::new(),
            stem: stem.into(),
            run: None,
            polarity,
            colour: self.workshop.colour(Polarity::word(polarity)).to_string(),
            size: conductor.label.clone(),
            insulation: insulation.into(),
            from: String::new(),
            to: String::new(),
            ends: [nowhere.clone(), nowhere],
            along,
            length: slack(self.rules, along),
            lug_from: Lug::ToFit,
            lug_to: Lug::ToFit,
            fuses: Vec::new(),
            sleeve: self.sleeve(conductor),
        }
    }

    /// A ring for the stud there, or the pin of a plug.
    pub fn end(&self, point: &str, conductor: &Conductor) -> Lug {
        if self.plugs.iter().any(|p| p.name == point) || self.workshop.takes_pins(point) {
            Lug::Pin
        } else {
            Lug::Ring(self.stud(point, conductor))
        }
    }

    /// The stud that is usual there for such a conductor.
    pub fn stud(&self, point: &str, conductor: &Conductor) -> String {
        let post = self.workshop.posts.iter().find(|p| p.point == point).map(|p| &p.stud);
        let by_area = || self.workshop.lugs.iter().find(|l| conductor.area.get() <= l.up_to.get()).map(|l| &l.stud);
        post.or_else(by_area).cloned().unwrap_or_else(|| "to measure".into())
    }

    /// The smallest sleeve that passes over the lug's barrel and still grips the cable.
    fn sleeve(&self, conductor: &Conductor) -> Option<Millimetres> {
        let over = conductor.outside * self.rules.sleeve_over.value;
        let fits = |s: &&crate::catalogue::Sleeve| s.expanded >= over && s.shrunk < conductor.outside;
        self.workshop.sleeves.iter().find(fits).map(|s| s.expanded)
    }
}

/// L_cut = ⌈(L × (1 + s) + 2 × e) / step⌉ × step.
pub(crate) fn slack(rules: &Rules, along: Metres) -> Metres {
    let (share, end, step) = numbers(rules);
    round_up(along * (1.0 + share) + Metres::new(2.0 * end), step)
}

/// Slack as a share, slack at each end, and the step of a tape.
pub(crate) fn numbers(rules: &Rules) -> (f64, f64, f64) {
    (rules.cut_slack.value.get(), rules.cut_end.value.get(), rules.cut_step.value.get())
}

/// Each piece gets a name that no other has.
pub fn name(cuts: &mut [Cut]) {
    let stem = |cut: &Cut| format!("{} {}", cut.stem, cut.polarity.sign());
    let mut pieces: BTreeMap<String, (u32, u32)> = BTreeMap::new();
    cuts.iter().for_each(|cut| pieces.entry(stem(cut)).or_default().0 += 1);
    for cut in cuts {
        let stem = stem(cut);
        let (all, so_far) = pieces.entry(stem.clone()).or_default();
        *so_far += 1;
        cut.name = if *all > 1 { format!("{stem} {so_far}") } else { stem };
    }
}

/// Up to the next multiple of `step`; a hair above one is taken for it.
pub(crate) fn round_up(length: Metres, step: f64) -> Metres {
    if step <= 0.0 {
        return length;
    }
    Metres::new((length.get() / step - 1e-9).ceil() * step)
}
