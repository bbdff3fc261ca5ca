//! The signs of the screen in characters of every keyboard, for a font that has no others.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Puts a plain character in place of every sign that the view itself writes. Letters in names
/// stay as they are.
pub(super) fn plain(area: Rect, buffer: &mut Buffer) {
    for position in area.intersection(buffer.area).positions() {
        let cell = &mut buffer[position];
        let mut chars = cell.symbol().chars();
        if let (Some(sign), None) = (chars.next(), chars.next())
            && let Some(plain) = in_plain(sign)
        {
            cell.set_char(plain);
        }
    }
}

/// The plain character for a sign, as wide as the sign.
fn in_plain(sign: char) -> Option<char> {
    Some(match sign {
        '─' | '–' => '-',
        '│' => '|',
        '┌' | '┐' | '└' | '┘' => '+',
        '▸' | '›' => '>',
        '…' => '~',
        '·' => '.',
        '×' => 'x',
        '▁' => '1',
        '▂' => '2',
        '▃' => '3',
        '▄' => '4',
        '▅' => '5',
        '▆' => '6',
        '▇' => '7',
        '█' => '8',
        '»' => '}',
        '‹' => '<',
        '«' => '{',
        '↑' | '⇑' | '▲' => '^',
        '↓' | '⇓' | '▼' => 'v',
        '┬' | '╵' => '+',
        '○' | '●' => 'o',
        '≈' => '%',
        '‖' => 'H',
        '╫' => '#',
        '°' => ' ',
        '′' => '\'',
        '″' | '“' | '”' => '"',
        '±' => '+',
        '▓' => '#',
        '░' => ':',
        _ => return None,
    })
}
