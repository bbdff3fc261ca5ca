//! Cells that are drawn into.

/// The sign of the right answer, and that of one that was given.
pub(super) const RIGHT: &str = "◎";
pub(super) const GIVEN: &str = "⊗";

/// What a piece of a drawing is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Ink {
    /// Words, and what is to be looked at.
    #[default]
    Plain,
    /// Lines and scales, which stand back.
    Quiet,
    /// The right answer.
    Answer,
    /// The answer that was given.
    Yours,
}

/// Characters of one ink, each a column wide.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The characters.
    pub text: String,
    /// Their ink.
    pub ink: Ink,
}

/// So many columns and rows, blank at first.
#[derive(Debug, Clone)]
pub(super) struct Canvas(Vec<Vec<(char, Ink)>>);

impl Canvas {
    pub(super) fn new(columns: usize, rows: usize) -> Canvas {
        Canvas(vec![vec![(' ', Ink::Plain); columns]; rows])
    }

    /// Puts characters from a column on; what lies beyond an edge is left out.
    pub(super) fn put(&mut self, column: usize, row: usize, text: &str, ink: Ink) {
        let cells = self.0.get_mut(row).into_iter().flatten().skip(column);
        for (cell, c) in cells.zip(text.chars()) {
            *cell = (c, ink);
        }
    }

    /// The same again and again, so many times.
    pub(super) fn fill(&mut self, (column, row): (usize, usize), times: usize, c: &str, ink: Ink) {
        self.put(column, row, &c.repeat(times), ink);
    }

    /// Where words of a width may stand about a column in some rows, a blank on both sides of them: as near to it as
    /// there is room.
    pub(super) fn place(
        &self,
        about: usize,
        width: usize,
        rows: std::ops::Range<usize>,
    ) -> Option<usize> {
        let last = self.0.first()?.len().checked_sub(width)?;
        let wished = about.saturating_sub(width / 2).min(last);
        let free = |column: &usize| {
            let cells = column.saturating_sub(1)..(column + width + 1);
            let mut of_rows = self.0.get(rows.clone()).into_iter().flatten();
            of_rows
                .all(|row| row.iter().take(cells.end).skip(cells.start).all(|cell| cell.0 == ' '))
        };
        let near = (0..=width).flat_map(|off| [wished.checked_sub(off), Some(wished + off)]);
        near.flatten().filter(|column| *column <= last).find(free)
    }

    /// The rows as pieces, without what is blank at their ends.
    pub(super) fn rows(self, plain: bool) -> Vec<Vec<Piece>> {
        self.0.into_iter().map(|row| pieces(&row, plain)).collect()
    }
}

fn pieces(row: &[(char, Ink)], plain: bool) -> Vec<Piece> {
    let end = row.iter().rposition(|cell| cell.0 != ' ').map_or(0, |last| last + 1);
    let runs = row[..end].chunk_by(|one, other| one.1 == other.1);
    let text = |run: &[(char, Ink)]| {
        run.iter().map(|(c, _)| if plain { in_plain(*c) } else { *c }).collect()
    };
    runs.map(|run| Piece { text: text(run), ink: run.first().map_or(Ink::Plain, |cell| cell.1) })
        .collect()
}

/// A character of every keyboard in place of one that is drawn with.
fn in_plain(c: char) -> char {
    match c {
        '─' => '-',
        '│' => '|',
        '┌' | '┬' | '┐' | '├' | '┼' | '┤' | '└' | '┴' | '┘' => '+',
        '┄' | '▄' => ':',
        '█' | '╔' | '╗' | '╚' | '╝' => '#',
        '═' => '=',
        '║' => 'H',
        '╍' => '~',
        '╏' => '!',
        '◎' => 'O',
        '⊗' => 'X',
        '○' => 'o',
        '●' => '*',
        '×' => 'x',
        '▲' => '^',
        '▼' => 'v',
        '◀' => '<',
        '▶' => '>',
        '−' => '-',
        '′' => '\'',
        '°' => ' ',
        c => c,
    }
}
