//! What would do, if the battery gave at a high current what cell sheets say?
//!
//! For lithium a public cell model and the sheets of cells differ by as much as a tenth at 1 C. The safer of the two
//! sizes; the other is shown beside it.

use crate::catalogue::Chemistry;
use crate::engine::choose::battery::criteria::sizing;
use crate::engine::design::{Design, of_site};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::kinetic::Kinetic;
use crate::engine::simulate::bank::Job;
use crate::engine::simulate::battery::BySheets;
use crate::quantity::*;

/// The rate of the two.
const AN_HOUR: Hours = Hours::new(1.0);

impl Design {
    /// What cell sheets would say of the bank, where they say more than the model that it is sized by. Worked out once,
    /// when somebody first asks.
    pub fn by_sheets(&self) -> Option<&BySheets> {
        self.by_sheets.get_or_init(|| by_sheets(&self.installation, self.battery.bank.as_ref())).as_ref()
    }
}

fn by_sheets(site: &Installation, chosen: Option<&Bank>) -> Option<BySheets> {
    let (chemistry, chosen) = (site.chemistry()?, chosen?);
    let (kinetic, rated) = (Kinetic::of(chemistry), chemistry.rate.rated);
    let model = Share::new(kinetic.delivered(AN_HOUR) / kinetic.delivered(rated));
    let sheets = chemistry.rate.sheet_1h.filter(|sheets| *sheets > model)?;
    let mut other = site.clone();
    for row in other.catalogue.chemistries.iter_mut().filter(|c| c.key == chemistry.key) {
        follow(row, sheets);
    }
    let free = site.service_battery.capacity.is_none();
    let bank = if free { smaller(other, chosen) } else { None };
    Some(BySheets { model, sheets, bank })
}

/// Let a row give in an hour what sheets say: the same speed of levelling, more at hand; Peukert's exponent by the pair.
fn follow(row: &mut Chemistry, sheets: Share) {
    row.rate.kinetic_c = Kinetic::of(row).giving(AN_HOUR, row.rate.rated, sheets).at_hand.get();
    let hours = (row.rate.rated / AN_HOUR).max(1.001).ln();
    row.rate.peukert = (hours / (hours + sheets.get().ln())).clamp(1.0, row.rate.peukert);
}

/// The bank of a whole design with that, where it is smaller. What its criteria ask for is soon known; only where that
/// is less than was chosen the days are tried.
fn smaller(site: Installation, chosen: &Bank) -> Option<Bank> {
    let chemistry = site.chemistry()?;
    let notes = &mut Notes::unkept();
    let needed = sizing(&site, chemistry, notes).needed();
    let job = Job { site: &site, chemistry, own: true, subject: Subject::ServiceBattery };
    let least = job.bank(needed, notes)?;
    let less = least.capacity < chosen.capacity;
    let design = less.then(|| of_site(site))?;
    let held = design.promise.held();
    design.battery.bank.filter(|bank| held && bank.capacity < chosen.capacity)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;

    /// With what sheets say put in, the kinetic battery model and Peukert's law both give it.
    #[test]
    fn a_row_follows_the_sheets() {
        let catalogue = Catalogue::embedded().unwrap();
        let mut row = catalogue.chemistry("lithium-iron-phosphate").unwrap().clone();
        follow(&mut row, Share::new(0.95));
        let kinetic = Kinetic::of(&row);
        let gives = kinetic.delivered(AN_HOUR) / kinetic.delivered(row.rate.rated);
        assert!((gives - 0.95).abs() < 1e-9, "{gives}");
        // I^k t the same in an hour and in five: (C / 5)^k x 5 = (0.95 C)^k.
        let k = row.rate.peukert;
        assert!((0.2f64.powf(k) * 5.0 - 0.95f64.powf(k)).abs() < 1e-9, "{k}");
    }
}
