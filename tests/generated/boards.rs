//! Fit-outs with boards, leads, shared ways and returns by cable and by the body, from a seed.
//!
//! Only inputs come from here, never an expected result.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::fmt::Write;

/// The text of a plan with one to three boards and up to eight leads on each. A feed by the
/// body begins at the battery; with `mixed` it begins behind a run that comes back by cable, and so may a lead.
pub fn boards(seed: u64, mixed: bool) -> String {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut text = String::from("format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 400\n");
    let _ = write!(text, "[charger]\nkind = \"none\"\n[vehicle]\nchassis_mohm = {:.2}\n", dice.random_range(1.0..8.0));
    text.push_str("[[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.6\n");
    for board in 0..dice.random_range(1..4) {
        let by_body = dice.random_bool(0.4);
        let back = if by_body { "return = \"chassis\"\n" } else { "" };
        let length = dice.random_range(0.8..5.0);
        // The second board may hang on the first, which then comes back by cable.
        let first = board == 1 && !by_body && !text.contains("chassis\"");
        let from = match (first, by_body && !mixed) {
            (true, _) => "board 0",
            (_, true) => "service battery",
            _ => "cut-off",
        };
        let _ = write!(text, "[[board]]\nname = \"board {board}\"\nkind = \"fuse-box\"\nstyle = \"blade-c\"\n");
        let _ = write!(text, "[[run]]\nfrom = \"{from}\"\nto = \"board {board}\"\nlength_m = {length:.2}\n{back}");
        for load in 0..dice.random_range(2..9) {
            let kind = ["constant-power", "constant-current", "resistance"][dice.random_range(0..3)];
            let (power, lead) = (dice.random_range(2.0..60.0), dice.random_range(0.5..5.0));
            let way = if dice.random_bool(0.3) { "way = \"light\"\n" } else { "" };
            let back = if mixed && dice.random_bool(0.5) { "lead_return = \"chassis\"\n" } else { "" };
            let _ = write!(
                text,
                "[[load]]\nname = \"load {board} {load}\"\nat = \"board {board}\"\npower_w = {power:.1}\nkind = \"{kind}\"\n\
                 drop = \"tolerant\"\nlead_m = {lead:.2}\n{way}{back}"
            );
        }
    }
    text
}
