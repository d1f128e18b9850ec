//! Which whole designs stand beside the plan in hand on a page of the papers?

use super::failure::Failure;
use super::progress::Progress;
use crate::catalogue::Catalogue;
use crate::engine::Design;
use crate::engine::ask::rivals::cross::designs;
use crate::engine::ask::rivals::variant::Variant;
use crate::papers::MOST_BESIDE;
use crate::plan::Plan;
use crate::quantity::counted;

/// Those of these numbers, in their order.
///
/// # Errors
/// There is none of that number, or they are more than fit a page.
pub fn numbered<'a>(all: &'a [Variant], numbers: &[usize]) -> Result<Vec<(usize, &'a Variant)>, Failure> {
    if numbers.len() > MOST_BESIDE {
        return Err(Failure::new(
            format!("--beside: {} do not fit a page", counted(numbers.len(), "design")),
            format!("name at most {MOST_BESIDE}"),
        ));
    }
    let named = |n: usize| Some((n, all.get(n.checked_sub(1)?)?));
    let missing = |n: usize| {
        Failure::new(format!("--beside {n}: there is no such design"), format!("they are numbered 1 to {}", all.len()))
    };
    numbers.iter().map(|n| named(*n).ok_or_else(|| missing(*n))).collect()
}

/// The numbers that stand there when none are named: the plan in hand, then those that nothing beats.
fn unbeaten(all: &[Variant]) -> Vec<usize> {
    let others = all.iter().enumerate().skip(1).filter(|(_, v)| v.unbeaten).map(|(n, _)| n + 1);
    [1].into_iter().chain(others).take(MOST_BESIDE).collect()
}

/// What was asked for.
#[derive(Clone, Copy, Debug)]
pub struct Wanted<'a> {
    /// The page with what nothing beats.
    pub rivals: bool,
    /// The page with these.
    pub beside: &'a [usize],
}

impl Wanted<'_> {
    /// The designs that are compared; none where no page is wanted, since each costs time.
    pub fn compared(&self, plan: &Plan, catalogue: &Catalogue, design: &Design) -> Vec<Variant> {
        if !self.rivals && self.beside.is_empty() {
            return Vec::new();
        }
        let progress = Progress::default();
        let found = designs(plan, catalogue, design, &|| progress.one_more());
        progress.end();
        found
    }

    /// Those of them that stand on the page.
    ///
    /// # Errors
    /// As [`numbered`].
    pub fn of<'a>(&self, compared: &'a [Variant]) -> Result<Vec<(usize, &'a Variant)>, Failure> {
        if self.rivals { numbered(compared, &unbeaten(compared)) } else { numbered(compared, self.beside) }
    }
}
