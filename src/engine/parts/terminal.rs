//! Where does the end of a conductor sit: on which post, stud, contact or way, of what?

use std::fmt;

/// Which conductor of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Polarity {
    Positive,
    Negative,
}

impl Polarity {
    /// The word on papers and labels.
    pub fn word(self) -> &'static str {
        match self {
            Polarity::Positive => "positive",
            Polarity::Negative => "negative",
        }
    }

    /// The sign on papers and labels.
    pub fn sign(self) -> &'static str {
        match self {
            Polarity::Positive => "+",
            Polarity::Negative => "–",
        }
    }
}

/// Which terminal of a device or a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// The only one of its polarity: a post, a stud on which all meet, a device's plus or minus.
    Post,
    /// The one toward the battery, of what has two.
    In,
    /// The one away from it.
    Out,
    /// Behind the device of this way of a board, counted from 1.
    Way(u32),
    /// This stud of a bar, counted from 1.
    Stud(u32),
    /// A point of the vehicle's body.
    Earth,
}

/// Where an end sits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Terminal {
    /// The point, device, fuse or bar.
    pub at: String,
    /// Of which conductor.
    pub polarity: Polarity,
    /// Which of its terminals.
    pub part: Part,
}

impl Terminal {
    /// A positive one.
    pub fn plus(at: impl Into<String>, part: Part) -> Terminal {
        Terminal { at: at.into(), polarity: Polarity::Positive, part }
    }

    /// A negative one.
    pub fn minus(at: impl Into<String>, part: Part) -> Terminal {
        Terminal { at: at.into(), polarity: Polarity::Negative, part }
    }

    /// Which one, in words that a spreadsheet takes for words: `plus`, `OUT`, `way 3`, `stud 2`.
    pub fn mark(&self) -> String {
        let minus = if self.polarity == Polarity::Negative { " minus" } else { "" };
        match self.part {
            Part::Post if minus.is_empty() => "plus".into(),
            Part::Post => "minus".into(),
            Part::In => format!("IN{minus}"),
            Part::Out => format!("OUT{minus}"),
            Part::Way(n) => format!("way {n}"),
            Part::Stud(n) => format!("stud {n}"),
            Part::Earth => "earth".into(),
        }
    }

    /// Whether all that ends here goes onto one stud, so that all its lugs have one hole.
    pub fn is_one_stud(&self) -> bool {
        matches!(self.part, Part::Post | Part::In | Part::Out | Part::Earth)
    }

    /// Whether it is a stud of a bar on which negatives meet.
    pub fn is_on_negative_bar(&self) -> bool {
        self.polarity == Polarity::Negative && matches!(self.part, Part::Stud(_))
    }
}

/// `cut-off OUT`, `body by the charger`.
impl fmt::Display for Terminal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.part == Part::Earth {
            return f.write_str(&self.at);
        }
        write!(f, "{} {}", self.at, self.mark())
    }
}
