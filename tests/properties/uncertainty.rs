//! Laws of the draws: the same on any number of cores, stoppable, and sober at their ends.

use loomwright::catalogue::Catalogue;
use loomwright::engine::simulate::chance::draw::{Draws, Input, Ranges};
use loomwright::engine::simulate::chance::{Uncertainty, UncertaintyError};
use loomwright::engine::uncertainty;
use loomwright::engine::{Span, design};
use loomwright::plan::{default_example, read};
use std::sync::atomic::{AtomicU32, Ordering};

fn draw(draws: Draws, threads: usize, watch: &(dyn Fn(u32) -> bool + Sync)) -> Result<Uncertainty, UncertaintyError> {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(default_example().text, &catalogue).plan;
    uncertainty(&design(&plan, &catalogue), draws, threads, watch)
}

fn some(count: u32, seed: u64) -> Draws {
    Draws { count, seed, span: Span { days: 4, ..Span::default() }, ..Draws::default() }
}

#[test]
fn the_same_seed_gives_the_same_on_any_number_of_cores() {
    let one = draw(some(40, 7), 1, &|_| true).unwrap();
    for threads in [2, 3, 8] {
        assert_eq!(draw(some(40, 7), threads, &|_| true).unwrap(), one, "{threads} cores");
    }
    assert_ne!(draw(some(40, 8), 2, &|_| true).unwrap().lowest, one.lowest, "another seed");
    assert_eq!((one.draws, one.cut_at_night.len(), one.tornado.len()), (40, 4, Input::ALL.len()));
    assert!(one.lowest[0] <= one.lowest[1] && one.lowest[1] <= one.lowest[2]);
    assert!(one.cut_by.windows(2).all(|w| w[0] <= w[1]), "{:?}", one.cut_by);
    assert!(one.tornado.windows(2).all(|w| w[0].spread() >= w[1].spread()));
}

#[test]
fn every_draw_is_heard_and_a_no_stops_them() {
    let heard = AtomicU32::new(0);
    let all = draw(some(20, 1), 2, &|_| heard.fetch_add(1, Ordering::Relaxed) < 1000).unwrap();
    assert_eq!((all.draws, heard.load(Ordering::Relaxed)), (20, 20));
    let few = draw(some(5000, 1), 2, &|done| done < 5).unwrap();
    assert!(few.draws < 50, "{} draws after a no at the fifth", few.draws);
}

/// A sure thing has the same ends: nothing varies, so all draws agree.
#[test]
fn nothing_uncertain_gives_one_answer() {
    let sure = Input::ALL.into_iter().fold(Ranges::default(), |r, i| {
        let middle = r.of(i).at(0.5);
        r.with(i, middle, middle)
    });
    let out = draw(Draws { ranges: sure, ..some(10, 3) }, 2, &|_| true).unwrap();
    assert!(out.lowest[0] == out.lowest[2], "{:?}", out.lowest);
    assert!(out.tornado.iter().all(|b| b.spread().get() == 0.0));
}

#[test]
fn what_is_outside_its_range_is_refused() {
    assert_eq!(draw(some(0, 1), 1, &|_| true).unwrap_err(), UncertaintyError::Count(0));
    for (low, high) in [(2.0, 1.0), (f64::NAN, 1.0), (-1.0, 1.0), (0.0, 1e308)] {
        let ranges = Ranges::default().with(Input::Sun, low, high);
        let error = draw(Draws { ranges, ..some(5, 1) }, 1, &|_| true).unwrap_err();
        assert_eq!(error, UncertaintyError::Range(Input::Sun), "{low} to {high}");
        assert!(error.explain().contains("0 × to 5 ×") || error.explain().contains("0× to 5×"), "{}", error.explain());
    }
}
