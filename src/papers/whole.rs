//! Which words are one value, that no line's end may tear in two?
//!
//! A number stays with its unit, a count with what it is multiplied by, a gauge with its
//! letters. Only a word too long for a column may break, at places that are marked in it.

use crate::quantity::Unit;
use maud::{Markup, PreEscaped, Render};
use std::sync::LazyLock;

/// A word longer than this may break within.
const LONGEST: usize = 18;
/// A piece of such a word.
const PIECE: usize = 8;

static UNITS: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
    let symbols = Unit::ALL.iter().map(|u| u.symbol()).filter(|s| !s.is_empty());
    symbols.chain(["AWG", "x", "mm2"]).collect()
});

/// Text of a paper, clean already, as markup.
pub fn whole(text: &str) -> Markup {
    let mut out = String::with_capacity(text.len() + 16);
    for (n, value) in values(text).enumerate() {
        if n > 0 {
            out.push(' ');
        }
        for (n, word) in value.split(' ').enumerate() {
            if n > 0 {
                out.push_str("&nbsp;");
            }
            breakable(word, &mut out);
        }
    }
    PreEscaped(out)
}

/// The pieces of a text between which a line may end: words, and values of several words.
pub fn values(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let all = rest?;
        let mut end = all.find(' ');
        let mut word = 0;
        while let Some(blank) = end {
            let next = &all[blank + 1..];
            let next = next.split(' ').next().unwrap_or(next);
            if !holds(&all[word..blank], next) {
                break;
            }
            word = blank + 1;
            end = all[word..].find(' ').map(|n| word + n);
        }
        rest = end.map(|blank| &all[blank + 1..]);
        Some(&all[..end.unwrap_or(all.len())])
    })
}

/// Whether two words are one value.
fn holds(before: &str, after: &str) -> bool {
    let bare = |word: &str| word.trim_matches(|c: char| "(),;:.".contains(c)).to_string();
    let (one, two) = (bare(before), bare(after));
    // A comma or a stop between them ends the value.
    let goes_on = !before.ends_with([',', ';', ':', '.', ')']) && !after.starts_with(['(', ',']);
    let number = |word: &str| word.ends_with(|c: char| c.is_ascii_digit());
    let unit = |word: &str| UNITS.contains(&word) || word.split('/').next().is_some_and(|first| UNITS.contains(&first));
    // The name of a wire: `R3 + 1`, `bond –`.
    let sign = |word: &str| word == "+" || word == "–";
    if sign(&two) || sign(&one) && !two.is_empty() && two.chars().all(|c| c.is_ascii_digit()) {
        return goes_on;
    }
    goes_on && (number(&one) && unit(&two) || number(&two) && ["AWG", "×", "x", "M", "Ø"].contains(&one.as_str()))
}

/// A word with marks where it may break if it is long.
fn breakable(word: &str, out: &mut String) {
    let long = word.chars().count() > LONGEST;
    for (n, c) in word.chars().enumerate() {
        if long && n > 0 && n % PIECE == 0 {
            out.push_str("<wbr>");
        }
        c.to_string().as_str().render_to(out);
    }
}

#[cfg(test)]
mod tests {
    use super::whole;

    #[test]
    fn a_value_holds_together() {
        for (text, markup) in [
            ("35 mm² to 4.5 V, 20 A.", "35&nbsp;mm² to 4.5&nbsp;V, 20&nbsp;A."),
            ("2 × 100 Ah (48 kg)", "2&nbsp;×&nbsp;100&nbsp;Ah (48&nbsp;kg)"),
            ("4 AWG or AWG 4; 10 x 38 mm", "4&nbsp;AWG or AWG&nbsp;4; 10&nbsp;x&nbsp;38&nbsp;mm"),
            ("R3, 12 of them, in 2 A", "R3, 12 of them, in 2&nbsp;A"),
            ("R3 + 1; bond – black", "R3&nbsp;+&nbsp;1; bond&nbsp;– black"),
            ("a < b & \"c\"", "a &lt; b &amp; &quot;c&quot;"),
        ] {
            assert_eq!(whole(text).into_string(), markup);
        }
    }

    #[test]
    fn only_a_long_word_may_break() {
        assert_eq!(whole("refrigerator").into_string(), "refrigerator");
        assert_eq!(whole("abcdefghijklmnopqrstuvwx").into_string(), "abcdefgh<wbr>ijklmnop<wbr>qrstuvwx");
    }
}
