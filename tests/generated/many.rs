//! How many plans a test draws.

/// `usual`, which each run of the suite has time for, or as many as `LOOMWRIGHT_PLANS` asks for.
pub fn plans(usual: u64) -> u64 {
    std::env::var("LOOMWRIGHT_PLANS").ok().and_then(|n| n.parse().ok()).unwrap_or(usual)
}
