//! The door: a plan goes in, a design comes out.
//!
//! Always gives a design. What could not be computed is absent, and a finding
//! says why.

pub mod by_sheets;
pub mod former;
pub mod near_banks;
pub mod results;
pub mod which_fuse;

use crate::catalogue::Catalogue;
use crate::engine::choose::battery::ahead::path_ahead;
use crate::engine::choose::battery::battery;
use crate::engine::choose::battery::candidates::candidates;
use crate::engine::choose::battery::kept_warm::settled;
use crate::engine::choose::battery::lasting::{Lasting, lasting, lasting_behind};
use crate::engine::choose::bond::bond;
use crate::engine::choose::charger::charge_current;
use crate::engine::choose::circuit::sizing::size_runs;
use crate::engine::choose::cut_off::cut_off;
use crate::engine::choose::fuse::protect;
use crate::engine::choose::hold_down::carrier;
use crate::engine::design::former::{Alike, Former, Kept};
use crate::engine::installation::Installation;
use crate::engine::installation::working::{Notes, Workings};
use crate::engine::judge;
use crate::engine::judge::finding::{Finding, Severity};
use crate::engine::judge::remedy::Edit;
use crate::engine::parts::bond::Bond;
use crate::engine::physics::side_by_side::{among_many, side_by_side};
use crate::engine::simulate::battery::{BatteryDesign, BySheets, NearBank};
use crate::engine::simulate::budget::{Budget, budget};
use crate::engine::simulate::charger::feed::charger_feed;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::result::{CopperDesign, Device, LoadSupply, RunDesign};
use crate::engine::simulate::circuit::sized::{SizedRuns, Sizing};
use crate::engine::simulate::cut_off::path::{feed_resistance, sensing_path};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::days::scenario::CutSettings;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::hold_down::mounted::{Given, mounted};
use crate::engine::simulate::hold_down::result::{CarrierDesign, MountedDesign};
use crate::engine::simulate::promise::{Promise, Trials, Uncut};
use crate::engine::simulate::standing::{Standing, standing};
use crate::engine::simulate::test_sheet::result::TestSheet;
use crate::engine::simulate::test_sheet::test_sheet;
use crate::engine::simulate::trouble::wired::Wired;
use crate::plan::Plan;
use crate::quantity::{AmpHours, Ohms};
use std::sync::{Arc, OnceLock};

/// What follows from a plan. Never edited.
#[derive(Clone, Debug, Default)]
pub struct Design {
    /// What is there: the plan made definite.
    pub installation: Installation,
    /// What the bank must at least have so that the promise is kept, where its other criteria ask for less.
    pub(crate) asked: AmpHours,
    /// Energy and charge a day.
    pub budget: Budget,
    /// The service battery and its rivals.
    pub battery: BatteryDesign,
    /// The charger and its feed.
    pub charger: ChargerDesign,
    /// One for each run of the plan, in its order.
    pub runs: Vec<RunDesign>,
    /// One for each load of the plan, in its order.
    pub loads: Vec<LoadSupply>,
    /// What draws or feeds besides the loads.
    pub devices: Vec<Device>,
    /// The sources at their worst.
    pub levels: Levels,
    /// The copper of all runs.
    pub copper: CopperDesign,
    /// The cut-off.
    pub cut_off: CutOffDesign,
    /// Whether the days without charge and the usual week hold, tried with the very settings.
    pub promise: Promise,
    /// The service battery left without use.
    pub standing: Option<Standing>,
    /// The service battery's minus to the body.
    pub bond: Bond,
    /// What holds the battery; `None` when the plan has no carrier.
    pub carrier: Option<CarrierDesign>,
    /// Charger and cut-off that hang by the battery, with a carrier or without.
    pub mounted: Vec<MountedDesign>,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// What the finished wiring should measure, and what the readings say; without readings once asked for.
    pub(crate) sheet: OnceLock<TestSheet>,
    /// Smaller banks that nearly last, once asked for.
    pub(crate) near: OnceLock<Vec<NearBank>>,
    /// What cell sheets would say of the bank, once asked for.
    pub(crate) by_sheets: OnceLock<Option<BySheets>>,
    /// How each number came about, once asked for.
    pub(crate) workings: OnceLock<Workings>,
    /// What was found on the way, for the design of the plan as it is changed next.
    pub kept: Kept,
}

impl Design {
    /// How many findings of a severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings.iter().filter(|f| f.severity == severity).count()
    }

    /// Whether something must not be built as planned.
    pub fn has_stop(&self) -> bool {
        self.count(Severity::Stop) > 0
    }
}

/// Most designs that are made until one keeps the promise.
const PASSES: usize = 4;

/// Size everything. A bank that is free grows until it lasts the days without charge; where none of those tried
/// does, the first of all stays, with the finding.
pub fn design(plan: &Plan, catalogue: &Catalogue) -> Design {
    among_many(|| sized(plan, catalogue))
}

/// The design of a plan that was changed, sooner: what the change does not touch is taken from the former design.
/// The same design as [`design`] gives, to the last bit.
pub fn design_after(former: &Design, plan: &Plan, catalogue: &Catalogue) -> Design {
    among_many(|| {
        let site = Installation::of(plan, catalogue);
        let Design { installation, promise, kept, .. } = former;
        let same = Alike::of(installation, &site);
        of_site_after(site, Some(Former { installation, promise, kept, same }))
    })
}

fn sized(plan: &Plan, catalogue: &Catalogue) -> Design {
    of_site(Installation::of(plan, catalogue))
}

pub(crate) fn of_site(site: Installation) -> Design {
    of_site_after(site, None)
}

fn of_site_after(site: Installation, former: Option<Former<'_>>) -> Design {
    let site = settled(site, AmpHours::ZERO);
    let guessed = path_ahead(&site);
    let first = || lasting_behind(&site, guessed).map(Arc::new);
    let first = former.and_then(|f| f.lasting(guessed).cloned()).unwrap_or_else(first);
    let (mut lasts, mut by_guess) = (first.clone(), first.clone());
    let mut site = Some(site);
    let mut last = None;
    for _ in 0..PASSES {
        let given = lasts.is_none();
        let design = with(site.take().unwrap_or_default(), lasts, former);
        let less = by_guess.take().filter(|_| design.promise.held()).and_then(|lasts| smaller(&design, &lasts));
        if less.is_none() && (design.promise.held() || given) {
            last = Some(design);
            break;
        }
        // The cables that are now known ask for less than was guessed, or for more.
        let more = || lasting(&design.installation, design.battery.bank.as_ref(), design.cut_off.path);
        lasts = less.or_else(more).map(Arc::new);
        site = Some(design.installation);
    }
    let mut design = last.unwrap_or_else(|| with(site.unwrap_or_default(), None, former));
    design.kept.lasting = Some((guessed, first));
    design
}

/// A smaller bank that lasts behind the path that there is, where that is not as long as it was guessed.
fn smaller(design: &Design, tried: &Lasting) -> Option<Lasting> {
    let path = design.cut_off.path;
    let harder = tried.asked > AmpHours::ZERO && tried.path.between() > path.between();
    let again = harder.then(|| lasting(&design.installation, None, path))?;
    again.filter(|again| again.asked < tried.asked)
}

/// With a bank that was tried.
fn with(site: Installation, lasts: Option<Arc<Lasting>>, former: Option<Former<'_>>) -> Design {
    let asked = lasts.as_ref().map_or(AmpHours::ZERO, |lasts| lasts.asked);
    finished(work_out(settled(site, asked), asked, lasts.as_deref(), former, &mut Notes::unkept()))
}

pub(crate) fn pass(site: Installation, asked: AmpHours) -> Design {
    finished(work_out(settled(site, asked), asked, None, None, &mut Notes::unkept()))
}

fn finished(mut design: Design) -> Design {
    stand_in_the_plan(&mut design);
    judge::harm::worst_first(&mut design.findings);
    design
}

impl Design {
    /// Put in the workings of a number that is explained only when somebody asks for it.
    pub fn add_workings(&mut self, more: Workings) {
        self.workings();
        if let Some(all) = self.workings.get_mut() {
            all.extend(more);
        }
    }

    /// What the finished wiring should measure, and what the readings say.
    pub fn test_sheet(&self) -> &TestSheet {
        let unread = || test_sheet(&self.installation, &self.runs, &self.charger, &mut Notes::unkept());
        self.sheet.get_or_init(unread)
    }

    /// The circuit as it was built, in its parts: what faults are looked for in.
    pub fn wired(&self) -> Wired<'_> {
        let internal = self.battery.bank.as_ref().map_or(Ohms::ZERO, |bank| bank.resistance);
        Wired::of(&self.installation, &self.runs, &self.charger, (internal, self.cut_off.cut))
    }

    /// How each number came about: worked out once, when somebody first asks.
    pub fn workings(&self) -> &Workings {
        self.workings.get_or_init(|| {
            let mut notes = Notes::kept();
            work_out(self.installation.clone(), self.asked, None, None, &mut notes);
            notes.into_workings()
        })
    }
}

/// What mends a lead is entered with its load, so places of its run are told as places there; an edit that a
/// load has no field for stays as words.
fn stand_in_the_plan(design: &mut Design) {
    let Design { installation: site, findings, .. } = design;
    for finding in findings {
        finding.place = finding.place.and_then(|place| site.place_of(place));
        for demand in finding.excludes.iter_mut().flatten() {
            let stands = |(place, value)| Some((site.place_of(place)?, value));
            demand.given_up = demand.given_up.take().and_then(stands);
        }
        for remedy in &mut finding.remedies {
            let stood = |e: Edit| Some(Edit { place: site.place_of(e.place)?, ..e });
            let edits: Option<Vec<Edit>> = std::mem::take(&mut remedy.edits).into_iter().map(stood).collect();
            remedy.edits = edits.unwrap_or_default();
        }
    }
}

/// The parts, and how the design with them goes: nothing is judged yet.
struct Parts<'a> {
    budget: Budget,
    battery: BatteryDesign,
    charger: ChargerDesign,
    sizing: Sizing,
    /// What was known of the runs before their fuses.
    known: Option<SizedRuns<'a>>,
    /// What is wrong whatever the cut-off does.
    findings: Vec<Finding>,
    fuses: Fuses<'a>,
    cut_off: CutOffDesign,
    promise: Promise,
    kept: Kept,
}

/// `asked`: what the bank must at least have for the promise, as earlier passes found; `lasts`: a bank that was tried, and
/// its days without charge where no cut-off opens.
fn parts<'a>(
    site: &'a Installation,
    asked: AmpHours,
    lasts: Option<&Lasting>,
    former: Option<Former<'_>>,
    notes: &mut Notes,
) -> Parts<'a> {
    let budget = budget(site, notes);
    // Nothing rests on them: with no workings to be written in their order they are found beside the cables.
    let rivals = notes.are_kept().then(|| candidates(site, notes));
    let mut battery = battery(site, &budget, asked, notes);
    let mut charger = charge_current(site, &budget, &battery, notes);
    // The days without charge and the usual weeks, with a cut-off that never opens, ask nothing of the cables.
    let ready = || {
        let bank = battery.bank.as_ref()?;
        if let Some(days) = former.and_then(|f| f.days(site, bank, charger.steady)) {
            return Some((None, Arc::clone(days)));
        }
        let mut trials = Trials::new(site, bank, lasts.map(|lasts| &lasts.tables))?;
        let uncut = lasts.filter(|lasts| lasts.tried.0 == *bank).map(|lasts| lasts.tried.1.clone());
        let days = Arc::new(trials.days(bank, charger.steady, uncut));
        Some((Some(trials), days))
    };
    let chosen = former.and_then(|f| f.chosen(site));
    let beside = || (ready(), rivals.unwrap_or_else(|| candidates(site, &mut Notes::unkept())));
    let ((ready, rivals), (mut sizing, known)) =
        side_by_side(beside, || size_runs(site, &budget, &battery, &charger, chosen, notes));
    let (known, chosen) = known.unzip();
    battery.candidates = rivals;
    let bank = battery.bank.as_ref();
    charger_feed(&mut charger, site, feed_resistance(&site.circuits, &sizing.runs), notes);
    let fuses = protect(site, &battery, &charger, &mut sizing.runs, notes);
    let path = sensing_path(site, &sizing.runs, &budget);
    let none = Uncut::default();
    let uncut = ready.as_ref().map_or(&none, |(_, days)| &days.uncut);
    let cut_off = cut_off(site, &budget, &battery, &charger, path, uncut, notes);
    let settings = CutSettings::of(&cut_off, bank.map_or(AmpHours::ZERO, |bank| bank.capacity));
    let kept_days = ready.as_ref().map(|(_, days)| (Arc::clone(days), settings));
    let promise = || {
        let (trials, days) = ready?;
        let again = former.and_then(|f| f.promise(&days, &settings).cloned());
        again.or_else(|| {
            let mut trials = trials.or_else(|| Trials::new(site, &days.bank, None))?;
            Some(trials.promise(&days, settings, lasts.is_some()))
        })
    };
    let wrong = || built(site, (&budget, &battery, &charger), (known.as_ref(), &sizing), &fuses);
    let (promise, findings) = side_by_side(promise, wrong);
    let promise = promise.unwrap_or_default();
    let kept = Kept { lasting: None, days: kept_days, chosen };
    Parts { budget, battery, charger, sizing, known, findings, fuses, cut_off, promise, kept }
}

/// What is wrong with the parts whatever the cut-off does.
fn built(
    site: &Installation,
    (budget, battery, charger): (&Budget, &BatteryDesign, &ChargerDesign),
    (known, sizing): (Option<&SizedRuns>, &Sizing),
    fuses: &Fuses,
) -> Vec<Finding> {
    let bank = battery.bank.as_ref();
    let mut findings = judge::circuit::topology::check(site);
    findings.extend(judge::circuit::passes::check(site));
    findings.extend(judge::air::check(site));
    findings.extend(judge::load::check(site));
    findings.extend(judge::battery::check(site, budget, battery));
    findings.extend(judge::place::check(site, battery));
    findings.extend(judge::own_protection::check(site));
    findings.extend(judge::pair::check(site));
    findings.extend(bank.iter().flat_map(|bank| judge::in_minus::check(site, bank)));
    findings.extend(bank.and_then(|bank| judge::bank::check(site, bank)));
    findings.extend(judge::bank::mixed(site));
    findings.extend(judge::charger::checks::check(site, charger));
    findings.extend(known.iter().flat_map(|known| judge::circuit::check(known, sizing)));
    findings.extend(judge::charger::feed::check(site, charger));
    let loops = FaultLoops::new(site, battery, charger, &sizing.runs);
    findings.extend(judge::fuse::check(&loops, fuses, &findings));
    findings.extend(judge::tail::check(&loops, fuses));
    findings.extend(judge::board::check(site, &sizing.runs));
    findings
}

/// All that is wrong with the parts, and what else is to be known of them.
fn judged(site: &Installation, parts: &mut Parts, notes: &mut Notes) -> Design {
    let wrong = std::mem::take(&mut parts.findings);
    let (runs, charger) = (&parts.sizing.runs, &parts.charger);
    // With workings to be written in their order the readings come last.
    let asked = notes.are_kept() || !site.readings.is_empty();
    let early = asked && !notes.are_kept();
    let read = || early.then(|| test_sheet(site, runs, charger, &mut Notes::unkept()));
    let (read, mut design) = side_by_side(read, || unread(site, parts, wrong, notes));
    if let Some(read) = read.or_else(|| asked.then(|| test_sheet(site, runs, charger, notes))) {
        design.findings.extend(judge::test_sheet::check(site, &read));
        design.sheet = read.into();
    }
    design
}

/// The same without the readings.
fn unread(site: &Installation, parts: &Parts, mut findings: Vec<Finding>, notes: &mut Notes) -> Design {
    let Parts { budget, battery, charger, sizing, fuses, cut_off, promise, .. } = parts;
    let bank = battery.bank.as_ref();
    let bond = bond(site, &sizing.runs, fuses, notes);
    findings.extend(judge::bond::check(site, &bond));
    findings.extend(judge::main_switch::check(site, &sizing.runs));
    findings.extend(judge::plug::check(site, &sizing.runs));
    findings.extend(judge::own_row::check(site, &sizing.runs));
    findings.extend(judge::cut_off::check(site, budget, cut_off, &sizing.loads));
    judge::promise::ease(&mut findings, battery, promise);
    findings.extend(judge::promise::check(site, budget, battery, cut_off, promise));
    findings.extend(judge::cut_off::counter::check(site, cut_off, promise));
    findings.extend(bank.and_then(|bank| judge::pre_charge::check(site, bank, &sizing.runs, cut_off)));
    findings.extend(judge::starter::check(site, charger, promise));
    let standing = bank.and_then(|bank| standing(site, budget, bank, notes));
    let left = standing.as_ref().and_then(|s| judge::standing::check(site, cut_off.reserve, s));
    findings.extend(left);
    let carrier = carrier(site, bank, (charger, cut_off), notes);
    findings.extend(carrier.iter().flat_map(|c| judge::hold_down::check(site, c)));
    let bare = Given { site, charger, cut_off, shape: None, sizes: None };
    let mounted = carrier.as_ref().map_or_else(|| mounted(&bare, notes), |c| c.mounted.clone());
    findings.extend(judge::mounted::check(site, &mounted, carrier.as_ref().map(|c| &c.sizes)));
    Design { standing, bond, carrier, mounted, findings, ..Design::default() }
}

/// `lasts`: a bank that was tried; where the promise is not kept with it another design is made, and this one is not
/// judged.
fn work_out(
    installation: Installation,
    asked: AmpHours,
    lasts: Option<&Lasting>,
    former: Option<Former<'_>>,
    notes: &mut Notes,
) -> Design {
    let site = &installation;
    let mut parts = parts(site, asked, lasts, former, notes);
    let stays = lasts.is_none() || parts.promise.held();
    let judged = if stays { judged(site, &mut parts, notes) } else { Design::default() };
    let Parts { budget, battery, charger, sizing, known, fuses, cut_off, promise, kept, .. } = parts;
    drop((known, fuses));
    let Sizing { levels, runs, loads, devices, copper } = sizing;
    Design {
        installation,
        asked,
        budget,
        battery,
        charger,
        runs,
        loads,
        devices,
        levels,
        copper,
        cut_off,
        promise,
        kept,
        ..judged
    }
}
