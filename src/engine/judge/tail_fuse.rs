//! Does the fuse that a maker has put into an appliance's own leads do what the plan leaves to it?
//!
//! Its leads have no size and its holder no kind in the plan, so it is held
//! against what is usual: the thinnest size that carries the appliance, and the
//! style in which its rating is usually made.

use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::physics::fuse_link::rating::styles;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::tail::Hanging;
use crate::plan::point;
use crate::quantity::Amps;

/// What is wrong with it; nothing where there is none.
pub(crate) fn check(loops: &FaultLoops, fuses: &Fuses, hanging: &Hanging) -> Vec<Finding> {
    let Some(rating) = hanging.tail_fuse else { return Vec::new() };
    let check = Check { loops, fuses, hanging, rating };
    [check.breaks(), check.small(), check.guards()].into_iter().flatten().collect()
}

struct Check<'a, 'l> {
    loops: &'a FaultLoops<'l, 'a>,
    fuses: &'a Fuses<'l>,
    hanging: &'a Hanging<'l>,
    rating: Amps,
}

impl Check<'_, '_> {
    fn found(&self, text: String, rule: String) -> Finding {
        Finding::new(Kind::TailFuse, self.hanging.subject.clone(), text)
            .rule(rule)
            .at(self.hanging.place("tail_fuse_a"))
    }

    /// At the posts nothing else breaks a fault for it.
    fn breaks(&self) -> Option<Finding> {
        let (site, hanging) = (self.loops.site, self.hanging);
        let fault = self.loops.at_posts().filter(|_| hanging.at == point::SERVICE_BATTERY)?;
        let usual = styles(&site.catalogue, None).find(|s| s.ratings.contains(&self.rating))?;
        let breaking = usual.breaking_at(self.loops.sources.highest).filter(|b| b.amps < fault)?;
        let text = format!(
            "the {} fuse in the leads of {} is alone before a fault of {fault} at the battery's posts; as a {}, the usual kind, it breaks {}",
            self.rating, hanging.name, usual.name, breaking.amps
        );
        let rule =
            format!("a fuse breaks the fault at its place: IEC 60364-4-43 434.5.1; {}", breaking.from.amps.words());
        Some(
            self.found(text, rule)
                .remedy(format!("see on the fuse what it breaks; take one for {fault} or more"))
                .remedy(format!(
                    "or add a run from `{}` to a point of its own and connect it there; then its fuse is chosen to break that",
                    point::SERVICE_BATTERY
                )),
        )
    }

    /// It carries what the appliance draws, and goes on doing so.
    fn small(&self) -> Option<Finding> {
        let (site, hanging) = (self.loops.site, self.hanging);
        let loading = site.fuse_loading();
        let carries = self.rating * loading.get();
        if hanging.current <= carries {
            return None;
        }
        let text = format!(
            "the {} fuse in the leads of {} carries {carries} for ever; {} flow there",
            self.rating, hanging.name, hanging.current
        );
        let needs = hanging.current / loading.get().max(0.01);
        let rule = format!("steady current / loading ≤ rating; {}", site.fuse_loading_source());
        Some(
            self.found(text, rule)
                .remedy(format!("read its rating again: {needs} or more would be usual for {}", hanging.current)),
        )
    }

    /// One far above what the appliance draws leaves a thin lead to the device before it, if that bears it.
    fn guards(&self) -> Option<Finding> {
        let (loops, hanging) = (self.loops, self.hanging);
        let branch = loops.site.branch_to(hanging.at)?;
        let limits = FuseLimits::of(&loops.site.catalogue);
        let before = loops.device(branch, &self.fuses.near).and_then(|device| device.rating);
        let reach = before.map_or(self.rating, |before| before.min(self.rating));
        let smallest = loops.site.smallest_size();
        let size =
            loops.design(branch)?.sizes.iter().find(|s| s.area >= smallest && s.for_ever() >= hanging.current)?;
        let most = limits.at_most(size.for_ever());
        if reach <= most {
            return None;
        }
        let text = format!(
            "the {} fuse in the leads of {} guards no lead as thin as the {} that would do for its {}, which takes a fuse of at most {most}",
            self.rating, hanging.name, size.label, hanging.current
        );
        let rule = format!(
            "rating ≤ ampacity of the thinnest conductor behind it: {}; the size taken is the thinnest that carries the \
             load (common practice, no source)",
            limits.rules().ampacity_fuse.from.words()
        );
        Some(self.found(text, rule).remedy(format!(
            "look at its lead: it must carry {reach}; else put in a fuse of at most {most}, or enter the lead's length so that it is sized"
        )))
    }
}
