//! What of a former design holds for a changed plan.
//!
//! Two pieces take most of a pass: the days gone through with a cut-off that never opens, and the search for sizes and
//! devices. Each follows from a part of the installation alone; where that part is the same as in the former
//! design, and so is what was worked out before it, what was found there stands. Nothing is taken over that is only
//! near: the design is the one that a full pass gives, to the last bit.

use crate::engine::choose::battery::lasting::Lasting;
use crate::engine::choose::circuit::chosen::Chosen;
use crate::engine::installation::Installation;
use crate::engine::installation::load::Load;
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::days::scenario::CutSettings;
use crate::engine::simulate::promise::{Days, Promise};
use crate::plan::Outfit;
use crate::quantity::Amps;
use std::fmt;
use std::sync::Arc;

/// What a pass found on its way, for the next one.
#[derive(Clone, Default)]
pub struct Kept {
    /// The path to the sensing point that was guessed at, and the first bank that lasts behind it.
    pub lasting: Option<(SensingPath, Option<Arc<Lasting>>)>,
    /// Days and weeks, and the settings with which the promise was then tried.
    pub days: Option<(Arc<Days>, CutSettings)>,
    /// Sizes and devices.
    pub chosen: Option<Arc<Chosen>>,
}

/// It says nothing that the design does not.
impl fmt::Debug for Kept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Kept")
    }
}

/// Of the design of a plan that may be much like the one at hand, what may hold for it.
#[derive(Clone, Copy)]
pub(crate) struct Former<'a> {
    pub installation: &'a Installation,
    pub promise: &'a Promise,
    pub kept: &'a Kept,
    pub same: Alike,
}

impl<'a> Former<'a> {
    /// The first bank that lasts, with such a path guessed at.
    pub fn lasting(&self, guessed: SensingPath) -> Option<&'a Option<Arc<Lasting>>> {
        let (path, first) = self.kept.lasting.as_ref().filter(|_| self.same.days)?;
        (*path == guessed).then_some(first)
    }

    /// The days and weeks with such a bank and charger.
    pub fn days(&self, site: &Installation, bank: &Bank, steady: Amps) -> Option<&'a Arc<Days>> {
        let (days, _) = self.kept.days.as_ref().filter(|_| self.same.days && self.is_as_warm(site))?;
        (days.bank == *bank && days.steady == steady).then_some(days)
    }

    /// How the promise went with such days and settings.
    pub fn promise(&self, days: &Arc<Days>, settings: &CutSettings) -> Option<&'a Promise> {
        let (kept, set) = self.kept.days.as_ref()?;
        (Arc::ptr_eq(kept, days) && set == settings).then_some(self.promise)
    }

    /// Sizes and devices, if the currents come out as they were.
    pub fn chosen(&self, site: &Installation) -> Option<&'a Arc<Chosen>> {
        self.kept.chosen.as_ref().filter(|_| self.same.circuits && self.is_as_warm(site))
    }

    /// Whether its heater pad was reckoned for the same bank.
    fn is_as_warm(&self, site: &Installation) -> bool {
        self.installation.kept_warm == site.kept_warm
    }
}

impl Kept {
    /// Whether the days of use were taken from others.
    pub fn took_days(&self, former: &Kept) -> bool {
        let both = self.days.as_ref().zip(former.days.as_ref());
        both.is_some_and(|((own, _), (theirs, _))| Arc::ptr_eq(own, theirs))
    }

    /// Whether sizes and devices were.
    pub fn took_sizes(&self, former: &Kept) -> bool {
        self.chosen.as_ref().zip(former.chosen.as_ref()).is_some_and(|(own, theirs)| Arc::ptr_eq(own, theirs))
    }
}

/// In which parts two installations are the same.
#[derive(Clone, Copy)]
pub(crate) struct Alike {
    /// In all that days of use rest on.
    days: bool,
    /// In all that sizes and devices rest on, but for the currents, which are compared as they come out.
    circuits: bool,
}

impl Alike {
    pub fn of(one: &Installation, other: &Installation) -> Self {
        // Every part is named, so that a new one has to be thought of here.
        let Installation {
            title: _,
            catalogue,
            outfit,
            loads,
            runs,
            beyond,
            circuits,
            driving,
            drives,
            plugged,
            days_without_charge,
            // It follows from the others and from the bank of the pass, with which it is compared.
            kept_warm: _,
        } = one;
        let there = catalogue.is(&other.catalogue)
            && same_outfit(outfit, &other.outfit)
            && *circuits == other.circuits
            && *driving == other.driving
            && *drives == other.drives
            && *plugged == other.plugged
            && *days_without_charge == other.days_without_charge;
        let timeless = |others: &[Load]| {
            loads.len() == others.len() && loads.iter().zip(others).all(|(one, other)| same_while_on(one, other))
        };
        Alike {
            days: there && *loads == other.loads,
            circuits: there && *runs == other.runs && *beyond == other.beyond && timeless(&other.loads),
        }
    }
}

/// But for when and how long they are on: that reaches the cables only by the battery and by the currents.
fn same_while_on(one: &Load, other: &Load) -> bool {
    let Load {
        name,
        at,
        inverter,
        count,
        label_power,
        label_current,
        power,
        law,
        start,
        cycle,
        drop,
        lowest,
        highest,
        own_cut,
        on_starter,
        before_cut_off,
        group,
        socket,
        lead_fuse,
        tail_fuse,
        nominal,
        when: _,
        allowed: _,
        calendar: _,
        often: _,
        on_average: _,
        hours_given: _,
        hours: _,
        thermostat: _,
    } = one;
    *name == other.name
        && *at == other.at
        && *inverter == other.inverter
        && *count == other.count
        && *label_power == other.label_power
        && *label_current == other.label_current
        && *power == other.power
        && *law == other.law
        && *start == other.start
        && *cycle == other.cycle
        && *drop == other.drop
        && *lowest == other.lowest
        && *highest == other.highest
        && *own_cut == other.own_cut
        && *on_starter == other.on_starter
        && *before_cut_off == other.before_cut_off
        && *group == other.group
        && *socket == other.socket
        && *lead_fuse == other.lead_fuse
        && *tail_fuse == other.tail_fuse
        && *nominal == other.nominal
}

/// But for what is only held against the design afterwards, or asked about it.
fn same_outfit(one: &Outfit, other: &Outfit) -> bool {
    let Outfit {
        surroundings,
        vehicle,
        starter_battery,
        service_battery,
        charger,
        cut_off,
        solar,
        mains,
        inverter,
        bond,
        main_switch,
        hold_down,
        beneath: _,
        as_built: _,
        meter: _,
        standing,
        rules,
        boards,
        plugs,
        studs: _,
        drilled: _,
        mounted,
        readings: _,
        blocks,
        prices: _,
        measured,
    } = one;
    *surroundings == other.surroundings
        && *vehicle == other.vehicle
        && *starter_battery == other.starter_battery
        && *service_battery == other.service_battery
        && *charger == other.charger
        && *cut_off == other.cut_off
        && *solar == other.solar
        && *mains == other.mains
        && *inverter == other.inverter
        && *bond == other.bond
        && *main_switch == other.main_switch
        // It says where the battery stands.
        && hold_down.style == other.hold_down.style
        && *standing == other.standing
        && *rules == other.rules
        && *boards == other.boards
        && *plugs == other.plugs
        && *mounted == other.mounted
        && *blocks == other.blocks
        && *measured == other.measured
}
