//! What is wrong: which rule, where, and in words.

/// One thing that is wrong.
#[derive(Clone, Debug)]
pub struct Fault {
    /// The file, or what it is about.
    at: String,
    words: String,
}

impl Fault {
    pub fn new(at: &str, words: String) -> Fault {
        Fault { at: at.into(), words }
    }

    pub fn says(&self) -> String {
        format!("{}: {}", self.at, self.words)
    }
}
