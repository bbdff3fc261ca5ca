//! One bit for every dot of a drawing.

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

    /// The dots of one cell of `across` by `down` dots: row after row, the first dot in the lowest
    /// bit. A cell has at most eight dots.
    #[must_use]
    pub fn cell(&self, column: usize, row: usize, across: u8, down: u8) -> u8 {
        let (across, down) = (usize::from(across), usize::from(down));
        let (x, row_bits) = (column * across, (1u64 << across) - 1);
        if x + across > self.width {
            return 0;
        }
        let mut bits = 0u64;
        for line in 0..down {
            let y = row * down + line;
            if y >= self.height {
                break;
            }
            // Cells are one or two dots wide, so that none straddles two words.
            let word = self.words[y * self.words_per_row + x / WORD];
            bits |= (word >> (x % WORD) & row_bits) << (line * across);
        }
        bits as u8
    }

    /// Adds the dots of `other` in the given rows. Both are of one size.
    pub(super) fn add_rows(&mut self, other: &Mask, rows: std::ops::Range<usize>) {
        self.combine(other, rows, |mine, theirs| mine | theirs);
    }

    /// Takes out the dots of `other` in the given rows. Both are of one size.
    pub(super) fn remove_rows(&mut self, other: &Mask, rows: std::ops::Range<usize>) {
        self.combine(other, rows, |mine, theirs| mine & !theirs);
    }

    fn combine(&mut self, other: &Mask, rows: std::ops::Range<usize>, with: fn(u64, u64) -> u64) {
        let words = rows.start * self.words_per_row..rows.end * self.words_per_row;
        let theirs = other.words[words.clone()].iter();
        for (mine, theirs) in self.words[words].iter_mut().zip(theirs) {
            *mine = with(*mine, *theirs);
        }
    }

    /// Changes whether a dot is in the set.
    pub(super) fn flip(&mut self, x: usize, y: usize) {
        self.words[y * self.words_per_row + x / WORD] ^= 1 << (x % WORD);
    }

    /// Turns the dots of each row from places where the inside begins or ends into the inside:
    /// a dot is in when the number of set dots up to and with it is odd.
    pub(super) fn fill_between(&mut self, rows: std::ops::Range<usize>) {
        let per_row = self.words_per_row;
        for row in self.words[rows.start * per_row..rows.end * per_row].chunks_mut(per_row.max(1)) {
            let mut carry = 0u64;
            for word in row {
                for shift in [1, 2, 4, 8, 16, 32] {
                    *word ^= *word << shift;
                }
                *word ^= carry;
                carry = if *word >> (WORD - 1) == 1 { u64::MAX } else { 0 };
            }
        }
    }

    /// Takes all dots out of the given rows.
    pub(super) fn clear_rows(&mut self, rows: std::ops::Range<usize>) {
        self.words[rows.start * self.words_per_row..rows.end * self.words_per_row].fill(0);
    }
}
