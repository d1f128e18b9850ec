//! Which characters of the user's text may be shown, and how much of it within a sentence?

use std::borrow::Cow;

/// Whether a character is not seen, or makes what is seen say something else than it does: C0, C1,
/// bidirectional controls, zero-width characters, line and paragraph separators, tags and other
/// invisible format characters.
///
/// Source: Unicode Technical Report 36, Unicode Security Considerations, section 2.5; from memory.
pub fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}')
}

/// The text with a mark for each character that is hidden, so that whoever reads it sees that something stands there;
/// tabs and line ends become blanks.
pub fn marked(text: &str) -> Cow<'_, str> {
    if !text.contains(is_hidden) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.replace(['\t', '\n', '\r'], " ").replace(is_hidden, "\u{fffd}"))
}

/// Text of the user's within a sentence: its beginning, marks for what is hidden, so that a message
/// stays a line or two whatever was typed.
pub fn shorten(text: &str) -> String {
    let begin: String = text.chars().take(LONGEST_QUOTED).collect();
    let clean = marked(&begin);
    if text.chars().nth(LONGEST_QUOTED).is_some() { format!("{clean}…") } else { clean.into_owned() }
}

/// Characters of a text that are quoted in a message.
const LONGEST_QUOTED: usize = 40;
