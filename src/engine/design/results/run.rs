//! Results of the cables: each run, each size it could have, its fuses, the copper of all.

use super::fact::{At, AtMost, Many, One, facts, many, one};
use crate::engine::design::which_fuse::{Step, WhichFuse};
use crate::engine::installation::circuits::{Branch, Side};
use crate::engine::installation::subject::Subject;
use crate::engine::simulate::circuit::result::{CopperDesign, FuseDesign, RunDesign, SizeRow};
use crate::plan::Run;
use crate::quantity::*;
use std::borrow::Cow;

/// What the plan says of the run that stands here.
fn planned<'a>(run: usize, at: &At<'a>) -> Option<&'a Run> {
    at.site.runs.get(run)
}

/// Where the run stands in its tree.
fn branch<'a>(run: &RunDesign, at: &At<'a>) -> Option<&'a Branch> {
    at.site.circuits.branches.get(run.branch?)
}

/// The run that feeds it.
fn parent(run: &RunDesign, at: &At<'_>) -> Option<usize> {
    Some(at.site.circuits.branches.get(branch(run, at)?.parent?)?.run)
}

facts! { CopperDesign, "copper", "the copper of all runs together", |_, _| Subject::Plan;
    MASS: Kilograms = "mass_kg", "Copper", "as sized", |c, _| c.mass;
    EQUAL_SHARE: Option<Kilograms> = "equal_share_kg", "By equal shares", "with each path's drop shared equally; null where that breaks a limit", |c, _| c.equal_share;
    LEAST: bool = "least", "Least", "whether no choice that keeps every rule is lighter", |c, _| c.least;
    NO_LESS: Option<Kilograms> = "no_less_kg", "No choice under", "where the least is not proven, what no choice that keeps every drop is under", |c, _| c.no_less;
    LABELS: Vec<String> = "labels", "To buy", "the different sizes to buy", |c, _| c.labels.clone();
    UNSERVED: Vec<String> = "unserved", "Not served", "what no size serves; its own cables are sized only by what they carry", |c, at| c.unserved.iter().map(|end| at.site.name_of(&end.subject())).collect();
}

facts! { RunDesign, "run", "one run of cable", |r, _| Subject::Run(r.run);
    NUMBER: String = "number", "Run", "as on all papers: R1, R2, …", |r, at| at.site.run_number(r.run);
    NAME: Option<String> = "name", "Name", "the plan's name for it", |r, at| Some(planned(r.run, at)?.name.clone());
    FROM: Option<String> = "from", "From", "as in the plan", |r, at| Some(planned(r.run, at)?.from.clone());
    TO: Option<String> = "to", "To", "as in the plan", |r, at| Some(planned(r.run, at)?.to.clone());
    BATTERY: Option<Side> = "battery", "Battery", "which battery feeds it; null when it hangs together with none", |r, at| Some(branch(r, at)?.side);
    NEAR: Option<String> = "near", "Near", "the end nearer that battery", |r, at| Some(branch(r, at)?.near.clone());
    FAR: Option<String> = "far", "Far", "the other end", |r, at| Some(branch(r, at)?.far.clone());
    PARENT: Option<String> = "parent", "Fed by", "the run that leads to its near end; null when that is the battery", |r, at| parent(r, at).map(|p| at.site.run_number(p));
    LENGTH: Option<Metres> = "length_m", "Length", "one way", |r, at| Some(planned(r.run, at)?.length);
    INSULATION: Option<String> = "insulation", "Insulation", "key of its class", |r, at| Some(planned(r.run, at)?.insulation.clone());
    THROUGH: Option<String> = "through", "Through", "key of what it runs through", |r, at| Some(planned(r.run, at)?.surroundings.clone());
    SIZED_FOR: Amps = "sized_for_a", "Current", "largest steady current, which sizes it", |r, _| r.current, "current";
    SURGE: Amps = "surge_a", "Short current on top", "largest short current", |r, _| r.surge, "surge";
    SURGE_LASTS: Seconds = "surge_lasts_s", "Lasts", "how long", |r, _| r.surge_lasts;
    AIR: Celsius = "air_c", "Air", "hottest air along it", |r, _| r.air, "air";
    SIZE: Option<One<SizeRow>> = "size", "Size", "the size used; null when none is enough", |r, at| r.size.as_ref().map(|s| one(s, at)), "size";
    PINNED: bool = "pinned", "Given", "whether the plan gives the size", |r, _| r.pinned;
    RULING: &'static str = "ruling", "Decided by", "what decided the size", |r, _| r.ruling;
    DROP_ALLOWED: Volts = "drop_allowed_v", "Drop it may have", "drop this run may have", |r, _| r.drop_allowed, "drop allowed";
    EQUAL_SHARE: Option<Volts> = "equal_share_v", "By equal shares", "drop that sharing by length and current would allow it", |r, _| r.equal_share, "equal share";
    SETTLED: Amps = "settled_a", "Flows", "current away from its battery, all on that may be, the battery at its lowest", |r, _| r.settled.current;
    SETTLED_RESISTANCE: Ohms = "settled_ohm", "Resistance then", "of the loop at `settled_c`", |r, _| r.settled.resistance;
    SETTLED_COPPER: Celsius = "settled_c", "Copper then", "of the copper then", |r, _| r.settled.temperature;
    NEAR_VOLTAGE: Volts = "near_v", "Near end", "voltage at its near end then", |r, _| r.settled.near, "near voltage";
    FAR_VOLTAGE: Volts = "far_v", "Far end", "the same at its far end", |r, _| r.settled.far, "far voltage";
    LONGEST: Option<AtMost<Metres>> = "longest_m", "Longest", "longest way at this size", |r, _| r.longest.map(|l| AtMost(l.0)), "longest";
    LONGEST_BY: Option<&'static str> = "longest_by", "by", "what stops it there", |r, _| r.longest.map(|l| l.1);
    IN_TIME_TO: Option<AtMost<Metres>> = "in_time_to_m", "In time to", "length up to which a far-end fault opens the fuse in time, where less than the longest", |r, _| r.in_time_to().map(AtMost);
    BIGGEST: Option<AtMost<Amps>> = "biggest_a", "Biggest", "biggest steady current at this size and length", |r, _| r.biggest.map(|l| AtMost(l.0)), "biggest";
    BIGGEST_BY: Option<&'static str> = "biggest_by", "by", "what stops it there", |r, _| r.biggest.map(|l| l.1);
    WARMEST: Option<AtMost<Celsius>> = "warmest_c", "Warmest", "warmest air at this size", |r, _| r.warmest.map(|l| AtMost(l.0)), "warmest";
    WARMEST_BY: Option<&'static str> = "warmest_by", "by", "what stops it there", |r, _| r.warmest.map(|l| l.1);
    TIME_CONSTANT: Seconds = "time_constant_s", "Warms in", "time constant of warming", |r, _| r.short_time.time_constant, "time constant";
    AFTER_START: Celsius = "after_start_c", "Warm after a start", "conductor when the worst start ends", |r, _| r.short_time.after_start, "after start";
    START_LASTS: Seconds = "start_lasts_s", "for", "how long a start is taken to last", |r, _| r.short_time.start_lasts;
    SHORT_TIME: AtMost<Amps> = "short_time_a", "Largest start", "largest current for that time", |r, _| AtMost(r.short_time.start), "short-time rating";
    INTERMITTENT: AtMost<Amps> = "intermittent_a", "Off and on", "largest current for 30 s on, 5 min off", |r, _| AtMost(r.short_time.intermittent), "intermittent rating";
    ON: Option<Seconds> = "on_s", "Comes for", "longest that loads beyond which come and go are on; null where none does", |r, _| r.short_time.pulse.map(|p| p.cycle.on);
    OFF: Option<Seconds> = "off_s", "goes for", "shortest that they are off then", |r, _| r.short_time.pulse.map(|p| p.cycle.off);
    PEAK: Option<Celsius> = "peak_c", "Warm at the end", "conductor when they are switched off", |r, _| r.short_time.pulse.map(|p| p.peak), "peak";
    RUNS_ON: Option<AtMost<Seconds>> = "runs_on_s", "May run on", "from switching on until its insulation is at its limit; null where it never is", |r, _| r.short_time.pulse.and_then(|p| p.runs_on).map(AtMost), "runs on";
    FUSES: Many<FuseDesign> = "fuses", "Fuses", "one at each end that has a source", |r, at| many(&r.fuses, at);
    SIZES: Many<SizeRow> = "sizes", "Sizes", "every size side by side", |r, at| many(&r.sizes, at);
}

/// The workings of the size used are those of its run.
fn size(size: &SizeRow, at: &At<'_>) -> Subject {
    if size.used { Subject::Run(at.within) } else { Subject::Size(at.within, size.label.clone()) }
}

facts! { SizeRow, "size", "one size for one run", |s, at| size(s, at);
    LABEL: String = "label", "Size", "as sold", |s, _| s.label.clone();
    AREA: SquareMillimetres = "area_mm2", "Area", "copper as sold", |s, _| s.area;
    RESISTANCE: Ohms = "resistance_ohm", "Resistance, hot", "of the loop, hot, joints included", |s, _| s.resistance, "resistance";
    COPPER_COLD: Ohms = "copper_ohm", "Copper at 20 °C", "of the loop, or one way where the body brings the current back", |s, _| s.made_of.copper;
    JOINTS: Ohms = "joints_ohm", "Joints", "all crimped lugs of the loop", |s, _| s.made_of.joints;
    CONTACTS: Ohms = "contacts_ohm", "Contacts", "switches, the cut-off, the vehicle's body", |s, _| s.made_of.contacts;
    LINK: Ohms = "link_ohm", "Fuse-link", "fuse-link and holder", |s, _| s.made_of.link;
    DROP: Volts = "drop_v", "Drop", "at the steady current, out and back", |s, _| s.drop, "drop";
    DROP_SHARE: Share = "drop_share", "of 12 V", "the same as a share of what its side is made for: 12 V, or 24 V before the charger of such a vehicle", |s, _| s.drop_share, "drop share";
    TEMPERATURE: Celsius = "temperature_c", "Copper", "of the copper at the steady current", |s, _| s.temperature, "temperature";
    AMPACITY: AtMost<Amps> = "ampacity_a", "Carries", "what counts: the smaller of the next two, or more while a load that comes and goes is on", |s, _| AtMost(s.ampacity), "ampacity";
    AMPACITY_TABLE: Option<AtMost<Amps>> = "ampacity_table_a", "Table", "by the published table and its factors; null below its sizes", |s, _| s.ampacity_table.map(AtMost), "ampacity by table";
    AMPACITY_HEAT: Option<AtMost<Amps>> = "ampacity_heat_a", "Heat", "by heat balance", |s, _| s.ampacity_heat.map(AtMost), "ampacity by heat balance";
    FUSE: Option<Amps> = "fuse_a", "Fuse", "fuse that would protect it; null when none fits", |s, _| s.fuse, "fuse";
    COPPER: Kilograms = "copper_kg", "Mass", "of copper, out and back", |s, _| s.mass, "mass";
    LOSS: WattHours = "loss_wh", "Lost a day", "energy lost a day", |s, _| s.loss, "loss";
    FAILS: Vec<&'static str> = "fails", "Fails", "which criteria it fails", |s, _| s.fails.iter().map(|f| f.word()).collect();
    USED: bool = "used", "Used", "whether it is the size used", |s, _| s.used;
}

/// The workings of a fuse at the far end say so.
fn end(fuse: &FuseDesign, number: &'static str) -> Cow<'static, str> {
    if fuse.far_end { format!("{number} at far end").into() } else { number.into() }
}

facts! { FuseDesign, "fuse", "one fuse of a run", |_, at| Subject::Run(at.within);
    RUN: String = "run", "Run", "the run it protects", |_, at| at.site.run_number(at.within);
    AT: String = "at", "Source at", "the point whose source it guards against", |f, _| f.at.clone();
    FAR_END: bool = "far_end", "Far end", "whether it sits at the end away from its battery", |f, _| f.far_end;
    WITHIN: AtMost<Metres> = "within_m", "Within", "how far from the source it may sit", |f, _| AtMost(f.within);
    STYLE: String = "style", "Style key", "key of the style", |f, _| f.style.clone();
    STYLE_NAME: String = "style_name", "Style", "as shown", |f, _| f.style_name.clone();
    RATING: Option<Amps> = "rating_a", "Fuse", "null when nothing fits", |f, at| f.rating, [Subject::Run(at.within), end(f, "fuse")];
    PINNED: bool = "pinned", "Given", "whether the plan gives it", |f, _| f.pinned;
    RULING: &'static str = "ruling", "Decided by", "which rule set the rating", |f, _| f.ruling;
    AT_LEAST: Amps = "at_least_a", "Rating at least", "least rating by the steady current", |f, at| f.at_least, [Subject::Run(at.within), end(f, "fuse at least")];
    AT_MOST: AtMost<Amps> = "at_most_a", "Rating at most", "most by the cable", |f, at| AtMost(f.at_most), [Subject::Run(at.within), end(f, "fuse at most")];
    PROSPECTIVE: Amps = "prospective_a", "Fault current", "largest fault current at its place", |f, at| f.prospective, [Subject::Run(at.within), end(f, "prospective")];
    LIKELY: Amps = "likely_a", "Likely", "likely fault current at its place", |f, at| f.likely, [Subject::Run(at.within), end(f, "likely prospective")];
    BREAKING: AtMost<Amps> = "breaking_capacity_a", "Breaking capacity", "breaking capacity of the style", |f, _| AtMost(f.breaking);
    FAR_FAULT: Amps = "far_fault_a", "Far fault", "smallest fault current at the far end", |f, at| f.far_fault, [Subject::Run(at.within), end(f, "far fault")];
    OPENS_WITHIN: Option<Seconds> = "opens_within_s", "Opens in", "longest time to open then; null when unknown or never", |f, at| f.opens_within, [Subject::Run(at.within), end(f, "opens within")];
    LONGEST: Option<AtMost<Metres>> = "longest_m", "Longest", "longest run it protects; null when not known", |f, _| f.longest.map(AtMost);
    LET_THROUGH: Option<AmpsSquaredSeconds> = "let_through_a2s", "Lets through", "let-through energy; null when not known", |f, at| f.let_through, [Subject::Run(at.within), end(f, "let-through")];
    CABLE_STANDS: AtMost<AmpsSquaredSeconds> = "cable_stands_a2s", "Cable stands", "what the cable stands", |f, at| AtMost(f.cable_stands), [Subject::Run(at.within), end(f, "cable stands")];
}

facts! { WhichFuse, "which-fuse", "why one device is the one it is", |w, _| Subject::Run(w.run);
    RUN: String = "run", "Run", "the run it protects", |w, at| at.site.run_number(w.run);
    AT: String = "at", "Source at", "the point whose source it guards against", |w, _| w.at.clone();
    FAR_END: bool = "far_end", "Far end", "whether it sits at the end away from its battery", |w, _| w.far_end;
    DOWN: Option<Amps> = "down_a", "One down", "next smaller rating of its style; null where none is made", |w, _| w.down.as_ref().map(|s| s.rating);
    DOWN_BREAKS: Vec<&'static str> = "down_breaks", "breaks", "keys of the findings that it would raise", |w, _| keys(w.down.as_ref());
    UP: Option<Amps> = "up_a", "One up", "next larger rating of its style; null where none is made", |w, _| w.up.as_ref().map(|s| s.rating);
    UP_BREAKS: Vec<&'static str> = "up_breaks", "breaks", "keys of the findings that it would raise", |w, _| keys(w.up.as_ref());
    WHY: Vec<String> = "why", "Why", "in words: limits and what ruled, style, one rating down and up, place and spare", |w, _| w.sentences.clone();
}

/// Which findings a step would raise.
fn keys(step: Option<&Step>) -> Vec<&'static str> {
    step.into_iter().flat_map(|s| &s.broken).map(|f| f.kind.key()).collect()
}
