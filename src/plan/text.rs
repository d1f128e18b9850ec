//! Which characters of the user's text may be shown, and how much of it within a sentence?

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

/// Text of the user's within a sentence: its beginning, without what is hidden, so that a message
/// stays a line or two whatever was typed.
pub fn shorten(text: &str) -> String {
    let clean: String = text.chars().filter(|c| !is_hidden(*c)).take(LONGEST_QUOTED).collect();
    if text.chars().nth(LONGEST_QUOTED).is_some() { format!("{clean}…") } else { clean }
}

/// Characters of a text that are quoted in a message.
const LONGEST_QUOTED: usize = 40;
