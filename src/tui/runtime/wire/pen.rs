//! Styles, and the shortest words that change one into another.

use std::io::Write as _;

use ratatui::buffer::Cell;
use ratatui::style::{Color, Modifier};

/// What shows on a blank.
const ON_BLANK: Modifier = Modifier::REVERSED
    .union(Modifier::UNDERLINED)
    .union(Modifier::SLOW_BLINK)
    .union(Modifier::RAPID_BLINK)
    .union(Modifier::CROSSED_OUT);

/// The style of a cell, as far as it can be seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Look {
    /// The ink; nothing where none shows.
    ink: Option<Color>,
    ground: Color,
    weight: Modifier,
    /// Of which weights it matters whether they are set.
    matters: Modifier,
}

impl Look {
    /// The look of a cell.
    pub(super) fn of(cell: &Cell) -> Look {
        let matters = if cell.symbol() == " " { ON_BLANK } else { Modifier::all() };
        let weight = cell.modifier.intersection(matters);
        let no_ink = matters == ON_BLANK && weight.is_empty();
        Look { ink: (!no_ink).then_some(cell.fg), ground: cell.bg, weight, matters }
    }

    /// Whether any ink shows.
    pub(super) fn has_ink(&self) -> bool {
        self.ink.is_some()
    }

    /// Whether a pen that fits this look fits `other` too.
    pub(super) fn covers(&self, other: &Look) -> bool {
        other.ground == self.ground
            && other.ink.is_none_or(|ink| Some(ink) == self.ink)
            && self.matters.contains(other.matters)
            && self.weight.intersection(other.matters) == other.weight
    }

    /// Whether it is the look of an erased cell on every terminal: blank, without a colour.
    pub(super) fn is_bare(&self) -> bool {
        self.ink.is_none() && self.ground == Color::Reset
    }
}

/// The style in which the terminal writes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Pen {
    ink: Color,
    ground: Color,
    weight: Modifier,
}

impl Default for Pen {
    fn default() -> Pen {
        Pen { ink: Color::Reset, ground: Color::Reset, weight: Modifier::empty() }
    }
}

impl Pen {
    /// Whether a cell of this look can be written without a change.
    pub(super) fn fits(&self, look: &Look) -> bool {
        look.ink.is_none_or(|ink| ink == self.ink)
            && look.ground == self.ground
            && self.weight.intersection(look.matters) == look.weight
    }

    /// Changes the pen to fit a look.
    pub(super) fn take(&mut self, look: &Look, out: &mut Vec<u8>) {
        if self.fits(look) {
            return;
        }
        let start = out.len();
        let changed = self.changed(look, &mut Words::new(out));
        let middle = out.len();
        let afresh = Pen::afresh(look, &mut Words::new(out));
        let is_shorter = super::shorter(out, start, middle);
        *self = if is_shorter { afresh } else { changed };
    }

    /// Says what is new.
    fn changed(&self, look: &Look, words: &mut Words<'_>) -> Pen {
        let mut weight = self.weight;
        let gone = weight.intersection(look.matters).difference(look.weight);
        for (set, off) in OFF {
            if gone.intersects(set) {
                words.number(off);
                weight.remove(set);
            }
        }
        weight = add(weight, look.weight, words);
        let ink = look.ink.unwrap_or(self.ink);
        if ink != self.ink {
            colour(words, ink, 30);
        }
        if look.ground != self.ground {
            colour(words, look.ground, 40);
        }
        words.end();
        Pen { ink, ground: look.ground, weight }
    }

    /// Says all of it, after taking everything back.
    fn afresh(look: &Look, words: &mut Words<'_>) -> Pen {
        let ink = look.ink.unwrap_or(Color::Reset);
        words.number(0);
        add(Modifier::empty(), look.weight, words);
        for (wanted, first) in [(ink, 30), (look.ground, 40)] {
            if wanted != Color::Reset {
                colour(words, wanted, first);
            }
        }
        words.end();
        Pen { ink, ground: look.ground, weight: look.weight }
    }
}

/// Weights that one number takes back.
const OFF: [(Modifier, u8); 7] = [
    (Modifier::BOLD.union(Modifier::DIM), 22),
    (Modifier::ITALIC, 23),
    (Modifier::UNDERLINED, 24),
    (Modifier::SLOW_BLINK.union(Modifier::RAPID_BLINK), 25),
    (Modifier::REVERSED, 27),
    (Modifier::HIDDEN, 28),
    (Modifier::CROSSED_OUT, 29),
];

/// The numbers that set weights.
const ON: [(Modifier, u8); 9] = [
    (Modifier::BOLD, 1),
    (Modifier::DIM, 2),
    (Modifier::ITALIC, 3),
    (Modifier::UNDERLINED, 4),
    (Modifier::SLOW_BLINK, 5),
    (Modifier::RAPID_BLINK, 6),
    (Modifier::REVERSED, 7),
    (Modifier::HIDDEN, 8),
    (Modifier::CROSSED_OUT, 9),
];

fn add(weight: Modifier, wanted: Modifier, words: &mut Words<'_>) -> Modifier {
    for (set, on) in ON {
        if wanted.difference(weight).contains(set) {
            words.number(on);
        }
    }
    weight.union(wanted)
}

/// A colour of the ink (`first` is 30) or of the ground (40).
fn colour(words: &mut Words<'_>, colour: Color, first: u8) {
    let named = |index: u8| if index < 8 { first + index } else { first + 60 + index - 8 };
    match colour {
        Color::Reset => words.number(first + 9),
        Color::Rgb(r, g, b) => [first + 8, 2, r, g, b].into_iter().for_each(|n| words.number(n)),
        Color::Indexed(index) => [first + 8, 5, index].into_iter().for_each(|n| words.number(n)),
        Color::Black => words.number(named(0)),
        Color::Red => words.number(named(1)),
        Color::Green => words.number(named(2)),
        Color::Yellow => words.number(named(3)),
        Color::Blue => words.number(named(4)),
        Color::Magenta => words.number(named(5)),
        Color::Cyan => words.number(named(6)),
        Color::Gray => words.number(named(7)),
        Color::DarkGray => words.number(named(8)),
        Color::LightRed => words.number(named(9)),
        Color::LightGreen => words.number(named(10)),
        Color::LightYellow => words.number(named(11)),
        Color::LightBlue => words.number(named(12)),
        Color::LightMagenta => words.number(named(13)),
        Color::LightCyan => words.number(named(14)),
        Color::White => words.number(named(15)),
    }
}

/// The numbers of one sequence that selects a style.
struct Words<'o> {
    out: &'o mut Vec<u8>,
    begun: bool,
}

impl<'o> Words<'o> {
    fn new(out: &'o mut Vec<u8>) -> Words<'o> {
        Words { out, begun: false }
    }

    fn number(&mut self, number: u8) {
        let before = if self.begun { ";" } else { "\x1b[" };
        self.begun = true;
        // Writing to a vector cannot fail.
        let _ = write!(self.out, "{before}{number}");
    }

    fn end(&mut self) {
        if self.begun {
            self.out.push(b'm');
        }
    }
}
