//! Box-drawing characters as lines, so that no seams show between rows whatever the font.

/// From the middle of its cell: how thick the line goes left, right, up and down; 0 for none.
pub fn arms(c: char) -> Option<[u8; 4]> {
    Some(match c {
        '─' => [1, 1, 0, 0],
        '━' => [2, 2, 0, 0],
        '│' => [0, 0, 1, 1],
        '┃' => [0, 0, 2, 2],
        '┌' => [0, 1, 0, 1],
        '┐' => [1, 0, 0, 1],
        '└' => [0, 1, 1, 0],
        '┘' => [1, 0, 1, 0],
        '┏' => [0, 2, 0, 2],
        '┓' => [2, 0, 0, 2],
        '┗' => [0, 2, 2, 0],
        '┛' => [2, 0, 2, 0],
        '├' => [0, 1, 1, 1],
        '┤' => [1, 0, 1, 1],
        '┬' => [1, 1, 0, 1],
        '┴' => [1, 1, 1, 0],
        '┼' => [1, 1, 1, 1],
        _ => return None,
    })
}

/// The lines of a cell as path data, thin ones and thick ones.
pub fn path(c: char, left: f64, top: f64, wide: f64, high: f64) -> Option<(String, String)> {
    let (x, y) = (left + wide / 2.0, top + high / 2.0);
    let ends = [(left, y), (left + wide, y), (x, top), (x, top + high)];
    let mut out = (String::new(), String::new());
    for (weight, (to_x, to_y)) in arms(c)?.into_iter().zip(ends) {
        let line = format!("M{x:.1} {y:.1}L{to_x:.1} {to_y:.1}");
        match weight {
            0 => {}
            1 => out.0.push_str(&line),
            _ => out.1.push_str(&line),
        }
    }
    Some(out)
}
