//! What number stands in a cell?

/// A number with a decimal point or comma; a unit behind it is passed over. None for what is not finite.
pub fn number(text: &str, comma: bool) -> Option<f64> {
    let text = text.trim().trim_start_matches('+');
    let text = text.trim_end_matches(|c: char| c.is_alphabetic() || matches!(c, '%' | '°' | ' '));
    let starts = |c: char| c.is_ascii_digit() || matches!(c, '-' | '.' | ',');
    if !text.starts_with(starts) {
        return None;
    }
    let value = if comma && text.contains(',') {
        if text.contains('.') {
            return None;
        }
        text.replacen(',', ".", 1).parse::<f64>().ok()
    } else {
        text.parse::<f64>().ok()
    };
    value.filter(|v| v.is_finite())
}
