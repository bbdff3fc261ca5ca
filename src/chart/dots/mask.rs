//! One bit for every dot of a drawing.

use std::ops::{Range, RangeInclusive};

/// Bits in a word.
const WORD: usize = 64;

/// A set of dots.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Mask {
    width: usize,
    height: usize,
    words_per_row: usize,
    words: Vec<u64>,
}

impl Mask {
    /// An empty set of dots in a drawing of this size.
    #[must_use]
    pub fn new(width: usize, height: usize) -> Mask {
        let words_per_row = width.div_ceil(WORD);
        Mask { width, height, words_per_row, words: vec![0; words_per_row * height] }
    }

    /// An empty set of dots in a drawing of another size, in the same room.
    pub fn reset(&mut self, width: usize, height: usize) {
        self.words_per_row = width.div_ceil(WORD);
        (self.width, self.height) = (width, height);
        self.words.clear();
        self.words.resize(self.words_per_row * height, 0);
    }

    /// How many dots the drawing is wide.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// How many dots the drawing is high.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// Whether a dot is in the set; one outside the drawing is not.
    #[must_use]
    pub fn get(&self, x: usize, y: usize) -> bool {
        x < self.width
            && y < self.height
            && self.words[y * self.words_per_row + x / WORD] >> (x % WORD) & 1 == 1
    }

    /// Puts a dot into the set; one outside the drawing is left out.
    pub fn set(&mut self, x: i64, y: i64) {
        let (Ok(x), Ok(y)) = (usize::try_from(x), usize::try_from(y)) else {
            return;
        };
        if x < self.width && y < self.height {
            self.words[y * self.words_per_row + x / WORD] |= 1 << (x % WORD);
        }
    }

    /// The dots of a row of cells of `across` by `down` dots, a byte for each cell: row after row,
    /// the first dot in the lowest bit. A cell is one or two dots wide and has at most eight.
    pub fn cells(&self, row: usize, (across, down): (u8, u8), into: &mut Vec<u8>) {
        let across = usize::from(across.clamp(1, 2));
        let columns = self.width / across;
        into.clear();
        into.resize(columns, 0);
        let first = row * usize::from(down);
        let lines = first..self.height.min(first + usize::from(down));
        for (line, y) in lines.enumerate() {
            let words = &self.words[y * self.words_per_row..(y + 1) * self.words_per_row];
            for (index, word) in words.iter().enumerate().filter(|(_, word)| **word != 0) {
                let start = index * WORD / across;
                let cells = into[start..].iter_mut().take(WORD / across);
                let mut left = *word;
                for cell in cells {
                    *cell |= ((left & ((1 << across) - 1)) << (line * across)) as u8;
                    left >>= across;
                }
            }
        }
    }

    /// The words that hold the given rows and columns.
    pub(super) fn block(&self, rows: Range<usize>, columns: RangeInclusive<usize>) -> Block {
        let end = (columns.end() / WORD + 1).min(self.words_per_row);
        Block { rows, words: (columns.start() / WORD).min(end)..end }
    }

    /// Adds the dots of `other` in a block. Both are of one size.
    pub(super) fn add(&mut self, other: &Mask, block: &Block) {
        self.combine(other, block, |mine, theirs| mine | theirs);
    }

    /// Takes out the dots of `other` in a block. Both are of one size.
    pub(super) fn remove(&mut self, other: &Mask, block: &Block) {
        self.combine(other, block, |mine, theirs| mine & !theirs);
    }

    fn combine(&mut self, other: &Mask, block: &Block, with: fn(u64, u64) -> u64) {
        for words in block.ranges(self.words_per_row) {
            let theirs = &other.words[words.clone()];
            for (mine, theirs) in self.words[words].iter_mut().zip(theirs) {
                *mine = with(*mine, *theirs);
            }
        }
    }

    /// Changes whether a dot is in the set.
    pub(super) fn flip(&mut self, x: usize, y: usize) {
        self.words[y * self.words_per_row + x / WORD] ^= 1 << (x % WORD);
    }

    /// Turns the dots of each row of a block from places where the inside begins or ends into the
    /// inside: a dot is in when the number of set dots up to and with it is odd.
    pub(super) fn fill_between(&mut self, block: &Block) {
        for words in block.ranges(self.words_per_row) {
            let mut carry = 0u64;
            for word in &mut self.words[words] {
                for shift in [1, 2, 4, 8, 16, 32] {
                    *word ^= *word << shift;
                }
                *word ^= carry;
                carry = if *word >> (WORD - 1) == 1 { u64::MAX } else { 0 };
            }
        }
    }

    /// Puts all dots of a block into the set.
    pub(super) fn fill(&mut self, block: &Block) {
        for words in block.ranges(self.words_per_row) {
            self.words[words].fill(u64::MAX);
        }
    }

    /// Takes all dots out of a block.
    pub(super) fn clear(&mut self, block: &Block) {
        for words in block.ranges(self.words_per_row) {
            self.words[words].fill(0);
        }
    }
}

/// For every dot a small count, which may fall below nothing: from -8 to 7.
#[derive(Debug, Clone, Default)]
pub(super) struct Depth {
    /// The bits of the counts in two's complement, the lowest first.
    planes: [Mask; 4],
}

impl Depth {
    pub(super) fn reset(&mut self, width: usize, height: usize) {
        self.planes.iter_mut().for_each(|plane| plane.reset(width, height));
    }

    /// Counts the dots of `mask` in a block up, or down.
    pub(super) fn count(&mut self, mask: &Mask, block: &Block, up: bool) {
        for word in block.ranges(mask.words_per_row).flatten() {
            let mut carry = mask.words[word];
            for plane in &mut self.planes {
                let bits = &mut plane.words[word];
                let before = *bits;
                *bits ^= carry;
                carry &= if up { before } else { !before };
            }
        }
    }

    /// Adds the dots with a count above nothing to `mask`, which is of the same size.
    pub(super) fn add_to(&self, mask: &mut Mask) {
        let [ones, twos, fours, negative] = &self.planes;
        for (index, word) in mask.words.iter_mut().enumerate() {
            let any = ones.words[index] | twos.words[index] | fours.words[index];
            *word |= any & !negative.words[index];
        }
    }
}

/// A part of a mask: some words of some rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Block {
    rows: Range<usize>,
    words: Range<usize>,
}

impl Block {
    fn ranges(&self, words_per_row: usize) -> impl Iterator<Item = Range<usize>> {
        let words = self.words.clone();
        let start = move |row: usize| row * words_per_row;
        self.rows.clone().map(move |row| start(row) + words.start..start(row) + words.end)
    }
}
