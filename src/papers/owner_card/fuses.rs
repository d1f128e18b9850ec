//! Which fuses stand on the owner's card, when not all of them find room on it?

use crate::engine::FuseDesign;
use crate::papers::document::{Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::{Job, rating};
use crate::plan::point;
use crate::quantity::Watts;
use itertools::Itertools;

/// So many fuses are told in full words; more are set small, in two columns.
const FEW: usize = 16;
/// Letters of what a fuse feeds, in the table of few and in the small one.
const FEEDS: usize = 90;
const FEEDS_SMALL: usize = 34;
/// How many letters of a cell go into a line, in the table of few and in the small one.
const WORDS_IN_A_LINE: usize = 40;
const AT_IN_A_LINE: usize = 14;
const FEEDS_IN_A_LINE: usize = 30;
/// Points named, where fuses are left out.
const NAMED: usize = 8;

/// A fuse and its run, with what it feeds.
struct Row<'a> {
    run: usize,
    fuse: &'a FuseDesign,
    feeds: Vec<String>,
}

impl Row<'_> {
    /// Lines of the table of few that it takes.
    fn lines_in_words(&self) -> usize {
        let feeds = shortened(&self.feeds, FEEDS);
        let cells = [self.fuse.at.as_str(), self.fuse.style_name.as_str(), feeds.as_str()];
        cells.iter().map(|c| c.chars().count().div_ceil(WORDS_IN_A_LINE)).max().unwrap_or(1).max(1)
    }

    /// Lines of the small table that it takes.
    fn lines(&self) -> usize {
        let at = self.fuse.at.chars().count().div_ceil(AT_IN_A_LINE);
        let feeds = shortened(&self.feeds, FEEDS_SMALL).chars().count().div_ceil(FEEDS_IN_A_LINE);
        let rating = rating(self.fuse).chars().count().div_ceil(10);
        at.max(feeds).max(rating).max(1)
    }

    /// What must not be missing: a fuse that does not exist, then those that much hangs on.
    fn weight(&self) -> (bool, usize) {
        (self.fuse.rating.is_none(), self.feeds.len())
    }
}

/// The fuses, within `room` lines of the small table in each of two columns.
pub fn section(job: &Job, room: usize, paper: &mut Document) {
    let runs = job.design.runs.iter();
    let all: Vec<Row<'_>> = runs
        .flat_map(|r| r.fuses.iter().map(move |fuse| Row { run: r.run, fuse, feeds: feeds(job, r.run, &fuse.at) }))
        .collect();
    if all.len() <= FEW && all.iter().map(Row::lines_in_words).sum::<usize>() <= room {
        return paper.table(in_words(job, &all));
    }
    let mut left = 2 * room;
    let mut by_weight: Vec<usize> = (0..all.len()).collect();
    by_weight.sort_by_key(|n| std::cmp::Reverse(all[*n].weight()));
    let fits = |n: &usize| {
        let lines = all[*n].lines();
        let fits = lines <= left;
        // Once one is left out, so are those that less hangs on: the card stays a list of the main ones.
        left = if fits { left - lines } else { 0 };
        fits
    };
    let mut shown: Vec<usize> = by_weight.into_iter().filter(fits).collect();
    shown.sort_unstable();
    let styles: Vec<&str> = shown.iter().map(|n| all[*n].fuse.style_name.as_str()).unique().collect();
    let (on, off): (Vec<_>, Vec<_>) = all.iter().enumerate().partition(|(n, _)| shown.contains(n));
    let on: Vec<&Row<'_>> = on.into_iter().map(|(_, row)| row).collect();
    paper.table(small(job, &on, &styles));
    let letters = styles.iter().enumerate().map(|(n, style)| format!("{}: {style}", letter(n)));
    let mut words = format!("Style {}.", letters.collect::<Vec<_>>().join("; "));
    if !off.is_empty() {
        words.push_str(&left_out(&off.iter().map(|(_, row)| row.fuse.at.as_str()).collect::<Vec<_>>()));
    }
    paper.paragraph(words);
}

/// Where those stand that are not on the card.
fn left_out(at: &[&str]) -> String {
    let places: Vec<&str> = at.iter().copied().unique().collect();
    let more = places.len().saturating_sub(NAMED);
    let named = places.iter().take(NAMED).copied().collect::<Vec<_>>().join(", ");
    let more = if more > 0 { format!(" and {more} more places") } else { String::new() };
    format!(
        " {} smaller fuses are not on this card: they stand at {named}{more}, and the connection table says what each \
         feeds.",
        at.len()
    )
}

/// What goes dead when the fuse at this end of a run is gone.
fn feeds(job: &Job, run: usize, at: &str) -> Vec<String> {
    let topology = &job.design.installation.circuits;
    let Some(index) = topology.index_of(run) else { return Vec::new() };
    let Some(branch) = topology.branches.get(index) else { return Vec::new() };
    if branch.far == at {
        return vec![format!("{} (from {at})", branch.near)];
    }
    if branch.far == point::CHARGER {
        return vec!["charger".into()];
    }
    let reached: Vec<&str> =
        topology.beyond(index).iter().filter_map(|b| topology.branches.get(*b)).map(|b| b.far.as_str()).collect();
    let inverter = job.plan.inverter.rating > Watts::ZERO && reached.contains(&job.plan.inverter.at.as_str());
    let fed = |l: &&crate::engine::installation::load::Load| {
        if l.inverter { inverter } else { reached.contains(&l.at.as_str()) }
    };
    // By the ends of their own leads.
    let mut names: Vec<String> = job.design.installation.loads.iter().filter(fed).map(|l| l.name.clone()).collect();
    if inverter {
        names.push("inverter".into());
    }
    if names.is_empty() { vec![branch.far.clone()] } else { names }
}

fn in_words(job: &Job, rows: &[Row<'_>]) -> Table {
    Columns::new()
        .words("run", "Run", |r: &Row<'_>| job.design.installation.run_number(r.run))
        .text("near", "At", |r| &r.fuse.at)
        .words("rating", "Fuse", |r| rating(r.fuse))
        .text("style", "Style", |r| &r.fuse.style_name)
        .words("feeds", "Feeds", |r| shortened(&r.feeds, FEEDS))
        .list("fuse-card", "", rows)
}

fn small(job: &Job, rows: &[&Row<'_>], styles: &[&str]) -> Table {
    let style = |r: &&Row<'_>| styles.iter().position(|s| *s == r.fuse.style_name).map_or(String::new(), letter);
    Columns::new()
        .words("run", "Run", |r: &&Row<'_>| job.design.installation.run_number(r.run))
        .text("near", "At", |r| &r.fuse.at)
        .words("rating", "Fuse", |r| rating(r.fuse))
        .words("style", "Style", style)
        .words("feeds", "Feeds", |r| shortened(&r.feeds, FEEDS_SMALL))
        .list("fuse-card", "", rows)
}

/// `A`, `B`, …
fn letter(n: usize) -> String {
    let letter = u8::try_from(n).ok().and_then(|n| b'A'.checked_add(n)).filter(u8::is_ascii_uppercase);
    letter.map_or_else(|| (n + 1).to_string(), |l| char::from(l).to_string())
}

/// The first few, and how many more there are.
fn shortened(names: &[String], longest: usize) -> String {
    let mut out = String::new();
    for (n, name) in names.iter().enumerate() {
        if n > 0 && out.chars().count() + name.chars().count() > longest {
            return format!("{out} and {} more", names.len() - n);
        }
        out.push_str(if n > 0 { ", " } else { "" });
        out.push_str(name);
    }
    out
}
