//! Reading what the scripts have stored.

/// The lines of a stored file without its remarks, in words.
pub fn lines(text: &str, separator: char) -> impl Iterator<Item = Vec<&str>> {
    text.lines().filter(|l| !l.starts_with('#')).map(move |l| l.split(separator).collect())
}

/// Words as numbers; `None` where one is none.
pub fn numbers(words: &[&str]) -> Option<Vec<f64>> {
    words.iter().map(|w| w.parse().ok()).collect()
}

/// Tables of numbers, each begun by a line of words.
pub fn tables(text: &str) -> Vec<Vec<Vec<f64>>> {
    let mut all: Vec<Vec<Vec<f64>>> = Vec::new();
    for line in lines(text, ',') {
        match numbers(&line) {
            Some(row) => all.last_mut().unwrap().push(row),
            None => all.push(Vec::new()),
        }
    }
    all
}
