//! The example plans: invented scenarios, embedded in the program.

/// An example plan.
#[derive(Clone, Copy, Debug)]
pub struct Example {
    /// File name without ending.
    pub name: &'static str,
    /// Its text.
    pub text: &'static str,
}

const EXAMPLES: &[Example] = &[
    Example { name: "bird-ringing-van", text: include_str!("../../profiles/plans/bird-ringing-van.toml") },
    Example { name: "beekeeper-truck", text: include_str!("../../profiles/plans/beekeeper-truck.toml") },
    Example { name: "market-trailer", text: include_str!("../../profiles/plans/market-trailer.toml") },
];

/// All of them, the default first.
pub fn examples() -> &'static [Example] {
    EXAMPLES
}

/// The one that opens when no file is named.
pub fn default_example() -> Example {
    EXAMPLES[0]
}
