//! Findings: a far-end fault that opens the fuse too late, and a cable that does not stand what comes through.

use crate::catalogue::FuseStyle;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::fuse_link::let_through::{LetThrough, cable_stands, lasts};
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::current::{FarFault, short_circuit};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// Operating times and where they come from.
fn times_from(style: &FuseStyle) -> String {
    format!("operating times: {}", style.gates_words())
}

/// Whether the least fault may never open a fuse.
fn is_never(fuse: &Fuse, far: FarFault) -> bool {
    fuse.rating.is_some_and(|rating| far.amps.get() <= rating.get() * fuse.clearing.slow)
}

/// How grave it is that a far-end fault opens a fuse too late, or never.
pub fn late_grade(loops: &FaultLoops, fuse: &Fuse) -> Option<Severity> {
    let far = fuse.clearing.far.filter(|_| !fuse.clearing.opens_in_time(loops.fault_open))?;
    Some(match is_never(fuse, far) {
        true => Severity::Stop,
        // The cable comes to no harm; the fault itself burns a little longer.
        false if fuse.clearing.stands_the_wait() => Severity::Note,
        false => Severity::Caution,
    })
}

/// A far-end fault opens a fuse too late, or never.
pub fn check_late(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let (style, rating) = fuse.fitted()?;
    let severity = late_grade(loops, fuse)?;
    let far = fuse.clearing.far?;
    let (run, name) = loops.run_of(fuse.branch);
    let never = is_never(fuse, far);
    let opens = match fuse.clearing.opens {
        _ if never => "may never open on that".to_string(),
        Some(time) => format!("may take {time} to open on that, more than {}", loops.fault_open),
        None => format!("is not known to open on that within {}", loops.fault_open),
    };
    let stands = lasts(fuse.clearing.stands, far.amps);
    let text = format!(
        "a fault at the far end of {name} draws as little as {} (hot cable, low battery), which its cable stands for {stands}; its {rating} fuse {opens}{}",
        far.amps,
        nearer(fuse)
    );
    let mut finding = Finding::new(Kind::FuseFarFault, Subject::Run(run), text)
        .as_severity(severity)
        .rule(format!(
            "a far-end fault opens the fuse within {}; {}; {}",
            loops.fault_open,
            loops.site.catalogue.rules.fault_open.from.words(),
            if fuse.clearing.opens.is_some() { times_from(style) } else { "no gate promises more".into() }
        ))
        .at(Place::run(run, "length_m"));
    let Some(needs) = fuse.clearing.needs else {
        return Some(
            finding.remedy(format!(
                "take a link whose maker promises opening within {} at {}",
                loops.fault_open, far.amps
            )),
        );
    };
    if let Some(size) = thick_enough(loops, fuse, far, needs) {
        let words = format!("{} brings at least the {needs} that open it in time", size.label);
        finding = finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(size.label.clone())));
    }
    if let Some(longest) = loops.longest_in_time(fuse) {
        finding = finding.remedy(format!("up to {longest} long it opens in time"));
    }
    Some(
        finding.remedy(format!(
            "a fuse that opens within {} at {}; this one asks for {needs}",
            loops.fault_open, far.amps
        )),
    )
}

/// A nearer fault that the cable does not stand until it is opened, where it stands the one at the far end.
fn nearer(fuse: &Fuse) -> String {
    let clearing = &fuse.clearing;
    match clearing.wait.filter(|wait| clearing.far_is_stood() && wait.energy > clearing.stands) {
        Some(LetThrough { at, time, .. }) => {
            let stands = lasts(clearing.stands, at);
            format!("; a nearer one of up to {at} may take {time} too, and the cable stands that for {stands}")
        }
        None => String::new(),
    }
}

/// The first bigger size with which the far-end fault opens the fuse in time.
fn thick_enough<'r>(loops: &FaultLoops<'_, 'r>, fuse: &Fuse, far: FarFault, needs: Amps) -> Option<&'r SizeRow> {
    let (run, branch) = (loops.run(fuse.branch)?, loops.branch(fuse.branch)?);
    let now = loops.link(fuse.branch)?.hot();
    loops.bigger(fuse.branch, |s| {
        let then = Link::with_size(loops.site, run, &branch.far, Some(s)).hot();
        short_circuit(far.emf, far.internal + far.path - now + then).get() >= needs.get()
    })
}

/// A cable does not stand what a fuse lets through.
pub fn check_through(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let ((style, rating), worst) = (fuse.fitted()?, fuse.clearing.through.filter(|_| !fuse.clearing.is_stood())?);
    let (weak, name) = loops.run_of(fuse.clearing.weakest);
    let stands = fuse.clearing.stands;
    let text = format!(
        "a fault of {} in {name} lasts up to {} before the {rating} fuse opens: {} come through, the cable stands {stands}",
        worst.at, worst.time, worst.energy
    );
    let k = loops.link(fuse.clearing.weakest).map_or(0.0, |l| l.adiabatic_k);
    let insulation = loops.run(fuse.clearing.weakest).and_then(|run| loops.site.insulation_of(run));
    let mut finding = Finding::new(Kind::LetThrough, Subject::Run(weak), text)
        .rule(format!(
            "I²t ≤ k²S², k = {k} A√s/mm²: {}; {}",
            insulation.map_or(String::new(), |i| i.from.adiabatic_k.words()),
            times_from(style)
        ))
        .at(Place::run(weak, "size"));
    let enough = |s: &SizeRow| cable_stands(k, s.area).get() >= worst.energy.get();
    if let Some(size) = loops.bigger(fuse.clearing.weakest, enough) {
        let words = format!("{} stands {}", size.label, cable_stands(k, size.area));
        finding = finding.remedy_edit(words, Place::run(weak, "size"), Some(Value::Text(size.label.clone())));
    }
    let least = SquareMillimetres::new(if k > 0.0 { worst.energy.get().sqrt() / k } else { 0.0 });
    Some(finding.remedy(format!("at least {least} of copper, or a smaller or quicker fuse than {rating}")))
}
