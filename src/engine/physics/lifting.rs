//! How much may hands lift, from where to where?
//!
//! The revised NIOSH lifting equation: 23 kg times what distance from the body, height and way take
//! from it. One lift now and then, no twist, a fair grip. Left out: slippery ground and cramped places.

use crate::quantity::*;

/// A lift: from the ankles to the hands, from the floor to the hands at its beginning, and how far up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Lift {
    pub reach: Millimetres,
    pub begins: Millimetres,
    pub up: Millimetres,
}

/// The recommended weight limit; nothing where the reach is longer than 63 cm, or hands are higher than 175 cm.
pub(crate) fn recommended(lift: Lift) -> Kilograms {
    let (reach, begins, up) = (lift.reach.get() / 10.0, lift.begins.get() / 10.0, lift.up.get().abs() / 10.0);
    let far = if reach > 63.0 { 0.0 } else { 25.0 / reach.max(25.0) };
    let height = if begins > 175.0 { 0.0 } else { 1.0 - 0.003 * (begins - 75.0).abs() };
    let way = if up > 175.0 { 0.0 } else { 0.82 + 4.5 / up.max(25.0) };
    let grip = if begins < 75.0 { 0.95 } else { 1.0 };
    Kilograms::new(23.0 * far * height * way * grip)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIOSH 94-110, loading punch press stock (from memory): hands 23 in out, 15 in high, 48 in up, fair grip: 16.3 lb
    /// with its factors rounded to two places; the end of that lift, 64 in high: 14.5 lb. The metric constants (25 cm for
    /// 10 in, 23 kg for 51 lb) and the rounding give up to 6 % less, never more.
    #[test]
    fn the_published_example() {
        let inches = |n: f64| Millimetres::new(n * 25.4);
        for (begins, pounds) in [(15.0, 16.3), (64.0, 14.5)] {
            let lift = Lift { reach: inches(23.0), begins: inches(begins), up: inches(48.0) };
            let got = recommended(lift).get() / 0.453_592;
            assert!(got <= pounds && got > 0.94 * pounds, "{got} lb, published {pounds}");
        }
        let lift = Lift { reach: inches(30.0), begins: inches(30.0), up: inches(10.0) };
        assert_eq!(recommended(lift).get(), 0.0);
    }
}
