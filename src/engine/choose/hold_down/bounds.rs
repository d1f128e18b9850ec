//! Why is a carrier's size the one it is: what does a step less give, and a step more?

use crate::catalogue::{
    SHEET_THICKNESS, SPREADER, SPREADER_THICKNESS, STRIP_THICKNESS, STRIP_WIDTH, WELD_LENGTH, WELD_THROAT, cite,
};
use crate::engine::choose::hold_down::offers::{Offers, bend};
use crate::engine::choose::hold_down::sizes::Choice;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::parts::hold_down::Sizes;
use crate::plan::HoldDownStyle;
use crate::quantity::*;

/// A working for each size, chosen or not.
pub(crate) fn explain(site: &Installation, choice: Option<&Choice<'_>>, chosen: &Sizes, notes: &mut Notes) {
    if notes.workings().is_none() {
        return;
    }
    let (offers, catalogue) = (&Offers::of(site), &site.catalogue);
    let sheet = match site.hold_down.style {
        HoldDownStyle::StripBasket => STRIP_THICKNESS,
        _ => SHEET_THICKNESS,
    };
    type Put = fn(&mut Sizes, &Millimetres);
    let lengths: [(&str, &str, &[Millimetres], Millimetres, Put); 6] = [
        ("thickness", sheet, &offers.thicknesses, chosen.thickness, |s, t| s.thickness = *t),
        ("strip width", STRIP_WIDTH, &offers.widths, chosen.strip_width, |s, w| s.strip_width = *w),
        ("weld length", WELD_LENGTH, &offers.welds, chosen.weld_length, |s, l| s.weld_length = *l),
        ("weld throat", WELD_THROAT, &offers.throats, chosen.weld_throat, |s, a| s.weld_throat = *a),
        ("spreader", SPREADER, &offers.spreaders, chosen.spreader, |s, a| s.spreader = *a),
        ("spreader thickness", SPREADER_THICKNESS, &offers.plates, chosen.spreader_thickness, |s, t| {
            s.spreader_thickness = *t
        }),
    ];
    let show = |length: &Millimetres| length.to_string();
    for (number, stock, of, value, put) in lengths {
        let source = catalogue.stock(stock).map_or(String::new(), |s| cite([&s.from.sizes]));
        let beside = Beside { site, choice, chosen, number, source };
        beside.tell(of, &value, value.into(), show, put, notes);
    }
    let angles = cite(catalogue.angles.first().map(|a| &a.from.leg));
    let strap = (chosen.strap_leg, chosen.strap_thickness);
    let put = |s: &mut Sizes, a: &(Millimetres, Millimetres)| (s.strap_leg, s.strap_thickness) = *a;
    let show = |a: &(Millimetres, Millimetres)| format!("{} × {}", a.0, a.1);
    for (number, value) in [("strap leg", strap.0), ("strap thickness", strap.1)] {
        let beside = Beside { site, choice, chosen, number, source: angles.clone() };
        beside.tell(&offers.angles, &strap, value.into(), show, put, notes);
    }
    type Thread = fn(&mut Sizes) -> &mut String;
    let threads: [(&str, &[String], &String, Thread); 2] =
        [("stud", &offers.studs, &chosen.stud, |s| &mut s.stud), ("rod", &offers.rods, &chosen.rod, |s| &mut s.rod)];
    for (number, of, now, place) in threads {
        let size = catalogue.stud(now);
        let diameter = size.map_or(Millimetres::ZERO, |s| s.diameter);
        let beside = Beside { site, choice, chosen, number, source: cite(size.map(|s| &s.from.diameter)) };
        beside.tell(of, now, diameter.into(), String::clone, |s, thread| place(s).clone_from(thread), notes);
    }
    if let Some(spacer) = chosen.spacer {
        let short = &catalogue.rules.spacer_short;
        notes.add(Subject::Carrier, "spacer", || match site.hold_down.spacer {
            Some(_) => Working::new("length of a spacer", "", spacer).source("entered by you"),
            None => Working::new("length of a spacer", "depth - short", spacer)
                .with("depth", "depth of the floor", site.hold_down.deck_depth.unwrap_or_default())
                .with("short", "shorter than the floor is deep", short.value)
                .source(short.from.words()),
        });
    }
    let rows = Figure::new(f64::from(chosen.rows), Unit::Count);
    let beside = Beside {
        site,
        choice,
        chosen,
        number: "rows",
        source: "2 to 4 rows are tried (common practice, no source)".into(),
    };
    beside.tell(&offers.rows, &chosen.rows, rows, u32::to_string, |s, rows| s.rows = *rows, notes);
}

/// One size that was chosen among others.
struct Beside<'a> {
    site: &'a Installation,
    choice: Option<&'a Choice<'a>>,
    chosen: &'a Sizes,
    number: &'static str,
    source: String,
}

impl Beside<'_> {
    /// Its working, with what it and its neighbours in stock give, where there was a choice.
    fn tell<T: PartialEq>(
        self,
        offers: &[T],
        now: &T,
        value: Figure,
        show: impl Fn(&T) -> String,
        put: impl Fn(&mut Sizes, &T),
        notes: &mut Notes,
    ) {
        let at = offers.iter().position(|o| o == now).filter(|_| offers.len() > 1);
        let Some((choice, at)) = self.choice.zip(at) else {
            let source = "entered by you, or the usual size where it is left out and nothing is chosen";
            notes.add(Subject::Carrier, self.number, || Working::new(self.number, "", value).source(source));
            return;
        };
        let words = format!("{}: the lightest in stock that holds", self.number);
        let mut working = Working::new(words, "", value).source(self.source.clone());
        for offer in &offers[at.saturating_sub(1)..offers.len().min(at + 2)] {
            let mut sizes = self.chosen.clone();
            put(&mut sizes, offer);
            bend(&self.site.hold_down, &mut sizes);
            let told = choice.weakest(&sizes).map_or("does not bend".into(), |(link, metal)| {
                format!("{metal} of metal, {} used to {}", link.link.words(), link.used)
            });
            working = working.note(format!("{}: {told}", show(offer)));
        }
        notes.add(Subject::Carrier, self.number, || working);
    }
}
