//! Findings: a far-end fault that opens the fuse too late, and a cable that does not stand what comes through.

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::faults::{FarFault, short_circuit};
use crate::engine::simulate::fault::ground::Ground;
use crate::engine::simulate::fault::link::Link;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// Judge how one fuse clears the faults behind it.
pub(crate) fn find(ground: &Ground, fuse: &Fuse, book: &mut Book) {
    let Some((style, rating)) = fuse.fitted() else { return };
    if let Some(far) = fuse.clearing.far.filter(|_| !fuse.clearing.opens_in_time(ground.fault_open)) {
        late(ground, fuse, style, rating, far, book);
    }
    if !fuse.clearing.is_stood() {
        through(ground, fuse, style, rating, book);
    }
}

/// Operating times and where they come from.
fn times_from(style: &FuseStyle) -> String {
    format!("operating times: {}", style.gates_words())
}

fn late(ground: &Ground, fuse: &Fuse, style: &FuseStyle, rating: Amps, far: FarFault, book: &mut Book) {
    let (run, name) = ground.run_of(fuse.branch);
    let never = far.amps.get() <= rating.get() * fuse.clearing.slow;
    let opens = match fuse.clearing.opens {
        _ if never => "may never open on that".to_string(),
        Some(time) => format!("may take {time} to open on that, more than {}", ground.fault_open),
        None => format!("is not known to open on that within {}", ground.fault_open),
    };
    let stands = crate::engine::physics::fuse_link::let_through::lasts(fuse.clearing.stands, far.amps);
    let text = format!(
        "a fault at the far end of {name} draws as little as {} (hot cable, low battery), which its cable stands for {stands}; its {rating} fuse {opens}",
        far.amps
    );
    let mut finding = Finding::new(Kind::FuseFarFault, Subject::Run(run), text)
        .as_severity(match never {
            true => Severity::Stop,
            // The cable comes to no harm; the fault itself burns a little longer.
            false if fuse.clearing.stands_the_wait() => Severity::Note,
            false => Severity::Caution,
        })
        .rule(format!(
            "a far-end fault opens the fuse within {}; {}; {}",
            ground.fault_open,
            ground.site.catalogue.rules.fault_open.from.words(),
            times_from(style)
        ))
        .at(Place::run(run, "length_m"));
    let Some(needs) = fuse.clearing.needs else {
        book.find(
            finding.remedy(format!(
                "take a link whose maker promises opening within {} at {}",
                ground.fault_open, far.amps
            )),
        );
        return;
    };
    if let Some(size) = thick_enough(ground, fuse, far, needs) {
        let words = format!("{} brings at least the {needs} that open it in time", size.label);
        finding = finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(size.label.clone())));
    }
    if let Some(longest) = longest(ground, fuse) {
        finding = finding.remedy(format!("up to {longest} long it opens in time"));
    }
    book.find(
        finding.remedy(format!(
            "a fuse that opens within {} at {}; this one asks for {needs}",
            ground.fault_open, far.amps
        )),
    );
}

/// The first bigger size with which the far-end fault opens the fuse in time.
fn thick_enough<'g>(ground: &'g Ground, fuse: &Fuse, far: FarFault, needs: Amps) -> Option<&'g SizeRow> {
    let (run, branch) = (ground.run(fuse.branch)?, ground.branch(fuse.branch)?);
    let now = ground.link(fuse.branch)?.hot();
    ground.bigger(fuse.branch, |s| {
        let then = Link::with_size(ground.site, run, &branch.far, Some(s)).hot();
        short_circuit(far.emf, far.internal + far.path - now + then).get() >= needs.get()
    })
}

/// Longest that the run may be for the far-end fault to open its fuse in time:
/// L = L0 + (E / I - r - R) / R', R' the hot copper of a metre out and back.
/// `None` where no length is short enough or no gate promises it.
pub(crate) fn longest(ground: &Ground, fuse: &Fuse) -> Option<Metres> {
    let (far, needs, link) = (fuse.clearing.far?, fuse.clearing.needs?, ground.link(fuse.branch)?);
    let per_metre = link.hot_per_metre();
    if per_metre <= 0.0 || needs.get() <= 0.0 {
        return None;
    }
    let room = far.emf / needs - far.internal - far.path;
    let longest = link.length.get() + room.get() / per_metre;
    (longest > 0.0).then(|| Metres::new(longest))
}

fn through(ground: &Ground, fuse: &Fuse, style: &FuseStyle, rating: Amps, book: &mut Book) {
    let Some(worst) = fuse.clearing.through else { return };
    let (weak, name) = ground.run_of(fuse.clearing.weakest);
    let stands = fuse.clearing.stands;
    let text = format!(
        "a fault of {} in {name} lasts up to {} before the {rating} fuse opens: {} come through, the cable stands {stands}",
        worst.at, worst.time, worst.energy
    );
    let k = ground.link(fuse.clearing.weakest).map_or(0.0, |l| l.adiabatic_k);
    let mut finding = Finding::new(Kind::LetThrough, Subject::Run(weak), text)
        .rule(format!("I²t ≤ k²S², k = {k} A√s/mm² (IEC 60364-5-54); {}", times_from(style)))
        .at(Place::run(weak, "size"));
    let enough = |s: &SizeRow| {
        crate::engine::physics::fuse_link::let_through::cable_stands(k, s.area).get() >= worst.energy.get()
    };
    if let Some(size) = ground.bigger(fuse.clearing.weakest, enough) {
        let words = format!(
            "{} stands {}",
            size.label,
            crate::engine::physics::fuse_link::let_through::cable_stands(k, size.area)
        );
        finding = finding.remedy_edit(words, Place::run(weak, "size"), Some(Value::Text(size.label.clone())));
    }
    let least = SquareMillimetres::new(if k > 0.0 { worst.energy.get().sqrt() / k } else { 0.0 });
    book.find(finding.remedy(format!("at least {least} of copper, or a smaller or quicker fuse than {rating}")));
}
