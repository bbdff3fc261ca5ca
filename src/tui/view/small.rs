//! What stands on a screen that is too small for a chart: what it needs.

use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};

use super::ink::{self, Pen};
use super::inks::Inks;
use crate::layout::LEAST;

/// Says in the middle of `area` how large the screen has to be, in the longest form that fits.
pub(super) fn draw(area: Rect, inks: &Inks, buffer: &mut Buffer) {
    let by = |size: Size| format!("{}×{}", size.width, size.height);
    let (needs, has) = (by(LEAST), by(area.as_size()));
    let forms = [
        format!("The chart needs {needs}; this screen has {has}. Make it larger: nothing is lost."),
        format!("needs {needs}, has {has}"),
        needs,
    ];
    let fits = |lines: &Vec<String>| {
        lines.len() <= usize::from(area.height)
            && lines.iter().all(|line| ink::width(line) <= area.width)
    };
    let wrapped = forms.iter().map(|form| ink::wrapped(form, area.width.min(44)));
    // Where not even the figures fit they are cut.
    let Some(lines) = wrapped.clone().find(fits).or_else(|| wrapped.clone().next_back()) else {
        return;
    };
    let rows = u16::try_from(lines.len()).unwrap_or(u16::MAX).min(area.height);
    let top = area.y + (area.height - rows) / 2;
    let mut pen = Pen::new(buffer, Rect { y: top, height: rows, ..area });
    for line in &lines {
        let left = area.width.saturating_sub(ink::width(line)) / 2;
        pen.skip(left).write(line, inks.plain).down();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(width: u16, height: u16) -> Vec<String> {
        let area = Rect::new(0, 0, width, height);
        let mut buffer = Buffer::empty(area);
        draw(area, &Inks::new(&crate::theme::Theme::default()), &mut buffer);
        let row = |y| (0..width).map(|x| buffer[(x, y)].symbol()).collect::<String>();
        (0..height).map(|y| row(y).trim_end().to_owned()).collect()
    }

    #[test]
    fn it_says_what_it_needs_as_long_as_there_is_a_cell() {
        assert_eq!(shown(10, 3), ["  needs", "60×20, has", "   10×3"]);
        assert_eq!(shown(5, 1), ["60×20"]);
        assert_eq!(shown(4, 2), ["60×…", ""]);
        assert_eq!(shown(59, 4)[1].trim(), "The chart needs 60×20; this screen has 59×4.");
        assert!(shown(0, 0).is_empty());
    }
}
