//! From a battery's plus over the pieces of the cut list through each load and back to its minus.
//!
//! Knows nothing of trees and runs: only pieces with two ends, and devices that join what lies on their two sides.

use loomwright::engine::{Cut, Design, Polarity, cut_list};
use loomwright::plan::point;
use std::collections::{BTreeMap, BTreeSet};

type Node = (Polarity, String);

/// Fail where a circuit stays open, or where a piece leads to nothing.
pub fn check(name: &str, design: &Design) {
    let list = cut_list(design);
    // The panels' cable ends at their controller, which parts it from everything else.
    let list: Vec<Cut> = list.cuts.into_iter().filter(|cut| cut.stem != "panels").collect();
    let pieces: Vec<[Node; 2]> = list.iter().map(ends).collect();
    let site = &design.installation;
    let starts = [point::SERVICE_BATTERY, point::STARTER_BATTERY];
    let plus = reached(&pieces, starts.map(|battery| (Polarity::Positive, battery.to_string())).to_vec());
    let mut minus: Vec<Node> = starts.map(|battery| (Polarity::Negative, battery.to_string())).to_vec();
    // The vehicle has joined its starter battery to the body; only our own bond may join the service battery's.
    if !site.circuits.to_feed_point.is_empty() {
        minus.push((Polarity::Negative, "body".into()));
    }
    let minus = reached(&pieces, minus);
    for load in site.loads.iter().filter(|l| !l.inverter && l.count > 0) {
        let at = |polarity| (polarity, load.at.clone());
        assert!(plus.contains(&at(Polarity::Positive)), "{name}: no plus reaches {} at `{}`", load.name, load.at);
        assert!(minus.contains(&at(Polarity::Negative)), "{name}: no minus leaves {} at `{}`", load.name, load.at);
    }
    for (cut, ends) in list.iter().zip(&pieces) {
        let both = if cut.polarity == Polarity::Positive { &plus } else { &minus };
        assert!(ends.iter().all(|end| both.contains(end)), "{name}: {} to {} hangs on nothing", cut.from, cut.to);
    }
    bonded(name, &pieces);
}

/// The service battery's own minus reaches the body by a piece of this list.
fn bonded(name: &str, pieces: &[[Node; 2]]) {
    let own = reached(pieces, vec![(Polarity::Negative, point::SERVICE_BATTERY.to_string())]);
    assert!(own.contains(&(Polarity::Negative, "body".into())), "{name}: no bond to the body");
}

/// The two ends of a piece; a fuse belongs to its run, and a bar to its point.
fn ends(cut: &Cut) -> [Node; 2] {
    [&cut.from, &cut.to].map(|end| {
        let plain = end.strip_prefix("negative bar at ").or(end.strip_prefix("fuse on ")).unwrap_or(end);
        let name = match plain {
            "fuse" => format!("fuse of run {:?}", cut.run),
            _ if plain.starts_with("body") => "body".into(),
            _ => plain.to_string(),
        };
        (cut.polarity, name)
    })
}

fn reached(pieces: &[[Node; 2]], mut queue: Vec<Node>) -> BTreeSet<Node> {
    let mut beside: BTreeMap<&Node, Vec<&Node>> = BTreeMap::new();
    for [a, b] in pieces {
        beside.entry(a).or_default().push(b);
        beside.entry(b).or_default().push(a);
    }
    let mut reached: BTreeSet<Node> = queue.iter().cloned().collect();
    while let Some(node) = queue.pop() {
        for &next in beside.get(&node).into_iter().flatten() {
            if reached.insert(next.clone()) {
                queue.push(next.clone());
            }
        }
    }
    reached
}
