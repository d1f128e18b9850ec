//! What does a line of the parts list cost by the user's own prices?
//!
//! A price names a part by words of its line. Where several prices fit, that of most words counts, and of those the
//! last one entered. The plan's own come before those of the user's profiles, however few words they have.

use crate::catalogue::line_words;
use crate::engine::installation::Installation;
use crate::engine::installation::price::price_of_100ah;
use crate::engine::parts::battery::Bank;
use crate::plan::per_100ah;
use crate::quantity::Money;

/// Of one as it is sold, by the words of its line.
pub(super) fn each(site: &Installation, group: &str, what: &str) -> Option<Money> {
    in_plan(site, group, what).or_else(|| in_profiles(site, group, what))
}

/// Of a block of the bank: by its line, else by its charge.
pub(super) fn of_block(site: &Installation, bank: &Bank, group: &str, what: &str) -> Option<Money> {
    let by_charge = |p: Money| Money::new(p.get() * bank.block.get() / 100.0);
    in_plan(site, group, what)
        .or_else(|| per_100ah(&site.prices, &bank.chemistry).map(by_charge))
        .or_else(|| in_profiles(site, group, what))
        .or_else(|| price_of_100ah(site, &bank.chemistry).map(by_charge))
}

fn in_plan(site: &Installation, group: &str, what: &str) -> Option<Money> {
    wordiest(site.prices.iter().filter_map(|p| Some((p.part.as_deref()?, p.each?))), group, what)
}

fn in_profiles(site: &Installation, group: &str, what: &str) -> Option<Money> {
    wordiest(site.catalogue.prices.iter().filter_map(|p| Some((p.part()?, p.each?))), group, what)
}

fn wordiest<'a>(prices: impl Iterator<Item = (&'a str, Money)>, group: &str, what: &str) -> Option<Money> {
    let line: Vec<String> = line_words(group).chain(line_words(what)).collect();
    let mut best: Option<(usize, Money)> = None;
    for (part, each) in prices {
        let named: Vec<String> = line_words(part).collect();
        let fits = !named.is_empty() && named.iter().all(|word| line.contains(word));
        if fits && best.is_none_or(|(most, _)| named.len() >= most) {
            best = Some((named.len(), each));
        }
    }
    best.map(|(_, each)| each)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_price_of_most_words_counts() {
        let prices = [("35 mm²", 3.0), ("cable 35 mm²", 9.0), ("cable 35 mm² black", 8.0), ("", 1.0)];
        let of = |group, what| wordiest(prices.iter().map(|(p, m)| (*p, Money::new(*m))), group, what).map(Money::get);
        assert_eq!(of("cable", "35 mm², red (positive), PVC, 105 °C"), Some(9.0));
        assert_eq!(of("cable", "35 mm², black (negative), PVC, 105 °C"), Some(8.0));
        assert_eq!(of("lug", "ring lug for 35 mm² and stud M8"), Some(3.0));
        assert_eq!(of("cable", "135 mm², red (positive)"), None, "words count whole");
    }
}
