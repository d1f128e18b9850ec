//! What becomes of a charger or cut-off that hangs on the carrier, or on the deck: its air, its heat, what it still gives,
//! its bolts?
//!
//! Air: that of the place, as warm as a cable gets there. Output falls on a straight line from where it is whole to where
//! it ends. The battery beside it is warmed as if all of the heat went through its own face: rough, and the safe side.
//! Each bolt is pulled and pushed sideways by the same shock, and must not pull its washer through the metal under it.
//! Left out: sun on the case, wind of driving, which helps; sheet that only dents.

use crate::catalogue::{Axis, CablePlace, Provenance, Shock};
use crate::engine::installation::Installation;
use crate::engine::installation::place::{hottest, place};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::hold_down::chain::metal::{washer_in_deck, washer_in_metal};
use crate::engine::simulate::hold_down::result::{Box3, MountedDesign, Shape};
use crate::plan::{BatteryPlace, ChargerKind, Choice, Mounted, MountedDevice};
use crate::quantity::*;
use crate::reckon;

/// Counted for a device whose mass is not given; common practice, no source, and more than most have.
const USUAL_MASS: Kilograms = Kilograms::new(3.0);

/// Heat that leaves a face in still air for each kelvin, by convection and radiation, W/(m² K); common practice, no source.
const LEAVES: f64 = 10.0;

/// Diameter of a large washer over that of its bolt (ISO 7093-1, from memory).
const WASHER: f64 = 3.0;

/// What is given about one device; without a hold-down it has neither shape nor sizes.
pub(crate) struct Given<'a> {
    pub site: &'a Installation,
    pub charger: &'a ChargerDesign,
    pub cut_off: &'a CutOffDesign,
    pub shape: Option<&'a Shape>,
    pub sizes: Option<&'a Sizes>,
}

/// What a newton of pull uses of that which a device's washers lie on, and whose strengths that is.
pub(crate) fn lies_on<'a>(
    site: &'a Installation,
    sizes: Option<&Sizes>,
    mounted: &Mounted,
    bolt: Millimetres,
) -> Option<(f64, [&'a Provenance; 2])> {
    let (carrier, rules, washer) = (&site.hold_down, &site.catalogue.rules, bolt * WASHER);
    match sizes.filter(|_| mounted.on_hold_down) {
        Some(sizes) => Some(washer_in_metal(carrier, sizes.thickness, washer, rules)),
        None => washer_in_deck(carrier, washer, rules),
    }
}

/// The shock's axis that is the hardest, and how hard.
pub(crate) fn hardest(shock: &Shock) -> (Gravities, &Provenance) {
    let each = [Axis::Along, Axis::Across, Axis::Upright].map(|axis| shock.level(axis));
    each.into_iter().fold(each[0], |most, next| if next.0 > most.0 { next } else { most })
}

/// The key of its bolts: as given, else the smallest of the catalogue.
pub(crate) fn bolt(site: &Installation, mounted: &Mounted) -> String {
    let smallest = || site.catalogue.studs.first().map(|s| s.key.clone()).unwrap_or_default();
    mounted.bolt.clone().unwrap_or_else(smallest)
}

/// Mass of what the carrier itself bears besides the battery.
pub(crate) fn borne(site: &Installation) -> Kilograms {
    site.mounted.iter().filter(|m| m.on_hold_down).fold(Kilograms::ZERO, |sum, m| sum + mass(m))
}

fn mass(mounted: &Mounted) -> Kilograms {
    mounted.mass.unwrap_or(USUAL_MASS)
}

/// Each device of the plan.
pub(crate) fn mounted(given: &Given<'_>, notes: &mut Notes) -> Vec<MountedDesign> {
    given.site.mounted.iter().map(|m| given.one(m, notes)).collect()
}

/// The row of the catalogue whose air it has.
pub(crate) fn surroundings(site: &Installation) -> Option<&CablePlace> {
    site.catalogue.place(match place(site) {
        BatteryPlace::UnderDeck | BatteryPlace::LoadBed => "under-vehicle",
        BatteryPlace::EngineBay => "engine-bay",
        BatteryPlace::Cabinet | BatteryPlace::VentedBox => "battery-box",
        BatteryPlace::UnderFloor => "under-floor",
        BatteryPlace::Cabin | BatteryPlace::SleepingSpace => "cabin",
    })
}

impl Given<'_> {
    fn one(&self, mounted: &Mounted, notes: &mut Notes) -> MountedDesign {
        let (rules, name) = (&self.site.catalogue.rules, mounted.device.key());
        let warmer = surroundings(self.site).map_or(Kelvins::ZERO, |row| row.warmer);
        let own = self.site.service_battery.hottest.is_some();
        let air = hottest(self.site) + if own { Kelvins::ZERO } else { warmer };
        let heat = self.heat(mounted.device, notes);
        let share = reckon!(Share: min(max((b - a) / max(b - c, 0.1), 0.0), 1.0),
            a: "hottest air there" = air,
            b: "air in which it ends" = mounted.hottest.unwrap_or(rules.mounted_hottest.value),
            c: "air up to which it gives all" = mounted.full_to.unwrap_or(rules.mounted_full_to.value));
        let share = notes.reckon(&Subject::Carrier, format!("output of the {name}"), share, |r| {
            r.working(format!("what the {name} gives in the air where it hangs"))
                .source("straight line between both figures of its sheet")
        });
        let (rated, wants) = match mounted.device {
            MountedDevice::Charger => (self.charger.current, self.charger.lower().map(|bound| bound.amps)),
            MountedDevice::CutOff => (self.cut_off.rating, Some(self.cut_off.current)),
        };
        let near = mounted.gap.is_some_and(|gap| gap < rules.mounted_gap.value);
        let warms = if near { self.warms(name, heat, notes) } else { Kelvins::ZERO };
        let pull = self.pull(mounted, notes);
        let bolt = bolt(self.site, mounted);
        let (bolt_used, sheet_used) = self.held(mounted, &bolt, pull, notes);
        MountedDesign {
            device: mounted.device,
            on_hold_down: mounted.on_hold_down,
            mass: mass(mounted),
            air,
            heat,
            share,
            gives: rated.map(|rated| rated * share.get()),
            wants,
            warms,
            pull,
            bolts: mounted.bolts,
            bolt,
            bolt_used,
            sheet_used,
        }
    }

    /// What a converter loses; what contacts make of the current through them.
    fn heat(&self, device: MountedDevice, notes: &mut Notes) -> Watts {
        let (site, about) = (self.site, &Subject::Carrier);
        let contact = &site.catalogue.rules.switch;
        let current = match device {
            MountedDevice::Charger => self.charger.current.unwrap_or(Amps::ZERO),
            MountedDevice::CutOff => self.cut_off.current,
        };
        if device == MountedDevice::Charger && site.charger.kind == ChargerKind::DcDc {
            let heat = reckon!(Watts: I * U * (1.0 / n - 1.0),
                I: "its output current" = current,
                U: "its output voltage" = self.charger.output,
                n: "its efficiency" = Share::new(site.charger.efficiency.get().max(0.05)));
            return notes.reckon(about, "heat of the charger", heat, |r| {
                r.working("heat of the charger").source("what goes in and does not come out")
            });
        }
        let heat =
            reckon!(Watts: I * I * R / 1000.0, I: "current through it" = current, R: "its contact" = contact.value);
        notes.reckon(about, format!("heat of the {}", device.key()), heat, |r| {
            r.working(format!("heat of the {}", device.key())).source(contact.from.words())
        })
    }

    fn warms(&self, name: &str, heat: Watts, notes: &mut Notes) -> Kelvins {
        // A block of 100 Ah where nothing is known.
        let usual =
            Box3 { along: Millimetres::new(330.0), across: Millimetres::new(172.0), upright: Millimetres::new(220.0) };
        let side = self.shape.map_or(usual, |s| s.battery.unwrap_or(s.inside));
        let (l, w, h) = (side.along.get(), side.across.get(), side.upright.get());
        let faces = (2.0 * (l + w) * h + l * w).max(1.0) / 1e6;
        let warms = reckon!(Kelvins: P / (h * A),
            P: "its heat" = heat,
            h: "heat that a face gives off, W/(m² K)" = Figure::number(LEAVES),
            A: "sides and lid of the battery, m²" = Figure::number(faces));
        notes.reckon(&Subject::Carrier, format!("warming by the {name}"), warms, |r| {
            r.working(format!("what the {name} adds to the battery beside it"))
                .source("still air, 10 W/(m² K) (common practice, no source)")
        })
    }

    fn pull(&self, mounted: &Mounted, notes: &mut Notes) -> Newtons {
        let site = self.site;
        let level = site.catalogue.shock(&site.hold_down.shock).map_or(Gravities::ZERO, |s| hardest(s).0);
        let pull = reckon!(Newtons: 2.0 * m * g * a / n,
            m: "its mass" = mass(mounted),
            g: "standard gravity, m/s²" = Figure::number(9.80665),
            a: "shock level" = level,
            n: "bolts" = Figure::new(f64::from(mounted.bolts.max(1)), Unit::Count));
        let name = mounted.device.key();
        notes.reckon(&Subject::Carrier, format!("bolts of the {name}"), pull, |r| {
            r.working(format!("pull on each bolt of the {name}"))
                .source("force = mass × acceleration")
                .note("doubled, since it also tips about its bolts (common practice, no source)")
        })
    }

    /// How far each bolt, and what its washer lies on, is used; nothing where size or class are not in the catalogue.
    fn held(&self, mounted: &Mounted, bolt: &str, pull: Newtons, notes: &mut Notes) -> (Share, Share) {
        let (site, name) = (self.site, mounted.device.key());
        let catalogue = &site.catalogue;
        let Some((size, class)) = catalogue.stud(bolt).zip(catalogue.stud_class(&site.hold_down.stud_class)) else {
            return (Share::ZERO, Share::ZERO);
        };
        let strengths = Strengths::of(size, class, catalogue.rules.bolt_partial.value);
        // The pull is doubled for its tipping, the push is not.
        let used = strengths.by_structure(pull, pull / 2.0);
        let used = notes.reckon(&Subject::Carrier, format!("use of the bolts of the {name}"), used, |r| {
            r.working(format!("use of each {bolt} bolt of the {name}"))
                .from("T", Subject::Carrier, format!("bolts of the {name}"))
                .source("EN 1993-1-8 table 3.4")
                .note("the sideways force of the same shock at once, half of the pull that is doubled")
        });
        let each = lies_on(site, self.sizes, mounted, size.diameter).map_or(0.0, |on| on.0);
        let sheet = reckon!(Share: T * e,
            T: "pull on each bolt" = pull,
            e: "use of the sheet or board for each newton, 1/N" = Figure::number(each));
        let sheet = notes.reckon(&Subject::Carrier, format!("sheet under the {name}"), sheet, |r| {
            r.working(format!("use of what the washers of the {name} lie on"))
                .from("T", Subject::Carrier, format!("bolts of the {name}"))
                .source("washer pulled through sheet, EN 1993-1-3 8.3, half for loads that come again; wood sheared or crushed")
                .note("a large washer, three times its bolt (ISO 7093-1, from memory)")
        });
        (used, sheet)
    }
}
