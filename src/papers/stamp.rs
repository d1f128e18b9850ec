//! Which plan, of which day and by which version, is a sheet made from?
//!
//! Two sheets that lie on a bench must be told apart: each carries the day of the plan's
//! file, where there is a file, and a short checksum of the plan's text and this program's
//! version. The same text gives the same checksum; a slip of one letter another one.

/// The version that writes.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// What a sheet is made from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stamp {
    /// Day of the plan's file, `2026-11-26`; `None` where the plan is no file.
    pub dated: Option<String>,
    /// Of the plan's text and the version, 16 hexadecimal digits; empty where nobody gave one.
    pub checksum: String,
}

impl Stamp {
    /// Of a plan's text.
    pub fn of(text: &str, dated: Option<String>) -> Stamp {
        Stamp { dated, checksum: checksum(format!("{VERSION}\n{text}")) }
    }

    /// `plan of 2026-11-26, checksum 3fa2 91bc, loomwright 0.2.0`.
    pub fn words(&self) -> String {
        let day = self.dated.as_ref().map(|day| format!("plan of {day}"));
        let sum = (!self.checksum.is_empty()).then(|| format!("checksum {}", self.short()));
        let by = format!("loomwright {VERSION}");
        day.into_iter().chain(sum).chain([by]).collect::<Vec<_>>().join(", ")
    }

    /// The checksum's first eight digits in two groups, as one reads them out.
    pub fn short(&self) -> String {
        let digits: Vec<char> = self.checksum.chars().take(8).collect();
        digits.chunks(4).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
    }
}

/// FNV-1a of 64 bits (IETF draft-eastlake-fnv): tells texts apart, protects nothing.
pub fn checksum(data: impl AsRef<[u8]>) -> String {
    let sum = data
        .as_ref()
        .iter()
        .fold(0xcbf2_9ce4_8422_2325_u64, |sum, byte| (sum ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3));
    format!("{sum:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors of 64-bit FNV-1a in IETF draft-eastlake-fnv, appendix C.
    #[test]
    fn checksum_is_fnv_1a() {
        assert_eq!(checksum(""), "cbf29ce484222325");
        assert_eq!(checksum("a"), "af63dc4c8601ec8c");
        assert_eq!(checksum("foobar"), "85944171f73967e8");
    }

    #[test]
    fn a_stamp_reads_as_words() {
        let stamp = Stamp { dated: Some("2026-11-26".into()), checksum: "3fa291bc00000000".into() };
        assert_eq!(stamp.words(), format!("plan of 2026-11-26, checksum 3fa2 91bc, loomwright {VERSION}"));
        assert_eq!(Stamp::default().words(), format!("loomwright {VERSION}"));
    }
}
