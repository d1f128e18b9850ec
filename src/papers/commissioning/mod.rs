//! The test sheet on paper: what to look at and measure before it is handed over, with blanks to fill in.

mod first_power;

use crate::engine::RunDesign;
use crate::engine::design::results::fact::At;
use crate::engine::installation::charger::standing_current;
use crate::engine::simulate::test_sheet::result::{PointExpected, RunExpected, Test};
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::{Job, between, place, sensor};
use crate::papers::look_up;
use crate::papers::settings;
use crate::plan::Permit;
use crate::quantity::{Figure, Unit, UnitSystem, Volts, Watts};

/// The sheet of a design.
pub fn commissioning(job: &Job) -> Document {
    let mut paper = Document::new(format!("Test sheet – {}", job.title()));
    paper.facts(vec![
        ("Vehicle", BLANK.into()),
        ("Date, by whom", BLANK.into()),
        ("Meter", BLANK.into()),
        ("Air", "________ °C".into()),
    ]);
    paper.heading(1, "1 Before any fuse is in");
    paper.steps(before(job));
    paper.table(no_path(job));
    paper.heading(1, "2 Settings");
    paper.table(settings::table(job));
    paper.heading(1, "3 First power, fuse by fuse from the batteries outward");
    first_power::section(job, &mut paper);
    paper.heading(1, "4 Under load");
    paper.paragraph(format!(
        "Expected at {} air, with the tolerance of cable, joints, loads and meter. Enter what you find as readings in \
         the plan (the test sheet screen does it) and the program names a joint that has too much.",
        job.design.test_sheet().air
    ));
    paper.table(drops(job));
    paper.table(under_load(job));
    paper.heading(1, "5 The cut-off acts, and it charges");
    paper.steps(vec![
        "Put a bench supply in place of the battery and lower it slowly, or let a load run the battery down: note where \
         it opens, and where it closes again."
            .into(),
        "Start the engine: note voltage and current at the service battery. Stop it: the charger must stop too, or it \
         empties the starter battery."
            .into(),
        "Switch everything off, wait until each device sleeps, and measure what both batteries still give: with the \
         clamp meter, or with an ammeter in the negative lead. Nothing may start meanwhile: its fuse is small."
            .into(),
        "After an hour at full load feel every lug, fuse and switch: what is too hot to hold has a bad joint.".into(),
    ]);
    paper.table(acts(job));
    paper.heading(1, "6 Looked up");
    look_up::section(job, true, &mut paper);
    paper.facts(vec![("Signed", BLANK.into())]);
    paper
}

const BLANK: &str = "______________________";

fn before(job: &Job) -> Vec<String> {
    let mut steps = vec![
        "Both batteries' negatives are off, solar and mains are off, every fuse is out. They stay so until section 3."
            .to_string(),
        "Every crimp was pulled by hand; every lug is sleeved; cable is held near each end.".into(),
        "No cable lies on an edge, on a hot or on a moving part; every hole has a grommet.".into(),
        "Every nut is tightened to the device's torque and marked.".into(),
        "Every piece carries its label at both ends; sizes agree with the cut list.".into(),
        "Devices off and unplugged: an ohmmeter reads through a charger, and an inverter's capacitors look like a short \
         until they are full. Then no path from plus to minus and none from plus to the body, anywhere: table below."
            .into(),
        "Polarity agrees at every device, before it is connected.".into(),
    ];
    steps.extend(sensor(job).map(str::to_string));
    if let Some(carrier) = &job.design.carrier {
        steps.push(format!("The hold-down's studs are tightened to {} and locked.", carrier.torque.torque));
    }
    steps
}

/// With every fuse out each run is an island: plus against minus and body.
fn no_path(job: &Job) -> Table {
    let site = &job.design.installation;
    let sized: Vec<&RunDesign> = job.design.runs.iter().filter(|r| r.size.is_some() && !site.is_way(r.run)).collect();
    let far = |r: &&RunDesign| site.circuits.branch_of(r.run).map_or(String::new(), |b| b.far.clone());
    Columns::new()
        .words("run", "Run", |r: &&RunDesign| site.run_number(r.run))
        .words("at", "Measure at", far)
        .blank("to_minus", "Plus to minus, Ω")
        .blank("to_body", "Plus to body, Ω")
        .list("no-path", "No path: 10 kΩ or more once the meter has settled (common practice, no source)", &sized)
}

/// What section 5 finds, beside what is planned.
fn acts(job: &Job) -> Table {
    let (cut_off, charger) = (&job.design.cut_off, &job.design.charger);
    let mut rows = vec![(
        "everything off, five minutes later: current out of the service battery",
        format!("about {}, by what the plan says of its devices", standing_current(&job.design.installation).value),
    )];
    if cut_off.cut > Volts::ZERO {
        rows.push(("the cut-off opens at", cut_off.opens()));
        rows.push(("it closes again at", cut_off.closes()));
        if cut_off.counter.is_some() {
            rows.push(("full and no current: the counter shows", "100 %".into()));
        }
    }
    rows.extend(permissions(job));
    if let Some(current) = charger.current {
        let most = Figure::from(charger.output).show_at_most(UnitSystem::Metric);
        rows.push(("charging, voltage at the service battery", format!("rises to {most}")));
        rows.push(("charging, current into the service battery", format!("up to {current}")));
        rows.push(("charging, current out of the starter battery's side", format!("up to {}", charger.input)));
        rows.push(("engine off, five minutes later: current into the charger", "none: it has stopped".into()));
        let parked = job.plan.vehicle.parked_draw;
        rows.push(("parked: current out of the starter battery", format!("no more than before, {parked} by the plan")));
    }
    rows.push(("after an hour: warmest lug, fuse or switch, and where", "can be held".into()));
    to_compare("acts", "Measured", &rows)
}

/// What a battery with outputs of its own must be seen to do.
fn permissions(job: &Job) -> Vec<(&'static str, String)> {
    let battery = &job.plan.service_battery;
    let mut rows = Vec::new();
    if battery.permits.count(Permit::Charge) > 0 {
        let stops = battery.permit_stops.words();
        let stops = if stops.is_empty() { "nothing by the plan".into() } else { stops };
        rows.push(("its charge output taken off: what stops", stops));
    }
    if battery.permits.count(Permit::Discharge) > 0 {
        rows.push(("its discharge output taken off: what opens", "the cut-off, where it acts by that".into()));
    }
    rows.extend(
        battery.locks_below.map(|lock| ("colder than its charge lock: charge current", format!("none below {lock}"))),
    );
    rows
}

/// What is planned, and room for what was found.
fn to_compare(name: &'static str, head: &'static str, rows: &[(&str, String)]) -> Table {
    Columns::new()
        .text("what", head, |r: &(&str, String)| r.0)
        .text("planned", "Planned", |r| &r.1)
        .blank("found", "Found")
        .list(name, "", rows)
}

/// Each run by itself: the drop of a volt-drop test, out and back.
fn drops(job: &Job) -> Table {
    let caption = "Drop of each run, positive and negative together, with the most that its plan sends through it; with \
                   another current it is in proportion";
    Columns::new()
        .words("run", "Run", |r: &RunExpected| job.design.installation.run_number(r.run))
        .words("between", "Between", |r| between(job, r.run))
        .number("current", "At", |r| r.current)
        .number("low", "From", |r| r.drop.low)
        .number("likely", "Likely", |r| r.drop.likely)
        .number("high", "To", |r| r.drop.high)
        .blank("found_current", "Found A")
        .blank("found", "Found V")
        .list("run-tests", caption, &job.design.test_sheet().runs)
}

/// With each load on: what to expect at each point.
fn under_load(job: &Job) -> Table {
    let mut caption =
        "Drop from the battery's posts to each point, which is the same whatever the battery has: found is \
                       what the point has, drop is posts less found. All loads: every 12 V load at once, and of those \
                       that never run together the first"
            .to_string();
    if job.plan.inverter.rating > Watts::ZERO {
        caption.push_str("; the inverter and what is plugged into it are off then, and tested by themselves");
    }
    type Row<'a> = (&'a Test, &'a PointExpected, bool);
    let tests = job.design.test_sheet().tests.iter();
    let rows: Vec<Row<'_>> =
        tests.flat_map(|t| t.points.iter().enumerate().map(move |(n, p)| (t, p, n == 0))).collect();
    // What holds for the whole test stands in its first row only.
    let once = |show: fn(&Test) -> Cell| {
        move |(test, _, first): &Row<'_>, _: &At<'_>| if *first { show(test) } else { Cell::Text(String::new()) }
    };
    Columns::new()
        .words("with", "Switched on", |r: &Row<'_>| if r.2 { with_words(job, &r.0.with) } else { String::new() })
        .own(Column::number("current", "Current", Unit::Amp), once(|t| Cell::of(t.current)))
        .words("point", "Measure at", |r| place(job, &r.1.point))
        .number("low", "Drop from", |r| r.1.drop.low)
        .number("high", "To", |r| r.1.drop.high)
        .own(Column::text("posts", "Posts V"), once(|_| Cell::ToFill))
        .blank("found", "Found V")
        .list("load-tests", caption, &rows)
}

/// What is switched on, with what it leaves out.
fn with_words(job: &Job, with: &str) -> String {
    match with {
        "all loads" if job.plan.inverter.rating > Watts::ZERO => "all loads, without the inverter".into(),
        "inverter" => "inverter with all that is plugged in".into(),
        "charger" => "charger, drawing from the starter battery".into(),
        "charging" => "charger, feeding the service battery".into(),
        with => with.into(),
    }
}
