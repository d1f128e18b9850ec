//! Inputs from inputs: bits and numbers changed, parts cut, doubled, moved, put in from others.

use rand::seq::IndexedRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::collections::BTreeSet;

/// Longest input; longer ones only take longer.
const LONGEST: usize = 60_000;

/// Inputs that are kept at most beside those it begins with.
const LEARNT: usize = 2_000;

/// Numbers at which something may give way.
const NUMBERS: &[&str] = &[
    "0",
    "-0",
    "-1",
    "1e308",
    "1e-308",
    "5e-324",
    "1e999",
    "nan",
    "inf",
    "-inf",
    "0.1",
    "2147483648",
    "18446744073709551616",
    "1_000",
    "007",
    "1,5",
    ".5",
    "1e",
    "0x10",
    "99999999999999999999.9",
];

/// Text that lies, or ends what it stands in.
const SIGNS: &[&str] = &[
    "\u{202e}",
    "\u{200b}",
    "\u{feff}",
    "\u{0}",
    "\u{9b}",
    "\r\n",
    "\t",
    "\"",
    "'",
    "\"\"\"",
    "\\u{110000}",
    "\\",
    "[",
    "]",
    "[[",
    "{",
    "}",
    "=",
    "#",
    ",",
    ";",
    "é",
    "冷",
    "²",
    "\u{fffd}",
];

/// The pool, and the dice.
pub struct Dough {
    pool: Vec<Vec<u8>>,
    words: Vec<Vec<u8>>,
    seen: BTreeSet<u64>,
    most: usize,
    dice: ChaCha8Rng,
}

impl Dough {
    pub fn new(seeds: Vec<Vec<u8>>, words: &[&str], start: u64) -> Dough {
        let words = words.iter().chain(NUMBERS).chain(SIGNS).map(|w| w.as_bytes().to_vec()).collect();
        let most = seeds.len() + LEARNT;
        Dough { pool: seeds, words, seen: BTreeSet::new(), most, dice: ChaCha8Rng::seed_from_u64(start) }
    }

    /// An input: one of the pool, changed in one place or several.
    pub fn next(&mut self) -> Vec<u8> {
        let mut input = self.pool.choose(&mut self.dice).unwrap().clone();
        for _ in 0..1 + self.dice.random_range(0..4) * self.dice.random_range(0..4) {
            self.change(&mut input);
        }
        input.truncate(LONGEST);
        input
    }

    /// What had an outcome that was not seen before is kept.
    pub fn learn(&mut self, input: Vec<u8>, outcome: u64) {
        if self.seen.insert(outcome) && self.pool.len() < self.most {
            self.pool.push(input);
        }
    }

    pub fn outcomes(&self) -> usize {
        self.seen.len()
    }

    fn spot(&mut self, input: &[u8]) -> usize {
        self.dice.random_range(0..=input.len())
    }

    /// A part of it, mostly short.
    fn part(&mut self, input: &[u8]) -> std::ops::Range<usize> {
        let from = self.spot(input);
        let most = if self.dice.random_bool(0.8) { 12 } else { input.len() };
        let to = (from + self.dice.random_range(0..=most)).min(input.len());
        from..to
    }

    fn change(&mut self, input: &mut Vec<u8>) {
        match self.dice.random_range(0..9) {
            0 if !input.is_empty() => {
                let at = self.dice.random_range(0..input.len());
                input[at] ^= 1 << self.dice.random_range(0..8);
            }
            1 => drop(input.drain(self.part(input))),
            2 => {
                let part = input[self.part(input)].to_vec();
                let at = self.spot(input);
                input.splice(at..at, part);
            }
            3 => {
                let other = self.pool.choose(&mut self.dice).unwrap().clone();
                let part = other[self.part(&other)].to_vec();
                let place = self.part(input);
                input.splice(place, part);
            }
            4 => input.truncate(self.spot(input)),
            5 | 6 => self.number(input),
            _ => {
                let word = self.words.choose(&mut self.dice).unwrap().clone();
                let at = self.spot(input);
                input.splice(at..at, word);
            }
        }
    }

    /// Another number in the place of one that is there.
    fn number(&mut self, input: &mut Vec<u8>) {
        let from = self.spot(input);
        let Some(first) = input[from..].iter().position(u8::is_ascii_digit).map(|n| from + n) else { return };
        let rest = input[first..].iter().position(|b| !(b.is_ascii_digit() || *b == b'.'));
        let last = rest.map_or(input.len(), |n| first + n);
        let new = NUMBERS.choose(&mut self.dice).unwrap().bytes();
        input.splice(first..last, new);
    }
}
