//! The last resort for terminals and fonts without more: every sign on the window becomes ASCII.

use ratatui::buffer::Buffer;

/// Replace what is not ASCII, cell by cell, so that nothing moves.
pub fn only(buffer: &mut Buffer) {
    for cell in &mut buffer.content {
        if !cell.symbol().is_ascii() {
            let sign = cell.symbol().chars().next().map_or(' ', instead);
            cell.set_char(sign);
        }
    }
}

fn instead(c: char) -> char {
    match c {
        '─' | '━' | '–' | '—' | '−' => '-',
        '│' | '┃' | '╎' => '|',
        '═' => '=',
        '┌' | '┐' | '└' | '┘' | '├' | '┤' | '┬' | '┴' | '┼' | '╞' | '╡' | '┏' | '┓' | '┗' | '┛' => {
            '+'
        }
        '→' | '›' | '▸' | '▶' => '>',
        '←' | '‹' | '◂' => '<',
        '↑' => '^',
        '↓' => 'v',
        '²' => '2',
        '³' => '3',
        '·' | '…' | '•' => '.',
        '×' => 'x',
        'µ' => 'u',
        'Ω' => 'O',
        '°' => 'o',
        '“' | '”' => '"',
        '‘' | '’' => '\'',
        'ä' | 'à' | 'á' | 'â' | 'ã' | 'å' => 'a',
        'é' | 'è' | 'ê' | 'ë' => 'e',
        'ö' | 'ó' | 'ò' | 'ô' | 'õ' | 'ø' => 'o',
        'ü' | 'ú' | 'ù' | 'û' => 'u',
        'í' | 'ì' | 'î' | 'ï' => 'i',
        'ñ' => 'n',
        'ç' => 'c',
        'ß' => 's',
        '\u{2800}'..='\u{28FF}' => '.',
        '▐' => '[',
        '▌' => ']',
        '█' | '▓' | '▒' | '░' | '■' => '#',
        _ => '?',
    }
}
