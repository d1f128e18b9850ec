//! What does a line of the parts list cost by the user's own prices?
//!
//! A price names a part by words of its line. Where several prices fit, that of most words counts, and of those the
//! last one entered.

use crate::plan::Price;
use crate::quantity::Money;

/// Of one as it is sold, by the words of its line.
pub(super) fn each(prices: &[Price], group: &str, what: &str) -> Option<Money> {
    let line = words(&format!("{group} {what}"));
    let fits = |price: &Price| {
        let named = words(price.part.as_deref()?);
        let all = !named.is_empty() && named.iter().all(|word| line.contains(word));
        all.then_some((named.len(), price.each?))
    };
    let mut best: Option<(usize, Money)> = None;
    for found in prices.iter().filter_map(fits) {
        if best.is_none_or(|(most, _)| found.0 >= most) {
            best = Some(found);
        }
    }
    best.map(|(_, each)| each)
}

fn words(text: &str) -> Vec<String> {
    let ends = |c: char| c.is_whitespace() || ",;:()".contains(c);
    text.to_lowercase().split(ends).filter(|word| !word.is_empty()).map(str::to_string).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_price_of_most_words_counts() {
        let price =
            |part: &str, each: f64| Price { part: Some(part.into()), each: Some(Money::new(each)), ..Price::default() };
        let prices = [price("35 mm²", 3.0), price("cable 35 mm²", 9.0), price("cable 35 mm² black", 8.0)];
        let of = |group, what| each(&prices, group, what).map(Money::get);
        assert_eq!(of("cable", "35 mm², red (positive), PVC, 105 °C"), Some(9.0));
        assert_eq!(of("cable", "35 mm², black (negative), PVC, 105 °C"), Some(8.0));
        assert_eq!(of("lug", "ring lug for 35 mm² and stud M8"), Some(3.0));
        assert_eq!(of("cable", "135 mm², red (positive)"), None, "words count whole");
        assert_eq!(each(&[Price::default()], "lug", "ring lug"), None);
    }
}
